/** Who has a unit, as its lock file says, and whether they can still be there. */
import * as z from 'zod';
import type { Host } from './host.js';

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
export function holderIn(text: string): Holder | undefined {
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

export const sameMachine = (holder: Holder, host: Host): boolean =>
  holder.machine === host.machine && holder.host === host.host;

/** The holder surely no longer runs: same machine, and started anew since, or no such process, or its number is another's now. */
export function isGone(holder: Holder, host: Host): boolean {
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
export function surelyRuns(holder: Holder, host: Host): boolean {
  if (holder.token === host.token) return true;
  if (!sameMachine(holder, host) || holder.boot !== host.boot) return false;
  const started = host.started(holder.pid);
  return started !== undefined && started !== '' && started === holder.started;
}
