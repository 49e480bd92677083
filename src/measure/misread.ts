/**
 * Readings that are likely misread are asked about before they are judged. With one reading more than the figure needs,
 * it can be told that something is wrong, never what: so each reading gets the change that would close the figure, and a
 * remark where that change is a usual slip.
 */
import { figure, signed } from './decision.js';
import { impliedLength } from './quadrilateral.js';
import { usualSlips } from './slips.js';
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
import { lengthText } from './units.js';

/** Two readings of one length that differ by more are taken again (common practice). */
const REPEAT_WITHIN = 0.5;
/** How far a length may lie from what is expected before it is asked about, where the check does not say, mm. */
const PLAUSIBLE = 5;

export const LENGTH_NAMES: Readonly<Record<SquareKey, string>> = {
  top: 'top',
  bottom: 'bottom',
  left: 'left',
  right: 'right',
  bl_tr: 'bottom left to top right',
  br_tl: 'bottom right to top left',
};

export interface ReadingsToCheck {
  readonly readings: readonly Pick<Reading, 'value'>[];
  readonly expect?: number | undefined;
  /** Window about `expect`; without it 5 mm for lengths, and no window for other units. */
  readonly plausible?: number | undefined;
  readonly unit?: string | undefined;
  /** Unit that the readings were read in, where it is not `unit`: lengths read in inches are asked about in inches. */
  readonly read?: ReadingUnit | undefined;
  readonly instrument?: Instrument | undefined;
  readonly repeatWithin?: number | undefined;
}

/** How a question writes figures: in the unit that was read. */
interface Script {
  readonly figure: (value: number) => string;
  readonly signed: (value: number) => string;
  /** After a figure: " mm"; nothing where the figure carries its own sign. */
  readonly unit: string;
}
const scriptOf = (read: ReadingUnit | undefined, unit = 'mm'): Script =>
  read === 'inch' && unit === 'mm'
    ? { figure: inches, signed: (value) => `${value > 0 ? '+' : ''}${inches(value)}`, unit: '' }
    : { figure, signed, unit: ` ${unit}` };
const inches = (mm: number): string => lengthText(mm, 'inch');

/** Looks at one check's reading and its repeats; undefined where nothing is to be asked. */
export function lookForMisread(check: ReadingsToCheck): MisreadQuestion | undefined {
  const { readings, expect, instrument } = check;
  const unit = check.unit ?? 'mm';
  const values = readings.map((reading) => reading.value);
  const script = scriptOf(check.read, unit);
  const apart = spread(values);
  const allowed = Math.max(check.repeatWithin ?? REPEAT_WITHIN, instrument?.resolution ?? 0);
  if (apart > allowed + 1e-6)
    return {
      id: 'measure.misread-repeat',
      text: `The repeats differ by ${script.figure(apart)}${script.unit}; ${script.figure(allowed)} is usual. Read both again.`,
      details: [
        `Read: ${values.map(script.figure).join(', ')}.`,
        'A slipped hook or a different edge at the corner shows like this.',
      ],
    };
  const window = check.plausible ?? (unit === 'mm' ? PLAUSIBLE : undefined);
  if (expect === undefined || window === undefined) return undefined;
  const far = values.filter((value) => Math.abs(value - expect) > window + 1e-6);
  if (far.length === 0) return undefined;
  return {
    id: 'measure.misread-far',
    text: `${script.figure(far[0]!)}${script.unit} lies ${script.figure(Math.abs(far[0]! - expect))}${script.unit} from the expected ${script.figure(expect)}. Read again, or confirm it.`,
    details: far.flatMap((value) =>
      usualSlips(value, expect - value, 2, instrument, check.read).map(
        (slip) => `${script.figure(value)}: ${slip}?`,
      ),
    ),
  };
}

export interface SquareToCheck {
  readonly solution: SquareSolution;
  readonly readings: Readonly<Partial<Record<SquareKey, readonly Pick<Reading, 'value'>[]>>>;
  readonly nominal?: Nominal | undefined;
  readonly plausible?: number | undefined;
  readonly read?: ReadingUnit | undefined;
  readonly instrument?: Instrument | undefined;
}

/** Looks at a frame's readings together; undefined where nothing is to be asked. */
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
      ...questions.map(({ key, question }) => `${LENGTH_NAMES[key]}: ${question.text}`),
    ],
  };

  function named(key: SquareKey, question: MisreadQuestion): MisreadQuestion {
    return {
      ...question,
      text: `${LENGTH_NAMES[key]}: ${question.text}`,
      details: [
        ...question.details,
        ...questions
          .filter((other) => other.key !== key)
          .map((other) => `${LENGTH_NAMES[other.key]}: ${other.question.text}`),
      ],
    };
  }
}

function openQuestion({ solution, instrument, read }: SquareToCheck): MisreadQuestion | undefined {
  const { kind, closes, misclosure, misclosureSd, misclosureRatio, measured } = solution;
  const script = scriptOf(read);
  if (kind === 'impossible')
    return {
      id: 'measure.misread-impossible',
      text: 'These lengths give no figure: at least one reading is wrong. Read them again.',
      details: SQUARE_KEYS.filter((key) => measured[key] !== undefined).map(
        (key) => `${LENGTH_NAMES[key]} ${script.figure(measured[key]!)}`,
      ),
    };
  if (closes !== false || misclosure === undefined || misclosureRatio === undefined) return undefined;
  const usual = Math.abs(misclosure) / misclosureRatio;
  if (kind === 'sizes')
    return {
      id: 'measure.misread-open',
      text:
        `The diagonals and sizes miss each other by ${script.figure(Math.abs(misclosure))}${script.unit}, where ${script.figure(usual)} is usual: ` +
        'opposite sides differ, or a reading is wrong. Read the other two sides.',
      details: [],
    };
  return {
    id: 'measure.misread-open',
    text:
      `The six readings cannot all be true: they miss closing by ${script.figure(Math.abs(misclosure))}${script.unit}, where up to ${script.figure(usual)} ` +
      'is usual. Read again the ones you doubt.',
    details: [
      ...neededChanges(measured as SquareSet, misclosureSd!, script, instrument, read),
      'Which one is wrong cannot be told from the numbers.',
    ],
  };
}

/** One sentence a reading: what it would have to be for the figure to close, and whether that is a usual slip. */
function neededChanges(
  measured: SquareSet,
  sd: number,
  script: Script,
  instrument: Instrument | undefined,
  read: ReadingUnit | undefined,
): string[] {
  return SQUARE_KEYS.map((key) => {
    const needed = impliedLength(key, measured);
    const name = `${LENGTH_NAMES[key]} ${script.figure(measured[key])}`;
    if (needed === undefined) return `${name}: no change of this one alone would close the figure`;
    const change = needed - measured[key];
    // The change is as uncertain as the misclosure, enlarged as the change itself is.
    const misclosure = Math.abs(change);
    const slips = usualSlips(
      measured[key],
      change,
      Math.max(0.3, 2 * sd * scale(measured, key, misclosure)),
      instrument,
      read,
    );
    return `${name}: ${script.signed(change)} to ${script.figure(needed)}${slips.length > 0 ? ` (${slips.join('; ')}?)` : ''}`;
  });
}

function scale(measured: SquareSet, key: SquareKey, change: number): number {
  const implied = impliedLength('br_tl', measured);
  if (key === 'br_tl' || implied === undefined) return 1;
  return change / Math.max(1e-9, Math.abs(measured.br_tl - implied));
}
