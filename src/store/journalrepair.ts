/** Mending the end of a journal. Each step leaves the journal as it was or mended, so a crash between them changes nothing. */
import { basename, dirname, join } from 'node:path';
import type { Disk } from './disk.js';
import { attempt, writeAll, writeWhole } from './files.js';
import type { JournalPlace } from './paths.js';

/**
 * Keeps the bytes of a torn end beside the journal as `<unit>.jsonl.torn-<n>` and gives that name. The first free n; the
 * same bytes kept before (by a mending that crashed) are not kept twice.
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

/** Shortens the journal to its whole lines, durably. */
export function cutTail(disk: Disk, file: string, length: number): void {
  const handle = disk.open(file, 'mend');
  try {
    if (disk.size(handle) > length) disk.truncate(handle, length);
    disk.flush(handle);
  } finally {
    attempt(() => disk.close(handle));
  }
}

/** Gives the last line its line end, durably. */
export function endLine(disk: Disk, file: string): void {
  const handle = disk.open(file, 'append');
  try {
    writeAll(disk, handle, Buffer.from('\n'), file);
    disk.flush(handle);
  } finally {
    attempt(() => disk.close(handle));
  }
}
