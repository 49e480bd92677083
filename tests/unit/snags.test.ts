/** Snags: what they say, what they keep from going on, and what they want read again before they close. */
import { describe, expect, it } from 'vitest';
import type { Action } from '../../src/unit/actions.js';
import { fold } from '../../src/unit/fold.js';
import { Bench, route, step } from './routes.js';

const raise = (bench: Bench, more: Partial<Extract<Action, { do: 'snag' }>> = {}): number =>
  bench.do({ do: 'snag', cause: 'other', text: 'seen', ...more })[0]!.n;
const decideAs = (bench: Bench, snag: number, disposition: 'repair' | 'rework' | 'scrap'): void => {
  bench.do({ do: 'decide', snag, disposition, reason: 'r' }, 'ql');
};
/** Two steps that take sealant, one resting on the other, and one that rests on both. */
const sealed = (lot = 'S-1'): Bench => {
  const checks = [{ id: 'lot', kind: 'text', lot: 'sealant' }] as const;
  const bench = new Bench(
    route({ s: [] }, [
      step('a', 's', { checks }),
      step('b', 's', { checks, rests: ['a'] }),
      step('c', 's', { checks: ['x', 'y'], rests: ['a', 'b'] }),
      step('d', 's', { rests: ['c'] }),
    ]),
  );
  bench.say('a/lot', lot);
  bench.say('b/lot', lot);
  return bench;
};

describe('a snag', () => {
  it('says what was done at once to keep it from going further', () => {
    const bench = new Bench();
    const containment = 'bars 3 to 9 set aside';
    expect(bench.do({ do: 'snag', cause: 'other', text: 'scratched', containment })[0]).toMatchObject({
      containment,
      severity: 'minor',
      touches: { unit: true },
    });
  });

  it('that is not there is answered with those that are open', () => {
    const bench = new Bench();
    const [one, other] = [raise(bench), raise(bench)];
    expect(bench.refusal({ do: 'close', snag: 99 }).todo).toBe(`Open snags: ${one}, ${other}.`);
  });

  it('on a lot keeps from work what rests on its steps, not these, which are to be read again', () => {
    const bench = sealed();
    const n = raise(bench, { lot: 'S-1' });
    expect(bench.state.steps.get('c')!.because).toEqual([
      `Snag ${n} is open and touches what Do c rests on.`,
    ]);
    expect(bench.refusal({ do: 'answer', check: 'c/x', value: 'yes' }).id).toBe('build.waits-for-snag');
    decideAs(bench, n, 'repair');
    expect(bench.refusal({ do: 'close', snag: n }).todo).toBe('Answer a/lot, b/lot so that they pass.');
    bench.say('a/lot', 'S-2');
    expect(bench.refusal({ do: 'close', snag: n }).todo).toBe('Answer b/lot so that it passes.');
    bench.say('b/lot', 'S-2');
    bench.do({ do: 'close', snag: n });
    bench.yes('c/x');
  });

  it('on a set-up wants read again what was done under it', () => {
    const bench = new Bench(
      route({ s: [] }, [step('a', 's', { setup: 'saw', checks: ['x', 'y'] }), step('b', 's')]),
    );
    bench.more = { setups: { saw: { id: 'saw-1' } } };
    bench.yes('a/x');
    bench.more = { setups: { saw: { id: 'saw-4' } } };
    bench.yes('a/y', 'b/a');
    const n = raise(bench, { setup: 'saw-1' });
    decideAs(bench, n, 'repair');
    expect(bench.refusal({ do: 'close', snag: n }).todo).toBe('Answer a/x so that it passes.');
    bench.yes('a/x');
    expect(bench.do({ do: 'close', snag: n }).map(({ kind }) => kind)).toEqual(['snag-closed', 'finished']);
  });

  it('on the unit as a whole closes when what was reworked is read again, or with any check taken since', () => {
    const bench = sealed();
    const n = raise(bench);
    decideAs(bench, n, 'rework');
    bench.do({ do: 'rework', step: 'b', reason: 'r' });
    expect(bench.refusal({ do: 'close', snag: n }).todo).toBe('Answer b/lot so that it passes.');
    bench.say('b/lot', 'S-2');
    bench.do({ do: 'close', snag: n });
    const again = raise(bench);
    decideAs(bench, again, 'repair');
    expect(bench.refusal({ do: 'close', snag: again }).todo).toContain('a check of what was put right');
    bench.yes('c/x');
    bench.do({ do: 'close', snag: again });
  });

  it('closes where the program worked out a check itself', () => {
    const sum = { id: 'sum', kind: 'computed', ask: 'The sum agrees.' } as const;
    const bench = new Bench(route({ s: [] }, [step('a', 's', { checks: [sum, 'x'] })]));
    bench.yes('a/x');
    const whole = raise(bench);
    decideAs(bench, whole, 'repair');
    expect(bench.refusal({ do: 'close', snag: whole }).todo).toContain('a check of what was put right');
    const atStep = raise(bench, { step: 'a' });
    decideAs(bench, atStep, 'repair');
    expect(bench.refusal({ do: 'close', snag: atStep }).todo).toBe('Answer a/x so that it passes.');
  });

  it('whose concession no longer has its reading wants another, or another decision', () => {
    const gap = { id: 'gap', kind: 'number', against: 'value', limits: ['t.gap'] } as const;
    const bench = new Bench(route({ s: [] }, [step('g', 's', { checks: [gap] })]));
    bench.say('g/gap', '9');
    const n = raise(bench, { check: 'g/gap' });
    bench.do({ do: 'decide', snag: n, disposition: 'concession', reason: 'r', limit: 't.gap' }, 'ql');
    bench.do({ do: 'rework', step: 'g', reason: 'moved' });
    expect(bench.refusal({ do: 'close', snag: n })).toMatchObject({
      id: 'build.snag-needs-readings',
      text: `The reading that snag ${n} conceded no longer counts.`,
      todo: `Answer g/gap again, or decide snag ${n} anew.`,
    });
    bench.say('g/gap', '4');
    bench.do({ do: 'close', snag: n });
    expect(bench.state.finished).toBe(true);
  });

  it('decided as scrap, with the power gone before the next line, scraps the unit at the next resume', () => {
    const bench = new Bench();
    const n = raise(bench);
    decideAs(bench, n, 'scrap');
    expect(bench.state.scrapped).toBe(true);
    bench.state = fold(bench.state.route, bench.state.events.slice(0, -1));
    expect(bench.state.scrapped).toBe(false);
    expect(bench.do({ do: 'resume' })).toMatchObject([
      { kind: 'scrapped', reason: 'r', replacement: 'T01-1R1' },
    ]);
    expect(bench.state.replacement).toBe('T01-1R1');
  });
});
