/**
 * Generates files from the program's own tables: `npm run schemas` (JSON Schemas of every file format), `npm run
 * manuals` (tables in the job and profile set manuals), `npm run readme` (the keys). Tests fail if they are out of
 * date.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const read = (file) => readFileSync(join(root, file), 'utf8');
const write = (file, text) => writeFileSync(join(root, file), text);

const MAKERS = {
  async schemas() {
    const { schemaFiles } = await bundled('scripts/schemas.ts');
    mkdirSync(join(root, 'shared/schemas'), { recursive: true });
    for (const [name, text] of Object.entries(schemaFiles(read))) write(`shared/schemas/${name}`, text);
  },
  async manuals() {
    const { MANUALS, MEASURING_MANUAL, withTables } = await bundled('scripts/manuals.ts');
    for (const file of [...MANUALS, MEASURING_MANUAL]) write(file, withTables(file, read));
  },
  async readme() {
    const { keysMarkdown } = await bundled('src/tui/keys/table.ts');
    const keys = `<!-- keys -->\n${keysMarkdown()}\n<!-- /keys -->`;
    write('README.md', read('README.md').replace(/<!-- keys -->[\s\S]*?<!-- \/keys -->/, keys));
  },
};

const what = process.argv[2];
await MAKERS[what]();
console.log(`${what} made anew.`);

/** Bundles a TypeScript file into a module that Node can run; packages stay external. */
async function bundled(entry) {
  const outfile = join(root, 'node_modules', '.generate', `${basename(entry, '.ts')}.mjs`);
  await build({
    absWorkingDir: root,
    entryPoints: [entry],
    outfile,
    bundle: true,
    packages: 'external',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    logLevel: 'warning',
  });
  return import(pathToFileURL(outfile).href);
}
