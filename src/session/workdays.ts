/** When people worked in a stage, read from the units' journals: whether a sign-off ran out by absence. */
import { join } from 'node:path';
import type { Procedure } from '../procedure/model.js';
import type { Disk } from '../store/disk.js';
import { listJournals } from '../store/journals.js';
import { logsFolder } from '../store/paths.js';

/** Times (UTC) of a person's answers in a stage, one a unit and day; of units of one profile set, or of any. */
export type Workdays = (person: string, stage: string, profileSet: string | undefined) => readonly string[];

/**
 * Reads every journal once, when first asked; lines that cannot be read are passed over, because whether a journal is whole
 * is said where the unit is opened. A step's stage is the procedure's.
 */
export function workdays(disk: Disk, root: string, procedure: Procedure): Workdays {
  const stageOf = new Map(procedure.stages.flatMap(({ id, steps }) => steps.map((step) => [step.id, id])));
  let days: Map<string, Set<string>> | undefined;
  const read = (): Map<string, Set<string>> => {
    const found = new Map<string, Set<string>>();
    for (const { job, unit } of listJournals(disk, root)) {
      let set = '';
      for (const line of disk
        .read(join(logsFolder(root), job, `${unit}.jsonl`))
        .toString('utf8')
        .split('\n')) {
        if (!/"kind":"(?:answered|opened|revised)"/.test(line)) continue;
        const event = parsed(line);
        if (typeof event?.profileSet === 'string') set = event.profileSet;
        if (event?.kind !== 'answered' || typeof event.step !== 'string') continue;
        const stage = stageOf.get(event.step.split('@')[0]!);
        if (stage === undefined) continue;
        const key = `${event.by} ${stage}`;
        const at = found.get(key) ?? new Set();
        at.add(`${event.at} ${set}`);
        found.set(key, at);
      }
    }
    return found;
  };
  return (person, stage, profileSet) => {
    days ??= read();
    return [...(days.get(`${person} ${stage}`) ?? [])].flatMap((entry) => {
      const [at = '', set] = entry.split(' ');
      return profileSet === undefined || set === profileSet ? [at] : [];
    });
  };
}

interface Line {
  readonly kind?: unknown;
  readonly by?: unknown;
  readonly at?: unknown;
  readonly step?: unknown;
  readonly profileSet?: unknown;
}

function parsed(line: string): Line | undefined {
  try {
    return JSON.parse(line) as Line;
  } catch {
    return undefined;
  }
}
