/**
 * The workshop's own files (jobs, profile sets, procedures, limits, instruments, people) as editions that a named person
 * publishes, whole. A bench takes the newest one, unless its own files were changed and not published.
 */
import { join } from 'node:path';
import * as z from 'zod';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { type Disk, diskProblem } from '../store/disk.js';
import { attempt, hashBytes, makeFolders, writeSpare, writeWhole } from '../store/files.js';
import { PINS_FILE } from '../store/pins.js';
import { storeWords } from '../store/words.js';
import type { ServerClient } from './client.js';
import { getContent, putContent } from './contents.js';
import { shopProblem } from './messages.js';
import { SCHEMA } from './migrations.js';
import { type Teller, unlessTaken } from './news.js';
import { retiredAfter } from './retired.js';

const FOLDERS = ['shared', 'procedures'];
/** Files of which each bench or the shop has its own. */
const NOT: ReadonlySet<string> = new Set(['shared/keys']);
/** No file that a person wrote is larger. */
const LARGEST = 20_000_000;
const DEEPEST = 6;
const PART = /^[^./\\\p{C}][^/\\\p{C}]{0,199}$/u;

const heldSchema = z.strictObject({
  format: z.literal('pinchrod-edition 1'),
  n: z.number().int().nonnegative(),
  /** SHA-256 by path, of what was last taken or published here. */
  files: z.record(z.string(), z.string()),
  pins: z.number().int().nonnegative(),
  pinsHash: z.string(),
  /** Who published it, and why. */
  by: z.string().default(''),
  reason: z.string().default(''),
  /** By the id of an instrument: the edition without it. */
  retired: z
    .record(z.string(), z.strictObject({ at: z.string(), by: z.string(), reason: z.string() }))
    .default({}),
});
export type Held = z.infer<typeof heldSchema>;
const NONE: Held = {
  format: 'pinchrod-edition 1',
  n: 0,
  files: {},
  pins: 0,
  pinsHash: '',
  by: '',
  reason: '',
  retired: {},
};

const HELD_FILE = ['shop', 'edition.json'] as const;

/** What was last taken or published here; nothing where that cannot be read, so that nothing of this folder is replaced. */
export function heldEdition(disk: Disk, root: string): Held {
  try {
    const parsed = heldSchema.safeParse(JSON.parse(disk.read(join(root, ...HELD_FILE)).toString('utf8')));
    return parsed.success ? parsed.data : NONE;
  } catch {
    return NONE;
  }
}

function keepHeld(disk: Disk, root: string, held: Held): void {
  writeSpare(
    disk,
    join(makeFolders(disk, root, ['shop']), HELD_FILE[1]),
    Buffer.from(`${JSON.stringify(held)}\n`),
  );
}

/** Whether a path of an edition stays inside the workshop's own files. */
const isOwnPath = (path: string): boolean => {
  const parts = path.split('/');
  return (
    FOLDERS.includes(parts[0]!) &&
    parts.length > 1 &&
    parts.length <= DEEPEST &&
    parts.every((part) => PART.test(part)) &&
    !NOT.has(parts.slice(0, 2).join('/'))
  );
};

/** The workshop's own files by their path, with their bytes. Throws file errors. */
function ownFiles(disk: Disk, root: string): Map<string, Buffer> {
  const files = new Map<string, Buffer>();
  const visit = (parts: readonly string[]): void => {
    if (NOT.has(parts.join('/')) || parts.length >= DEEPEST) return;
    for (const name of disk.list(join(root, ...parts))) {
      const path = [...parts, name];
      const stat = disk.stat(join(root, ...path));
      if (stat?.kind === 'folder') visit(path);
      else if (stat?.kind === 'file' && stat.size <= LARGEST && isOwnPath(path.join('/')))
        files.set(path.join('/'), disk.read(join(root, ...path)));
    }
  };
  for (const folder of FOLDERS) if (disk.stat(join(root, folder))?.kind === 'folder') visit([folder]);
  return files;
}

