import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { Journal, readEvents } from '../../src/store/journal.js';
import { measured, noted, opened, stamp } from './samples.js';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const open = () => {
  const made = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
};

it('gives back, from the disk, what was appended', () => {
  const first = open();
  expect(first.events).toEqual([]);
  const written = first.append([opened(), noted('one')], stamp());
  first.append([measured(1220.7)], stamp(1));
  first.close();
  const again = open();
  expect(again.events).toEqual(first.events);
  expect(again.events.slice(0, 2)).toEqual(written);
  expect(again.events.map(({ n }) => n)).toEqual([1, 2, 3]);
  again.append([noted('four')], stamp(2));
  again.close();
  const looked = readEvents(realDisk, root, 'pier-house', 'P01-1');
  expect(looked.ok && looked.value.map(({ n }) => n)).toEqual([1, 2, 3, 4]);
  const text = readFileSync(join(root, 'logs/pier-house/P01-1.jsonl'), 'utf8');
  expect(text.split('\n').length).toBe(5);
});
