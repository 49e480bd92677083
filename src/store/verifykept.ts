/** Cross-checks what journals reference against the files kept by content: frozen sources and evidence. */
import { join } from 'node:path';
import { type Place, type Problem, problemFactory } from '../base/problem.js';
import { checkLine } from '../unit/chain.js';
import { daybookWrong } from '../unit/daybook.js';
import { type Envelope, type Evidence, type JournalEvent, textsNamed } from '../unit/events.js';
import { checkSignature, type SealedEvent, sealOver, unsealedEnd } from '../unit/sealing.js';
import { workshopJournals } from './benchjournals.js';
import { readChained } from './chained.js';
import { type Disk, diskProblem, isFileError } from './disk.js';
import { hashNamed } from './evidencename.js';
import { attempt, hashBytes } from './files.js';
import { namedInText } from './hashed.js';
import { type JobSeal, signedHash } from './jobseal.js';
import { LARGEST_JOURNAL } from './journal.js';
import { namesFolder, readName } from './names.js';
import { DAYBOOK, evidenceFolder, SETUP_JOURNAL, sourcesFolder } from './paths.js';
import { setupEventWrong } from './readjournal.js';
import type { JournalNow } from './register/heads.js';
import type { Keys } from './register/keys.js';
import { uncounted } from './register/registers.js';
import { chainProblems } from './verifychained.js';
import { VERIFY_MESSAGES } from './verifymessages.js';
import { storeWords } from './words.js';

const raise = problemFactory(VERIFY_MESSAGES);

/** What journals reference and where, for later checks. */
export interface NamedByJournals {
  readonly sources: Map<string, Place>;
  /** Files under logs/names, and whose names they hold. */
  readonly names: Map<string, { readonly id: string; readonly place: Place }>;
  /** By job, then by hash. */
  readonly evidence: Map<string, Map<string, { readonly evidence: Evidence; readonly place: Place }>>;
}

/** Returns the number checked. @param whole also report files that no journal references */
export function verifySources(
  disk: Disk,
  root: string,
  named: NamedByJournals,
  found: Problem[],
  whole: boolean,
): number {
  const folder = sourcesFolder(root);
  const there = new Set(disk.stat(folder) === undefined ? [] : entries(disk, folder, 'logs/sources', found));
  const setups = firstOffHashes(disk, root);
  // A Map's iteration takes in what is added on the way.
  for (const [hash, place] of named.sources) {
    const file = `logs/sources/${hash}`;
    if (!there.has(hash)) {
      found.push(raise('verify.source-missing', { file }, place));
      continue;
    }
    const bytes = readOrdinary(disk, join(folder, hash), file, found);
    if (bytes === undefined) continue;
    if (hashBytes(bytes) !== hash) {
      found.push(raise('verify.source-changed', {}, { file }));
      continue;
    }
    const { texts, names, firstOff } = namedInText(bytes);
    for (const each of texts) if (!named.sources.has(each)) named.sources.set(each, { file });
    for (const { id, hash: name } of names)
      if (!named.names.has(name)) named.names.set(name, { id, place: { file } });
    if (firstOff && !setups.has(firstOff.hash))
      found.push(raise('verify.setup-gone', { firstOff: firstOff.n }, place));
  }
  if (whole)
    for (const name of there)
      if (!named.sources.has(name) && !name.endsWith('.tmp'))
        found.push(raise('verify.source-unknown', {}, { file: `logs/sources/${name}` }));
  return named.sources.size;
}

/** Likewise for the names of people. An erased one is a note. */
export function verifyNames(
  disk: Disk,
  root: string,
  named: NamedByJournals,
  found: Problem[],
  whole: boolean,
): void {
  const folder = namesFolder(root);
  const there = new Set(disk.stat(folder) === undefined ? [] : entries(disk, folder, 'logs/names', found));
  for (const [hash, { id, place }] of named.names) {
    const file = `logs/names/${hash}`;
    if (!there.has(hash)) {
      found.push(raise('verify.name-missing', { file }, place));
      continue;
    }
    const bytes = readOrdinary(disk, join(folder, hash), file, found);
    const read = bytes && readName(bytes, hash);
    const name = read?.id === id ? read : undefined;
    if (bytes && !name) found.push(raise('verify.name-changed', {}, { file }));
    if (name && 'erased' in name)
      found.push(
        raise(
          'verify.name-erased',
          { name: name.id, erased: name.erased.slice(0, 10) },
          {
            file,
          },
        ),
      );
  }
  if (whole)
    for (const name of there)
      if (!named.names.has(name) && !name.endsWith('.tmp'))
        found.push(raise('verify.name-unknown', {}, { file: `logs/names/${name}` }));
}

