/**
 * One writer per unit: a lock file beside the journal names the holder. It is written under a temporary name and then
 * linked, so nobody reads a partial lock. A dead process's lock is moved away by rename, which only one taker can win.
 * A lock held on another machine cannot be checked from here: it is honoured until a person takes it over.
 */
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import * as z from 'zod';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import type { Message } from '../base/words.js';
import { type Disk, errorCode, type Stat, storeProblem, writeAll } from './disk.js';
import { attempt } from './files.js';
import type { JournalPlace } from './paths.js';
import { storeWords } from './words.js';

export interface Lock {
  /** A problem if the lock is no longer ours: somebody took over the unit or deleted the file. */
  lost(): Problem | undefined;
  release(): void;
}

export interface LockOptions {
  readonly bench: string;
  /** Person's initials or id; "" for nobody. */
  readonly who: string;
  /** Force it: a person checked that nobody uses it there. Only a holder known to run here still keeps it. */
  readonly takeOver?: boolean;
}

/** Takes the lock or reports its holder. Throws file errors. The unit's folder must exist. */
export function takeLock(disk: Disk, place: JournalPlace, host: Host, options: LockOptions): Result<Lock> {
  const own: Holder = {
    host: host.host,
    machine: host.machine,
    boot: host.boot,
    pid: host.pid,
    started: host.started(host.pid) ?? '',
    token: host.token,
    bench: options.bench,
    who: options.who,
  };
  const text = `${JSON.stringify(own)}\n`;
  for (let tries = 0; ; tries++) {
    const made = create(disk, place.lock, text, host.token);
    if (made) return ok(lockOf(disk, place, made));
    const found = readHolder(disk, place.lock);
    const refused = found && judge(found, host, place, options.takeOver === true);
    if (refused || tries >= 20) return err(refused ?? held(found?.holder, place));
    if (found) moveAway(disk, place.lock, found.text, host.token);
  }
}

/** A lock as shown to a person considering a takeover. */
export interface LockSeen {
  readonly holder: Holder | undefined;
  /** When the lock was created, ms since 1970, by the clock of the machine that made it. */
  readonly sinceMs: number;
  /** The holder is known to run on this machine, so close it there instead of taking over. */
  readonly runs: boolean;
}

/** The lock held on a unit; undefined if there is none or its holder is gone. */
export function lockSeen(disk: Disk, place: JournalPlace, host: Host): LockSeen | undefined {
  const found = readHolder(disk, place.lock);
  if (found === undefined) return undefined;
  const { holder, sinceMs } = found;
  if (holder && isGone(holder, host)) return undefined;
  return { holder, sinceMs, runs: holder !== undefined && surelyRuns(holder, host) };
}

interface Found {
  /** Absent if no bench could have written it: too large, or not a file. */
  readonly text?: string;
  readonly holder: Holder | undefined;
  readonly sinceMs: number;
}

function readHolder(disk: Disk, path: string): Found | undefined {
  const stat = disk.stat(path);
  if (stat === undefined) return undefined;
  const sinceMs = stat.modifiedMs;
  if (stat.kind !== 'file' || stat.size > 10_000) return { holder: undefined, sinceMs };
  try {
    const text = disk.read(path).toString('utf8');
    return { text, holder: holderIn(text), sinceMs };
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return undefined;
    throw error;
  }
}

/** Why the lock must be left alone; undefined if it may be moved away. */
function judge(
  { holder, text }: Found,
  host: Host,
  place: JournalPlace,
  takeOver: boolean,
): Problem | undefined {
  if (holder === undefined) return takeOver && text !== undefined ? undefined : held(undefined, place);
  if (isGone(holder, host)) return undefined;
  // It is ours but not in use by this process: a file call failed while taking or releasing it.
  if (holder.token === host.token && !releases.has(place.lock)) return undefined;
  if (takeOver && !surelyRuns(holder, host)) return undefined;
  return held(holder, place, sameMachine(holder, host) ? 'lock.held' : 'lock.other-machine');
}

function held(
  holder: Holder | undefined,
  place: JournalPlace,
  id: 'lock.held' | 'lock.other-machine' = 'lock.held',
): Problem {
  const file = place.shown.replace(/jsonl$/, 'lock');
  if (holder === undefined)
    return storeProblem(
      'lock.unreadable',
      { unit: place.unit },
      {
        file,
      },
    );
  return storeProblem(id, { holder: holderText(holder), unit: place.unit }, { file });
}

/** Creates the lock atomically; undefined if one exists. */
function create(disk: Disk, path: string, text: string, token: string): Stat | undefined {
  const temporary = `${path}.${token}.tmp`;
  attempt(() => disk.unlink(temporary));
  try {
    write(disk, temporary, text);
    try {
      disk.link(temporary, path);
    } catch (error) {
      const code = errorCode(error);
      if (code === 'EEXIST') return undefined;
      if (!NO_LINKS.has(code ?? '')) throw error;
      // File system without hard links (USB sticks): create it directly, so it is briefly empty.
      try {
        write(disk, path, text);
      } catch (second) {
        if (errorCode(second) === 'EEXIST') return undefined;
        throw second;
      }
    }
    return statOrGone(disk, path);
  } finally {
    attempt(() => disk.unlink(temporary));
  }
}

/** If the new lock cannot be identified, drop it: nobody would ever release it, and it would block everyone. */
function statOrGone(disk: Disk, path: string): Stat | undefined {
  try {
    return disk.stat(path);
  } catch (error) {
    attempt(() => disk.unlink(path));
    throw error;
  }
}

