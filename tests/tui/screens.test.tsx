/** Every screen as it is drawn, over the real reducer and build room. Flicker, height and resize are the terminal tests'. */
import { render } from 'ink-testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import { App, EntryLine } from '../../src/tui/app.js';
import { helpLines } from '../../src/tui/screens/help.js';
import { told } from '../../src/tui/words/told.js';
import { rig } from './support.js';

const SIZE = { columns: 100, rows: 30 };
const opened: { unmount: () => void }[] = [];
afterEach(() => {
  for (const each of opened.splice(0)) each.unmount();
});

function shown(bench: ReturnType<typeof rig>, size = SIZE, ascii = false) {
  const page = render(<App core={bench.core} size={size} theme={{ colours: 'dark', ascii }} />);
  const entry = render(<EntryLine core={bench.core} size={size} theme={{ colours: 'dark', ascii }} />);
  opened.push(page, entry);
  // React draws what a key changed once the key has been dealt with.
  const settled = async (frame: () => string | undefined): Promise<string> => {
    for (let turn = 0; turn < 3; turn += 1) await new Promise((done) => setImmediate(done));
    // Styles are the tones' business; what is said must be said without them.
    return (frame() ?? '').replace(/\u001b\[[0-9;]*m/g, '');
  };
  return { page: () => settled(page.lastFrame), entry: () => settled(entry.lastFrame) };
}

function atWork() {
  const bench = rig();
  bench.scan('P01-1');
  bench.scan('iv');
  bench.scan('T2');
  return bench;
}

describe('the screens', () => {
  it('show whose name will be written, always', async () => {
    const bench = rig();
    const { page } = shown(bench);
    expect(await page()).toContain('nobody signs');
    bench.scan('iv');
    expect(await page()).toContain('signs: IV');
    for (const key of ['f1', 'f2', 'f4', 'f10', 'ctrl+x'] as const) {
      bench.press(key);
      expect(await page(), key).toContain('signs: IV');
      bench.press('escape');
    }
  });

  it('ask one thing, with its number large and the limit that will judge it', async () => {
    const bench = atWork();
    const { page } = shown(bench);
    bench.press('right', '"x', 'backspace', 'right');
    expect(await page()).toContain('ask cut/length');
    expect(await page()).toContain('█████  █████  █████');
    expect(await page()).toMatch(/within ±0\.5 mm/);
    expect(await page()).toContain('PASS');
  });

  it('name first the keys that answer what is asked, and no others', async () => {
    const bench = atWork();
    const { page } = shown(bench);
    const keys = async () => (await page()).trimEnd().split('\n').at(-1)!;
    expect(await keys()).toMatch(/^ → yes {2}F5/);
    bench.press('right');
    expect(await keys()).toMatch(/^ → yes {2}← no {2}F5/);
    bench.press('"x', 'backspace', 'right');
    for (const value of ['1000.0', '4', 'LOT-77']) {
      expect(await keys()).toMatch(/^ Enter logs what is typed {2}F5/);
      bench.scan(value);
    }
    expect(await keys()).toMatch(/^ ↑ up {2}↓ down {2}Enter takes a number typed {2}F5/);
    expect(await keys()).toContain('F1 keys');
    bench.press('down', 'up', 'enter');
    for (const value of ['1000', '1000', '700', '700', '1221', '1221', '1221']) {
      expect(await keys()).toMatch(/^ Enter logs what is typed/);
      bench.scan(value);
    }
    expect(await keys()).toMatch(/^ → yes/);
  });

  it('put typed characters on the entry line alone, without drawing the page again', async () => {
    const bench = atWork();
    const { page, entry } = shown(bench);
    const before = await page();
    bench.press('"1221.5');
    expect(await entry()).toContain('> 1221.5');
    expect(await page()).toBe(before);
  });

  it('say a failure by word and shape, with limit and source, and offer the ways out', async () => {
    const bench = atWork();
    const { page } = shown(bench);
    bench.press('right', '"x', 'backspace', 'right');
    bench.scan('1003');
    for (const text of [
      '✕ FAIL',
      'Cut piece, length',
      'measure again',
      'make again: Step papers',
      'do this step again: Step cut',
      'raise a snag and park the unit',
    ])
      expect(await page()).toContain(text);
  });

  it('ask the lengths of a square set one after the other, and keep what was read in one line', async () => {
    const bench = atWork();
    bench.press('right', '"x', 'backspace', 'right');
    bench.scan('1000');
    bench.scan('4');
    bench.scan('LOT-1');
    bench.scan('1');
    const { page } = shown(bench);
    for (const words of [
      'bottom',
      'top',
      'left',
      'right',
      'bottom left to top right',
      'bottom right to top left',
    ]) {
      expect(await page()).toContain(`: ${words}`);
      bench.scan(words === 'bottom' || words === 'top' ? '1000' : words.length < 6 ? '700' : '1221');
    }
    expect(await page()).toContain('bottom left to top right, again');
    expect(await page()).toMatch(/bottom {2}1000\.0.*\n.*top {2}1000\.0.*\n.*left {2}700\.0/);
  });

  it('show before a rework what it re-opens', async () => {
    const bench = atWork();
    bench.press('right', '"x', 'backspace', 'right');
    bench.scan('1000');
    bench.scan('4');
    bench.press('f3', 'page-up', 'f7');
    const { page } = shown(bench);
    expect(await page()).toContain('It re-opens 1');
    expect(await page()).toContain('Step cut: rests on what is made at "Step papers"');
  });

  it('never show a PIN', async () => {
    const bench = atWork();
    bench.press('right', '"x', 'backspace', 'right');
    bench.scan('1000');
    bench.scan('4');
    bench.scan('LOT-1');
    bench.scan('1');
    for (const reading of ['1000', '1000', '700', '700', '1221', '1221', '1221']) bench.scan(reading);
    bench.scan('to');
    bench.press('f8', '"4711');
    const { page, entry } = shown(bench);
    expect(await page()).toContain('Tom Okafor: type your PIN');
    expect(await entry()).toContain('> ****');
    expect((await page()) + (await entry())).not.toContain('4711');
  });

  it('use ASCII alone where that is wanted', async () => {
    const bench = atWork();
    for (const keys of [['f9'], ['f3'], ['f10'], ['f2']] as const) {
      bench.press(...keys);
      const { page } = shown(bench, SIZE, true);
      expect(await page(), keys[0]).toMatch(/^[\u0020-\u007e\n]*$/);
    }
  });

  it('fit their terminal at every size, and say so where they cannot', async () => {
    for (const size of [
      { columns: 60, rows: 18 },
      { columns: 80, rows: 24 },
      { columns: 100, rows: 60 },
    ]) {
      const bench = atWork();
      for (const key of ['f1', 'f2', 'f3', 'f4', 'f5', 'f6', 'f9', 'f10', 'ctrl+z'] as const) {
        bench.press(key);
        const { page } = shown(bench, size);
        const lines = (await page()).split('\n');
        expect(lines.length, `${key} at ${size.columns} x ${size.rows}`).toBeLessThanOrEqual(size.rows - 1);
        for (const line of lines)
          expect([...line.replace(/\u001b\[[0-9;]*m/g, '')].length).toBeLessThanOrEqual(size.columns);
        bench.press('escape', 'escape');
      }
    }
    expect(await shown(atWork(), { columns: 40, rows: 10 }).page()).toContain('needs 60 x 18');
  });

  it('explain each key on the help page', async () => {
    const text = helpLines(100, { colours: 'none', ascii: false }, told({}))
      .map((line) => line.map((span) => span.text).join(''))
      .join('\n');
    expect(text).toContain('F8 ^L');
    expect(text).toContain('Enter never');
  });
});
