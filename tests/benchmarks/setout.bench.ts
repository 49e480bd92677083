/** Set-outs of a whole job: 1,000 mixed units, and whether a unit costs more in a larger job. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseJob } from '../../src/window/job.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOutMany } from '../../src/window/setout.js';
import type { Unit } from '../../src/window/types.js';
import { atMost, type Row, type Setting } from './rows.js';

export const title = 'Set-out';

export async function measure({ root }: Setting): Promise<Row[]> {
  const read = (file: string) => ({ file, text: readFileSync(join(root, file), 'utf8') });
  const set = parseProfileSet(read('shared/profile-sets/w52.yaml'));
  const job = parseJob(read('shared/jobs/pier-house.yaml'));
  if (!set.ok || !job.ok) throw new Error('the demonstration workshop cannot be read');
  const mixed = (count: number): Unit[] =>
    Array.from({ length: count }, (_, i) => {
      const unit = job.value.units[i % job.value.units.length]!;
      // No two alike: nothing can be answered from memory.
      return { ...unit, id: `U${i}-1`, width: unit.width - (i % 37), height: unit.height - (i % 41) };
    });
  const time = (count: number): number => {
    const units = mixed(count);
    const from = performance.now();
    setOutMany(units, set.value);
    return performance.now() - from;
  };
  time(50);
  const sizes = [100, 1000, 4000].map((count) => [count, time(count)] as const);
  const each = sizes.map(([count, took]) => took / count);
  return [
    atMost('1,000 mixed units', sizes[1]![1] / 1000, 2, 's'),
    ...sizes.map(([count, took]) => ({
      what: `a unit in a job of ${count}`,
      figure: `${(took / count).toFixed(2)} ms`,
    })),
    atMost('a unit in a job of 4,000 beside one in a job of 100', each[2]! / each[0]!, 1.3, 'x'),
  ];
}
