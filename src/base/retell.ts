/**
 * What was written down in English, told in the reader's language: journals and the board keep sentences, not ids, so the
 * sentence is found again by the catalogue's own patterns. What no catalogue knows stays as it was written.
 */
import { FluentResource } from '@fluent/bundle';
import {
  type Catalogue,
  data,
  type Entry,
  type Filling,
  Message,
  type Reader,
  type Spoken,
  type Tell,
} from './words.js';

type Pattern = NonNullable<FluentResource['body'][number]['value']>;

/** One way in which an entry can read. */
interface Form {
  readonly id: string;
  readonly entry: Entry;
  readonly reads: RegExp;
  /** Its longest piece of fixed words; looked for first, because it is quick. */
  readonly piece: string;
  /** Number of its fixed characters: of several forms that fit, the one with most is meant. */
  readonly fixed: number;
  /** What is filled in by a number, and the number where the form itself says it. */
  readonly numbers: Readonly<Record<string, number | undefined>>;
}

type Part = string | { readonly name: string };

/** Sentences within sentences are followed so far. */
const DEEPEST = 4;
/** Fixed characters without which a form could be anything. */
const LEAST_FIXED = 2;
const FEW_FIXED = 6;
/** With fewer letters of its own, a form would fit half of what is written. */
const FEW_LETTERS = 8;

/** @param own texts of the workshop's files, such as titles of steps, and what they are called in the reader's language */
export function reteller(
  catalogue: Catalogue,
  tell: Tell,
  own: (text: string) => string | undefined = () => undefined,
): (text: string) => Spoken {
  let forms: readonly Form[] | undefined;
  let plain: ReadonlyMap<string, Message> | undefined;
  const known = new Map<string, string>();
  const retold = (text: string, depth: number): string => {
    // Words of the program first: names of the workshop's files may have to be read before they are known.
    const found = known.get(text) ?? simply(text) ?? own(text);
    if (found !== undefined) return found;
    forms ??= Object.entries(catalogue).flatMap(([id, entry]) => formsOf(id, entry));
    const made = fitting(text, depth) ?? several(text, depth) ?? text;
    known.set(text, made);
    return made;
  };
  /** Without making a form of any entry: what nothing is filled into, alone or several in a row. */
  const simply = (text: string): string | undefined => {
    plain ??= plainOf(catalogue);
    const whole = plain.get(text);
    if (whole) return tell(whole);
    const between = ['; ', ', '].find((each) => text.includes(each));
    if (between === undefined) return undefined;
    const items = text.split(between).map(simply);
    return items.every((item) => item !== undefined) ? items.join(between) : undefined;
  };
  const fitting = (text: string, depth: number): string | undefined => {
    let best: { readonly form: Form; readonly groups: Readonly<Record<string, string>> } | undefined;
    for (const form of forms!) {
      if (form.fixed <= (best?.form.fixed ?? 0) || !text.includes(form.piece)) continue;
      const match = form.reads.exec(text);
      if (match) best = { form, groups: match.groups ?? {} };
    }
    // What is little more than a colon fits several clauses in a row as well: each of them is told by itself.
    if (!best || (best.form.fixed < FEW_FIXED && text.includes('; '))) return undefined;
    const { id, entry, numbers } = best.form;
    const args: Record<string, Filling> = {};
    for (const [name, value] of Object.entries(best.groups))
      args[name] = name in numbers ? Number(value) : depth >= DEEPEST ? value : retold(value, depth + 1);
    for (const [name, value] of Object.entries(numbers)) args[name] ??= value ?? 2;
    return tell(new Message(id, entry, args));
  };
  const several = (text: string, depth: number): string | undefined => {
    const between = ['; ', ': ', ', '].find((each) => text.includes(each));
    if (between === undefined || depth >= DEEPEST) return undefined;
    return text
      .split(between)
      .map((item) => retold(item, depth + 1))
      .join(between);
  };
  return (text) => data(retold(text, 0));
}

