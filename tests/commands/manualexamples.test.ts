/**
 * The worked examples of the manuals, typed as they stand there: each `$ pinchrod …` of a text block is run in one fresh
 * workshop for each manual, and prints what stands below it; `…` stands for any lines. A YAML block that
 * begins with `# in FILE` changes the lines of that file that have the same keys.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { command } from '../errors/museum.js';
import { must } from '../procedure/samples.js';

const ROOT = resolve(import.meta.dirname, '../..');
const LEAST = {
  'shared/first-window.md': 1,
  'shared/profile-sets/README.md': 7,
  'shared/jobs/README.md': 4,
  'procedures/README.md': 4,
};
const MANUALS = Object.keys(LEAST);

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

interface Done {
  readonly does: 'run' | 'change';
  readonly what: string;
  /** Printed below a command, or the lines of a change. */
  readonly lines: readonly string[];
}

function doneIn(manual: string): Done[] {
  const text = readFileSync(join(ROOT, manual), 'utf8');
  return [...text.matchAll(/^```(text|yaml)\n([\s\S]*?)^```/gm)].flatMap(([, kind, block]): Done[] => {
    const lines = block!.trimEnd().split('\n');
    const file = /^# in (\S+)$/.exec(lines[0]!)?.[1];
    if (kind === 'yaml') return file ? [{ does: 'change', what: file, lines: lines.slice(1) }] : [];
    const done: { does: 'run'; what: string; lines: string[] }[] = [];
    for (const line of lines)
      if (line.startsWith('$ pinchrod ')) done.push({ does: 'run', what: line.slice(11), lines: [] });
      else done.at(-1)?.lines.push(line);
    return done;
  });
}

/** Whether the lines stand in what was printed, with any lines where `…` is. */
function standsIn(wanted: readonly string[]): RegExp {
  const escaped = (line: string) => line.trimEnd().replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  const pattern = wanted
    .map((line) => (line === '…' ? '[\\s\\S]*?' : `${escaped(line)} *(?:\\n|$)`))
    .join('');
  return new RegExp(`^${pattern}$`);
}

describe.each(MANUALS)('%s', (manual) => {
  const done = doneIn(manual);
  it(`has examples`, () => {
    expect(done.length).toBeGreaterThanOrEqual(LEAST[manual as keyof typeof LEAST]);
  });

  it('prints what it shows', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'manual-'));
    folders.push(folder);
    const root = join(folder, 'w');
    // The first window is made in a workshop of one's own.
    const own = ['--name', 'Quay Lane', '--person', 'ab Ann Bell', '--instrument', 'tape'];
    if (manual === 'shared/first-window.md') await command('.', ['init', root, ...own]);
    else must(makeWorkshop(realDisk, ROOT, root));
    for (const { does, what, lines } of done) {
      if (does === 'change') {
        const path = join(root, what);
        let text = readFileSync(path, 'utf8');
        for (const line of lines) {
          const key = /^\s*[\w.]+:/.exec(line)![0];
          const at = new RegExp(`^${key} .*$`, 'm');
          expect(text, `${what} has no ${key}`).toMatch(at);
          text = text.replace(at, () => line);
        }
        writeFileSync(path, text);
        continue;
      }
      const { text } = await command(root, what.split(' '));
      expect(`${text}\n`, `$ pinchrod ${what}`).toMatch(standsIn(lines));
    }
  }, 60_000);
});
