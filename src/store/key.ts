/**
 * A bench's signing key. The private key is in keys/<bench>.pem, readable by its owner only, and is never shown, logged
 * or archived. The public key is in shared/keys/<key id>.pem, where readers find it by the id named in a seal.
 */
import { join } from 'node:path';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { keyId, makeKeyPair, type Signer, signerOf } from '../unit/sealing.js';
import { type Disk, diskProblem, storeProblem } from './disk.js';
import { attempt, makeFolders, writeWhole } from './files.js';
import { isFileName } from './paths.js';
import { storeWords } from './words.js';

const LARGEST_KEY = 10_000;
const PUBLIC = /^([0-9a-f]{16})\.pem$/;

export type BenchKey = Signer & { readonly publicPem: string };

export const privateKeyFile = (bench: string): string => `keys/${bench}.pem`;
export const publicKeyFile = (id: string): string => `shared/keys/${id}.pem`;

/** The bench's key; undefined if it has none. Fails if the file is unusable or readable by others. */
export function benchKey(disk: Disk, root: string, bench: string): Result<BenchKey | undefined> {
  if (!isFileName(bench)) return err(storeProblem('key.bench-name', { bench }));
  const file = privateKeyFile(bench);
  try {
    const stat = disk.stat(join(root, file));
    if (stat === undefined) return ok(undefined);
    if (stat.kind !== 'file' || stat.size > LARGEST_KEY)
      return err(storeProblem('key.unusable', {}, { file }));
    if (stat.open) return err(storeProblem('key.open', {}, { file }));
    const signer = signerOf(disk.read(join(root, file)).toString('utf8'));
    return signer ? ok(signer) : err(storeProblem('key.unusable/file', {}, { file }));
  } catch (error) {
    return err(diskProblem(error, file, storeWords('while-key-bench-read')));
  }
}

/** The first usable key of any bench here, by name; undefined if there is none. */
export function anyKey(disk: Disk, root: string): BenchKey | undefined {
  const folder = join(root, 'keys');
  let found: BenchKey | undefined;
  attempt(() => {
    if (disk.stat(folder)?.kind !== 'folder') return;
    for (const name of disk.list(folder)) {
      const key = name.endsWith('.pem') ? benchKey(disk, root, name.slice(0, -'.pem'.length)) : undefined;
      if (key?.ok && key.value) {
        found = key.value;
        return;
      }
    }
  });
  return found;
}

/** Public parts of keys that no register introduces yet, by bench: they wait for a bench whose key counts. */
export const askingFile = (bench: string): string => `shared/keys/asking/${bench}.pem`;

/** Creates a key for a bench that has none; durable on return. @param asking its public part waits to be introduced */
export function newBenchKey(disk: Disk, root: string, bench: string, asking = false): Result<BenchKey> {
  const before = benchKey(disk, root, bench);
  if (!before.ok) return before;
  const file = privateKeyFile(bench);
  if (before.value) return err(storeProblem('key.there', { bench, before: before.value.id }, { file }));
  try {
    const { id, privatePem, publicPem } = makeKeyPair();
    // Public key first: it must exist before anything can be sealed with the private one.
    const shared = makeFolders(disk, root, ['shared', 'keys', ...(asking ? ['asking'] : [])]);
    writeWhole(disk, join(shared, `${asking ? bench : id}.pem`), Buffer.from(publicPem));
    const own = makeFolders(disk, root, ['keys']);
    writeWhole(disk, join(own, `${bench}.pem`), Buffer.from(privatePem), 'private');
    return ok(signerOf(privatePem)!);
  } catch (error) {
    return err(diskProblem(error, file, storeWords('while-key-made')));
  }
}

/** Keys that wait to be introduced: PEM by bench. */
export function askingKeys(disk: Disk, root: string): ReadonlyMap<string, string> {
  const keys = new Map<string, string>();
  attempt(() => {
    const folder = join(root, 'shared', 'keys', 'asking');
    if (disk.stat(folder)?.kind !== 'folder') return;
    for (const name of disk.list(folder)) {
      const bench = /^(.+)\.pem$/.exec(name)?.[1];
      const stat = disk.stat(join(folder, name));
      if (bench === undefined || stat?.kind !== 'file' || stat.size > LARGEST_KEY) continue;
      const pem = disk.read(join(folder, name)).toString('utf8');
      if (keyId(pem) !== undefined) keys.set(bench, pem);
    }
  });
  return keys;
}

export interface PublicKeys {
  /** PEM by key id. */
  readonly keys: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
}

/** All public keys of the workshop. A key that does not match its file name is left out and reported. */
export function publicKeys(disk: Disk, root: string): PublicKeys {
  const keys = new Map<string, string>();
  const problems: Problem[] = [];
  const folder = join(root, 'shared', 'keys');
  try {
    if (disk.stat(folder) === undefined) return { keys, problems };
    for (const name of disk.list(folder)) {
      const id = PUBLIC.exec(name)?.[1];
      if (id === undefined) continue;
      const file = publicKeyFile(id);
      const stat = disk.stat(join(folder, name));
      const pem =
        stat?.kind === 'file' && stat.size <= LARGEST_KEY
          ? disk.read(join(folder, name)).toString('utf8')
          : '';
      if (keyId(pem) === id) keys.set(id, pem);
      else problems.push(storeProblem('key.unusable/file-does', { id }, { file }));
    }
  } catch (error) {
    problems.push(diskProblem(error, 'shared/keys', storeWords('while-public-keys-read')));
  }
  return { keys, problems };
}
