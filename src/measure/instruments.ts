/** What the workshop measures with; instrumentsfile.ts reads it. */
import { type Problem, raiser } from '../ground/problem.js';
import { MEASURE_MESSAGES } from './messages.js';
import type { Instrument, InstrumentKind, ReadingUnit } from './types.js';
import { figureUnit } from './units.js';

const raise = raiser(MEASURE_MESSAGES);

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
export const readingUnits = [
  'mm',
  'inch',
  'N',
  'kg',
  'deg',
  'min',
  'C',
] as const satisfies readonly ReadingUnit[];

/** The instrument whose identity was scanned or typed; case does not count. */
export function findInstrument(instruments: readonly Instrument[], code: string): Instrument | undefined {
  const key = code.trim().toUpperCase();
  return instruments.find((instrument) => instrument.id.toUpperCase() === key);
}

/** Overdue on a UTC date or time (ISO 8601): the day after `due`. An instrument without `due` never is. */
export function isOverdue(instrument: Instrument, now: string): boolean {
  return instrument.due !== undefined && now.slice(0, 10) > instrument.due;
}

/** The refusal that names an overdue instrument, or nothing. */
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
