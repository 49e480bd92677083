/**
 * What this account of the machine knows of a workshop by itself: the last head of each register that it wrote, the keys
 * it began with, and a secret for caches. It lies in the account's state folder, outside the workshop, so that who has
 * only the workshop's files can neither read nor put it back. Losing it loses nothing but what it would have found.
 */
import { createHmac, randomBytes } from 'node:crypto';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import * as z from 'zod';
import { sha256 } from '../../unit/chain.js';
import { type RegisterHead, registerHead } from '../../unit/events.js';
import type { Disk } from '../disk.js';
import { attempt, writeSpare, writeWhole } from '../files.js';

/** The state folder of the user (XDG Base Directory Specification on Linux); PINCHROD_STATE names another. */
export function stateFolder(
  env: NodeJS.ProcessEnv = process.env,
  platform: NodeJS.Platform = process.platform,
  home: string = homedir(),
): string {
  if (env.PINCHROD_STATE) return resolve(env.PINCHROD_STATE);
  if (platform === 'win32') return join(env.LOCALAPPDATA ?? join(home, 'AppData', 'Local'), 'pinchrod');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'pinchrod');
  const state = env.XDG_STATE_HOME?.startsWith('/') ? env.XDG_STATE_HOME : join(home, '.local', 'state');
  return join(state, 'pinchrod');
}

const keptSchema = z.strictObject({
  format: z.literal('pinchrod-known 1'),
  workshop: z.string(),
  /** Last of this bench's register. */
  head: registerHead.optional(),
  /** Fingerprint of a first key that this account made or met first. */
  firstKey: z.string().optional(),
});

export interface KnownHere {
  readonly heads: readonly RegisterHead[];
  /** Fingerprints of first keys. */
  readonly firstKeys: readonly string[];
}

const LARGEST = 10_000;

/** Empty if this account never wrote here. */
export function knownHere(disk: Disk, root: string): KnownHere {
  const heads: RegisterHead[] = [];
  const firstKeys: string[] = [];
  attempt(() => {
    const folder = folderOf(disk, root);
    if (disk.stat(folder)?.kind !== 'folder') return;
    for (const name of disk.list(folder)) {
      const path = join(folder, name);
      const stat = disk.stat(path);
      if (stat?.kind !== 'file' || stat.size > LARGEST || !name.endsWith('.json')) continue;
      // A power cut may have torn one: then it says nothing.
      attempt(() => {
        const kept = keptSchema.parse(JSON.parse(disk.read(path).toString('utf8')));
        if (kept.head) heads.push(kept.head);
        if (kept.firstKey !== undefined) firstKeys.push(kept.firstKey);
      });
    }
  });
  return { heads, firstKeys };
}

/** One file a bench, and one a first key, so that two processes never write the same. Never throws. */
export const keepHeadHere = (disk: Disk, root: string, head: RegisterHead): void =>
  keep(disk, root, `head-${head.bench}`, { head });
export const keepFirstKeyHere = (disk: Disk, root: string, firstKey: string): void =>
  keep(disk, root, `key-${firstKey.slice(0, 16)}`, { firstKey });

function keep(disk: Disk, root: string, name: string, what: Partial<z.infer<typeof keptSchema>>): void {
  attempt(() => {
    const folder = folderOf(disk, root);
    folders(disk, folder);
    const text = JSON.stringify({ format: 'pinchrod-known 1', workshop: root, ...what });
    writeSpare(disk, join(folder, `${name}.json`), Buffer.from(`${text}\n`));
  });
}

/** A new workshop stands where another may have stood. */
export function forgetHere(disk: Disk, root: string): void {
  attempt(() => {
    const folder = folderOf(disk, root);
    if (disk.stat(folder)?.kind !== 'folder') return;
    for (const name of disk.list(folder)) attempt(() => disk.unlink(join(folder, name)));
  });
}

/** Marks a text as written by this account; undefined if the account can keep nothing. */
export function markHere(disk: Disk, text: string | Uint8Array): string | undefined {
  let mark: string | undefined;
  attempt(() => {
    const file = join(stateFolder(), 'secret');
    if (disk.stat(file) === undefined) {
      folders(disk, stateFolder());
      writeWhole(disk, file, Buffer.from(randomBytes(32).toString('hex')), 'private');
    }
    const secret = disk.read(file).toString('utf8').trim();
    if (/^[0-9a-f]{64}$/.test(secret)) mark = createHmac('sha256', secret).update(text).digest('hex');
  });
  return mark;
}

function folderOf(disk: Disk, root: string): string {
  let real = root;
  attempt(() => {
    real = disk.real(root);
  });
  return join(stateFolder(), 'workshops', sha256(real).slice(0, 32));
}

/** Only the account may look into them. */
function folders(disk: Disk, path: string): void {
  if (disk.stat(path)?.kind === 'folder') return;
  if (dirname(path) !== path) folders(disk, dirname(path));
  attempt(() => disk.mkdir(path));
}
