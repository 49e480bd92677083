/** Entries of a bench's register: how far journals have come. The journal's own lines are durable before. */
import { join } from 'node:path';
import { err, ok, type Problem, type Result } from '../../base/problem.js';
import { checkLine, FIRST_PREV, type Stamp } from '../../unit/chain.js';
import type { RegisterHead } from '../../unit/events.js';
import type { Signer } from '../../unit/sealing.js';
import { type Disk, diskProblem, storeProblem } from '../disk.js';
import { attempt } from '../files.js';
import { listJournals } from '../journals.js';
import { type BenchKey, publicKeys } from '../key.js';
import type { JournalPlace } from '../paths.js';
import { keepFirstKeyHere, keepHeadHere, knownHere } from './account.js';
import { appendToRegister } from './append.js';
import {
  type BenchBody,
  type BenchEntry,
  benchEntryWrong,
  type Head,
  isSignedBy,
  type Reached,
} from './entries.js';
import { countedKeys, keysBefore } from './keys.js';
import { BENCHES, benchPlace, readEnd, registered, registerHeads } from './place.js';
import { readRegister } from './read.js';
import { beginKeys, hasKeys, signingKey } from './signing.js';

/** Heads in one line: a line stays well below what is read back at once. */
const MOST = 200;

/**
 * Writes entries into the bench's register, signed where its key counts, and begins it where there is none; durable once
 * ok. Nothing is written where the bench has a key that cannot be used: what is not signed would count for a fault.
 */
export function enter(
  disk: Disk,
  root: string,
  stamp: Stamp,
  bodies: readonly BenchBody[],
): Result<RegisterHead> {
  const { bench } = stamp;
  const place = benchPlace(root, bench);
  if (!place.ok) return place;
  const key = signingKey(disk, root, bench);
  if (!key.ok) return key;
  try {
    return enterSigned(disk, root, stamp, bodies, key.value);
  } catch (error) {
    return err(diskProblem(error, place.value.shown, 'the register was written'));
  }
}

function enterSigned(
  disk: Disk,
  root: string,
  stamp: Stamp,
  bodies: readonly BenchBody[],
  key: BenchKey | undefined,
): Result<RegisterHead> {
  const { bench } = stamp;
  const place = benchPlace(root, bench);
  if (!place.ok) return place;
  const behind =
    putBack(disk, root, bench, place.value) ?? (key && unvouched(disk, root, bench, place.value));
  if (behind) return err(behind);
  if (key) {
    const begun = beginKeys(disk, root, key, stamp);
    if (!begun.ok) return begun;
  }
  const entered = enterAnyway(disk, root, stamp, bodies, key);
  if (entered.ok) meetFirstKey(disk, root);
  return entered;
}

/** An account that works here for the first time takes the workshop's first key as it finds it. */
function meetFirstKey(disk: Disk, root: string): void {
  if (!hasKeys(disk, root) || knownHere(disk, root).firstKeys.length > 0) return;
  const { first } = countedKeys(disk, root);
  if (first !== undefined) keepFirstKeyHere(disk, root, first);
}

/** The register is not the one that this account left: another entry now would hide that. */
function putBack(disk: Disk, root: string, bench: string, place: JournalPlace): Problem | undefined {
  const known = knownHere(disk, root).heads.find((head) => head.bench === bench);
  if (!known) return undefined;
  const end = readEnd(disk, place);
  if (!end.ok) return end.problems[0];
  const { n = 0, hash } = end.value ?? {};
  if (n === known.n && hash === known.hash) return undefined;
  // Another account wrote meanwhile, or a crash came between an entry and what is known of it.
  const there = n > known.n ? readRegister<BenchEntry>(disk, place, benchEntryWrong) : undefined;
  if (there?.entries[known.n - 1]?.hash === known.hash) return undefined;
  return storeProblem('register.gone', `This account knows entry ${known.n} of it, which is not there.`, {
    file: place.shown,
  });
}

