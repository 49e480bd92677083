/** Parses typed or scanned readings: one number, at most one unit. Ambiguous input is queried, never guessed. */
import { type Problem, problemFactory } from '../base/problem.js';
import type { Message } from '../base/words.js';
import { MEASURE_MESSAGES } from './messages.js';
import type { FigureUnit, Instrument, Quantity, Reading, ReadingUnit } from './types.js';
import { measureWords } from './words.js';

const raise = problemFactory(MEASURE_MESSAGES);
export const MM_PER_INCH = 25.4;
const LARGEST = 100_000;

export interface ReadingOptions {
  /** Unit of a number typed without one; `inch` also accepts fractions. Lengths are returned in mm either way. */
  readonly unit: ReadingUnit;
  /** The instrument routinely types three decimals (a micrometer), so "12.345" is not a thousands separator. */
  readonly threeDecimals?: boolean;
}

export type ReadingResult =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly problem: Problem };

const SUFFIXES: Readonly<Record<string, ReadingUnit>> = {
  mm: 'mm',
  in: 'inch',
  inch: 'inch',
  '"': 'inch',
  n: 'N',
  kg: 'kg',
  deg: 'deg',
  '°': 'deg',
  min: 'min',
  c: 'C',
  '°c': 'C',
  nm: 'Nm',
  '%': '%',
  lx: 'lx',
  pa: 'Pa',
  bar: 'bar',
  // The micro sign, the Greek letter and the letter u.
  µm: 'µm',
  μm: 'µm',
  um: 'µm',
};
const SUFFIX = 'mm|inch|in|"|nm|n|kg|deg|°c|°|min|c|%|lx|pa|bar|µm|μm|um';
const READING = new RegExp(`^([+-]? *)([0-9][0-9 .,/'-]*|[.,][0-9]+)(${SUFFIX})?$`, 'i');

/** Units in which a quantity is read; the first is the usual one. Lengths may be read in inches too. */
export const UNITS_OF: Readonly<Record<Quantity, readonly FigureUnit[]>> = {
  length: ['mm'],
  gap: ['mm'],
  depth: ['mm'],
  angle: ['deg'],
  mass: ['kg'],
  force: ['N'],
  torque: ['Nm'],
  temperature: ['C'],
  humidity: ['%'],
  time: ['min'],
  illuminance: ['lx'],
  pressure: ['Pa', 'bar'],
  coating: ['µm'],
};
export const FIGURE_UNITS = [
  'mm',
  'deg',
  'kg',
  'N',
  'Nm',
  'C',
  '%',
  'min',
  'lx',
  'Pa',
  'bar',
  'µm',
] as const satisfies readonly FigureUnit[];

/** The quantity of a figure that names only its unit, as older procedures do: lengths are `length`. */
export function quantityIn(unit: FigureUnit): Quantity {
  return (Object.keys(UNITS_OF) as Quantity[]).find((quantity) => UNITS_OF[quantity].includes(unit))!;
}

/** Lengths are returned in mm, other units unchanged. The instrument's offset is not applied here. */
export function parseReading(raw: string, options: ReadingOptions): ReadingResult {
  const typed = raw.replace(/^[ \t]+|[ \t\r\n]+$/g, '');
  if (typed === '') return no(raise('measure.reading-empty'));
  if (typed.length > 40) return unclear(typed.slice(0, 40));
  const parts = READING.exec(typed);
  if (!parts) return unclear(typed);
  const sign = parts[1]!.startsWith('-') ? -1 : 1;
  const digits = parts[2]!.trimEnd();
  const suffix = parts[3]?.toLowerCase();
  const unit = suffix === undefined ? options.unit : SUFFIXES[suffix]!;
  const refusal = unitRefusal(typed, unit, options.unit);
  if (refusal) return refusal;
  const number = digits.includes('/')
    ? fraction(typed, digits, unit)
    : // Thousandths of an inch are common; thousands of inches do not occur in a workshop.
      decimal(typed, digits, options.threeDecimals === true || (unit === 'inch' && !digits.includes(',')));
  if (!number.ok) return number;
  const value = sign * number.value * (unit === 'inch' ? MM_PER_INCH : 1);
  if (Math.abs(value) > LARGEST) return no(raise('measure.reading-range', { typed }));
  return { ok: true, value: value === 0 ? 0 : value };
}

/** The reading as recorded: raw string, value with the instrument's offset applied, instrument. */
export function readingOf(
  raw: string,
  options: {
    readonly unit: ReadingUnit;
    readonly instrument?: Instrument | undefined;
    readonly confirmed?: boolean | undefined;
  },
): { readonly ok: true; readonly reading: Reading } | { readonly ok: false; readonly problem: Problem } {
  const { instrument } = options;
  const parsed = parseReading(raw, {
    unit: options.unit,
    threeDecimals: instrument !== undefined && instrument.resolution < 0.01,
  });
  if (!parsed.ok) return parsed;
  const beyond = instrument && outsideProblem(raw, parsed.value, instrument);
  if (beyond) return { ok: false, problem: beyond };
  return {
    ok: true,
    reading: {
      raw,
      value: tidy(parsed.value + (instrument?.offset ?? 0)),
      ...(instrument ? { instrument: instrument.id } : {}),
      ...(options.confirmed ? { confirmed: true } : {}),
    },
  };
}

