/** What other units bear on a decision costs reading them all: it is looked up only where a decision asks. */
import { expect, it } from 'vitest';
import { decide } from '../../src/build/decide.js';
import { WORLD, whole } from './demonstration.js';

it('a note, and an answer that names no lot, look up no other unit', () => {
  const { state } = whole('P01-1');
  let looked = 0;
  const around = Object.defineProperties(
    { ...WORLD, person: 'jb' },
    Object.fromEntries(
      ['lots', 'snagged', 'setups'].map((name) => [
        name,
        {
          get: () => {
            looked += 1;
            return name === 'setups' ? new Map() : {};
          },
          enumerable: true,
        },
      ]),
    ),
  );
  decide(state, { do: 'note', text: 'x' }, around);
  expect(looked).toBe(0);
});
