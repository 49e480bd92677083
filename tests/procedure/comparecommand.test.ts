import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { run } from '../../src/commands/compare.js';
import { small, sourceOf } from './samples.js';

const folder = mkdtempSync(join(tmpdir(), 'compare-'));
afterAll(() => rmSync(folder, { recursive: true }));
writeFileSync(join(folder, 'old.yaml'), small().text);
writeFileSync(join(folder, 'new.yaml'), small((t) => t.replace('Put it together.', 'Join it.')).text);
writeFileSync(join(folder, 'broken.yaml'), small((t) => t.replace('{mm(frame.w)}', '{mm(frame.x)}')).text);
const limits = sourceOf('shared/limits.yaml').text;
writeFileSync(join(folder, 'limits-old.yaml'), limits);
writeFileSync(join(folder, 'limits-new.yaml'), limits.replace('within: 0.1', 'within: 0.2'));

async function compare(...args: string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(args, { out: (t) => out.push(t), err: (t) => err.push(t), workshop: folder });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

it('shows what changed, and changes no file', async () => {
  const { code, out } = await compare('old.yaml', 'new.yaml');
  expect(code).toBe(0);
  expect(out).toBe('~ step make.frame\n    do: Join it.\n      was: Put it together.');
  expect(readFileSync(join(folder, 'old.yaml'), 'utf8')).toBe(small().text);
  expect(await compare('old.yaml', 'old.yaml')).toMatchObject({ code: 0, out: 'Nothing changed.' });
});

it('shows limits that moved, as data too', async () => {
  const { out } = await compare('limits-old.yaml', 'limits-new.yaml', '--json');
  expect(JSON.parse(out)).toEqual({
    alike: false,
    differences: [
      {
        change: 'moved',
        thing: 'limit',
        id: 'saw.angle',
        fields: [{ name: 'allows', was: 'least -0.1 most 0.1', now: 'least -0.2 most 0.2' }],
      },
    ],
  });
});

it('says what is wrong with a file, where, and what to do', async () => {
  expect(await compare('old.yaml', 'broken.yaml')).toMatchObject({ code: 2, out: '' });
  expect((await compare('old.yaml', 'broken.yaml')).err).toMatch(/broken\.yaml:\d+:\d+: .*\[formula\.type\]/);
  expect(await compare('old.yaml', 'limits-new.yaml')).toMatchObject({ code: 2 });
  expect(await compare('old.yaml', 'none.yaml')).toMatchObject({ code: 3 });
  expect(await compare('old.yaml')).toMatchObject({ code: 2 });
});
