/** Each frame and sash as it was measured: sides and diagonals against what they should be, drawn with the error magnified. */

import { plain } from '../base/text.js';
import { asMeasured, asMeasuredSvg, asMeasuredText } from '../measure/asmeasured.js';
import { solveSquare, toolsOf, valuesOf } from '../measure/square.js';
import { mean } from '../measure/stats.js';
import type { Instrument } from '../measure/types.js';
import type { RouteCheck } from '../procedure/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { AsMeasuredView, ReadingView } from './schema.js';
import { figure, readingsOf, size, stepTitle } from './words.js';

export function measuredViews(state: UnitState, instruments: readonly Instrument[]): AsMeasuredView[] {
  return [...state.steps.values()].flatMap(({ step, checks }) =>
    step.checks.flatMap((check) => {
      const answer = checks.find(({ id }) => id === check.id)?.answered?.answer;
      if (check.kind !== 'square' || answer?.kind !== 'square') return [];
      const title = stepTitle(step);
      const readings = readingsOf(answer, check);
      const solution = solveSquare(valuesOf(answer.readings), toolsOf(answer.readings, instruments));
      const frame = asMeasured(solution, check.nominal);
      return [
        {
          title,
          alt: `${title}, as measured: ${factsOf(check, means(readings)).join('; ')}`,
          svg: frame ? asMeasuredSvg(frame, { width: 420, height: 260 }) : '',
          text: frame ? asMeasuredText(frame, { columns: 76, rows: 18, ascii: true }) : [],
          facts: [...factsOf(check, means(readings)), ...(frame ? [plain(frame.caption)] : [])],
        },
      ];
    }),
  );
}

function factsOf(check: RouteCheck, read: ReadonlyMap<string, number>): string[] {
  const { nominal } = check;
  const of = (name: string, other: string, wanted: number | undefined): string[] => {
    const [a, b] = [read.get(name), read.get(other)];
    if (a === undefined || b === undefined) return [];
    const against = wanted === undefined ? '' : ` (nominal ${figure(Math.round(wanted * 10) / 10)})`;
    return [
      `${name} ${figure(a)} mm, ${other} ${figure(b)} mm${against}, difference ${figure(Math.abs(a - b))} mm`,
    ];
  };
  return [
    ...(nominal ? [`Nominal ${size(nominal.w, nominal.h)}`] : []),
    ...of('top', 'bottom', nominal?.w),
    ...of('left', 'right', nominal?.h),
    ...of(
      'bottom left to top right',
      'bottom right to top left',
      nominal ? Math.hypot(nominal.w, nominal.h) : undefined,
    ),
  ];
}

/** Repeated readings of one side count by their mean, as they do in the verdict. */
function means(readings: readonly ReadingView[]): Map<string, number> {
  const all = new Map<string, number[]>();
  for (const { what, value } of readings)
    if (value !== undefined) all.set(what, [...(all.get(what) ?? []), value]);
  return new Map([...all].map(([what, values]) => [what, mean(values)]));
}
