/**
 * Each verb at three sizes, as whole processes: time beside a bare node, the most memory taken, and how both grow. What one
 * unit costs must not grow with the workshop's history.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { realPorts } from '../../src/bench/ports-real.js';
import type { EventBody } from '../../src/build/events.js';
import { realDisk } from '../../src/store/disk.js';
import { Journal } from '../../src/store/journal.js';
import { fillIndex, makeMany } from './board.bench.js';
import { median, ms, type Row, type Setting } from './rows.js';

export const title = 'Growth and memory, whole process';
const ROUNDS = Number(process.env.ROUNDS ?? 5);

interface Figure {
  readonly took: number;
  readonly mb: number;
}

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const bare = run(root, scratch, ['-e', '0']);
  const rows: Row[] = [{ what: 'bare node', figure: text(bare, bare) }];
  const add = (what: string, size: number, figure: Figure, verb: string): void => {
    rows.push({ what: `${what}: ${verb}`, figure: text(figure, bare) });
    const first = firsts.get(verb);
    if (!first) firsts.set(verb, { size, figure });
    else
      rows.push({
        what: `  growth for ${(size / first.size).toFixed(0)} times as much`,
        figure: `time x ${(figure.took / first.figure.took).toFixed(2)}, memory x ${(figure.mb / first.figure.mb).toFixed(2)}`,
      });
  };
  const firsts = new Map<string, { readonly size: number; readonly figure: Figure }>();
  const main = join(root, 'dist', 'main.js');

  for (const count of [100, 1000, 10_000]) {
    const folder = join(scratch, `growth-${count}`);
    makeMany(root, folder, count);
    fillIndex(folder);
    const of = `workshop of ${count} units`;
    for (const args of [
      ['board'],
      ['verify'],
      ['trace', '--lot', 'none'],
      ['setout', 'job-0', 'W0-1'],
      ['record', 'job-0', '--format', 'json'],
    ]) {
      // A job's record grows with the job, which is a tenth of the workshop here.
      if (args[0] === 'record' && count > 1000) continue;
      add(of, count, run(root, folder, [main, ...args]), args.slice(0, 2).join(' '));
    }
    // One unit in it: the same unit, whatever stands beside it.
    add(
      of,
      count,
      run(root, folder, [main, 'record', 'job-0/W0-1', '--format', 'json']),
      'record of one unit',
    );
    add(of, count, run(root, folder, [main, 'verify', 'job-0', 'W0-1']), 'verify of one unit');
    add(of, count, run(root, folder, [main, 'feed', 'job-0/W0-1']), 'one unit opened by feed');
    rmSync(folder, { recursive: true, force: true });
  }

  for (const events of [100, 1000, 10_000]) {
    const folder = join(scratch, `long-${events}`);
    makeMany(root, folder, 100);
    lengthen(folder, events);
    const of = `unit of ${events} events`;
    add(of, events, run(root, folder, [main, 'feed', 'job-0/W0-1']), 'opened (read, folded)');
    add(of, events, run(root, folder, [main, 'record', 'job-0/W0-1', '--format', 'json']), 'record');
    add(of, events, run(root, folder, [main, 'verify', 'job-0', 'W0-1']), 'verify');
    rmSync(folder, { recursive: true, force: true });
  }
  return rows;
}

const text = ({ took, mb }: Figure, bare: Figure): string =>
  `${(took / bare.took).toFixed(2)} x bare (${ms(took)}), ${mb.toFixed(0)} MB`;

/** The unit's journal made this long by work done again and again. */
function lengthen(folder: string, events: number): void {
  const ports = realPorts({ workshop: folder, bench: 'bench-1' });
  if (!ports.ok) throw new Error(ports.problems[0]!.text);
  ports.value.open('job-0/W0-1');
  const { state } = ports.value.world().open!;
  const [step] = [...state.steps.values()].filter((each) => each.step.checks[0]?.kind === 'go-no-go');
  ports.value.close();
  const check = step!.step.checks[0]!.id;
  const made = Journal.open(realDisk, folder, 'job-0', 'W0-1');
  if (!made.ok) throw new Error(made.problems[0]!.text);
  const pair: EventBody[] = [
    {
      kind: 'answered',
      step: step!.step.id,
      check,
      answer: { kind: 'go-no-go', go: true },
      verdict: { outcome: 'pass', rules: [], notes: [] },
    } as unknown as EventBody,
    { kind: 'reworked', step: step!.step.id, reason: 'again', reopens: [] } as unknown as EventBody,
  ];
  const bodies = Array.from({ length: events - made.value.events.length }, (_, i) => pair[i % 2]!);
  made.value.append(bodies, { by: 'jb', at: '2026-03-02T08:00:00.000Z', bench: 'bench-1' });
  made.value.close();
}

function run(root: string, cwd: string, args: readonly string[]): Figure {
  const told = join(cwd, 'memory');
  const figures = Array.from({ length: ROUNDS }, () => {
    const from = performance.now();
    const done = spawnSync(process.execPath, [`--import=${join(root, 'tests/faults/memory.mjs')}`, ...args], {
      cwd,
      input: '',
      encoding: 'utf8',
      maxBuffer: 2 ** 30,
      env: { ...process.env, TEST_MEMORY_FILE: told },
    });
    const took = performance.now() - from;
    if (done.status === null || done.status > 1) throw new Error(`${args.join(' ')}: ${done.stderr}`);
    return { took, mb: Number(readFileSync(told, 'utf8')) / 1000 };
  });
  rmSync(told);
  return { took: median(figures.map(({ took }) => took)), mb: Math.max(...figures.map(({ mb }) => mb)) };
}
