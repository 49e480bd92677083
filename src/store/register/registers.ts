/** All registers of a workshop: are they whole, signed as they must be, and what is known from elsewhere there? */
import { type Place, type Problem, problemFactory } from '../../base/problem.js';
import type { Message } from '../../base/words.js';
import type { RegisterHead } from '../../unit/events.js';
import type { Disk } from '../disk.js';
import { chainProblems } from '../verifychained.js';
import { VERIFY_MESSAGES } from '../verifymessages.js';
import { storeWords } from '../words.js';
import { knownHere } from './account.js';
import { type BenchEntry, isSignedBy } from './entries.js';
import { type BenchRegister, hasWord, type KnownHeads, knownBy } from './heads.js';
import type { CountedKeys, IntroducedKey } from './keys.js';
import { benchFile, KEYS_FILE, registered } from './place.js';
import { readBench } from './whole.js';

const raise = problemFactory(VERIFY_MESSAGES);

export interface Registers extends KnownHeads {
  /** What is wrong with them, or worth knowing. */
  readonly problems: readonly Problem[];
  /** Any register is there. */
  readonly any: boolean;
  /** Entries of all registers. */
  readonly entries: number;
  /** Those of which `against` said that they are not there. */
  readonly lost: readonly RegisterHead[];
  /** What is wrong where this head is known from elsewhere; nothing if it stands there. */
  against(head: RegisterHead, place: Place, whence: Message): Problem[];
}

export function readRegisters(disk: Disk, root: string, counted: CountedKeys): Registers {
  const problems: Problem[] = [...chainProblems(counted.faults, KEYS_FILE, RESTORE), ...counted.problems];
  const benches: BenchRegister[] = [];
  for (const name of registered(disk, root)) {
    const read = readBench(disk, root, name);
    if (!read) continue;
    problems.push(...chainProblems(read.faults, benchFile(name), RESTORE));
    const [first] = read.entries;
    if (first && (first.kind !== 'register-begun' || first.of !== name))
      problems.push(
        raise(
          'verify.not-opened/register',
          {},
          {
            file: benchFile(name),
            line: 1,
          },
        ),
      );
    problems.push(...signatureProblems(name, read.entries, counted));
    benches.push({ name, entries: read.entries, lines: read.lines });
  }
  const isSigned = benches.some(({ entries }) => entries.some(({ signedBy }) => signedBy !== undefined));
  if (counted.gone || (!counted.kept && isSigned))
    problems.push(raise('verify.register-gone', {}, { file: KEYS_FILE }));
  const lost = lostHeads(benches, counted);
  const known = knownBy(benches, counted);
  problems.push(...known.notes);
  const byName = new Map(benches.map((bench) => [bench.name, bench]));
  const missing: RegisterHead[] = [];
  const against: Registers['against'] = (head, place, whence) => {
    const problem = againstHead(byName.get(head.bench), head, place, whence, lost);
    if (!problem) return [];
    missing.push(head);
    return [problem];
  };
  for (const head of counted.seen)
    problems.push(...against(head, { file: KEYS_FILE }, storeWords('known-keys')));
  for (const head of knownHere(disk, root).heads)
    problems.push(...against(head, { file: benchFile(head.bench) }, storeWords('known-account')));
  return {
    ...known,
    problems,
    any: benches.length > 0 || counted.kept,
    entries: benches.reduce((sum, { lines }) => sum + lines, 0),
    against,
    lost: missing,
  };
}

const RESTORE = storeWords('register-restore');

/** The last signature of each key covers all lines before it, as these are chained. */
function signatureProblems(bench: string, entries: readonly BenchEntry[], counted: CountedKeys): Problem[] {
  const problems: Problem[] = [];
  const file = benchFile(bench);
  const own = counted.introduced.filter(({ of }) => of === bench);
  let signed = false;
  let told = false;
  for (const [i, entry] of entries.entries()) {
    const { n, signedBy } = entry;
    const place = { file, line: i + 1 };
    if (signedBy === undefined) {
      if (!told && (signed || own.some((key) => coversEntry(key, n)))) {
        told = true;
        problems.push(raise('verify.register-unsigned', { n, bench }, place));
      }
      continue;
    }
    signed = true;
    if (entries[i + 1]?.signedBy === signedBy) continue;
    const key = counted.keys.get(signedBy);
    if (key === undefined) problems.push(raise('verify.unknown-key', { signedBy }, place));
    else if ('not' in key) problems.push(uncounted(signedBy, key.not, place));
    else if (!isSignedBy(entry, key.pem)) problems.push(raise('verify.forged-chain', { signedBy }, place));
    else if (key.withdrawn && (key.withdrawn.bench !== bench || n > key.withdrawn.n))
      problems.push(raise('verify.key-withdrawn', { signedBy }, place));
  }
  return problems;
}

const coversEntry = ({ since, withdrawn }: IntroducedKey, n: number): boolean =>
  n > since && n <= (withdrawn?.n ?? Number.POSITIVE_INFINITY);

export const uncounted = (key: string, not: 'introduced' | 'trusted', place: Place): Problem =>
  not === 'trusted'
    ? raise('verify.untrusted-key', { key }, place)
    : raise('verify.key-not-introduced/signed', { key }, place);

/** Of each bench: numbers of entries that a named person accepted as lost, from and to. */
type Lost = ReadonlyMap<string, readonly { readonly from: number; readonly to: number }[]>;

function lostHeads(benches: readonly BenchRegister[], counted: CountedKeys): Lost {
  const lost = new Map<string, { from: number; to: number }[]>();
  for (const { name, entries } of benches)
    for (const entry of entries)
      if (entry.kind === 'restore-accepted' && hasWord(entry, name, counted))
        for (const head of entry.lost) {
          const reached = entry.seen.find(({ bench }) => bench === head.bench)?.n ?? 0;
          lost.set(head.bench, [...(lost.get(head.bench) ?? []), { from: reached + 1, to: head.n }]);
        }
  return lost;
}

function againstHead(
  bench: BenchRegister | undefined,
  head: RegisterHead,
  place: Place,
  whence: Message,
  lost: Lost,
): Problem | undefined {
  const file = benchFile(head.bench);
  const there = bench?.entries[head.n - 1];
  if (there?.hash === head.hash) return undefined;
  // A break in its chain is told by itself, and what stands behind it cannot be read.
  if (bench && bench.entries.length < bench.lines && head.n <= bench.lines) return undefined;
  if (lost.get(head.bench)?.some(({ from, to }) => head.n >= from && head.n <= to)) return undefined;
  if (!bench || bench.lines === 0)
    return raise('verify.register-gone/names', { whence, head: head.n, file }, place);
  return there
    ? raise('verify.register-anew', { whence, head: head.n, file }, place)
    : raise('verify.register-cut', { whence, head: head.n, file, lines: bench.lines }, place);
}
