/** The index of units: what it finds is what the journals give, whatever happened to it. */
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { findIndex } from '../../src/store/findindex.js';
import { readEvents } from '../../src/store/journal.js';
import { newBenchKey } from '../../src/store/key.js';
import { sha256 } from '../../src/unit/chain.js';
import { summaryOf } from '../../src/unit/summary.js';
import { mayHold, reachesOf, type TraceQuery, traceUnits } from '../../src/unit/trace.js';
import { JOB, realWorkshop } from './realjournals.js';

const UNITS = ['P01-1', 'P02-1', 'P03-1'];
let folder: string;
let model: string;
let root: string;
const index = () => join(root, 'logs/index/find.json');
const journal = (unit: string) => join(root, `logs/${JOB}/${unit}.jsonl`);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'pinchrod-find-'));
  model = join(folder, 'model');
  for (const [name, bytes] of realWorkshop(UNITS).files) {
    mkdirSync(dirname(join(model, name)), { recursive: true });
    writeFileSync(join(model, name), bytes);
  }
});
beforeEach(() => {
  root = join(folder, 'shop');
  rmSync(root, { recursive: true, force: true });
  cpSync(model, root, { recursive: true });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const eventsOf = (unit: string) => {
  const read = readEvents(realDisk, root, JOB, unit);
  if (!read.ok) throw new Error(read.problems[0]!.text);
  return read.value;
};
const byJournals = () =>
  UNITS.map((unit) => ({
    job: JOB,
    unit,
    kept: { ...summaryOf(eventsOf(unit)), reaches: reachesOf(eventsOf(unit)) },
  }));

it('says what the journals give, at first and again', () => {
  expect(findIndex(realDisk, root)).toEqual(byJournals());
  const written = statSync(index()).mtimeMs;
  expect(findIndex(realDisk, root)).toEqual(byJournals());
  expect(statSync(index()).mtimeMs).toBe(written);
});

it.each<[string, () => void]>([
  ['deleted', () => rmSync(index())],
  ['cut short', () => writeFileSync(index(), readFileSync(index()).subarray(0, 500))],
  ['edited', () => writeFileSync(index(), readFileSync(index(), 'utf8').replace('"lot":["', '"lot":["x'))],
  ['of another form', () => writeFileSync(index(), '{}')],
  [
    'made of other journals',
    () => writeFileSync(index(), readFileSync(index(), 'utf8').replaceAll('P02-1', 'P09-1')),
  ],
])('is made again where it was %s', (_, damage) => {
  findIndex(realDisk, root);
  damage();
  expect(findIndex(realDisk, root)).toEqual(byJournals());
});

it('written to hide a unit is not believed where a bench has a key, nor is one without a signature', () => {
  const key = newBenchKey(realDisk, root, 'bench-1');
  if (!key.ok) throw new Error(key.problems[0]!.text);
  const signed = join(root, `logs/index/find-${key.value.id}.json`);
  findIndex(realDisk, root);
  expect(existsSync(index())).toBe(false);
  const written = statSync(signed).mtimeMs;
  expect(findIndex(realDisk, root)).toEqual(byJournals());
  expect(statSync(signed).mtimeMs).toBe(written);
  // Somebody who may write files but not read the key: all lots of a unit taken out, the sum made to fit.
  const [format, mark, text] = readFileSync(signed, 'utf8').split('\n');
  const forged = text!.replaceAll(/"lot":\[[^\]]*\]/g, '"lot":[]');
  expect(forged).not.toBe(text);
  for (const said of [mark!, sha256(forged)]) {
    writeFileSync(signed, `${format}\n${said}\n${forged}\n`);
    writeFileSync(index(), `${format}\n${said}\n${forged}\n`);
    expect(findIndex(realDisk, root)).toEqual(byJournals());
  }
});

it('reads again what went on, was exchanged, or is gone', () => {
  findIndex(realDisk, root);
  const lines = readFileSync(journal('P02-1'), 'utf8').split('\n');
  writeFileSync(journal('P02-1'), `${lines.slice(0, 40).join('\n')}\n`);
  expect(findIndex(realDisk, root)).toEqual(byJournals());
  // The same length and time, but another file.
  const { atime, mtime } = statSync(journal('P02-1'));
  writeFileSync(`${journal('P02-1')}.new`, readFileSync(journal('P02-1')));
  rmSync(journal('P02-1'));
  cpSync(`${journal('P02-1')}.new`, journal('P02-1'));
  utimesSync(journal('P02-1'), atime, mtime);
  rmSync(`${journal('P02-1')}.new`);
  expect(findIndex(realDisk, root)).toEqual(byJournals());
  rmSync(journal('P03-1'));
  expect(findIndex(realDisk, root).map(({ unit }) => unit)).toEqual(['P01-1', 'P02-1']);
});

it('keeps nothing of a journal that cannot be read, and is not made where there are no logs', () => {
  writeFileSync(journal('P01-1'), 'x\n');
  expect(findIndex(realDisk, root)[0]).toEqual({ job: JOB, unit: 'P01-1' });
  rmSync(join(root, 'logs'), { recursive: true });
  expect(findIndex(realDisk, root)).toEqual([]);
  expect(existsSync(join(root, 'logs'))).toBe(false);
});

it('leads to every unit in which something is found, by every code there is', () => {
  for (const unit of UNITS) {
    const reaches = reachesOf(eventsOf(unit));
    let codes = 0;
    for (const [key, list] of Object.entries(reaches))
      for (const code of list) {
        const query: TraceQuery = { [key]: code };
        expect(
          traceUnits([{ unit, job: JOB, events: eventsOf(unit) }], query).length,
          `${key} ${code}`,
        ).toBeGreaterThan(0);
        codes++;
      }
    expect(codes).toBeGreaterThan(5);
    expect(mayHold(reaches, { lot: 'no such lot' })).toBe(false);
    expect(mayHold(reaches, { person: reaches.person[0]!.toUpperCase() })).toBe(true);
  }
});
