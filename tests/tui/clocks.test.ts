/** Times through the real store: cure and open times across restarts and clock changes, jumps noticed and logged, lots that run out. */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { run as record } from '../../src/commands/record.js';
import { overdueProblem } from '../../src/measure/instruments.js';
import type { Acted } from '../../src/session/ports.js';
import type { RealPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { dayNow } from '../../src/unit/day.js';
import { ran } from '../commands/built.js';
import { newPicture } from '../picture.js';
import { type Clock, pass, portsOf, remove, smallWorkshop, startClock, work } from './realbench.js';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
let root: string;
let clock: Clock;
let ports: RealPorts;
beforeEach(() => {
  root = smallWorkshop();
  newPicture(join(root, 'photo.jpg'));
  clock = startClock();
  ports = portsOf(root, clock);
});
afterEach(() => {
  ports.close();
  remove(root);
});

const SQUARE = { top: '900', bottom: '900', left: '1200', right: '1200', bl_tr: '1500', br_tl: '1500' };
const JB = { person: 'jb', inHand: 'T2' };
const square = (): Acted => ports.act({ do: 'answer', check: 'square/set', value: SQUARE }, JB);
const show = (): Acted => ports.act({ do: 'answer', check: 'show/seen', value: 'yes' }, JB);
const state = () => ports.world().open!.state;
const refusal = (acted: Acted) => (acted.kind === 'refused' ? acted.problem.id : acted.kind);
const jumps = () => state().events.filter(({ kind }) => kind === 'clock-jumped');
/** S01-1 with its corners sealed and the hold released. */
function sealed(): void {
  ports.open('S01-1');
  work(ports, clock, (action) => action.do === 'answer' && action.check === 'square/set');
}
/** As if the program had been started anew. */
function restart(): void {
  ports.close();
  ports = portsOf(root, clock);
  expect(ports.open('S01-1')).toEqual({ kind: 'open' });
}
const until = (kind: string) => state().timers.find((timer) => timer.kind === kind)?.until;

it('open and cure times run on over restarts', () => {
  sealed();
  const before = [until('not-after'), until('not-before')];
  restart();
  expect([until('not-after'), until('not-before')]).toEqual(before);
  pass(clock, 31 * MINUTE);
  restart();
  expect(refusal(square())).toBe('build.open-time-over');
  expect(ports.act({ do: 'rework', step: 'seal', reason: 'gone off' }, JB).kind).toBe('done');
  sealed();
  expect(refusal(square())).toBe('done');
  pass(clock, 100 * MINUTE);
  restart();
  expect(refusal(show())).toBe('build.waits-for-cure');
  pass(clock, 90 * MINUTE);
  restart();
  expect(refusal(show())).toBe('done');
  expect(jumps()).toEqual([]);
});

it('a clock put back while the bench runs makes no open time longer, and is logged also by what is refused', () => {
  sealed();
  pass(clock, 31 * MINUTE);
  clock.wall -= HOUR;
  expect(refusal(square())).toBe('build.open-time-over');
  expect(jumps()).toHaveLength(1);
  expect(refusal(square())).toBe('build.open-time-over');
  expect(jumps()).toHaveLength(1);
  expect(jumps()[0]).toMatchObject({ by: 'nobody', kind: 'clock-jumped' });
});

it('a clock put forward cures nothing, on the screen or in a decision', () => {
  sealed();
  square();
  clock.wall += 5 * HOUR;
  pass(clock, MINUTE);
  expect(state().steps.get('show')?.open).toBe(false);
  expect(refusal(show())).toBe('build.waits-for-cure');
  expect(jumps()).toHaveLength(1);
  const ready = Date.parse(until('not-before')!);
  // Said on the clock as it is now.
  expect(ready - clock.wall).toBeGreaterThan(2 * HOUR);
  pass(clock, ready - clock.wall - MINUTE);
  expect(refusal(show())).toBe('build.waits-for-cure');
  pass(clock, 2 * MINUTE);
  expect(refusal(show())).toBe('done');
  expect(state().finished).toBe(true);
});

it('a clock put back while the program was off is noticed at the next entry; order stays that of the lines', async () => {
  sealed();
  ports.close();
  clock.wall -= 3 * HOUR;
  restart();
  square();
  expect(jumps()).toHaveLength(1);
  const { events } = state();
  expect(events.map(({ n }) => n)).toEqual(events.map((_, i) => i + 1));
  expect(events.findIndex(({ kind }) => kind === 'clock-jumped')).toBeLessThan(events.length - 1);
  expect(state().steps.get('square')?.status).toBe('done');
  expect(verifyTree(realDisk, root).holds).toBe(true);
  ports.close();
  const said = await ran({ run: record }, root, 'S01-1');
  expect(said.out).toMatch(/clock/i);
});

it('a lot that was in date for one unit stops another on the day after it ran out, with no date typed again', () => {
  const answer = (value: string, expires?: string) =>
    ports.act({ do: 'answer', check: 'cut/batch', value, ...(expires ? { expires } : {}) }, JB);
  // A second unit of the same kind.
  const job = join(root, 'shared/jobs/small.yaml');
  writeFileSync(job, readFileSync(job, 'utf8').replace('mark: S01,', 'mark: S01, quantity: 2,'));
  ports.refresh();
  const length = () => ports.act({ do: 'answer', check: 'cut/length', value: '900' }, JB);
  ports.open('S01-1');
  length();
  expect(refusal(answer('PR-77', '2026-03-01'))).toBe('build.lot-expired');
  expect(refusal(answer('PR-77', '2026-03-02'))).toBe('done');
  ports.close();
  restart();
  ports.open('S01-2');
  length();
  // The last day counts.
  expect(refusal(answer('PR-77'))).toBe('done');
  ports.act({ do: 'undo', reason: 'for another day' }, JB);
  pass(clock, 24 * HOUR);
  ports.close();
  ports = portsOf(root, clock);
  ports.open('S01-2');
  expect(refusal(answer('PR-77'))).toBe('build.lot-expired');
  expect(refusal(answer('PR-78'))).toBe('done');
});

it.each([
  ['America/Los_Angeles', '2026-03-03T02:00:00.000Z', '2026-03-02'],
  ['Asia/Kolkata', '2026-03-01T20:00:00.000Z', '2026-03-02'],
])(
  'the day on which a lot, a calibration or a sign-off runs out is that of the wall in %s',
  (zone, now, day) => {
    const file = join(root, 'shared/workshop.yaml');
    writeFileSync(file, `${readFileSync(file, 'utf8')}\nzone: ${zone}\n`);
    ports.close();
    clock.wall = Date.parse(now);
    ports = portsOf(root, clock);
    expect(ports.world().today).toBe(day);
    expect(now.slice(0, 10)).not.toBe(day);
    ports.open('S01-1');
    ports.act({ do: 'answer', check: 'cut/length', value: '900' }, JB);
    const answer = (expires: string) =>
      refusal(ports.act({ do: 'answer', check: 'cut/batch', value: 'PR-77', expires }, JB));
    expect(answer('2026-03-01')).toBe('build.lot-expired');
    expect(answer('2026-03-02')).toBe('done');
    const instrument = (due: string) => ({ ...ports.world().instruments[0]!, due });
    expect(overdueProblem(instrument('2026-03-01'), dayNow(ports.world()))).toBeDefined();
    expect(overdueProblem(instrument('2026-03-02'), dayNow(ports.world()))).toBeUndefined();
  },
);
