/**
 * Bundles src/cli.ts into dist/ as ES modules. Each import() becomes a separate file, so that a verb loads only its own
 * code, and only documents and labels load the large libraries.
 */
import { chmodSync, cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { licences } from './licences.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const outdir = join(root, 'dist');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

const REQUIRE =
  "import{createRequire as __createRequire}from'node:module';const require=__createRequire(import.meta.url);";

/** Labels need two of the hundred kinds of code that the barcode library draws; the others stay out of the bundle. */
const twoBarcodes = {
  name: 'two-barcodes',
  setup({ onLoad }) {
    const exactlyOne = (text, pattern, instead) => {
      if (text.split(pattern).length !== 2) throw new Error(`the barcode library has changed: ${pattern}`);
      return text.replace(pattern, instead);
    };
    onLoad({ filter: /bwip-js[\\/]dist[\\/]bwipp\.mjs$/ }, ({ path }) => ({
      contents: exactlyOne(
        readFileSync(path, 'utf8'),
        'function bwipp_lookup(symbol) {',
        `function bwipp_lookup(symbol) {
          return { qrcode: bwipp_qrcode, code128: bwipp_code128 }[symbol];
        }
        function everyLookup(symbol) {`,
      ),
    }));
    onLoad({ filter: /bwip-js[\\/]dist[\\/]bwip-js-node\.mjs$/ }, ({ path }) => ({
      contents: exactlyOne(
        readFileSync(path, 'utf8'),
        /export default \{[^}]*\};/,
        'export default { raw: ToRaw };',
      ),
    }));
  },
};

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
  // Words in other languages would be written as escapes otherwise.
  charset: 'utf8',
  legalComments: 'none',
  metafile: true,
  define: {
    'process.env.NODE_ENV': '"production"',
    'process.env.DEV': '"false"',
    PINCHROD_VERSION: JSON.stringify(version),
  },
  alias: {
    // The same library as ES modules, so that unused code can be dropped from the bundle.
    yaml: join(root, 'node_modules/yaml/browser/index.js'),
    'brotli/decompress.js': join(root, 'scripts/nowoff2.mjs'),
  },
  plugins: [twoBarcodes],
  // A debugging aid that the terminal library loads only in its own development.
  external: ['react-devtools-core'],
  // CommonJS libraries load Node's built-in modules with require().
  banner: { js: REQUIRE },
  logLevel: 'warning',
});
// Most files of the bundle hold no such library.
for (const name of readdirSync(outdir).filter((each) => each.endsWith('.js'))) {
  const file = join(outdir, name);
  const text = readFileSync(file, 'utf8');
  const without = text.replace(`${REQUIRE}\n`, '');
  if (!/\brequire\b/.test(without)) writeFileSync(file, without);
}
chmodSync(join(outdir, 'main.js'), 0o755);
writeFileSync(join(outdir, 'LICENCES.txt'), licences(root, Object.keys(metafile.inputs)));
// Fonts and a colour profile, embedded in documents.
cpSync(join(root, 'src', 'record', 'assets'), join(outdir, 'assets'), { recursive: true });
