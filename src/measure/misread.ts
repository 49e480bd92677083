/**
 * Asks about likely misreadings before judging them. One redundant reading can show that something is wrong, but never
 * what. So each reading is listed with the change that would close the figure, and a remark if that change is a common
 * slip.
 */

import { type Message, Several } from '../base/words.js';
import { figure, signed } from './decision.js';
import { impliedLength } from './quadrilateral.js';
import { type Nominal, nominalOf, type SquareSolution } from './square.js';
import { spread } from './stats.js';
import {
  type Instrument,
  type MisreadQuestion,
  type Reading,
  type ReadingUnit,
  SQUARE_KEYS,
  type SquareKey,
  type SquareSet,
} from './types.js';
import { lengthText, MM_PER_INCH } from './units.js';
import { measureWords } from './words.js';

/** Two readings of one length that differ by more are repeated (common practice), mm. */
const REPEAT_WITHIN = 0.5;
/** Distance from the expected length beyond which a reading is queried, if the check does not say, mm. */
const PLAUSIBLE = 5;

export const LENGTH_NAMES: Readonly<Record<SquareKey, Message>> = {
  top: measureWords('length-top'),
  bottom: measureWords('length-bottom'),
  left: measureWords('length-left'),
  right: measureWords('length-right'),
  bl_tr: measureWords('length-bl_tr'),
  br_tl: measureWords('length-br_tl'),
};

export interface ReadingsToCheck {
  readonly readings: readonly Pick<Reading, 'value'>[];
  readonly expect?: number | undefined;
  /** Tolerance around `expect`; if absent, 5 mm for lengths and no limit for other units. */
  readonly plausible?: number | undefined;
  readonly unit?: string | undefined;
  /** Unit the readings were taken in, if not `unit`: questions about lengths read in inches use inches. */
  readonly read?: ReadingUnit | undefined;
  readonly instrument?: Instrument | undefined;
  readonly repeatWithin?: number | undefined;
}

/** How a question formats figures: in the unit that was read. */
interface Script {
  readonly figure: (value: number) => string;
  readonly signed: (value: number) => string;
  /** Appended to a figure: " mm"; empty if the figure carries its own unit sign. */
  readonly unit: string;
}
const scriptOf = (read: ReadingUnit | undefined, unit = 'mm'): Script =>
  read === 'inch' && unit === 'mm'
    ? { figure: inches, signed: (value) => `${value > 0 ? '+' : ''}${inches(value)}`, unit: '' }
    : { figure, signed, unit: ` ${unit}` };
const inches = (mm: number): string => lengthText(mm, 'inch');

/** Undefined if there is nothing to ask. */
export function lookForMisread(check: ReadingsToCheck): MisreadQuestion | undefined {
  const { readings, expect, instrument } = check;
  const unit = check.unit ?? 'mm';
  const values = readings.map((reading) => reading.value);
  const script = scriptOf(check.read, unit);
  // A reading typed in another unit than the instrument shows was converted, and proves nothing.
  const asShown = (instrument?.unit === 'inch') === (check.read === 'inch');
  const finer = instrument && asShown ? values.find((value) => finerThan(instrument, value)) : undefined;
  if (finer !== undefined)
    return {
      id: 'measure.misread-finer',
      text: measureWords('misread-finer', {
        figure: script.figure(finer),
        unit: script.unit,
        id: instrument!.id,
        step: script.figure(instrument!.resolution),
      }),
      details: [measureWords('misread-other-instrument')],
    };
  const apart = spread(values);
  const allowed = Math.max(check.repeatWithin ?? REPEAT_WITHIN, instrument?.resolution ?? 0);
  if (apart > allowed + 1e-6)
    return {
      id: 'measure.misread-repeat',
      text: measureWords('misread-repeat', {
        apart: script.figure(apart),
        unit: script.unit,
        usual: script.figure(allowed),
      }),
      details: [
        measureWords('misread-read', { figures: values.map(script.figure) }),
        measureWords('misread-hook'),
      ],
    };
  const window = check.plausible ?? (unit === 'mm' ? PLAUSIBLE : undefined);
  if (expect === undefined || window === undefined) return undefined;
  const far = values.filter((value) => Math.abs(value - expect) > window + 1e-6);
  if (far.length === 0) return undefined;
  return {
    id: 'measure.misread-far',
    text: measureWords('misread-far', {
      figure: script.figure(far[0]!),
      unit: script.unit,
      apart: script.figure(Math.abs(far[0]! - expect)),
      expected: script.figure(expect),
    }),
    details: far.flatMap((value) =>
      usualSlips(value, expect - value, 2, instrument, check.read).map((slip) =>
        measureWords('misread-slip', { figure: script.figure(value), slip }),
      ),
    ),
  };
}

