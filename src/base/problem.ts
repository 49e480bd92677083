/** Problems are data first: an id, a place, what is wrong and what to do. Formatting lives here and nowhere else. */
import { sanitize } from './text.js';

export interface Place {
  readonly file: string;
  /** 1-based. */
  readonly line?: number;
  /** 1-based. */
  readonly column?: number;
}

/** A place whose line and column are worked out only when somebody looks: most files are right, and nobody does. */
export const lazyPlace = (file: string, find: () => Place): Place => new LazyPlace(file, find);

/** A file has a thousand places: each is one small object. */
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
  /** Stable id, `room.what-is-wrong`; listed in the generated table of messages. */
  readonly id: string;
  readonly place?: Place;
  /** What is wrong, one sentence, plain text (already safe for a terminal). */
  readonly text: string;
  /** The way out, one sentence. */
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

/** One row of a room's catalogue of messages: the general case, and the general way out. */
export interface CatalogueMessage {
  readonly what: string;
  readonly todo: string;
}

/**
 * Makes the function with which a room raises its problems. A room can raise only ids of its own catalogue, so the
 * table of messages made from the catalogues is complete.
 */
export function problemFactory<C extends Record<string, CatalogueMessage>>(catalogue: C) {
  return (id: keyof C & string, text: string, place?: Place, todo?: string): Problem => ({
    id,
    ...(place === undefined ? {} : { place }),
    text: sanitize(text),
    todo: sanitize(todo ?? catalogue[id]!.todo),
  });
}

/** `shared/jobs/pier.yaml:12:7`, or only as much of it as is known. */
function placeText(place: Place): string {
  return sanitize([place.file, place.line, place.column].filter((part) => part !== undefined).join(':'));
}

/** `place: what is wrong [id]` and, on a second line, what to do. */
export function problemText(problem: Problem): string {
  const where = problem.place ? `${placeText(problem.place)}: ` : '';
  return `${where}${problem.text} [${problem.id}]\n  ${problem.todo}`;
}

/** A file's name and text, as the pure rooms take it: they never open files themselves. */
export interface SourceText {
  /** As problems name it, relative to the workshop where it can be. */
  readonly file: string;
  readonly text: string;
}
