/** The journals of this folder as the shop's lines are laid into them: how far each has come, and what another bench wrote. */
import { dirname } from 'node:path/posix';
import { err, ok, type Result } from '../base/problem.js';
import { appendWhole } from '../store/appended.js';
import { type Disk, diskProblem } from '../store/disk.js';
import { makeFolders } from '../store/files.js';
import { cutTail, setAside } from '../store/journalrepair.js';
import { type Lock, takeLock, thisProcess } from '../store/lock.js';
import type { JournalPlace } from '../store/paths.js';
import { readEnd } from '../store/register/place.js';
import { storeWords } from '../store/words.js';
import { type JournalLine, linesIn, NOTHING, type Tip } from './lines.js';
import { shopProblem } from './messages.js';

/** A line of a journal, and the bytes up to its end. */
export interface FileEnd extends Tip {
  readonly bytes: number;
}

export const BEFORE_ALL: FileEnd = { ...NOTHING, bytes: 0 };

/** The last whole line; `BEFORE_ALL` if there is none. */
export function localEnd(disk: Disk, place: JournalPlace): Result<FileEnd> {
  const end = readEnd(disk, place);
  if (!end.ok) return end.problems[0]?.id === 'register.damaged' ? err(damaged(place)) : end;
  const { n = 0, hash, bytes = 0 } = end.value ?? {};
  return ok(hash === undefined ? BEFORE_ALL : { n, hash, bytes });
}

/** Whole lines behind the cursor. */
export function linesBehind(
  disk: Disk,
  place: JournalPlace,
  cursor: FileEnd,
): Result<readonly JournalLine[]> {
  try {
    const size = disk.stat(place.file)?.size ?? 0;
    if (size <= cursor.bytes) return ok([]);
    const lines = linesIn(disk.tail(place.file, size - cursor.bytes), cursor);
    return lines ? ok(lines) : err(differs(place));
  } catch (error) {
    return err(diskProblem(error, place.shown, storeWords('while-handed-over')));
  }
}

/** Where line `tip.n` ends; a problem if the journal has another line of that number, or none. */
export function cursorAt(disk: Disk, place: JournalPlace, tip: Tip): Result<FileEnd> {
  if (tip.n === 0) return ok(BEFORE_ALL);
  const lines = linesBehind(disk, place, BEFORE_ALL);
  if (!lines.ok) return lines;
  const upto = lines.value.slice(0, tip.n);
  if (upto.at(-1)?.hash !== tip.hash || upto.length !== tip.n) return err(differs(place));
  return ok({ ...tip, bytes: upto.reduce((sum, { bytes }) => sum + bytes.length + 1, 0) });
}

/** What stands behind the lines that the server has is no whole line: it is left alone, and so is all behind it. */
export const damaged = ({ shown }: JournalPlace) =>
  shopProblem(
    'shop.journal-damaged',
    {},
    {
      file: shown,
    },
  );

const differs = ({ shown }: JournalPlace) => shopProblem('shop.journal-differs/journal', {}, { file: shown });

/** Lays whole lines behind the cursor, under the journal's lock; durable once ok. A torn end is kept beside it first. */
export function layBehind(
  disk: Disk,
  root: string,
  place: JournalPlace,
  cursor: FileEnd,
  bytes: Buffer,
  bench: string,
): Result<FileEnd> {
  const lines = linesIn(bytes, cursor);
  if (!lines || lines.length === 0)
    return err(
      shopProblem(
        'shop.line-broken/line',
        { place: place.shown, cursor: cursor.n },
        {
          file: place.shown,
        },
      ),
    );
  return underLock(disk, root, place, bench, () => {
    const end = localEnd(disk, place);
    if (!end.ok) return end;
    if (end.value.n !== cursor.n || end.value.hash !== cursor.hash) return err(differs(place));
    const size = disk.stat(place.file)?.size;
    if (size !== undefined && size > cursor.bytes) {
      setAside(disk, place, disk.tail(place.file, size - cursor.bytes));
      cutTail(disk, place.file, cursor.bytes);
    }
    appendWhole(disk, place, bytes, size === undefined ? undefined : cursor.bytes, () =>
      disk.flushFolder(place.folder),
    );
    const { n, hash } = lines.at(-1)!;
    return ok({ n, hash, bytes: cursor.bytes + bytes.length });
  });
}

/** A problem `lock.…` if somebody has the journal open for writing. */
export function underLock<T>(
  disk: Disk,
  root: string,
  place: JournalPlace,
  bench: string,
  run: () => Result<T>,
): Result<T> {
  let lock: Lock | undefined;
  try {
    makeFolders(disk, root, dirname(place.shown).split('/'));
    const taken = takeLock(disk, place, thisProcess(), { bench, who: '' });
    if (!taken.ok) return taken;
    lock = taken.value;
    return run();
  } catch (error) {
    return err(diskProblem(error, place.shown, storeWords('while-taken-over-shop')));
  } finally {
    lock?.release();
  }
}
