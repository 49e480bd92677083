/**
 * Bundles src/cli.ts and all it needs into dist/, as ES modules. Each import() becomes a file of its own, so that a verb
 * reads only its own code, and the large libraries are read by documents and labels alone.
 */
import { chmodSync, cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { licences } from './licences.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const outdir = join(root, 'dist');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

rmSync(outdir, { recursive: true, force: true });
const { metafile } = await build({
  absWorkingDir: root,
  entryPoints: { main: 'src/cli.ts' },
  outdir,
  chunkNames: '[name]-[hash]',
  bundle: true,
  splitting: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  jsx: 'automatic',
  minify: true,
  legalComments: 'none',
  metafile: true,
  define: {
    'process.env.NODE_ENV': '"production"',
    'process.env.DEV': '"false"',
    PINCHROD_VERSION: JSON.stringify(version),
  },
  // The same library as ES modules, of which only what is used is bundled and run.
  alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
  // The terminal library's debugging aid, which it loads only while itself is being developed.
  external: ['react-devtools-core'],
  // Libraries written as CommonJS ask for node's own modules by require().
  banner: {
    js: "import{createRequire as __createRequire}from'node:module';const require=__createRequire(import.meta.url);",
  },
  logLevel: 'warning',
});
chmodSync(join(outdir, 'main.js'), 0o755);
writeFileSync(join(outdir, 'LICENCES.txt'), licences(root, Object.keys(metafile.inputs)));
// Fonts and a colour profile, which documents embed.
cpSync(join(root, 'src', 'record', 'assets'), join(outdir, 'assets'), { recursive: true });
