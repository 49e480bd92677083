/**
 * Where the server and this disk went different ways: what was given here becomes a branch, whole, and the journal is the
 * server's from then on. A crash in between leaves what a second attempt finds again.
 */
import { err, ok, type Result } from '../base/problem.js';
import { branchesOf, nextBranch } from '../store/branches.js';
import type { Disk } from '../store/disk.js';
import { writeWhole } from '../store/files.js';
import { branchName, branchNamed, type JournalPlace, journalPlace } from '../store/paths.js';
import { enter, headNow, reachedNow } from '../store/register/enter.js';
import { linesIn, NOTHING } from './lines.js';
import { underLock } from './localfile.js';
import { shopProblem } from './messages.js';

export interface Branched {
  /** `job/unit~1`. */
  readonly branch: string;
  /** Lines that both have. */
  readonly common: number;
  /** Lines that only the branch has. */
  readonly own: number;
}

/** @param server the journal as the server has it. A problem `lock.…` if somebody has it open. */
export function branchOff(
  disk: Disk,
  root: string,
  place: JournalPlace,
  server: Buffer,
  stamp: { readonly bench: string; readonly at: string },
): Result<Branched> {
  return underLock(disk, root, place, stamp.bench, () => {
    const theirs = linesIn(server, NOTHING);
    const here = disk.read(place.file);
    const bytes = here.subarray(0, here.lastIndexOf(0x0a) + 1);
    const ours = linesIn(bytes, NOTHING);
    if (!theirs || !ours)
      return err(
        shopProblem(
          'shop.journal-differs',
          {},
          {
            file: place.shown,
          },
        ),
      );
    const common = ours.findIndex(({ hash }, i) => theirs[i]?.hash !== hash);
    const unit = branchNamed(place.unit)?.unit ?? place.unit;
    const name = branchName(unit, numberOf(disk, root, place.job, unit, bytes));
    const branch = journalPlace(root, place.job, name);
    if (!branch.ok) return branch;
    if (disk.stat(branch.value.file) === undefined) writeWhole(disk, branch.value.file, bytes);
    writeWhole(disk, place.file, server);
    const heads = [place.shown, branch.value.shown].flatMap((file) => headNow(disk, root, file) ?? []);
    // Where the register cannot be written the branch stands all the same; `verify` then says what it misses.
    enter(disk, root, { ...stamp, by: 'nobody' }, [
      {
        kind: 'branched',
        file: place.shown,
        branch: branch.value.shown,
        common,
        heads,
        seen: reachedNow(disk, root),
      },
    ]);
    return ok({ branch: `${place.job}/${name}`, common, own: ours.length - common });
  });
}

/** Of the branch that holds these bytes already, or the first that is free. */
function numberOf(disk: Disk, root: string, job: string, unit: string, bytes: Buffer): number {
  const same = branchesOf(disk, root, job, unit).find((number) => {
    const place = journalPlace(root, job, branchName(unit, number));
    return place.ok && disk.read(place.value.file).equals(bytes);
  });
  return same ?? nextBranch(disk, root, job, unit);
}
