/** What runs, and how large it is: every package is named in the README with its reason, and nothing grows unnoticed. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';

const ROOT = join(import.meta.dirname, '..');
const under = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? under(join(folder, entry.name)) : [join(folder, entry.name)],
  );

it('every package that the program imports has its row in the README', () => {
  const table = readFileSync(join(ROOT, 'README.md'), 'utf8').split('## Packages')[1]!.split('\n## ')[0]!;
  const rows = new Set([...table.matchAll(/^\| ([^|]+) \|/gm)].flatMap(([, names]) => names!.split(', ')));
  const imported = under(join(ROOT, 'src'))
    .filter((file) => /\.tsx?$/.test(file))
    .flatMap((file) =>
      [...readFileSync(file, 'utf8').matchAll(/(?:from |import\()'(@?[a-z][\w./:-]*)'/g)].map(
        ([, name]) => name!,
      ),
    )
    .filter((name) => !name.startsWith('node:'))
    .map((name) =>
      name
        .split('/')
        .slice(0, name.startsWith('@') ? 2 : 1)
        .join('/'),
    );
  expect(imported.length).toBeGreaterThan(20);
  expect([...new Set(imported)].filter((name) => !rows.has(name))).toEqual([]);
  expect(
    [...rows].filter((name) => /^[a-z@]/.test(name) && name !== 'package' && !imported.includes(name)),
  ).toEqual([]);
});

it('the bundle is no larger than was agreed', () => {
  const files = under(join(ROOT, 'dist')).filter((file) => !file.endsWith('.ttf'));
  const bytes = files.reduce((sum, file) => sum + statSync(file).size, 0);
  expect(bytes).toBeLessThanOrEqual(4_500_000);
});
