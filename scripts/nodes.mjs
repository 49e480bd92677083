/**
 * `npm run nodes [LINE ...]`: tests the packed and installed program on each supported Node.js release line (from the
 * npm registry): makes a workshop, lints it, sets out, builds a unit, writes its record in each format, verifies, and
 * shows its first frame in a terminal, with the compile cache empty and then full; and verifies documents that another
 * line printed. Any output on standard error is a failure.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { spawn } from '@lydell/node-pty';
import { nodeBinary } from './nodebinary.mjs';

const LINES = ['20', '22', '24', '26'];
const UNIT = 'P01-1';
const FORMATS = ['text', 'html', 'json', 'csv', 'pdf'];
const PATIENCE_MS = 30_000;

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const asked = process.argv.slice(2);
const scratch = mkdtempSync(join(tmpdir(), 'pinchrod-nodes-'));
let printed;
let failed = 0;
try {
  const main = installed();
  printed = printedHere(main);
  for (const line of asked.length > 0 ? asked : LINES) {
    const node = nodeBinary(line);
    const home = join(scratch, `home-${line}`);
    mkdirSync(home);
    const version = execFileSync(node, ['--version'], { encoding: 'utf8' }).trim();
    const faults = [];
    for (const cache of ['cold', 'warm'])
      faults.push(...(await tryAll(node, main, home, join(scratch, `${line}-${cache}`))));
    faults.push(...verifyAll(node, main, printed));
    failed += faults.length;
    console.log(`${version}: ${faults.length === 0 ? 'clean' : `${faults.length} faults`}`);
    for (const fault of faults) console.log(`  ${fault}`);
  }
} finally {
  if (printed) rmSync(dirname(printed.shop), { recursive: true, force: true });
  rmSync(scratch, { recursive: true, force: true });
}
process.exitCode = failed > 0 ? 1 : 0;

function installed() {
  const env = { ...process.env, npm_config_update_notifier: 'false', npm_config_fund: 'false' };
  const told = execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', scratch], {
    cwd: root,
    env,
  });
  const [{ filename }] = JSON.parse(told.toString());
  const prefix = join(scratch, 'prefix');
  mkdirSync(prefix);
  execFileSync('npm', ['install', '--global', '--prefix', prefix, '--offline', join(scratch, filename)], {
    cwd: prefix,
    env,
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  return join(prefix, 'lib', 'node_modules', 'pinchrod', 'dist', 'main.js');
}

/** A unit's documents, as the Node.js that runs this prints them: every other line must print the same. */
function printedHere(main) {
  const run = (cwd, ...args) => execFileSync(process.execPath, [main, ...args], { cwd, encoding: 'utf8' });
  const [, shop] = /^Workshop: (.+)$/m.exec(run(scratch, 'demo', '--unattended', UNIT));
  const files = FORMATS.map((format) => join(scratch, `printed.${format === 'text' ? 'txt' : format}`));
  for (const [i, format] of FORMATS.entries())
    run(shop, 'record', UNIT, '--format', format, '--out', files[i]);
  return { shop, files };
}

/** @returns what did not hold, one line each */
function verifyAll(node, main, { shop, files }) {
  return files.flatMap((file) => {
    const { status, stdout, stderr } = spawnSync(node, [main, 'verify', file], {
      cwd: shop,
      encoding: 'utf8',
    });
    return status === 0 ? [] : [`${file}, printed by ${process.version}, does not hold: ${stdout}${stderr}`];
  });
}

/** @returns what failed, one line each */
async function tryAll(node, main, home, folder) {
  mkdirSync(folder);
  const env = { ...process.env, HOME: home, TERM: 'xterm-256color' };
  for (const name of ['CI', 'NODE_OPTIONS', 'NODE_EXTRA_CA_CERTS', 'XDG_CACHE_HOME', 'NODE_COMPILE_CACHE'])
    delete env[name];
  const faults = [];
  const run = (cwd, ...args) => {
    const done = spawnSync(node, [main, ...args], { cwd, env, encoding: 'utf8', input: '' });
    if (done.status !== 0) faults.push(`${args.join(' ')} ended with ${done.status ?? done.signal}`);
    if (done.stderr !== '') faults.push(`${args.join(' ')} said on standard error: ${done.stderr.trim()}`);
    return done.stdout;
  };
  run(folder, 'init', 'shop', '--demonstration');
  const shop = join(folder, 'shop');
  run(shop, 'lint');
  run(shop, 'setout', 'pier-house', '--json');
  const [, built] = /^Workshop: (.+)$/m.exec(run(folder, 'demo', '--unattended', UNIT)) ?? [];
  if (built === undefined) faults.push('the unattended build names no workshop');
  else {
    for (const format of FORMATS) {
      const out = join(folder, `record.${format === 'text' ? 'txt' : format}`);
      run(built, 'record', UNIT, '--format', format, '--out', out);
      if (!statSync(out, { throwIfNoEntry: false })?.size)
        faults.push(`record --format ${format} wrote nothing`);
    }
    run(built, 'verify');
    run(built, 'verify', join(folder, 'record.pdf'));
    rmSync(dirname(built), { recursive: true, force: true });
  }
  faults.push(...(await firstFrame(node, main, shop, env)));
  return faults;
}

/** Opens the bench in a terminal, checks the first frame, and leaves. */
function firstFrame(node, main, cwd, env) {
  return new Promise((resolve) => {
    const errors = join(cwd, 'errors.txt');
    // Send standard error to a file: in the terminal it would mix with the screen.
    const command = `exec "${node}" "${main}" 2> "${errors}"`;
    const child = spawn('/bin/sh', ['-c', command], { cwd, cols: 80, rows: 24, env });
    const faults = [];
    let seen = '';
    let leaving = false;
    const late = setTimeout(() => {
      faults.push(`no first frame, or not left, in ${PATIENCE_MS / 1000} s`);
      child.kill('SIGKILL');
    }, PATIENCE_MS);
    child.onData((data) => {
      seen += data;
      if (leaving || !seen.includes('P07-1')) return;
      leaving = true;
      child.write('\x18\x18');
    });
    child.onExit(({ exitCode }) => {
      clearTimeout(late);
      if (!leaving) faults.push('the bench ended before its first frame');
      if (exitCode !== 0) faults.push(`the bench ended with ${exitCode}`);
      const said = readFileSync(errors, 'utf8');
      if (said !== '') faults.push(`the bench said on standard error: ${said.trim()}`);
      resolve(faults);
    });
  });
}
