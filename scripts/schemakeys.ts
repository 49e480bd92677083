/** The keys of a JSON Schema as table rows, with an example of each from valid files. */
import { dump } from 'js-yaml';

export interface Schema {
  readonly type?: string;
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly default?: unknown;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly items?: Schema | false;
  readonly prefixItems?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Schema | false;
  readonly anyOf?: readonly Schema[];
  readonly $ref?: string;
}

export interface KeyRow {
  /** `units[].width`; `*` is a name chosen by the writer, SCOPE, LIGHT and KIND stand for the names in WORDS. */
  readonly key: string;
  readonly kind: string;
  readonly absent: string;
}

/** Sibling keys with the same content are listed once, under one word. */
export const WORDS: Readonly<Record<string, readonly string[]>> = {
  SCOPE: ['unit', 'divider', 'fixed', 'opening'],
  LIGHT: ['fixed', 'opening'],
  KIND: ['fixed', 'top-hung', 'side-hung'],
  HUNG: ['top-hung', 'side-hung'],
};

export function keyRows(schema: Schema, lead = ''): KeyRow[] {
  const found: KeyRow[] = [];
  const put = (row: KeyRow): void => {
    if (!found.some(({ key }) => key === row.key)) found.push(row);
  };
  for (const { name, inner, required } of keysOf(schema)) {
    const key = lead === '' ? name : `${lead}.${name}`;
    put({ key, kind: kindOf(inner), absent: absentOf(inner, required) });
    for (const row of within(inner, key)) put(row);
  }
  return found;
}

/** Keys below a value: of an object, of each list item, of each alternative form of the value. */
function within(schema: Schema, key: string): KeyRow[] {
  if (schema.anyOf) {
    const below = schema.anyOf.flatMap((each) => within(each, key));
    if (!schema.anyOf.every((each) => each.properties)) return below;
    const own = new RegExp(`^.{${key.length + 1}}[^.]+$`);
    return below.map((row) => (own.test(row.key) ? { ...row, absent: 'one of these' } : row));
  }
  if (schema.type === 'array' && schema.items && !isFormula(schema.items))
    return within(schema.items, `${key}[]`);
  if (schema.properties) return keyRows(schema, key);
  if (schema.additionalProperties) return within(schema.additionalProperties, `${key}.*`);
  return [];
}

function keysOf({ properties = {}, required = [] }: Schema) {
  const entries = Object.entries(properties);
  const told = new Set<string>();
  const out: { name: string; inner: Schema; required: boolean }[] = [];
  for (const [name, inner] of entries) {
    if (told.has(name)) continue;
    const same = Object.entries(WORDS).find(
      ([, names]) =>
        names.includes(name) &&
        names.every((each) => properties[each] && alike(properties[each], inner)) &&
        within(inner, name).length + Number(inner.additionalProperties !== undefined) > 0,
    );
    for (const each of same?.[1] ?? []) told.add(each);
    out.push({ name: same?.[0] ?? name, inner, required: required.includes(name) });
  }
  return out;
}

const alike = (a: Schema, b: Schema): boolean => JSON.stringify(a) === JSON.stringify(b);
const isFormula = ({ anyOf }: Schema): boolean =>
  anyOf?.length === 2 &&
  anyOf[0]?.type === 'string' &&
  anyOf[0].maxLength === 500 &&
  anyOf[1]?.type === 'number';

function absentOf(schema: Schema, required: boolean): string {
  if (schema.default !== undefined)
    return schema.default === '' ? 'empty' : `\`${JSON.stringify(schema.default)}\``;
  return required ? '**must be given**' : 'nothing';
}

function kindOf(schema: Schema): string {
  if (isFormula(schema)) return 'formula';
  if (schema.anyOf) {
    const kinds = [...new Set(schema.anyOf.map(kindOf))];
    return kinds.every((kind) => kind === 'group') ? 'group, one of the ways below' : kinds.join(', or ');
  }
  if (schema.const !== undefined) return `the word \`${String(schema.const)}\``;
  if (schema.enum) return schema.enum.map((each) => `\`${String(each)}\``).join(', ');
  if (schema.prefixItems)
    return `list of ${schema.prefixItems.length}: ${kindOf(schema.prefixItems[0]!)} each`;
  switch (schema.type) {
    case 'array':
      return `list${countText(schema)} of ${schema.items ? plural(kindOf(schema.items)) : 'layouts'}`;
    case 'object':
      return schema.additionalProperties ? 'group of names you choose' : 'group';
    case 'string':
      return stringText(schema);
    case 'boolean':
      return '`true` or `false`';
    case 'number':
    case 'integer':
      return numberText(schema);
    default:
      return 'layout';
  }
}

const plural = (kind: string): string =>
  /^(group|layout|formula|name|number)$/.test(kind) ? `${kind}s` : kind;
const countText = ({ minItems: least = 0, maxItems: most }: Schema): string =>
  most !== undefined ? ` (${least} to ${most})` : least > 0 ? ` (at least ${least})` : '';

function stringText({ pattern, maxLength }: Schema): string {
  if (pattern?.startsWith('^[A-Za-z0-9]')) return `name, up to ${maxLength}`;
  if (pattern?.startsWith('^[a-z][a-z0-9_]*$')) return 'small name';
  if (pattern) return 'place, see below';
  return `text, up to ${maxLength ?? 'any length'}`;
}

function numberText({ type, minimum, maximum, exclusiveMinimum }: Schema): string {
  const word = type === 'integer' ? 'whole number' : 'number';
  // Integer schemas include the bounds of exact doubles, which mean nothing to a reader.
  const top = maximum !== undefined && maximum < Number.MAX_SAFE_INTEGER ? maximum : undefined;
  const bottom = minimum !== undefined && minimum > Number.MIN_SAFE_INTEGER ? minimum : undefined;
  if (bottom !== undefined) return `${word}, ${bottom}${top === undefined ? ' or more' : ` to ${top}`}`;
  if (exclusiveMinimum !== undefined)
    return `${word} over ${exclusiveMinimum}${top === undefined ? '' : `, up to ${top}`}`;
  return top === undefined ? word : `${word}, up to ${top}`;
}

/** The first value found at a key, as one would write it; undefined if it is too long for a table. */
export function exampleAt(files: readonly unknown[], key: string): string | undefined {
  for (const value of files.flatMap((file) => valuesAt(file, key.split('.')))) {
    const text = dump(value, { flowLevel: 0, lineWidth: -1 }).trim().replaceAll("'on':", 'on:');
    if (text.length <= 60 && text !== '[]' && text !== '{}') return text;
  }
  return undefined;
}

function valuesAt(value: unknown, path: readonly string[]): unknown[] {
  const [step, ...rest] = path;
  if (step === undefined) return value === undefined ? [] : [value];
  if (value === null || typeof value !== 'object') return [];
  const name = step.replace(/(\[\])+$/, '');
  const names = name === '*' ? Object.keys(value) : (WORDS[name] ?? [name]);
  return names.flatMap((each) => {
    const found = (value as Record<string, unknown>)[each];
    const items = step.endsWith('[]') ? (Array.isArray(found) ? found : []) : [found];
    return items.flatMap((item) => valuesAt(item, rest));
  });
}
