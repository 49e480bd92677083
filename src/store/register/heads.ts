/** What the registers say of each journal, and whether what is there agrees. */
import { type Place, type Problem, problemFactory } from '../../base/problem.js';
import { checkLine } from '../../unit/chain.js';
import type { RegisterHead } from '../../unit/events.js';
import type { Disk } from '../disk.js';
import { attempt } from '../files.js';
import { VERIFY_MESSAGES } from '../messages.js';
import { knownHere } from './account.js';
import { type BenchEntry, benchEntryWrong, isSignedBy, type Reached } from './entries.js';
import { type CountedKeys, countedKeys, type IntroducedKey, type KeyStanding, keyOfBench } from './keys.js';
import { benchFile, benchPlace, KEYS_FILE, registered } from './place.js';
import { type RegisterFault, readRegister } from './read.js';

const raise = problemFactory(VERIFY_MESSAGES);

/** How far a journal had come, and where that stands. */
export interface Expected {
  readonly events: number;
  readonly hash: string;
  readonly at: string;
  readonly place: Place;
}

export interface Registers {
  /** What is wrong with them, or worth knowing. */
  readonly problems: readonly Problem[];
  /** Any register is there. */
  readonly any: boolean;
  /** By file, fewest events first. */
  readonly expected: ReadonlyMap<string, readonly Expected[]>;
  /** Seals of jobs that must be there as they were. */
  readonly seals: readonly { readonly file: string; readonly sha256: string; readonly place: Place }[];
  /** Entries of all registers. */
  readonly entries: number;
  /** Those of which `against` said that they are not there. */
  readonly lost: readonly RegisterHead[];
  /** What is wrong where this head is known from elsewhere; undefined if it stands there. */
  against(head: RegisterHead, place: Place, whence: string): Problem[];
  /** A line of this file was known before its bench's key counted: when the registers were begun, or unsigned. */
  knewUnsigned(file: string, line: number, bench: string): boolean;
  /** When the file was archived and taken away. */
  readonly removed: ReadonlyMap<string, string>;
  /** Before the key was withdrawn, its register knew the file with so many lines, or whole with this hash. */
  knewBy(
    withdrawn: Reached,
    file: string,
    what: { readonly line?: number; readonly sha256?: string },
  ): boolean;
}

interface Bench {
  readonly name: string;
  readonly entries: readonly BenchEntry[];
  readonly lines: number;
}

export function readRegisters(disk: Disk, root: string, counted: CountedKeys): Registers {
  const problems: Problem[] = [...chainProblems(counted.faults, KEYS_FILE), ...counted.problems];
  const benches: Bench[] = [];
  for (const name of registered(disk, root)) {
    const place = benchPlace(root, name);
    const read = place.ok ? readRegister<BenchEntry>(disk, place.value, benchEntryWrong) : undefined;
    if (!read) continue;
    problems.push(...chainProblems(read.faults, benchFile(name)));
    const [first] = read.entries;
    if (first && (first.kind !== 'register-begun' || first.of !== name))
      problems.push(
        raise('verify.not-opened', 'It does not begin as the register of that bench.', {
          file: benchFile(name),
          line: 1,
        }),
      );
    problems.push(...signatureProblems(name, read.entries, counted));
    benches.push({ name, entries: read.entries, lines: read.lines });
  }
  const isSigned = benches.some(({ entries }) => entries.some(({ signedBy }) => signedBy !== undefined));
  if (counted.gone || (!counted.kept && isSigned))
    problems.push(raise('verify.register-gone', 'The register of keys is not there.', { file: KEYS_FILE }));
  const lost = lostHeads(benches, counted);
  const { expected, seals, notes } = gathered(benches, counted);
  problems.push(...notes);
  const byName = new Map(benches.map((bench) => [bench.name, bench]));
  const missing: RegisterHead[] = [];
  const against: Registers['against'] = (head, place, whence) => {
    const problem = againstHead(byName.get(head.bench), head, place, whence, lost);
    if (!problem) return [];
    missing.push(head);
    return [problem];
  };
  for (const head of counted.unsignedTo)
    problems.push(...against(head, { file: KEYS_FILE }, 'The register of keys'));
  for (const head of knownHere(disk, root).heads)
    problems.push(...against(head, { file: benchFile(head.bench) }, 'What this account knows'));
  return {
    problems,
    any: benches.length > 0 || counted.kept,
    expected,
    seals,
    entries: benches.reduce((sum, { lines }) => sum + lines, 0),
    against,
    lost: missing,
    removed: new Map(
      benches.flatMap(({ name, entries }) =>
        entries.flatMap((entry) =>
          entry.kind === 'removed' && hasWord(entry, name, counted)
            ? entry.files.map((file) => [file, entry.at] as const)
            : [],
        ),
      ),
    ),
    knewUnsigned: (file, line, bench) =>
      benches.some(({ name, entries }) =>
        entries.some(
          (entry) =>
            entry.kind === 'heads' &&
            (entry.on === 'begun' || (name === bench && entry.signedBy === undefined)) &&
            entry.heads.some((head) => head.file === file && head.events >= line),
        ),
      ),
    knewBy: (withdrawn, file, { line = Number.POSITIVE_INFINITY, sha256 }) =>
      (byName.get(withdrawn.bench)?.entries ?? []).some(
        (entry) =>
          entry.n <= withdrawn.n &&
          entry.kind === 'heads' &&
          (entry.heads.some((head) => head.file === file && head.events >= line) ||
            entry.files?.some((each) => each.sha256 === sha256)),
      ),
  };
}