/** Whether the figure shown is no whole number of the instrument's steps. Halves of an inch fraction are rounded. */
function finerThan({ resolution, offset, unit }: Instrument, value: number): boolean {
  const steps = (value - offset) / resolution;
  return Math.abs(steps - Math.round(steps)) > (unit === 'inch' ? 0.1 : 1e-4);
}

export interface SquareToCheck {
  readonly solution: SquareSolution;
  readonly readings: Readonly<Partial<Record<SquareKey, readonly Pick<Reading, 'value'>[]>>>;
  readonly nominal?: Nominal | undefined;
  readonly plausible?: number | undefined;
  readonly read?: ReadingUnit | undefined;
  readonly instrument?: Instrument | undefined;
}

/** Checks a frame's readings together; undefined if there is nothing to ask. */
export function lookForSquareMisread(check: SquareToCheck): MisreadQuestion | undefined {
  const { nominal, instrument } = check;
  const questions = SQUARE_KEYS.flatMap((key) => {
    const readings = check.readings[key] ?? [];
    if (readings.length === 0) return [];
    const question = lookForMisread({
      readings,
      ...(nominal ? { expect: nominalOf(key, nominal) } : {}),
      ...(check.plausible === undefined ? {} : { plausible: check.plausible }),
      ...(check.read === undefined ? {} : { read: check.read }),
      ...(instrument ? { instrument } : {}),
    });
    return question ? [{ key, question }] : [];
  });
  const apart = questions.find(({ question }) => question.id === 'measure.misread-repeat');
  if (apart) return named(apart.key, apart.question);
  const open = openQuestion(check);
  if (!open) return questions[0] && named(questions[0].key, questions[0].question);
  return {
    ...open,
    details: [
      ...open.details,
      ...questions
        .filter(({ question }) => question.id !== 'measure.misread-finer')
        .map(({ key, question }) => at(key, question)),
    ],
  };

  function named(key: SquareKey, question: MisreadQuestion): MisreadQuestion {
    return {
      ...question,
      text: at(key, question),
      details: [
        ...question.details,
        ...questions.filter((other) => other.key !== key).map((other) => at(other.key, other.question)),
      ],
    };
  }
}

const at = (key: SquareKey, { text }: MisreadQuestion): Message =>
  measureWords('misread-at', { length: LENGTH_NAMES[key], what: text });

function openQuestion({ solution, instrument, read }: SquareToCheck): MisreadQuestion | undefined {
  const { kind, closes, misclosure, misclosureSd, misclosureRatio, measured } = solution;
  const script = scriptOf(read);
  if (kind === 'impossible')
    return {
      id: 'measure.misread-impossible',
      text: measureWords('misread-impossible'),
      details: SQUARE_KEYS.filter((key) => measured[key] !== undefined).map((key) =>
        measureWords('misread-length', { length: LENGTH_NAMES[key], figure: script.figure(measured[key]!) }),
      ),
    };
  if (closes !== false || misclosure === undefined || misclosureRatio === undefined) return undefined;
  const usual = Math.abs(misclosure) / misclosureRatio;
  const missed = {
    apart: script.figure(Math.abs(misclosure)),
    unit: script.unit,
    usual: script.figure(usual),
  };
  if (kind === 'sizes')
    return {
      id: 'measure.misread-open',
      text: measureWords('misread-sizes', missed),
      details: [],
    };
  return {
    id: 'measure.misread-open',
    text: measureWords('misread-six', missed),
    details: [
      ...neededChanges(measured as SquareSet, misclosureSd!, script, instrument, read),
      measureWords('misread-which'),
    ],
  };
}

