/** The file format of a procedure's second language, `pinchrod-procedure-text 1`. procedures/README.md is its manual. */
import * as z from 'zod';
import { language, name, text } from '../base/schemas.js';
import { sentence } from './schema.js';

/** A second language: `pinchrod-procedure-text 1`, text keyed by step. */
export const translationSchema = z.strictObject({
  format: z.literal('pinchrod-procedure-text 1'),
  procedure: name,
  version: text(20).min(1),
  language,
  title: text(100).min(1),
  deferral: sentence.optional(),
  /** The program's own phrases of a light, a packer and a lift: "hinged left" to what this language says. */
  phrases: z.record(z.string().max(60), text(80)).default({}),
  holds: z.record(name, text(100)).default({}),
  stages: z.record(name, text(60)).default({}),
  steps: z.record(
    name,
    z.strictObject({
      title: text(70).min(1),
      do: z.array(sentence).min(1),
      why: sentence,
      watch: sentence,
      caution: sentence.optional(),
      tools: z.array(sentence).optional(),
      question: z.strictObject({ ask: sentence, answers: z.array(sentence).min(2) }).optional(),
      checks: z.record(
        name,
        z.union([
          sentence,
          z.strictObject({
            ask: sentence,
            how: sentence.optional(),
            choices: z.record(name, sentence).optional(),
          }),
        ]),
      ),
    }),
  ),
});
export type TranslationFile = z.output<typeof translationSchema>;