const CHAIN_IDS: Record<RegisterFault['kind'], keyof typeof VERIFY_MESSAGES> = {
  changed: 'verify.changed-line',
  missing: 'verify.missing-line',
  're-ordered': 'verify.re-ordered-line',
  repeated: 'verify.repeated-line',
  broken: 'verify.broken-chain',
  unknown: 'verify.unknown-event',
  torn: 'verify.torn-end',
  'not-a-file': 'verify.not-a-file',
  unreadable: 'verify.unreadable',
};

export const chainProblems = (faults: readonly RegisterFault[], file: string): Problem[] =>
  faults.map(({ kind, line, text }) =>
    raise(CHAIN_IDS[kind], text, { file, line }, file.startsWith('register/') ? RESTORE : undefined),
  );

const RESTORE =
  'Restore the register from a copy, and ask who changed it. A torn end is set aside with the next entry.';

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
        problems.push(
          raise('verify.register-unsigned', `Entry ${n} carries no signature, though ${bench} signs.`, place),
        );
      }
      continue;
    }
    signed = true;
    if (entries[i + 1]?.signedBy === signedBy) continue;
    const key = counted.keys.get(signedBy);
    if (key === undefined)
      problems.push(
        raise('verify.unknown-key', `Signed with key ${signedBy}, which is not under shared/keys.`, place),
      );
    else if ('not' in key) problems.push(uncounted(signedBy, key.not, place));
    else if (!isSignedBy(entry, key.pem))
      problems.push(
        raise('verify.forged-chain', `Key ${signedBy} did not sign the entries up to this one.`, place),
      );
    else if (key.withdrawn && (key.withdrawn.bench !== bench || n > key.withdrawn.n))
      problems.push(
        raise('verify.key-withdrawn', `Key ${signedBy} was withdrawn before it signed this.`, place),
      );
  }
  return problems;
}

const coversEntry = ({ since, withdrawn }: IntroducedKey, n: number): boolean =>
  n > since && n <= (withdrawn?.n ?? Number.POSITIVE_INFINITY);

export const uncounted = (key: string, not: 'introduced' | 'trusted', place: Place): Problem =>
  not === 'trusted'
    ? raise('verify.untrusted-key', `Signed with key ${key}, which has no fingerprint given here.`, place)
    : raise('verify.key-not-introduced', `Signed with key ${key}, which no register introduces.`, place);

/**
 * Whether the entry may set aside what others say: signed by a key that counts, or made before the workshop had keys.
 */
const hasWord = (
  { signedBy, n }: BenchEntry,
  bench: string,
  { kept, keys, unsignedTo }: CountedKeys,
): boolean => {
  if (!kept || unsignedTo.some((head) => head.bench === bench && n <= head.n)) return true;
  const key = keys.get(signedBy ?? '');
  return key !== undefined && 'pem' in key;
};

/** Of each bench: numbers of entries that a named person accepted as lost, from and to. */
type Lost = ReadonlyMap<string, readonly { readonly from: number; readonly to: number }[]>;

