/**
 * `npm run onekey`: how much of the program one key touches. Builds the demonstration unit up to a yes/no check, then
 * has V8 count the files whose functions run for one Right, from its bytes until the screen may be drawn.
 */
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { Session } from 'node:inspector';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/** Above this many files, a newcomer can no longer follow a key. */
const MOST_FILES = 35;
const UNIT = 'P02-1';
const RIGHT = '\x1b[C';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const out = join(root, 'node_modules', '.onekey');
const sources = readdirSync(join(root, 'src'), { recursive: true }).filter((file) => /\.tsx?$/.test(file));
rmSync(out, { recursive: true, force: true });
await build({
  absWorkingDir: root,
  entryPoints: [...sources.map((file) => `src/${file}`), 'scripts/drive.ts'],
  outdir: out,
  outbase: root,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  jsx: 'automatic',
});
const load = (file) => import(pathToFileURL(join(out, file)).href);
const { driveTo } = await load('scripts/drive.js');
const { makeCore } = await load('src/tui/loop.js');
const { currentTask } = await load('src/tui/currenttask.js');
const { realPorts } = await load('src/session/workshopports.js');

const workshop = mkdtempSync(join(tmpdir(), 'pinchrod-onekey-'));
process.on('exit', () => rmSync(workshop, { recursive: true, force: true }));
for (const part of ['procedures', 'shared', 'logs'])
  cpSync(join(root, part), join(workshop, part), {
    recursive: true,
    filter: (path) => !/\.jsonl$/.test(path),
  });
const person = driveTo(
  workshop,
  UNIT,
  ({ id, kind }) => kind === 'go-no-go' && !id.startsWith('order.'),
  Date.now() - 86_400_000,
);

const made = realPorts({ workshop, clock: Date.now, bench: 'bench-1' });
const core = makeCore(made.value);
core.open(UNIT);
core.feed(`${person}\r`);
const events = () => core.world().open.state.events.length;
const { step, check } = currentTask(core.world().open.state);
const before = events();

const session = new Session();
session.connect();
const post = (method, params) =>
  new Promise((done, failed) =>
    session.post(method, params, (error, value) => (error ? failed(error) : done(value))),
  );
await post('Profiler.enable');
await post('Profiler.startPreciseCoverage', { callCount: true, detailed: false });
await post('Profiler.takePreciseCoverage');
core.feed(RIGHT);
const { result } = await post('Profiler.takePreciseCoverage');
if (events() === before)
  throw new Error(`Right answered nothing at ${check?.id}: ${JSON.stringify(core.state().note)}`);
made.value.close();

const base = pathToFileURL(out).href;
const files = result
  .filter(({ url }) => url.startsWith(`${base}/src/`))
  .map(({ url, functions }) => ({
    file: url.slice(base.length + 1).replace(/\.js$/, ''),
    functions: functions.filter(({ ranges }) => ranges[0].count > 0),
  }))
  .filter(({ functions }) => functions.length > 0);
for (const { file, functions } of files)
  console.log(
    `${file.padEnd(34)} ${functions.map(({ functionName }) => functionName || '(callback)').join(' ')}`,
  );
const calls = files
  .flatMap(({ functions }) => functions)
  .reduce((sum, { ranges }) => sum + ranges[0].count, 0);
const count = files.flatMap(({ functions }) => functions).length;
console.log(
  `\nRight on ${step.step.id}/${check.id}: ${files.length} files (bar ${MOST_FILES}), ${count} functions, ${calls} calls.`,
);
if (files.length > MOST_FILES) process.exitCode = 1;
