/** logs/setups.jsonl: first-offs and what ended them. The workshop's own journal, with the chain of a unit's. */
import type { Stamp } from '../build/chain.js';
import type { EventBody, JournalEvent } from '../build/events.js';
import type { Result } from '../ground/problem.js';
import { appendChainLog, readChainLog } from './chainlog.js';
import type { Disk } from './disk.js';
import { eventWrong } from './readjournal.js';

const SETUP_LOG = ['logs', 'setups'] as const;
const KINDS: ReadonlySet<string> = new Set(['first-off', 'setup-ended']);

/** Every event of set-ups, oldest first; none where there is no file. */
export const readSetupLog = (disk: Disk, root: string): Result<readonly JournalEvent[]> =>
  readChainLog<JournalEvent>(disk, root, { path: SETUP_LOG, wrongWith: setupEventWrong });

/** Appends what was decided; durable when it returns ok. */
export function appendSetupLog(
  disk: Disk,
  root: string,
  bodies: readonly EventBody[],
  stamp: Stamp,
): Result<readonly JournalEvent[]> {
  return appendChainLog<JournalEvent>(
    disk,
    root,
    { path: SETUP_LOG, wrongWith: setupEventWrong },
    stamp,
    () => bodies,
  );
}

/** Undefined where the value is an event of this journal. */
export function setupEventWrong(event: unknown): string | undefined {
  const wrong = eventWrong(event);
  if (wrong !== undefined) return wrong;
  const { kind } = event as JournalEvent;
  return KINDS.has(kind) ? undefined : `"${kind}" belongs into a unit's journal`;
}
