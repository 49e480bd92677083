/**
 * Words that a person reads: kept in the catalogue of their room in the syntax of Project Fluent, each with a note for whoever
 * translates it and an example of what is filled in, and told in the reader's language. Rooms that do not know the reader make
 * a `Message`: which words, and what is filled in. A message is parsed when it is first told; one that takes nothing is not
 * parsed at all.
 */
import { FluentBundle, type FluentFunction, FluentNumber, FluentResource, type Scope } from '@fluent/bundle';
import type { Language } from './languages.js';

declare const READ: unique symbol;
/** Text made from a catalogue: what a screen may show of the program's own. */
export type Spoken = string & { readonly [READ]: true };

/** What files and people said: shown as it is, in whatever language. */
export const data = (text: string): Spoken => text as Spoken;

/** A number selects the form of the words, a text is shown as it is, a message is told first; of several, commas between. */
export type Filling = string | number | Message | Several | readonly (string | Message)[];

/** Several clauses in a row. */
export class Several {
  constructor(
    readonly items: readonly (string | Message)[],
    readonly between = '; ',
  ) {}
}
type Fillings<A extends string> = Readonly<Record<A, Filling>>;

/** Names of what is filled in: `{ $unit }`, `{ $n -> …`. */
type Filled<T extends string> = T extends `${string}{ $${infer Rest}`
  ? Rest extends `${infer Name} ${infer More}`
    ? Name | Filled<More>
    : never
  : never;

export interface Entry<A extends string = string> {
  readonly text: string;
  /** For whoever translates it: where it stands, and what it must not lose. */
  readonly note: string;
  readonly example: Readonly<Record<A, string | number>>;
}

/** An entry of a catalogue. */
export function word<const T extends string>(
  text: T,
  note: string,
  ...[example]: [Filled<T>] extends [never] ? [] : [Readonly<Record<Filled<T>, string | number>>]
): Entry<Filled<T>> {
  return { text, note, example: example ?? ({} as Entry<Filled<T>>['example']) };
}

/** What can be done about a refusal: stands below it. */
export const wayOut = <const T extends string>(
  text: T,
  ...example: [Filled<T>] extends [never] ? [] : [Readonly<Record<Filled<T>, string | number>>]
): Entry<Filled<T>> => word(text, 'the way out', ...example);

export type Catalogue = Readonly<Record<string, Entry>>;
/** Every entry in another language; a text alone was reviewed by nobody yet. */
export type Translation<C extends Catalogue> = { readonly [K in keyof C]: Translated };
/** @param of the original that it was reviewed beside: the first eight hexadecimal digits of its SHA-256 */
type Translated = string | readonly [text: string, reviewedBy: string, of?: string];
/** All that a language has, of all rooms. */
export type Translations = Readonly<Record<string, Translated>>;

export type ArgsOf<E> = E extends Entry<infer A> ? A : never;
type Given<E> = [ArgsOf<E>] extends [never] ? [] : [args: Fillings<ArgsOf<E>>];

/** Words that nobody has told yet. In a template or a file it is its own language: English. */
export class Message {
  constructor(
    readonly id: string,
    readonly entry: {
      readonly text: string;
      readonly quoted?: true;
      readonly example?: Readonly<Record<string, string | number>>;
    },
    readonly args: Readonly<Record<string, Filling>> = {},
  ) {}

  toString(): string {
    return ENGLISH(this);
  }

  toJSON(): string {
    return ENGLISH(this);
  }
}

/** What a file says, which a translation of the file may say too: under the same id. */
export const quoted = (id: string, text: string): Message => new Message(id, { text, quoted: true });

/** Makes messages of a catalogue. */
export const messagesOf =
  <C extends Catalogue>(catalogue: C) =>
  <K extends keyof C & string>(id: K, ...[args]: Given<C[K]>): Message =>
    new Message(id, catalogue[id]!, args);

