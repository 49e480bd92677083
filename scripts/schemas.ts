/** Generates JSON Schemas (2020-12) of every file format from the schemas the program parses with. */
import * as z from 'zod';
import { instrumentsSchema } from '../src/measure/instruments.js';
import { limitsSchema } from '../src/measure/limits.js';
import { procedureSchema } from '../src/procedure/schema.js';
import { translationSchema } from '../src/procedure/translation.js';
import { collectionJsonSchema, recordJsonSchema } from '../src/record/schema.js';
import { peopleSchema, workshopSchema } from '../src/store/company.js';
import { actionJsonSchema } from '../src/unit/actions.js';
import { eventJsonSchema } from '../src/unit/events.js';
import { jobSchema } from '../src/window/jobschema.js';
import { profileSetSchema } from '../src/window/setschema.js';

/** Schema texts by file name under shared/schemas. */
export function schemaFiles(): Record<string, string> {
  const files: Record<string, object> = {
    'procedure.json': of('pinchrod procedure 1', procedureSchema),
    'translation.json': of('pinchrod translation 1', translationSchema),
    'job.json': of('pinchrod job 1', jobSchema),
    'profile-set.json': of('pinchrod profile set 1', profileSetSchema),
    'limits.json': of('pinchrod limits 1', limitsSchema),
    'instruments.json': of('pinchrod instruments 1', instrumentsSchema),
    'people.json': of('pinchrod people 1', peopleSchema),
    'workshop.json': of('pinchrod workshop 1', workshopSchema),
    'action.json': actionJsonSchema(),
    'event.json': eventJsonSchema(),
    'record.json': recordJsonSchema(),
    'collection.json': collectionJsonSchema(),
  };
  return Object.fromEntries(
    Object.entries(files).map(([name, schema]) => [name, `${JSON.stringify(schema, null, 1)}\n`]),
  );
}

/** The input type: what a person writes, before defaults are filled in. */
const of = (title: string, schema: z.ZodType): object => ({
  title,
  ...z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }),
});
