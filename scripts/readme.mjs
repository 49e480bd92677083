/** `npm run readme`: puts the table of keys into the README. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const outfile = join(root, 'node_modules', '.bench', 'table.mjs');
mkdirSync(dirname(outfile), { recursive: true });
await build({
  entryPoints: [join(root, 'src/tui/keys/table.ts')],
  outfile,
  bundle: true,
  format: 'esm',
  platform: 'node',
});
const { keysMarkdown } = await import(pathToFileURL(outfile).href);
const file = join(root, 'README.md');
const text = readFileSync(file, 'utf8');
writeFileSync(
  file,
  text.replace(/<!-- keys -->[\s\S]*?<!-- \/keys -->/, `<!-- keys -->\n${keysMarkdown()}\n<!-- /keys -->`),
);
