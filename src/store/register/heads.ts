/** What the registers say of each journal, and whether what is there agrees. */

import { type Place, type Problem, problemFactory } from '../../base/problem.js';
import { utcText } from '../../base/wallclock.js';
import { Several } from '../../base/words.js';
import { checkLine } from '../../unit/chain.js';
import type { Disk } from '../disk.js';
import { attempt } from '../files.js';
import { VERIFY_MESSAGES } from '../verifymessages.js';
import { storeWords } from '../words.js';
import { type BenchEntry, benchEntryWrong, type Reached } from './entries.js';
import { type CountedKeys, countedKeys } from './keys.js';
import { benchFile, benchPlace, registered } from './place.js';

const raise = problemFactory(VERIFY_MESSAGES);

/** How far a journal had come, and where that stands. */
export interface Expected {
  readonly events: number;
  readonly hash: string;
  readonly at: string;
  readonly place: Place;
}

/** A seal of a job that must be there as it was. */
interface ExpectedSeal {
  readonly file: string;
  readonly sha256: string;
  readonly place: Place;
}

/** A register as far as its chain holds. */
export interface BenchRegister {
  readonly name: string;
  readonly entries: readonly BenchEntry[];
  readonly lines: number;
}

/**
 * Whether the entry may set aside what others say: signed by a key that counts, or made before the workshop had keys.
 */
export const hasWord = (
  { signedBy, n }: BenchEntry,
  bench: string,
  { kept, keys, unsignedTo }: CountedKeys,
): boolean => {
  if (!kept || unsignedTo.some((head) => head.bench === bench && n <= head.n)) return true;
  const key = keys.get(signedBy ?? '');
  return key !== undefined && 'pem' in key;
};

/** What registers know of journals and seals. */
export interface KnownHeads {
  /** By file, fewest events first. */
  readonly expected: ReadonlyMap<string, readonly Expected[]>;
  /** Seals of jobs that must be there as they were. */
  readonly seals: readonly ExpectedSeal[];
  /** Restores that were accepted. */
  readonly notes: readonly Problem[];
  /** When the file was archived and taken away. */
  readonly removed: ReadonlyMap<string, string>;
  /** A line of this file was known before its bench's key counted: when the registers were begun, or unsigned. */
  knewUnsigned(file: string, line: number, bench: string): boolean;
  /** Before the key was withdrawn, its register knew the file with so many lines, or whole with this hash. */
  knewBy(
    withdrawn: Reached,
    file: string,
    what: { readonly line?: number; readonly sha256?: string },
  ): boolean;
}

/** An entry that sets aside what was said of these files by then. */
interface Aside {
  readonly bench: string;
  readonly n: number;
  readonly files: ReadonlySet<string>;
  readonly seen: ReadonlyMap<string, number>;
}

