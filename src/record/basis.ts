/**
 * What a unit's record rests on, as it was kept when it was used: who the people were and what they might do, the
 * instruments with their calibration, the first-offs of set-ups, and the maker. Where a journal does not keep it (an
 * earlier version wrote it), today's facts stand in, and are shown as today's.
 */
import type { Instrument } from '../measure/types.js';
import { type Basis, basisAfter, type JournalEvent } from '../unit/events.js';
import type { FirstOff } from '../unit/firstoff.js';
import { levelOf } from '../unit/people.js';
import type { Team, TeamMember } from '../unit/team.js';
import type { Level, Person } from '../unit/types.js';
import type { Known } from './initials.js';
import type { Particulars } from './particulars.js';

/** Who makes it, and how they draw. */
export interface Maker {
  /** As documents are headed. */
  readonly name: string;
  readonly triangle: 'apex-at-hinge' | 'apex-at-handle';
  readonly particulars: Particulars;
}

type Name = { readonly id: string } & (
  | { readonly initials: string; readonly name: string }
  | { readonly erased: string }
);

/** The texts that a journal names, read, by SHA-256. */
export interface KeptTexts {
  readonly instruments: ReadonlyMap<string, readonly Instrument[]>;
  readonly teams: ReadonlyMap<string, Team>;
  readonly makers: ReadonlyMap<string, Maker>;
  readonly firstOffs: ReadonlyMap<string, FirstOff>;
  readonly names: ReadonlyMap<string, Name>;
}

/** Facts that a document states and no journal keeps, so that it can be made again when they have changed. */
export interface Told {
  readonly maker?: Maker;
  /** As shown, in the order of `peopleIn`; "" where nothing is stated. */
  readonly people?: readonly string[];
  readonly instruments?: readonly Instrument[];
}

/** The workshop's files as they are now. */
export interface Today {
  readonly maker: Maker;
  readonly people: readonly Person[];
  readonly instruments: readonly Instrument[];
}

export interface UsedInstrument {
  readonly instrument: Instrument | undefined;
  /** Tells apart the same instrument with other calibrations. */
  readonly version: string;
  readonly today: boolean;
}

export interface StageLevel {
  readonly stage: string;
  /** Undefined where none was given. */
  readonly level: Level | undefined;
}

interface LevelChange {
  readonly n: number;
  readonly was: readonly StageLevel[];
  readonly is: readonly StageLevel[];
}

export class RecordBasis {
  readonly #at: readonly { readonly n: number; readonly basis: Basis }[];
  readonly #events: readonly JournalEvent[];
  #order: readonly string[] | undefined;
  /** Instruments of which only today's facts are known, as they were asked for. */
  readonly #asToday = new Map<string, Instrument>();

