/** Journals cut at every byte of their last lines, and with every byte flipped: found every time, and never made worse. */
import { beforeAll, expect, it } from 'vitest';
import { writeWhole } from '../../src/store/files.js';
import { pinSources } from '../../src/store/hashed.js';
import { Journal } from '../../src/store/journal.js';
import { readJournal } from '../../src/store/readjournal.js';
import { verifyTree } from '../../src/store/verify.js';
import { CrashDisk } from './crashdisk.js';
import { measured, noted, opened, stamp } from './samples.js';
import { prepare, ROOT } from './writers.js';

const FOLDER = `${ROOT}/logs/pier-house`;
const FILE = `${FOLDER}/P01-1.jsonl`;
let disk: CrashDisk;
let whole: Buffer;
const lines = (): string[] => whole.toString('utf8').split('\n').slice(0, -1);
const open = () => Journal.open(disk, ROOT, 'pier-house', 'P01-1');

beforeAll(() => {
  disk = new CrashDisk();
  prepare(disk);
  const sources = pinSources(disk, ROOT, { limits: 'format: x\n' });
  const made = open();
  if (!made.ok) throw new Error('cannot open');
  made.value.append([opened('P01-1', 'pier-house', sources)], stamp());
  for (let i = 1; i < 4; i++)
    made.value.append([i % 2 ? measured(1220 + i) : noted(`line ${i}: "é" 日本 😀`)], stamp(i));
  made.value.close();
  whole = disk.read(FILE);
});

/** Puts the bytes there, and takes away what an earlier case set aside. */
function put(bytes: Buffer): void {
  for (const name of disk.list(FOLDER)) disk.unlink(`${FOLDER}/${name}`);
  writeWhole(disk, FILE, bytes);
}
const ids = (): string[] => verifyTree(disk, ROOT).faults.map(({ id }) => id);
const torn = (): string[] => disk.list(FOLDER).filter((name) => name.includes('torn'));

it('untouched gives no fault', () => {
  put(whole);
  expect(verifyTree(disk, ROOT)).toMatchObject({
    holds: true,
    faults: [],
    notes: [],
    journals: 1,
    events: 4,
    sources: 1,
  });
});

it('cut at every byte of the last two lines: named, mended to a beginning, the same when mended again', () => {
  const from = whole.length - Buffer.byteLength(`${lines().slice(-2).join('\n')}\n`);
  for (let at = from; at < whole.length; at++) {
    put(whole.subarray(0, at));
    const boundary = whole[at - 1] === 0x0a;
    if (boundary) expect(ids()).toEqual([]);
    else expect(ids()).toEqual([expect.stringMatching(/torn-end|no-line-end/)]);
    const made = open();
    if (!made.ok) throw new Error(`cut at ${at}: ${made.problems[0]!.text}`);
    const count = made.value.events.length;
    made.value.close();
    expect(count).toBe(at === whole.length - 1 ? 4 : at >= whole.lastIndexOf(0x0a, whole.length - 2) ? 3 : 2);
    const mended = disk.read(FILE);
    expect(mended.equals(whole.subarray(0, mended.length))).toBe(true);
    expect(ids()).toEqual([]);
    const aside = torn();
    expect(aside.length).toBe(boundary || whole[at] === 0x0a ? 0 : 1);
    if (aside.length > 0) {
      expect(made.warnings[0]).toMatchObject({ id: 'journal.torn' });
      const kept = disk.read(`${FOLDER}/${aside[0]}`);
      expect(Buffer.concat([mended, kept]).equals(whole.subarray(0, at))).toBe(true);
    }
    const again = open();
    expect(again.ok && again.warnings).toEqual([]);
    if (again.ok) again.value.close();
    expect(disk.read(FILE).equals(mended)).toBe(true);
  }
}, 60_000);

it('every byte of the last two lines flipped: found, and the bench stops without touching the file', () => {
  const from = whole.length - Buffer.byteLength(`${lines().slice(-2).join('\n')}\n`);
  for (let at = from; at < whole.length; at++)
    for (const bit of [0x01, 0x20, 0x80]) {
      const bytes = Buffer.from(whole);
      bytes[at]! ^= bit;
      const read = readJournal(bytes, { of: { job: 'pier-house', unit: 'P01-1' } });
      expect(read.faults.length + (read.tail ? 1 : 0), `byte ${at} bit ${bit}`).toBeGreaterThan(0);
      // A flipped bit makes no torn end: what was acknowledged is never set aside for it.
      expect(read.faults.length, `byte ${at} bit ${bit}`).toBeGreaterThan(0);
      expect(read.faults[0]!.line).toBe(at < from + Buffer.byteLength(lines().at(-2)!) + 1 ? 3 : 4);
    }
  const bytes = Buffer.from(whole);
  bytes[whole.length - 50]! ^= 1;
  put(bytes);
  const made = open();
  expect(made.ok).toBe(false);
  if (!made.ok)
    expect(made.problems[0]).toMatchObject({
      id: 'journal.damaged',
      place: { file: 'logs/pier-house/P01-1.jsonl', line: 4 },
    });
  expect(disk.read(FILE).equals(bytes)).toBe(true);
  expect(torn()).toEqual([]);
});

it('a tail of NUL bytes, alone or behind a piece of a line, is a torn end', () => {
  const last = lines().at(-1)!;
  const before = whole.subarray(0, whole.length - Buffer.byteLength(last) - 1);
  const toBlock = 512 - (before.length % 512);
  expect(toBlock).toBeLessThan(Buffer.byteLength(last));
  for (const tail of [
    Buffer.alloc(1),
    Buffer.alloc(4096),
    Buffer.concat([Buffer.from(last.slice(0, 40)), Buffer.alloc(99)]),
    Buffer.concat([Buffer.alloc(toBlock), Buffer.from(last).subarray(toBlock), Buffer.from('\n')]),
  ]) {
    put(Buffer.concat([before, tail]));
    expect(ids()).toEqual(['verify.torn-end']);
    const made = open();
    expect(made.ok && made.value.events.length).toBe(3);
    if (made.ok) made.value.close();
  }
});
