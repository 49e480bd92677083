import * as z from 'zod';
import { isPathTraversal, isPlain, LONGEST_NAME, NAME } from './text.js';

// Each file is read once per start: compiling a schema costs more than it saves. Journals have their own checks.
z.config({ jitless: true });

/** Human-readable text: visible characters only, so it can never drive a terminal or corrupt a document. */
export function text(longest = 2000) {
  const made = texts.get(longest) ?? textOf(longest);
  texts.set(longest, made);
  return made;
}

/** Cached by length: formats use only a few lengths, and building a schema is slow. */
const texts = new Map<number, ReturnType<typeof textOf>>();

const textOf = (longest: number) =>
  z
    .string()
    .max(longest)
    .refine(isPlain, { message: 'holds control or invisible characters', params: { id: 'control' } });

/** Multi-line text (YAML block text): as `text`, but line breaks are allowed. */
export const longText = (longest = 4000) =>
  z
    .string()
    .max(longest)
    .refine((s) => s.split('\n').every(isPlain), {
      message: 'holds control or invisible characters',
      params: { id: 'control' },
    });

/** A name that files use to refer to one another (NAME in text.ts), with an error message for each rule. */
export const name = z
  .string()
  .min(1)
  .max(LONGEST_NAME)
  .regex(NAME, 'use letters, digits, ".", "-" and "_" only, beginning with a letter or digit')
  .refine((s) => !isPathTraversal(s), '".." is not taken in a name');

/** ISO 639 language code: `de`. */
export const language = z.string().regex(/^[a-z]{2,3}$/, 'two or three small letters, such as "de"');

export const length = z.number().positive().max(20_000);

/** How a figure is known. A published source may be cited to a customer; the others are labelled as what they are. */
const sourceKind = z.enum(['published', 'manual', 'house-rule', 'common-practice', 'memory', 'invented']);
export type SourceKind = z.infer<typeof sourceKind>;

export const source = z.strictObject({ kind: sourceKind, text: text(300) });
export type Source = z.infer<typeof source>;
