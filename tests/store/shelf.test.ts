/** Workshop files of which there may be many or none: none, unknown, twice, changed since, in a folder that cannot be listed. */
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, parse, resolve } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { parseHouse } from '../../src/store/company.js';
import { type Disk, realDisk } from '../../src/store/disk.js';
import { testLogsFolder } from '../../src/store/files.js';
import { findIndex } from '../../src/store/findindex.js';
import { Journal } from '../../src/store/journal.js';
import { journalMarks, listJournals } from '../../src/store/journals.js';
import { makeWorkshop, shippedFolder } from '../../src/store/makeworkshop.js';
import { openWorkshop, SETUPS_FILE, type Workshop } from '../../src/store/workshop.js';
import { opened, stamp } from './samples.js';

const REPOSITORY = resolve(import.meta.dirname, '../..');
let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  for (const each of ['shared', 'procedures'])
    cpSync(join(REPOSITORY, each), join(root, each), { recursive: true });
});
afterEach(() => rmSync(root, { recursive: true, force: true }));
const put = (file: string, text: string | Buffer): void => writeFileSync(join(root, file), text);
const open = (disk: Disk = realDisk): Workshop => {
  const made = openWorkshop(root, disk);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
};

it('a workshop without jobs says that there are none', () => {
  rmSync(join(root, 'shared/jobs'), { recursive: true });
  const { jobs } = open();
  expect(jobs.names).toEqual([]);
  const unknown = { id: 'workshop.unknown', todo: 'The folder holds none.', place: { file: 'shared/jobs' } };
  expect(jobs.get('pier-house')).toMatchObject({ ok: false, problems: [unknown] });
  expect(jobs.text('pier-house')).toMatchObject({ ok: false, problems: [unknown] });
});

it('a text is given as it stands now, even where it is no job any more', () => {
  const { jobs } = open();
  expect(jobs.get('pier-house').ok).toBe(true);
  put('shared/jobs/pier-house.yaml', 'mine\n');
  expect(jobs.get('pier-house').ok).toBe(true);
  expect(jobs.text('pier-house')).toMatchObject({ ok: true, value: { text: 'mine\n' } });
});

it('a folder that cannot be listed is a problem of its own', () => {
  const disk: Disk = {
    ...realDisk,
    list: (path) => {
      if (path.endsWith('jobs')) throw Object.assign(new Error('EACCES'), { code: 'EACCES' });
      return realDisk.list(path);
    },
  };
  const workshop = open(disk);
  expect(workshop.jobs.names).toEqual([]);
  expect(workshop.problems()).toMatchObject([{ id: 'disk.no-right', place: { file: 'shared/jobs' } }]);
});

it('a workshop need not have set-ups, but a file of them must be right', () => {
  expect(open().setups?.map(({ id }) => id)).toContain('saw');
  put(SETUPS_FILE, 'format: pinchrod-setups 1\n');
  const place = { file: SETUPS_FILE };
  expect(openWorkshop(root, realDisk)).toMatchObject({ ok: false, problems: [{ id: 'file.schema', place }] });
  put(SETUPS_FILE, 'a\0');
  expect(openWorkshop(root, realDisk)).toMatchObject({
    ok: false,
    problems: [{ id: 'workshop.not-text', place }],
  });
  rmSync(join(root, SETUPS_FILE));
  expect(open().setups).toBeUndefined();
});

it('house rules of another form are refused', () => {
  expect(parseHouse({ file: 'workshop.yaml', text: 'format: pinchrod-workshop 1\nname: X\n' })).toMatchObject(
    {
      problems: [{ id: 'file.schema' }],
    },
  );
});

it('a new workshop has a logs folder, also in an empty folder and from a program without its manual', () => {
  for (const each of ['procedures', 'shared'])
    cpSync(join(root, each), join(root, 'from', each), { recursive: true });
  mkdirSync(join(root, 'to'));
  const made = makeWorkshop(realDisk, join(root, 'from'), join(root, 'to'));
  expect(made).toMatchObject({ ok: true, value: expect.not.arrayContaining(['logs/README.md']) });
  expect(realDisk.list(join(root, 'to'))).toEqual(['inbox', 'keys', 'logs', 'procedures', 'shared']);
  expect(testLogsFolder(realDisk, join(root, 'to'))).toBeUndefined();
});

it('a program whose folder is gone has no workshop to copy', () => {
  expect(shippedFolder(parse(root).root)).toMatchObject({ ok: false, problems: [{ id: 'init.no-source' }] });
});

it('a logs folder that writes over what was appended is not trusted', () => {
  // Some shares open a file at its beginning, whatever they are asked for.
  const disk: Disk = {
    ...realDisk,
    open: (path, how) => realDisk.open(path, how === 'append' ? 'mend' : how),
  };
  expect(testLogsFolder(disk, root)).toMatchObject({ id: 'disk.does-not-append', place: { file: 'logs' } });
  expect(realDisk.list(join(root, 'logs'))).toEqual([]);
});

it('journals are listed by job and unit, in the order of their names; what is none, or empty, is not', () => {
  expect(listJournals(realDisk, root)).toEqual([]);
  expect(journalMarks(realDisk, root)).toEqual([]);
  for (const [job, unit] of [
    ['quay-end', 'Q1-1'],
    ['pier-house', 'P1-1'],
    ['pier-house', 'P2'],
    ['pier-house', 'P1'],
  ] as const) {
    const journal = Journal.open(realDisk, root, job, unit);
    if (!journal.ok) throw new Error('cannot open');
    journal.value.append([opened(unit, job)], stamp());
    journal.value.close();
  }
  put('logs/pier-house/P3.jsonl', '');
  put('logs/pier-house/CON.jsonl', 'x');
  put('logs/pier-house/P1.lock', 'x');
  put('logs/mine', 'x');
  mkdirSync(join(root, 'logs/pier-house/P4.jsonl'));
  mkdirSync(join(root, 'logs/sources'));
  put('logs/sources/P9.jsonl', 'x');
  const name = ({ job, unit }: { job: string; unit: string }) => `${job}/${unit}`;
  const begun = ['pier-house/P1', 'pier-house/P1-1', 'pier-house/P2', 'quay-end/Q1-1'];
  expect(listJournals(realDisk, root).map(name)).toEqual(
    begun.toSpliced(3, 0, 'pier-house/P3', 'pier-house/P4'),
  );
  expect(journalMarks(realDisk, root).map(name)).toEqual(['pier-house/CON', ...begun]);
  expect(findIndex(realDisk, root).map((each) => [name(each), each.kept !== undefined])).toEqual([
    ['pier-house/CON', false],
    ...begun.map((each) => [each, true]),
  ]);
});
