/**
 * Words that a person reads: kept in the catalogue of their room in the syntax of Project Fluent, each with a note for whoever
 * translates it and an example of what is filled in, and told in the reader's language. A message is parsed when it is first
 * told; one that takes nothing is not parsed at all.
 */
import { FluentBundle, type FluentFunction, FluentNumber, FluentResource, type Scope } from '@fluent/bundle';

declare const READ: unique symbol;
/** Text made from a catalogue: what a screen may show of the program's own. */
export type Spoken = string & { readonly [READ]: true };

/** A number selects the form of the words; a text that is filled in is shown as it is. */
type Arg = string | number;

/** Names of what is filled in: `{ $unit }`, `{ $n -> …`. */
type Filled<T extends string> = T extends `${string}{ $${infer Rest}`
  ? Rest extends `${infer Name} ${infer More}`
    ? Name | Filled<More>
    : never
  : never;

interface Entry<A extends string = string> {
  readonly text: string;
  /** For whoever translates it: where it stands, and what it must not lose. */
  readonly note: string;
  readonly example: Readonly<Record<A, Arg>>;
}

/** An entry of a catalogue. */
export function word<const T extends string>(
  text: T,
  note: string,
  ...[example]: [Filled<T>] extends [never] ? [] : [Readonly<Record<Filled<T>, Arg>>]
): Entry<Filled<T>> {
  return { text, note, example: example ?? ({} as Readonly<Record<Filled<T>, Arg>>) };
}

export type Catalogue = Readonly<Record<string, Entry>>;
/** Every entry in another language; a text alone was reviewed by nobody yet. */
export type Translation<C extends Catalogue> = {
  readonly [K in keyof C]: string | readonly [text: string, reviewedBy: string];
};

type Given<E> =
  E extends Entry<infer A> ? ([A] extends [never] ? [] : [args: Readonly<Record<A, Arg>>]) : never;
export type Say<C extends Catalogue> = <K extends keyof C & string>(id: K, ...given: Given<C[K]>) => Spoken;

/** Shown as plain digits: a grouped number is none that one can compare with a list. */
class Figure extends FluentNumber {
  override toString(_scope: Scope): string {
    return String(this.value);
  }
}

/** @param language BCP 47, for the forms of words @param translation what it lacks is told in the catalogue's own language */
export function sayIn<C extends Catalogue>(
  catalogue: C,
  language: string,
  translation?: Translation<C>,
  functions: Readonly<Record<string, FluentFunction>> = {},
): Say<C> {
  const parsed = new Map<string, FluentResource['body'][number]['value']>();
  let bundle: FluentBundle | undefined;
  return (id, ...[args]) => {
    const found = translation?.[id];
    const text = found === undefined ? catalogue[id]!.text : typeof found === 'string' ? found : found[0]!;
    if (!text.includes('{')) return text as Spoken;
    bundle ??= new FluentBundle(language, { useIsolating: false, functions: { ...functions } });
    const value = parsed.get(id) ?? new FluentResource(`m = ${text.replaceAll('\n', '\n  ')}`).body[0]?.value;
    if (value === undefined || value === null) throw new Error(`${id} is no message: ${text}`);
    parsed.set(id, value);
    const filled = Object.fromEntries(
      Object.entries(args ?? {}).map(([name, arg]) => [
        name,
        typeof arg === 'number' ? new Figure(arg) : arg,
      ]),
    );
    // Without a list for them, faults of a message are thrown.
    return bundle.formatPattern(value, filled) as Spoken;
  };
}
