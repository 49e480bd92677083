/** Starts of whole processes, against a bare node and against the smallest program that shows one line with the same library. */
import { spawnSync } from 'node:child_process';
import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { spawn } from '@lydell/node-pty';
import { bundleBareInk } from './bareink.js';
import { atMost, median, ms, type Row, type Setting } from './rows.js';

export const title = 'Start-up';
const ROUNDS = Number(process.env.ROUNDS ?? 15);

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const workshop = join(scratch, 'workshop');
  for (const part of ['procedures', 'shared', 'logs'])
    cpSync(join(root, part), join(workshop, part), { recursive: true });
  // Of the kind that the program's own file is: an ES module takes a bare node a few milliseconds more.
  const bare = join(scratch, 'bare.cjs');
  writeFileSync(bare, '');
  const oneLine = await oneLineProgram(root, scratch);
  const main = join(root, 'dist', 'main.js');
  /** Start alone: the verb's code is loaded and says what it takes. */
  const starts = verbsOf(main).map((verb) => [verb, '--help']);
  /** Start and work, on the demonstration workshop. */
  const works = [
    ['board'],
    ['verify'],
    ['square', '--bl-tr', '1500', '--br-tl', '1501', '--nominal', '900x1200'],
    ['setout', 'pier-house', 'P02-1'],
    ['lint'],
  ];
  const verbs = Object.fromEntries([...starts, ...works].map((args) => [args.slice(0, 2).join(' '), args]));
  /** What answers again for the same files, and the file of each that is changed before it is asked anew. */
  const changed = {
    'setout pier-house': 'shared/jobs/pier-house.yaml',
    lint: 'procedures/casement.yaml',
    'square --bl-tr': 'shared/limits.yaml',
  };
  const anew = Object.keys(changed);

  const times: Record<string, number[]> = { bare: [], oneLine: [], bench: [] };
  for (const verb of anew) times[`anew ${verb}`] = [];
  for (const verb of Object.keys(verbs)) times[verb] = [];
  // Interleaved, so that a slow spell of the machine falls on all alike.
  for (let round = 0; round < ROUNDS; round += 1) {
    times.bare!.push(whole([bare], workshop));
    times.oneLine!.push(await firstFrame([oneLine], workshop, 'one line'));
    times.bench!.push(await firstFrame([main], workshop, 'P01-1'));
    for (const file of Object.values(changed))
      writeFileSync(join(workshop, file), `${readFileSync(join(root, file), 'utf8')}# ${round}\n`);
    for (const verb of anew) times[`anew ${verb}`]!.push(whole([main, ...verbs[verb]!], workshop));
    // The board keeps what it read of the job, too.
    whole([main, 'board'], workshop);
    for (const [verb, args] of Object.entries(verbs)) times[verb]!.push(whole([main, ...args], workshop));
  }
  const at = (name: string) => median(times[name]!);
  const beside = (name: string, what: string) =>
    atMost(`pinchrod ${name}, ${what}`, at(name) / at('bare'), 2, 'x bare', ` (${ms(at(name))})`);
  return [
    { what: 'bare node, start to end', figure: ms(at('bare')) },
    {
      what: 'one-line program, to its first frame',
      figure: `${(at('oneLine') / at('bare')).toFixed(2)} x bare (${ms(at('oneLine'))})`,
    },
    atMost(
      'first frame of the bench',
      at('bench') / at('oneLine'),
      1.5,
      'x one-line',
      ` (${ms(at('bench'))})`,
    ),
    ...starts.map((args) => beside(args.join(' '), 'start')),
    ...works.map((args) => {
      const name = args.slice(0, 2).join(' ');
      return beside(name, anew.includes(name) ? 'asked again, no file changed' : 'start and work');
    }),
    ...anew.map((verb) =>
      atMost(
        `pinchrod ${verb}, with its work after a change of a file`,
        at(`anew ${verb}`) / at('bare'),
        2,
        'x bare',
        ` (${ms(at(`anew ${verb}`))})`,
      ),
    ),
  ];
}

/** Every verb that the program's own help lists. */
function verbsOf(main: string): string[] {
  const { stdout } = spawnSync(process.execPath, [main, '--help'], { encoding: 'utf8' });
  const verbs = [...stdout.matchAll(/^ {2}([a-z]+) /gm)].map(([, verb]) => verb!);
  if (verbs.length < 10) throw new Error(`only ${verbs.length} verbs in the help`);
  return verbs;
}

function whole(args: string[], cwd: string): number {
  const from = process.hrtime.bigint();
  const done = spawnSync(process.execPath, args, { cwd, stdio: 'ignore' });
  const took = Number(process.hrtime.bigint() - from) / 1e6;
  if (done.status === null || done.status > 1) throw new Error(`${args.join(' ')} ended with ${done.status}`);
  return took;
}

/** From the start of the process in a terminal of 100 x 30 until a text is on it. */
function firstFrame(args: string[], cwd: string, text: string): Promise<number> {
  return new Promise((resolve, reject) => {
    const env = { ...process.env, TERM: 'xterm-256color' } as Record<string, string>;
    delete env.CI;
    const from = process.hrtime.bigint();
    const child = spawn(process.execPath, args, { cwd, cols: 100, rows: 30, env });
    let seen = '';
    let took: number | undefined;
    const late = setTimeout(() => {
      child.kill('SIGKILL');
      reject(new Error(`${args.join(' ')} showed no "${text}" in 10 s:\n${seen.slice(0, 2000)}`));
    }, 10_000);
    child.onData((data) => {
      seen += data;
      if (took === undefined && seen.includes(text)) {
        took = Number(process.hrtime.bigint() - from) / 1e6;
        child.kill('SIGKILL');
      }
    });
    child.onExit(() => {
      clearTimeout(late);
      if (took !== undefined) resolve(took);
      else reject(new Error(`${args.join(' ')} ended without "${text}":\n${seen.slice(0, 2000)}`));
    });
  });
}

function oneLineProgram(root: string, scratch: string): Promise<string> {
  return bundleBareInk(
    root,
    "import { render, Text } from 'ink';\nimport React from 'react';\nrender(<Text>one line</Text>);\nsetInterval(() => {}, 1000);\n",
    join(scratch, 'one-line.mjs'),
  );
}
