/** `pinchrod verify` over 200 MB of journals of a real unit, against `sha256sum` over the same bytes: whole processes, in turn in one run. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chainEvent, chainLine } from '../../src/unit/chain.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { ROUTES, whole } from '../unit/demonstration.js';
import { atMost, median, type Row, type Setting } from './rows.js';

export const title = 'Verify against sha256sum';
const BYTES = 200_000_000;
const ROUNDS = 3;

export async function measure({ root: repository, scratch }: Setting): Promise<Row[]> {
  const root = join(scratch, 'verify');
  const { files, events } = fill(root);
  const main = join(repository, 'dist', 'main.js');
  const wall: number[] = [];
  const spent: number[] = [];
  for (let i = 0; i < ROUNDS; i++) {
    const own = seconds('"$@"', [process.execPath, main, '--workshop', root, 'verify']);
    const outside = seconds('sha256sum "$@"', files);
    if (outside === undefined) return [{ what: 'verify of 200 MB', figure: 'no sha256sum on this machine' }];
    if (own === undefined) throw new Error('verify does not hold what was made for it');
    wall.push(own.real / outside.real);
    spent.push(own.processor / outside.processor);
  }
  return [
    atMost(`verify of 200 MB, ${events} events, start to end`, median(wall), 4, 'x sha256sum'),
    { what: 'the same, processor time of all threads', figure: `${median(spent).toFixed(2)} x sha256sum` },
  ];
}

/** Seconds of a command that ends well, by the shell's own `times`. */
function seconds(
  command: string,
  args: readonly string[],
): { readonly real: number; readonly processor: number } | undefined {
  const run = spawnSync('bash', ['-c', `TIMEFORMAT="%R %U %S"; time ${command} > /dev/null`, 'x', ...args], {
    encoding: 'utf8',
  });
  const found = /^([\d.]+) ([\d.]+) ([\d.]+)\s*$/m.exec(run.stderr ?? '');
  return run.status === 0 && found
    ? { real: Number(found[1]), processor: Number(found[2]) + Number(found[3]) }
    : undefined;
}

function fill(root: string): { readonly files: string[]; readonly events: number } {
  const folder = join(root, 'logs', 'pier-house');
  mkdirSync(folder, { recursive: true });
  const unit = [...ROUTES].toSorted(([, a], [, b]) => b.steps.length - a.steps.length)[0]![0];
  const { state } = whole(unit);
  const files: string[] = [];
  for (let bytes = 0; bytes < BYTES; ) {
    const name = `U${files.length + 1}`;
    let last: JournalEvent | undefined;
    let text = '';
    for (const { at, by, bench, ...rest } of state.events) {
      const { v: _v, n: _n, prev: _prev, hash: _hash, ...body } = rest;
      const made = body.kind === 'opened' ? { ...body, unit: name, job: 'pier-house', sources: {} } : body;
      // Evidence is hashed as files of its own, which this does not measure.
      const { evidence: _evidence, ...plain } = made as typeof made & { evidence?: unknown };
      last = chainEvent(plain as never, { at, by, bench }, last);
      text += `${chainLine(last)}\n`;
    }
    const file = join(folder, `${name}.jsonl`);
    writeFileSync(file, text);
    files.push(file);
    bytes += Buffer.byteLength(text);
  }
  return { files, events: files.length * state.events.length };
}
