/** The workshop's measuring instruments: lookup, calibration dates, and reading the file. */
import * as z from 'zod';
import {
  err,
  ok,
  type Place,
  type Problem,
  problemFactory,
  type Result,
  type SourceText,
} from '../base/problem.js';
import { name, text } from '../base/schemas.js';
import { readYaml } from '../base/yaml.js';
import { MEASURE_MESSAGES } from './messages.js';
import {
  type Instrument,
  type InstrumentKind,
  QUANTITIES,
  type Quantity,
  type ReadingUnit,
} from './types.js';
import { FIGURE_UNITS, figureUnit, MM_PER_INCH, tidy, UNITS_OF } from './units.js';
import { measureSays } from './words.js';

const raise = problemFactory(MEASURE_MESSAGES);

export const instrumentKinds = [
  'tape',
  'rule',
  'calliper',
  'feeler',
  'square',
  'straight-edge',
  'trammel',
  'spring-balance',
  'timer',
  'gauge',
] as const satisfies readonly InstrumentKind[];
const readingUnits = [...FIGURE_UNITS, 'inch'] as const satisfies readonly ReadingUnit[];

/** By scanned or typed id, ignoring case. */
export function findInstrument(instruments: readonly Instrument[], code: string): Instrument | undefined {
  const key = code.trim().toUpperCase();
  return instruments.find((instrument) => instrument.id.toUpperCase() === key);
}

/** Whether a day, or a moment in UTC (ISO 8601), is after `due`. An instrument without `due` is never overdue. */
export function isOverdue(instrument: Instrument, now: string): boolean {
  return instrument.due !== undefined && now.slice(0, 10) > instrument.due;
}

export function overdueProblem(instrument: Instrument, now: string): Problem | undefined {
  if (!isOverdue(instrument, now)) return undefined;
  return raise('measure.instrument-overdue', {
    instrument: instrument.id,
    instrument2: instrument.title,
    due: instrument.due!,
  });
}

/** One line: "T2, tape 5 m, 1 mm, class II". */
export function instrumentText(instrument: Instrument): string {
  const unit = figureUnit(instrument.unit);
  const accuracy = instrument.class
    ? measureSays('accuracy-class', { class: instrument.class })
    : instrument.maxError === undefined
      ? ''
      : measureSays('error-at-most', { error: String(rounded(instrument.maxError)), unit });
  return [instrument.id, instrument.title, `${rounded(instrument.resolution)} ${unit}`, accuracy]
    .filter((part) => part !== '')
    .join(', ');
}

const rounded = (value: number): number => Math.round(value * 1000) / 1000;

const size = z.number().min(-100_000).max(100_000);

export const instrumentsSchema = z.strictObject({
  /** Version 1 named no quantity and no range: what such an instrument measures is taken from its kind and unit. */
  format: z.enum(['pinchrod-instruments 1', 'pinchrod-instruments 2']),
  note: text(600).optional(),
  instruments: z.array(
    z.strictObject({
      id: name.max(20),
      kind: z.enum(instrumentKinds),
      title: text(120),
      measures: z.array(z.enum(QUANTITIES)).optional(),
      unit: z.enum(readingUnits).default('mm'),
      range: z.tuple([size, size]).optional(),
      steps: z
        .union([
          z.array(z.number().positive().max(1000)).min(1).max(500),
          z.strictObject({
            from: z.number().positive().max(1000),
            to: z.number().positive().max(1000),
            by: z.number().min(0.001).max(1000),
          }),
        ])
        .optional(),
      resolution: z.number().positive().max(1000),
      class: z.enum(['I', 'II', 'III']).optional(),
      maxError: z.number().nonnegative().max(1000).optional(),
      repeatability: z.number().nonnegative().max(100).optional(),
      offset: z.number().min(-5000).max(5000).default(0),
      hook: z.boolean().default(false),
      sends: z.boolean().optional(),
      serial: text(60).optional(),
      calibrated: z.iso.date().optional(),
      due: z.iso.date().optional(),
      certificate: text(120).optional(),
      note: text(300).optional(),
    }),
  ),
});

