/** The keys that a schema takes at a place, and the one of them that was probably meant. */
import { closest, distance } from 'fastest-levenshtein';
import type * as z from 'zod';

/** As much of a zod schema as is needed to walk it. */
interface Inside {
  readonly type: string;
  readonly shape?: Readonly<Record<string, z.ZodType>>;
  readonly innerType?: z.ZodType;
  readonly in?: z.ZodType;
  readonly element?: z.ZodType;
  readonly valueType?: z.ZodType;
  readonly options?: readonly z.ZodType[];
  readonly items?: readonly z.ZodType[];
  getter?(): z.ZodType;
}
const insideOf = (schema: z.ZodType): Inside => (schema as unknown as { _zod: { def: Inside } })._zod.def;

/** Every form that a schema may take: of a union each, and what stands under a default or a transformation. */
function forms(schema: z.ZodType): Inside[] {
  const inside = insideOf(schema);
  if (inside.options) return inside.options.flatMap(forms);
  const under = inside.innerType ?? inside.in ?? inside.getter?.();
  return under ? forms(under) : [inside];
}

/** Keys of the group at `path`; empty where there is none. */
export function keysAt(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  const [step, ...rest] = path;
  const found = forms(schema).flatMap(({ shape, element, valueType, items }): readonly string[] => {
    if (step === undefined) return Object.keys(shape ?? {});
    const next = shape?.[String(step)] ?? element ?? valueType ?? items?.[Number(step)];
    return next ? keysAt(next, rest) : [];
  });
  return [...new Set(found)];
}

/** Undefined where none is near: two of five letters at most may be others, or all of them in another order. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  if (known.length === 0) return undefined;
  const letters = (text: string) => [...text].sort().join('');
  const turned = known.find((each) => each !== word && letters(each) === letters(word));
  if (turned !== undefined) return turned;
  const near = closest(word, known);
  return distance(word, near) <= Math.max(1, Math.floor(near.length * 0.4)) ? near : undefined;
}
