/**
 * Bundles src/main.ts into dist/: one ES module with chunks, so that a command that needs no terminal screen never reads
 * the code that draws one, and nothing is compiled at run time.
 */
import { chmodSync, cpSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const outdir = join(root, 'dist');
rmSync(outdir, { recursive: true, force: true });

/** The terminal library names its devtools in a static import; they are never wanted at a bench. */
const stubs = {
  name: 'stubs',
  setup(b) {
    b.onResolve({ filter: /^react-devtools-core$/ }, () => ({ path: 'devtools', namespace: 'stub' }));
    b.onLoad({ filter: /.*/, namespace: 'stub' }, () => ({
      contents: 'export default { initialize() {}, connectToDevTools() {} };',
    }));
  },
};

const result = await build({
  absWorkingDir: root,
  entryPoints: ['src/main.ts'],
  outdir,
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  jsx: 'automatic',
  minify: true,
  keepNames: false,
  legalComments: 'none',
  metafile: true,
  define: {
    'process.env.NODE_ENV': '"production"',
    'process.env.DEV': '"false"',
    PINCHROD_VERSION: JSON.stringify(version),
  },
  banner: {
    js: "import { createRequire as __createRequire } from 'node:module'; const require = __createRequire(import.meta.url);",
  },
  plugins: [stubs],
  logLevel: 'warning',
});

const main = join(outdir, 'main.js');
writeFileSync(main, `#!/usr/bin/env node\n${readFileSync(main, 'utf8')}`);
chmodSync(main, 0o755);

writeFileSync(join(outdir, 'LICENCES.txt'), licences(Object.keys(result.metafile.inputs)));

/** The licence texts of everything that the bundle holds. */
function licences(inputs) {
  const packages = new Set();
  for (const input of inputs) {
    const match = /node_modules\/((?:@[^/]+\/)?[^/]+)(?!.*node_modules\/)/.exec(input);
    if (match) packages.add(input.slice(0, match.index + match[0].length));
  }
  const parts = [...packages].sort().map((folder) => {
    const meta = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
    const file = ['LICENSE', 'LICENSE.md', 'LICENSE.txt', 'license', 'license.md', 'LICENCE', 'License.md'].find((f) =>
      existsSync(join(root, folder, f)),
    );
    const text = file ? readFileSync(join(root, folder, file), 'utf8').trim() : '(no licence file in the package)';
    return `${meta.name} ${meta.version} (${meta.license})\n\n${text}`;
  });
  return `pinchrod's bundle holds these packages.\n\n${parts.join(`\n\n${'-'.repeat(72)}\n\n`)}\n`;
}

/** Files that the bundle opens beside itself at run time (a document's font). */
const assets = join(root, 'src', 'record', 'assets');
if (existsSync(assets)) cpSync(assets, join(outdir, 'assets'), { recursive: true });
