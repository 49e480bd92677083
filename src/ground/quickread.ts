/**
 * Reads data that is nearly always right by a zod schema, many times quicker than the schema does the first time it is
 * asked: gives what the schema would give, or doubt, and then the schema itself must be asked. Only a schema says what is
 * wrong with data, and what is not understood of a schema here is always in doubt.
 */
import type * as z from 'zod';
import { type Def, defOf, isTable, type Quick, quickOf } from './quickcheck.js';

/** The schema must be asked. */
export const DOUBT = Symbol('doubt');

/** What the schema gives for a value, or DOUBT. */
export function quickRead<S extends z.core.$ZodType>(schema: S, value: unknown): z.output<S> | typeof DOUBT {
  return readerOf(schema)(value) as z.output<S> | typeof DOUBT;
}

type Reader = (value: unknown) => unknown;

/** Formats share schemas of names and texts: each is understood once. */
const readers = new WeakMap<z.core.$ZodType, Reader>();

function readerOf(schema: z.core.$ZodType): Reader {
  const known = readers.get(schema);
  if (known) return known;
  const made = checked(schema);
  readers.set(schema, made);
  return made;
}

const doubt: Reader = () => DOUBT;

/** The type's reader, and then the checks that stand on it, which see what it gave. */
function checked(schema: z.core.$ZodType): Reader {
  const def = defOf(schema);
  const read = ofType(schema);
  // A format such as `z.iso.date` is a type and a check in one.
  const own = def.check === undefined ? [] : [quickOf(def)];
  const checks = [...own, ...(def.checks ?? []).map(defOf).map((check) => quickOf(check) ?? custom(check))];
  if (!read || checks.some((check) => check === undefined)) return doubt;
  if (checks.length === 0) return read;
  return (value) => {
    const given = read(value);
    if (given === DOUBT) return DOUBT;
    for (const check of checks) if (!check!(given)) return DOUBT;
    return given;
  };
}

function custom(def: Def): Quick | undefined {
  const { fn } = def;
  return def.check === 'custom' && fn ? (value) => fn(value) === true : undefined;
}

function ofType(schema: z.core.$ZodType): Reader | undefined {
  const def = defOf(schema);
  switch (def.type) {
    case 'string':
    case 'boolean':
      return (value) => (typeof value === def.type ? value : DOUBT);
    case 'number':
      return (value) => (Number.isFinite(value) ? value : DOUBT);
    case 'literal':
      return oneOf(def.values ?? []);
    case 'enum':
      return oneOf(Object.values(def.entries ?? {}));
    case 'array':
      return arrayOf(def);
    case 'tuple':
      return tupleOf(def);
    case 'record':
      return recordOf(def);
    case 'object':
      return objectOf(schema);
    case 'union':
      return unionOf(def.options!);
    case 'optional': {
      const inner = readerOf(def.innerType!);
      return (value) => (value === undefined ? undefined : inner(value));
    }
    case 'default': {
      const inner = readerOf(def.innerType!);
      return (value) => (value === undefined ? def.defaultValue : inner(value));
    }
    case 'prefault': {
      const inner = readerOf(def.innerType!);
      return (value) => inner(value === undefined ? def.defaultValue : value);
    }
    case 'pipe':
      return pipeOf(def);
    default:
      return undefined;
  }
}

const oneOf =
  (values: readonly unknown[]): Reader =>
  (value) =>
    values.includes(value) ? value : DOUBT;

function arrayOf(def: Def): Reader {
  const element = readerOf(def.element!);
  return (value) => (Array.isArray(value) ? all(value, () => element) : DOUBT);
}

function tupleOf(def: Def): Reader | undefined {
  if (def.rest) return undefined;
  const items = def.items!.map(readerOf);
  return (value) =>
    Array.isArray(value) && value.length === items.length ? all(value, (i) => items[i]!) : DOUBT;
}

