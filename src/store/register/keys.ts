/**
 * Which keys count. The register of keys introduces them: the first by its full fingerprint, which documents print and
 * readers pin; every other by an entry that a counted key signed. Whoever can write into the folder can put a key there,
 * but cannot introduce it.
 */
import { type Problem, problemFactory } from '../../base/problem.js';
import type { RegisterHead } from '../../unit/events.js';
import { fingerprintOf } from '../../unit/sealing.js';
import type { ChainedFault } from '../chained.js';
import type { Disk } from '../disk.js';
import { publicKeyFile, publicKeys } from '../key.js';
import { VERIFY_MESSAGES } from '../verifymessages.js';
import { knownHere } from './account.js';
import { isSignedBy, type KeyEntry, type NamedKey, type Reached } from './entries.js';
import { KEYS_FILE, registered } from './place.js';
import { readBench, readKeys } from './whole.js';

const raise = problemFactory(VERIFY_MESSAGES);

export type KeyStanding =
  | { readonly pem: string; readonly withdrawn?: Reached }
  /** It is there and does not count: no register introduces it, or the reader was not told to trust it. */
  | { readonly not: 'introduced' | 'trusted' };
/** By key id. */
export type Keys = ReadonlyMap<string, KeyStanding>;

/** A key that counts, as its entry has it. */
export interface IntroducedKey {
  readonly key: string;
  readonly fingerprint: string;
  /** Its bench; undefined for one that was there before there was a register. */
  readonly of?: string;
  /** From this number on its bench's register is signed. */
  readonly since: number;
  readonly withdrawn?: Reached;
}

export interface CountedKeys {
  readonly keys: Keys;
  readonly introduced: readonly IntroducedKey[];
  /** How far the registers had come when a first key was introduced: up to there they have a say unsigned. */
  readonly unsignedTo: readonly RegisterHead[];
  /** Heads of unsigned registers that entries of counted keys name. */
  readonly seen: readonly RegisterHead[];
  /** Fingerprint of the key by which the others count; undefined without a register of keys. */
  readonly first?: string;
  /** There was a register of keys, by what this account knows, and there is none. */
  readonly gone: boolean;
  /** There is a register of keys. */
  readonly kept: boolean;
  readonly problems: readonly Problem[];
  /** In the chain of the register of keys. */
  readonly faults: readonly ChainedFault[];
}

/**
 * @param trust fingerprints of the only keys that count by themselves; where undefined, the first keys that this account
 *   knows, or else the first of the register. Without a register all keys count, or those that are trusted.
 */
export function countedKeys(disk: Disk, root: string, trust?: readonly string[]): CountedKeys {
  const there = publicKeys(disk, root);
  const read = readKeys(disk, root);
  // A crash may have left one that has no line yet.
  const log = read && (read.lines > 0 || read.faults.some(({ kind }) => kind !== 'torn')) ? read : undefined;
  const known = knownHere(disk, root).firstKeys;
  const problems: Problem[] = there.problems.map(({ said, place }) =>
    raise('verify.key-damaged', { fault: said }, place),
  );
  const roots = trust ?? (known.length > 0 ? known : undefined);
  // Without a register of keys those count that were there before there was any register.
  const before = log ? [] : keysBefore(disk, root, there.keys).map(({ fingerprint }) => fingerprint);
  const walked = log ? walk(log.entries, there.keys, roots, problems) : undefined;
  const fingerprints = new Map([...there.keys].map(([id, pem]) => [id, fingerprintOf(pem)!]));
  const keys = new Map<string, KeyStanding>();
  for (const [id, pem] of there.keys) {
    const own = walked?.find(({ fingerprint }) => fingerprint === fingerprints.get(id));
    const counts = log ? own !== undefined : (roots ?? before).includes(fingerprints.get(id)!);
    if (counts) keys.set(id, { pem, ...(own?.withdrawn ? { withdrawn: own.withdrawn } : {}) });
    else keys.set(id, { not: trust ? 'trusted' : 'introduced' });
  }
  const has = new Set(fingerprints.values());
  for (const each of trust ?? [])
    if (!has.has(each))
      problems.push(raise('verify.key-missing/trusted', { fingerprint: each }, KEYS_FOLDER));
  for (const { key, fingerprint } of walked ?? [])
    if (!has.has(fingerprint) && !trust?.includes(fingerprint))
      problems.push(raise('verify.key-missing/file', { file: publicKeyFile(key) }, KEYS_FOLDER));
  if (!trust)
    for (const [id, standing] of keys)
      if ('not' in standing)
        problems.push(
          raise(
            'verify.key-not-introduced',
            { id },
            {
              file: publicKeyFile(id),
            },
          ),
        );
  const seenBy = (kind: 'first-key' | 'key-counts') =>
    (log?.entries ?? []).flatMap((entry) =>
      entry.kind === kind && walked!.some(({ fingerprint }) => fingerprint === entry.fingerprint)
        ? entry.seen
        : [],
    );
  const first = walked?.findLast(({ fingerprint }) => log!.entries.some(isFirst(fingerprint)));
  return {
    keys,
    introduced: walked ?? [],
    unsignedTo: seenBy('first-key'),
    seen: [...seenBy('first-key'), ...seenBy('key-counts')],
    ...(first ? { first: first.fingerprint } : {}),
    gone: !log && known.length > 0,
    kept: log !== undefined,
    problems,
    faults: read?.faults ?? [],
  };
}

