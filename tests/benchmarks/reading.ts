/** What reading the workshop's files costs by itself: each read, parsed by js-yaml and checked by its schema, and nothing else. */
import { readFileSync } from 'node:fs';
import { CORE_SCHEMA, load } from 'js-yaml';
import type * as z from 'zod';
import { instrumentsSchema } from '../../src/measure/instruments.js';
import { limitsSchema } from '../../src/measure/limits.js';
import { procedureSchema } from '../../src/procedure/schema.js';
import { translationSchema } from '../../src/procedure/translation.js';
import { peopleSchema, workshopSchema } from '../../src/store/company.js';
import { setupsSchema } from '../../src/store/setups.js';
import { jobSchema } from '../../src/window/jobschema.js';
import { profileSetSchema } from '../../src/window/setschema.js';

const FILES: readonly (readonly [string, z.ZodType])[] = [
  ['procedures/casement.yaml', procedureSchema],
  ['procedures/casement.de.yaml', translationSchema],
  ['shared/jobs/pier-house.yaml', jobSchema],
  ['shared/profile-sets/w52.yaml', profileSetSchema],
  ['shared/profile-sets/k70.yaml', profileSetSchema],
  ['shared/limits.yaml', limitsSchema],
  ['shared/instruments.yaml', instrumentsSchema],
  ['shared/people.yaml', peopleSchema],
  ['shared/setups.yaml', setupsSchema],
  ['shared/workshop.yaml', workshopSchema],
];

for (const [file, schema] of FILES)
  if (!schema.safeParse(load(readFileSync(file, 'utf8'), { schema: CORE_SCHEMA })).success)
    throw new Error(file);
