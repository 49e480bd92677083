/** How long the build takes, and how large what it makes is. */
import { spawnSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { atMost, type Row, type Setting } from './rows.js';

export const title = 'Build';

export async function measure({ root }: Setting): Promise<Row[]> {
  const from = performance.now();
  const done = spawnSync(process.execPath, [join(root, 'scripts/build.mjs')], { encoding: 'utf8' });
  if (done.status !== 0) throw new Error(done.stderr);
  const took = performance.now() - from;
  const files = readdirSync(join(root, 'dist'), { recursive: true, withFileTypes: true }).filter(
    (entry) => entry.isFile() && !entry.name.endsWith('.ttf'),
  );
  const bytes = files.reduce((sum, { parentPath, name }) => sum + statSync(join(parentPath, name)).size, 0);
  return [
    atMost('the build, start to end', took / 1000, 8, 's'),
    atMost('dist/ without fonts', bytes / 1e6, 4.5, 'MB'),
  ];
}
