/**
 * Bundles src/main.ts into dist/, so that nothing is compiled or looked up at run time:
 *
 *   main.js    a few lines: loads app.cjs with the code that V8 made of it when this was built
 *   app.cjs    everything, each module run only when the command that needs it is asked for
 *   lib-*.cjs  the large libraries of documents and labels, read by them alone
 *   *.cache    V8's code cache, one for the bench and one for the other commands; where it does not fit (another Node),
 *              app.cjs is compiled as usual
 *
 * Most of a start is reading and compiling code that the command at hand does not use; the cache takes that away.
 */
import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const outdir = join(root, 'dist');
rmSync(outdir, { recursive: true, force: true });
mkdirSync(outdir);

/** What the terminal library waits for at its top level, which a CommonJS bundle cannot. */
const synchronous = {
  name: 'synchronous',
  setup(b) {
    // Its devtools are never wanted at a bench, nor its own version for them.
    b.onLoad({ filter: /ink[\\/]build[\\/]reconciler\.js$/ }, ({ path }) => ({
      contents: readFileSync(path, 'utf8')
        .replace("await import('./devtools.js')", 'undefined')
        .replace('await loadPackageJson()', 'undefined'),
    }));
    // Its layout engine is loaded by src/bench/layoutengine.ts before the library is.
    b.onLoad({ filter: /yoga-layout[\\/]dist[\\/]src[\\/]index\.js$/ }, () => ({
      contents:
        "export default globalThis[Symbol.for('pinchrod.layout-engine')];\nexport * from './generated/YGEnums.js';",
    }));
  },
};

/** Libraries of documents and labels: larger than all the rest, and wanted seldom. */
const LARGE = ['pdfkit', 'bwip-js', 'fontkit'];
const apart = {
  name: 'apart',
  setup(b) {
    const filter = new RegExp(`^(${LARGE.join('|')})(/.*)?$`);
    b.onResolve({ filter }, ({ path }) => ({ path: `./lib-${path.split('/')[0]}.cjs`, external: true }));
  },
};
const common = {
  absWorkingDir: root,
  bundle: true,
  format: 'cjs',
  platform: 'node',
  target: 'node20',
  minify: true,
  legalComments: 'none',
  metafile: true,
};
const libraries = await Promise.all(
  LARGE.map((name) =>
    build({
      ...common,
      stdin: { contents: `module.exports = require('${name}');`, resolveDir: root },
      outfile: join(outdir, `lib-${name}.cjs`),
      define: { 'import.meta.url': '__moduleUrl' },
      banner: { js: "const __moduleUrl = require('node:url').pathToFileURL(__filename).href;" },
      logLevel: 'error',
    }),
  ),
);
const result = await build({
  ...common,
  entryPoints: ['src/main.ts'],
  outfile: join(outdir, 'app.cjs'),
  jsx: 'automatic',
  define: {
    'process.env.NODE_ENV': '"production"',
    'process.env.DEV': '"false"',
    'import.meta.url': '__moduleUrl',
    PINCHROD_VERSION: JSON.stringify(version),
  },
  banner: { js: "const __moduleUrl = require('node:url').pathToFileURL(__filename).href;" },
  plugins: [synchronous, apart],
  logLevel: 'warning',
});

writeFileSync(join(outdir, 'package.json'), '{ "type": "commonjs" }\n');
writeFileSync(join(outdir, 'main.js'), launcher());
chmodSync(join(outdir, 'main.js'), 0o755);
writeFileSync(
  join(outdir, 'LICENCES.txt'),
  licences([result, ...libraries].flatMap(({ metafile }) => Object.keys(metafile.inputs))),
);
/** Files that documents embed: fonts and a colour profile. */
const assets = join(root, 'src', 'record', 'assets');
if (existsSync(assets)) cpSync(assets, join(outdir, 'assets'), { recursive: true });
await warm();

