/** The practice screen: keys, what is drawn, and one drill played in a real terminal. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pty from '@lydell/node-pty';
import xterm from '@xterm/headless';
import { build } from 'esbuild';
import fc from 'fast-check';
import { render } from 'ink-testing-library';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { data } from '../../src/base/words.js';
import { SPLIT_START, split } from '../../src/tui/keys/split.js';
import {
  saidLines,
  TalkScreen,
  type TalkState,
  talkKey,
  talkSaid,
  talkStart,
} from '../../src/tui/practice.js';
import { told } from '../../src/tui/words/told.js';
import { REPOSITORY } from './shop.js';

/** Typed bytes in given chunks: the lines that came out of them. */
function typed(chunks: readonly string[]): { lines: string[]; state: TalkState } {
  let keys = SPLIT_START;
  let state = talkStart(['Task']);
  const lines: string[] = [];
  for (const chunk of chunks) {
    const cut = split(keys, chunk);
    keys = cut.state;
    for (const key of cut.keys) {
      const pressed = talkKey(state, key, 10);
      state = pressed.state;
      if (pressed.typed !== undefined) lines.push(pressed.typed);
    }
  }
  return { lines, state };
}

describe('keys', () => {
  it('however the bytes are cut, the same lines come out', () => {
    const text = 'read bl-tr\rpush br-tl 2,5\rx\u007fflat\rhalf';
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: text.length - 1 }), { maxLength: 8 }), (cuts) => {
        const at = [0, ...cuts.sort((a, b) => a - b), text.length];
        const { lines, state } = typed(at.slice(1).map((end, i) => text.slice(at[i], end)));
        expect(lines).toEqual(['read bl-tr', 'push br-tl 2,5', 'flat']);
        expect(state.entry).toBe('half');
      }),
      { seed: 79, numRuns: 100 },
    );
  });
  it('Esc empties the line, asks once, then leaves; another key goes on', () => {
    const esc = { name: 'escape' } as const;
    let state = typed(['abc']).state;
    state = talkKey(state, esc, 10).state;
    expect([state.entry, state.leaving]).toEqual(['', false]);
    state = talkKey(state, esc, 10).state;
    expect([state.leaving, state.left]).toEqual([true, false]);
    expect(talkKey(state, { name: 'char', text: 'x' }, 10).state).toMatchObject({
      leaving: false,
      entry: 'x',
    });
    expect(talkKey(state, esc, 10).state.left).toBe(true);
  });
  it('when it is over, nothing more is typed and Enter leaves', () => {
    const over = talkSaid(talkStart(['Task']), ['Passed on.'], true);
    expect(talkKey(over, { name: 'char', text: 'x' }, 10).state.entry).toBe('');
    expect(talkKey(over, { name: 'enter' }, 10).state.left).toBe(true);
  });
});

describe('what is drawn', () => {
  const theme = { colours: 'none', ascii: true } as const;
  it.each([
    [80, 24],
    [120, 30],
    [60, 18],
  ])('fits %i x %i with a row to spare, the newest line last', (columns, rows) => {
    const state = talkSaid(
      talkStart(['Task']),
      Array.from({ length: 60 }, (_, i) => `line ${i} ${'word '.repeat(i % 30)}`),
      false,
    );
    const view = {
      say: told({}),
      asks: false,
      title: 'squaring drill',
      standing: data('3 of 30 minutes'),
      picture: () => ['picture'],
    };
    const { lastFrame, unmount } = render(
      <TalkScreen state={state} view={view} size={{ columns, rows }} theme={theme} />,
    );
    const lines = (lastFrame() ?? '').split('\n');
    expect(lines.length).toBeLessThan(rows);
    expect(lines.join('\n')).toContain('line 59');
    expect(lines.join('\n').includes('picture')).toBe(columns >= 100);
    unmount();
  });
  it('scrolled back it shows what was said before', () => {
    const state = {
      ...talkSaid(
        talkStart(['Task']),
        Array.from({ length: 60 }, (_, i) => `line ${i}`),
        false,
      ),
      back: 30,
    };
    const shown = saidLines(state, 80, 10).map((line) => line.map((span) => span.text).join(''));
    expect(shown.at(-1)).toBe('line 29');
    expect(shown).toHaveLength(10);
  });
});

describe('in a terminal', () => {
  let folder: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'pinchrod-screen-'));
    const entry = join(folder, 'entry.ts');
    const stub = join(folder, 'stub.js');
    writeFileSync(stub, 'export default {};');
    writeFileSync(
      entry,
      `import { run } from ${JSON.stringify(join(REPOSITORY, 'src/commands/train.ts'))};
       const io = { out: (t: string) => void process.stdout.write(t + '\\n'), err: (t: string) => void process.stderr.write(t + '\\n'), workshop: ${JSON.stringify(REPOSITORY)} };
       run(process.argv.slice(2), io).then((code: number) => { process.exitCode = code; });`,
    );
    await build({
      entryPoints: [entry],
      outdir: join(folder, 'out'),
      outExtension: { '.js': '.mjs' },
      bundle: true,
      splitting: true,
      platform: 'node',
      format: 'esm',
      jsx: 'automatic',
      logLevel: 'silent',
      nodePaths: [join(REPOSITORY, 'node_modules')],
      alias: { 'react-devtools-core': stub },
      define: { 'process.env.NODE_ENV': '"production"' },
      banner: {
        js: "import { createRequire } from 'module'; const require = createRequire(import.meta.url);",
      },
    });
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('a squaring drill is played on the alternate screen, and the score is left on the ordinary one', async () => {
    const terminal = new xterm.Terminal({ cols: 110, rows: 30, allowProposedApi: true });
    const child = pty.spawn(
      'node',
      [join(folder, 'out/entry.mjs'), 'squaring', '--seed', '7', '--level', '1'],
      {
        cols: 110,
        rows: 30,
        env: { ...process.env, TERM: 'xterm-256color', LANG: 'C.UTF-8' },
      },
    );
    const screen = () =>
      Array.from(
        { length: 30 },
        (_, i) =>
          terminal.buffer.active.getLine(terminal.buffer.active.baseY + i)?.translateToString(true) ?? '',
      ).join('\n');
    let check: () => void = () => {};
    child.onData((data) => terminal.write(data, () => check()));
    const exited = new Promise<number>((resolve) => child.onExit(({ exitCode }) => resolve(exitCode)));
    const until = (text: string) =>
      new Promise<void>((resolve) => {
        check = () => {
          if (screen().includes(text)) resolve();
        };
        check();
      });
    try {
      await until('Esc leave');
      expect(terminal.buffer.active.type).toBe('alternate');
      child.write('read bl-tr\rread br-tl\rread top\rread bottom\rread left\rread right\r');
      await until('the long one');
      child.write('nonsense\r');
      await until('[train.action]');
      child.write('done\r');
      await until('It is over.');
      child.write('\r');
      expect(await exited).toBe(1);
      await until('of 100 points');
      expect(terminal.buffer.active.type).toBe('normal');
    } finally {
      child.kill();
      terminal.dispose();
    }
  });
});