/** The refusal of a figure that the instrument cannot show. @param value before the offset */
function outsideProblem(raw: string, value: number, instrument: Instrument): Problem | undefined {
  const { id, range, steps } = instrument;
  const text = (figure: number) =>
    instrument.unit === 'inch'
      ? lengthText(figure, 'inch')
      : `${tidy(figure)} ${figureUnit(instrument.unit)}`;
  if (steps) {
    // 0 says that not even the smallest step enters.
    if (value === 0 || steps.some((step) => Math.abs(step - value) < 1e-6)) return undefined;
    const below = steps.findLast((step) => step < value) ?? 0;
    const above = steps.find((step) => step > value);
    const given = { raw: raw.trim(), id, below: text(below) };
    return above === undefined
      ? raise('measure.reading-step/largest', given)
      : raise('measure.reading-step', { ...given, above: text(above) });
  }
  if (range === undefined || (value >= range.from - 1e-6 && value <= range.to + 1e-6)) return undefined;
  return raise('measure.reading-outside', {
    id,
    from: text(range.from),
    to: text(range.to),
    raw: raw.trim(),
  });
}

/** A length in the workshop's unit: "1221.5", or inches to the nearest 1/64 in lowest terms: 48 3/32". */
export function lengthText(mm: number, units: 'mm' | 'inch'): string {
  if (units === 'mm') return String(Math.round(mm * 100) / 100);
  const total = Math.round((Math.abs(mm) / MM_PER_INCH) * 64);
  let top = total % 64;
  let bottom = 64;
  while (top > 0 && top % 2 === 0) {
    top /= 2;
    bottom /= 2;
  }
  const whole = Math.floor(total / 64);
  const text = top === 0 ? String(whole) : `${whole > 0 ? `${whole} ` : ''}${top}/${bottom}`;
  return `${mm < 0 && total > 0 ? '-' : ''}${text}"`;
}

/** Unit of a number typed without one: the unit asked for; for lengths, the instrument's or the workshop's. */
export const unitRead = (
  asked: ReadingUnit,
  instrument: Pick<Instrument, 'unit'> | undefined,
  workshop: 'mm' | 'inch',
): ReadingUnit => (asked === 'mm' ? (instrument?.unit === 'inch' ? 'inch' : workshop) : asked);

/** Removes floating-point noise: the sum of a reading and an offset has at most six decimals. */
export const tidy = (value: number): number => Math.round(value * 1e6) / 1e6;

function unitRefusal(typed: string, unit: ReadingUnit, wanted: ReadingUnit): ReadingResult | undefined {
  if (unit === wanted) return undefined;
  // A workshop that reads inches also accepts millimetres if the unit is typed with the number.
  if (wanted === 'inch' && unit === 'mm') return undefined;
  return no(raise('measure.reading-unit', { typed, unit: unitName(unit), wanted: unitName(wanted) }));
}

/** Internal unit of a figure: lengths are in mm, even if read in inches. */
export const figureUnit = (unit: ReadingUnit | undefined): FigureUnit =>
  unit === undefined || unit === 'inch' ? 'mm' : unit;

const unitName = (unit: ReadingUnit): Message => measureWords(`unit-${unit}`);

function decimal(typed: string, digits: string, threeDecimals: boolean): ReadingResult {
  const marks = digits.replace(/[0-9]/g, '');
  if (/[.,].*[.,]/.test(digits) && /^[0-9]{1,3}([.,][0-9]{3})+([.,][0-9]+)?$/.test(digits))
    return no(raise('measure.reading-ambiguous', { typed }));
  if (/^[0-9]{1,3}[ '][0-9]{3}([.,][0-9]+)?$/.test(digits))
    return no(raise('measure.reading-ambiguous/space', { typed }));
  if (marks.length > 1 || (marks !== '' && marks !== '.' && marks !== ',')) return unclear(typed);
  if (/[.,]$/.test(digits)) return unclear(typed);
  const [whole = '', part = ''] = digits.split(/[.,]/);
  if (whole.length > 9 || part.length > 9) return unclear(typed);
  // "1,221": over a thousand, or just over one? A leading zero or more than three integer digits settles it.
  if (part.length === 3 && /^[1-9][0-9]{0,2}$/.test(whole) && !threeDecimals)
    return no(
      raise('measure.reading-ambiguous/thousand', { typed, whole, part, small: `${whole}.${part}0` }),
    );
  return { ok: true, value: Number(`${whole === '' ? '0' : whole}.${part === '' ? '0' : part}`) };
}

function fraction(typed: string, digits: string, unit: ReadingUnit): ReadingResult {
  if (unit !== 'inch') return no(raise('measure.reading-fraction/unit', { typed }));
  const parts = /^(?:([0-9]{1,4})[ -])?([0-9]{1,2})\/(2|4|8|16|32|64)$/.exec(digits);
  const top = Number(parts?.[2]);
  const bottom = Number(parts?.[3]);
  if (!parts || top === 0 || top >= bottom) return no(raise('measure.reading-fraction', { typed }));
  return { ok: true, value: Number(parts[1] ?? 0) + top / bottom };
}

const no = (problem: Problem): ReadingResult => ({ ok: false, problem });
const unclear = (typed: string): ReadingResult => no(raise('measure.reading-unclear', { typed }));
