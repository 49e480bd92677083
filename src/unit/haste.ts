/** Answers given sooner than their questions can be read, beside the time that the same people's measured ones took. */
import { findCheck } from './graph.js';
import type { UnitState } from './unitstate.js';

/**
 * Words a minute that the quickest of most adults read silently, English non-fiction: 175 to 300, 238 on average
 * (M. Brysbaert, How many words do we read per minute?, Journal of Memory and Language 109, 2019, 104047).
 */
const QUICK_READING = 300;

export interface Haste {
  readonly by: string;
  /** Looks answered at the bench, and how many of them sooner than their questions can be read. */
  readonly looks: number;
  readonly sooner: number;
  /** Median time of the measured answers, seconds; undefined if there is none. */
  readonly measured: number | undefined;
}

/** By person, in the order of their first answer. Answers of which the time is not known are left out, and cited ones. */
export function hasteOf({ events, route }: UnitState): readonly Haste[] {
  interface Own {
    looks: number;
    sooner: number;
    readonly measured: number[];
  }
  const people = new Map<string, Own>();
  const looks = new Map<string, { readonly by: string; readonly stood: number; words: number }>();
  const own = (by: string): Own => {
    const found = people.get(by) ?? { looks: 0, sooner: 0, measured: [] };
    people.set(by, found);
    return found;
  };
  for (const event of events) {
    if (event.kind !== 'answered' || event.cited || event.stood === undefined) continue;
    const mine = own(event.by);
    if ('readings' in event.answer) mine.measured.push(event.stood);
    if (event.answer.kind !== 'go-no-go' && event.answer.kind !== 'tick') continue;
    const words = wordsOf(findCheck(route, event.check)?.check.ask ?? '');
    // What one look answers was given at one instant.
    const key = event.look === undefined ? String(event.n) : `${event.step} ${event.at}`;
    const look = looks.get(key);
    if (look) look.words += words;
    else looks.set(key, { by: event.by, stood: event.stood, words });
  }
  for (const { by, stood, words } of looks.values()) {
    const mine = own(by);
    mine.looks += 1;
    if (stood < (words * 60) / QUICK_READING) mine.sooner += 1;
  }
  return [...people].map(([by, { looks: all, sooner, measured }]) => ({
    by,
    looks: all,
    sooner,
    measured: measured.length === 0 ? undefined : medianOf(measured),
  }));
}

const wordsOf = (text: string): number => text.split(/\s+/).filter((word) => word !== '').length;

function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
