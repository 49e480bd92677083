/** Generates the manuals' key tables (job and profile set formats) from the schemas the program parses with. */
import { load } from 'js-yaml';
import * as z from 'zod';
import type { Names } from '../src/base/formula.js';
import { instrumentKinds, KIND_MEASURES, parseInstruments } from '../src/measure/instruments.js';
import { QUANTITIES, type Quantity } from '../src/measure/types.js';
import { UNITS_OF } from '../src/measure/units.js';
import { jobSchema, lightSchema, splitSchema } from '../src/window/jobschema.js';
import { GIVEN, GIVEN_LATE, NEEDED, NEEDED_BOXES, SCOPES } from '../src/window/setformulas.js';
import { profileSetSchema } from '../src/window/setschema.js';
import { exampleAt, type KeyRow, keyRows, type Schema } from './schemakeys.js';

export const JOB_MANUAL = 'shared/jobs/README.md';
export const SET_MANUAL = 'shared/profile-sets/README.md';
export const MANUALS = [JOB_MANUAL, SET_MANUAL] as const;
/** Has one list, of quantities. */
export const MEASURING_MANUAL = 'shared/measuring.md';

type Read = (file: string) => string;

interface KeyWords {
  readonly says: string;
  /** Given if no shipped file has an example short enough to show. */
  readonly example?: string;
  /** Given if the schema does not say enough about a missing key. */
  readonly absent?: string;
}
type Words = Readonly<Record<string, KeyWords>>;

/** The description of each key, for the job format and for profile sets. */
export const keyWords = (read: Read) =>
  load(read('scripts/manualwords.yaml')) as { readonly job: Words; readonly set: Words };

/** The manual's text, with every table between `<!-- keys NAME -->` and `<!-- /keys -->` regenerated. */
export function withTables(manual: string, read: Read): string {
  const tables = tablesOf(manual, read);
  const lists: Record<string, string> = { ...nameLists(), quantities: quantityTable(read) };
  return read(manual)
    .replace(
      /<!-- keys (\S+) -->[\s\S]*?<!-- \/keys -->/g,
      (_, name: string) => `<!-- keys ${name} -->\n\n${tableText(tables[name] ?? [])}\n\n<!-- /keys -->`,
    )
    .replace(
      /<!-- list (\S+) -->[\s\S]*?<!-- \/list -->/g,
      (_, name: string) => `<!-- list ${name} -->\n\n${lists[name] ?? ''}\n\n<!-- /list -->`,
    );
}

const QUANTITY_WORDS: Readonly<Record<Quantity, string>> = {
  length: 'from edge to edge, along a part',
  gap: 'what enters between two parts',
  depth: 'from an edge down',
  angle: 'between two faces',
  mass: 'of a sash or a unit',
  force: 'to move a handle or a sash',
  torque: 'of a screw driven home',
  temperature: 'at the bench, of a part, of a sealant',
  humidity: 'of the air, where a sealant asks for it',
  time: 'of a cure or a water test',
  illuminance: 'where a surface is looked at',
  pressure: 'of a crimping press, or of a water test',
  coating: 'of paint or anodising on a face',
};

/** Quantities, their units, the kinds of instrument that may measure them, and those of the demonstration workshop. */
function quantityTable(read: Read): string {
  const parsed = parseInstruments({ file: INSTRUMENTS, text: read(INSTRUMENTS) });
  const own = parsed.ok ? parsed.value : [];
  const rows = QUANTITIES.map((quantity) => {
    const units = UNITS_OF[quantity].map((unit) => `\`${unit}\``);
    const kinds = instrumentKinds.filter((kind) => KIND_MEASURES[kind].includes(quantity));
    const here = own
      .filter(({ measures }) => measures.includes(quantity))
      .map(({ id, title }) => `${id} ${title}`);
    const inches = UNITS_OF[quantity].includes('mm') ? ', `inch`' : '';
    return `| \`${quantity}\` | ${QUANTITY_WORDS[quantity]} | ${units.join(', ')}${inches} | ${kinds.join(', ')} | ${here.join('; ') || 'none'} |`;
  });
  return [
    '| quantity | what it is | units | kinds of instrument | in the demonstration workshop |',
    '|---|---|---|---|---|',
    ...rows,
  ].join('\n');
}

const INSTRUMENTS = 'shared/instruments.yaml';

