/** The section of a fixed light, as a maker's drawing gives it: what `new set` takes or asks for, checks and puts in. */
import { type Problem, problemFactory } from '../base/problem.js';
import type { Dialogue } from '../tui/practice.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { type Io, saying } from './io.js';
import { FIRST_SAYS } from './words/first.js';

const raise = problemFactory(COMMAND_MESSAGES);

/** Lengths in mm. */
export interface Section {
  /** Outer edge to sight line. */
  readonly face: number;
  /** Sight line to rebate floor. */
  readonly floor: number;
  /** Glass to rebate floor. */
  readonly edge: number;
  /** Glass behind the sight line: the second way to the glass. */
  readonly cover: number;
  readonly bead: number;
  /** Of the first window, overall. */
  readonly width: number;
  readonly height: number;
}

export const SECTION_OPTIONS = {
  face: { type: 'string' },
  floor: { type: 'string' },
  edge: { type: 'string' },
  cover: { type: 'string' },
  bead: { type: 'string' },
  window: { type: 'string' },
} as const;
type Part = keyof typeof SECTION_OPTIONS;
const PARTS = Object.keys(SECTION_OPTIONS) as Part[];
export type SectionFlags = { readonly [K in Part]?: string | undefined };

/** What the file to begin with has. */
const MADE_UP: Section = { face: 50, floor: 20, edge: 5, cover: 15, bead: 20, width: 900, height: 1200 };

/** One answer, as an option or typed. A decimal comma is taken. */
function partIn(part: Part, text: string): Partial<Section> | Problem {
  const number = (given: string): number =>
    /^\d+(?:[.,]\d+)?$/.test(given.trim()) ? Number(given.trim().replace(',', '.')) : Number.NaN;
  if (part === 'window') {
    const [width = Number.NaN, height = Number.NaN, ...more] = text.split(/\s*[x×*]\s*/i).map(number);
    const fits = [width, height].every((side) => side >= 400 && side <= 2400) && more.length === 0;
    return fits ? { width, height } : raise('new.section/window', { text });
  }
  const value = number(text);
  return value >= 0.1 && value <= 200 ? { [part]: value } : raise('new.section', { text });
}

/** What the dimensions that are known say of each other; the first that cannot be. */
function crossed(section: Section, known: readonly Part[]): Problem | undefined {
  const { face, floor, edge, cover } = section;
  const has = (...parts: Part[]) => parts.every((part) => known.includes(part));
  if (has('face', 'floor') && floor >= face) return raise('new.section/floor', { floor, face });
  if (has('floor', 'edge') && edge >= floor) return raise('new.section/edge', { edge, floor });
  if (has('floor', 'edge', 'cover') && Math.abs(floor - edge - cover) > 0.051)
    return raise('new.section/cover', { cover, floor, edge, is: Math.round((floor - edge) * 10) / 10 });
  return undefined;
}

/** From options alone; undefined where none is given. */
export function sectionGiven(flags: SectionFlags): Section | Problem | undefined {
  if (PARTS.every((part) => flags[part] === undefined)) return undefined;
  let section = MADE_UP;
  for (const part of PARTS) {
    const text = flags[part];
    if (text === undefined) continue;
    const read = partIn(part, text);
    if ('todo' in read) return read as Problem;
    section = { ...section, ...(read as Partial<Section>) };
  }
  return crossed(section, PARTS) ?? section;
}

/** The file to begin with, with these dimensions. */
export function withSection(beginning: string, section: Section): string {
  const put = (text: string, name: string, value: number): string =>
    text.replace(new RegExp(`^(  ${name}: \\{value: )[\\d.]+`, 'm'), (_, lead: string) => `${lead}${value}`);
  const { face, floor, edge, cover, bead } = section;
  return Object.entries({ face, floor, edge, cover, bead_height: bead }).reduce(
    (text, [name, value]) => put(text, name, value),
    beginning,
  );
}

type SectionQuestions = Dialogue & {
  readonly opening: readonly string[];
  /** Undefined until every question was answered. */
  readonly answers: () => Section | undefined;
};

/** Asked one after the other; the last answer is held against those before it. */
export function sectionQuestions(name: string, io: Pick<Io, 'reader'>): SectionQuestions {
  const say = saying(io, FIRST_SAYS);
  let section = MADE_UP;
  let at = 0;
  const question = (): readonly string[] => {
    const part = PARTS[at];
    return part === undefined ? [say('section-done')] : [say(`section-${part}`)];
  };
  return {
    opening: [say('section-hello'), ...question()],
    asks: true,
    title: say('section-title', { name }),
    get over() {
      return at >= PARTS.length;
    },
    help: [say('section-help')],
    get prompt() {
      return at >= PARTS.length ? '' : say('first-of', { n: at + 1, of: PARTS.length });
    },
    answers: () => (at >= PARTS.length ? section : undefined),
    type(typed) {
      const line = typed.trim();
      if (line === '<') {
        at = Math.max(0, at - 1);
        return { says: question() };
      }
      const part = PARTS[at]!;
      const read = partIn(part, line);
      if ('todo' in read) return { problem: read as Problem };
      const next = { ...section, ...(read as Partial<Section>) };
      const wrong = crossed(next, PARTS.slice(0, at + 1));
      if (wrong) return { problem: wrong };
      section = next;
      at++;
      return { says: question() };
    },
  };
}
