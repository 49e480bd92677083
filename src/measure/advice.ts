/** Advice from measurements: which corner to push and how far, which member to inspect, and what goes undetected. */
import { figure, signed } from './decision.js';
import { LENGTH_NAMES } from './misread.js';
import { equalDiagonal } from './quadrilateral.js';
import { type Nominal, nominalOf, type SquareSolution } from './square.js';
import type { SquareKey } from './types.js';

export interface AdviceOptions {
  readonly nominal?: Nominal;
  /** The corner sealant has set: no more pushing. */
  readonly cured?: boolean;
  /** Difference between opposite sides above which a member is named, mm. */
  readonly sidesEqual?: number;
  /** Difference of diagonals up to which no push is needed, mm. */
  readonly leave?: number;
}

export const UNSEEN =
  'Diagonals do not show bow, twist or a lifted corner: check those on the flat bench with straight-edge and feeler.';
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
  if (solution.assumed && kind !== 'too-few')
    says.push('No instrument was named: a class II tape read to the millimetre is assumed.');
  if (difference !== undefined && differenceU !== undefined)
    says.push(`Difference of diagonals ${figure(Math.abs(difference))} mm (U = ${figure(2 * differenceU)}).`);
  if (racking !== undefined && rackingU !== undefined)
    says.push(
      `Racking ${figure(Math.abs(racking))} mm over the height (U = ${figure(2 * rackingU)})` +
        `${Math.abs(racking) < 0.05 ? '.' : `, the top stands to the ${racking > 0 ? 'right' : 'left'}.`}`,
    );
  if (taper?.width !== undefined) says.push(`Top less bottom ${signed(taper.width)} mm.`);
  if (taper?.height !== undefined) says.push(`Right less left ${signed(taper.height)} mm.`);
  const cannot: Record<typeof kind, string> = {
    six: '',
    five: 'Five readings fix the figure and check nothing: a misread would not show. The sixth reading would show it.',
    sizes:
      'With two sizes, opposite sides are taken as equal: a taper is not seen, and equal diagonals would not prove square.',
    diagonals:
      racking === undefined
        ? 'Two diagonals alone give their difference: neither sizes, nor taper, nor how far a corner is out.'
        : 'Diagonals without all four sides do not show a taper, and a misread would not show.',
    'too-few': 'Nothing can be said of squareness without both diagonals.',
    impossible: 'These readings give no figure at all.',
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
  const says = `The diagonal ${name} is long by ${figure(size)} mm.`;
  if (cured)
    return [
      says,
      'The corners have set: a cured corner is not to be forced, its seal would break where nobody sees it. Raise a snag; a corner is cut out and replaced, or conceded by who may.',
    ];
  const corner = difference > 0 ? 'top right' : 'top left';
  const way = difference > 0 ? 'left' : 'right';
  const far =
    racking === undefined
      ? ''
      : `: the ${corner} corner goes about ${figure(Math.abs(racking))} mm to the ${way} with the bottom held`;
  const aim =
    (solution.adjusted && equalDiagonal(solution.adjusted)) ??
    (measured.bl_tr !== undefined && measured.br_tl !== undefined
      ? Math.hypot(measured.bl_tr, measured.br_tl) / Math.SQRT2
      : undefined);
  return [
    says,
    `Push it in at its two ends before the sealant sets${far}.`,
    ...(aim === undefined
      ? []
      : [
          `Aim for ${aim.toFixed(1)} on both diagonals; go a little past, it springs back, and measure again when it is let go.`,
        ]),
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
    const which =
      nominal === undefined || measured[long] === undefined || measured[short] === undefined
        ? `either the ${long} is long or the ${short} is short`
        : Math.abs(off(long) - off(short)) < SAME_OFF
          ? `both are off their size, by ${figure(off(long))} and ${figure(off(short))} mm`
          : off(long) > off(short)
            ? `the ${long} is the one off its size`
            : `the ${short} is the one off its size`;
    return [
      `The ${long} is ${figure(Math.abs(apart))} mm longer than the ${short}: ${which}. No pushing will cure that: measure both at both ends, then look for swarf in the mitre, a cleat not home, or a piece cut wrong.`,
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
    `Both diagonals are ${off[0]! > 0 ? 'longer' : 'shorter'} than the computed ${expected.toFixed(1)} by more than ${SIZE_ERROR} mm: that is a size error, look at the sides.`,
  ];
}
