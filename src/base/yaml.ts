/**
 * YAML with positions: parses, validates against a zod schema, and gives every problem a line and column. Uses js-yaml,
 * because files are far more often right than wrong; positionedyaml.ts covers the other parser and its cost.
 */
import { CORE_SCHEMA, load } from 'js-yaml';
import type * as z from 'zod';
import { keysAt, nearest } from './knownkeys.js';
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
import { valueFault } from './schemafault.js';

const raise = problemFactory(YAML_MESSAGES);

const LARGEST = 2_000_000;

export interface Located<T> {
  readonly file: string;
  readonly value: T;
  /** Place of the value at `path`, or of its nearest parent if the path is not in the file. */
  at(path: readonly PropertyKey[]): Place;
}

/**
 * Parses YAML against a schema. Unknown keys are problems if the schema is strict.
 *
 * Uses two parsers, because files are opened often and are seldom wrong. The fast one gives the values; the positioned
 * one parses the text only when a place is looked up or the fast one fails. Tests check that both accept the same
 * input.
 */
export function readYaml<S extends z.ZodType>(source: SourceText, schema: S): Result<Located<z.output<S>>> {
  const { file, text } = source;
  if (text.length > LARGEST)
    return err(raise('file.too-large', { count: text.length, largest: LARGEST }, { file }));
  const deep = tooDeepText(text);
  if (deep) return err(raise('file.deep/brackets', {}, { file, ...deep }));
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
  const parsed = schema.safeParse(given, { reportInput: true });
  if (!parsed.success) {
    // Parse the invalid file again with positions, which may also reveal the underlying cause.
    const structural = careful().problems();
    return err(...(structural.length > 0 ? structural : schemaProblems(parsed.error, schema, at)));
  }
  return ok({ file, value: parsed.data as z.output<S>, at });
}

/** Matches an anchor or alias anywhere YAML allows one; a match goes to the positioned parser. */
const ANCHOR = /(?:^|[\s[{,:?-])[&*](?!&)[^\s,[\]{}]/;

/** The parsed value, or undefined if the positioned parser is needed: an error, an anchor, an odd key, deep nesting. */
function quickValue(text: string): { readonly value: unknown } | undefined {
  if (ANCHOR.test(text) || text.includes('%')) return undefined;
  try {
    const value = load(text, { schema: CORE_SCHEMA });
    return value === undefined || value === null || tooDeep(value) ? undefined : { value };
  } catch {
    return undefined;
  }
}

/** Unclosed brackets are limited before any parser runs: the positioned one would exhaust memory. */
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

function schemaProblems(error: z.ZodError, schema: z.ZodType, at: Located<unknown>['at']): Problem[] {
  // A misspelt key is not missed as well: what is told of it says which one is meant.
  const meant = new Set(
    error.issues.flatMap((issue) =>
      issue.code === 'unrecognized_keys'
        ? issue.keys.map((key) => pathText([...issue.path, nearest(key, keysAt(schema, issue.path)) ?? key]))
        : [],
    ),
  );
  const told = error.issues.filter(
    (issue) =>
      issue.input !== undefined || issue.code === 'unrecognized_keys' || !meant.has(pathText(issue.path)),
  );
  return told.slice(0, 20).flatMap((issue) => {
    const keys = issue.code === 'unrecognized_keys' ? issue.keys : [undefined];
    return keys.map((key): Problem => {
      const path = key === undefined ? issue.path : [...issue.path, key];
      const name = pathText(path) || 'the file';
      if (key !== undefined) {
        // `value: 0,8` in braces reads as a key "8".
        if (/^\d+$/.test(key)) return raise('file.schema/comma', { path: name }, at(path));
        const known = keysAt(schema, issue.path);
        const near = nearest(key, known);
        return near === undefined
          ? raise('file.schema/key', { path: name, known }, at(path))
          : raise('file.schema/near', { path: name, near, known }, at(path));
      }
      const id =
        (issue as { params?: { id?: string } }).params?.id === 'control' ? 'file.control' : 'file.schema';
      const fault = valueFault(issue);
      if (id === 'file.schema' && issue.code === 'invalid_value' && issue.values.length > 1) {
        const known = issue.values.map(String);
        const near = nearest(String(issue.input), known) ?? known[0]!;
        return raise('file.schema/value', { path: name, fault, near, known }, at(path));
      }
      const number =
        issue.code === 'invalid_type' && issue.expected === 'number' ? meantNumber(issue.input) : undefined;
      if (number !== undefined)
        return raise(
          'file.schema/number',
          { path: name, given: String(issue.input).slice(0, 40), number },
          at(path),
        );
      return raise(id, { path: name, fault }, at(path));
    });
  });
}

/** Of `950,5`, `1100 mm` and `1,100`: the number that was probably meant. */
function meantNumber(input: unknown): string | undefined {
  if (typeof input !== 'string') return undefined;
  const digits = /^(\d[\d.,' ]*?)\s*(?:mm|cm|m|kg)?$/i.exec(input.trim())?.[1]?.replace(/[' ]/g, '');
  if (digits === undefined) return undefined;
  // Three digits behind it: the sign parts thousands.
  return /^\d{1,3}(?:[.,]\d{3})+$/.test(digits) ? digits.replace(/[.,]/g, '') : digits.replace(',', '.');
}

const pathText = (path: readonly PropertyKey[]): string => path.map(String).join('.');
