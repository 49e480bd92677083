/** Generates JSON Schemas (2020-12) of every file format from the schemas the program parses with. */
import { load } from 'js-yaml';
import * as z from 'zod';
import { instrumentsSchema } from '../src/measure/instruments.js';
import { limitsSchema } from '../src/measure/limits.js';
import { procedureSchema } from '../src/procedure/schema.js';
import { translationSchema } from '../src/procedure/translation.js';
import { credentialContext } from '../src/record/credential.js';
import { collectionJsonSchema, recordJsonSchema } from '../src/record/schema.js';
import { peopleSchema, workshopSchema } from '../src/store/company.js';
import { setupsSchema } from '../src/store/setups.js';
import { actionJsonSchema } from '../src/unit/actions.js';
import { eventJsonSchema } from '../src/unit/events.js';
import { jobSchema, lightSchema, splitSchema } from '../src/window/jobschema.js';
import { profileSetSchema } from '../src/window/setschema.js';
import { keyWords } from './manuals.js';
import { WORDS } from './schemakeys.js';

type Read = (file: string) => string;

/** Schema texts by file name under shared/schemas; what each key says is taken from the words of the manuals and from scripts/schemawords.yaml. */
export function schemaFiles(read: Read): Record<string, string> {
  const words = keyWords(read);
  const other = load(read('scripts/schemawords.yaml')) as Readonly<Record<string, Record<string, string>>>;
  const says = (file: string) =>
    Object.fromEntries(Object.entries(other[file]!).map(([key, text]) => [key, { says: text }]));
  const files: Record<string, object> = {
    'procedure.json': described(of('pinchrod procedure 1', procedureSchema), says('procedure')),
    'translation.json': described(of('pinchrod translation 1', translationSchema), says('translation')),
    'job.json': described(jobJson(), words.job),
    'profile-set.json': described(of('pinchrod profile set 1', profileSetSchema), words.set),
    'limits.json': described(of('pinchrod limits 1', limitsSchema), says('limits')),
    'instruments.json': described(of('pinchrod instruments 1', instrumentsSchema), says('instruments')),
    'people.json': described(of('pinchrod people 1', peopleSchema), says('people')),
    'setups.json': described(of('pinchrod setups 1', setupsSchema), says('setups')),
    'workshop.json': described(of('pinchrod workshop 1', workshopSchema), says('workshop')),
    'action.json': actionJsonSchema(),
    'event.json': eventJsonSchema(),
    'record.json': recordJsonSchema(),
    'collection.json': collectionJsonSchema(),
    'credential-context.json': credentialContext(),
  };
  return Object.fromEntries(
    Object.entries(files).map(([name, schema]) => [name, `${JSON.stringify(schema, null, 1)}\n`]),
  );
}

/** With the layouts of units, which the schema reads by a function of its own. */
function jobJson(): object {
  const job = of('pinchrod job 1', jobSchema) as Group;
  const { $schema: _one, ...light } = z.toJSONSchema(lightSchema, { io: 'input' }) as Group;
  const { $schema: _two, ...split } = z.toJSONSchema(splitSchema, {
    io: 'input',
    unrepresentable: 'any',
  }) as Group;
  const layout = { $ref: '#/$defs/layout' };
  const parts = { ...split.properties?.parts, items: layout };
  const units = job.properties!.units!.items as Group;
  units.properties = { ...units.properties, layout };
  return {
    ...job,
    $defs: { layout: { anyOf: [light, { ...split, properties: { ...split.properties, parts } }] } },
  };
}

interface Group {
  properties?: Record<string, Group>;
  additionalProperties?: Group | false;
  items?: Group | false;
  anyOf?: Group[];
  description?: string;
  readonly $defs?: Record<string, Group>;
  readonly $schema?: string;
  readonly $ref?: string;
}

/** The words of the manual beside each key, for editors. */
function described(schema: object, words: Readonly<Record<string, { readonly says: string }>>): object {
  const visit = (group: Group, lead: string): void => {
    for (const each of group.anyOf ?? []) visit(each, lead);
    if (group.items) visit(group.items, `${lead}[]`);
    if (group.additionalProperties) visit(group.additionalProperties, `${lead}.*`);
    for (const [name, inner] of Object.entries(group.properties ?? {})) {
      const own = lead === '' ? name : lead.endsWith(':') ? `${lead} ${name}` : `${lead}.${name}`;
      const groups = Object.entries(WORDS).filter(([, names]) => names.includes(name));
      const key = [own, ...groups.map(([word]) => (lead === '' ? word : `${lead}.${word}`))].find(
        (each) => each in words,
      );
      const says = words[key ?? '']?.says;
      if (says !== undefined) inner.description = says.replaceAll('`', '"');
      visit(inner, key ?? own);
    }
  };
  visit(schema as Group, '');
  const [light, split] = (schema as Group).$defs?.layout?.anyOf ?? [];
  if (light) visit(light, 'light:');
  if (split) visit(split, 'split:');
  return schema;
}

/** The input type: what a person writes, before defaults are filled in. */
const of = (title: string, schema: z.ZodType): object => ({
  title,
  ...z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }),
});
