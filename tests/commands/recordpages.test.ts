/** Every unit of the demonstration workshop, built to its release: how many pages its record has. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { run as record } from '../../src/commands/record.js';
import { Feeder } from './feeder.js';

vi.mock('node:os', async (real) => ({
  ...(await real<typeof import('node:os')>()),
  uptime: () => Date.now() / 1000,
}));

/** Pages without annex by how many lights a unit has. */
const MOST: Readonly<Record<number, number>> = { 1: 8, 2: 8, 3: 11 };
const UNITS = [
  ['pier-house', 'P01-1', 1],
  ['pier-house', 'P02-1', 1],
  ['pier-house', 'P02-2', 1],
  ['pier-house', 'P03-1', 1],
  ['pier-house', 'P04-1', 1],
  ['pier-house', 'P05-1', 2],
  ['pier-house', 'P06-1', 2],
  ['pier-house', 'P07-1', 3],
  ['pier-house', 'P08-1', 1],
  ['yard-side', 'Y1-1', 1],
  ['yard-side', 'Y2-1', 2],
  ['yard-side-screens', 'N1-1', 1],
  ['yard-side-screens', 'N2-1', 2],
] as const;

let feeder: Feeder;
beforeAll(() => {
  feeder = new Feeder();
});
afterAll(() => {
  feeder.close();
});

it.each(UNITS)(
  '%s %s, lights: %i',
  async (job, unit, lights) => {
    feeder.anotherDay();
    const { state } = await feeder.build(job, unit);
    expect(state.finished).toBe(true);
    const file = join(feeder.root, `${unit}.pdf`);
    const io = { workshop: feeder.root, out: () => {}, err: () => {} };
    expect(await record([unit, '--out', file], io)).toBe(0);
    const pages = readFileSync(file, 'latin1').match(/\/Type \/Page\b/g)!.length;
    expect(pages).toBeGreaterThan(2);
    expect(pages).toBeLessThanOrEqual(MOST[lights]!);
  },
  300_000,
);
