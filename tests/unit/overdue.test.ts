/** An overdue instrument is read only when somebody with the right says so, from the first reading of a set on. */
import { describe, expect, it } from 'vitest';
import { Bench, route, SQUARE, step } from './routes.js';

const WORD = { person: 'rl', pin: '1111' };
const KEYS = ['top', 'bottom', 'left', 'right', 'bl_tr', 'br_tl'] as const;

function bench() {
  const made = new Bench(
    route({ s: [] }, [
      step('q', 's', {
        checks: [
          {
            id: 'set',
            kind: 'square',
            nominal: { w: 1000, h: 700 },
            limits: ['t.diagonals'],
            quantity: 'length',
            instruments: ['tape'],
          },
        ],
      }),
    ]),
  );
  made.more = { inHand: 'T9' };
  return made;
}
const read = (key: (typeof KEYS)[number]) =>
  ({ do: 'read', check: 'q/set', key, value: SQUARE[key] }) as const;

describe('a set read with an overdue tape', () => {
  it('is refused at its first reading, not after its last', () => {
    const at = bench();
    expect(at.refusal(read('top')).id).toBe('build.instrument-overdue');
    expect(at.refusal({ do: 'answer', check: 'q/set', value: SQUARE }).id).toBe('build.instrument-overdue');
  });

  it('is taken on a named word, which stands for the rest of the set and shows in the journal', () => {
    const at = bench();
    at.do({ ...read('top'), overdueAllowedBy: WORD });
    for (const key of KEYS.slice(1)) at.do(read(key));
    at.do({ do: 'answer', check: 'q/set', value: {} });
    const reads = at.state.events.filter(({ kind }) => kind === 'read');
    expect(reads).toHaveLength(6);
    for (const event of reads) expect(event).toMatchObject({ overdueAllowedBy: 'rl' });
    expect(at.state.events.find(({ kind }) => kind === 'answered')).toMatchObject({ overdueAllowedBy: 'rl' });
  });

  it('asks for the word again for a new set, and for readings after a tape in order', () => {
    const at = bench();
    at.do({ ...read('top'), overdueAllowedBy: WORD });
    for (const key of KEYS.slice(1)) at.do(read(key));
    at.do({ do: 'undo', reason: 'again' });
    at.do({ ...read('br_tl') });
    at.do({ do: 'answer', check: 'q/set', value: {} });
    at.do({ do: 'rework', step: 'q', reason: 'knocked' });
    expect(at.refusal(read('top')).id).toBe('build.instrument-overdue');
    at.more = {};
    at.do(read('top'));
    at.more = { inHand: 'T9' };
    expect(at.refusal(read('bottom')).id).toBe('build.instrument-overdue');
  });

  it('asks for the word again after a set that was answered and did not pass', () => {
    const at = bench();
    at.do({ ...read('top'), overdueAllowedBy: WORD });
    for (const key of KEYS.slice(1)) at.do(read(key));
    at.do({ do: 'answer', check: 'q/set', value: { bl_tr: '1225', br_tl: '1216' }, overdueAllowedBy: WORD });
    expect(at.status('q')).toBe('failed');
    at.more = {};
    at.do({ do: 'begin-set', check: 'q/set' });
    at.do(read('top'));
    at.more = { inHand: 'T9' };
    expect(at.refusal(read('bottom')).id).toBe('build.instrument-overdue');
    at.do({ ...read('bottom'), overdueAllowedBy: WORD });
    expect(at.do(read('left'))).toMatchObject([{ kind: 'read', overdueAllowedBy: 'rl' }]);
  });

  it('is not taken on the word of somebody without the right, nor with a wrong PIN', () => {
    const at = bench();
    expect(at.refusal({ ...read('top'), overdueAllowedBy: { person: 'mk' } }).id).toMatch(/level|right/);
    expect(at.refusal({ ...read('top'), overdueAllowedBy: { person: 'rl', pin: '9' } }).id).toMatch(/pin/);
    expect(at.refusal({ ...read('top'), overdueAllowedBy: { person: 'nobody' } }).id).toMatch(/person/);
  });
});