/** Keys that were there when the registers were begun, so far as they are there now; all of them without a register. */
export function keysBefore(disk: Disk, root: string, keys: ReadonlyMap<string, string>): NamedKey[] {
  const there = [...keys].map(([key, pem]) => ({ key, fingerprint: fingerprintOf(pem)! }));
  const benches = there.length > 0 ? registered(disk, root) : [];
  if (benches.length === 0) return there;
  const listed = new Set<string>();
  for (const bench of benches) {
    const first = readBench(disk, root, bench)?.entries[0];
    if (first?.kind === 'register-begun') for (const { fingerprint } of first.before) listed.add(fingerprint);
  }
  return there.filter(({ fingerprint }) => listed.has(fingerprint));
}

const KEYS_FOLDER = { file: 'shared/keys' };

const isFirst = (fingerprint: string) => (entry: KeyEntry) =>
  entry.kind === 'first-key' && entry.fingerprint === fingerprint;

/** The keys that count, in the order in which they were introduced. */
function walk(
  entries: readonly KeyEntry[],
  pems: ReadonlyMap<string, string>,
  roots: readonly string[] | undefined,
  problems: Problem[],
): IntroducedKey[] {
  const counted = new Map<string, IntroducedKey>();
  for (const each of roots ?? []) {
    const key = each.slice(0, 16);
    if (pems.has(key) && fingerprintOf(pems.get(key)!) === each)
      counted.set(key, { key, fingerprint: each, since: Infinity });
  }
  for (const entry of entries) {
    const pem = pems.get(entry.signedBy ?? '');
    const own = entry.kind === 'first-key' && entry.signedBy === entry.key;
    // Whoever reads takes the first key on its word, where nothing is known of it.
    const taken = own && (roots ? roots.includes(entry.fingerprint) : entry.n === 1);
    const by = counted.get(entry.signedBy ?? '');
    const place = { file: KEYS_FILE, line: entry.n };
    // Without the public part nothing can be told; that it is missing is a fault by itself, and enough.
    const signed = pem === undefined || isSignedBy(entry, pem);
    if (own && signed && !taken && entry.n > 1) {
      problems.push(raise('verify.key-begun-anew', { entry: entry.n, key: entry.key }, place));
      continue;
    }
    if (!signed || !(taken || (by && !by.withdrawn))) {
      problems.push(raise('verify.key-entry', { entry: entry.n }, place));
      continue;
    }
    apply(counted, entry);
  }
  return [...counted.values()];
}

function apply(counted: Map<string, IntroducedKey>, entry: KeyEntry): void {
  if (entry.kind === 'key-withdrawn') {
    const before = counted.get(entry.key);
    if (before) counted.set(entry.key, { ...before, withdrawn: entry.upTo });
    return;
  }
  const { key, fingerprint, of, since } = entry;
  counted.set(key, { key, fingerprint, of, since });
  if (entry.kind === 'first-key')
    for (const each of entry.before)
      if (!counted.has(each.key)) counted.set(each.key, { ...each, since: Number.POSITIVE_INFINITY });
}

/** The key that counts for this bench now; undefined if it has none. */
export const keyOfBench = (introduced: readonly IntroducedKey[], bench: string): IntroducedKey | undefined =>
  introduced.findLast(({ of, withdrawn }) => of === bench && withdrawn === undefined);
