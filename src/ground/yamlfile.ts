/**
 * YAML with places: parse, check against a zod schema, and give every problem its line and column.
 */
import { CORE_SCHEMA, load } from 'js-yaml';
import { isAlias, isCollection, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import type * as z from 'zod';
import { bad, good, lazyPlace, type Place, type Problem, type Result, raiser } from './problem.js';
import { DOUBT, quickRead } from './quickread.js';
import type { SourceText } from './sourcetext.js';

export const YAML_MESSAGES = {
  'file.yaml': { what: 'the file is not valid YAML', todo: 'Mend the line named; indent with spaces only.' },
  'file.too-large': {
    what: 'a workshop file is larger than 2 MB',
    todo: 'Split the file, or remove what does not belong in it.',
  },
  'file.alias': {
    what: 'the file uses YAML aliases or anchors',
    todo: 'Write the value out in full; anchors and aliases are not taken.',
  },
  'file.deep': { what: 'the file is nested too deeply', todo: 'Nest at most 40 levels.' },
  'file.schema': {
    what: 'a key is missing, unknown, or has a value of the wrong kind',
    todo: 'See the manual of this file format for the keys it takes.',
  },
  'file.control': {
    what: 'a text holds control characters',
    todo: 'Type the text again; only visible characters are taken.',
  },
} as const;
const raise = raiser(YAML_MESSAGES);

const LARGEST = 2_000_000;
const DEEPEST = 40;

/** A parsed file that can still say where each of its values stands. */
export interface Placed<T> {
  readonly file: string;
  readonly value: T;
  /** Where the value at a path stands; the nearest parent where the path itself is not in the file. */
  at(path: readonly PropertyKey[]): Place;
}

/**
 * Reads one YAML text against a schema. Unknown keys are problems where the schema is strict.
 *
 * Two parsers share the work, since a bench opens often and a file is wrong seldom: a quick one gives the values; the
 * one that knows lines and columns reads the text only when a place is looked at, or when the quick one balks. What
 * both take is held equal by tests.
 */
export function readYaml<S extends z.ZodType>(source: SourceText, schema: S): Result<Placed<z.output<S>>> {
  const { file, text } = source;
  if (text.length > LARGEST)
    return bad(
      raise('file.too-large', `The file has ${text.length} characters; ${LARGEST} are taken.`, { file }),
    );
  const deep = tooDeepText(text);
  if (deep) return bad(raise('file.deep', 'Brackets are opened in brackets without end.', { file, ...deep }));
  const placer = new Placer(source);
  const quick = quickValue(text);
  if (quick === undefined) {
    const problems = placer.problems();
    if (problems.length > 0) return bad(...problems);
  }
  const given = quick ? quick.value : placer.value();
  const surely = quickRead(schema, given);
  if (surely !== DOUBT) return good({ file, value: surely, at: (path) => placer.at(path) });
  const parsed = schema.safeParse(given);
  if (!parsed.success) {
    // A file that is wrong is read again by the parser that knows places, which may also find the deeper cause.
    const structural = placer.problems();
    return bad(...(structural.length > 0 ? structural : schemaProblems(parsed.error, placer)));
  }
  return good({ file, value: parsed.data as z.output<S>, at: (path) => placer.at(path) });
}

/** Anchors and aliases, in any place where YAML could take one; what is found here goes the careful way. */
const ANCHOR = /(?:^|[\s[{,:?-])[&*](?!&)[^\s,[\]{}]/;

/** The text's value, or nothing where it needs the careful parser: a fault, an anchor, an odd key, too deep a nest. */
function quickValue(text: string): { readonly value: unknown } | undefined {
  if (ANCHOR.test(text) || text.includes('%')) return undefined;
  try {
    const value = load(text, { schema: CORE_SCHEMA });
    return value === undefined || value === null || tooDeep(value) ? undefined : { value };
  } catch {
    return undefined;
  }
}

/** Far more brackets than close are looked for before any parser sees them: the careful one would fill the memory. */
const MOST_OPEN = 500;

function tooDeepText(text: string): { readonly line: number; readonly column: number } | undefined {
  let open = 0;
  for (const { 0: bracket, index } of text.matchAll(/[[\]{}]/g)) {
    open = bracket === '[' || bracket === '{' ? open + 1 : Math.max(0, open - 1);
    if (open <= MOST_OPEN) continue;
    const before = text.slice(0, index);
    return { line: before.split('\n').length, column: index - before.lastIndexOf('\n') };
  }
  return undefined;
}

function tooDeep(value: unknown, depth = 0): boolean {
  if (value === null || typeof value !== 'object') return false;
  return depth >= DEEPEST || Object.values(value).some((child) => tooDeep(child, depth + 1));
}

function schemaProblems(error: z.ZodError, placer: Placer): Problem[] {
  return error.issues.slice(0, 20).flatMap((issue) => {
    const keys = issue.code === 'unrecognized_keys' ? issue.keys : [undefined];
    return keys.map((key): Problem => {
      const path = key === undefined ? issue.path : [...issue.path, key];
      const name = path.map(String).join('.') || 'the file';
      const id =
        (issue as { params?: { id?: string } }).params?.id === 'control' ? 'file.control' : 'file.schema';
      const text = `${name}: ${key === undefined ? whatOf(issue.message) : 'this key is not known here'}`;
      return raise(id, text, placer.at(path));
    });
  });
}

/** What the schema says of a value, in a person's words where it is not there at all. */
export const whatOf = (message: string): string =>
  /, received undefined$/.test(message)
    ? `this key is missing; ${message.replace(/^Invalid input: |, received undefined$/g, '')}`
    : message;

/** Reads the text with its places, once, when it must. */
class Placer {
  readonly #source: SourceText;
  #read: { readonly document: ReturnType<typeof parseDocument>; readonly lines: LineCounter } | undefined;

  constructor(source: SourceText) {
    this.#source = source;
  }

  #careful() {
    if (!this.#read) {
      const lines = new LineCounter();
      const document = parseDocument(this.#source.text, {
        lineCounter: lines,
        prettyErrors: false,
        uniqueKeys: true,
        strict: true,
      });
      this.#read = { document, lines };
    }
    return this.#read;
  }

  #place(offset: number): Place {
    const { line, col } = this.#careful().lines.linePos(offset);
    return { file: this.#source.file, line, column: col };
  }

  /** Faults of the text itself, before any schema. */
  problems(): Problem[] {
    const { document } = this.#careful();
    if (document.errors.length > 0)
      return document.errors.slice(0, 20).map((e) => raise('file.yaml', e.message, this.#place(e.pos[0])));
    const structural = checkTree(document.contents, (offset) => this.#place(offset));
    return structural ? [structural] : [];
  }

  value(): unknown {
    return this.#careful().document.toJS({ maxAliasCount: 0 });
  }

  /** A place whose line and column are worked out when they are looked at. */
  at(path: readonly PropertyKey[]): Place {
    return lazyPlace(this.#source.file, () => this.#find(path));
  }

  #find(path: readonly PropertyKey[]): Place {
    const placeOf = (node: unknown): Place | undefined => {
      const range = (node as Node | null)?.range;
      return range ? this.#place(range[0]) : undefined;
    };
    let node: unknown = this.#careful().document.contents;
    let place = placeOf(node) ?? { file: this.#source.file, line: 1, column: 1 };
    for (const step of path) {
      let next: unknown;
      if (isMap(node)) {
        const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step));
        if (pair) place = placeOf(pair.value) ?? placeOf(pair.key) ?? place;
        next = pair?.value;
      } else if (isSeq(node)) {
        next = node.items[Number(step)];
        place = placeOf(next) ?? place;
      }
      if (next === undefined || next === null) return place;
      node = next;
    }
    return place;
  }
}

function checkTree(root: unknown, place: (offset: number) => Place): Problem | undefined {
  const stack: [unknown, number][] = [[root, 0]];
  while (stack.length > 0) {
    const [node, depth] = stack.pop()!;
    const offset = (node as Node | null)?.range?.[0] ?? 0;
    if (isAlias(node) || (node as { anchor?: string } | null)?.anchor)
      return raise('file.alias', 'The file uses an anchor or an alias.', place(offset));
    if (depth > DEEPEST)
      return raise('file.deep', `The file is nested more than ${DEEPEST} deep.`, place(offset));
    if (isCollection(node))
      for (const item of node.items) {
        const pair = item as { key?: unknown; value?: unknown };
        // "{{ x }}" without quotes is such a key.
        if (isMap(node) && isCollection(pair.key))
          return raise('file.yaml', 'A key is a list or a table.', place(pair.key.range?.[0] ?? offset));
        if (isMap(node)) stack.push([pair.key, depth + 1], [pair.value, depth + 1]);
        else stack.push([item, depth + 1]);
      }
  }
  return undefined;
}
