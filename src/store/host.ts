/** Which machine, and which process on it, this is: what a lock says about its holder, and how a holder is found alive. */
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { hostname } from 'node:os';

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
