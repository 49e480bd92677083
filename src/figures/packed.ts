/** Figures of units as short rows of numbers, with one list of words for all: what an index keeps of them. */
import type { Kind, UnitReading } from './readings.js';
import type { UnitFigures } from './unitfigures.js';

export interface Packed {
  readonly words: readonly string[];
  readonly rows: readonly PackedUnit[];
}

/** Numbers are places in `words`, −1 for none, but for readings and times themselves. */
type PackedUnit = readonly [
  names: readonly [job: number, unit: number, set: number, finished: 0 | 1, whole: 0 | 1, begun: number],
  lots: readonly number[],
  measured: readonly (number | null)[],
  steps: readonly number[],
  failures: readonly (number | null)[],
  causes: readonly (number | null)[],
  times: readonly number[],
];

/** @param before rows that stay as they are, with the words that they rest on */
export function packed(units: readonly UnitFigures[], before: Packed = { words: [], rows: [] }): Packed {
  const words = [...before.words];
  const places = new Map(words.map((word, i) => [word, i]));
  const place = (word: string | undefined): number => {
    if (word === undefined) return -1;
    const known = places.get(word);
    if (known !== undefined) return known;
    places.set(word, words.length);
    words.push(word);
    return words.length - 1;
  };
  const kinds = new Map<string, number>();
  const kindAt = (kind: Kind): number => {
    const text = JSON.stringify([kind.key, kind.step, kind.place ?? null, kind.unit, kind.against]);
    const known = kinds.get(text) ?? place(text);
    kinds.set(text, known);
    return known;
  };
  const orNull = (value: number | undefined) => value ?? null;
  const rows = units.map((unit): PackedUnit => {
    const begun = Math.min(
      ...[...unit.measured, ...unit.steps, ...unit.lots].map(({ at }) => Date.parse(at)),
      8.64e15,
    );
    const after = (at: string) => Date.parse(at) - begun;
    return [
      [place(unit.job), place(unit.unit), place(unit.set), unit.finished ? 1 : 0, unit.whole ? 1 : 0, begun],
      unit.lots.flatMap(({ code, at }) => [place(code), after(at)]),
      unit.measured.flatMap((each) => [
        kindAt(each.kind),
        place(each.item),
        after(each.at),
        each.value,
        orNull(each.low),
        orNull(each.high),
        orNull(each.uncertainty),
        place(each.instrument),
        place(each.setup),
      ]),
      unit.steps.flatMap(({ step, title, right, at }) => [
        place(step),
        place(title),
        right ? 1 : 0,
        after(at),
      ]),
      unit.failures.flatMap(({ what, hours, parts }) => [place(what), orNull(hours), parts]),
      unit.causes.flatMap(({ what, hours, parts }) => [place(what), orNull(hours), parts]),
      unit.times.flatMap(({ step, title, work, waiting }) => [place(step), place(title), work, waiting]),
    ];
  });
  return { words, rows: [...before.rows, ...rows] };
}

export interface Unpacking {
  /** Of a thing measured: whether its readings are asked for. */
  readonly wanted: (key: string) => boolean;
  /** Whether steps, failures, causes and times are asked for. */
  readonly work: boolean;
}

export function unpacked(
  { words, rows }: Packed,
  { wanted, work }: Unpacking = { wanted: () => true, work: true },
): UnitFigures[] {
  const word = (at: number): string => words[at]!;
  const maybe = (at: number): string | undefined => (at < 0 ? undefined : words[at]);
  const kinds = new Map<number, Kind | undefined>();
  const kindAt = (at: number): Kind | undefined => {
    if (kinds.has(at)) return kinds.get(at);
    const [key, step, place, unit, against] = JSON.parse(word(at)) as [
      string,
      string,
      string | null,
      string,
      Kind['against'],
    ];
    const kind = wanted(key) ? { key, step, place: place ?? undefined, unit, against } : undefined;
    kinds.set(at, kind);
    return kind;
  };
  return rows.map(
    ([[job, unit, set, finished, whole, begun], lots, readings, steps, failures, causes, times]) => {
      const time = (after: number) => new Date(begun + after).toISOString();
      const measured: UnitReading[] = [];
      for (let i = 0; i < readings.length; i += 9) {
        const kind = kindAt(readings[i]!);
        if (!kind) continue;
        measured.push({
          kind,
          item: maybe(readings[i + 1]!),
          at: time(readings[i + 2]!),
          value: readings[i + 3]!,
          low: readings[i + 4] ?? undefined,
          high: readings[i + 5] ?? undefined,
          uncertainty: readings[i + 6] ?? undefined,
          instrument: maybe(readings[i + 7]!),
          setup: maybe(readings[i + 8]!),
        });
      }
      return {
        job: word(job),
        unit: word(unit),
        set: word(set),
        finished: finished === 1,
        whole: whole === 1,
        lots: each(lots, 2, ([code, at]) => ({ code: word(code!), at: time(at!) })),
        measured,
        steps: each(work ? steps : [], 4, ([step, title, right, at]) => ({
          step: word(step!),
          title: word(title!),
          right: right === 1,
          at: time(at!),
        })),
        failures: each(work ? failures : [], 3, trouble),
        causes: each(work ? causes : [], 3, trouble),
        times: each(work ? times : [], 4, ([step, title, minutes, waiting]) => ({
          step: word(step!),
          title: word(title!),
          work: minutes!,
          waiting: waiting!,
        })),
      };
    },
  );

  function trouble([what, hours, parts]: readonly (number | null)[]) {
    return { what: word(what!), hours: hours ?? undefined, parts: parts! };
  }
}

function each<T extends number | null, R>(
  flat: readonly T[],
  size: number,
  of: (slice: readonly T[]) => R,
): R[] {
  const out: R[] = [];
  for (let i = 0; i < flat.length; i += size) out.push(of(flat.slice(i, i + size)));
  return out;
}
