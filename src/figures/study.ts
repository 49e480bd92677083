/** Readings and judgements of a study, put in order by part and person and checked to be complete. */
import { err, ok, type Result } from '../base/problem.js';
import { cohenKappa, fleissKappa, type Kappa, repeatedCohen } from './agreement.js';
import type { Crossed } from './gauge.js';
import { figuresProblem } from './messages.js';

export interface StudyRow<T> {
  readonly part: string;
  readonly person: string;
  readonly value: T;
}

/** More cells than any study has: a wrong column was named. */
const MOST_CELLS = 100_000;

/** Fails if one part or person is all there is, or somebody measured a part more or less often than others. */
export function crossedOf(rows: readonly StudyRow<number>[]): Result<Crossed> {
  const parts = distinct(rows.map(({ part }) => part));
  const people = distinct(rows.map(({ person }) => person));
  if (parts.length < 2) return err(figuresProblem('figures.study', { part: parts[0] ?? '' }));
  if (people.length < 2) return err(figuresProblem('figures.study/person', { person: people[0] ?? '' }));
  if (parts.length * people.length > MOST_CELLS)
    return err(figuresProblem('figures.study/large', { parts: parts.length, people: people.length }));
  const cells = byCell(rows);
  const readings = parts.map((part) => people.map((person) => cells.get(part)?.get(person) ?? []));
  const usual = commonest(readings.flat().map(({ length }) => length));
  const odd = parts.flatMap((part, i) =>
    people.flatMap((person, k) => {
      const times = readings[i]![k]!.length;
      return times === usual
        ? []
        : [figuresProblem('figures.study/unbalanced', { person, part, times, usual })];
    }),
  );
  if (odd.length > 0) return err(...odd.slice(0, 6));
  if (usual < 2) return err(figuresProblem('figures.study/trials', {}));
  if (new Set(rows.map(({ value }) => value)).size < 2) return err(figuresProblem('figures.study/alike', {}));
  return ok(readings);
}

export interface AgreementStudy {
  /** Each pair of people, and each with what is right where that is known. */
  readonly pairs: readonly (Kappa & { readonly first: string; readonly second: string })[];
  /** Of all people together. */
  readonly fleiss: Kappa;
  /** How often each agrees with their own other judgements of a piece; where pieces were judged more than once. */
  readonly themselves: readonly { readonly person: string; readonly agree: number; readonly of: number }[];
}

/** @param truth what is right, by part; a judgement of it counts as a person of that name */
export function agreementOf(
  rows: readonly StudyRow<string>[],
  truth: ReadonlyMap<string, string>,
  truthName: string,
): Result<AgreementStudy> {
  const parts = distinct(rows.map(({ part }) => part));
  const people = distinct(rows.map(({ person }) => person));
  if (parts.length < 2) return err(figuresProblem('figures.study', { part: parts[0] ?? '' }));
  if (people.length < 2 && truth.size === 0)
    return err(figuresProblem('figures.study/person', { person: people[0] ?? '' }));
  const cells = byCell(rows);
  const usual = commonest(
    parts.flatMap((part) => people.map((person) => cells.get(part)?.get(person)?.length ?? 0)),
  );
  for (const part of parts)
    for (const person of people) {
      const times = cells.get(part)?.get(person)?.length ?? 0;
      if (times !== usual)
        return err(figuresProblem('figures.study/unbalanced', { person, part, times, usual }));
    }
  const judged = (part: string, person: string): readonly string[] =>
    person === truthName
      ? Array.from({ length: usual }, () => truth.get(part)!)
      : cells.get(part)!.get(person)!;
  const known = truth.size > 0 ? [...people, truthName] : people;
  const pairs = known.flatMap((first, i) =>
    known.slice(i + 1).map((second) => ({
      first,
      second,
      ...pairKappa(
        parts.map((part) =>
          judged(part, first).map((value, k) => [value, judged(part, second)[k]!] as const),
        ),
      ),
    })),
  );
  const kinds = distinct(rows.map(({ value }) => value));
  const counts = parts.map((part) => {
    const all = people.flatMap((person) => judged(part, person));
    return kinds.map((kind) => all.filter((value) => value === kind).length);
  });
  return ok({
    pairs,
    fleiss: fleissKappa(counts),
    themselves:
      usual < 2
        ? []
        : people.map((person) => ({
            person,
            agree: parts.filter((part) => new Set(judged(part, person)).size === 1).length,
            of: parts.length,
          })),
  });
}

const pairKappa = (pieces: readonly (readonly (readonly [string, string])[])[]): Kappa =>
  pieces.some(({ length }) => length > 1) ? repeatedCohen(pieces) : cohenKappa(pieces.flat());

/** In the order in which they first stand. */
const distinct = (values: readonly string[]): string[] => [...new Set(values)];

function byCell<T>(rows: readonly StudyRow<T>[]): Map<string, Map<string, T[]>> {
  const cells = new Map<string, Map<string, T[]>>();
  for (const { part, person, value } of rows) {
    const ofPart = cells.get(part) ?? new Map<string, T[]>();
    cells.set(part, ofPart);
    ofPart.set(person, [...(ofPart.get(person) ?? []), value]);
  }
  return cells;
}

/** Of several that are as common, the largest. */
function commonest(values: readonly number[]): number {
  const count = new Map<number, number>();
  for (const value of values) count.set(value, (count.get(value) ?? 0) + 1);
  return [...count].sort(([a, n], [b, m]) => m - n || b - a)[0]?.[0] ?? 0;
}
