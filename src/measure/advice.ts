/** Advice from measurements: which corner to push and how far, which member to inspect, and what goes undetected. */
import { figure, signed } from './decision.js';
import { LENGTH_NAMES } from './misread.js';
import { equalDiagonal } from './quadrilateral.js';
import { type Nominal, nominalOf, type SquareSolution } from './square.js';
import type { SquareKey } from './types.js';
import { measureSays } from './words.js';

export interface AdviceOptions {
  readonly nominal?: Nominal;
  /** The corner sealant has set: no more pushing. */
  readonly cured?: boolean;
  /** Difference between opposite sides above which a member is named, mm. */
  readonly sidesEqual?: number;
  /** Difference of diagonals up to which no push is needed, mm. */
  readonly leave?: number;
}

export const UNSEEN = measureSays('unseen');
const SIZE_ERROR = 2;
/** Two members whose errors differ by less are both blamed, mm: a reading does not tell them apart. */
const SAME_OFF = 0.5;

/** What to do next, in order; always ends with what diagonals cannot show. */
export function squareAdvice(solution: SquareSolution, options: AdviceOptions = {}): string[] {
  return [...members(solution, options), ...push(solution, options), ...sizeError(solution, options), UNSEEN];
}

/** Plain sentences on what these readings show, and what they cannot. */
export function squareSays(solution: SquareSolution): string[] {
  const { kind, racking, rackingU, taper, difference, differenceU } = solution;
  const says: string[] = [];
  if (solution.assumed && kind !== 'too-few') says.push(measureSays('tape-assumed'));
  if (difference !== undefined && differenceU !== undefined)
    says.push(
      measureSays('shows-diagonals', { apart: figure(Math.abs(difference)), U: figure(2 * differenceU) }),
    );
  if (racking !== undefined && rackingU !== undefined)
    says.push(
      measureSays(
        Math.abs(racking) < 0.05
          ? 'shows-racking'
          : racking > 0
            ? 'shows-racking-right'
            : 'shows-racking-left',
        { apart: figure(Math.abs(racking)), U: figure(2 * rackingU) },
      ),
    );
  if (taper?.width !== undefined) says.push(measureSays('shows-taper-width', { off: signed(taper.width) }));
  if (taper?.height !== undefined)
    says.push(measureSays('shows-taper-height', { off: signed(taper.height) }));
  const cannot: Record<typeof kind, string> = {
    six: '',
    five: measureSays('cannot-five'),
    sizes: measureSays('cannot-sizes'),
    diagonals:
      racking === undefined ? measureSays('cannot-diagonals-alone') : measureSays('cannot-diagonals'),
    'too-few': measureSays('cannot-too-few'),
    impossible: measureSays('cannot-impossible'),
  };
  return cannot[kind] === '' ? says : [...says, cannot[kind]];
}

function push(solution: SquareSolution, { cured, leave }: AdviceOptions): string[] {
  const { difference, differenceU, racking, measured } = solution;
  if (difference === undefined || differenceU === undefined || solution.kind === 'impossible') return [];
  const size = Math.abs(difference);
  if (size <= Math.max(2 * differenceU, leave ?? 0)) return [];
  const long: SquareKey = difference > 0 ? 'bl_tr' : 'br_tl';
  const name = LENGTH_NAMES[long];
  const says = measureSays('push-long', { diagonal: name, by: figure(size) });
  if (cured) return [says, measureSays('push-set')];
  const aim =
    (solution.adjusted && equalDiagonal(solution.adjusted)) ??
    (measured.bl_tr !== undefined && measured.br_tl !== undefined
      ? Math.hypot(measured.bl_tr, measured.br_tl) / Math.SQRT2
      : undefined);
  return [
    says,
    racking === undefined
      ? measureSays('push-in')
      : measureSays(difference > 0 ? 'push-in-left' : 'push-in-right', { by: figure(Math.abs(racking)) }),
    ...(aim === undefined ? [] : [measureSays('push-aim', { aim: aim.toFixed(1) })]),
  ];
}

function members(solution: SquareSolution, { nominal, sidesEqual = 1 }: AdviceOptions): string[] {
  const { taper, measured } = solution;
  const pairs: [number | undefined, SquareKey, SquareKey][] = [
    [taper?.width, 'top', 'bottom'],
    [taper?.height, 'right', 'left'],
  ];
  return pairs.flatMap(([found, first, second]) => {
    const [a, b] = [measured[first], measured[second]];
    const apart = a === undefined || b === undefined ? found : a - b;
    if (apart === undefined || Math.abs(apart) <= sidesEqual + 1e-6) return [];
    const [long, short] = apart > 0 ? [first, second] : [second, first];
    const off = (key: SquareKey) => Math.abs(measured[key]! - nominalOf(key, nominal!));
    const told = { long: LENGTH_NAMES[long], by: figure(Math.abs(apart)), short: LENGTH_NAMES[short] };
    if (nominal === undefined || measured[long] === undefined || measured[short] === undefined)
      return [measureSays('member-either', told)];
    if (Math.abs(off(long) - off(short)) < SAME_OFF)
      return [
        measureSays('member-both', { ...told, offLong: figure(off(long)), offShort: figure(off(short)) }),
      ];
    return [
      measureSays('member-one', {
        ...told,
        which: LENGTH_NAMES[off(long) > off(short) ? long : short],
      }),
    ];
  });
}

function sizeError({ measured }: SquareSolution, { nominal }: AdviceOptions): string[] {
  const { bl_tr, br_tl } = measured;
  if (!nominal || bl_tr === undefined || br_tl === undefined) return [];
  const expected = Math.hypot(nominal.w, nominal.h);
  const off = [bl_tr - expected, br_tl - expected];
  const all = (test: (x: number) => boolean) => off.every(test);
  if (!all((x) => x > SIZE_ERROR) && !all((x) => x < -SIZE_ERROR)) return [];
  return [
    measureSays(off[0]! > 0 ? 'sizes-longer' : 'sizes-shorter', {
      size: expected.toFixed(1),
      by: String(SIZE_ERROR),
    }),
  ];
}
