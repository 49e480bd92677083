/** Which window this is: identity, sizes and lights, from its set-out. */
import { sanitize } from '../base/text.js';
import { asMeasured, asMeasuredSvg, asMeasuredText } from '../measure/asmeasured.js';
import { solveSquare, toolsOf, valuesOf } from '../measure/square.js';
import { mean } from '../measure/stats.js';
import type { RouteCheck } from '../procedure/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { LightSetOut, SetOut } from '../window/types.js';
import type { RecordBasis } from './basis.js';
import type { AsMeasuredView, ReadingView, RecordView } from './schema.js';
import { figureText3, kilograms, readingsOf, size, stepHeading } from './words.js';

/** @param order title and revision of the order; undefined in records that did not name it */
export function unitView(
  state: UnitState,
  setOut: SetOut | undefined,
  customer: string,
  order?: string,
): RecordView['unit'] {
  const unit = setOut?.unit;
  const opened = state.events.find((event) => event.kind === 'opened');
  const { procedure } = state.route;
  return {
    id: sanitize(state.unit),
    mark: sanitize(unit?.mark ?? state.unit.replace(/-\d+$/, '')),
    number: unit?.number ?? Number(/-(\d+)$/.exec(state.unit)?.[1] ?? 1),
    // Of a unit that is not begun the journal names no job.
    job: sanitize(state.job || (unit?.job ?? '')),
    customer: sanitize(customer),
    ...(order === undefined || order === '' ? {} : { order: sanitize(order) }),
    room: sanitize(unit?.room ?? ''),
    note: sanitize(unit?.note ?? ''),
    ...(unit ? { width: unit.width, height: unit.height } : {}),
    sentence: setOut ? unitSentence(setOut) : '',
    ...(setOut ? { mass: setOut.mass_kg } : {}),
    lift: sanitize(setOut?.lift ?? ''),
    outsideColour: sanitize(unit?.outsideColour ?? ''),
    insideColour: sanitize(unit?.insideColour ?? ''),
    profileSet: sanitize(setOut?.profileSet.title ?? (opened?.kind === 'opened' ? opened.profileSet : '')),
    invented: setOut?.profileSet.invented ?? false,
    procedure: sanitize(`${procedure.title}, version ${procedure.version}`),
    needs: [
      ...(unit?.needs.escape ? ['escape window'] : []),
      ...(unit?.needs.restrictor ? ['opening restrictor'] : []),
      ...(unit?.needs.safetyGlass ? ['safety glass'] : []),
      ...(unit?.fittings ?? []).map((fitting) => fitting.replaceAll('-', ' ')),
    ],
    lights: (setOut?.lights ?? []).map(lightView),
    ...(opened?.kind === 'opened' && opened.replaces !== undefined
      ? { replaces: sanitize(opened.replaces) }
      : {}),
    ...(state.replacement === undefined ? {} : { replacedBy: sanitize(state.replacement) }),
  };
}

/** "One light: hinged left, seen from outside, opens out." or each light by its name. */
export function unitSentence(setOut: SetOut): string {
  const [only, ...others] = setOut.lights;
  if (only && others.length === 0) return `One light: ${sanitize(only.sentence)}`;
  return `${setOut.lights.length} lights: ${setOut.lights.map(({ id, sentence }) => `${id} ${sanitize(sentence)}`).join('; ')}`;
}

const KINDS = { fixed: 'fixed', 'top-hung': 'top-hung', 'side-hung': 'side-hung' } as const;

const lightView = (light: LightSetOut): RecordView['unit']['lights'][number] => ({
  id: sanitize(light.id),
  kind: KINDS[light.kind],
  sentence: sanitize(light.sentence),
  sight: size(light.sight.w, light.sight.h),
  ...(light.sash ? { sash: `${size(light.sash.w, light.sash.h)}, ${kilograms(light.sash.mass_kg)}` } : {}),
  glass: sanitize(light.glass.title),
  glassSize: `${size(light.glass.w, light.glass.h)}, ${figureText3(light.glass.thickness)} mm thick, ${kilograms(light.glass.mass_kg)}`,
});

// Each frame and sash as measured: sides and diagonals against nominal, drawn with the error magnified.

export function measuredViews(state: UnitState, basis: RecordBasis): AsMeasuredView[] {
  return [...state.steps.values()].flatMap(({ step, checks }) =>
    step.checks.flatMap((check) => {
      const answered = checks.find(({ id }) => id === check.id)?.answered;
      const answer = answered?.answer;
      const event = answered && state.events[answered.n - 1];
      if (check.kind !== 'square' || answer?.kind !== 'square' || !event) return [];
      const title = stepHeading(step);
      const readings = readingsOf(answer, check);
      const used = new Set(Object.values(answer.readings).flatMap((all) => all[0]?.instrument ?? []));
      const tools = [...used].flatMap((id) => basis.instrument(id, event).instrument ?? []);
      const solution = solveSquare(valuesOf(answer.readings), toolsOf(answer.readings, tools));
      const frame = asMeasured(solution, check.nominal);
      return [
        {
          title,
          alt: `${title}, as measured: ${factsOf(check, means(readings)).join('; ')}`,
          svg: frame ? asMeasuredSvg(frame, { width: 420, height: 260 }) : '',
          text: frame ? asMeasuredText(frame, { columns: 76, rows: 18, ascii: true }) : [],
          facts: [...factsOf(check, means(readings)), ...(frame ? [sanitize(String(frame.caption))] : [])],
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
    const against = wanted === undefined ? '' : ` (nominal ${figureText3(Math.round(wanted * 10) / 10)})`;
    return [
      `${name} ${figureText3(a)} mm, ${other} ${figureText3(b)} mm${against}, difference ${figureText3(Math.abs(a - b))} mm`,
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

/** Repeated readings of a side are averaged, as in the verdict. */
function means(readings: readonly ReadingView[]): Map<string, number> {
  const all = new Map<string, number[]>();
  for (const { what, value } of readings)
    if (value !== undefined) all.set(what, [...(all.get(what) ?? []), value]);
  return new Map([...all].map(([what, values]) => [what, mean(values)]));
}