/** What still counts of these entries. */
export function knownBy(benches: readonly BenchRegister[], counted: CountedKeys): KnownHeads {
  const notes: Problem[] = [];
  const asides: Aside[] = [];
  const removed = new Map<string, string>();
  for (const { name, entries } of benches)
    for (const entry of entries) {
      if (!ASIDE.has(entry.kind) || !hasWord(entry, name, counted)) continue;
      const { kind, seen: reached } = entry as AsideEntry;
      const files = filesOf(entry as AsideEntry);
      // A bench sets aside only its own entries where it branched off: what others entered is of the shop's journal.
      const seen = new Map(kind === 'branched' ? [] : reached.map(({ bench, n }) => [bench, n]));
      asides.push({ bench: name, n: entry.n, files: new Set(files), seen });
      if (entry.kind === 'restore-accepted') notes.push(acceptedNote(name, entry));
      else if (entry.kind === 'branched') notes.push(branchNote(name, entry));
      else for (const file of files) removed.set(file, entry.at);
    }
  const isAside = (file: string, bench: string, n: number): boolean =>
    asides.some(
      (aside) =>
        aside.files.has(file) && n < (aside.bench === bench ? aside.n : (aside.seen.get(bench) ?? 0) + 1),
    );
  const expected = new Map<string, Expected[]>();
  const seals: ExpectedSeal[] = [];
  for (const { name, entries } of benches)
    for (const entry of entries) {
      if (!('heads' in entry) || (entry.kind !== 'heads' && !hasWord(entry, name, counted))) continue;
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
  const heads = (wanted: (entry: HeadsEntry, name: string) => boolean) =>
    benches.some(({ name, entries }) =>
      entries.some((entry) => entry.kind === 'heads' && wanted(entry, name)),
    );
  return {
    expected,
    seals,
    notes,
    removed,
    knewUnsigned: (file, line, bench) =>
      heads(
        (entry, name) =>
          ((entry.on === 'begun' && hasWord(entry, name, counted)) ||
            (name === bench && isBeforeKeys(entry, bench, counted))) &&
          hasLine(entry, file, line),
      ),
    knewBy: ({ bench, n }, file, { line = Number.POSITIVE_INFINITY, sha256 }) =>
      heads(
        (entry, name) =>
          name === bench &&
          entry.n <= n &&
          (hasLine(entry, file, line) || entry.files?.some((each) => each.sha256 === sha256) === true),
      ),
  };
}

type HeadsEntry = Extract<BenchEntry, { kind: 'heads' }>;
type AsideEntry = Extract<BenchEntry, { kind: 'restore-accepted' | 'removed' | 'branched' }>;
const ASIDE: ReadonlySet<BenchEntry['kind']> = new Set(['restore-accepted', 'removed', 'branched']);

function filesOf(entry: AsideEntry): readonly string[] {
  if (entry.kind === 'removed') return entry.files;
  return entry.kind === 'branched' ? [entry.file] : entry.heads.map(({ file }) => file);
}

const branchNote = (bench: string, entry: Extract<BenchEntry, { kind: 'branched' }>): Problem =>
  raise(
    'verify.branched',
    { at: entry.at.slice(0, 10), bench, entry: entry.file, common: entry.common, branch: entry.branch },
    { file: benchFile(bench), line: entry.n },
  );

const hasLine = ({ heads }: HeadsEntry, file: string, line: number): boolean =>
  heads.some((head) => head.file === file && head.events >= line);

const isBeforeKeys = ({ signedBy, n }: BenchEntry, bench: string, { introduced }: CountedKeys): boolean =>
  signedBy === undefined && introduced.some(({ of, since }) => of === bench && n <= since);

const acceptedNote = (bench: string, entry: Extract<BenchEntry, { kind: 'restore-accepted' }>): Problem =>
  raise(
    'verify.restore-accepted',
    {
      day: entry.at.slice(0, 10),
      by: entry.by,
      reason: entry.reason,
      lost: new Several([
        ...(entry.heads.length === 0 ? [] : [entry.heads.map(({ file }) => file).join(', ')]),
        ...(entry.lost.length > 0
          ? [storeWords('lost-entries', { benches: entry.lost.map(({ bench }) => bench) })]
          : entry.heads.length > 0
            ? []
            : [storeWords('lost-none')]),
      ]),
    },
    { file: benchFile(bench), line: entry.n },
  );

/**
 * What the registers know of one journal, from the entries that name it: a register grows for years. Their chains are not
 * looked at: where one is broken, `verify` says so. Nothing is known where a register cannot be read.
 * @param registers as they were read for other journals before, where many are asked about in a row
 */
export const knownOf = (
  disk: Disk,
  root: string,
  file: string,
  counted = countedKeys(disk, root),
  registers = new RegisterTexts(disk, root),
): KnownHeads => knownBy(registers.of(file), counted);

/** The registers of all benches as they are now. */
export class RegisterTexts {
  readonly #benches: { readonly name: string; readonly bytes: Buffer }[] = [];
  #asked = 0;
  /** Where the lines begin that name a file, by bench; made when it is known that several are asked about. */
  #starts: readonly ReadonlyMap<string, readonly number[]>[] | undefined;

  constructor(disk: Disk, root: string) {
    attempt(() => {
      for (const name of registered(disk, root)) {
        const place = benchPlace(root, name);
        if (!place.ok || disk.stat(place.value.file)?.kind !== 'file') continue;
        this.#benches.push({ name, bytes: disk.read(place.value.file) });
      }
    });
  }

  of(file: string): BenchRegister[] {
    this.#asked++;
    if (this.#asked > 1) this.#starts ??= this.#benches.map(({ bytes }) => startsByFile(bytes));
    return this.#benches.map(({ name, bytes }, i) => {
      const starts = this.#starts ? (this.#starts[i]!.get(file) ?? []) : startsWith(bytes, file);
      const entries = starts.flatMap((from) => entryAt(bytes, from) ?? []);
      return { name, entries, lines: entries.length };
    });
  }
}

