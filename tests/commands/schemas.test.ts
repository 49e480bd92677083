/** shared/schemas is what the program reads its files by: made anew here and compared, and tried on the workshop's own files. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { CORE_SCHEMA, load } from 'js-yaml';
import { expect, it } from 'vitest';
import * as z from 'zod';
import { schemaFiles } from '../../scripts/schemas.js';

const ROOT = join(import.meta.dirname, '../..');
const FOLDER = join(ROOT, 'shared/schemas');
const files = schemaFiles((file) => readFileSync(join(ROOT, file), 'utf8'));

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
  ['setups.json', 'shared/setups.yaml'],
];

it.each(OWN)('%s takes %s, and not one with a key it does not know', (schema, file) => {
  const check = z.fromJSONSchema(JSON.parse(files[schema]!));
  const value = load(readFileSync(join(ROOT, file), 'utf8'), { schema: CORE_SCHEMA }) as object;
  expect(check.safeParse(value).error?.issues ?? []).toEqual([]);
  expect(check.safeParse({ ...value, strange: 1 }).success).toBe(false);
});

it('the layout of a unit is described, a split within a split too; a light of a kind that there is not is refused', () => {
  const check = z.fromJSONSchema(JSON.parse(files['job.json']!));
  const job = load(readFileSync(join(ROOT, 'shared/jobs/pier-house.yaml'), 'utf8'), {
    schema: CORE_SCHEMA,
  }) as {
    units: readonly object[];
  };
  const withLayout = (layout: object) => ({ ...job, units: [{ ...job.units[0], layout }] });
  const fixed = { light: 'fixed' };
  const inner = { split: 'level', at: [400], parts: [fixed, fixed] };
  expect(check.safeParse(withLayout({ split: 'upright', at: [500], parts: [fixed, inner] })).success).toBe(
    true,
  );
  expect(check.safeParse(withLayout({ light: 'sliding' })).success).toBe(false);
  expect(
    check.safeParse(withLayout({ split: 'upright', at: [500], parts: [fixed, { lihgt: 'fixed' }] })).success,
  ).toBe(false);
});

it('editors are told what keys of jobs and profile sets say', () => {
  for (const [name, least] of [
    ['job.json', 40],
    ['profile-set.json', 150],
  ] as const)
    expect(files[name]!.split('"description"').length - 1, name).toBeGreaterThan(least);
});

it.each([
  ['shared/jobs/README.md', '../schemas/job.json'],
  ['shared/profile-sets/README.md', '../schemas/profile-set.json'],
  ['procedures/README.md', '../shared/schemas/procedure.json'],
])('%s shows the line by which an editor uses its schema', (manual, schema) => {
  expect(readFileSync(join(ROOT, manual), 'utf8')).toContain(`# yaml-language-server: $schema=${schema}`);
  expect(readFileSync(join(ROOT, manual, '..', schema), 'utf8')).toContain('json-schema.org');
});
