/** Entries of a bench's register: how far journals have come. The journal's own lines are durable before. */
import { dirname, join } from 'node:path';
import { err, ok, type Problem, type Result } from '../../base/problem.js';
import { FIRST_PREV, type Stamp } from '../../unit/chain.js';
import type { RegisterHead } from '../../unit/events.js';
import { benchJournals } from '../benchjournals.js';
import { type Disk, diskProblem, storeProblem } from '../disk.js';
import { attempt } from '../files.js';
import { listJournals } from '../journals.js';
import { type BenchKey, publicKeys } from '../key.js';
import { DAYBOOK, type JournalPlace, SETUP_JOURNAL, SIGNOFF_JOURNAL } from '../paths.js';
import { storeWords } from '../words.js';
import { keepFirstKeyHere, keepHeadHere, knownHere } from './account.js';
import { appendToRegister } from './append.js';
import { type BenchBody, benchEntryWrong, type Head, isSignedBy, type Reached } from './entries.js';
import { countedKeys, keysBefore } from './keys.js';
import { BENCHES, benchPlace, type RegisterEnd, readEnd, registered, registerHeads } from './place.js';
import { beginKeys, hasKeys, signingKey } from './signing.js';
import { readBench } from './whole.js';

/** Heads in one line: a line stays well below what is read back at once. */
const MOST = 200;

/**
 * Writes entries into the bench's register, signed where its key counts, and begins it where there is none; durable once
 * ok. Nothing is written where the bench has a key that cannot be used: what is not signed would count for a fault.
 * @param accepted a named person accepts that the register may be another than this account knows
 */
export function enter(
  disk: Disk,
  root: string,
  stamp: Stamp,
  bodies: readonly BenchBody[],
  { accepted = false } = {},
): Result<RegisterHead> {
  const { bench } = stamp;
  const place = benchPlace(root, bench);
  if (!place.ok) return place;
  const signer = signingKey(disk, root, bench);
  if (!signer.ok) return signer;
  const key = signer.value;
  try {
    const wrong = accepted ? undefined : notTheOne(disk, root, bench, place.value, key);
    if (wrong) return err(wrong);
    const begun = key ? beginKeys(disk, root, key, stamp) : ok(false);
    if (!begun.ok) return begun;
    const wrote = appendToRegister(
      disk,
      root,
      { place: place.value, folders: BENCHES, wrongWith: benchEntryWrong, stamp, signer: key },
      (end) => (end?.hash === undefined ? [...beginning(disk, root, bench), ...bodies] : bodies),
    );
    if (!wrote.ok) return wrote;
    const head = { bench, n: wrote.value!.n, hash: wrote.value!.hash };
    keepHeadHere(disk, root, head);
    meetFirstKey(disk, root);
    return ok(head);
  } catch (error) {
    return err(diskProblem(error, place.value.shown, storeWords('while-register-written')));
  }
}

/** An account that works here for the first time takes the workshop's first key as it finds it. */
function meetFirstKey(disk: Disk, root: string): void {
  if (!hasKeys(disk, root) || knownHere(disk, root).firstKeys.length > 0) return;
  const { first } = countedKeys(disk, root);
  if (first !== undefined) keepFirstKeyHere(disk, root, first);
}

/** Another entry would hide that the register is not the one that this account left, or that nobody vouches for it. */
function notTheOne(
  disk: Disk,
  root: string,
  bench: string,
  place: JournalPlace,
  key: BenchKey | undefined,
): Problem | undefined {
  const end = readEnd(disk, place);
  if (!end.ok) return end.problems[0];
  const known = knownHere(disk, root).heads.find((head) => head.bench === bench);
  if (known && !stands(disk, root, known, end.value))
    return storeProblem(
      'register.gone',
      { known: known.n },
      {
        file: place.shown,
      },
    );
  if (!key || !end.value?.entry || isVouched(disk, root, bench, end.value.entry)) return undefined;
  return storeProblem(
    'register.damaged',
    {},
    {
      file: place.shown,
      line: end.value.n,
    },
  );
}

function stands(
  disk: Disk,
  root: string,
  known: RegisterHead,
  { n, hash }: Partial<RegisterEnd> = {},
): boolean {
  if (n === known.n) return hash === known.hash;
  // Another account wrote meanwhile, or a crash came between an entry and what is known of it.
  return (
    n !== undefined &&
    n > known.n &&
    readBench(disk, root, known.bench)?.entries[known.n - 1]?.hash === known.hash
  );
}

/** The last line covers all before it. What stands there from before the bench had a key is not signed. */
function isVouched(
  disk: Disk,
  root: string,
  bench: string,
  entry: NonNullable<RegisterEnd['entry']>,
): boolean {
  const { keys, introduced } = countedKeys(disk, root);
  const by = keys.get(String(entry.signedBy));
  if (by && 'pem' in by && isSignedBy(entry, by.pem)) return true;
  const own = introduced.filter(({ of }) => of === bench);
  return entry.signedBy === undefined && own.every(({ since }) => Number(entry.n) <= since);
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
  files.push(SETUP_JOURNAL, DAYBOOK, SIGNOFF_JOURNAL);
  attempt(() => files.push(...benchJournals(disk, root)));
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

/** How far a journal has come; undefined if it is not there, or its last line is not whole. */
export function headNow(disk: Disk, root: string, file: string): Head | undefined {
  const path = join(root, ...file.split('/'));
  const end = readEnd(disk, { file: path, folder: dirname(path), shown: file });
  const { n = 0, hash } = (end.ok && end.value) || {};
  return hash === undefined ? undefined : { file, events: n, hash };
}

/** As it stands in an acceptance where the journal is gone. */
export const noHead = (file: string): Head => ({ file, events: 0, hash: FIRST_PREV });

/** How far the registers have come. */
export const reachedNow = (disk: Disk, root: string): Reached[] =>
  registerHeads(disk, root).map(({ bench, n }) => ({ bench, n }));
