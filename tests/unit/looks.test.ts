/** One answer for all that one look answers. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lookAt } from '../../src/unit/looks.js';
import { nextCheck } from '../../src/unit/next.js';
import { Bench, route, step } from './routes.js';

const LOOKED = route({ s: [] }, [
  step('s', 's', {
    checks: [
      { id: 'a', kind: 'go-no-go' },
      { id: 'b', kind: 'tick' },
      { id: 'c', kind: 'go-no-go' },
      { id: 'n', kind: 'count', expect: 4 },
      { id: 'd', kind: 'go-no-go', alone: true },
      { id: 'e', kind: 'go-no-go', evidence: true },
      { id: 'f', kind: 'go-no-go' },
      { id: 'p', kind: 'go-no-go', evidence: true },
      { id: 'g', kind: 'go-no-go', safety: true },
    ],
  }),
]);
const asked = (bench: Bench): string[] => lookAt(bench.state.steps.get('s')!).map(({ id }) => id);

describe('questions that one look answers', () => {
  it('are those that stand together, up to one that is counted, about safety or set apart, with one picture at most', () => {
    const bench = new Bench(LOOKED);
    expect(asked(bench)).toEqual(['s/a', 's/b', 's/c']);
    bench.do({ do: 'look', step: 's' });
    expect(asked(bench)).toEqual([]);
    bench.do({ do: 'answer', check: 's/n', value: '4' });
    // Set apart; then what one picture shows, and no more than one.
    expect(asked(bench)).toEqual([]);
    bench.yes('s/d');
    expect(asked(bench)).toEqual(['s/e', 's/f']);
    expect(bench.refusal({ do: 'look', step: 's' }).id).toBe('build.evidence-needed');
    bench.more = { evidence: { shot: { sha256: 'a'.repeat(64), name: 'shot.jpg', bytes: 9 } } };
    const events = bench.do({ do: 'look', step: 's', evidence: ['shot'] });
    const kept = events.flatMap((event) =>
      event.kind === 'answered' ? [[event.check, event.evidence?.length ?? 0]] : [],
    );
    expect(kept).toEqual([
      ['s/e', 1],
      ['s/f', 0],
    ]);
  });

  it('have each an answer of its own, of one instant, which says how it was given', () => {
    const bench = new Bench(LOOKED);
    const events = bench.do({ do: 'look', step: 's' });
    const answers = events.filter(({ kind }) => kind === 'answered');
    expect(answers).toMatchObject([
      { check: 's/a', look: 3, answer: { go: true } },
      { check: 's/b', look: 3 },
      { check: 's/c', look: 3 },
    ]);
    expect(new Set(answers.map(({ at }) => at)).size).toBe(1);
    expect(events.filter(({ kind }) => kind === 'began').length).toBe(1);
  });

  it('are answered by nobody where one of them is not right: those above it and below it are asked', () => {
    const bench = new Bench(LOOKED);
    bench.do({ do: 'look', step: 's', not: 's/c' });
    expect(
      bench.state.steps
        .get('s')!
        .checks.slice(0, 3)
        .map(({ holds }) => holds),
    ).toEqual([false, false, false]);
    expect(bench.state.events.flatMap((event) => (event.kind === 'answered' ? [event.check] : []))).toEqual([
      's/c',
    ]);
    expect(asked(bench)).toEqual(['s/a', 's/b']);
    bench.do({ do: 'look', step: 's' });
    // What failed is asked alone, before what comes after it.
    expect(asked(bench)).toEqual([]);
    expect(nextCheck(bench.state)?.check).toBe('s/c');
    const first = new Bench(LOOKED);
    const [, answer] = first.do({ do: 'look', step: 's', not: 's/a' });
    expect(answer).toMatchObject({ check: 's/a', verdict: { outcome: 'fail' } });
    expect(answer).not.toHaveProperty('look');
    // A tick can only be ticked, alone or not.
    const tick = new Bench(LOOKED).decide({ do: 'look', step: 's', not: 's/b' });
    expect(tick).toMatchObject({ kind: 'refused', problem: { id: 'build.answer-kind' } });
  });

  it('leave a unit as answering them one by one does', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom('go-no-go' as const, 'tick' as const), { minLength: 2, maxLength: 5 }),
        (kinds) => {
          const of = route({ s: [] }, [
            step('s', 's', { checks: kinds.map((kind, i) => ({ id: `q${i}`, kind })) }),
          ]);
          const [together, single] = [new Bench(of), new Bench(of)];
          together.do({ do: 'look', step: 's' });
          for (const [i] of kinds.entries()) single.do({ do: 'answer', check: `s/q${i}`, value: 'yes' });
          expect(together.state.finished).toBe(true);
          expect(single.state.finished).toBe(true);
          expect([...together.state.steps.values()].map(({ status }) => status)).toEqual(
            [...single.state.steps.values()].map(({ status }) => status),
          );
        },
      ),
      { seed: 19 },
    );
  });
});
