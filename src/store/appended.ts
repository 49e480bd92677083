/** Lines appended to a file: found under its name and durable on return, or not there. */
import { type Disk, StoreError, storeProblem, writeAll } from './disk.js';
import { attempt, isUnder } from './files.js';
import { cutTail } from './journalrepair.js';
import type { JournalPlace } from './paths.js';

/** Bytes of what was written that are read back. */
const LAST = 200;

/**
 * @param size of the file as it is; undefined: there is none
 * @param settle makes its name durable, where that is still to be done
 */
export function appendWhole(
  disk: Disk,
  place: JournalPlace,
  bytes: Buffer,
  size: number | undefined,
  settle: () => void,
): void {
  const handle = disk.open(place.file, size === undefined ? 'new' : 'append');
  try {
    writeAll(disk, handle, bytes, place.shown);
    disk.flush(handle);
    settle();
    if (!isUnder(disk, place.file, handle, bytes.subarray(-LAST)))
      throw new StoreError(
        storeProblem(
          'journal.replaced',
          {},
          {
            file: place.shown,
          },
        ),
      );
    disk.close(handle);
  } catch (error) {
    const ours = attempt(() => {
      if (!isUnder(disk, place.file, handle)) throw error;
    });
    attempt(() => disk.close(handle));
    if (ours) attempt(() => cutTail(disk, place.file, size ?? 0));
    throw error;
  }
}