/** Ids must be unique ignoring case, because scanners type capitals. */
export function parseInstruments(source: SourceText): Result<Instrument[]> {
  const read = readYaml(source, instrumentsSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  const problems: Problem[] = [];
  const seen = new Set<string>();
  const instruments = value.instruments.map((given, i): Instrument => {
    const place = at(['instruments', i, 'id']);
    const key = given.id.toUpperCase();
    if (seen.has(key)) problems.push(raise('measure.instrument-twice', { given: given.id }, place));
    seen.add(key);
    if (given.class === undefined && given.maxError === undefined)
      problems.push(raise('measure.instrument-error', { given: given.id }, place));
    if (given.calibrated && given.due && given.due < given.calibrated)
      problems.push(raise('measure.instrument-dates', { given: given.id, due: given.due }, place));
    problems.push(...quantityProblems(given, value.format === 'pinchrod-instruments 2', place));
    const { range, steps, measures, ...rest } = given;
    return inMillimetres({
      ...(withoutUndefined(rest) as unknown as Instrument),
      measures: measures ?? measuredBy(given.kind, given.unit),
      ...(range === undefined ? {} : { range: { from: range[0], to: range[1] } }),
      ...(steps === undefined ? {} : { steps: stepsOf(steps) }),
    });
  });
  return problems.length > 0 ? err(...problems) : ok(instruments);
}

type Given = z.infer<typeof instrumentsSchema>['instruments'][number];

/** @param whole version 2, which says what everything measures and how far */
function quantityProblems(
  { id, measures, unit, range, steps }: Given,
  whole: boolean,
  place: Place,
): Problem[] {
  if (
    whole &&
    (measures === undefined || (measures.length > 0 && range === undefined && steps === undefined))
  )
    return [raise('measure.instrument-quantity', { id }, place)];
  const odd = measures?.find((quantity) => !UNITS_OF[quantity].includes(figureUnit(unit)));
  if (odd !== undefined)
    return [
      raise(
        'measure.instrument-quantity/unit',
        { id, quantity: odd, units: UNITS_OF[odd].join(' / '), unit },
        place,
      ),
    ];
  if (range && range[0] >= range[1]) return [raise('measure.instrument-quantity/range', { id }, place)];
  const rising = steps === undefined ? [] : stepsOf(steps);
  if (rising.some((step, i) => i > 0 && step <= rising[i - 1]!))
    return [raise('measure.instrument-quantity/steps', { id }, place)];
  return [];
}

/** `{from: 0.05, to: 1, by: 0.05}` as its sizes. */
const stepsOf = (steps: NonNullable<Given['steps']>): readonly number[] =>
  Array.isArray(steps)
    ? steps
    : Array.from({ length: Math.max(0, Math.round((steps.to - steps.from) / steps.by)) + 1 }, (_, i) =>
        tidy(steps.from + i * steps.by),
      );

export const KIND_MEASURES: Readonly<Record<InstrumentKind, readonly Quantity[]>> = {
  tape: ['length'],
  rule: ['length'],
  trammel: ['length'],
  calliper: ['length', 'gap', 'depth'],
  feeler: ['gap'],
  square: ['gap', 'angle'],
  'straight-edge': ['gap'],
  'spring-balance': ['force', 'mass'],
  timer: ['time'],
  gauge: ['gap', 'depth', 'temperature', 'humidity', 'pressure', 'illuminance', 'torque', 'coating'],
};
/** What an instrument of an older file measures: the quantities of its kind that are read in its unit. */
const measuredBy = (kind: InstrumentKind, unit: ReadingUnit): readonly Quantity[] =>
  KIND_MEASURES[kind].filter((quantity) => UNITS_OF[quantity].includes(figureUnit(unit)));

function withoutUndefined<T extends object>(given: T): T {
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)) as T;
}

/** Lengths are in mm inside the program, whatever the instrument shows. */
function inMillimetres(given: Instrument): Instrument {
  if (given.unit !== 'inch') return given;
  return {
    ...given,
    resolution: tidy(given.resolution * MM_PER_INCH),
    offset: tidy(given.offset * MM_PER_INCH),
    ...(given.range
      ? { range: { from: tidy(given.range.from * MM_PER_INCH), to: tidy(given.range.to * MM_PER_INCH) } }
      : {}),
    ...(given.steps ? { steps: given.steps.map((step) => tidy(step * MM_PER_INCH)) } : {}),
    ...(given.maxError === undefined ? {} : { maxError: tidy(given.maxError * MM_PER_INCH) }),
    ...(given.repeatability === undefined ? {} : { repeatability: tidy(given.repeatability * MM_PER_INCH) }),
  };
}
