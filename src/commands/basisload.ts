/** Reads what the lines of journals rest on, for records. Each text is read once; what cannot be read is left out. */
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { parseInstruments } from '../measure/instruments.js';
import { basisHashes, type KeptTexts, type Maker } from '../record/basis.js';
import { type House, parseHouse } from '../store/company.js';
import { type Disk, storeProblem } from '../store/disk.js';
import { readSource } from '../store/hashed.js';
import { keptName } from '../store/names.js';
import type { Workshop } from '../store/workshop.js';
import { type JournalEvent, textsNamed } from '../unit/events.js';
import { readFirstOff } from '../unit/firstoff.js';
import { readTeam } from '../unit/team.js';

type Open<T> = {
  -readonly [K in keyof T]: T[K] extends ReadonlyMap<string, infer V> ? Map<string, V> : never;
};

const NONE = (): Open<KeptTexts> => ({
  instruments: new Map(),
  teams: new Map(),
  makers: new Map(),
  firstOffs: new Map(),
  names: new Map(),
});

/** What was read for a workshop so far, and the hashes of texts that are there as they were. */
const seen = new WeakMap<Workshop, { readonly kept: Open<KeptTexts>; readonly whole: Set<string> }>();

/** Fails if a text or a name that the lines rest on is not there, or not as it was. */
export function keptTexts(
  disk: Disk,
  workshop: Workshop,
  events: readonly JournalEvent[],
): Result<KeptTexts> {
  const { root } = workshop;
  const { kept, whole } = seen.get(workshop) ?? { kept: NONE(), whole: new Set<string>() };
  seen.set(workshop, { kept, whole });
  const problems: Problem[] = [];
  const fill = <T>(into: Map<string, T>, these: Iterable<string>, parse: (text: string) => T | undefined) => {
    for (const hash of these) {
      if (into.has(hash)) continue;
      const text = readSource(disk, root, hash);
      if (!text.ok) problems.push(...text.problems);
      const made = text.ok ? parse(text.value) : undefined;
      if (made !== undefined) into.set(hash, made);
      if (text.ok) whole.add(hash);
    }
  };
  const hashes = basisHashes(events);
  fill(kept.teams, hashes.teams, readTeam);
  fill(kept.makers, hashes.makers, (text) => {
    const house = parseHouse({ file: 'logs/sources', text });
    return house.ok ? makerOf(house.value) : undefined;
  });
  fill(kept.firstOffs, hashes.firstOffs, readFirstOff);
  const proven = [...hashes.firstOffs].flatMap((hash) => kept.firstOffs.get(hash)?.basis?.instruments ?? []);
  fill(kept.instruments, [...hashes.instruments, ...proven], (text) => {
    const parsed = parseInstruments({ file: 'logs/sources', text });
    return parsed.ok ? parsed.value : undefined;
  });
  for (const hash of new Set(events.flatMap(textsNamed)))
    if (!whole.has(hash)) {
      const text = readSource(disk, root, hash);
      if (text.ok) whole.add(hash);
      else if (!problems.some(({ place }) => place?.file === text.problems[0]?.place?.file))
        problems.push(...text.problems);
    }
  for (const hash of hashes.teams)
    for (const { id, name } of kept.teams.get(hash)?.people ?? []) {
      const found = kept.names.get(name) ?? keptName(disk, root, name);
      if (found?.id === id) kept.names.set(name, found);
      else
        problems.push(
          storeProblem(
            'source.missing',
            { id },
            {
              file: `logs/names/${name}`,
            },
          ),
        );
    }
  return problems.length > 0 ? err(...problems) : ok(kept);
}

export const makerOf = ({ particulars, rules }: Pick<House, 'particulars' | 'rules'>): Maker => ({
  name: particulars.maker || rules.name,
  triangle: rules.openingTriangle,
  particulars,
});