/** Words of a catalogue as they are written down: in English. */
export const writtenOf =
  <C extends Catalogue>(catalogue: C) =>
  <K extends keyof C & string>(id: K, ...[args]: Given<C[K]>): string =>
    ENGLISH(new Message(id, catalogue[id]!, args));

export type Tell = (message: Message) => Spoken;
export interface Say<C extends Catalogue> {
  <K extends keyof C & string>(id: K, ...given: Given<C[K]>): Spoken;
  readonly tell: Tell;
}

/** Shown as plain digits: a grouped number is none that one can compare with a list. */
class Figure extends FluentNumber {
  override toString(_scope: Scope): string {
    return String(this.value);
  }
}

/**
 * @param language BCP 47, for the forms of words
 * @param texts an entry in that language; what it lacks is told in English
 * @param named how a text that is filled in is called in it: a title; a figure, where the example of the entry is one
 */
export function teller(
  language: string,
  texts: (id: string) => Translated | undefined = () => undefined,
  functions: Readonly<Record<string, FluentFunction>> = {},
  named: (text: string, isFigure: boolean) => string = (text) => text,
): Tell {
  const parsed = new Map<string, NonNullable<FluentResource['body'][number]['value']>>();
  let bundle: FluentBundle | undefined;
  const tell = ({ id, entry, args }: Message): Spoken => {
    const found = texts(id);
    const text = found === undefined ? entry.text : typeof found === 'string' ? found : found[0];
    if (entry.quoted || !text.includes('{')) return text as Spoken;
    bundle ??= new FluentBundle(language, { useIsolating: false, functions: { ...functions } });
    let value = parsed.get(text);
    if (value === undefined) {
      const made = new FluentResource(`m = ${text.replaceAll('\n', '\n  ')}`).body[0]?.value;
      if (made === undefined || made === null) throw new Error(`${id} is no message: ${text}`);
      value = made;
      parsed.set(text, value);
    }
    const isFigure = (name: string) =>
      !AS_WRITTEN.test(name) && FIGURE.test(String(entry.example?.[name] ?? ''));
    const filled = Object.fromEntries(
      Object.entries(args).map(([name, arg]) => [name, fill(arg, isFigure(name))]),
    );
    // Without a list for them, faults of a message are thrown.
    return bundle.formatPattern(value, filled) as Spoken;
  };
  const fill = (arg: Filling, isFigure: boolean): string | Figure => {
    if (typeof arg === 'string') return named(arg, isFigure);
    if (typeof arg === 'number') return new Figure(arg);
    if (arg instanceof Message) return tell(arg);
    if (arg instanceof Several) return arg.items.map((item) => fill(item, isFigure)).join(arg.between);
    return arg.map((item) => fill(item, isFigure)).join(', ');
  };
  return tell;
}

const FIGURE = /^[+-]?\d+(?:\.\d+)?$/;
/** What is filled in under such a name is told as it was typed or written, though it looks like a figure. */
const AS_WRITTEN = /^(?:given|raw|typed|code|lot|version|revision)\d?$/;

export const ENGLISH: Tell = teller('en');

/** Somebody who reads a screen or a terminal. */
export interface Reader {
  /** What the program speaks to them; English if absent. */
  readonly language?: Language;
  readonly tell: Tell;
  /** What was written down in English. */
  readonly retell: (text: string) => Spoken;
}

/** The words of one catalogue, by their ids. */
export function sayIn<C extends Catalogue>(catalogue: C, tell: Tell): Say<C> {
  const make = messagesOf(catalogue);
  const say = <K extends keyof C & string>(id: K, ...given: Given<C[K]>): Spoken => tell(make(id, ...given));
  return Object.assign(say, { tell });
}

/** Layout around words: blanks and signs, which no language changes. */
export const laid = (signs: TemplateStringsArray, ...parts: readonly (Spoken | number)[]): Spoken =>
  data(String.raw({ raw: signs }, ...parts));
