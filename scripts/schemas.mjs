/** Writes shared/schemas/*.json anew. Where they differ from what the program reads, a test says so. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const folder = mkdtempSync(join(root, 'node_modules', '.schemas-'));
try {
  const outfile = join(folder, 'schemas.mjs');
  await build({
    absWorkingDir: root,
    entryPoints: ['scripts/schemas.ts'],
    outfile,
    bundle: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'warning',
  });
  const { schemaFiles } = await import(pathToFileURL(outfile).href);
  const to = join(root, 'shared', 'schemas');
  mkdirSync(to, { recursive: true });
  const files = Object.entries(schemaFiles());
  for (const [name, text] of files) writeFileSync(join(to, name), text);
  console.log(`${files.length} schemas written to shared/schemas.`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