/** Entries into which nothing is filled, by their text. */
function plainOf(catalogue: Catalogue): ReadonlyMap<string, Message> {
  const found = new Map<string, Message>();
  for (const [id, entry] of Object.entries(catalogue))
    if (!entry.text.includes('{') && entry.text.length >= LEAST_FIXED && !found.has(entry.text))
      found.set(entry.text, new Message(id, entry));
  return found;
}

function formsOf(id: string, entry: Entry): Form[] {
  const pattern = new FluentResource(`m = ${entry.text.replaceAll('\n', '\n  ')}`).body[0]?.value;
  if (pattern === undefined || pattern === null) return [];
  return expanded(pattern).flatMap(({ parts, numbers }) => {
    const words = parts.filter((part): part is string => typeof part === 'string');
    const fixed = words.reduce((sum, each) => sum + each.length, 0);
    if (fixed < LEAST_FIXED) return [];
    const letters = words.join('').replace(/[^A-Za-z]/g, '').length;
    const seen = new Set<string>();
    const source = parts.map((part) => {
      if (typeof part === 'string') return part.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
      if (seen.has(part.name)) return `\\k<${part.name}>`;
      seen.add(part.name);
      const example = entry.example[part.name];
      const given = letters < FEW_LETTERS || FIGURE.test(String(example ?? '')) ? example : undefined;
      return `(?<${part.name}>${part.name in numbers ? '-?\\d+' : like(given)})`;
    });
    const piece = words.toSorted((a, b) => b.length - a.length)[0]!;
    return [{ id, entry, reads: new RegExp(`^${source.join('')}$`, 's'), piece, fixed, numbers }];
  });
}

interface Expanded {
  readonly parts: readonly Part[];
  readonly numbers: Readonly<Record<string, number | undefined>>;
}

const FIGURE = /^[+-]?\d[\d.,/" ]*$/;

/** What may be filled in where a figure is, or into a form with few words of its own: what looks like its example. */
function like(example: string | number | undefined): string {
  if (example === undefined) return '.+?';
  const text = String(example);
  if (FIGURE.test(text)) return '[+-]?\\d[\\d.,/" ]*?';
  return text.includes(' ') ? '.+?' : '\\S+?';
}

/** The pattern with each of its variants written out. */
function expanded(pattern: Pattern): Expanded[] {
  let made: Expanded[] = [{ parts: [], numbers: {} }];
  const then = (more: readonly Expanded[]): void => {
    made = made.flatMap((before) =>
      more.map((after) => ({
        parts: [...before.parts, ...after.parts],
        numbers: { ...before.numbers, ...after.numbers },
      })),
    );
  };
  for (const element of typeof pattern === 'string' ? [pattern] : pattern) {
    if (typeof element === 'string') then([{ parts: [element], numbers: {} }]);
    else if (element.type === 'str') then([{ parts: [element.value], numbers: {} }]);
    else if (element.type === 'var') then([{ parts: [{ name: element.name }], numbers: {} }]);
    else if (element.type === 'select' && element.selector.type === 'var') {
      const { name } = element.selector;
      then(
        element.variants.flatMap(({ key, value }) =>
          expanded(value).map(({ parts, numbers }) => ({
            parts,
            numbers: {
              ...numbers,
              [name]: key.type === 'num' ? key.value : key.value === 'one' ? 1 : undefined,
            },
          })),
        ),
      );
    }
  }
  return made;
}

/** Line by line, each with what it is indented by. */
export const linesRetold = (text: string, { retell }: Pick<Reader, 'retell'>): string =>
  text
    .split('\n')
    .map((line) => {
      const [lead = ''] = /^\s*(?:[-+] )?/.exec(line) ?? [];
      return line.length === lead.length ? line : `${lead}${retell(line.slice(lead.length))}`;
    })
    .join('\n');
