/**
 * One writer a unit: a lock file beside the journal that says who has it. It is made whole under another name and then
 * linked, so that nobody reads half of one; the lock of a process that is gone is moved away by a rename, which only one
 * taker can win. A lock of another machine cannot be tested from here: it is honoured until a person takes it over.
 */
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';
import * as z from 'zod';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { type Disk, errorCode, type Stat, storeProblem } from './disk.js';
import { attempt, writeAll } from './files.js';
import type { JournalPlace } from './paths.js';

export interface Lock {
  /** The problem, where the lock is no longer ours: somebody took the unit over or deleted the file. */
  lost(): Problem | undefined;
  release(): void;
}

export interface LockOptions {
  readonly bench: string;
  /** Initials or id of the person; "" for nobody. */
  readonly who: string;
  /** Take it over: a person has made sure that it is not in use there. Only a holder that surely runs here keeps it then. */
  readonly takeOver?: boolean;
}

/** Takes the lock, or says who has it. Throws file errors. The unit's folder must be there. */
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

/** A lock as a person who thinks of taking it over wants to see it. */
export interface LockSeen {
  /** Undefined where the lock cannot be read. */
  readonly holder: Holder | undefined;
  /** When the lock was made, ms since 1970 by the clock of who made it. */
  readonly sinceMs: number;
  /** It surely runs on this machine, so it is not taken over but closed there. */
  readonly runs: boolean;
}

/** The lock that keeps a unit; undefined where there is none, or its holder is gone. */
export function lockSeen(disk: Disk, place: JournalPlace, host: Host): LockSeen | undefined {
  const found = readHolder(disk, place.lock);
  if (found === undefined) return undefined;
  const { holder, sinceMs } = found;
  if (holder && isGone(holder, host)) return undefined;
  return { holder, sinceMs, runs: holder !== undefined && surelyRuns(holder, host) };
}

interface Found {
  /** Absent where it is nothing that a bench would have made: too large, or no file. */
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

/** Why the lock must be left alone, or undefined where it may be moved away. */
function judge(
  { holder, text }: Found,
  host: Host,
  place: JournalPlace,
  takeOver: boolean,
): Problem | undefined {
  if (holder === undefined) return takeOver && text !== undefined ? undefined : held(undefined, place);
  if (isGone(holder, host)) return undefined;
  // Ours, but no claim of this process has it: a file call failed while it was taken or let go.
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
    return storeProblem('lock.unreadable', `${place.unit} is locked, and the lock does not say by whom.`, {
      file,
    });
  return storeProblem(id, `${holderText(holder)} has ${place.unit}.`, { file });
}

/** Makes the lock, whole at once; undefined where one is there. */
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
      // A file system without links (memory sticks): made under its own name, and for a moment empty.
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

/** A lock that cannot be told from another is let go at once: nobody would ever release it, and it keeps all others out. */
function statOrGone(disk: Disk, path: string): Stat | undefined {
  try {
    return disk.stat(path);
  } catch (error) {
    attempt(() => disk.unlink(path));
    throw error;
  }
}

/** Whether it is the lock that was made and no later one; the file's number alone does not tell, since a system gives it out again. */
const isSame = (made: Stat, found: Stat | undefined): boolean =>
  found?.id === made.id && found.modifiedMs === made.modifiedMs;

const NO_LINKS = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV', 'EINVAL']);

function write(disk: Disk, path: string, text: string): void {
  const handle = disk.open(path, 'new');
  try {
    writeAll(disk, handle, Buffer.from(text), path);
    // Or a power cut could leave an empty lock under its name, which nobody could judge.
    disk.flush(handle);
  } finally {
    disk.close(handle);
  }
}

/** Moves a dead lock away. If what was moved is not what was judged, somebody else was quicker: theirs is put back. */
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
    const text = mine
      ? `The lock of ${place.unit} is no longer this bench's.`
      : `${place.unit} was let go here.`;
    return storeProblem('journal.let-go', text, { file: place.shown });
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

/** The locks that this process has, by their file. */
const releases = new Map<string, () => void>();
let watching = false;

// Who has a unit, as its lock file says, and whether they can still be there.

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
/** Who has a unit, as the lock file says. */
export type Holder = z.infer<typeof holderSchema>;

/** The holder that a lock file's text names; undefined where it names none. */
function holderIn(text: string): Holder | undefined {
  try {
    const parsed = holderSchema.safeParse(JSON.parse(text));
    return parsed.success ? parsed.data : undefined;
  } catch {
    return undefined;
  }
}

/** "jb at bench-1 (process 4711 on shopfloor)". */
export const holderText = (holder: Holder): string =>
  `${holder.who === '' ? 'Nobody' : holder.who} at ${holder.bench} (process ${holder.pid} on ${holder.host})`;

const sameMachine = (holder: Holder, host: Host): boolean =>
  holder.machine === host.machine && holder.host === host.host;

/** The holder surely no longer runs: same machine, and started anew since, or no such process, or its number is another's now. */
function isGone(holder: Holder, host: Host): boolean {
  if (!sameMachine(holder, host)) return false;
  if (holder.boot !== host.boot) return true;
  if (holder.pid === host.pid) {
    // Our own number: the lock is ours, or of a dead process that had the number before us.
    const own = host.started(host.pid) ?? '';
    return holder.token !== host.token && (own === '' || holder.started !== own);
  }
  const started = host.started(holder.pid);
  if (started === undefined) return true;
  return started !== '' && holder.started !== '' && started !== holder.started;
}

/**
 * The holder is a process that runs on this machine now. Where the system does not say when a process was started, its
 * number may be another's by now, and only a person can know.
 */
function surelyRuns(holder: Holder, host: Host): boolean {
  if (holder.token === host.token) return true;
  if (!sameMachine(holder, host) || holder.boot !== host.boot) return false;
  const started = host.started(holder.pid);
  return started !== undefined && started !== '' && started === holder.started;
}

// Which machine, and which process on it, this is: what a lock says about its holder, and how a holder is found
// alive.

export interface Host {
  readonly host: string;
  /** Tells machines of one name apart; the host name again where the system has no such id. */
  readonly machine: string;
  /** Changes with every start of the machine; "" where the system does not say. */
  readonly boot: string;
  readonly pid: number;
  /** New in every process. */
  readonly token: string;
  /** When a living process was started, in the system's own count; "" where the system does not say; undefined: no such process. */
  started(pid: number): string | undefined;
}

let own: Host | undefined;

/** As `thisHost`, read once: the machine and the process stay the same, and so must the token that tells its locks. */
export function thisProcess(): Host {
  own ??= thisHost();
  return own;
}

/** The host of this process. Linux says all of it; elsewhere a process is known by its id alone. */
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
    // EPERM: it lives and belongs to somebody else.
    if ((error as NodeJS.ErrnoException).code !== 'EPERM') return undefined;
  }
  // Fields after the command, which stands in brackets and may hold anything: state is the first, start time the twentieth.
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
