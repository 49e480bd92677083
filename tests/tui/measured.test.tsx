/** The frame as measured, on the screen after a set of sides and diagonals was judged. */
import { render } from 'ink-testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import { App } from '../../src/tui/app.js';
import { INSTRUMENTS, rig } from './support.js';

const opened: { unmount: () => void }[] = [];
afterEach(() => {
  for (const each of opened.splice(0)) each.unmount();
});

interface Size {
  readonly columns: number;
  readonly rows: number;
}

async function page(bench: ReturnType<typeof rig>, size: Size = { columns: 80, rows: 24 }, ascii = false) {
  const shown = render(<App core={bench.core} size={size} theme={{ colours: 'none', ascii }} />);
  opened.push(shown);
  for (let turn = 0; turn < 3; turn += 1) await new Promise((done) => setImmediate(done));
  return (shown.lastFrame() ?? '').replace(/\u001b\[[0-9;]*m/g, '');
}

/** The text beside the drawing, as one line. */
const beside = (shown: string, { columns }: Size = { columns: 80, rows: 24 }): string =>
  shown
    .split('\n')
    .map((row) => row.slice(0, columns - Math.floor(columns * 0.45) - 1))
    .join(' ')
    .replace(/\s+/g, ' ');

/** So fine that the piece before the set is proven under any decision rule. Invented. */
const FINE = {
  ...INSTRUMENTS[0]!,
  id: 'F0',
  title: 'laboratory tape',
  resolution: 0.01,
  class: 'I',
  hook: false,
} as const;

/** Shows tenths, and places them no better than a millimetre tape. Invented. */
const SHAKY = { ...FINE, id: 'W0', resolution: 0.1, repeatability: 0.6, class: 'II', hook: true } as const;

/** At the set, which is read in the order in which it is asked. */
function measuring(readings: readonly string[], tape = 'T2', shop: Parameters<typeof rig>[1] = {}) {
  const bench = rig({}, { instruments: [...INSTRUMENTS, FINE, SHAKY], ...shop });
  bench.scan('P01-1');
  bench.scan('iv');
  bench.scan('F0');
  bench.press('right', '"x', 'backspace', 'right');
  bench.scan('1000');
  bench.scan('4');
  bench.scan('LOT-1');
  bench.scan('1');
  bench.scan(tape);
  for (const reading of readings) bench.scan(reading);
  return bench;
}

const GOOD = ['1000', '1000.5', '700', '700.5', '1221', '1220.5', '1221'];
/** Racked to the right by some 3 mm over its height, its sides true. */
const RACKED = ['1000', '1000', '700', '700', '1222.5', '1219', '1222.5'];
const TALL = { columns: 132, rows: 50 };

describe('the frame as measured', () => {
  it('stands on the screen as soon as its set is judged, with verdict, limit, source and what to do', async () => {
    const bench = measuring(RACKED);
    expect(bench.core.state().screen.name).toBe('measured');
    const first = await page(bench);
    expect(first).toContain('✕ FAIL  7 readings: ask square/set');
    expect(first).toMatch(/Frame, difference of diagonals \(house\):/);
    expect(first).toContain('difference of diagonals 3.5 mm');
    expect(beside(first)).toContain('The diagonal bottom left to top right is long by 3.5 mm.');
    const whole = beside(await page(bench, TALL), TALL);
    for (const text of [
      'house rule: about half',
      'published: BS 4873:2009, 6.2',
      'corner goes about',
      'Aim for 1220.',
      'straight-edge and feeler',
      'bottom left to top right: 1222.5 (+1.84), the long one',
      'read 1222.5, 1222.5',
      'Decision rule: simple acceptance',
    ])
      expect(whole).toContain(text);
  });

  it('is drawn with its error magnified by the factor it states, the nominal beside it and the long diagonal marked', async () => {
    for (const size of [{ columns: 80, rows: 24 }, { columns: 100, rows: 30 }, TALL]) {
      const text = await page(measuring(RACKED), size);
      const flat = text.replace(/\s+/g, ' ');
      expect(flat, String(size.columns)).toMatch(/error drawn/);
      expect(text).toMatch(/\d+ times/);
      expect(text).toMatch(/Dotted: nominal/);
      expect(text).toContain('* the long diagonal');
      // Stars of the diagonal, dots of the nominal, and the frame's own corners.
      const drawing = text.split('\n').map((row) => row.slice(Math.ceil(size.columns * 0.5)));
      expect(drawing.filter((row) => row.includes('*')).length).toBeGreaterThan(5);
      expect(drawing.filter((row) => row.includes('·')).length).toBeGreaterThan(3);
      expect(drawing.filter((row) => row.includes('+')).length).toBeGreaterThanOrEqual(2);
    }
  });

  it('stars no diagonal of a frame that is square, and says what diagonals do not show', async () => {
    const bench = measuring(GOOD);
    const text = await page(bench);
    expect(text).toContain('✓ PASS');
    expect(text).not.toContain('*');
    expect(beside(text)).toContain('Diagonals do not show bow, twist');
    expect(beside(text)).toContain('published: BS 4873:2009, 6.2');
  });

  it('fits its terminal at every size, in ASCII too', async () => {
    const bench = measuring(RACKED);
    for (const [columns, rows] of [
      [60, 18],
      [71, 20],
      [80, 24],
      [220, 60],
    ] as const)
      for (const ascii of [false, true]) {
        const text = await page(bench, { columns, rows }, ascii);
        const drawn = text.split('\n');
        expect(drawn.length, `${columns}`).toBeLessThanOrEqual(rows - 1);
        for (const row of drawn) expect([...row].length).toBeLessThanOrEqual(columns);
        if (ascii) expect(drawn.join('')).toMatch(/^[\x20-\x7e]*$/);
        if (rows < 30) expect(text).toContain('Down for more');
      }
  });

  it('is scrolled to its last line and back', async () => {
    const bench = measuring(RACKED);
    bench.press('page-down', 'page-down', 'page-down', 'page-down');
    const end = await page(bench);
    expect(beside(end)).toContain('Decision rule: simple acceptance');
    expect(end).not.toContain('Down for more');
    bench.press('page-up', 'page-up', 'page-up', 'page-up');
    expect(await page(bench)).toContain('FAIL  7 readings: ask square/set');
  });

  it('is left by Right, Left or Esc to the work, and nothing is written by that', async () => {
    for (const key of ['right', 'left', 'escape'] as const) {
      const bench = measuring(RACKED);
      const before = bench.events('P01-1').length;
      bench.press(key);
      expect(bench.core.state().screen.name, key).toBe('step');
      expect(bench.events('P01-1').length).toBe(before);
      expect(await page(bench)).toMatch(/bottom {2}1000\.0/);
    }
  });

  it('takes a reading for the check at hand, and a scan as anywhere', () => {
    const bench = measuring(RACKED);
    bench.scan('1000');
    // All readings are in: it asks which one is meant, and keeps what was typed.
    expect(bench.core.state()).toMatchObject({ screen: { name: 'step' }, entry: '1000' });
    bench.press('page-up', 'down', 'enter');
    expect(bench.events('P01-1').findLast(({ kind }) => kind === 'read')).toMatchObject({
      key: 'top',
      replaces: 1,
    });
    const anew = measuring(RACKED);
    anew.press('home');
    anew.scan('1000');
    expect(anew.events('P01-1').slice(-2)).toMatchObject([
      { kind: 'set-begun' },
      { kind: 'read', key: 'bottom' },
    ]);
    const scanned = measuring(RACKED);
    scanned.scan('to');
    expect(scanned.core.state().person).toBe('tom');
    scanned.press('enter', 'tab');
    expect(scanned.core.state().screen.name).toBe('measured');
  });

  it('comes back with its key, shows what counts after a set was taken back, and says where there is none', async () => {
    const bench = rig();
    bench.scan('P01-1');
    bench.scan('iv');
    bench.press('end');
    expect(bench.core.state().note?.text).toContain('No set of sides and diagonals was measured');
    const again = measuring(RACKED);
    again.press('right', 'end');
    expect(await page(again)).toContain('FAIL');
    again.press('home');
    for (const reading of GOOD) again.scan(reading);
    expect(await page(again)).toContain('PASS');
    again.press('ctrl+z');
    again.press('down', 'enter', '"x', 'backspace', 'right');
    expect(again.events('P01-1').at(-1)).toMatchObject({ kind: 'corrected' });
    again.press('end');
    expect(await page(again)).toContain('FAIL');
  });

  it('shows readings that were confirmed although they do not close, without a word of pushing', async () => {
    const bench = measuring(['1000', '1000', '700', '700', '1226', '1221', '1226']);
    expect(bench.core.state().screen.name).toBe('question');
    const asked = (await page(bench, TALL)).replace(/\s+/g, ' ');
    expect(asked).toContain('The six readings cannot all be true');
    expect(asked).toContain('a slip of 5 mm?');
    expect(asked).toContain('Which one is wrong cannot be told from the numbers');
    bench.press('"x', 'backspace', 'right');
    const text = beside(await page(bench, TALL), TALL);
    expect(text).toContain('NOT PROVEN');
    expect(text).toContain('too far from closing');
    expect(text).not.toContain('Push');
  });
});

describe('an overdue tape at a set', () => {
  it('is asked about at the first reading, allowed by name and PIN, and then read to the end', () => {
    const bench = measuring([]);
    bench.scan('T9');
    bench.scan('1000');
    expect(bench.core.state().screen).toMatchObject({ name: 'form', form: { id: 'overdue' } });
    expect(bench.events('P01-1').filter(({ kind }) => kind === 'read')).toEqual([]);
    bench.scan('to');
    bench.scan('4711');
    bench.press('right');
    expect(bench.core.state().screen.name).toBe('step');
    for (const reading of ['1000', '700', '700', '1221', '1220', '1221']) bench.scan(reading);
    expect(bench.events('P01-1').findLast(({ kind }) => kind === 'answered')).toMatchObject({
      check: 'square/set',
      overdueAllowedBy: 'tom',
    });
  });
});

describe('a doubt in a guarded workshop', () => {
  it('says on the screen what would settle it, and with which instrument of the workshop', async () => {
    const bench = rig({}, { decisionRule: { kind: 'guarded', factor: 1 } });
    bench.scan('P01-1');
    bench.scan('iv');
    bench.scan('T2');
    bench.press('right', '"x', 'backspace', 'right');
    bench.scan('1000.5');
    const step = (await page(bench, { columns: 100, rows: 40 })).replace(/\s+/g, ' ');
    expect(step).toContain('NOT PROVEN');
    expect(step).toMatch(/The chance that it holds is about \d+ %/);
    expect(bench.events('P01-1').at(-1)).toMatchObject({ verdict: { outcome: 'not-proven' } });

    const set = measuring(['1000', '1000', '700', '700', '1221.3', '1220.1', '1221.3'], 'W0', {
      decisionRule: { kind: 'guarded', factor: 1 },
    });
    const text = beside(await page(set, TALL), TALL);
    expect(text).toContain('NOT PROVEN');
    expect(text).toContain(
      'Frame, difference of diagonals (house): difference of diagonals 1.2 mm, at most 2 mm',
    );
    expect(text).toContain('A better instrument would settle it if the figure stays: T2, tape 3 m');
    expect(text).toMatch(/Decision rule: guarded, w = U = \d\.\d+ mm \(ILAC-G8\)/);
    set.press('right');
    expect((await page(set)).replace(/\s+/g, ' ')).toContain('End: the frame as measured, and what to do.');
  });
});