/** Likewise for one job's evidence. */
export function verifyEvidence(
  disk: Disk,
  root: string,
  job: string,
  named: NamedByJournals,
  found: Problem[],
  whole: boolean,
): number {
  const folder = evidenceFolder(root, job);
  const shown = `logs/${job}/evidence`;
  const there = disk.stat(folder) === undefined ? [] : entries(disk, folder, shown, found);
  const files = new Map(there.map((name) => [hashNamed(name) ?? name, name] as const));
  const ofJob = named.evidence.get(job) ?? new Map<string, { evidence: Evidence; place: Place }>();
  for (const [hash, { evidence, place }] of ofJob) {
    const name = files.get(hash);
    if (name === undefined) {
      found.push(raise('verify.evidence-missing', { evidence: evidence.name, hash }, place));
      continue;
    }
    const bytes = readOrdinary(disk, join(folder, name), `${shown}/${name}`, found);
    if (bytes !== undefined && hashBytes(bytes) !== hash)
      found.push(
        raise(
          'verify.evidence-changed',
          { evidence: evidence.name },
          {
            file: `${shown}/${name}`,
          },
        ),
      );
  }
  if (whole)
    // Of two names for one hash, one is of nobody.
    for (const name of there)
      if (
        !(ofJob.has(hashNamed(name) ?? '') && files.get(hashNamed(name)!) === name) &&
        !name.endsWith('.tmp')
      )
        found.push(raise('verify.evidence-unknown', {}, { file: `${shown}/${name}` }));
  return ofJob.size;
}

// Reads for `verify`: an unreadable file is a finding like any other.

export function entries(disk: Disk, path: string, shown: string, found: Problem[]): string[] {
  try {
    return disk.stat(path) === undefined ? [] : disk.list(path);
  } catch (error) {
    found.push(unreadable(error, shown));
    return [];
  }
}

export function readOrdinary(
  disk: Disk,
  path: string,
  file: string,
  found: Problem[],
  largest = Number.POSITIVE_INFINITY,
): Buffer | undefined {
  try {
    const stat = disk.stat(path);
    if (stat?.kind === 'file' && stat.size <= largest) return disk.read(path);
    const fault =
      stat?.kind === 'file' ? storeWords('file-bytes', { bytes: stat.size }) : storeWords('no-file');
    found.push(raise('verify.not-a-file/found', { fault }, { file }));
  } catch (error) {
    found.push(unreadable(error, file));
  }
  return undefined;
}

const unreadable = (error: unknown, file: string): Problem =>
  raise(
    'verify.unreadable',
    { fault: diskProblem(error, file, storeWords('while-verified')).said },
    { file },
  );

// Seals checked against the journals: unit signatures and job seals.

/** Checks every seal of a journal whose chain holds, and that a closed unit is signed. */
export function unitSealProblems(events: readonly JournalEvent[], file: string, keys: Keys): Problem[] {
  const problems: Problem[] = [];
  let good: number | undefined;
  for (const [i, event] of events.entries()) {
    if (event.kind !== 'sealed') continue;
    const problem = sealProblem(event, { file, line: i + 1 }, good, keys);
    if (problem) problems.push(problem);
    else good = i + 1;
  }
  const open = unsealedEnd(events);
  if (open && keys.size > 0) {
    const { unsigned } = open;
    const place = { file, line: open.n };
    problems.push(
      unsigned
        ? raise('verify.not-signed/allowed', { open: open.n, by: unsigned.by, why: unsigned.why }, place)
        : raise('verify.not-signed', { open: open.n }, place),
    );
  }
  return problems;
}

function sealProblem(
  event: SealedEvent,
  place: Place,
  lastGood: number | undefined,
  keys: Keys,
): Problem | undefined {
  if (event.head !== event.prev) return raise('verify.bad-signature', {}, place);
  return signatureProblem(
    { hash: event.head, key: event.key, signature: event.signature },
    place,
    () =>
      lastGood === undefined
        ? raise('verify.forged-chain/lines', { key: event.key }, place)
        : raise('verify.forged-chain/after', { key: event.key, good: lastGood }, place),
    keys,
  );
}