function launcher() {
  return `#!/usr/bin/env node
'use strict';
const { readFileSync, writeFileSync } = require('node:fs');
const { join } = require('node:path');
const { createRequire, wrap } = require('node:module');
const { Script } = require('node:vm');
const file = join(__dirname, 'app.cjs');
let cachedData;
try {
  const verb = process.argv.slice(2).find((word) => !word.startsWith('-'));
  cachedData = readFileSync(join(__dirname, verb === undefined || verb === 'bench' || verb === 'demo' ? 'bench.cache' : 'verbs.cache'));
} catch {}
const script = new Script(wrap(readFileSync(file, 'latin1')), { filename: file, ...(cachedData ? { cachedData } : {}) });
const module_ = { exports: {} };
script.runInThisContext().call(module_.exports, module_.exports, createRequire(file), module_, file, __dirname);
if (process.env.PINCHROD_KEEP_CODE) process.on('exit', () => writeFileSync(process.env.PINCHROD_KEEP_CODE, script.createCachedData()));
`;
}

/** Runs usual commands once, so that the code they use is in the cache. Each run adds to what the one before it kept. */
async function warm() {
  const folder = mkdtempSync(join(tmpdir(), 'pinchrod-build-'));
  try {
    for (const part of ['procedures', 'shared'])
      cpSync(join(root, part), join(folder, part), { recursive: true });
    const cache = join(outdir, 'verbs.cache');
    const runs = [
      ['lint'],
      ['setout', 'pier-house'],
      ['record', 'P02-1', '--format', 'html', '--out', join(folder, 'r.html')],
      ['verify'],
      ['feed', 'P02-1'],
      ['square', '--bl-tr', '1500', '--br-tl', '1501', '--nominal', '900x1200'],
      ['board'],
    ];
    for (const args of runs)
      spawnSync(process.execPath, [join(outdir, 'main.js'), ...args], {
        cwd: folder,
        stdio: 'ignore',
        env: { ...process.env, PINCHROD_KEEP_CODE: cache },
      });
    await openOnce(folder, join(outdir, 'bench.cache'));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The bench itself, in a terminal of its own: its first frame, a unit opened, and left again. */
async function openOnce(folder, cache) {
  const pty = await import('@lydell/node-pty').catch(() => undefined);
  if (!pty) return;
  const env = { ...process.env, TERM: 'xterm-256color', PINCHROD_KEEP_CODE: cache };
  delete env.CI;
  let child;
  try {
    child = pty.spawn(process.execPath, [join(outdir, 'main.js')], { cwd: folder, cols: 100, rows: 30, env });
  } catch {
    return;
  }
  const ended = new Promise((done) => child.onExit(done));
  let seen = '';
  const keys = ['P02-1\r', '\u000f', '\u0018', '\u0018'];
  child.onData((data) => {
    seen += data;
  });
  const until = Date.now() + 20_000;
  while (!seen.includes('P07-1') && Date.now() < until) await pause(50);
  for (const key of keys) {
    child.write(key);
    await pause(300);
  }
  await Promise.race([ended, pause(3000)]);
  try {
    child.kill('SIGKILL');
  } catch {}
}

function pause(ms) {
  return new Promise((done) => setTimeout(done, ms));
}

/** The licence texts of everything that the bundle holds. */
function licences(inputs) {
  const packages = new Set();
  for (const input of inputs) {
    const match = /node_modules\/((?:@[^/]+\/)?[^/]+)(?!.*node_modules\/)/.exec(input);
    if (match) packages.add(input.slice(0, match.index + match[0].length));
  }
  const parts = [...packages].sort().map((folder) => {
    const meta = JSON.parse(readFileSync(join(root, folder, 'package.json'), 'utf8'));
    const file = [
      'LICENSE',
      'LICENSE.md',
      'LICENSE.txt',
      'license',
      'license.md',
      'LICENCE',
      'License.md',
    ].find((f) => existsSync(join(root, folder, f)));
    const text = file
      ? readFileSync(join(root, folder, file), 'utf8').trim()
      : '(no licence file in the package)';
    return `${meta.name} ${meta.version} (${meta.license})\n\n${text}`;
  });
  return `pinchrod's bundle holds these packages.\n\n${parts.join(`\n\n${'-'.repeat(72)}\n\n`)}\n`;
}
