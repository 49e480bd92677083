/**
 * A workshop with many units of one kind: one is built by the bench's real ports, the others are its journal with other names, later
 * times and other readings, chained anew. All data is invented.
 */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { problemText } from '../../src/base/problem.js';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { chainHash, chainLine, FIRST_PREV } from '../../src/unit/chain.js';
import { withoutRegister } from '../registerless.js';
import { buildUnit, JOB } from './eight.js';

const HOUR = 3_600_000;

export interface ManyUnits {
  readonly root: string;
  readonly job: string;
}

/**
 * @param count of units, one an hour
 * @param off by how much a reading of a unit differs, mm: unit from 1, check without its light, key of a set
 */
export function manyUnits(
  count: number,
  off: (unit: number, check: string, key: string) => number,
): ManyUnits {
  const root = join(mkdtempSync(join(tmpdir(), 'pinchrod-')), 'shop');
  const made = makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), root);
  if (!made.ok) throw new Error(made.problems.map(problemText).join('\n'));
  writeFileSync(
    join(root, `shared/jobs/${JOB}.yaml`),
    `format: pinchrod-job 1
name: ${JOB}
title: Mill Row
customer: A. Finch (invented)
profile_set: w52
procedure: casement
revision: B
glass: 4-16-4
outside_colour: slate grey
inside_colour: white
units:
  - {mark: M1, quantity: ${count}, width: 800, height: 700, room: hall, layout: {light: fixed}}
`,
  );
  buildUnit(root, 'M1-1', { ms: Date.UTC(2026, 2, 2, 8) });
  const file = (unit: number) => join(root, `logs/${JOB}/M1-${unit}.jsonl`);
  const lines = readFileSync(file(1), 'utf8').trimEnd().split('\n');
  for (let unit = 1; unit <= count; unit++) writeFileSync(file(unit), journal(lines, unit, off));
  withoutRegister(root);
  return { root, job: JOB };
}

interface Read {
  value: number;
  raw: string;
}

function journal(lines: readonly string[], unit: number, off: Parameters<typeof manyUnits>[1]): string {
  let prev = FIRST_PREV;
  const out = lines.map((line) => {
    const { register: _, ...event } = JSON.parse(line);
    event.at = new Date(Date.parse(event.at) + (unit - 1) * HOUR).toISOString();
    if (event.unit === 'M1-1') event.unit = `M1-${unit}`;
    const readings: Read[] | Record<string, Read[]> | undefined = event.answer?.readings;
    const sets = readings === undefined ? {} : Array.isArray(readings) ? { '': readings } : readings;
    for (const [key, each] of Object.entries(sets)) {
      const by = off(unit, event.check.replace(/@[^/]*/, ''), key);
      for (const reading of each) {
        reading.value = Number((reading.value + by).toFixed(3));
        reading.raw = String(reading.value);
      }
    }
    Object.assign(event, { prev });
    event.hash = chainHash(event);
    prev = event.hash;
    return chainLine(event);
  });
  return `${out.join('\n')}\n`;
}
