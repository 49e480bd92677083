/** Repairs a journal's end. Each step leaves it unchanged or repaired, so a crash in between does no harm. */
import { basename, dirname, join } from 'node:path';
import { type Disk, writeAll } from './disk.js';
import { attempt, writeWhole } from './files.js';
import type { JournalPlace } from './paths.js';

/**
 * Saves a torn end beside the journal as `<unit>.jsonl.torn-<n>`, with the first free n, and returns that name. Bytes
 * already saved by a repair that crashed are not saved twice.
 */
export function setAside(disk: Disk, place: JournalPlace, bytes: Buffer): string {
  const folder = dirname(place.file);
  const stem = `${basename(place.file)}.torn-`;
  for (const name of disk.list(folder))
    if (name.startsWith(stem) && name.endsWith('.tmp')) attempt(() => disk.unlink(join(folder, name)));
  for (let n = 1; ; n++) {
    const path = join(folder, `${stem}${n}`);
    const there = disk.stat(path);
    if (there === undefined) writeWhole(disk, path, bytes);
    else if (there.kind !== 'file' || there.size !== bytes.length || !disk.read(path).equals(bytes)) continue;
    else disk.flushFolder(folder);
    return `${stem}${n}`;
  }
}

/** Truncates the journal to its complete lines, durably. */
export function cutTail(disk: Disk, file: string, length: number): void {
  const handle = disk.open(file, 'mend');
  try {
    if (disk.size(handle) > length) disk.truncate(handle, length);
    disk.flush(handle);
  } finally {
    attempt(() => disk.close(handle));
  }
}

/** Adds the missing newline to the last line, durably. */
export function endLine(disk: Disk, file: string): void {
  const handle = disk.open(file, 'append');
  try {
    writeAll(disk, handle, Buffer.from('\n'), file);
    disk.flush(handle);
  } finally {
    attempt(() => disk.close(handle));
  }
}