function lostHeads(benches: readonly Bench[], counted: CountedKeys): Lost {
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
  bench: Bench | undefined,
  head: RegisterHead,
  place: Place,
  whence: string,
  lost: Lost,
): Problem | undefined {
  const file = benchFile(head.bench);
  const there = bench?.entries[head.n - 1];
  if (there?.hash === head.hash) return undefined;
  // A break in its chain is told by itself, and what stands behind it cannot be read.
  if (bench && bench.entries.length < bench.lines && head.n <= bench.lines) return undefined;
  if (lost.get(head.bench)?.some(({ from, to }) => head.n >= from && head.n <= to)) return undefined;
  if (!bench || bench.lines === 0)
    return raise(
      'verify.register-gone',
      `${whence} names entry ${head.n} of ${file}, which is not there.`,
      place,
    );
  return there
    ? raise(
        'verify.register-anew',
        `${whence} names entry ${head.n} of ${file}, which is another there: it was written anew.`,
        place,
      )
    : raise(
        'verify.register-cut',
        `${whence} names entry ${head.n} of ${file}, which ends with entry ${bench.lines}: it was cut, or an older copy was put back.`,
        place,
      );
}

/**
 * What the registers know of one journal, from the entries that name it. Their chains are not looked at: where one is
 * broken, `verify` says so. Empty where a register cannot be read.
 */
export function expectedHeads(disk: Disk, root: string, file: string): readonly Expected[] {
  const benches: Bench[] = [];
  const named = Buffer.from(JSON.stringify(file));
  attempt(() => {
    for (const name of registered(disk, root)) {
      const place = benchPlace(root, name);
      if (!place.ok || disk.stat(place.value.file)?.kind !== 'file') continue;
      const entries = linesWith(disk.read(place.value.file), named);
      benches.push({ name, entries, lines: entries.length });
    }
  });
  return gathered(benches, countedKeys(disk, root)).expected.get(file) ?? [];
}

function linesWith(bytes: Buffer, part: Buffer): BenchEntry[] {
  const entries: BenchEntry[] = [];
  for (let at = bytes.indexOf(part); at >= 0; ) {
    const from = bytes.lastIndexOf(0x0a, at) + 1;
    const end = bytes.indexOf(0x0a, at);
    if (end < 0) break;
    const line = checkLine(bytes.subarray(from, end).toString('utf8'));
    if (line.whole && benchEntryWrong(line.event) === undefined)
      entries.push(line.event as unknown as BenchEntry);
    at = bytes.indexOf(part, end);
  }
  return entries;
}

interface Gathered extends Pick<Registers, 'expected' | 'seals'> {
  readonly notes: readonly Problem[];
}

/** An entry that sets aside what was said of these files by then. */
interface Aside {
  readonly bench: string;
  readonly n: number;
  readonly files: ReadonlySet<string>;
  readonly seen: ReadonlyMap<string, number>;
}

function gathered(benches: readonly Bench[], counted: CountedKeys): Gathered {
  const notes: Problem[] = [];
  const asides: Aside[] = [];
  for (const { name, entries } of benches)
    for (const entry of entries) {
      if ((entry.kind !== 'restore-accepted' && entry.kind !== 'removed') || !hasWord(entry, name, counted))
        continue;
      const files = entry.kind === 'removed' ? entry.files : entry.heads.map(({ file }) => file);
      const seen = new Map(entry.seen.map(({ bench, n }) => [bench, n]));
      asides.push({ bench: name, n: entry.n, files: new Set(files), seen });
      if (entry.kind === 'restore-accepted') notes.push(acceptedNote(name, entry));
    }
  const isAside = (file: string, bench: string, n: number): boolean =>
    asides.some(
      (aside) =>
        aside.files.has(file) && n < (aside.bench === bench ? aside.n : (aside.seen.get(bench) ?? 0) + 1),
    );
  const expected = new Map<string, Expected[]>();
  const seals: { file: string; sha256: string; place: Place }[] = [];
  for (const { name, entries } of benches)
    for (const entry of entries) {
      if (entry.kind !== 'heads' && !(entry.kind === 'restore-accepted' && hasWord(entry, name, counted)))
        continue;
      const place = { file: benchFile(name), line: entry.n };
      for (const { file, events, hash } of entry.heads) {
        if (events === 0 || isAside(file, name, entry.n)) continue;
        const list = expected.get(file) ?? [];
        expected.set(file, list);
        list.push({ events, hash, at: entry.at, place });
      }
      for (const { file, sha256 } of (entry.kind === 'heads' && entry.files) || [])
        if (!isAside(file, name, entry.n)) seals.push({ file, sha256, place });
    }
  for (const list of expected.values()) list.sort((a, b) => a.events - b.events);
  return { expected, seals, notes };
}

