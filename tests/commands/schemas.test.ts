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

interface Described {
  readonly properties?: Readonly<Record<string, Described>>;
  readonly items?: Described | false;
  readonly additionalProperties?: Described | false;
  readonly anyOf?: readonly Described[];
  readonly description?: string;
  readonly $defs?: Readonly<Record<string, Described>>;
}
function undescribed(schema: Described, lead = ''): string[] {
  const own = Object.entries(schema.properties ?? {});
  return [
    ...own.filter(([, { description }]) => description === undefined).map(([name]) => `${lead}.${name}`),
    ...own.flatMap(([name, inner]) => undescribed(inner, `${lead}.${name}`)),
    ...[
      schema.items,
      schema.additionalProperties,
      ...(schema.anyOf ?? []),
      ...Object.values(schema.$defs ?? {}),
    ]
      .filter((each) => typeof each === 'object')
      .flatMap((each) => undescribed(each, lead)),
  ];
}

it.each([...new Set(OWN.map(([schema]) => schema))])('%s tells editors what every key says', (schema) => {
  expect(undescribed(JSON.parse(files[schema]!) as Described)).toEqual([]);
});

it.each([
  ['shared/jobs/README.md', '../schemas/job.json'],
  ['shared/profile-sets/README.md', '../schemas/profile-set.json'],
  ['procedures/README.md', '../shared/schemas/procedure.json'],
])('%s shows the line by which an editor uses its schema', (manual, schema) => {
  expect(readFileSync(join(ROOT, manual), 'utf8')).toContain(`# yaml-language-server: $schema=${schema}`);
  expect(readFileSync(join(ROOT, manual, '..', schema), 'utf8')).toContain('json-schema.org');
});