function all(values: readonly unknown[], readerAt: (i: number) => Reader): unknown {
  const given: unknown[] = [];
  for (let i = 0; i < values.length; i++) {
    const each = readerAt(i)(values[i]);
    if (each === DOUBT || each === undefined) return DOUBT;
    given.push(each);
  }
  return given;
}

function recordOf(def: Def): Reader | undefined {
  if (defOf(def.keyType!).type !== 'string') return undefined;
  const key = readerOf(def.keyType!);
  const each = readerOf(def.valueType!);
  return (value) => {
    if (!isTable(value)) return DOUBT;
    const given: Record<string, unknown> = {};
    for (const name of Object.keys(value)) {
      const inner = each(value[name]);
      if (name === '__proto__' || key(name) === DOUBT || inner === DOUBT) return DOUBT;
      given[name] = inner;
    }
    return given;
  };
}

/** Only strict objects: every member known. */
function objectOf(schema: z.core.$ZodType): Reader | undefined {
  const names = membersOf(schema);
  if (!names) return undefined;
  const members = Object.entries(defOf(schema).shape!).map(([name, each]) => ({
    name,
    read: readerOf(each),
  }));
  return (value) => {
    if (!isTable(value)) return DOUBT;
    for (const name of Object.keys(value)) if (!names.has(name) || value[name] === undefined) return DOUBT;
    const given: Record<string, unknown> = {};
    for (const { name, read } of members) {
      const inner = read(Object.hasOwn(value, name) ? value[name] : undefined);
      if (inner === DOUBT) return DOUBT;
      if (inner !== undefined) given[name] = inner;
    }
    return given;
  };
}

/** A union takes the first option that fits: the one asked here, where each before it surely takes no such value. */
function unionOf(options: readonly z.core.$ZodType[]): Reader {
  const all = options.map((option) => ({ option, takes: kindsOf(defOf(option)), knows: membersOf(option) }));
  return (value) => {
    const first = all.find(
      ({ takes, knows }) =>
        (takes === undefined || takes.has(kindOf(value))) &&
        !(knows && isTable(value) && Object.keys(value).some((name) => !knows.has(name))),
    );
    return first ? readerOf(first.option)(value) : DOUBT;
  };
}

/** The members of a strict object, which takes no others; undefined for any other schema. */
function membersOf(schema: z.core.$ZodType): ReadonlySet<string> | undefined {
  const { type, shape, catchall } = defOf(schema);
  const strict = type === 'object' && catchall && defOf(catchall).type === 'never';
  return strict ? new Set(Object.keys(shape!)) : undefined;
}

const kindOf = (value: unknown): string => (Array.isArray(value) ? 'array' : typeof value);

/** The kinds of values that a schema may take; undefined where that can't be told. */
function kindsOf(def: Def): ReadonlySet<string> | undefined {
  switch (def.type) {
    case 'string':
    case 'number':
    case 'boolean':
    case 'array':
      return new Set([def.type]);
    case 'tuple':
      return new Set(['array']);
    case 'record':
    case 'object':
      return new Set(['object']);
    case 'literal':
      return new Set((def.values ?? []).map(kindOf));
    case 'enum':
      return new Set(Object.values(def.entries ?? {}).map(kindOf));
    case 'pipe':
      return kindsOf(defOf(def.in!));
    case 'union': {
      const inner = def.options!.map((option) => kindsOf(defOf(option)));
      return inner.includes(undefined) ? undefined : new Set(inner.flatMap((kinds) => [...kinds!]));
    }
    default:
      return undefined;
  }
}

/** A change of the value that can't go wrong; one that takes zod's context may say what is wrong. */
function pipeOf(def: Def): Reader | undefined {
  const { transform } = defOf(def.out!);
  if (!transform || transform.length > 1) return undefined;
  const before = readerOf(def.in!);
  return (value) => {
    const given = before(value);
    return given === DOUBT ? DOUBT : transform(given);
  };
}
