/** `verify` over 200 MB of journals of a real unit, against `sha256sum` over the same bytes, in turn in one run. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { chainLine, FIRST_PREV, sealEvent } from '../../src/build/chain.js';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { ROUTES, whole } from '../../tests/build/demonstration.js';
import { median, type Row, type Setting } from './rows.js';

export const title = 'Verify against sha256sum';
const BYTES = 200_000_000;
const ROUNDS = 3;

export async function measure({ scratch }: Setting): Promise<Row[]> {
  const root = join(scratch, 'verify');
  const files = fill(root);
  const ratios: number[] = [];
  let events = 0;
  for (let i = 0; i < ROUNDS; i++) {
    const start = process.cpuUsage();
    const report = verifyTree(realDisk, root);
    const spent = process.cpuUsage(start);
    if (!report.holds) throw new Error(report.faults[0]!.text);
    events = report.events;
    const outside = childSeconds(files);
    if (outside === undefined) return [{ what: 'verify of 200 MB', figure: 'no sha256sum on this machine' }];
    ratios.push((spent.user + spent.system) / 1e6 / outside);
  }
  const ratio = median(ratios);
  return [
    {
      what: `verify of 200 MB, ${events} events, processor time`,
      figure: `${ratio.toFixed(1)} times sha256sum`,
      bar: 'at most 4 times',
      holds: ratio <= 4,
    },
  ];
}

/** Processor seconds of sha256sum, by the shell's own `times`. */
function childSeconds(files: readonly string[]): number | undefined {
  const run = spawnSync(
    'bash',
    ['-c', 'TIMEFORMAT="%U %S"; time sha256sum "$@" > /dev/null', 'x', ...files],
    {
      encoding: 'utf8',
    },
  );
  const found = /^([\d.]+) ([\d.]+)\s*$/m.exec(run.stderr ?? '');
  return run.status === 0 && found ? Number(found[1]) + Number(found[2]) : undefined;
}

function fill(root: string): string[] {
  const folder = join(root, 'logs', 'pier-house');
  mkdirSync(folder, { recursive: true });
  const unit = [...ROUTES].toSorted(([, a], [, b]) => b.steps.length - a.steps.length)[0]![0];
  const { state } = whole(unit);
  const files: string[] = [];
  for (let bytes = 0; bytes < BYTES; ) {
    const name = `U${files.length + 1}`;
    let prev = FIRST_PREV;
    let text = '';
    for (const [i, { at, by, bench, ...rest }] of state.events.entries()) {
      const { v: _v, n: _n, prev: _prev, hash: _hash, ...body } = rest;
      const made = body.kind === 'opened' ? { ...body, unit: name, job: 'pier-house', sources: {} } : body;
      // Evidence is hashed as files of its own, which this does not measure.
      const { evidence: _evidence, ...plain } = made as typeof made & { evidence?: unknown };
      const event = sealEvent(plain as never, { n: i + 1, at, by, bench, prev });
      prev = event.hash;
      text += `${chainLine(event)}\n`;
    }
    const file = join(folder, `${name}.jsonl`);
    writeFileSync(file, text);
    files.push(file);
    bytes += Buffer.byteLength(text);
  }
  return files;
}
