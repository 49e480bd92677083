/** No sequence of legal actions reaches a finished unit that is not whole, and the state is always what replay gives. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/unit/actions.js';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { decide } from '../../src/unit/decide.js';
import { apply, asOf, fold } from '../../src/unit/fold.js';
import type { DecisionContext } from '../../src/unit/types.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { faults } from './oracle.js';
import { at, context, opened, PEOPLE, SMALL, SQUARE } from './routes.js';

interface Move {
  readonly what: number;
  readonly pick: number;
  readonly who: number;
  readonly minutes: number;
  /** How many of the events of this decision a power cut leaves; all of them above 8. */
  readonly keep: number;
}
const move: fc.Arbitrary<Move> = fc.record({
  what: fc.nat(99),
  pick: fc.nat(999),
  who: fc.nat(PEOPLE.length),
  minutes: fc.oneof(
    { weight: 20, arbitrary: fc.nat(9) },
    { weight: 1, arbitrary: fc.integer({ min: -90, max: 90 }) },
  ),
  keep: fc.nat(200),
});

/** A random action of every kind; most of what is asked passes, so that units get on. */
function action(state: UnitState, world: DecisionContext, { what, pick }: Move): Action | undefined {
  const steps = SMALL.steps;
  const step = steps[pick % steps.length]!;
  const open = state.snags.filter((each) => each.open);
  const snag = (open[pick % Math.max(1, open.length)] ?? state.snags[0])?.n ?? 1;
  const pin = '1111';
  if (what < 62) {
    // Snags are mostly dealt with, or nothing would ever be finished.
    const waiting = pick % 3 === 0 ? open[0] : undefined;
    if (waiting?.decided && pick % 2 === 0) return { do: 'close', snag: waiting.n };
    if (waiting?.decided?.disposition === 'rework' && waiting.raised.step !== undefined && pick % 5 === 0)
      return { do: 'rework', step: waiting.raised.step, reason: 'as decided' };
    if (waiting && !waiting.decided)
      return { do: 'decide', snag: waiting.n, disposition: 'repair', reason: 'so decided' };
    const next = nextMove(state, world, { pins: { rl: pin } });
    return next.kind === 'act' ? next.action : undefined;
  }
  const check = step.checks[pick % step.checks.length]!;
  if (what < 68) {
    const value =
      check.kind === 'square'
        ? { ...SQUARE, bl_tr: '1223.5', br_tl: '1217.5' }
        : check.kind === 'number'
          ? '997'
          : 'no';
    return { do: 'answer', check: check.id, value, confirmed: true };
  }
  if (what < 72) return { do: 'read', check: 'frame.square/set', key: 'top', value: '1000' };
  if (what < 77) return { do: 'rework', step: step.id, reason: 'again' };
  if (what < 82) return { do: 'undo', reason: 'typed wrongly' };
  if (what < 86) return { do: 'release', step: step.id, pin };
  if (what < 89)
    return {
      do: 'snag',
      cause: 'other',
      text: 'seen',
      ...(pick % 3 === 0 ? {} : pick % 3 === 1 ? { step: step.id } : { check: check.id }),
      ...(pick % 7 === 0 ? { lot: 'SEALANT-2601' } : {}),
      park: pick % 5 === 0,
    };
  if (what < 93) {
    const disposition = (['rework', 'repair', 'concession', 'return', 'concession'] as const)[pick % 5]!;
    return {
      do: 'decide',
      snag,
      disposition,
      reason: 'so decided',
      limit: `t.length, t.diagonals, t.gap, ${check.id}`,
      pin,
    };
  }
  if (what < 97) return { do: 'close', snag, note: '' };
  if (what === 97) return { do: 'park', reason: 'lunch' };
  return { do: 'resume' };
}

function walk(moves: readonly Move[], look: (state: UnitState) => void = () => {}): UnitState {
  let state = opened();
  let clock = 1;
  let world = context(clock);
  for (const one of moves) {
    clock += one.minutes;
    // Random people only now and then; else whoever the driver asked for stays.
    if (one.who < PEOPLE.length && one.what % 4 === 0) world = { ...world, person: PEOPLE[one.who]!.id };
    world = { ...world, now: at(clock) };
    const asked = action(asOf(state, world.now), world, one);
    if (!asked) continue;
    const decision = decide(state, asked, world);
    if (decision.kind !== 'events') continue;
    if (asked.do === 'person') world = { ...world, person: decision.by };
    const events = asIfWritten(state, decision.events, decision.by, world);
    const kept = one.keep <= 8 ? events.slice(0, one.keep) : events;
    if (kept.length > 0) state = apply(state, ...kept);
    look(state);
  }
  return state;
}

/** The state as data, for comparing. */
const data = (state: UnitState) => ({
  ...state,
  route: undefined,
  steps: [...state.steps.values()].map(({ step, ...rest }) => ({ id: step.id, ...rest })),
});

const RUN = { seed: 20260302, numRuns: 60 };
const long = fc.array(move, { minLength: 60, maxLength: 160 });

describe('any sequence of legal actions', () => {
  it('reaches a finished unit only when nothing is stale, held, snagged or missing', () => {
    let finished = 0;
    let touched = 0;
    fc.assert(
      fc.property(long, (moves) => {
        const last = walk(moves, (state) => {
          if (!state.finished) return;
          finished += 1;
          if (state.events.some(({ kind }) => kind === 'reworked' || kind === 'snag-raised')) touched += 1;
          expect(faults(SMALL, state.events)).toEqual([]);
        });
        // And what is not finished is judged alike, step by step.
        const wrong = faults(SMALL, last.events).filter((fault) => !fault.startsWith('snag'));
        const all = last.done === SMALL.steps.length;
        // A snag decided and still open may want readings again, which the oracle does not ask for.
        if (last.snags.every(({ open }) => !open)) expect(all).toBe(wrong.length === 0);
        else if (wrong.length > 0) expect(all).toBe(false);
      }),
      RUN,
    );
    // The property says something only if units did get finished, also after trouble.
    expect(finished).toBeGreaterThan(20);
    expect(touched).toBeGreaterThan(5);
  });

  it('gives the same state event by event, in one fold, and after any cut', () => {
    fc.assert(
      fc.property(long, fc.nat(), (moves, cut) => {
        const state = walk(moves);
        expect(data(state)).toEqual(data(fold(SMALL, state.events)));
        const part = cut % (state.events.length + 1);
        const before = fold(SMALL, state.events.slice(0, part));
        const frozen = JSON.stringify(data(before));
        expect(data(apply(before, ...state.events.slice(part)))).toEqual(data(state));
        // Adding events never changes the state they were added to.
        expect(JSON.stringify(data(before))).toBe(frozen);
        // A state that went through JSON has lost its workings and is folded again.
        expect(data(apply({ ...state }, ...[]))).toEqual(data(state));
      }),
      { ...RUN, numRuns: 30 },
    );
  });

  it('never decides an event twice over: what was answered and counts is refused', () => {
    fc.assert(
      fc.property(long, (moves) => {
        const state = walk(moves);
        if (state.parked || state.scrapped || state.finished) return;
        for (const { checks } of state.steps.values())
          for (const { id, holds } of checks) {
            if (!holds) continue;
            const again = decide(
              state,
              { do: 'answer', check: id, value: 'yes' },
              context(0, { now: state.now }),
            );
            expect(again.kind).toBe('refused');
          }
      }),
      { ...RUN, numRuns: 20 },
    );
  });
});
