/** Moves PINs of an older workshop out of shared/people.yaml, and leaves all else in that file as it was. */
import { join } from 'node:path';
import { err, ok, type Result } from '../base/problem.js';
import { parsePeople } from './company.js';
import { type Disk, diskProblem, storeProblem } from './disk.js';
import { readWorkshopFile } from './filecollection.js';
import { writeWhole } from './files.js';
import { writePins } from './pins.js';
import { storeWords } from './words.js';
import { PEOPLE_FILE } from './workshop.js';

/** A line that holds nothing else, or a member among others in braces. */
const OWN_LINE = /^[ \t]*pin:[ \t]*["']?[0-9a-f]{32}:[0-9a-f]{64}["']?[ \t]*(#.*)?\r?\n/gm;
const IN_BRACES = /,[ \t]*pin:[ \t]*["']?[0-9a-f]{32}:[0-9a-f]{64}["']?(?=[ \t]*[,}])/g;

/** Returns how many were moved. */
export function movePins(disk: Disk, root: string): Result<number> {
  const read = readWorkshopFile(disk, root, PEOPLE_FILE);
  const people = read.ok ? parsePeople(read.value) : read;
  if (!read.ok || !people.ok) return people as Result<never>;
  const pins = Object.fromEntries(
    people.value.flatMap(({ id, pin }) => (pin === undefined ? [] : [[id, pin]])),
  );
  const count = Object.keys(pins).length;
  if (count === 0) return ok(0);
  const text = read.value.text.replace(OWN_LINE, '').replace(IN_BRACES, '');
  const after = parsePeople({ file: PEOPLE_FILE, text });
  if (!after.ok || after.value.some(({ pin }) => pin !== undefined))
    return err(storeProblem('pins.in-people/pins', {}, { file: PEOPLE_FILE }));
  const kept = writePins(disk, root, pins);
  if (!kept.ok) return kept;
  try {
    writeWhole(disk, join(root, ...PEOPLE_FILE.split('/')), Buffer.from(text));
    return ok(count);
  } catch (error) {
    return err(diskProblem(error, PEOPLE_FILE, storeWords('while-pins-taken-out')));
  }
}
