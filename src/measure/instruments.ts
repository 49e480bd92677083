/** The workshop's measuring instruments: lookup, calibration dates, and reading the file. */
import * as z from 'zod';
import { err, ok, type Problem, problemFactory, type Result, type SourceText } from '../base/problem.js';
import { name, text } from '../base/schemas.js';
import { readYaml } from '../base/yaml.js';
import { MEASURE_MESSAGES } from './messages.js';
import type { Instrument, InstrumentKind, ReadingUnit } from './types.js';
import { figureUnit, MM_PER_INCH, tidy } from './units.js';

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
const readingUnits = ['mm', 'inch', 'N', 'kg', 'deg', 'min', 'C'] as const satisfies readonly ReadingUnit[];

/** By scanned or typed id, ignoring case. */
export function findInstrument(instruments: readonly Instrument[], code: string): Instrument | undefined {
  const key = code.trim().toUpperCase();
  return instruments.find((instrument) => instrument.id.toUpperCase() === key);
}

/** Whether a UTC date or time (ISO 8601) is after `due`. An instrument without `due` is never overdue. */
export function isOverdue(instrument: Instrument, now: string): boolean {
  return instrument.due !== undefined && now.slice(0, 10) > instrument.due;
}

export function overdueProblem(instrument: Instrument, now: string): Problem | undefined {
  if (!isOverdue(instrument, now)) return undefined;
  return raise(
    'measure.instrument-overdue',
    `${instrument.id} (${instrument.title}) was due for calibration on ${instrument.due}.`,
  );
}

/** One line: "T2, tape 5 m, 1 mm, class II". */
export function instrumentText(instrument: Instrument): string {
  const unit = figureUnit(instrument.unit);
  const accuracy = instrument.class
    ? `class ${instrument.class}`
    : instrument.maxError === undefined
      ? ''
      : `error at most ${rounded(instrument.maxError)} ${unit}`;
  return [instrument.id, instrument.title, `${rounded(instrument.resolution)} ${unit}`, accuracy]
    .filter((part) => part !== '')
    .join(', ');
}

const rounded = (value: number): number => Math.round(value * 1000) / 1000;

export const instrumentsSchema = z.strictObject({
  format: z.literal('pinchrod-instruments 1'),
  note: text(600).optional(),
  instruments: z.array(
    z.strictObject({
      id: name.max(20),
      kind: z.enum(instrumentKinds),
      title: text(120),
      unit: z.enum(readingUnits).default('mm'),
      resolution: z.number().positive().max(1000),
      class: z.enum(['I', 'II', 'III']).optional(),
      maxError: z.number().nonnegative().max(1000).optional(),
      repeatability: z.number().nonnegative().max(100).optional(),
      offset: z.number().min(-5000).max(5000).default(0),
      hook: z.boolean().default(false),
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
    if (seen.has(key)) problems.push(raise('measure.instrument-twice', `${given.id} stands twice.`, place));
    seen.add(key);
    if (given.class === undefined && given.maxError === undefined)
      problems.push(raise('measure.instrument-error', `${given.id} has neither class nor maxError.`, place));
    if (given.calibrated && given.due && given.due < given.calibrated)
      problems.push(
        raise(
          'measure.instrument-dates',
          `${given.id} is due on ${given.due}, before its calibration.`,
          place,
        ),
      );
    return inMillimetres(withoutUndefined(given) as unknown as Instrument);
  });
  return problems.length > 0 ? err(...problems) : ok(instruments);
}

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
    ...(given.maxError === undefined ? {} : { maxError: tidy(given.maxError * MM_PER_INCH) }),
    ...(given.repeatability === undefined ? {} : { repeatability: tidy(given.repeatability * MM_PER_INCH) }),
  };
}
