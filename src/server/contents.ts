/**
 * Files that the shop keeps by their content: frozen sources, evidence, people's names, seals of jobs, public keys. They go in pieces, on
 * a connection of their own, so that no answer waits for a photograph.
 */
import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { err, ok, type Result } from '../base/problem.js';
import { type Disk, diskProblem } from '../store/disk.js';
import { hashBytes, makeFolders, writeWhole } from '../store/files.js';
import { isJobSeal } from '../store/jobseal.js';
import { readName } from '../store/names.js';
import { isFileName } from '../store/paths.js';
import { storeWords } from '../store/words.js';
import type { ServerClient } from './client.js';
import { shopProblem } from './messages.js';
import { SCHEMA } from './migrations.js';
import { type Teller, unlessTaken } from './news.js';

/** Largest piece, bytes. */
const PIECE = 1_000_000;
/** Larger than any evidence that is taken. */
const LARGEST = 100_000_000;

const HASH = /^[0-9a-f]{64}$/;

/** Whether the path is one under which a shop keeps files. */
function isKeptPath(path: string): boolean {
  const parts = path.split('/');
  const [top, second, third, fourth] = parts;
  if (top === 'logs' && (second === 'sources' || second === 'names'))
    return parts.length === 3 && HASH.test(third!);
  if (top === 'logs' && parts.length === 3) return isFileName(second!) && isJobSeal(third!);
  if (top === 'logs' && third === 'evidence')
    return parts.length === 4 && isFileName(second!) && HASH.test(fourth!);
  return top === 'shared' && second === 'keys' && parts.length === 3 && /^[0-9a-f]{16}\.pem$/.test(third!);
}

/** The job whose folder a kept file lies in; undefined for what belongs to no single job. */
export const jobOf = (path: string): string | undefined =>
  /^logs\/([^/]+)\/(?:evidence\/|job\.seal)/.exec(path)?.[1];

/** All such files of this folder. */
export function localFiles(disk: Disk, root: string): string[] {
  const logs = list(disk, root, ['logs']);
  const jobs = logs.filter((name) => isFileName(name));
  return [
    ...list(disk, root, ['logs', 'sources']).map((name) => `logs/sources/${name}`),
    ...list(disk, root, ['logs', 'names']).map((name) => `logs/names/${name}`),
    ...list(disk, root, ['shared', 'keys']).map((name) => `shared/keys/${name}`),
    ...jobs.flatMap((job) =>
      list(disk, root, ['logs', job, 'evidence']).map((name) => `logs/${job}/evidence/${name}`),
    ),
    ...jobs.flatMap((job) => list(disk, root, ['logs', job]).map((name) => `logs/${job}/${name}`)),
  ].filter(isKeptPath);
}

function list(disk: Disk, root: string, path: readonly string[]): readonly string[] {
  const folder = join(root, ...path);
  try {
    return disk.stat(folder)?.kind === 'folder' ? disk.list(folder) : [];
  } catch {
    return [];
  }
}

/** Puts content on the server, once. Throws ServerError. */
export async function putContent(client: ServerClient, bytes: Buffer): Promise<string> {
  const sha256 = hashBytes(bytes);
  const [there] = await client.query(`select 1 from ${SCHEMA}.content where sha256 = $1`, [sha256]);
  if (there) return sha256;
  const pieces = Math.max(1, Math.ceil(bytes.length / PIECE));
  for (let i = 0; i < pieces; i++)
    await client.query(
      `insert into ${SCHEMA}.piece (sha256, i, bytes) values ($1, $2, $3) on conflict do nothing`,
      [sha256, i, bytes.subarray(i * PIECE, (i + 1) * PIECE)],
    );
  await client.query(
    `insert into ${SCHEMA}.content (sha256, size, pieces) values ($1, $2, $3) on conflict do nothing`,
    [sha256, bytes.length, pieces],
  );
  return sha256;
}

