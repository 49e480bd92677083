/**
 * Makes dist/ from src/main.ts, so that nothing is compiled or looked up at run time:
 *
 *   main.js      a few lines (scripts/build/launcher.cjs): runs the parts that the command at hand asks for
 *   quick.cjs    the parts that the usual short commands run
 *   work.cjs     what else a command without a terminal screen may ask for
 *   screens.cjs  all other parts: the bench's screens, and what is wanted seldom
 *   lib-*.cjs    the large libraries of documents and labels, read by them alone
 *   code/        V8's code cache of the bundles, one for each usual command; where none fits (another Node, a command not
 *                listed), the source is compiled as usual
 *
 * Most of a start is reading and compiling code that the command at hand does not use; parts and caches take that away.
 */
import { createHash } from 'node:crypto';
import { chmodSync, cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundle, writeBundle } from './build/bundle.mjs';
import { licences } from './build/licences.mjs';
import { quickParts, warm } from './build/warm.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const outdir = join(root, 'dist');
rmSync(outdir, { recursive: true, force: true });
mkdirSync(outdir);

const { parts, screens, inputs } = await bundle(root, outdir);
writeFileSync(join(outdir, 'LICENCES.txt'), licences(root, inputs));
writeFileSync(join(outdir, 'package.json'), '{ "type": "commonjs" }\n');
const launcher = readFileSync(join(root, 'scripts', 'build', 'launcher.cjs'), 'utf8');
writeFileSync(join(outdir, 'main.js'), launcher.replace('@BUILD@', print([...parts].sort().flat())));
chmodSync(join(outdir, 'main.js'), 0o755);
/** Files that documents embed: fonts and a colour profile. */
const assets = join(root, 'src', 'record', 'assets');
if (existsSync(assets)) cpSync(assets, join(outdir, 'assets'), { recursive: true });

writeBundle(outdir, 'screens', parts, (part) => screens.has(part));
writeBundle(outdir, 'quick', parts, (part) => !screens.has(part));
writeBundle(outdir, 'work', parts, () => false);
const quick = await quickParts(root, outdir);
writeBundle(outdir, 'quick', parts, (part) => quick.has(part) && !screens.has(part));
writeBundle(outdir, 'work', parts, (part) => !quick.has(part) && !screens.has(part));
await warm(root, outdir);

/** Tells this build from any other: what one build worked out and kept, another does not take for its own. */
function print(texts) {
  const hash = createHash('sha256');
  for (const text of texts) hash.update(text);
  return hash.digest('hex').slice(0, 16);
}
