/** Evidence files that an action names. */
import { isAbsolute, join, resolve } from 'node:path';
import { err, ok, problemFactory, type Result } from '../base/problem.js';
import type { Disk } from '../store/disk.js';
import { type FoundEvidence, findEvidence } from '../store/hashed.js';
import type { BenchAction } from '../unit/actions.js';
import { BENCH_MESSAGES } from './messages.js';

const raise = problemFactory(BENCH_MESSAGES);

/** The workshop's folder into which a camera or a phone puts pictures. */
const INBOX = 'inbox';
/** Instead of a path: the newest file of the inbox folder. */
const NEWEST = 'newest';

/** `inbox/IMG_0107.jpg`: the newest ordinary file of the inbox folder; undefined where there is none. */
export function newestInInbox(disk: Disk, root: string): string | undefined {
  const folder = join(root, INBOX);
  let names: readonly string[];
  try {
    names = disk.list(folder);
  } catch {
    return undefined;
  }
  let newest: { readonly name: string; readonly at: number } | undefined;
  for (const name of [...names].sort()) {
    // What begins with a point is half copied, or a system's own.
    const stat = name.startsWith('.') ? undefined : disk.stat(join(folder, name));
    if (stat?.kind !== 'file' || stat.size === 0) continue;
    if (!newest || stat.modifiedMs >= newest.at) newest = { name, at: stat.modifiedMs };
  }
  return newest && `${INBOX}/${newest.name}`;
}

const NOTHING = ok<Record<string, FoundEvidence>>({});

/** What was found, by the name that the action uses. Not ok where a file is not there or cannot be kept. */
export function findNamed(
  disk: Disk,
  root: string,
  job: string,
  action: BenchAction,
): Result<Record<string, FoundEvidence>> {
  const names = 'evidence' in action ? (action.evidence ?? []) : [];
  if (names.length === 0) return NOTHING;
  const found: Record<string, FoundEvidence> = {};
  for (const name of names) {
    const path = name === NEWEST ? newestInInbox(disk, root) : name;
    if (path === undefined) return err(raise('bench.inbox-empty', `There is no file in ${INBOX}/.`));
    const result = findEvidence(disk, job, isAbsolute(path) ? path : resolve(root, path));
    if (!result.ok) return result;
    found[name] = result.value;
  }
  return ok(found);
}