/** Reads content and holds it against its hash. Throws ServerError. */
export async function getContent(client: ServerClient, sha256: string): Promise<Result<Buffer>> {
  const wrong = () => err(shopProblem('shop.content-changed/file', { sha256 }));
  const [row] = await client.query<{ size: number; pieces: number }>(
    `select size, pieces from ${SCHEMA}.content where sha256 = $1`,
    [sha256],
  );
  if (!row || Number(row.size) > LARGEST) return wrong();
  const pieces: Buffer[] = [];
  for (let i = 0; i < Number(row.pieces); i++) {
    const [piece] = await client.query<{ bytes: Buffer }>(
      `select bytes from ${SCHEMA}.piece where sha256 = $1 and i = $2`,
      [sha256, i],
    );
    if (!piece) return wrong();
    pieces.push(piece.bytes);
  }
  const bytes = Buffer.concat(pieces);
  return hashBytes(bytes) === sha256 ? ok(bytes) : wrong();
}

export interface KeptFile {
  readonly path: string;
  readonly version: number;
  readonly sha256: string;
}

/** The newest version of every kept file, or of one. */
export async function keptFiles(client: ServerClient, path?: string): Promise<Map<string, KeptFile>> {
  const rows = await client.query<KeptFile>(
    `select distinct on (path) path, version, sha256 from ${SCHEMA}.kept
     ${path === undefined ? '' : 'where path = $1'} order by path desc, version desc`,
    path === undefined ? [] : [path],
  );
  return new Map(rows.map((row) => [row.path, { ...row, version: Number(row.version) }]));
}

/** A person's name that was erased has other content than its hash, which is right. */
export function isErasedHere(disk: Disk, root: string, path: string): boolean {
  if (!path.startsWith('logs/names/')) return false;
  const file = join(root, ...path.split('/'));
  return disk.stat(file)?.kind === 'file' && isErased(path, disk.read(file));
}

const isErased = (path: string, bytes: Buffer): boolean => {
  const read = path.startsWith('logs/names/') ? readName(bytes, path.split('/').at(-1)!) : undefined;
  return read !== undefined && 'erased' in read;
};

/**
 * Brings one file to the server. Its content must be what its name says; a name that was erased becomes the next version.
 * Returns whether something was added. Throws ServerError.
 */
export async function keepFile(
  client: ServerClient,
  teller: Teller,
  disk: Disk,
  root: string,
  path: string,
  there: KeptFile | undefined,
): Promise<boolean> {
  const file = join(root, ...path.split('/'));
  const stat = disk.stat(file);
  if (stat?.kind !== 'file' || stat.size > LARGEST) return false;
  const bytes = disk.read(file);
  const named = path.split('/').at(-1)!;
  const erased = isErased(path, bytes);
  if (!erased && HASH.test(named) && hashBytes(bytes) !== named) return false;
  if (there && (!erased || there.sha256 === hashBytes(bytes))) return false;
  const sha256 = await putContent(client, bytes);
  const version = (there?.version ?? 0) + 1;
  return unlessTaken(() =>
    teller.add('kept', { path, version, sha256 }, { kind: 'kept', subject: path, upto: version }),
  );
}

/** Lays a file of the server into this folder; durable once ok. An erased name stays erased. */
export async function layFile(
  client: ServerClient,
  disk: Disk,
  root: string,
  { path, sha256 }: KeptFile,
): Promise<Result<void>> {
  if (!isKeptPath(path)) return err(shopProblem('shop.content-changed/path', { path }));
  const content = await getContent(client, sha256);
  if (!content.ok) return content;
  const named = path.split('/').at(-1)!;
  if (HASH.test(named) && sha256 !== named && !isErased(path, content.value))
    return err(shopProblem('shop.content-changed/file-what', { path }));
  try {
    const parts = path.split('/');
    const folder = makeFolders(disk, root, parts.slice(0, -1));
    writeWhole(disk, join(folder, named), content.value);
    return ok(undefined);
  } catch (error) {
    return err(diskProblem(error, path, storeWords('while-taken-over-shop')));
  }
}

/** A name that no other folder has. */
export const newFolderId = (): string => randomBytes(12).toString('hex');