function signatureProblem(
  { hash, key, signature }: { readonly hash: string; readonly key: string; readonly signature: string },
  place: Place,
  forged: () => Problem,
  keys: Keys,
): Problem | undefined {
  const counted = keys.get(key);
  if (counted === undefined) return raise('verify.unknown-key/signed', { key }, place);
  if ('not' in counted) return uncounted(key, counted.not, place);
  switch (checkSignature(counted.pem, hash, signature)) {
    case 'holds':
      return undefined;
    case 'malformed':
      return raise('verify.bad-signature/signature', {}, place);
    case 'other':
      return forged();
  }
}

/** `only`: the one unit requested; otherwise all. */
export function jobSealProblems(
  seal: JobSeal | undefined,
  job: string,
  file: string,
  standings: ReadonlyMap<string, JournalNow>,
  keys: Keys,
  only?: string,
): Problem[] {
  const place = { file };
  if (!seal) return [raise('verify.job-seal', {}, place)];
  const problems: Problem[] = [];
  if (seal.job !== job) problems.push(raise('verify.job-seal/seal', { job: seal.job }, place));
  if (sealOver(seal.units.map(({ hash }) => hash)) !== seal.seal)
    problems.push(raise('verify.job-seal/seal-one', {}, place));
  if (seal.key !== undefined || seal.signature !== undefined) {
    // Half a signature counts as an invalid one.
    const { key = '', signature = '' } = seal;
    const problem = signatureProblem(
      { hash: signedHash(seal), key, signature },
      place,
      () => raise('verify.forged-chain/seal', { key }, place),
      keys,
    );
    if (problem) problems.push(problem);
  } else if (keys.size > 0) problems.push(raise('verify.not-signed/seal', {}, place));
  for (const { unit, lines, hash } of seal.units) {
    if (only !== undefined && unit !== only) continue;
    const now = standings.get(unit);
    if (!now) problems.push(raise('verify.job-seal/journal', { unit }, place));
    else if (now.lines < lines)
      problems.push(raise('verify.job-seal/had', { unit, lines, lines2: now.lines }, place));
    else if (now.hashes.get(lines) !== hash)
      problems.push(raise('verify.job-seal/line', { lines, unit }, place));
    else if (now.lines > lines)
      problems.push(raise('verify.grown/sealed', { unit, lines: now.lines - lines }, place));
  }
  return problems;
}

// The journals of set-ups and the day book, each checked against its own chain.

/** Their names under logs/: the journal, its lock, and torn ends set aside. */
export const isOfWorkshop = (name: string): boolean =>
  /^(setups|daybook)\.(jsonl(\.torn-\d+)?|lock.*)$/.test(name);

/** Hashes of their lines; what is wrong with a journal is said elsewhere. */
function firstOffHashes(disk: Disk, root: string): ReadonlySet<string> {
  const hashes = new Set<string>();
  for (const file of filesOf('setups', disk, root, []))
    attempt(() => {
      const path = join(root, ...file.split('/'));
      const stat = disk.stat(path);
      if (stat?.kind !== 'file' || stat.size > LARGEST_JOURNAL) return;
      for (const text of disk.read(path).toString('utf8').split('\n')) {
        const line = checkLine(text);
        if (line.whole) hashes.add(line.event.hash);
      }
    });
  return hashes;
}

function filesOf(which: 'setups' | 'daybook', disk: Disk, root: string, found: Problem[]): readonly string[] {
  try {
    return workshopJournals(disk, root, which);
  } catch (error) {
    if (!isFileError(error)) throw error;
    found.push(
      raise(
        'verify.unreadable',
        { fault: diskProblem(error, 'benches', storeWords('while-verified')).said },
        { file: 'benches' },
      ),
    );
    return [which === 'setups' ? SETUP_JOURNAL : DAYBOOK];
  }
}

/** Returns the number of events of each that is there. Adds what they name. */
export function verifyWorkshop(disk: Disk, root: string, named: NamedByJournals, found: Problem[]): number[] {
  const checked = (file: string, wrongWith: typeof setupEventWrong): number[] => {
    const place = { file: join(root, ...file.split('/')), shown: file };
    const read = readChained<Envelope>(disk, place, wrongWith, LARGEST_JOURNAL);
    if (!read) return [];
    found.push(...chainProblems(read.faults, file));
    for (const event of read.entries)
      for (const hash of textsNamed(event))
        if (!named.sources.has(hash)) named.sources.set(hash, { file, line: event.n });
    return read.faults.some(({ line }) => line === undefined) ? [] : [read.lines];
  };
  return [
    ...filesOf('setups', disk, root, found).flatMap((file) => checked(file, setupEventWrong)),
    // What cannot be listed was said with the set-ups.
    ...filesOf('daybook', disk, root, []).flatMap((file) => checked(file, daybookWrong)),
  ];
}
