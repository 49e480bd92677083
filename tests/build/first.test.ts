import { describe, expect, it } from 'vitest';
import { fold } from '../../src/build/fold.js';
import { nextCheck, wouldReopen } from '../../src/build/next.js';
import { autobuild } from './autobuild.js';
import { around, Bench, opened, SMALL } from './routes.js';

describe('a small unit', () => {
  it('is driven to its finish', () => {
    const { state } = autobuild(opened(), around(1), { pins: { rl: '1111' } });
    expect(state.finished).toBe(true);
    expect(state.standing).toBe('finished');
    expect(fold(SMALL, state.events).steps).toEqual(state.steps);
  });
  it('rework re-opens', () => {
    const bench = new Bench();
    const { state } = autobuild(bench.state, around(1), { pins: { rl: '1111' } });
    bench.state = state;
    bench.minutes = 500;
    expect(wouldReopen(state, 'sash.square@L1').map(({ step, checks }) => [step, checks])).toEqual([
      ['hang', undefined],
      ['glass', ['glass/over']],
      ['inspect', undefined],
    ]);
    bench.do({ do: 'rework', step: 'sash.square@L1', reason: 'twisted' });
    expect(bench.state.standing).toBe('under-way');
    expect(nextCheck(bench.state)).toEqual({ step: 'sash.square@L1', check: 'sash.square@L1/flat' });
  });
});
