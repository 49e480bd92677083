/** The newest file of the inbox folder as evidence, at the bench and by its name in an action. */
import { existsSync, mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { newPicture } from '../picture.js';
import { type Bench, freshBench, leaveBench, RIGHT } from './realbench.js';

let root: string;
let bench: Bench;
beforeEach(() => {
  ({ root, bench } = freshBench());
});
afterEach(() => leaveBench(bench, root));

function picture(name: string, minute: number): void {
  mkdirSync(join(root, 'inbox'), { recursive: true });
  newPicture(join(root, 'inbox', name));
  utimesSync(join(root, 'inbox', name), minute * 60, minute * 60);
}

it('is offered, shown before it is written, kept under its hash, and named in the record', () => {
  const file = join(root, 'procedures/casement.yaml');
  const ask = 'ask: Do mark and revision agree on order, drawing and work pack?';
  const text = readFileSync(file, 'utf8');
  expect(text).toContain(ask);
  writeFileSync(file, text.replace(ask, `${ask}\n            evidence: true`));
  bench.ports.refresh();
  picture('IMG_2.jpg', 20);
  picture('IMG_1.jpg', 10);
  picture('.IMG_3.jpg.part', 30);
  writeFileSync(join(root, 'inbox', 'empty.jpg'), '');
  bench.press('jb\r', 'P01-1\r', RIGHT);
  const kept = () =>
    bench.core
      .world()
      .open!.state.events.flatMap((event) => ('evidence' in event ? (event.evidence ?? []) : []));
  expect(bench.core.state().screen).toMatchObject({ name: 'form', form: { id: 'evidence' } });
  expect(bench.texts().map((text) => text.split(/ {2,}/).at(-1))).toEqual([
    'inbox/IMG_2.jpg',
    'inbox/IMG_1.jpg',
  ]);
  expect(kept()).toEqual([]);
  bench.press(RIGHT);
  expect(kept()).toMatchObject([{ name: 'IMG_2.jpg' }]);
  expect(
    readFileSync(join(root, 'logs/pier-house/evidence', kept()[0]!.sha256))
      .subarray(1, 4)
      .toString(),
  ).toBe('PNG');
});

it('an action names it "newest"; an empty inbox is said', () => {
  bench.press('jb\r', 'P01-1\r');
  const hand = { person: 'jb' };
  const action = {
    do: 'answer',
    check: 'order.papers/revision',
    value: 'yes',
    evidence: ['newest'],
  } as const;
  const send = () => bench.ports.act({ ...action, evidence: [...action.evidence] }, hand);
  expect(send()).toMatchObject({ kind: 'refused', problem: { id: 'bench.inbox-empty' } });
  picture('a.jpg', 10);
  expect(send().kind).toBe('done');
});

it('nothing is kept of what a refused answer names', () => {
  bench.press('jb\r', 'P01-1\r');
  picture('a.jpg', 10);
  const send = (person: string | undefined) =>
    bench.ports.act(
      { do: 'answer', check: 'order.papers/revision', value: 'yes', evidence: ['newest'] },
      { person },
    );
  const folder = join(root, 'logs/pier-house/evidence');
  expect(send(undefined).kind).toBe('refused');
  expect(existsSync(folder)).toBe(false);
  expect(send('jb').kind).toBe('done');
  expect(readdirSync(folder).length).toBe(1);
});
