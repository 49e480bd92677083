/** The key that a bench signs with, and the entries that introduce and withdraw keys. */
import { err, ok, type Result } from '../../base/problem.js';
import type { Stamp } from '../../unit/chain.js';
import type { Envelope } from '../../unit/events.js';
import { fingerprintOf } from '../../unit/sealing.js';
import { type Disk, diskProblem, storeProblem } from '../disk.js';
import { type BenchKey, benchKey, privateKeyFile, publicKeys } from '../key.js';
import { storeWords } from '../words.js';
import { keepFirstKeyHere, knownHere } from './account.js';
import { appendToRegister } from './append.js';
import { type KeyBody, keyEntryWrong } from './entries.js';
import { countedKeys, keyOfBench, keysBefore } from './keys.js';
import {
  benchPlace,
  endOfBench,
  KEYS_FILE,
  keysPlace,
  readEnd,
  registered,
  registerHeadOf,
  registerHeads,
} from './place.js';
import { readKeys } from './whole.js';

/**
 * The bench's key, which counts; undefined if it has none. Fails where it cannot be used: its file, or the register says
 * that it does not count, or that the bench should have one.
 */
export function signingKey(disk: Disk, root: string, bench: string): Result<BenchKey | undefined> {
  try {
    return ownKey(disk, root, bench);
  } catch (error) {
    return err(diskProblem(error, KEYS_FILE, storeWords('while-key-bench-looked')));
  }
}

function ownKey(disk: Disk, root: string, bench: string): Result<BenchKey | undefined> {
  const key = benchKey(disk, root, bench);
  if (!key.ok) return key;
  const file = privateKeyFile(bench);
  const { introduced, faults, problems, kept } = countedKeys(disk, root);
  // A torn end is mended with the next entry.
  const broken = faults.find(({ kind }) => kind !== 'torn');
  if (broken && broken.line === undefined)
    return err(storeProblem('disk.failed/unreadable', { fault: broken.text }, { file: KEYS_FILE }));
  if (broken)
    return err(
      storeProblem('register.damaged/chain', { fault: broken.text }, { file: KEYS_FILE, line: broken.line }),
    );
  const forged = problems.find(({ id }) => id === 'verify.key-entry' || id === 'verify.key-begun-anew');
  if (forged)
    return err(
      storeProblem('register.damaged/forged', { fault: forged.said, way: forged.wayOut }, forged.place),
    );
  if (!kept)
    return areKeysGone(disk, root) ? err(storeProblem('key.register-gone', {}, { file: KEYS_FILE })) : key;
  if (!key.value) {
    const should = keyOfBench(introduced, bench);
    return should ? err(storeProblem('key.gone/signs', { bench, key: should.key }, { file })) : key;
  }
  const own = introduced.find(({ fingerprint }) => fingerprint === fingerprintOf(key.value!.publicPem));
  if (!own) return err(storeProblem('key.not-introduced', { key: key.value.id, bench }, { file }));
  return own.withdrawn ? err(storeProblem('key.withdrawn', { key: own.key, bench }, { file })) : key;
}

/** There was a register of keys: this account knows of one, or a bench's register is signed. */
export const areKeysGone = (disk: Disk, root: string): boolean =>
  knownHere(disk, root).firstKeys.length > 0 ||
  registered(disk, root).some((bench) => endOfBench(disk, root, bench)?.entry?.signedBy !== undefined);

/** The register of keys was begun, or begun anew, with this key. */
export const isFirstKey = (disk: Disk, root: string, fingerprint: string): boolean =>
  readKeys(disk, root)?.entries.some(
    (entry) => entry.kind === 'first-key' && entry.fingerprint === fingerprint,
  ) === true;

/** There is a register of keys, with a line in it: a crash may have left an empty one. */
export function hasKeys(disk: Disk, root: string): boolean {
  const stat = disk.stat(keysPlace(root).file);
  if (stat === undefined || stat.size === 0) return false;
  const end = readEnd(disk, keysPlace(root));
  return !end.ok || end.value?.hash !== undefined;
}

/**
 * Begins the register of keys with this one, where there is none and none was known; keys that are there already are
 * taken as they are. Does nothing where there is one.
 * @param anew beside the one that is there: no key that counts can sign any more
 */
export function beginKeys(
  disk: Disk,
  root: string,
  key: BenchKey,
  stamp: Stamp,
  { anew = false } = {},
): Result<boolean> {
  if (!anew && hasKeys(disk, root)) return mended(disk, root, key, stamp);
  const fingerprint = fingerprintOf(key.publicPem)!;
  const others = anew
    ? []
    : keysBefore(disk, root, publicKeys(disk, root).keys).filter((each) => each.key !== key.id);
  const body: KeyBody = {
    kind: 'first-key',
    key: key.id,
    fingerprint,
    of: stamp.bench,
    before: others,
    since: registerHeadOf(disk, root, stamp.bench)?.n ?? 0,
    seen: registerHeads(disk, root),
  };
  const wrote = writeKeys(disk, root, key, stamp, (end) => (anew || end === 0 ? [body] : []));
  if (!wrote.ok) return wrote;
  keepFirstKeyHere(disk, root, fingerprint);
  return ok(true);
}

/** Sets a torn end aside, which a crash left. */
function mended(disk: Disk, root: string, key: BenchKey, stamp: Stamp): Result<boolean> {
  const end = readEnd(disk, keysPlace(root));
  const wrote = end.ok && end.value?.torn ? writeKeys(disk, root, key, stamp, () => []) : end;
  return wrote.ok ? ok(false) : wrote;
}

/** A key of another bench, or a new one of this. */
export function introduceKey(
  disk: Disk,
  root: string,
  publicPem: string,
  of: string,
  by: { readonly key: BenchKey; readonly stamp: Stamp },
): Result<Pick<Envelope, 'n' | 'hash'> | undefined> {
  const fingerprint = fingerprintOf(publicPem)!;
  const head = registerHeadOf(disk, root, of);
  const body: KeyBody = {
    kind: 'key-counts',
    key: fingerprint.slice(0, 16),
    fingerprint,
    of,
    since: head?.n ?? 0,
    seen: head ? [head] : [],
  };
  return writeKeys(disk, root, by.key, by.stamp, () => [body]);
}

/** From now on nothing that it signs counts. */
export function withdrawKey(
  disk: Disk,
  root: string,
  {
    key,
    of,
    why,
  }: { readonly key: string; readonly of: string; readonly why: 'replaced' | 'lost' | 'exposed' },
  by: { readonly key: BenchKey; readonly stamp: Stamp },
): Result<Pick<Envelope, 'n' | 'hash'> | undefined> {
  const place = benchPlace(root, of);
  if (!place.ok) return place;
  const end = readEnd(disk, place.value);
  if (!end.ok) return end;
  const upTo = { bench: of, n: end.value?.n ?? 0 };
  return writeKeys(disk, root, by.key, by.stamp, () => [{ kind: 'key-withdrawn', key, why, upTo }]);
}

const writeKeys = (
  disk: Disk,
  root: string,
  key: BenchKey,
  stamp: Stamp,
  bodies: (end: number) => readonly KeyBody[],
) =>
  appendToRegister(
    disk,
    root,
    { place: keysPlace(root), folders: ['register'], wrongWith: keyEntryWrong, stamp, signer: key },
    (end) => bodies(end?.n ?? 0),
  );