function startsByFile(bytes: Buffer): ReadonlyMap<string, readonly number[]> {
  const starts = new Map<string, number[]>();
  for (let from = 0, end = bytes.indexOf(0x0a); end >= 0; from = end + 1, end = bytes.indexOf(0x0a, from))
    for (const [, file] of bytes.toString('utf8', from, end).matchAll(/"file":("(?:[^"\\]|\\.)*")/g)) {
      const name = JSON.parse(file!) as string;
      const known = starts.get(name);
      if (!known) starts.set(name, [from]);
      else if (known.at(-1) !== from) known.push(from);
    }
  return starts;
}

function startsWith(bytes: Buffer, file: string): number[] {
  const part = Buffer.from(JSON.stringify(file));
  const starts: number[] = [];
  for (let at = bytes.indexOf(part); at >= 0; ) {
    starts.push(bytes.lastIndexOf(0x0a, at) + 1);
    const end = bytes.indexOf(0x0a, at);
    if (end < 0) break;
    at = bytes.indexOf(part, end);
  }
  return starts;
}

/** A line that has no end, or is no entry, says nothing. */
function entryAt(bytes: Buffer, from: number): BenchEntry | undefined {
  const end = bytes.indexOf(0x0a, from);
  if (end < 0) return undefined;
  const line = checkLine(bytes.toString('utf8', from, end));
  return line.whole && benchEntryWrong(line.event) === undefined
    ? (line.event as unknown as BenchEntry)
    : undefined;
}

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
  const knows = storeWords('head-known', {
    place: last.place.file,
    line: last.place.line ?? 0,
    n: last.events,
    when: day(last),
  });
  if (!now) return raise('verify.journal-gone', { file, knows }, { file });
  if (now.lines === 0) return raise('verify.journal-emptied', { knows }, { file });
  const other = expected.find(({ events, hash }) => events <= now.lines && now.hashes.get(events) !== hash);
  const kept = expected.findLast(
    ({ events, hash }) => now.hashes.get(events) === hash && (!other || events < other.events),
  );
  if (other && !kept)
    return raise(
      'verify.journal-born-again',
      { events: other.events, place: other.place.file, line: other.place.line ?? 0 },
      { file, line: other.events },
    );
  if (other && kept)
    return raise(
      'verify.journal-anew',
      { events: kept.events, events2: other.events, place: other.place.file, line: other.place.line ?? 0 },
      { file, line: other.events },
    );
  if (now.lines >= last.events) return undefined;
  return kept?.events === now.lines
    ? raise(
        'verify.journal-put-back',
        { when: day(kept), lines: now.lines, knows },
        { file, line: now.lines },
      )
    : raise(
        'verify.journal-cut',
        { lines: now.lines, knows },
        {
          file,
          line: now.lines,
        },
      );
}

const day = ({ at }: Expected): string => utcText(at);