/** One sentence per reading: the value at which the figure would close, and whether that is a common slip. */
function neededChanges(
  measured: SquareSet,
  sd: number,
  script: Script,
  instrument: Instrument | undefined,
  read: ReadingUnit | undefined,
): Message[] {
  return SQUARE_KEYS.map((key) => {
    const needed = impliedLength(key, measured);
    const name = { length: LENGTH_NAMES[key], figure: script.figure(measured[key]) };
    if (needed === undefined) return measureWords('misread-no-change', name);
    const change = needed - measured[key];
    // The change has the misclosure's uncertainty, scaled by the same factor as the change itself.
    const misclosure = Math.abs(change);
    const slips = usualSlips(
      measured[key],
      change,
      Math.max(0.3, 2 * sd * scale(measured, key, misclosure)),
      instrument,
      read,
    );
    const told = { ...name, change: script.signed(change), needed: script.figure(needed) };
    return slips.length > 0
      ? measureWords('misread-change-slips', { ...told, slips: new Several(slips) })
      : measureWords('misread-change', told);
  });
}

function scale(measured: SquareSet, key: SquareKey, change: number): number {
  const implied = impliedLength('br_tl', measured);
  if (key === 'br_tl' || implied === undefined) return 1;
  return change / Math.max(1e-9, Math.abs(measured.br_tl - implied));
}

/** Common slips, mm: a mark, half a decimetre, the start of the tape; marks and whole inches on an inch tape. */
const SLIPS = [1, 5, 10, 50, 100] as const;
const INCH_SLIPS = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 10].map((inches) => inches * MM_PER_INCH);
/** Common slips that explain a change to a reading within `tolerance`, in words. */
export function usualSlips(
  value: number,
  change: number,
  tolerance: number,
  instrument?: Instrument,
  unit?: ReadingUnit,
): Message[] {
  const found: Message[] = [];
  const read = value - (instrument?.offset ?? 0);
  const near = (slip: number) => Math.abs(Math.abs(change) - slip) <= Math.min(tolerance, slip / 3);
  const startForgotten = near(100) && (instrument?.offset === -100 ? change > 0 : change < 0);
  if (startForgotten)
    found.push(instrument?.offset === -100 ? measureWords('slip-end') : measureWords('slip-start'));
  if (unit === 'inch') {
    const slip = INCH_SLIPS.find(near);
    return slip === undefined || startForgotten
      ? found
      : [...found, measureWords('slip-of', { length: lengthText(slip, 'inch') })];
  }
  const text = figure(read);
  const within = (candidate: string) =>
    candidate !== text &&
    Math.abs(Number(candidate) - (read + change)) <= Math.min(tolerance, Math.abs(change) / 3);
  const swapped = swaps(text).find(within);
  if (swapped) found.push(measureWords('slip-swapped', { figure: swapped }));
  const turned = turns(text).find(within);
  if (turned) found.push(measureWords('slip-turned', { figure: turned }));
  const slip = SLIPS.find(near);
  if (slip !== undefined && !startForgotten) found.push(measureWords('slip-of', { length: `${slip} mm` }));
  return found;
}

/** Every variant of the number with two adjacent digits swapped. */
function swaps(text: string): string[] {
  const places = [...text].flatMap((c, i) => (/[0-9]/.test(c) ? [i] : []));
  return places.slice(1).map((second, n) => {
    const first = places[n]!;
    const chars = [...text];
    [chars[first], chars[second]] = [chars[second]!, chars[first]!];
    return chars.join('');
  });
}

function turns(text: string): string[] {
  return [...text].flatMap((c, i) =>
    c === '6' || c === '9' ? [`${text.slice(0, i)}${c === '6' ? '9' : '6'}${text.slice(i + 1)}`] : [],
  );
}