const pinsOf = (disk: Disk, root: string): Buffer => {
  const path = join(root, ...PINS_FILE.split('/'));
  return disk.stat(path)?.kind === 'file' ? disk.read(path) : Buffer.alloc(0);
};

/** Own files that are not as the edition has them that was last taken or published here. */
export function changedHere(disk: Disk, root: string, held = heldEdition(disk, root)): string[] {
  const files = ownFiles(disk, root);
  const paths = new Set([...files.keys(), ...Object.keys(held.files)]);
  const changed = [...paths].filter((path) => {
    const bytes = files.get(path);
    return (bytes ? hashBytes(bytes) : undefined) !== held.files[path];
  });
  const pins = pinsOf(disk, root);
  if ((pins.length === 0 ? '' : hashBytes(pins)) !== held.pinsHash) changed.push(PINS_FILE);
  return changed.sort();
}

interface Newest {
  readonly n: number;
  readonly by: string;
  readonly reason: string;
}

async function newestEdition(client: ServerClient): Promise<Newest> {
  const [row] = await client.query<Newest>(
    `select n, published_by as by, reason from ${SCHEMA}.edition order by n desc limit 1`,
  );
  return row ? { ...row, n: Number(row.n) } : { n: 0, by: '', reason: '' };
}

interface NewestPins {
  readonly n: number;
  readonly bytes: Buffer;
}

async function newestPins(client: ServerClient): Promise<NewestPins | undefined> {
  const [row] = await client.query<NewestPins>(`select n, bytes from ${SCHEMA}.pins order by n desc limit 1`);
  return row;
}

/** Publishes the files as they are here. Returns the edition's number; undefined if nothing is new. Throws ServerError. */
export async function publish(
  client: ServerClient,
  teller: Teller,
  disk: Disk,
  root: string,
  how: { readonly by: string; readonly reason: string },
): Promise<Result<number | undefined>> {
  const held = heldEdition(disk, root);
  const passed = (n: number) => err(shopProblem('shop.edition-passed', { n }));
  const { n: newest } = await newestEdition(client);
  if (newest !== held.n) return passed(newest);
  if (changedHere(disk, root, held).length === 0) return ok(undefined);
  const n = newest + 1;
  const files = ownFiles(disk, root);
  const hashes: Record<string, string> = {};
  for (const [path, bytes] of files) hashes[path] = await putContent(client, bytes);
  const pins = pinsOf(disk, root);
  const pinsHash = pins.length === 0 ? '' : hashBytes(pins);
  const withPins = pinsHash !== held.pinsHash;
  const took = await unlessTaken(() =>
    teller.tell(({ folder, k }) =>
      client.together([
        {
          text: `insert into ${SCHEMA}.edition (n, published_by, reason) values ($1, $2, $3)`,
          values: [n, how.by, how.reason],
        },
        {
          text: `insert into ${SCHEMA}.edition_file (n, path, sha256) select $1, x.path, x.sha256 from unnest($2::text[], $3::text[]) as x (path, sha256)`,
          values: [n, Object.keys(hashes), Object.values(hashes)],
        },
        ...(withPins
          ? [
              {
                text: `insert into ${SCHEMA}.pins (n, bytes, published_by) values ($1, $2, $3)`,
                values: [held.pins + 1, pins, how.by],
              },
            ]
          : []),
        {
          text: `insert into ${SCHEMA}.news (folder, k, kind, subject, upto) values ($1, $2, 'edition', '', $3)`,
          values: [folder, k, n],
        },
      ]),
    ),
  );
  if (!took) return passed((await newestEdition(client)).n);
  keepHeld(disk, root, {
    ...held,
    n,
    files: hashes,
    by: how.by,
    reason: how.reason,
    pins: withPins ? held.pins + 1 : held.pins,
    pinsHash,
  });
  return ok(n);
}

