/** Long forms on a low screen: what is asked, and what it may be answered with, is always there. */
import { render } from 'ink-testing-library';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { withComma } from '../../src/base/figures.js';
import type { Translations } from '../../src/base/words.js';
import { App } from '../../src/tui/app.js';
import { currentField } from '../../src/tui/screens/fields.js';
import { BENCH_TEXTS, told } from '../../src/tui/words/told.js';
import { CATALOGUES } from '../base/catalogues.js';
import { longer, pseudo } from '../base/pseudo.js';
import { type Bench, ESC, freshBench, leaveBench, RIGHT, SETUPS } from './realbench.js';

const GERMAN = BENCH_TEXTS.get('de')!;
/** Texts as much longer as those of any language that is to be expected. */
const LONGER: Translations = Object.assign(
  {},
  ...CATALOGUES.map(({ catalogue }) => pseudo(catalogue, longer)),
);
const SIZE = { columns: 80, rows: 24 };
const THEME = { colours: 'none', ascii: false } as const;
let root: string;
let bench: Bench;
beforeEach(() => {
  ({ root, bench } = freshBench());
});
afterEach(() => {
  BENCH_TEXTS.set('de', GERMAN);
  leaveBench(bench, root);
});

it.each([
  ['English', 'jb'],
  ['German', 'lb'],
  ['a language that needs more room', 'lb'],
])(
  'every question of every first-off shows at 80 x 24 in %s, with what it offers, and so does the summary',
  async (language, who) => {
    if (language.startsWith('a language')) BENCH_TEXTS.set('de', LONGER);
    const { lastFrame, unmount } = render(<App core={bench.core} size={SIZE} theme={THEME} />);
    const page = async (): Promise<string> => {
      for (let turn = 0; turn < 3; turn += 1) await new Promise((done) => setImmediate(done));
      return (lastFrame() ?? '').replaceAll(/\s+/g, ' ');
    };
    bench.press(`${who}\r`);
    const say = told(bench.core.world());
    const written = (text: string) => (who === 'lb' ? withComma(text) : text).replaceAll(/\s+/g, ' ');
    const name = bench.core.world().rules.people.find(({ id }) => id === who)!.name;
    const setups = bench.ports.world().more!.setups();
    expect(setups.length).toBeGreaterThan(3);
    for (const { standing } of setups) {
      bench.press(SETUPS);
      bench.choose(standing.rule.title);
      for (let asked = 0; ; asked += 1) {
        const state = bench.core.state();
        const { screen } = state;
        if (screen.name !== 'form') throw new Error(`${standing.rule.id}: no form but ${screen.name}`);
        const field = currentField(screen, state, bench.core.world());
        const shown = await page();
        if (!field) {
          expect(asked).toBeGreaterThan(standing.rule.checks.length);
          expect(shown).toContain(say('form-name', { name }));
          expect(shown).toContain(say('form-end').replaceAll(/\s+/g, ' '));
          break;
        }
        expect(shown).toContain(written(field.ask));
        for (const { text } of field.choices.slice(0, 7)) expect(shown).toContain(written(text).slice(0, 60));
        const check = standing.rule.checks.find(({ id }) => id === field.id);
        bench.press(field.choices.length > 0 ? RIGHT : `${check?.expect ?? 0.05}\r`);
      }
      bench.press(ESC, ESC);
    }
    unmount();
  },
);
