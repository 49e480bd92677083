/**
 * The people of a workshop as a unit keeps them: ids and the levels that counted, without names. A name stands in a file of
 * its own (names.ts), so that it can be erased while the journals stay as they are.
 */
import * as z from 'zod';
import { canonicalText } from './chain.js';
import type { Level, Person } from './types.js';

const FORMAT = 'pinchrod-team 1';
const hash = z.string().regex(/^[0-9a-f]{64}$/);

const teamSchema = z.strictObject({
  format: z.literal(FORMAT),
  people: z.array(
    z.strictObject({
      id: z.string(),
      levels: z.record(
        z.string(),
        z
          .number()
          .int()
          .min(0)
          .max(5)
          .transform((n) => n as Level),
      ),
      validUntil: z.string().optional(),
      /** SHA-256 of the file that holds the name. */
      name: hash,
    }),
  ),
});
export type Team = z.infer<typeof teamSchema>;
export type TeamMember = Team['people'][number];

/** @param nameOf SHA-256 of the file that holds a person's name */
export const teamText = (people: readonly Person[], nameOf: (person: Person) => string): string =>
  canonicalText({
    format: FORMAT,
    people: people.map((person) => {
      const { id, levels, validUntil } = person;
      return { id, levels, ...(validUntil === undefined ? {} : { validUntil }), name: nameOf(person) };
    }),
  });

/** Undefined if the text is no team. */
export function readTeam(text: string): Team | undefined {
  if (!text.includes(FORMAT)) return undefined;
  try {
    const read = teamSchema.safeParse(JSON.parse(text));
    return read.success ? read.data : undefined;
  } catch {
    return undefined;
  }
}