/** Whether this is the lock we made. The inode number alone does not tell, because file systems reuse it. */
const isSame = (made: Stat, found: Stat | undefined): boolean =>
  found?.id === made.id && found.modifiedMs === made.modifiedMs;

const NO_LINKS = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV', 'EINVAL']);

function write(disk: Disk, path: string, text: string): void {
  const handle = disk.open(path, 'new');
  try {
    writeAll(disk, handle, Buffer.from(text), path);
    // Without this, a power cut could leave an empty lock that names no holder.
    disk.flush(handle);
  } finally {
    disk.close(handle);
  }
}

/** Moves a dead lock away. If another process has replaced it since we judged it, puts theirs back. */
function moveAway(disk: Disk, path: string, judged: string | undefined, token: string): void {
  const aside = `${path}.${token}.gone`;
  try {
    disk.rename(path, aside);
  } catch (error) {
    if (errorCode(error) === 'ENOENT') return;
    throw error;
  }
  if (disk.read(aside).toString('utf8') !== judged) attempt(() => disk.link(aside, path));
  disk.unlink(aside);
}

function lockOf(disk: Disk, place: JournalPlace, made: Stat): Lock {
  let mine = true;
  const lost = (): Problem | undefined => {
    if (mine && isSame(made, disk.stat(place.lock))) return undefined;
    return storeProblem(
      mine ? 'journal.let-go/lock' : 'journal.let-go/here',
      { unit: place.unit },
      { file: place.shown },
    );
  };
  const release = (): void => {
    if (!mine) return;
    releases.delete(place.lock);
    attempt(() => {
      if (lost() === undefined) disk.unlink(place.lock);
    });
    mine = false;
  };
  releases.set(place.lock, release);
  if (!watching) {
    watching = true;
    process.once('exit', () => {
      for (const each of [...releases.values()]) attempt(each);
    });
  }
  return { lost, release };
}

/** By path. */
const releases = new Map<string, () => void>();
let watching = false;

// Who holds a unit according to its lock file, and whether that process can still be alive.

const holderSchema = z.object({
  host: z.string(),
  machine: z.string(),
  boot: z.string(),
  pid: z.number().int().positive(),
  started: z.string(),
  token: z.string(),
  bench: z.string(),
  who: z.string(),
});
export type Holder = z.infer<typeof holderSchema>;

/** Undefined if the text names no holder. */
function holderIn(text: string): Holder | undefined {
  try {
    const parsed = holderSchema.safeParse(JSON.parse(text));
    return parsed.success ? parsed.data : undefined;
  } catch {
    return undefined;
  }
}

/** "jb at bench-1 (process 4711 on shopfloor)". */
export const holderText = ({ who, bench, pid, host }: Holder): Message =>
  who === ''
    ? storeWords('holder', { bench, pid: String(pid), host })
    : storeWords('holder-who', { who, bench, pid: String(pid), host });

const sameMachine = (holder: Holder, host: Host): boolean =>
  holder.machine === host.machine && holder.host === host.host;

/** Certainly dead: on this machine, and it rebooted since, the process is gone, or its pid has been reused. */
function isGone(holder: Holder, host: Host): boolean {
  if (!sameMachine(holder, host)) return false;
  if (holder.boot !== host.boot) return true;
  if (holder.pid === host.pid) {
    // Our own pid: either our lock, or one from a dead process that had this pid before us.
    const own = host.started(host.pid) ?? '';
    return holder.token !== host.token && (own === '' || holder.started !== own);
  }
  const started = host.started(holder.pid);
  if (started === undefined) return true;
  return started !== '' && holder.started !== '' && started !== holder.started;
}

/** Known to run on this machine. Without process start times the pid may be reused, and only a person can tell. */
function surelyRuns(holder: Holder, host: Host): boolean {
  if (holder.token === host.token) return true;
  if (!sameMachine(holder, host) || holder.boot !== host.boot) return false;
  const started = host.started(holder.pid);
  return started !== undefined && started !== '' && started === holder.started;
}

// Identity of this machine and process: what a lock records, and how we tell whether its holder is alive.

export interface Host {
  readonly host: string;
  /** Distinguishes machines with the same name; the host name again if the system has no such id. */
  readonly machine: string;
  /** Changes on every boot; "" if the system does not report it. */
  readonly boot: string;
  readonly pid: number;
  /** New for every process. */
  readonly token: string;
  /** Start time of a process in system units; "" if not reported, undefined if there is no such process. */
  started(pid: number): string | undefined;
}

let own: Host | undefined;

/** `thisHost`, cached: machine and process do not change, and the token must not, because it identifies our locks. */
export function thisProcess(): Host {
  own ??= thisHost();
  return own;
}

/** Host info for this process. Linux provides all of it; elsewhere a process is known by its pid alone. */
export function thisHost(): Host {
  const host = hostname();
  return {
    host,
    machine: firstLine('/etc/machine-id') || host,
    boot: firstLine('/proc/sys/kernel/random/boot_id'),
    pid: process.pid,
    token: randomBytes(8).toString('hex'),
    started,
  };
}

function started(pid: number): string | undefined {
  try {
    process.kill(pid, 0);
  } catch (error) {
    // EPERM: it is alive but belongs to another user.
    if ((error as NodeJS.ErrnoException).code !== 'EPERM') return undefined;
  }
  // Fields after the bracketed command, which may contain anything: the first is the state, the 20th the start time.
  const stat = firstLine(`/proc/${pid}/stat`);
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
  if (fields[0] === 'Z' || fields[0] === 'X') return undefined;
  return fields[19] ?? '';
}

function firstLine(path: string): string {
  try {
    return readFileSync(path, 'utf8').split('\n')[0]!.trim();
  } catch {
    return '';
  }
}