const acceptedNote = (bench: string, entry: Extract<BenchEntry, { kind: 'restore-accepted' }>): Problem =>
  raise(
    'verify.restore-accepted',
    `On ${entry.at.slice(0, 10)} ${entry.by} accepted what a restore had left (${entry.reason}): ${entry.heads.length === 0 ? '' : `${entry.heads.map(({ file }) => file).join(', ')}; `}${entry.lost.length === 0 ? 'no entries' : `entries of ${entry.lost.map(({ bench }) => bench).join(', ')}`} were lost.`,
    { file: benchFile(bench), line: entry.n },
  );

/** A unit that a bench closed which signs, and no signature is there: it was cut off, or the bench never closed it. */
export const unsignedFaults = (
  ends: readonly (readonly [bench: string, line: number])[],
  file: string,
  { introduced }: Pick<CountedKeys, 'introduced'>,
  registers: Pick<Registers, 'knewUnsigned'>,
): Problem[] =>
  ends.flatMap(([bench, line]) =>
    keyOfBench(introduced, bench) && !registers.knewUnsigned(file, line, bench)
      ? [
          raise(
            'verify.signature-missing',
            `Line ${line} closes the unit at ${bench}, which signs, and no signature follows.`,
            {
              file,
              line,
            },
          ),
        ]
      : [],
  );

/** A signature that its key made after it was withdrawn. */
export const lateSignature = (
  standing: KeyStanding | undefined,
  key: string,
  registers: Pick<Registers, 'knewBy'>,
  place: Place,
  sha256?: string,
): Problem[] => {
  if (!standing || 'not' in standing || !standing.withdrawn) return [];
  const { line } = place;
  const what = { ...(line === undefined ? {} : { line }), ...(sha256 === undefined ? {} : { sha256 }) };
  return registers.knewBy(standing.withdrawn, place.file, what)
    ? []
    : [
        raise(
          'verify.key-withdrawn',
          `Key ${key} was withdrawn before any register knew this signature.`,
          place,
        ),
      ];
};

const counts = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;

/** A journal as it is now: its number of lines, and the hash of each that was asked for. */
export interface JournalNow {
  readonly lines: number;
  readonly hashes: ReadonlyMap<number, string>;
}

/** What was done to a journal since the registers saw it; undefined if it only grew. @param now undefined: not there */
export function headProblem(
  file: string,
  expected: readonly Expected[],
  now: JournalNow | undefined,
): Problem | undefined {
  const last = expected.at(-1);
  if (!last) return undefined;
  const knows = `${last.place.file} line ${last.place.line} knows ${counts(last.events, 'line')} of it, on ${day(last)}`;
  if (!now) return raise('verify.journal-gone', `${file} is not there. ${knows}.`, { file });
  if (now.lines === 0) return raise('verify.journal-emptied', `The journal is empty. ${knows}.`, { file });
  const other = expected.find(({ events, hash }) => events <= now.lines && now.hashes.get(events) !== hash);
  const kept = expected.findLast(
    ({ events, hash }) => now.hashes.get(events) === hash && (!other || events < other.events),
  );
  if (other && !kept)
    return raise(
      'verify.journal-born-again',
      `The journal is another: line ${other.events} is not the one that ${other.place.file} line ${other.place.line} knows.`,
      { file, line: other.events },
    );
  if (other && kept)
    return raise(
      'verify.journal-anew',
      `Between lines ${kept.events} and ${other.events} the journal was written anew: ${other.place.file} line ${other.place.line} knows another line ${other.events}.`,
      { file, line: other.events },
    );
  if (now.lines >= last.events) return undefined;
  return kept?.events === now.lines
    ? raise(
        'verify.journal-put-back',
        `The journal is as it was on ${day(kept)}, with ${counts(now.lines, 'line')}. ${knows}.`,
        { file, line: now.lines },
      )
    : raise('verify.journal-cut', `The journal has ${counts(now.lines, 'line')}. ${knows}.`, {
        file,
        line: now.lines,
      });
}

const day = ({ at }: Expected): string => `${at.slice(0, 16).replace('T', ' ')} UTC`;
