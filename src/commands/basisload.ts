/** Reads what the lines of journals rest on, for records. Each text is read once; what cannot be read is left out. */
import { parseInstruments } from '../measure/instruments.js';
import { basisHashes, type KeptTexts, type Maker } from '../record/basis.js';
import { type House, parseHouse } from '../store/company.js';
import type { Disk } from '../store/disk.js';
import { readSource } from '../store/hashed.js';
import { keptNames } from '../store/names.js';
import type { Workshop } from '../store/workshop.js';
import type { JournalEvent } from '../unit/events.js';
import { readFirstOff } from '../unit/firstoff.js';
import { readTeam } from '../unit/team.js';

type Open<T> = {
  -readonly [K in keyof T]: T[K] extends ReadonlyMap<string, infer V> ? Map<string, V> : never;
};

const read = new WeakMap<Workshop, Open<KeptTexts>>();

export function keptTexts(disk: Disk, workshop: Workshop, events: readonly JournalEvent[]): KeptTexts {
  let kept = read.get(workshop);
  if (!kept) {
    kept = {
      instruments: new Map(),
      teams: new Map(),
      makers: new Map(),
      firstOffs: new Map(),
      names: new Map(keptNames(disk, workshop.root)),
    };
    read.set(workshop, kept);
  }
  const hashes = basisHashes(events);
  const fill = <T>(into: Map<string, T>, these: Iterable<string>, parse: (text: string) => T | undefined) => {
    for (const hash of these) {
      if (into.has(hash)) continue;
      const text = readSource(disk, workshop.root, hash);
      const made = text.ok ? parse(text.value) : undefined;
      if (made !== undefined) into.set(hash, made);
    }
  };
  const instruments = (text: string) => {
    const parsed = parseInstruments({ file: 'logs/sources', text });
    return parsed.ok ? parsed.value : undefined;
  };
  fill(kept.teams, hashes.teams, readTeam);
  fill(kept.makers, hashes.makers, (text) => {
    const house = parseHouse({ file: 'logs/sources', text });
    return house.ok ? makerOf(house.value) : undefined;
  });
  fill(kept.firstOffs, hashes.firstOffs, readFirstOff);
  fill(kept.instruments, hashes.instruments, instruments);
  const proven = [...hashes.firstOffs].flatMap((hash) => kept.firstOffs.get(hash)?.basis?.instruments ?? []);
  fill(kept.instruments, proven, instruments);
  return kept;
}

export const makerOf = ({ particulars, rules }: Pick<House, 'particulars' | 'rules'>): Maker => ({
  name: particulars.maker || rules.name,
  triangle: rules.openingTriangle,
  particulars,
});
