/** shared/schemas is what the program reads its files by: made anew here and compared, and tried on the workshop's own files. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { CORE_SCHEMA, load } from 'js-yaml';
import { expect, it } from 'vitest';
import * as z from 'zod';
import { schemaFiles } from '../../scripts/schemas.js';

const ROOT = join(import.meta.dirname, '../..');
const FOLDER = join(ROOT, 'shared/schemas');
const files = schemaFiles();

it('shared/schemas is current (npm run schemas)', () => {
  const there = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));
  expect(there.sort()).toEqual(Object.keys(files).sort());
  for (const [name, text] of Object.entries(files))
    expect(readFileSync(join(FOLDER, name), 'utf8'), `${name} differs: npm run schemas`).toBe(text);
});

const OWN: readonly [schema: string, file: string][] = [
  ['job.json', 'shared/jobs/pier-house.yaml'],
  ['procedure.json', 'procedures/casement.yaml'],
  ['translation.json', 'procedures/casement.de.yaml'],
  ['profile-set.json', 'shared/profile-sets/w52.yaml'],
  ['profile-set.json', 'shared/profile-sets/k70.yaml'],
  ['limits.json', 'shared/limits.yaml'],
  ['instruments.json', 'shared/instruments.yaml'],
  ['people.json', 'shared/people.yaml'],
  ['workshop.json', 'shared/workshop.yaml'],
];

it.each(OWN)('%s takes %s, and not one with a key it does not know', (schema, file) => {
  const check = z.fromJSONSchema(JSON.parse(files[schema]!));
  const value = load(readFileSync(join(ROOT, file), 'utf8'), { schema: CORE_SCHEMA }) as object;
  expect(check.safeParse(value).error?.issues ?? []).toEqual([]);
  expect(check.safeParse({ ...value, strange: 1 }).success).toBe(false);
});
