/** One of 10,000 closed units found: whole runs of `trace` and `record` with the index made, and with none. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { realDisk } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { chainEvent, chainLine } from '../../src/unit/chain.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { ROUTES, whole } from '../unit/demonstration.js';
import { atMost, median, ms, type Row, type Setting } from './rows.js';

export const title = 'Find among 10,000 closed units, whole process';
const UNITS = 10_000;
const JOBS = 50;
const ROUNDS = Number(process.env.ROUNDS ?? 7);
const DAY = 86_400_000;

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const folder = join(scratch, 'find');
  makeClosed(root, folder);
  const run = (...args: string[]) => timed(root, folder, args);
  const questions: [string, string[]][] = [
    ['trace --lot, 10 units', ['trace', '--lot', 'LOT-77']],
    ['trace --set-up, none', ['trace', '--set-up', 'no-such']],
    [
      'record of one day with a snag, 1 unit',
      ['record', '--since', dayOf(3), '--until', dayOf(3), '--snagged'],
    ],
    ['record --job --since, 4 units', ['record', '--job', 'job-7', '--since', dayOf(UNITS / 20 - 20)]],
  ];
  const first = run(...questions[0]![1]);
  const rows: Row[] = [{ what: 'trace --lot, no index', figure: ms(first) }];
  for (const [what, args] of questions) {
    const times = Array.from({ length: ROUNDS }, () => run(...args));
    rows.push(atMost(`${what}, index made`, median(times), 1000, 'ms'));
  }
  rmSync(folder, { recursive: true, force: true });
  return rows;
}

function timed(root: string, folder: string, args: readonly string[]): number {
  const from = performance.now();
  const done = spawnSync(process.execPath, [join(root, 'dist/main.js'), ...args], {
    cwd: folder,
    encoding: 'utf8',
    maxBuffer: 100_000_000,
  });
  // 1: nothing was found.
  if (done.status !== 0 && done.status !== 1) throw new Error(done.stderr);
  return performance.now() - from;
}

/** Twenty units are closed a day. */
const dayOf = (day: number): string => new Date(Date.UTC(2024, 0, 1) + day * DAY).toISOString().slice(0, 10);

/** Journals of a real unit's first event, a part of its answers and its end; every tenth has a snag, each lot reaches ten units. */
function makeClosed(root: string, folder: string): void {
  for (const part of ['procedures', 'shared'])
    cpSync(join(root, part), join(folder, part), { recursive: true });
  const read = (file: string) => readFileSync(join(folder, file), 'utf8');
  const texts = {
    profileSet: read('shared/profile-sets/w52.yaml'),
    procedure: read('procedures/casement.yaml'),
    limits: read('shared/limits.yaml'),
  };
  const all = [...whole([...ROUTES.keys()][0]!).state.events];
  const answers = all.filter(({ kind }) => kind === 'answered');
  const events = [all[0]!, ...answers.filter((_, i) => i % 5 === 0), all.at(-1)!];
  for (let j = 0; j < JOBS; j++) {
    const job = `job-${j}`;
    const file = jobText(root, job);
    writeFileSync(join(folder, `shared/jobs/${job}.yaml`), file);
    const sources = pinSources(realDisk, folder, { ...texts, job: file });
    mkdirSync(join(folder, 'logs', job), { recursive: true });
    for (let i = 0; i < UNITS / JOBS; i++)
      writeUnit(folder, job, `W0-${i + 1}`, i * JOBS + j, events, sources);
  }
}

/** One mark, as many windows of it as a job has. */
const jobText = (root: string, name: string): string => {
  const head = readFileSync(join(root, 'shared/jobs/pier-house.yaml'), 'utf8').split(/^units:/m)[0]!;
  const unit = `  - {mark: W0, quantity: ${UNITS / JOBS}, width: 900, height: 1200, layout: {light: fixed}}\n`;
  return `${head.replace(/^name: .*$/m, `name: ${name}`)}units:\n${unit}`;
};

function writeUnit(
  folder: string,
  job: string,
  unit: string,
  number: number,
  events: readonly JournalEvent[],
  sources: Readonly<Record<string, string>>,
): void {
  const at = `${dayOf(Math.floor(number / 20))}T09:00:00.000Z`;
  const lines: string[] = [];
  let last: JournalEvent | undefined;
  const add = (body: EventBody) => {
    last = chainEvent(body, { at, by: 'jb', bench: 'bench-1' }, last);
    lines.push(chainLine(last));
  };
  for (const [i, event] of events.entries()) {
    const { v: _v, n: _n, at: _at, by: _by, bench: _bench, prev: _prev, hash: _hash, ...body } = event;
    if (body.kind === 'opened') add({ ...body, unit, job, sources: { ...sources } });
    else if (body.kind === 'answered' && i === 3)
      add({ ...body, lot: { material: 'sealant', code: `LOT-${number % (UNITS / 10)}` } });
    else add(body as EventBody);
    if (i === 4 && number % 10 === 0)
      add({ kind: 'snag-raised', severity: 'minor', cause: 'saw', text: 'a burr', touches: { unit: true } });
  }
  writeFileSync(join(folder, 'logs', job, `${unit}.jsonl`), `${lines.join('\n')}\n`);
}
