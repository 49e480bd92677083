/** Which window this is: identity, sizes and lights, from its set-out. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { asMeasured, asMeasuredSvg, asMeasuredText } from '../measure/asmeasured.js';
import { LENGTH_NAMES } from '../measure/misread.js';
import { solveSquare, toolsOf, valuesOf } from '../measure/square.js';
import { mean } from '../measure/stats.js';
import type { SquareKey } from '../measure/types.js';
import type { RouteCheck } from '../procedure/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { LightSetOut, SetOut } from '../window/types.js';
import type { RecordBasis } from './basis.js';
import type { AsMeasuredView, ReadingView, RecordView } from './schema.js';
import {
  type DocumentSay,
  figureText3,
  joined,
  kilograms,
  readingsOf,
  size,
  stepHeading,
  toldSafely,
} from './telling.js';

/** @param order title and revision of the order; undefined in records that did not name it */
export function unitView(
  state: UnitState,
  setOut: SetOut | undefined,
  customer: string,
  say: DocumentSay,
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
    ...(setOut?.product === undefined ? {} : { product: sanitize(setOut.product) }),
    sentence: setOut ? unitSentence(say, setOut) : data(''),
    ...(setOut ? { mass: setOut.mass_kg } : {}),
    lift: say.retell(setOut?.lift ?? ''),
    outsideColour: sanitize(unit?.outsideColour ?? ''),
    insideColour: sanitize(unit?.insideColour ?? ''),
    profileSet: sanitize(setOut?.profileSet.title ?? (opened?.kind === 'opened' ? opened.profileSet : '')),
    invented: setOut?.profileSet.invented ?? false,
    procedure: sanitize(say('doc-version', { title: procedure.title, version: procedure.version })),
    needs: [
      ...(unit?.needs.escape ? [say('doc-need-escape')] : []),
      ...(unit?.needs.restrictor ? [say('doc-need-restrictor')] : []),
      ...(unit?.needs.safetyGlass ? [say('doc-need-safety')] : []),
      ...(unit?.fittings ?? []).map((fitting) => sanitize(fitting.replaceAll('-', ' '))),
    ],
    lights: (setOut?.lights ?? []).map((light) => lightView(light, say)),
    ...(opened?.kind === 'opened' && opened.replaces !== undefined
      ? { replaces: sanitize(opened.replaces) }
      : {}),
    ...(state.replacement === undefined ? {} : { replacedBy: sanitize(state.replacement) }),
  };
}

/** "One light: hinged left, seen from outside, opens out." or each light by its name. */
export function unitSentence(say: DocumentSay, setOut: SetOut): Spoken {
  const [only, ...others] = setOut.lights;
  if (setOut.product !== undefined)
    return say('doc-product-lights', {
      product: sanitize(setOut.product),
      sentences: joined(
        setOut.lights.map(({ id, sentence }) =>
          only && others.length === 0
            ? say.retell(sentence)
            : joined([sanitize(id), say.retell(sentence)], ' '),
        ),
        '; ',
      ),
    });
  if (only && others.length === 0) return say('doc-one-light', { sentence: say.retell(only.sentence) });
  const sentences = setOut.lights.map(({ id, sentence }) =>
    joined([sanitize(id), say.retell(sentence)], ' '),
  );
  return say('doc-lights', { n: setOut.lights.length, sentences: joined(sentences, '; ') });
}

const KINDS = { fixed: 'fixed', 'top-hung': 'top-hung', 'side-hung': 'side-hung' } as const;

const lightView = (light: LightSetOut, say: DocumentSay): RecordView['unit']['lights'][number] => ({
  id: sanitize(light.id),
  kind: KINDS[light.kind],
  sentence: say.retell(light.sentence),
  sight: size(light.sight.w, light.sight.h),
  ...(light.sash
    ? { sash: joined([size(light.sash.w, light.sash.h), kilograms(light.sash.mass_kg)], ', ') }
    : {}),
  ...(light.glass
    ? {
        glass: sanitize(light.glass.title),
        glassSize: say('doc-glass-size', {
          size: size(light.glass.w, light.glass.h),
          thickness: figureText3(light.glass.thickness),
          mass: kilograms(light.glass.mass_kg),
        }),
      }
    : {}),
});

// Each frame and sash as measured: sides and diagonals against nominal, drawn with the error magnified.

export function measuredViews(state: UnitState, basis: RecordBasis, say: DocumentSay): AsMeasuredView[] {
  return [...state.steps.values()].flatMap(({ step, checks }) =>
    step.checks.flatMap((check) => {
      const answered = checks.find(({ id }) => id === check.id)?.answered;
      const answer = answered?.answer;
      const event = answered && state.events[answered.n - 1];
      if (check.kind !== 'square' || answer?.kind !== 'square' || !event) return [];
      const title = stepHeading(step);
      const readings = readingsOf(say, answer, check);
      const facts = factsOf(check, means(readings), say);
      const used = new Set(Object.values(answer.readings).flatMap((all) => all[0]?.instrument ?? []));
      const tools = [...used].flatMap((id) => basis.instrument(id, event).instrument ?? []);
      const solution = solveSquare(valuesOf(answer.readings), toolsOf(answer.readings, tools));
      const frame = asMeasured(solution, check.nominal);
      return [
        {
          title,
          alt: say('doc-measured-alt', { title, facts: joined(facts, '; ') }),
          svg: frame ? asMeasuredSvg(frame, { width: 420, height: 260 }) : '',
          text: frame ? asMeasuredText(frame, { columns: 76, rows: 18, ascii: true, tell: say.tell }) : [],
          facts: [...facts, ...(frame ? [toldSafely(say, frame.caption)] : [])],
        },
      ];
    }),
  );
}

function factsOf(check: RouteCheck, read: ReadonlyMap<string, number>, say: DocumentSay): Spoken[] {
  const { nominal } = check;
  const of = (one: Spoken, other: Spoken, wanted: number | undefined): Spoken[] => {
    const [a, b] = [read.get(one), read.get(other)];
    if (a === undefined || b === undefined) return [];
    const apart = figureText3(Math.abs(a - b));
    const pair = { one, a: figureText3(a), other, b: figureText3(b), apart };
    return [
      wanted === undefined
        ? say('doc-pair', pair)
        : say('doc-pair-nominal', { ...pair, nominal: figureText3(Math.round(wanted * 10) / 10) }),
    ];
  };
  const length = (key: SquareKey) => say.tell(LENGTH_NAMES[key]);
  return [
    ...(nominal ? [say('doc-nominal', { size: size(nominal.w, nominal.h) })] : []),
    ...of(length('top'), length('bottom'), nominal?.w),
    ...of(length('left'), length('right'), nominal?.h),
    ...of(length('bl_tr'), length('br_tl'), nominal ? Math.hypot(nominal.w, nominal.h) : undefined),
  ];
}

/** Repeated readings of a side are averaged, as in the verdict. */
function means(readings: readonly ReadingView[]): Map<string, number> {
  const all = new Map<string, number[]>();
  for (const { what, value } of readings)
    if (value !== undefined) all.set(what, [...(all.get(what) ?? []), value]);
  return new Map([...all].map(([what, values]) => [what, mean(values)]));
}