/** The last line covers all before it: nothing is signed after one that no key that counts vouches for. */
function unvouched(disk: Disk, root: string, bench: string, place: JournalPlace): Problem | undefined {
  const end = readEnd(disk, place);
  const entry = end.ok ? end.value?.entry : undefined;
  if (!entry) return end.ok ? undefined : end.problems[0];
  const { keys, introduced } = countedKeys(disk, root);
  const own = introduced.filter(({ of }) => of === bench);
  const by = keys.get(String(entry.signedBy));
  const holds = by && 'pem' in by && isSignedBy(entry, by.pem);
  // What stands there from before the bench had a key is not signed.
  if (holds || (entry.signedBy === undefined && own.every(({ since }) => Number(entry.n) <= since)))
    return undefined;
  return storeProblem('register.damaged', 'The last entry is not signed by a key that counts.', {
    file: place.shown,
    line: Number(entry.n),
  });
}

/** As `enter`, though the register may be another than this account knows: a named person accepts that. */
export function enterAnyway(
  disk: Disk,
  root: string,
  stamp: Stamp,
  bodies: readonly BenchBody[],
  signer: Signer | undefined,
): Result<RegisterHead> {
  const { bench } = stamp;
  const place = benchPlace(root, bench);
  if (!place.ok) return place;
  const wrote = appendToRegister(
    disk,
    root,
    { place: place.value, folders: BENCHES, wrongWith: benchEntryWrong, stamp, signer },
    (end) => (end?.hash === undefined ? [...beginning(disk, root, bench), ...bodies] : bodies),
  );
  if (!wrote.ok) return wrote;
  const head = { bench, n: wrote.value!.n, hash: wrote.value!.hash };
  keepHeadHere(disk, root, head);
  return ok(head);
}

/** The first register of a workshop begins with all the journals that are there. */
function beginning(disk: Disk, root: string, bench: string): BenchBody[] {
  const program = typeof PINCHROD_VERSION === 'undefined' ? 'source' : PINCHROD_VERSION;
  const heads = registered(disk, root).some((each) => each !== bench) ? [] : headsNow(disk, root);
  const keys = hasKeys(disk, root) ? [] : keysBefore(disk, root, publicKeys(disk, root).keys);
  const entries: BenchBody[] = [{ kind: 'register-begun', of: bench, program, before: keys }];
  for (let i = 0; i < heads.length; i += MOST)
    entries.push({ kind: 'heads', on: 'begun', heads: heads.slice(i, i + MOST) });
  return entries;
}

/** Every journal of the workshop with its last whole line; one that cannot be read is left out, and `verify` names it. */
function headsNow(disk: Disk, root: string): Head[] {
  const files: string[] = [];
  attempt(() =>
    files.push(
      ...listJournals(disk, root, undefined, []).map(({ job, unit }) => `logs/${job}/${unit}.jsonl`),
    ),
  );
  files.push('logs/setups.jsonl', 'practice/signoff.jsonl');
  attempt(() => {
    const people = join(root, 'practice', 'people');
    if (disk.stat(people)?.kind === 'folder')
      files.push(
        ...disk
          .list(people)
          .filter((name) => name.endsWith('.jsonl'))
          .map((name) => `practice/people/${name}`),
      );
  });
  return files.flatMap((file) => headNow(disk, root, file) ?? []);
}

/** How far a journal has come; undefined if it is not there, or holds no whole line. */
export function headNow(disk: Disk, root: string, file: string): Head | undefined {
  let head: Head | undefined;
  attempt(() => {
    const path = join(root, ...file.split('/'));
    if (disk.stat(path)?.kind !== 'file') return;
    const bytes = disk.read(path);
    const end = bytes.lastIndexOf(0x0a);
    if (end < 0) return;
    const line = checkLine(bytes.subarray(bytes.lastIndexOf(0x0a, end - 1) + 1, end).toString('utf8'));
    if (line.whole) head = { file, events: line.event.n, hash: line.event.hash };
  });
  return head;
}

/** As it stands in an acceptance where the journal is gone. */
export const noHead = (file: string): Head => ({ file, events: 0, hash: FIRST_PREV });

/** How far the registers have come. */
export const reachedNow = (disk: Disk, root: string): Reached[] =>
  registerHeads(disk, root).map(({ bench, n }) => ({ bench, n }));
