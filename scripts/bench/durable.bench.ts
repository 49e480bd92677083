/** From an answer to its being durable, beside a bare append and flush of the same bytes to a file of its own, in turn in one run. */
import { closeSync, cpSync, fdatasyncSync, openSync, readFileSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { realPorts } from '../../src/bench/ports-real.js';
import { realDisk } from '../../src/store/disk.js';
import { Journal } from '../../src/store/journal.js';
import { atMost, median, ms, quantile, type Row, type Setting } from './rows.js';

export const title = 'Answer to durable';
const ROUNDS = 400;

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const folder = join(scratch, 'durable');
  for (const part of ['procedures', 'shared'])
    cpSync(join(root, part), join(folder, part), { recursive: true });
  rmSync(join(folder, 'shared/setups.yaml'), { force: true });
  const made = realPorts({ workshop: folder });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  const ports = made.value;
  ports.open('P01-1');
  const hand = { person: 'jb', inHand: {} };
  const act = (text: string): void => {
    const acted = ports.act({ do: 'note', text }, hand);
    if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
  };
  act('first');
  const other = Journal.open(realDisk, folder, 'pier-house', 'P03-1');
  if (!other.ok) throw new Error(other.problems[0]!.text);
  const stamp = () => ({ by: 'jb', bench: 'bench-1', at: new Date().toISOString() });
  const sources = { job: 'a'.repeat(64) };
  const procedure = { name: 'casement', version: '1' };
  other.value.append(
    [
      {
        kind: 'opened',
        unit: 'P03-1',
        job: 'pier-house',
        sources,
        procedure,
        profileSet: 'w52',
        program: 'bench',
      },
    ],
    stamp(),
  );
  const bytes = Buffer.from(
    `${readFileSync(join(folder, 'logs/pier-house/P01-1.jsonl'), 'utf8').split('\n').at(-2)}\n`,
  );
  const bare = openSync(join(folder, 'logs', 'bare'), 'a');
  const times: Record<'bare' | 'journal' | 'act', number[]> = { bare: [], journal: [], act: [] };
  const time = (into: number[], run: () => void): void => {
    const from = performance.now();
    run();
    into.push(performance.now() - from);
  };
  // What a person answers is never at full heat, and never the first of the day: some rounds are for warming up.
  for (let round = -50; round < ROUNDS; round++) {
    const into = round < 0 ? { bare: [], journal: [], act: [] } : times;
    time(into.bare, () => {
      writeSync(bare, bytes);
      fdatasyncSync(bare);
    });
    time(into.journal, () => other.value.append([{ kind: 'noted', text: `note ${round}` }], stamp()));
    time(into.act, () => act(`note ${round}`));
  }
  closeSync(bare);
  other.value.close();
  ports.close();
  const at = (name: keyof typeof times) => median(times[name]);
  const p99 = (name: keyof typeof times) => quantile(times[name], 0.99);
  return [
    {
      what: `bare append and fdatasync of ${bytes.length} bytes, median; 99th`,
      figure: `${ms(at('bare'))}; ${ms(p99('bare'))}`,
    },
    atMost(
      'numbered, chained, appended and flushed, median',
      at('journal') / at('bare'),
      1.5,
      'x bare',
      ` (${ms(at('journal'))})`,
    ),
    atMost(
      'decided, written and folded on, median',
      at('act') / at('bare'),
      1.5,
      'x bare',
      ` (${ms(at('act'))})`,
    ),
    {
      what: 'the same, 99th percentile',
      figure: `${(p99('act') / p99('bare')).toFixed(2)} x bare (${ms(p99('act'))})`,
    },
  ];
}
