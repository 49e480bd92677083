/** A name erased that a thousand units keep, as a whole process; the journals must be as they were. */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { listJournals } from '../../src/store/journals.js';
import { makeMany } from './manyunits.js';
import { atMost, type Row, type Setting } from './rows.js';

export const title = 'A name erased from all that units keep, whole process';
const UNITS = 1000;

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const folder = join(scratch, 'erase');
  makeMany(root, folder, UNITS);
  const units = listJournals(realDisk, folder);
  const made = realPorts({ workshop: folder });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  // The next line of each names what it rests on, people by the files of their names among it.
  for (const { job, unit } of units) {
    made.value.open(`${job}/${unit}`);
    const acted = made.value.act({ do: 'note', text: 'seen' }, { person: 'jb' });
    if (acted.kind !== 'done') throw new Error(`nothing was written into ${unit}`);
  }
  made.value.close();
  const people = join(folder, 'shared/people.yaml');
  writeFileSync(people, readFileSync(people, 'utf8').replace(/ {2}- id: jb\n(?: {4}.*\n)+/, ''));
  const before = sumOf(folder, units);
  const from = performance.now();
  const { status, stderr } = spawnSync(
    process.execPath,
    [join(root, 'dist/main.js'), '--workshop', folder, 'person', 'erase', 'jb', '--by', 'ot'],
    { input: '', encoding: 'utf8' },
  );
  const seconds = (performance.now() - from) / 1000;
  if (status !== 0) throw new Error(stderr);
  if (sumOf(folder, units) !== before) throw new Error('a journal was changed');
  return [atMost(`of a person whom ${units.length} units keep`, seconds, 10, 's')];
}

const sumOf = (folder: string, units: readonly { readonly job: string; readonly unit: string }[]): string => {
  const sum = createHash('sha256');
  for (const { job, unit } of units) sum.update(readFileSync(join(folder, 'logs', job, `${unit}.jsonl`)));
  return sum.digest('hex');
};
