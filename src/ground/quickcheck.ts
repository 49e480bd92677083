/**
 * A schema as a quick test of data that is nearly always right: `true` means that the schema surely takes the value as it
 * is, `false` only that the schema itself must be asked. Made once from a zod schema; what it does not understand is
 * always in doubt.
 */
import type * as z from 'zod';

export type Quick = (value: unknown) => boolean;

/** What is read of zod's definitions, of types and of checks; anything else is in doubt. */
export interface Def {
  readonly type: string;
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
  readonly catchall?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
  readonly innerType?: z.core.$ZodType;
  readonly keyType?: z.core.$ZodType;
  readonly valueType?: z.core.$ZodType;
  readonly options?: readonly z.core.$ZodType[];
  readonly discriminator?: string;
  readonly values?: readonly unknown[];
  readonly entries?: Readonly<Record<string, unknown>>;
  readonly checks?: readonly unknown[];
  readonly check?: string;
  readonly format?: string;
  readonly pattern?: RegExp;
  readonly value?: unknown;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly inclusive?: boolean;
  readonly items?: readonly z.core.$ZodType[];
  readonly rest?: z.core.$ZodType | null;
  readonly defaultValue?: unknown;
  readonly in?: z.core.$ZodType;
  readonly out?: z.core.$ZodType;
  readonly transform?: (value: unknown) => unknown;
  readonly fn?: (value: unknown) => unknown;
}

export function quickCheck(schema: z.core.$ZodType): Quick {
  const def = defOf(schema);
  const own = ofType(def);
  // A format such as `z.iso.datetime` is a type and a check in one.
  const checks = [...(def.check === undefined ? [] : [def]), ...(def.checks ?? []).map(defOf)].map(quickOf);
  if (!own || checks.some((check) => check === undefined)) return doubt;
  const [first, ...rest] = checks as Quick[];
  if (!first) return own;
  if (rest.length === 0) return (value) => own(value) && first(value);
  return (value) => own(value) && first(value) && rest.every((check) => check(value));
}

const doubt: Quick = () => false;
/** The definition of a schema or of a check. */
export const defOf = (part: unknown): Def => (part as { _zod: { def: Def } })._zod.def;

function ofType(def: Def): Quick | undefined {
  switch (def.type) {
    case 'string':
      return (value) => typeof value === 'string';
    case 'number':
      return (value) => Number.isFinite(value);
    case 'boolean':
      return (value) => typeof value === 'boolean';
    case 'literal':
      return oneOf(def.values ?? []);
    case 'enum':
      return oneOf(Object.values(def.entries ?? {}));
    case 'array': {
      const element = quickCheck(def.element!);
      return (value) => {
        if (!Array.isArray(value)) return false;
        // Not `every`, which passes over holes.
        for (let i = 0; i < value.length; i++) if (!element(value[i])) return false;
        return true;
      };
    }
    case 'record':
      return recordOf(def);
    case 'object':
      return objectOf(def);
    case 'union':
      return unionOf(def);
    default:
      return undefined;
  }
}

function oneOf(values: readonly unknown[]): Quick {
  const [only] = values;
  if (values.length === 1) return (value) => value === only;
  const set = new Set(values);
  return (value) => set.has(value);
}

function recordOf(def: Def): Quick | undefined {
  const key = defOf(def.keyType!);
  // Keys with rules of their own (or fixed keys) are left to the schema.
  if (key.type !== 'string' || key.check !== undefined || (key.checks ?? []).length > 0) return undefined;
  const each = quickCheck(def.valueType!);
  return (value) => {
    if (!isTable(value)) return false;
    for (const name of Object.keys(value)) if (name === '__proto__' || !each(value[name])) return false;
    return true;
  };
}

/** Only strict objects: every member known, none wanting. */
function objectOf(def: Def): Quick | undefined {
  if (!def.catchall || defOf(def.catchall).type !== 'never') return undefined;
  const members = new Map<string, { readonly takes: Quick; readonly needed: number }>();
  let needed = 0;
  for (const [name, schema] of Object.entries(def.shape!)) {
    const inner = defOf(schema);
    const optional = inner.type === 'optional';
    if (!optional) needed += 1;
    members.set(name, { takes: quickCheck(optional ? inner.innerType! : schema), needed: optional ? 0 : 1 });
  }
  return (value) => {
    if (!isTable(value)) return false;
    let seen = 0;
    for (const name in value) {
      const member = members.get(name);
      if (member?.takes(value[name]) !== true) return false;
      seen += member.needed;
    }
    return seen === needed;
  };
}

function unionOf(def: Def): Quick | undefined {
  const { discriminator } = def;
  if (discriminator === undefined) return firstOf(def.options!);
  const byName = new Map<unknown, Quick>();
  for (const option of def.options!) {
    const tag = defOf(option).shape?.[discriminator];
    const names = tag && defOf(tag).type === 'literal' ? (defOf(tag).values ?? []) : [];
    for (const name of names) byName.set(name, quickCheck(option));
  }
  return (value) => isTable(value) && byName.get(value[discriminator])?.(value) === true;
}

/** A union without a discriminator takes the first option that fits: the one asked, where each before it is of another plain type. */
function firstOf(options: readonly z.core.$ZodType[]): Quick {
  const all = options.map((option) => ({ type: defOf(option).type, quick: quickCheck(option) }));
  return (value) => {
    const first = all.find(({ type }) => !PLAIN.has(type) || typeof value === type);
    return first?.quick(value) === true;
  };
}
const PLAIN: ReadonlySet<string> = new Set(['string', 'number', 'boolean']);

/** A check by itself; undefined where it is not understood. */
export function quickOf(def: Def): Quick | undefined {
  switch (def.check) {
    case 'string_format': {
      const { pattern } = def;
      // A format without a pattern is checked by code that only the schema has.
      if (!pattern || pattern.global || pattern.sticky) return undefined;
      // Hashes are by far the most common, and a loop is ten times faster than the pattern.
      if (pattern.source === HASH_PATTERN && pattern.flags === '') return (value) => isHash(value as string);
      return (value) => pattern.test(value as string);
    }
    case 'number_format':
      return def.format === 'safeint' ? (value) => Number.isSafeInteger(value) : undefined;
    case 'greater_than': {
      const least = def.value as number;
      return def.inclusive ? (value) => (value as number) >= least : (value) => (value as number) > least;
    }
    case 'less_than': {
      const most = def.value as number;
      return def.inclusive ? (value) => (value as number) <= most : (value) => (value as number) < most;
    }
    case 'min_length': {
      const least = def.minimum!;
      return (value) => (value as { length: number }).length >= least;
    }
    case 'max_length': {
      const most = def.maximum!;
      return (value) => (value as { length: number }).length <= most;
    }
    default:
      return undefined;
  }
}

const HASH_PATTERN = '^[0-9a-f]{64}$';

/** A SHA-256 in small hex. */
export function isHash(text: string): boolean {
  if (text.length !== 64) return false;
  for (let i = 0; i < 64; i++) {
    const code = text.charCodeAt(i);
    if (!((code >= 0x30 && code <= 0x39) || (code >= 0x61 && code <= 0x66))) return false;
  }
  return true;
}

export const isTable = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
