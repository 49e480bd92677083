/** A workshop that reads inches, and one that has an inch tape beside others: asked, typed, shown and logged in what is read. */
import { render } from 'ink-testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import { App } from '../../src/tui/app.js';
import { INSTRUMENTS, rig } from './support.js';

const opened: { unmount: () => void }[] = [];
afterEach(() => {
  for (const each of opened.splice(0)) each.unmount();
});

async function page(bench: ReturnType<typeof rig>, columns = 80, rows = 24) {
  const shown = render(
    <App core={bench.core} size={{ columns, rows }} theme={{ colours: 'none', ascii: false }} />,
  );
  opened.push(shown);
  for (let turn = 0; turn < 3; turn += 1) await new Promise((done) => setImmediate(done));
  return (shown.lastFrame() ?? '').replace(/\u001b\[[0-9;]*m/g, '');
}

const INCH_TAPE = {
  ...INSTRUMENTS.find(({ id }) => id === 'T1')!,
  id: 'Y1',
  title: 'inch tape',
  unit: 'inch',
  resolution: 25.4 / 32,
} as const;

function atWork(tool: string, units: 'mm' | 'inch') {
  const bench = rig({}, { units, instruments: [...INSTRUMENTS, INCH_TAPE] });
  bench.scan('P01-1');
  bench.scan('iv');
  bench.scan(tool);
  bench.press('right', '"x', 'backspace', 'right');
  return bench;
}

function toSquare(tool: string, units: 'mm' | 'inch') {
  const bench = atWork(tool, units);
  bench.scan('39 3/8');
  bench.scan('4');
  bench.scan('LOT-1');
  bench.scan('1');
  return bench;
}

describe.each([
  ['a workshop that reads inches', 'T2', 'inch'],
  ['an inch tape in a workshop that reads millimetres', 'Y1', 'mm'],
] as const)('%s', (_, tool, units) => {
  it('asks in inches, large, with the millimetres beside it', async () => {
    const text = await page(atWork(tool, units), 100, 30);
    expect(text).toContain('expected, 1000.0 mm');
    // 39 3/8" in five rows; the slash climbs from the foot to the head.
    expect(text).toMatch(/█████ {2}█████ {6}█████ {6}█ {2}█████ {2}█ █/);
    expect(await page(atWork(tool, units), 60, 18)).toContain('39 3/8"');
  });

  it('takes fractions and decimals, keeps what was typed, and shows what was read in inches', async () => {
    for (const typed of ['39 3/8', '39.375', '39-3/8"', '1000.1 mm']) {
      const bench = atWork(tool, units);
      bench.scan(typed);
      const last = bench.events('P01-1').findLast(({ kind }) => kind === 'answered');
      if (typed.endsWith('mm') && units === 'mm') {
        // An inch tape shows no millimetres, but a unit that is typed is taken at its word.
        expect(last).toMatchObject({ answer: { readings: [{ raw: typed, value: 1000.1 }] } });
        continue;
      }
      expect(last, typed).toMatchObject({ check: 'cut/length', answer: { readings: [{ raw: typed }] } });
      expect(bench.core.state().note?.text, typed).toMatch(/^PASS {2}39 3\/8": /);
      expect(bench.core.state().note?.todo).toMatch(/deviation \+0\.1\d? mm, within ±0\.5 mm \(.*: .*\)/);
    }
  });

  it('asks about a misread in inches, and stands by it when it is confirmed', async () => {
    const bench = atWork(tool, units);
    bench.scan('38 3/8');
    expect(bench.core.state().screen.name).toBe('question');
    const text = await page(bench);
    expect(text).toContain('38 3/8" lies 1" from the expected 39 3/8"');
    expect(text).toContain('a slip of 1"?');
    bench.press('right');
    expect(bench.events('P01-1').findLast(({ kind }) => kind === 'answered')).toMatchObject({
      answer: { readings: [{ raw: '38 3/8', confirmed: true }] },
      verdict: { outcome: 'fail' },
    });
    expect(await page(bench)).toContain('FAIL 38 3/8"');
  });

  it('takes a whole set in fractions and draws it in inches', async () => {
    const bench = toSquare(tool, units);
    for (const reading of ['39 3/8', '39 3/8', '27 9/16', '27 9/16', '48 1/16']) bench.scan(reading);
    expect(await page(bench, 100, 30)).toContain('bottom  39 3/8"');
    bench.scan('48 1/16');
    bench.scan('48 1/16');
    const set = bench.events('P01-1').findLast(({ kind }) => kind === 'answered');
    expect(set).toMatchObject({ check: 'square/set', answer: { kind: 'square' } });
    const text = (await page(bench, 160, 50)).replace(/\s+/g, ' ');
    expect(text).toContain('left: 27 9/16" (0")');
    expect(text).toContain('Dotted: nominal 39 3/8" x 27 9/16"');
    expect(text).toContain('read 48 1/16, 48 1/16');
  });

  it('says in inches what would close a set that does not close', async () => {
    const bench = toSquare(tool, units);
    for (const reading of ['39 3/8', '39 3/8', '27 9/16', '27 9/16', '48 1/4', '48', '48 1/4'])
      bench.scan(reading);
    const asked = bench.core.state().screen;
    if (asked.name !== 'question') throw new Error('not asked');
    const text = (await page(bench, 120, 40)).replace(/\s+/g, ' ');
    expect(text).toMatch(/they miss closing by \d?\d?\/?\d*"/);
    expect(text).not.toContain(' mm');
  });
});

it('shows what a tape reads that starts at its 100 mm mark', async () => {
  const bench = rig();
  bench.scan('P01-1');
  bench.scan('iv');
  bench.scan('T3');
  bench.press('right', '"x', 'backspace', 'right');
  expect(await page(bench, 100, 30)).toContain('expected, T3 shows 1100.0');
  bench.scan('1100');
  expect(bench.events('P01-1').at(-1)).toMatchObject({
    answer: { readings: [{ raw: '1100', value: 1000, instrument: 'T3' }] },
  });
});
