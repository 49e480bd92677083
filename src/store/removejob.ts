/** Takes a job out of the workshop's logs, once an archive holds the very same. */
import { join } from 'node:path';
import { bad, good, type Result } from '../base/problem.js';
import { type Files, jobFiles } from './archive.js';
import type { Disk } from './disk.js';
import { diskProblem, raise } from './diskproblem.js';
import { readEvents } from './journal.js';
import { listJournals } from './journals.js';
import { type Claim, claimUnit } from './unitlock.js';

/**
 * Removes the job's files under logs/ that `archived` holds byte for byte, and of the frozen sources those that no other
 * journal names. Nothing is removed where a bench has a unit, or where anything is not in the archive as it is. Gives
 * how many files were removed.
 */
export function removeJob(disk: Disk, root: string, job: string, archived: Files): Result<number> {
  const claims: Claim[] = [];
  try {
    for (const { unit } of listJournals(disk, root).filter((each) => each.job === job)) {
      const claim = claimUnit(disk, root, job, unit, { bench: 'archive', who: '' });
      if (!claim.ok) return claim;
      claims.push(claim.value);
    }
    const now = jobFiles(disk, root, job);
    if (!now.ok) return now;
    const own = [...now.value].filter(([name]) => name.startsWith('logs/') && name !== 'logs/README.md');
    const other = own.find(([name, bytes]) => !holds(archived, name, bytes));
    if (other)
      return bad(
        raise('archive.not-removed', 'The file is not in the archive as it is now.', { file: other[0] }),
      );
    const kept = namedElsewhere(disk, root, job);
    if (!kept.ok) return kept;
    const gone = own.map(([name]) => name).filter((name) => !kept.value.has(name));
    // Seals first, journals next: what is left after a crash holds by itself.
    gone.sort((a, b) => rank(a) - rank(b));
    for (const name of gone) disk.unlink(join(root, ...name.split('/')));
    for (const folder of new Set(gone.map((name) => name.slice(0, name.lastIndexOf('/')))))
      disk.flushFolder(join(root, ...folder.split('/')));
    return good(gone.length);
  } catch (error) {
    return bad(diskProblem(error, `logs/${job}`, 'the job was removed'));
  } finally {
    for (const claim of claims) claim.release();
  }
}

function holds(archived: Files, name: string, bytes: Uint8Array): boolean {
  const there = archived.get(name);
  return there !== undefined && Buffer.compare(there, bytes) === 0;
}

const rank = (name: string): number =>
  /job\.seal/.test(name) ? 0 : name.endsWith('.jsonl') ? 1 : name.startsWith('logs/sources/') ? 3 : 2;

/** Frozen sources that journals of other jobs rest on. A journal that cannot be read keeps all of them. */
function namedElsewhere(disk: Disk, root: string, job: string): Result<ReadonlySet<string>> {
  const names = new Set<string>();
  for (const each of listJournals(disk, root)) {
    if (each.job === job) continue;
    const events = readEvents(disk, root, each.job, each.unit);
    if (!events.ok) return events;
    for (const event of events.value)
      if ('sources' in event)
        for (const hash of Object.values(event.sources)) names.add(`logs/sources/${hash}`);
  }
  return good(names);
}
