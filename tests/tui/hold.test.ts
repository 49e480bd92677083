/** A hold's screen tells beforehand what would be refused, and says no more than the refusal does. */

import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { releaseLines } from '../../src/tui/screens/release.js';
import { newPicture } from '../picture.js';
import { benchOf, PINS, RIGHT, remove, smallWorkshop, startClock } from './realbench.js';

const F8 = '\u001b[19~';
const root = smallWorkshop();
afterAll(() => remove(root));

it('is told who cannot release it, and is released by who can', () => {
  newPicture(join(root, 'inbox/photo.jpg'));
  const bench = benchOf(root, startClock());
  const shown = (): string => {
    const { screen } = bench.core.state();
    if (screen.name !== 'release')
      throw new Error(`no hold but ${screen.name}: ${bench.core.state().note?.text}`);
    return releaseLines(bench.core.state(), screen, bench.core.world(), 78)
      .map((spans) => spans.map(({ text }) => text).join(''))
      .join('\n');
  };
  bench.press('OT\r', 'T2\r', 'S01-1\r', '900\r', 'PR-77\r');
  bench.ports.act(
    { do: 'answer', check: 'cut/photo', value: 'yes', evidence: ['inbox/photo.jpg'] },
    { person: 'ot' },
  );
  bench.press('F1\r', '0.1\r', RIGHT, RIGHT, F8);
  expect(shown()).toContain('Not by the one who did the step.');
  // Whoever is alone in the shop and may release after a while is not told that another must.
  const world = bench.core.world();
  const { screen } = bench.core.state();
  if (screen.name !== 'release') throw new Error(screen.name);
  const alone = releaseLines(
    bench.core.state(),
    screen,
    {
      ...world,
      rules: {
        ...world.rules,
        soloRelease: { minutes: 15, evidence: false },
        people: world.rules.people.filter(({ id }) => id !== 'mv'),
      },
    },
    78,
  );
  expect(
    alone
      .flat()
      .map(({ text }) => text)
      .join(''),
  ).not.toContain('Not by the one');
  expect(shown()).toContain('did this work and may not also release');
  expect(shown()).toContain('Let one of these do it: MV');
  expect(shown()).not.toContain('press F8');
  // What is told is what is said when it is tried all the same.
  bench.press(PINS.ot, F8);
  expect(shown().replaceAll(/\s+/g, ' ')).toContain(bench.core.state().note!.text);
  bench.press('\u001b', 'JB\r', F8);
  expect(shown()).toContain('Joan Bexley is at level 3');
  bench.press('\u001b', 'MV\r');
  expect(shown()).toContain('Mira Volkov: type your PIN, then press F8.');
  // What it rests on stands there: readings with their limits, and what was looked at.
  expect(shown()).toContain('Gap: PASS 0.1 with F1');
  expect(shown()).toContain('at most 0.2 mm');
  expect(shown()).toContain('Looked at and right: Safe / Play');
  bench.press(PINS.mv, F8);
  expect(bench.core.world().open!.state.events.at(-1)).toMatchObject({ kind: 'released', by: 'mv' });
  bench.ports.close();
});
