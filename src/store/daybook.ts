/** The workshop's day book on the disk: logs/daybook.jsonl, or in a shop one journal a bench; each chained by itself. */
import { ok, type Result } from '../base/problem.js';
import type { Stamp } from '../unit/chain.js';
import { type DaybookBody, type DaybookEntry, daybookWrong } from '../unit/daybook.js';
import { ownJournal, readMerged, tried, workshopJournals } from './benchjournals.js';
import { appendChainLog } from './chainlog.js';
import type { Disk } from './disk.js';
import { DAYBOOK } from './paths.js';
import { enter } from './register/enter.js';
import { storeWords } from './words.js';

/** All entries of every bench, oldest first, with those that were struck out; empty if there is no file. */
export const readDaybook = (disk: Disk, root: string): Result<readonly DaybookEntry[]> =>
  tried(DAYBOOK, storeWords('while-journal-read'), () =>
    readMerged<DaybookEntry>(disk, root, workshopJournals(disk, root, 'daybook'), daybookWrong),
  );

/** Of one bench; none where it cannot be read, which reading all of them says. */
export function daybookLines(disk: Disk, root: string, file: string): readonly DaybookEntry[] {
  const read = readMerged<DaybookEntry>(disk, root, [file], daybookWrong);
  return read.ok ? read.value : [];
}

/** Durable, and known to the bench's register, once it returns ok; where the register cannot be written, a problem comes with it. */
export function appendDaybook(
  disk: Disk,
  root: string,
  body: DaybookBody,
  stamp: Stamp,
): Result<readonly DaybookEntry[]> {
  return tried(DAYBOOK, storeWords('while-written-journal'), () => {
    const path = ownJournal(disk, root, stamp.bench, ['logs', 'daybook'], ['daybook']);
    const kept = appendChainLog<DaybookEntry>(disk, root, { path, wrongWith: daybookWrong }, stamp, () => [
      body,
    ]);
    const last = kept.ok ? kept.value.at(-1) : undefined;
    if (!kept.ok || !last) return kept;
    const head = { file: `${path.join('/')}.jsonl`, events: last.n, hash: last.hash };
    const entered = enter(disk, root, stamp, [{ kind: 'heads', on: 'daybook', heads: [head] }]);
    return entered.ok ? kept : ok(kept.value, entered.problems);
  });
}
