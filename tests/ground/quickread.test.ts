/** What is read quickly is what the schema gives, for every file format, whatever is changed in a file. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { CORE_SCHEMA, load } from 'js-yaml';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { DOUBT, quickRead } from '../../src/ground/quickread.js';
import { instrumentsSchema } from '../../src/measure/instrumentsfile.js';
import { limitsSchema } from '../../src/measure/limitsfile.js';
import { procedureSchema } from '../../src/procedure/schema.js';
import { translationSchema } from '../../src/procedure/translationschema.js';
import { workshopSchema } from '../../src/store/house.js';
import { peopleSchema } from '../../src/store/people.js';
import { setupsSchema } from '../../src/store/setups.js';
import { profileSetSchema } from '../../src/window/setschema.js';

const FORMATS: [string, z.ZodType][] = [
  ['shared/workshop.yaml', workshopSchema],
  ['shared/people.yaml', peopleSchema],
  ['shared/limits.yaml', limitsSchema],
  ['shared/instruments.yaml', instrumentsSchema],
  ['shared/setups.yaml', setupsSchema],
  ['shared/profile-sets/w52.yaml', profileSetSchema],
  ['shared/profile-sets/k70.yaml', profileSetSchema],
  ['procedures/casement.yaml', procedureSchema],
  ['procedures/casement.de.yaml', translationSchema],
];

describe.each(FORMATS)('%s', (path, schema) => {
  const file = () =>
    load(readFileSync(resolve(path), 'utf8'), { schema: CORE_SCHEMA }) as Record<string, unknown>;

  it('is read without asking the schema, members in the same order', () => {
    const given = quickRead(schema, file());
    expect(given).not.toBe(DOUBT);
    expect(JSON.stringify(given)).toBe(JSON.stringify(schema.parse(file())));
    expect(given).toEqual(schema.parse(file()));
  });

  it('gives what the schema gives or is in doubt, whatever is changed', () => {
    const values = fc.oneof(
      fc.constantFrom<unknown>(null, '', 'pass', 0, -1, 1.5, 1e9, true, [], {}, [null], ['a'], '\u001b[2J'),
      fc.jsonValue({ maxDepth: 2 }),
    );
    const spots = places(file()).length;
    let refused = 0;
    fc.assert(
      fc.property(fc.nat(spots - 1), fc.nat(3), values, (where, how, value) => {
        const changed = file();
        const [holder, key] = places(changed)[where]!;
        if (how === 0) delete holder[key];
        else if (how === 1) holder[`${key}x`] = value;
        else holder[key] = value;
        const given = quickRead(schema, changed);
        const parsed = schema.safeParse(changed);
        if (!parsed.success) refused += 1;
        if (given !== DOUBT) expect(given).toEqual(parsed.data);
      }),
      { seed: 52, numRuns: 120 },
    );
    expect(refused).toBeGreaterThan(20);
  });
});

describe('what it makes of a schema', () => {
  const string = z.string();
  it.each<[string, z.ZodType, unknown, unknown]>([
    ['a union takes the first that fits', z.union([z.number(), string.transform(Number)]), '4', 4],
    ['a default for what is not there', z.strictObject({ a: z.array(string).default([]) }), {}, { a: [] }],
    ['what is optional is left out', z.strictObject({ a: string.optional() }), {}, {}],
    ['a pair', z.tuple([z.number(), string]), [1, 'x'], [1, 'x']],
    ['numbers within bounds', z.number().min(1).max(3).int(), 3, 3],
    ['a date', z.iso.date(), '2026-02-28', '2026-02-28'],
    [
      'tables told apart by a member',
      z.union([z.strictObject({ a: string }), z.strictObject({ b: string })]),
      { b: 'x' },
      { b: 'x' },
    ],
    ['a check that holds', string.refine((text) => text === 'x'), 'x', 'x'],
  ])('%s', (_, schema, value, gives) => {
    expect(quickRead(schema, value)).toEqual(gives);
    expect(schema.parse(value)).toEqual(gives);
  });

  it.each<[string, z.ZodType, unknown]>([
    ['a value of another kind', string, 1],
    ['a number that is none', z.number(), Number.NaN],
    ['a number out of bounds', z.number().max(3), 4],
    ['a text too long', string.max(2), 'abc'],
    ['a check that does not hold', string.refine((text) => text === 'x'), 'y'],
    ['a check that answers later', string.refine(async () => true), 'y'],
    ['a change of the text by the schema', string.trim(), ' y'],
    ['a change that may complain', z.unknown().transform((value, context) => (context ? value : 0)), 1],
    ['an object that takes more', z.object({ a: string }), { a: 'x', b: 1 }],
    ['a member too many', z.strictObject({ a: string }), { a: 'x', b: 1 }],
    ['a member that says it is not there', z.strictObject({ a: string.optional() }), { a: undefined }],
    ['a list that ends otherwise', z.tuple([string], z.number()), ['a', 1]],
    ['a list with a hole', z.array(string.optional()), new Array(1)],
    [
      'a table that would change what all objects are',
      z.record(string, z.unknown()),
      JSON.parse('{"__proto__":{}}'),
    ],
    ['a table by numbers', z.record(z.number(), string), {}],
    ['a union of what can\u2019t be told apart', z.union([string.nullable(), z.number()]), 1],
    ['a kind it does not know', z.date(), new Date(0)],
    ['a format of texts that has no pattern', z.url(), 'https://example.org'],
    ['a date that is none', z.iso.date(), '2026-02-30'],
  ])('is in doubt about %s', (_, schema, value) => {
    expect(quickRead(schema, value)).toBe(DOUBT);
  });
});

/** Every member of every object in a value: its holder and its name. */
function places(value: unknown): [Record<string, unknown>, string][] {
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([key, inner]) => [
    [value as Record<string, unknown>, key] as [Record<string, unknown>, string],
    ...places(inner),
  ]);
}