export interface TableRow extends KeyRow {
  readonly words: string;
  readonly example: string;
}

export function tablesOf(manual: string, read: Read): Record<string, TableRow[]> {
  return manual === JOB_MANUAL ? jobTables(read) : setTables(read);
}

/** Fenced code blocks of one language in a manual. */
export const blocksOf = (text: string, language: string): string[] =>
  [...text.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\``, 'gm'))].map((match) => match[1]!);

function jobTables(read: Read): Record<string, TableRow[]> {
  const whole = blocksOf(read(JOB_MANUAL), 'yaml').filter((text) => text.startsWith('format:'));
  const files = [...whole, read('shared/jobs/pier-house.yaml')].map((text) => load(text));
  const layouts = files.flatMap((file) =>
    (file as { units: { layout: object }[] }).units.flatMap((unit) => nodes(unit.layout)),
  );
  const words = keyWords(read).job;
  const job = rows(jobSchema, files, words);
  return {
    job: job.filter(({ key }) => !key.startsWith('units[]')),
    units: job.filter(({ key }) => key.startsWith('units[]')),
    light: rows(
      lightSchema,
      layouts.filter((node) => 'light' in node),
      words,
      'light: ',
    ),
    split: rows(
      splitSchema,
      layouts.filter((node) => 'split' in node),
      words,
      'split: ',
    ),
  };
}

/** A layout and all layouts inside it. */
function nodes(layout: object): object[] {
  const { parts = [] } = layout as { parts?: object[] };
  return [layout, ...parts.flatMap(nodes)];
}

/** One table per section; keys without sub-keys go in the table `file`. */
function setTables(read: Read): Record<string, TableRow[]> {
  const files = ['w52', 'k70', 't56', 'f25'].map((set) => load(read(`shared/profile-sets/${set}.yaml`)));
  const tables: Record<string, TableRow[]> = {};
  const all = rows(profileSetSchema, files, keyWords(read).set);
  for (const row of all) {
    const section = /^\w+/.exec(row.key)![0];
    const alone = !all.some(({ key }) => key.startsWith(`${section}.`) || key.startsWith(`${section}[].`));
    const name = alone ? 'file' : section;
    tables[name] = [...(tables[name] ?? []), row];
  }
  return tables;
}

function rows(schema: z.ZodType, files: readonly unknown[], words: Words, lead = ''): TableRow[] {
  const json = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any' }) as Schema;
  return keyRows(json).map((row) => {
    const { says = '', example, absent = row.absent } = words[lead + row.key] ?? {};
    return { ...row, absent, words: says, example: example ?? exampleAt(files, row.key) ?? '' };
  });
}

function tableText(list: readonly TableRow[]): string {
  const cell = (text: string): string => text.replaceAll('|', '\\|');
  const code = (text: string): string => (text === '' ? '' : `\`${cell(text)}\``);
  return [
    '| Key | Kind | If left out | Example | What it says |',
    '|---|---|---|---|---|',
    ...list.map(
      ({ key, kind, absent, example, words }) =>
        `| ${code(key)} | ${cell(kind)} | ${cell(absent)} | ${code(example)} | ${cell(words)} |`,
    ),
  ].join('\n');
}

// Names available to the formulas of a profile set, and names it must define.

/** Text by list name. */
function nameLists(): Record<string, string> {
  return {
    sizes: table(
      ['Under `sizes`', 'Must be there'],
      SCOPES.map((scope) => [`\`${scope}\``, code(NEEDED[scope])]),
    ),
    boxes: table(
      ['Under `boxes`', 'Must be there'],
      Object.entries(NEEDED_BOXES).map(([scope, boxes]) => [`\`${scope}\``, code(boxes)]),
    ),
    names: table(
      ['In formulas of', 'Always', 'Late'],
      SCOPES.map((scope) => [`\`${scope}\``, code(dotted(GIVEN[scope])), code(dotted(GIVEN_LATE[scope]))]),
    ),
  };
}

const dotted = (names: Names): string[] =>
  Object.entries(names).flatMap(([name, inner]) =>
    typeof inner === 'string' ? [name] : dotted(inner).map((field) => `${name}.${field}`),
  );
const code = (names: readonly string[]): string => names.map((name) => `\`${name}\``).join(', ') || 'none';
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
