/**
 * Starts of whole processes, in turn with a bare node, with a script that only reads and checks the same files, and with the
 * smallest program that shows one line with the same terminal library; with a full compile cache. Beside them, with an
 * empty one, and on the oldest Node that is supported.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { bundleBareInk } from './bareink.js';
import { makeMany } from './manyunits.js';
import { firstFrame, leftAgain, type Program, wholeRun } from './processes.js';
import { atMost, median, ms, type Row, type Setting } from './rows.js';

export const title = 'Start-up, whole processes';
const ROUNDS = Number(process.env.ROUNDS ?? 10);
const BARE = 'bare node';
const UNIT = 'P02-1';

interface Measured {
  readonly name: string;
  readonly args: readonly string[];
  readonly cwd: string;
  /** A workshop file that is changed before each run. */
  readonly changes?: string;
}

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const shop = join(scratch, 'workshop');
  for (const part of ['procedures', 'shared', 'logs'])
    cpSync(join(root, part), join(shop, part), { recursive: true });
  const many = join(scratch, 'hundred');
  makeMany(root, many, 100);
  const bare = join(scratch, 'bare.mjs');
  writeFileSync(bare, '');
  const readOnly = await readingScript(root, scratch);
  const oneLine = await oneLineProgram(root, scratch);
  const main = join(root, 'dist', 'main.js');
  const built = finishedUnit(main);
  const out = join(scratch, 'record');
  const verbs = verbsOf(main);
  const measured: Measured[] = [
    ...verbs.map((verb) => ({ name: `${verb} --help`, args: [main, verb, '--help'], cwd: shop })),
    { name: 'board', args: [main, 'board'], cwd: many },
    { name: 'verify', args: [main, 'verify'], cwd: many },
    { name: 'trace', args: [main, 'trace', '--lot', 'none'], cwd: many },
    {
      name: 'setout',
      args: [main, 'setout', 'pier-house', UNIT],
      cwd: shop,
      changes: 'shared/jobs/pier-house.yaml',
    },
    {
      name: 'square',
      args: [main, 'square', '--bl-tr', '1500', '--br-tl', '1501', '--nominal', '900x1200'],
      cwd: shop,
      changes: 'shared/limits.yaml',
    },
    { name: 'lint', args: [main, 'lint'], cwd: shop, changes: 'procedures/casement.yaml' },
    ...['text', 'pdf'].map((format) => ({
      name: `record ${format}`,
      args: [main, 'record', UNIT, '--format', format, '--out', out],
      cwd: built,
    })),
  ];
  const base: Measured[] = [
    { name: BARE, args: [bare], cwd: shop },
    { name: 'reading', args: [readOnly], cwd: shop },
  ];
  const here = process.execPath;
  const home = join(scratch, 'home');
  mkdirSync(home);
  const times = await timed(here, home, [...base, ...measured], {
    bench: [main],
    oneLine: [oneLine],
    shop,
    root,
  });
  const cold = await timed(here, undefined, [...base, ...measured], {
    bench: [main],
    oneLine: [oneLine],
    shop,
    root,
    scratch,
  });
  const oldest = await timed(process.env.PINCHROD_NODE_20!, home, [...base, ...measured], {
    bench: [main],
    oneLine: [oneLine],
    shop,
    root,
  });
  rmSync(join(built, '..'), { recursive: true, force: true });
  const ratio = (of: Times, name: string, to = BARE) => of(name) / of(to);
  const row = (what: string, name: string, bar: number, to = BARE, word = 'x bare node'): Row =>
    atMost(
      what,
      ratio(times, name, to),
      bar,
      word,
      ` (${ms(times(name))}; cold ${ratio(cold, name, to).toFixed(2)}, Node 20 ${ratio(oldest, name, to).toFixed(2)})`,
    );
  const slowest = verbs.map((verb) => `${verb} --help`).reduce((a, b) => (times(a) > times(b) ? a : b));
  return [
    { what: BARE, figure: `${ms(times(BARE))} (Node 20 ${ms(oldest(BARE))})` },
    row(`${slowest}, the slowest of ${verbs.length} verbs`, slowest, 1.6),
    row('board of 100 units', 'board', 2.5),
    row('verify of 100 units', 'verify', 2.5),
    row('trace among 100 units', 'trace', 2.5),
    row('setout of one unit, after a change', 'setout', 5),
    row('square, after a change', 'square', 5),
    row('lint of the shipped workshop, after a change', 'lint', 3, 'reading', 'x reading, parsing, checking'),
    row('record of a finished unit, text', 'record text', 6),
    row('record of a finished unit, PDF', 'record pdf', 11),
    row('first frame of the bench', 'bench', 1.6, 'oneLine', 'x one-line program'),
  ];
}

