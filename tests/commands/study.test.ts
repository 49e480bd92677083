/** `study plan` and `study take`: an order drawn by lot, and readings that are kept one by one. */
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PassThrough, Readable } from 'node:stream';
import { expect, it } from 'vitest';
import * as study from '../../src/commands/study.js';
import { plannedOrder } from '../../src/figures/studyplan.js';
import { ran } from './built.js';

const folder = mkdtempSync(join(tmpdir(), 'pinchrod-study-'));
const PEOPLE = ['jb', 'mv'];
const people = PEOPLE.flatMap((person) => ['--person', person]);

function drawing(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff;
    return Math.floor((state / 0x80000000) * below);
  };
}

async function taken(file: string, by: string, lines: readonly string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const io = {
    workshop: folder,
    out: (text: string) => void out.push(text),
    err: (text: string) => void err.push(text),
    input: Readable.from(lines.map((line) => `${line}\n`)),
  };
  const code = await study.run(['take', file, '--by', by], io as never);
  return { code, out: out.join('\n'), err: err.join('\n') };
}

const rowsOf = (file: string) =>
  readFileSync(file, 'utf8')
    .trim()
    .split('\r\n')
    .slice(1)
    .map((line) => line.split(','));

it('each person measures each part once in each round, in another order, seed 3', () => {
  const order = plannedOrder(10, ['a', 'b', 'c'], 3, drawing(3));
  expect(order).toHaveLength(90);
  expect(new Set(order.map(({ part, person, trial }) => `${part} ${person} ${trial}`)).size).toBe(90);
  const rounds = new Set<string>();
  for (let i = 0; i < 90; i += 10) {
    const round = order.slice(i, i + 10);
    expect(new Set(round.map(({ person, trial }) => `${person} ${trial}`)).size).toBe(1);
    rounds.add(round.map(({ part }) => part).join(' '));
  }
  expect(rounds.size).toBe(9);
});

it('every order of three parts is drawn about as often, seed 4', () => {
  const draw = drawing(4);
  const seen = new Map<string, number>();
  for (let i = 0; i < 6000; i++) {
    const order = plannedOrder(3, ['a'], 1, draw)
      .map(({ part }) => part)
      .join('');
    seen.set(order, (seen.get(order) ?? 0) + 1);
  }
  expect(seen.size).toBe(6);
  for (const count of seen.values()) expect(Math.abs(count - 1000)).toBeLessThan(120);
});

it('is planned, measured by each person and worked out', async () => {
  const file = join(folder, 'a.csv');
  const asked = ['plan', '--parts', '4', '--trials', '2', ...people, '--out', file];
  expect((await ran(study, folder, ...asked)).code).toBe(0);
  // What is measured already must not be lost.
  expect((await ran(study, folder, ...asked)).code).toBe(2);
  const readings = (by: string) =>
    rowsOf(file)
      .filter(([, person]) => person === by)
      .map(([part, , trial]) => `${Number(part) + Number(trial) / 100 + (by === 'mv' ? 0.05 : 0)}`);
  const first = await taken(file, 'jb', [...readings('jb').slice(0, 3), 'about 3', '']);
  expect(first).toMatchObject({ code: 0, err: expect.stringContaining('"about 3" is not a reading.') });
  expect(first.out).toContain('3 readings taken; 13 are open');
  // Nothing that was read before is shown.
  for (const [, , , value] of rowsOf(file)) if (value) expect(first.out).not.toContain(value);
  await taken(
    file,
    'jb',
    readings('jb')
      .slice(3)
      .map((text) => text.replace('.', ',')),
  );
  expect((await taken(file, 'jb', ['9'])).out).toContain('jb has no reading left.');
  expect((await taken(file, 'mv', readings('mv'))).out).toContain('Result: pinchrod study --csv');
  const { out } = await ran(
    study,
    folder,
    ...['--csv', file, '--part', 'part', '--person', 'person', '--value', 'value', '--json'],
  );
  const found = JSON.parse(out);
  expect(found).toMatchObject({ parts: 4, people: 2, trials: 2 });
  // Both trials of every cell differ by 0.01.
  expect(found.unpooled.repeatability.sd).toBeCloseTo(0.01 / Math.sqrt(2), 6);
});

it('has each reading on disk before it asks for the next', async () => {
  const file = join(folder, 'b.csv');
  await ran(study, folder, 'plan', '--parts', '2', '--trials', '2', ...people, '--out', file);
  const input = new PassThrough();
  const kept: number[] = [];
  const io = {
    workshop: folder,
    out: (text: string) => {
      if (!text.startsWith('Part')) return;
      kept.push(rowsOf(file).filter(([, , , value]) => value !== '').length);
      input.write(kept.length > 3 ? '\n' : `${kept.length}\n`);
    },
    err: () => undefined,
    input,
  };
  expect(await study.run(['take', file, '--by', 'jb'], io as never)).toBe(0);
  expect(kept).toEqual([0, 1, 2, 3]);
});

it.each([
  [['plan', '--person', 'jb', '--out', 'x.csv'], 'There is one person only: jb.'],
  [['plan', ...people, '--parts', '1', '--out', 'x.csv'], '--parts takes a whole number from 2 to 100'],
  [['plan', ...people], '--parts needs --out.'],
  [['plan', ...people, '--value', 'v', '--out', 'x.csv'], '--value does nothing here.'],
  [['go'], 'study takes plan, take FILE, or --csv FILE, not "go".'],
])('%j is refused: %s', async (args, says) => {
  const { code, err } = await ran(study, folder, ...args);
  expect(code).toBe(2);
  expect(err).toContain(says);
});
