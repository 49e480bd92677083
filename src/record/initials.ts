/** Names people in full, or by initials in documents that go outside. The journal always keeps the id. */
import { sanitize } from '../base/text.js';
import type { Spoken } from '../base/words.js';
import type { DocumentSay } from './telling.js';

/** Somebody named in a journal. */
export type Known =
  | { readonly id: string; readonly initials: string; readonly name: string; readonly today?: true }
  | { readonly id: string; readonly erased: true };
type Named = Extract<Known, { readonly name: string }>;

const isNamed = (person: Known): person is Named => 'name' in person;

/** Person id -> name shown in the document. A person of whom nothing is known is shown by their id. */
export type Namer = (id: string) => Spoken;

/** @param told how the document shows people of whom no name is kept */
export function namer(
  people: readonly Known[],
  initialsOnly: boolean,
  say: DocumentSay,
  told: (id: string) => string | undefined = () => undefined,
): Namer {
  const initials = distinctInitials(people.filter(isNamed));
  const byId = new Map(people.map((person) => [person.id, person]));
  const shownName = ({ id, name }: Named) =>
    sanitize(initialsOnly ? initials.get(id)! : `${name} (${initials.get(id)})`);
  /** A document cannot give somebody the name of another. */
  const others = (id: string, text: string) =>
    people.some((person) => person.id !== id && isNamed(person) && shownName(person) === text);
  return (id) => {
    if (id === 'nobody') return say('doc-name-nobody');
    const person = byId.get(id);
    const kept = person && isNamed(person) && !person.today ? person : undefined;
    const asTold = kept ? undefined : told(id);
    if (asTold !== undefined && !others(id, asTold)) return sanitize(asTold);
    if (person && !isNamed(person)) return say('doc-name-erased', { id: sanitize(id) });
    if (person) return shownName(person);
    return say('doc-name-unlisted', { id: initialsOnly ? initialsOf(id) : sanitize(id) });
  };
}

/** Replaces names and ids in free text: "Jana Brook squared it" -> "JB squared it". */
export function nameRemover(all: readonly Known[]): (text: string) => string {
  const people = all.filter(isNamed);
  const initials = distinctInitials(people);
  const replacements = people
    .flatMap((person) => {
      const parts = sanitize(person.name).split(/\s+/);
      const names = [sanitize(person.name), ...parts.filter((part) => part.length >= 3), sanitize(person.id)];
      return names
        .filter((name) => name.length >= 3)
        .map((name) => [name, initials.get(person.id)!] as const);
    })
    .sort(([a], [b]) => b.length - a.length);
  if (replacements.length === 0) return (text) => text;
  const by = new Map(
    replacements.map(([name, short]) => [name.toLocaleLowerCase('en'), short]).reverse() as [
      string,
      string,
    ][],
  );
  const pattern = new RegExp(
    `(?<![\\p{L}\\p{N}])(?:${replacements.map(([name]) => escapePattern(name)).join('|')})(?![\\p{L}\\p{N}])`,
    'giu',
  );
  return (text) => text.replace(pattern, (found) => by.get(found.toLocaleLowerCase('en')) ?? found);
}

/** Applies a change to every string in the data, except under the given keys. */
export function mapTexts<T>(data: T, change: (text: string) => string, except: ReadonlySet<string>): T {
  if (typeof data === 'string') return change(data) as T;
  if (Array.isArray(data)) return data.map((item) => mapTexts(item, change, except)) as T;
  if (data !== null && typeof data === 'object')
    return Object.fromEntries(
      Object.entries(data).map(([key, value]) => [
        key,
        except.has(key) ? value : mapTexts(value, change, except),
      ]),
    ) as T;
  return data;
}

/** People with the same initials must stay distinct: the later one becomes "JB 2". */
function distinctInitials(people: readonly Named[]): Map<string, string> {
  const given = new Map<string, string>();
  const seen = new Map<string, number>();
  for (const person of people) {
    const short = sanitize(person.initials) || initialsOf(person.name);
    const count = (seen.get(short) ?? 0) + 1;
    seen.set(short, count);
    given.set(person.id, count === 1 ? short : `${short} ${count}`);
  }
  return given;
}

const initialsOf = (name: string): string =>
  sanitize(name)
    .split(/[^\p{L}\p{N}]+/u)
    .map((part) => part.slice(0, 1).toUpperCase())
    .join('') || '?';

const escapePattern = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');
