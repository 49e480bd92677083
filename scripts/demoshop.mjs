/** Bundles scripts/demoshop.ts and runs it with the built program. */
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const outfile = join(root, 'node_modules', '.demoshop', 'demoshop.mjs');
await build({
  absWorkingDir: root,
  entryPoints: ['scripts/demoshop.ts'],
  outfile,
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  packages: 'external',
});
const { demoShop } = await import(pathToFileURL(outfile).href);
process.exit(await demoShop(join(root, 'dist', 'main.js')));
