/** Small zod schemas that the workshop's file formats share. */
import * as z from 'zod';
import { isPathTraversal, isPlain, LONGEST_NAME, NAME } from './text.js';

// A start reads each file once: code made for a schema would cost more than it saves. Journals have checks of their own.
z.config({ jitless: true });

/** Text that a person reads: visible characters only, so that it can never drive a terminal or a document. */
export function text(longest = 2000) {
  const made = texts.get(longest) ?? textOf(longest);
  texts.set(longest, made);
  return made;
}

/** Formats ask for a few lengths over and over, and a schema takes long to make. */
const texts = new Map<number, ReturnType<typeof textOf>>();

const textOf = (longest: number) =>
  z
    .string()
    .max(longest)
    .refine(isPlain, { message: 'holds control or invisible characters', params: { id: 'control' } });

/** Text over several lines (YAML block text): line ends are allowed, all else as `text`. */
export const longText = (longest = 4000) =>
  z
    .string()
    .max(longest)
    .refine((s) => s.split('\n').every(isPlain), {
      message: 'holds control or invisible characters',
      params: { id: 'control' },
    });

/** A name by which files refer to one another, as names.ts has it, with what is wrong said. */
export const name = z
  .string()
  .min(1)
  .max(LONGEST_NAME)
  .regex(NAME, 'use letters, digits, ".", "-" and "_" only, beginning with a letter or digit')
  .refine((s) => !isPathTraversal(s), '".." is not taken in a name');

/** A language by its ISO 639 code: `de`. */
export const language = z.string().regex(/^[a-z]{2,3}$/, 'two or three small letters, such as "de"');

/** A length in millimetres, more than zero. */
export const length = z.number().positive().max(20_000);

/** How a figure is known. A published source may be cited to a customer; the others say what they are. */
const sourceKind = z.enum(['published', 'manual', 'house-rule', 'common-practice', 'memory', 'invented']);
export type SourceKind = z.infer<typeof sourceKind>;

export const source = z.strictObject({ kind: sourceKind, text: text(300) });
export type Source = z.infer<typeof source>;
