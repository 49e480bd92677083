/** A unit named with its job is found without a look at the files of other jobs, however many there are. */
import { appendFileSync, cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { named } from '../../src/commands/unitload.js';
import { realPorts } from '../../src/session/workshopports.js';
import { type Disk, realDisk } from '../../src/store/disk.js';
import { openWorkshop } from '../../src/store/workshop.js';

const ROOT = join(import.meta.dirname, '..', '..');
let workshop: string;
let touched: string[];
const disk: Disk = {
  ...realDisk,
  read: (path) => {
    touched.push(path);
    return realDisk.read(path);
  },
  list: (path) => {
    touched.push(path);
    return realDisk.list(path);
  },
};

beforeEach(() => {
  touched = [];
  workshop = mkdtempSync(join(tmpdir(), 'pinchrod-named-'));
  for (const part of ['procedures', 'shared'])
    cpSync(join(ROOT, part), join(workshop, part), { recursive: true });
  const jobs = join(workshop, 'shared', 'jobs');
  writeFileSync(
    join(jobs, 'mill-lane.yaml'),
    readFileSync(join(jobs, 'pier-house.yaml'), 'utf8').replaceAll('pier-house', 'mill-lane'),
  );
});
afterEach(() => rmSync(workshop, { recursive: true, force: true }));

const others = () => touched.filter((path) => path.includes('mill-lane'));
const opened = () => {
  const read = openWorkshop(workshop, disk);
  if (!read.ok) throw new Error(read.problems[0]!.text);
  return read.value;
};

it('for a record and a label', () => {
  for (const word of ['pier-house/P02-1', 'PIER-HOUSE/p02-1'])
    expect(named(word, opened(), disk)).toMatchObject({
      ok: true,
      value: { kind: 'unit', name: { job: 'pier-house', unit: 'P02-1' } },
    });
  expect(others()).toEqual([]);
  // By its id alone it could be of any.
  expect(named('P02-1', opened(), disk)).toMatchObject({ ok: false, problems: [{ id: 'record.ambiguous' }] });
  expect(others()).not.toEqual([]);
});

it('for the bench and feed, until somebody looks at the board', () => {
  const ports = realPorts({ workshop, disk });
  if (!ports.ok) throw new Error(ports.problems[0]!.text);
  expect(ports.value.open('pier-house/P02-1')).toEqual({ kind: 'open' });
  const world = ports.value.world();
  expect(world.open?.id).toBe('P02-1');
  expect(others()).toEqual([]);
  expect(world.board.map(({ job }) => job)).toContain('mill-lane');
  ports.value.close();
});

it('a job that is broken is still said by a bench that opens', () => {
  appendFileSync(join(workshop, 'shared', 'jobs', 'mill-lane.yaml'), '\n\tnot yaml: [');
  const ports = realPorts({ workshop, disk });
  if (!ports.ok) throw new Error(ports.problems[0]!.text);
  expect(ports.value.open('pier-house/P02-1')).toEqual({ kind: 'open' });
  expect(ports.value.warnings().map(({ place }) => place?.file)).toContain('shared/jobs/mill-lane.yaml');
  ports.value.close();
});
