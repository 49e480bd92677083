/**
 * YAML with places: parse, check against a zod schema, and give every problem its line and column. js-yaml parses, since a
 * file is right far more often than wrong; carefulyaml.ts says what the other parser is for and what it costs.
 */
import { CORE_SCHEMA, load } from 'js-yaml';
import type * as z from 'zod';
import { DEEPEST, PositionedYaml, YAML_MESSAGES } from './positionedyaml.js';
import {
  err,
  lazyPlace,
  ok,
  type Place,
  type Problem,
  problemFactory,
  type Result,
  type SourceText,
} from './problem.js';

const raise = problemFactory(YAML_MESSAGES);

const LARGEST = 2_000_000;

/** A parsed file that can still say where each of its values stands. */
export interface Located<T> {
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
export function readYaml<S extends z.ZodType>(source: SourceText, schema: S): Result<Located<z.output<S>>> {
  const { file, text } = source;
  if (text.length > LARGEST)
    return err(
      raise('file.too-large', `The file has ${text.length} characters; ${LARGEST} are taken.`, { file }),
    );
  const deep = tooDeepText(text);
  if (deep) return err(raise('file.deep', 'Brackets are opened in brackets without end.', { file, ...deep }));
  let read: PositionedYaml | undefined;
  const careful = (): PositionedYaml => {
    read ??= new PositionedYaml(source);
    return read;
  };
  const at = (path: readonly PropertyKey[]) => lazyPlace(file, () => careful().find(path));
  const quick = quickValue(text);
  if (quick === undefined) {
    const problems = careful().problems();
    if (problems.length > 0) return err(...problems);
  }
  const given = quick ? quick.value : careful().value();
  const parsed = schema.safeParse(given);
  if (!parsed.success) {
    // A file that is wrong is read again by the parser that knows places, which may also find the deeper cause.
    const structural = careful().problems();
    return err(...(structural.length > 0 ? structural : schemaProblems(parsed.error, at)));
  }
  return ok({ file, value: parsed.data as z.output<S>, at });
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
  if (depth >= DEEPEST) return true;
  const inside = value as Readonly<Record<string, unknown>>;
  for (const key in inside) if (tooDeep(inside[key], depth + 1)) return true;
  return false;
}

function schemaProblems(error: z.ZodError, at: Located<unknown>['at']): Problem[] {
  return error.issues.slice(0, 20).flatMap((issue) => {
    const keys = issue.code === 'unrecognized_keys' ? issue.keys : [undefined];
    return keys.map((key): Problem => {
      const path = key === undefined ? issue.path : [...issue.path, key];
      const name = path.map(String).join('.') || 'the file';
      const id =
        (issue as { params?: { id?: string } }).params?.id === 'control' ? 'file.control' : 'file.schema';
      const text = `${name}: ${key === undefined ? whatOf(issue.message) : 'this key is not known here'}`;
      return raise(id, text, at(path));
    });
  });
}

/** What the schema says of a value, in a person's words where it is not there at all. */
export const whatOf = (message: string): string =>
  /, received undefined$/.test(message)
    ? `this key is missing; ${message.replace(/^Invalid input: |, received undefined$/g, '')}`
    : message;