  constructor(
    events: readonly JournalEvent[],
    private readonly kept: KeptTexts,
    private readonly now: Today,
    private readonly told: Told = {},
  ) {
    this.#events = events;
    let basis: Basis = {};
    this.#at = events.flatMap((event) => {
      if (!event.basis) return [];
      basis = basisAfter(basis, event);
      return [{ n: event.n, basis }];
    });
  }

  /** What a line rests on, or what the line that it cites rested on. */
  #of(event: JournalEvent): Basis {
    const own = this.#at.findLast(({ n }) => n <= event.n)?.basis ?? {};
    const cited = 'cited' in event ? event.cited?.basis : undefined;
    return cited ? basisAfter(own, { basis: cited }) : own;
  }

  get maker(): { readonly maker: Maker; readonly today: boolean } {
    const hash = this.#at.at(-1)?.basis.maker;
    const kept = hash === undefined ? undefined : this.kept.makers.get(hash);
    return kept ? { maker: kept, today: false } : { maker: this.told.maker ?? this.now.maker, today: true };
  }

  instrument(id: string, event: JournalEvent): UsedInstrument {
    const hash = this.#of(event).instruments;
    const list = hash === undefined ? undefined : this.kept.instruments.get(hash);
    if (list) {
      const instrument = list.find((each) => each.id === id);
      return { instrument, version: JSON.stringify(instrument ?? null), today: false };
    }
    const instrument =
      this.told.instruments?.find((each) => each.id === id) ??
      this.now.instruments.find((each) => each.id === id);
    if (instrument) this.#asToday.set(id, instrument);
    return { instrument, version: '', today: true };
  }

  /** Those asked for so far. */
  shownAsToday(): Instrument[] {
    return [...this.#asToday.values()];
  }

  firstOff(setup: string, event: JournalEvent): FirstOff | undefined {
    const hash = this.#of(event).setups?.[setup];
    return hash === undefined ? undefined : this.kept.firstOffs.get(hash);
  }

  /** A first-off's instrument, by what the first-off itself rested on. */
  instrumentOf(firstOff: FirstOff, id: string): Instrument | undefined {
    const hash = firstOff.basis?.instruments;
    return hash === undefined ? undefined : this.kept.instruments.get(hash)?.find((each) => each.id === id);
  }

  /** Everybody known to the unit, each by the name they had first; then those of today whom it never kept. */
  people(): readonly Known[] {
    const found = new Map<string, Known>();
    for (const team of this.#teams())
      for (const { id, name } of team.people) {
        const kept = this.kept.names.get(name);
        if (found.has(id) || !kept) continue;
        found.set(
          id,
          'name' in kept ? { id, initials: kept.initials, name: kept.name } : { id, erased: true },
        );
      }
    for (const { id, initials, name } of this.#keepsAll() ? [] : this.now.people)
      if (!found.has(id)) found.set(id, { id, initials, name, today: true });
    return [...found.values()];
  }

  /** How a document shows a person whose name is erased or not kept. */
  toldName(id: string): string | undefined {
    this.#order ??= peopleIn(this.#events);
    return this.told.people?.[this.#order.indexOf(id)] || undefined;
  }

  /** The level that counted for a person at a line; undefined where it was not kept. */
  levelAt(id: string, stage: string, event: JournalEvent): Level | undefined {
    const hash = this.#of(event).team;
    const member =
      hash === undefined ? undefined : this.kept.teams.get(hash)?.people.find((p) => p.id === id);
    return member && levelOf(member, stage);
  }

  /** Lines at which a person's levels became others while the unit was built: the stages that differ, with their levels. */
  levelChanges(id: string): LevelChange[] {
    const out: LevelChange[] = [];
    let before: TeamMember['levels'] | undefined;
    for (const { n, basis } of this.#at) {
      const levels =
        basis.team === undefined
          ? undefined
          : this.kept.teams.get(basis.team)?.people.find((each) => each.id === id)?.levels;
      if (!levels) continue;
      const stages = before
        ? [...new Set([...Object.keys(before), ...Object.keys(levels)])].filter(
            (stage) => before![stage] !== levels[stage],
          )
        : [];
      const those = (of: TeamMember['levels']) => stages.map((stage) => ({ stage, level: of[stage] }));
      if (before && stages.length > 0) out.push({ n, was: those(before), is: those(levels) });
      before = levels;
    }
    return out;
  }

  /** Whether every line rests on something kept. */
  #keepsAll(): boolean {
    return this.#at[0]?.n === 1;
  }

  /** Whether some of what the record shows is as it stands today. */
  get partly(): boolean {
    return this.#events.length > 0 && !this.#keepsAll();
  }

  #teams(): Team[] {
    const hashes = new Set(this.#at.flatMap(({ basis }) => basis.team ?? []));
    return [...hashes].flatMap((hash) => this.kept.teams.get(hash) ?? []);
  }
}

/** Ids of everybody whom the lines name, in order. */
export function peopleIn(events: readonly JournalEvent[]): string[] {
  const ids = new Set<string | undefined>();
  for (const event of events) {
    ids.add(event.by);
    if ('second' in event) ids.add(event.second);
    if ('overdueAllowedBy' in event) ids.add(event.overdueAllowedBy);
    if (event.kind === 'answered') ids.add(event.lot?.acceptedBy);
    if ('cited' in event) ids.add(event.cited?.by).add(event.cited?.second);
  }
  return [...ids].filter((id): id is string => id !== undefined && id !== 'nobody');
}

export const NOTHING_KEPT: KeptTexts = {
  instruments: new Map(),
  teams: new Map(),
  makers: new Map(),
  firstOffs: new Map(),
  names: new Map(),
};

/** The hashes that a unit's lines name, by what they are. */
export function basisHashes(events: readonly JournalEvent[]) {
  const of = {
    instruments: new Set<string>(),
    teams: new Set<string>(),
    makers: new Set<string>(),
    firstOffs: new Set<string>(),
  };
  const add = (basis: Basis | undefined) => {
    if (basis?.instruments !== undefined) of.instruments.add(basis.instruments);
    if (basis?.team !== undefined) of.teams.add(basis.team);
    if (basis?.maker !== undefined) of.makers.add(basis.maker);
    for (const hash of Object.values(basis?.setups ?? {})) of.firstOffs.add(hash);
  };
  for (const event of events) {
    add(event.basis);
    if ('cited' in event) add(event.cited?.basis);
  }
  return of;
}
