/** Other Node.js release lines from the npm registry, for `npm run nodes` and `npm run benchmarks`. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

/** The newest Node.js of a release line ("24"), installed under node_modules/.nodes on first use. */
export function nodeBinary(line) {
  const folder = join(root, 'node_modules', '.nodes', line);
  const name = `node-${process.platform}-${process.arch}`;
  const binary = join(folder, 'node_modules', name, 'bin', 'node');
  if (!existsSync(binary)) {
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, 'package.json'), '{ "private": true }\n');
    execFileSync('npm', ['install', '--no-audit', '--no-fund', '--ignore-scripts', `${name}@${line}`], {
      cwd: folder,
      stdio: ['ignore', 'ignore', 'inherit'],
    });
  }
  return binary;
}
