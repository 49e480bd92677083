/** Problems are data: an id, a place, what is wrong and what to do. They are formatted only here. */
import { sanitize } from './text.js';
import {
  type ArgsOf,
  type Catalogue,
  data,
  ENGLISH,
  type Filling,
  Message,
  type Spoken,
  type Tell,
} from './words.js';

export interface Place {
  readonly file: string;
  /** Line and column are 1-based. */
  readonly line?: number;
  readonly column?: number;
}

/** A place whose line and column are computed on first access: most files are fine and nobody looks. */
export const lazyPlace = (file: string, find: () => Place): Place => new LazyPlace(file, find);

/** A file has a thousand of these, so each is one small object. */
class LazyPlace implements Place {
  #found: Place | undefined;
  readonly #find: () => Place;

  constructor(
    readonly file: string,
    find: () => Place,
  ) {
    this.#find = find;
  }

  get line(): number {
    return this.#look().line!;
  }

  get column(): number {
    return this.#look().column!;
  }

  toJSON(): Place {
    return { file: this.file, line: this.line, column: this.column };
  }

  #look(): Place {
    this.#found ??= this.#find();
    return this.#found;
  }
}

export interface Problem {
  /** Stable id, `room.what-is-wrong`; listed in the generated message table. */
  readonly id: string;
  readonly place?: Place;
  /** What is wrong: one plain sentence, in English, already safe for a terminal. So is `todo`, what to do about it. */
  readonly text: string;
  readonly todo: string;
  /** The same, for a reader in another language. */
  readonly said: Message;
  readonly wayOut: Message;
}

export type Result<T> =
  | { readonly ok: true; readonly value: T; readonly warnings: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const ok = <T>(value: T, warnings: readonly Problem[] = []): Result<T> => ({
  ok: true,
  value,
  warnings,
});
export const err = (...problems: readonly Problem[]): Result<never> => ({ ok: false, problems });

type WaysOut = `${string}.todo`;
/** Ids and cases of what a catalogue can refuse: `id`, or `id/case` where other words tell it better. */
export type Refusals<C extends Catalogue> = Exclude<keyof C & string, WaysOut>;
/** Ids alone. */
export type ProblemIds<C extends Catalogue> = Exclude<Refusals<C>, `${string}/${string}`>;
type Asked<C extends Catalogue, K extends string> = ArgsOf<C[K]> | ArgsOf<C[`${K}.todo`]>;

/** What is filled in, in the words and the way out, and where it is. */
export type RaiseArgs<C extends Catalogue, K extends string> = [Asked<C, K>] extends [never]
  ? [args?: Readonly<Record<string, never>>, place?: Place]
  : [args: Readonly<Record<Asked<C, K>, Filling>>, place?: Place];

/**
 * A room can raise only ids from its own catalogue, so the message table generated from the catalogues is complete.
 * `id.todo` is the way out of `id`, and of each `id/case` that has none of its own.
 */
export function problemFactory<C extends Catalogue>(catalogue: C) {
  return <K extends Refusals<C>>(key: K, ...[args, place]: RaiseArgs<C, K>): Problem => {
    const id = key.split('/')[0]!;
    const way = `${key}.todo` in catalogue ? `${key}.todo` : `${id}.todo`;
    const said = new Message(key, catalogue[key]!, args);
    const wayOut = new Message(way, catalogue[way]!, args);
    return {
      id,
      ...(place === undefined ? {} : { place }),
      // Told when somebody asks: most obstacles of a unit are only counted.
      get text() {
        return sanitize(ENGLISH(said));
      },
      get todo() {
        return sanitize(ENGLISH(wayOut));
      },
      said,
      wayOut,
    };
  };
}

/** The problem with other words of what is wrong. */
export const saidAs = (problem: Problem, said: Message): Problem => ({
  ...problem,
  said,
  text: sanitize(ENGLISH(said)),
});

/** In a table, what would be filled in stands as in a usage line: `<step>`. */
const unfilled = (entry: Catalogue[string]): string =>
  ENGLISH(
    new Message(
      entry.text,
      entry,
      Object.fromEntries(Object.keys(entry.example).map((name) => [name, `<${name}>`])),
    ),
  );

/** Every id with what is wrong in general, and the way out, for tables of messages. */
export const tabled = (
  catalogue: Catalogue,
): [id: string, { readonly what: string; readonly todo: string }][] =>
  Object.entries(catalogue).flatMap(([id, { note }]) =>
    id.endsWith('.todo') || id.includes('/')
      ? []
      : [[id, { what: note, todo: unfilled(catalogue[`${id}.todo`]!) }]],
  );

/** `shared/jobs/pier.yaml:12:7`, or as much of it as is known. */
export function placeText(place: Place): string {
  return sanitize([place.file, place.line, place.column].filter((part) => part !== undefined).join(':'));
}

export const problemText = (problem: Problem): Spoken => problemTold(problem, ENGLISH);

export function problemTold(problem: Problem, tell: Tell = ENGLISH): Spoken {
  const where = problem.place ? `${placeText(problem.place)}: ` : '';
  return data(`${where}${sanitize(tell(problem.said))} [${problem.id}]\n  ${sanitize(tell(problem.wayOut))}`);
}

/** Input to the pure rooms, which never open files themselves. */
export interface SourceText {
  /** As shown in problems: relative to the workshop where possible. */
  readonly file: string;
  readonly text: string;
}

/** Exit codes, the same for every command. Here, because the start of the program loads nothing else. */
export const EXIT = { done: 0, doesNotHold: 1, badInput: 2, resource: 3 } as const;
