/**
 * YAML with places: parse, check against a zod schema, and give every problem its line and column.
 */
import { isAlias, isCollection, isMap, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import type * as z from 'zod';
import { bad, good, type Place, type Problem, type Result, raiser } from './problem.js';
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

/** Reads one YAML text against a schema. Unknown keys are problems where the schema is strict. */
export function readYaml<S extends z.ZodType>(source: SourceText, schema: S): Result<Placed<z.output<S>>> {
  const { file, text } = source;
  if (text.length > LARGEST)
    return bad(
      raise('file.too-large', `The file has ${text.length} characters; ${LARGEST} are taken.`, { file }),
    );
  const lines = new LineCounter();
  const document = parseDocument(text, {
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: true,
    strict: true,
  });
  const offsetPlace = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line, column: col };
  };
  if (document.errors.length > 0)
    return bad(
      ...document.errors.slice(0, 20).map((e) => raise('file.yaml', e.message, offsetPlace(e.pos[0]))),
    );
  const structural = checkTree(document.contents, offsetPlace);
  if (structural) return bad(structural);

  const at = (path: readonly PropertyKey[]): Place => {
    let node: unknown = document.contents;
    let place: Place = nodePlace(node) ?? { file, line: 1, column: 1 };
    for (const step of path) {
      let next: unknown;
      if (isMap(node)) {
        const pair = node.items.find((item) => isScalar(item.key) && String(item.key.value) === String(step));
        if (pair) place = nodePlace(pair.value) ?? nodePlace(pair.key) ?? place;
        next = pair?.value;
      } else if (isSeq(node)) {
        next = node.items[Number(step)];
        place = nodePlace(next) ?? place;
      }
      if (next === undefined || next === null) return place;
      node = next;
    }
    return place;
  };
  function nodePlace(node: unknown): Place | undefined {
    const range = (node as Node | null)?.range;
    return range ? offsetPlace(range[0]) : undefined;
  }

  const raw: unknown = document.toJS({ maxAliasCount: 0 });
  const parsed = schema.safeParse(raw);
  if (!parsed.success)
    return bad(
      ...parsed.error.issues.slice(0, 20).flatMap((issue) => {
        const keys = issue.code === 'unrecognized_keys' ? issue.keys : [undefined];
        return keys.map((key): Problem => {
          const path = key === undefined ? issue.path : [...issue.path, key];
          const name = path.map(String).join('.') || 'the file';
          const id =
            (issue as { params?: { id?: string } }).params?.id === 'control' ? 'file.control' : 'file.schema';
          const text =
            key === undefined ? `${name}: ${issue.message}` : `${name}: this key is not known here`;
          return raise(id, text, at(path));
        });
      }),
    );
  return good({ file, value: parsed.data as z.output<S>, at });
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
        if (isMap(node)) stack.push([pair.key, depth + 1], [pair.value, depth + 1]);
        else stack.push([item, depth + 1]);
      }
  }
  return undefined;
}
