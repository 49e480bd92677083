/** `npm run manuals`: puts the tables of keys into the manuals of the job and profile set formats. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const outfile = join(root, 'node_modules', '.bench', 'manuals.mjs');
mkdirSync(dirname(outfile), { recursive: true });
await build({
  absWorkingDir: root,
  entryPoints: ['scripts/manuals.ts'],
  outfile,
  bundle: true,
  packages: 'external',
  format: 'esm',
  platform: 'node',
  target: 'node20',
  logLevel: 'warning',
});
const { MANUALS, withTables } = await import(pathToFileURL(outfile).href);
const read = (file) => readFileSync(join(root, file), 'utf8');
for (const file of MANUALS) {
  writeFileSync(join(root, file), withTables(file, read));
  console.log(`${file}: tables of keys made anew.`);
}
