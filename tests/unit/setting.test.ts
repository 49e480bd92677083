/** What has set is not to be pushed: whether it has follows from the events, by the route's open and cure times. */
import { describe, expect, it } from 'vitest';
import { Bench, route, step } from './routes.js';

const OPEN = 45;
const CURE = 120;
const PUSH = /Push it in at its two ends before the sealant sets: the top right corner goes about/;
const LEAVE = /The corners have set: a cured corner is not to be forced/;

type More = Parameters<typeof step>[2];

const set = (more: More = {}) =>
  step('square', 'frame', {
    makes: ['geometry'],
    rests: ['corners'],
    checks: [
      {
        id: 'set',
        kind: 'square',
        nominal: { w: 1000, h: 700 },
        plausible: 20,
        limits: ['t.diagonals'],
        instruments: ['tape'],
      },
    ],
    ...more,
  });

/** A frame sealed, closed, squared; then cured, and squared again with what was put in. All times invented. */
const frame = (square: More = {}) =>
  new Bench(
    route({ frame: [], other: [] }, [
      step('seal', 'frame', { makes: ['sealed'] }),
      step('close', 'frame', {
        makes: ['corners'],
        rests: ['sealed'],
        notAfter: { feature: 'sealed', minutes: OPEN },
      }),
      set(square),
      step('cure', 'frame', {
        makes: ['cured'],
        rests: ['geometry'],
        notBefore: { feature: 'corners', minutes: CURE },
      }),
      step('again', 'frame', {
        rests: ['cured'],
        checks: [
          {
            id: 'set',
            kind: 'square',
            nominal: { w: 1000, h: 700 },
            plausible: 20,
            limits: ['t.diagonals'],
            instruments: ['tape'],
          },
        ],
      }),
      // Its adhesive is another matter: nothing of the frame rests on it.
      step('beads', 'other', { makes: ['beads'] }),
      step('stick', 'other', { notAfter: { feature: 'beads', minutes: 1 } }),
    ]),
  );

const RACKED = { top: '1000', bottom: '1000', left: '700', right: '700', bl_tr: '1222.7', br_tl: '1218.7' };
const TRUE = { ...RACKED, bl_tr: '1220.7', br_tl: '1220.7' };

function notesOf(bench: Bench, id: string): string {
  const check = [...bench.state.steps.values()]
    .flatMap(({ checks }) => checks)
    .find((each) => each.id === id);
  return check!.answered!.verdict.notes.join('\n');
}

describe('advice on an open corner', () => {
  it('is to push the long diagonal while the sealant is open, whatever else has set', () => {
    const bench = frame();
    bench.yes('beads/a');
    bench.minutes += 10;
    bench.yes('seal/a', 'close/a');
    bench.say('square/set', RACKED);
    expect(bench.status('square')).toBe('failed');
    expect(notesOf(bench, 'square/set')).toMatch(PUSH);
    expect(notesOf(bench, 'square/set')).not.toMatch(LEAVE);
  });

  it('is to leave it alone once the open time of what it rests on is over, and never a word of pushing', () => {
    const bench = frame();
    bench.yes('seal/a', 'close/a');
    bench.minutes += OPEN + 1;
    bench.say('square/set', RACKED);
    expect(notesOf(bench, 'square/set')).toMatch(LEAVE);
    expect(notesOf(bench, 'square/set')).not.toMatch(/Push/);
  });

  it('is to leave a cured frame alone, in steps that rest on it through others too', () => {
    const bench = frame();
    bench.yes('seal/a', 'close/a');
    bench.say('square/set', TRUE);
    bench.minutes += CURE + 1;
    bench.yes('cure/a');
    bench.say('again/set', RACKED);
    expect(notesOf(bench, 'again/set')).toMatch(LEAVE);
  });

  it('is to push again after the corners were made again: the times run from the new work', () => {
    const bench = frame();
    bench.yes('seal/a', 'close/a');
    bench.minutes += CURE + 1;
    bench.do({ do: 'rework', step: 'seal', reason: 'cut out and sealed anew' });
    bench.yes('seal/a', 'close/a');
    bench.say('square/set', RACKED);
    expect(notesOf(bench, 'square/set')).toMatch(PUSH);
  });

  it('does not take a jump of the clock for time in which anything set', () => {
    const bench = frame();
    bench.yes('seal/a', 'close/a');
    bench.more = { clockJump: { from: '2026-03-02T07:03:00.000Z', to: '2026-03-02T12:03:00.000Z' } };
    bench.minutes += 300;
    bench.say('square/set', RACKED);
    expect(notesOf(bench, 'square/set')).toMatch(PUSH);
  });

  it('counts what the check alone rests on', () => {
    const bench = frame({
      rests: [],
      checks: [
        {
          id: 'set',
          kind: 'square',
          nominal: { w: 1000, h: 700 },
          plausible: 20,
          limits: ['t.diagonals'],
          instruments: ['tape'],
          rests: ['corners'],
        },
      ],
    });
    bench.yes('seal/a', 'close/a');
    bench.minutes += OPEN + 1;
    bench.say('square/set', RACKED);
    expect(notesOf(bench, 'square/set')).toMatch(LEAVE);
  });
});
