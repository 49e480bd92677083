/** Problems are data: an id, a place, what is wrong and what to do. They are formatted only here. */
import { sanitize } from './text.js';

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
  /** What is wrong: one plain sentence, already safe for a terminal. So is `todo`, what to do about it. */
  readonly text: string;
  readonly todo: string;
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

export interface CatalogueMessage {
  readonly what: string;
  readonly todo: string;
}

/** A room can raise only ids from its own catalogue, so the message table generated from the catalogues is complete. */
export function problemFactory<C extends Record<string, CatalogueMessage>>(catalogue: C) {
  return (id: keyof C & string, text: string, place?: Place, todo?: string): Problem => ({
    id,
    ...(place === undefined ? {} : { place }),
    text: sanitize(text),
    todo: sanitize(todo ?? catalogue[id]!.todo),
  });
}

/** `shared/jobs/pier.yaml:12:7`, or as much of it as is known. */
export function placeText(place: Place): string {
  return sanitize([place.file, place.line, place.column].filter((part) => part !== undefined).join(':'));
}

export function problemText(problem: Problem): string {
  const where = problem.place ? `${placeText(problem.place)}: ` : '';
  return `${where}${problem.text} [${problem.id}]\n  ${problem.todo}`;
}

/** Input to the pure rooms, which never open files themselves. */
export interface SourceText {
  /** As shown in problems: relative to the workshop where possible. */
  readonly file: string;
  readonly text: string;
}

/** Exit codes, the same for every command. Here, because the start of the program loads nothing else. */
export const EXIT = { done: 0, doesNotHold: 1, badInput: 2, resource: 3 } as const;