/**
 * Takes the newest edition, whole or not at all. Returns its number; undefined if it is here already. Throws ServerError.
 * @param drop replaces files that were changed here too
 */
export async function takeEdition(
  client: ServerClient,
  disk: Disk,
  root: string,
  { drop = false } = {},
): Promise<Result<number | undefined>> {
  const held = heldEdition(disk, root);
  const { n, by, reason } = await newestEdition(client);
  if (n === 0 || (n === held.n && !drop)) return ok(undefined);
  const rows = await client.query<{ path: string; sha256: string }>(
    `select path, sha256 from ${SCHEMA}.edition_file where n = $1`,
    [n],
  );
  const wanted = new Map(rows.map(({ path, sha256 }) => [path, sha256]));
  const wrong = [...wanted.keys()].find((path) => !isOwnPath(path));
  if (wrong !== undefined) return err(shopProblem('shop.content-changed/path-workshop', { wrong }));
  const pins = await newestPins(client).catch(() => undefined);
  const here = ownFiles(disk, root);
  if (!drop) {
    const changed = changedHere(disk, root, held).filter((path) => {
      const bytes = path === PINS_FILE ? pinsOf(disk, root) : here.get(path);
      const now = bytes && bytes.length > 0 ? hashBytes(bytes) : undefined;
      const next = path === PINS_FILE ? pins && hashBytes(pins.bytes) : wanted.get(path);
      // What was changed just as the edition has it, or is only not here, is no change to be lost.
      return now !== undefined && now !== next;
    });
    if (changed.length > 0) return err(changedProblem(changed));
  }
  const contents = new Map<string, Buffer>();
  for (const [path, sha256] of wanted) {
    const bytes = here.get(path);
    if (bytes && hashBytes(bytes) === sha256) continue;
    const content = await getContent(client, sha256);
    if (!content.ok) return content;
    contents.set(path, content.value);
  }
  const retired = held.n === 0 ? held.retired : await retiredAfter(client, held.n, held.retired);
  try {
    if (drop) keepAside(disk, root, held, here, wanted);
    for (const [path, bytes] of contents) {
      const parts = path.split('/');
      writeWhole(disk, join(makeFolders(disk, root, parts.slice(0, -1)), parts.at(-1)!), bytes);
    }
    for (const path of here.keys())
      if (!wanted.has(path) && (drop || Object.hasOwn(held.files, path)))
        attempt(() => disk.unlink(join(root, ...path.split('/'))));
    if (pins) writeWhole(disk, join(makeFolders(disk, root, ['keys']), 'pins.json'), pins.bytes, 'private');
    keepHeld(disk, root, {
      ...held,
      n,
      files: Object.fromEntries(wanted),
      by,
      reason,
      retired,
      pins: Number(pins?.n ?? held.pins),
      pinsHash: pins ? hashBytes(pins.bytes) : held.pinsHash,
    });
  } catch (error) {
    return err(diskProblem(error, 'shared', storeWords('while-an-edition-taken')));
  }
  return ok(n);
}

/** Own changes that an edition takes the place of, under shop/dropped/. */
function keepAside(
  disk: Disk,
  root: string,
  held: Held,
  here: ReadonlyMap<string, Buffer>,
  wanted: ReadonlyMap<string, string>,
): void {
  for (const [path, bytes] of here) {
    const sha256 = hashBytes(bytes);
    if (sha256 === held.files[path] || sha256 === wanted.get(path)) continue;
    const parts = ['shop', 'dropped', sha256.slice(0, 8), ...path.split('/')];
    writeWhole(disk, join(makeFolders(disk, root, parts.slice(0, -1)), parts.at(-1)!), bytes);
  }
}

const changedProblem = (changed: readonly string[]): Problem =>
  changed.length > 5
    ? shopProblem('shop.files-changed/more', { files: changed.slice(0, 5), more: changed.length - 5 })
    : shopProblem('shop.files-changed', { files: changed });
