import xterm from '@xterm/headless';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CLEAR, NOTHING_PAINTED, paint } from '../../src/tui/paint.js';

async function shown(columns: number, rows: number, ...parts: string[]): Promise<string[]> {
  const terminal = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true });
  for (const part of parts) await new Promise<void>((done) => terminal.write(part, done));
  const { active } = terminal.buffer;
  expect(active.baseY).toBe(0);
  return Array.from({ length: rows }, (_, row) => active.getLine(row)?.translateToString(true) ?? '');
}

const row = fc.stringMatching(/^[a-z ]{0,20}$/);
const frame = fc.array(row, { minLength: 1, maxLength: 7 }).map((rows) => rows.join('\n'));

describe('paint', () => {
  it('sends nothing where nothing changed', () => {
    const first = paint(NOTHING_PAINTED, 'one\ntwo', { x: 1, y: 1 });
    expect(paint(first.painted, 'one\ntwo', { x: 1, y: 1 }).bytes).toBe('');
    expect(paint(first.painted, 'one\ntwo', { x: 2, y: 1 }).bytes).not.toContain('one');
  });

  it('leaves on the screen exactly the last frame, whatever was there before, and never scrolls', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(frame, { minLength: 1, maxLength: 5 }), async (frames) => {
        let before = NOTHING_PAINTED;
        const parts = [CLEAR];
        for (const each of frames) {
          const result = paint(before, each, { x: 0, y: 0 });
          before = result.painted;
          parts.push(result.bytes);
        }
        const wanted = frames
          .at(-1)!
          .split('\n')
          .map((text) => text.trimEnd());
        expect((await shown(20, 8, ...parts)).map((text) => text.trimEnd())).toEqual(
          Array.from({ length: 8 }, (_, index) => wanted[index] ?? ''),
        );
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});