type Times = (name: string) => number;

/** Medians over rounds of everything in turn, so that a slow spell of the machine falls on all alike. */
async function timed(
  node: string,
  warmHome: string | undefined,
  measured: readonly Measured[],
  {
    bench,
    oneLine,
    shop,
    root,
    scratch = '',
  }: { bench: string[]; oneLine: string[]; shop: string; root: string; scratch?: string },
): Promise<Times> {
  const home = warmHome ?? join(scratch, 'cold');
  mkdirSync(home, { recursive: true });
  const of = (args: readonly string[], cwd: string): Program => ({ node, args, cwd, home });
  const times = new Map<string, number[]>();
  const add = (name: string, took: number) => times.set(name, [...(times.get(name) ?? []), took]);
  const empty = () => {
    if (warmHome === undefined) rmSync(join(home, '.cache'), { recursive: true, force: true });
  };
  // The first round fills the caches, of compiled code and of what the board knows, and is not counted.
  for (let round = -1; round < ROUNDS; round += 1) {
    for (const { name, args, cwd, changes } of measured) {
      if (changes)
        writeFileSync(join(cwd, changes), `${readFileSync(join(root, changes), 'utf8')}# ${round}\n`);
      empty();
      const took = wholeRun(of(args, cwd), name === 'trace');
      if (round >= 0) add(name, took);
    }
    if (round < 0 && warmHome !== undefined) await leftAgain(of(bench, shop), 'P01-1');
    for (const [name, args, text] of [
      ['bench', bench, 'P01-1'],
      ['oneLine', oneLine, 'one line'],
    ] as const) {
      empty();
      const took = await firstFrame(of(args, shop), text);
      if (round >= 0) add(name, took);
    }
  }
  return (name) => median(times.get(name)!);
}

/** Every verb that the program's own help lists. */
function verbsOf(main: string): string[] {
  const { stdout } = spawnSync(process.execPath, [main, '--help'], { encoding: 'utf8' });
  const verbs = [...stdout.matchAll(/^ {2}([a-z]+) /gm)].map(([, verb]) => verb!);
  if (verbs.length < 10) throw new Error(`only ${verbs.length} verbs in the help`);
  return verbs;
}

/** A workshop in which the unit was built to its end. */
function finishedUnit(main: string): string {
  const built = spawnSync(process.execPath, [main, 'demo', '--unattended', UNIT], { encoding: 'utf8' });
  const [, workshop] = /^Workshop: (.+)$/m.exec(built.stdout) ?? [];
  if (workshop === undefined) throw new Error(built.stderr);
  return workshop;
}

/** Reads, parses and checks the files that lint looks at, and does nothing else. */
async function readingScript(root: string, scratch: string): Promise<string> {
  const outfile = join(scratch, 'reading.mjs');
  await build({
    entryPoints: [join(root, 'tests/benchmarks/reading.ts')],
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node20',
    minify: true,
    alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
    logLevel: 'warning',
  });
  return outfile;
}

function oneLineProgram(root: string, scratch: string): Promise<string> {
  return bundleBareInk(
    root,
    "import { render, Text } from 'ink';\nimport React from 'react';\nrender(<Text>one line</Text>);\nsetInterval(() => {}, 1000);\n",
    join(scratch, 'one-line.mjs'),
  );
}
