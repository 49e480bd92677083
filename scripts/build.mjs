/**
 * Makes dist/ from src/main.ts, so that nothing is compiled or looked up at run time:
 *
 *   main.js      a few lines (scripts/build/launcher.cjs): runs the parts that the command at hand asks for
 *   app.cjs      the parts of the commands that need no terminal screen
 *   screens.cjs  all other parts: the bench's screens, and what is wanted seldom
 *   lib-*.cjs    the large libraries of documents and labels, read by them alone
 *   code/        V8's code cache of app.cjs and screens.cjs, one for each usual command; where none fits (another Node, a
 *                command not listed), the source is compiled as usual
 *
 * Most of a start is reading and compiling code that the command at hand does not use; parts and caches take that away.
 */
import { createHash } from 'node:crypto';
import { chmodSync, cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundle } from './build/bundle.mjs';
import { licences } from './build/licences.mjs';
import { warm } from './build/warm.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const outdir = join(root, 'dist');
rmSync(outdir, { recursive: true, force: true });
mkdirSync(outdir);

const inputs = await bundle(root, outdir);
writeFileSync(join(outdir, 'LICENCES.txt'), licences(root, inputs));
writeFileSync(join(outdir, 'package.json'), '{ "type": "commonjs" }\n');
const launcher = readFileSync(join(root, 'scripts', 'build', 'launcher.cjs'), 'utf8');
writeFileSync(join(outdir, 'main.js'), launcher.replace('@BUILD@', print('app.cjs', 'screens.cjs')));
chmodSync(join(outdir, 'main.js'), 0o755);
/** Files that documents embed: fonts and a colour profile. */
const assets = join(root, 'src', 'record', 'assets');
if (existsSync(assets)) cpSync(assets, join(outdir, 'assets'), { recursive: true });
await warm(root, outdir);

/** Tells this build from any other: what one build worked out and kept, another does not take for its own. */
function print(...files) {
  const hash = createHash('sha256');
  for (const file of files) hash.update(readFileSync(join(outdir, file)));
  return hash.digest('hex').slice(0, 16);
}
