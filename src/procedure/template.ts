/** Text with {formula} pieces: `Cut {mm(frame.w)} long.` "{{" and "}}" give literal braces. */
import { type Formula, FormulaSpace, type FormulaType, isProblem, mmText } from '../base/formula.js';
import type { Place, Problem } from '../base/problem.js';
import { CONTEXT_NAMES, DIVIDER_NAMES, LIGHT_NAMES } from '../window/context.js';
import { procedureProblem } from './messages.js';
import type { Each } from './schema.js';
import { procedureWords } from './words.js';

const SHOWN: readonly FormulaType[] = ['double', 'int', 'string'];

type Piece = string | Formula;

export interface Template {
  /** As written in the file. */
  readonly text: string;
  readonly pieces: readonly Piece[];
  readonly place: Place;
}

/**
 * Splits a text into pieces and compiles its formulas; `placeOf` gives the place of the character at an index. With
 * `lists`, a text that is a single formula may give a list of texts: one sentence each.
 */
export function compileTemplate(
  text: string,
  space: FormulaSpace,
  place: Place,
  placeOf: (index: number) => Place = () => place,
  lists = false,
): { template: Template; problems: Problem[] } {
  const pieces: Piece[] = [];
  const problems: Problem[] = [];
  let plain = '';
  for (let i = 0; i < text.length; i++) {
    const brace = nextBrace(text, i);
    plain += text.slice(i, brace);
    i = brace;
    const here = text[i];
    if (here === undefined) break;
    if (text[i + 1] === here) {
      plain += here;
      i++;
    } else if (here === '{') {
      const end = text.indexOf('}', i);
      if (end < 0) {
        problems.push(procedureProblem('procedure.brace', { text: text.slice(i) }, placeOf(i)));
        break;
      }
      const source = text.slice(i + 1, end);
      const alone = lists && i === 0 && end === text.length - 1;
      const formula = space.compile(source, alone ? [...SHOWN, 'list<string>'] : SHOWN, placeOf(i + 1));
      if (isProblem(formula)) problems.push(formula);
      else {
        if (plain !== '') pieces.push(plain);
        plain = '';
        pieces.push(formula);
      }
      i = end;
    } else problems.push(procedureProblem('procedure.brace/closing', { text }, placeOf(i)));
  }
  if (plain !== '') pieces.push(plain);
  return { template: { text, pieces, place }, problems };
}

function nextBrace(text: string, from: number): number {
  BRACE.lastIndex = from;
  return BRACE.exec(text)?.index ?? text.length;
}
const BRACE = /[{}]/g;

/** Fills in one unit's numbers. Throws what a formula throws (a missing figure). */
export function fill(template: Template, values: Record<string, unknown>): string {
  return template.pieces
    .map((piece) => (typeof piece === 'string' ? piece : figureIn(piece, values)))
    .join('');
}

/** A figure that is none never reaches a screen: places of marks that this unit does not have, or no number. */
function figureIn(formula: Formula, values: Record<string, unknown>): string {
  const value = formula.run(values);
  const none =
    typeof value === 'number'
      ? !Number.isFinite(value)
      : FIGURES.test(formula.text) && !/\d/.test(String(value));
  if (none) throw new Error(String(procedureWords('gives-nothing')));
  return shown(value);
}
const FIGURES = /^\s*(?:mm|kg|wxh)\(/;

/** For a list, one capitalised sentence per item, ending in a full stop; otherwise the text itself. */
export function fillSentences(template: Template, values: Record<string, unknown>): string[] {
  const [piece] = template.pieces;
  if (template.pieces.length !== 1 || piece === undefined || typeof piece === 'string')
    return [fill(template, values)];
  const value = piece.run(values);
  if (!Array.isArray(value)) return [shown(value)];
  return value.map((item) => {
    const text = String(item).trim();
    return `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
  });
}

/** What its formulas give for one unit, as shown. Throws what a formula throws. */
export const figuresOf = (template: Template, values: Record<string, unknown>): string[] =>
  formulasIn(template).flatMap((formula) => {
    const value = formula.run(values);
    return Array.isArray(value) ? value.map(shown) : [shown(value)];
  });

const shown = (value: unknown): string => (typeof value === 'number' ? mmText(value) : String(value));

export const formulasIn = (template: Template): Formula[] =>
  template.pieces.filter((piece): piece is Formula => typeof piece !== 'string');

/** What a step is repeated for. Adjacent steps of one family run item by item: first all for L1, then all for L2. */
export type Family = 'unit' | 'light' | 'divider';

export const familyOf = (each: Each): Family => (each === 'unit' || each === 'divider' ? each : 'light');

const NAMES = {
  unit: CONTEXT_NAMES,
  light: { ...CONTEXT_NAMES, ...LIGHT_NAMES },
  divider: { ...CONTEXT_NAMES, ...DIVIDER_NAMES },
} as const;

// Registering CEL functions takes some 20 ms, so each space is made once, on first use.
const made = new Map<Family, FormulaSpace>();

export function spaceFor(family: Family): FormulaSpace {
  let space = made.get(family);
  if (!space) {
    space = new FormulaSpace(NAMES[family]);
    made.set(family, space);
  }
  return space;
}
