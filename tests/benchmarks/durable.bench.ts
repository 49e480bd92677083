/**
 * From an answer to its being durable, beside a bare append and flush of the same bytes to a file of its own, in turn in
 * one run: whole units built through the bench's ports, with the answers, releases and pictures that they ask for. Before
 * each of the three the bench's own work between two answers is done for as long, since a disk answers sooner the less
 * time has passed since the last flush, and code runs sooner the less else has run.
 */
import { closeSync, cpSync, fdatasyncSync, mkdirSync, openSync, rmSync, writeSync } from 'node:fs';
import { uptime } from 'node:os';
import { join } from 'node:path';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { type Disk, realDisk } from '../../src/store/disk.js';
import { Journal } from '../../src/store/journal.js';
import { nextMove } from '../../src/unit/autopilot.js';
import type { EventBody } from '../../src/unit/events.js';
import { newPicture } from '../picture.js';
import { givePins } from '../pins.js';
import { atMost, median, ms, quantile, type Row, type Setting } from './rows.js';

export const title = 'Answer to durable';
/** What a person answers is never the first of the day: the first unit is for warming up. */
const WARMING = 'P01-1';
const MEASURED = ['P02-1', 'P03-1', 'P05-1'];
/** Longer than the work that follows an answer. */
const BETWEEN_MS = 2;
/** PINs of the demonstration's invented people. */
const PINS = { ot: '2705', mv: '4168' };

type Times = Record<'bare' | 'journal' | 'answer' | 'follow' | 'entered', number[]>;
const none = (): Times => ({ bare: [], journal: [], answer: [], follow: [], entered: [] });
/** Between two answers, ms: the register has its entry with every fifth. */
const PACE_MS = 12_000;

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const folder = join(scratch, 'durable');
  for (const part of ['procedures', 'shared'])
    cpSync(join(root, part), join(folder, part), { recursive: true });
  rmSync(join(folder, 'shared/setups.yaml'), { force: true });
  mkdirSync(join(folder, 'apart'));
  givePins(folder);
  const seen: { flushed: number; bytes: Uint8Array } = { flushed: 0, bytes: new Uint8Array() };
  // An answer is durable with the flush of its journal; once a minute the register follows.
  const journals = new Set<number>();
  let entries = 0;
  const disk: Disk = {
    ...realDisk,
    open(path, how) {
      const handle = realDisk.open(path, how);
      if (/logs\/[^/]+\/[^/]+\.jsonl$/.test(path)) journals.add(handle);
      else journals.delete(handle);
      if (path.includes('register/benches') && path.endsWith('.jsonl')) entries += 1;
      return handle;
    },
    write(handle, bytes, from) {
      if (journals.has(handle)) seen.bytes = bytes;
      return realDisk.write(handle, bytes, from);
    },
    flush(handle) {
      realDisk.flush(handle);
      if (journals.has(handle)) seen.flushed = performance.now();
    },
  };
  let clock = Date.now();
  const made = realPorts({
    workshop: folder,
    disk,
    clock: () => clock,
    // The demonstration's clock runs over every cure; the system is asked for its own as at a bench.
    steady: () => clock + 0 * uptime(),
  });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  const ports = made.value;
  const bare = openSync(join(folder, 'bare'), 'a');
  // In a workshop of its own, and as long as the unit's: what one unit's answer costs must not be another's.
  const plainOf = (unit: string): Journal => {
    const made = Journal.open(realDisk, join(folder, 'apart'), 'pier-house', unit);
    if (!made.ok) throw new Error(made.problems[0]!.text);
    return made.value;
  };
  let plain: Journal;
  let times = none();
  const act = (run: () => void, work: () => void): void => {
    const between = () => {
      const until = performance.now() + BETWEEN_MS;
      do work();
      while (performance.now() < until);
    };
    between();
    const entriesThen = entries;
    const from = performance.now();
    run();
    const to = performance.now();
    times.answer.push(seen.flushed - from);
    (entries > entriesThen ? times.entered : times.follow).push(to - from);
    const { bytes } = seen;
    between();
    const then = performance.now();
    writeSync(bare, bytes);
    fdatasyncSync(bare);
    times.bare.push(performance.now() - then);
    const bodies = Buffer.from(bytes).toString('utf8').trimEnd().split('\n').map(unchained);
    between();
    const before = performance.now();
    plain.append(bodies, { at: new Date(clock).toISOString(), by: 'jb', bench: 'bench-1' });
    times.journal.push(performance.now() - before);
  };
  for (const unit of [WARMING, ...MEASURED]) {
    if (unit === MEASURED[0]) times = none();
    plain = plainOf(unit);
    const tick = () => {
      clock += PACE_MS;
    };
    build(
      ports,
      unit,
      act,
      (until) => {
        if (until === undefined) tick();
        else clock = Date.parse(until) + 1000;
      },
      join(folder, 'photo.jpg'),
    );
    plain.close();
  }
  closeSync(bare);
  ports.close();
  const at = (name: keyof Times) => median(times[name]);
  const p99 = (name: keyof Times) => quantile(times[name], 0.99);
  return [
    {
      what: `bare append and fdatasync of the same ${times.bare.length} lines, median; 99th`,
      figure: `${ms(at('bare'))}; ${ms(p99('bare'))}`,
    },
    {
      what: 'numbered, chained, appended and flushed, median',
      figure: `${ms(at('journal'))}`,
    },
    atMost(
      'answer to durable (decided, chained, appended, flushed), median',
      at('answer') - at('bare'),
      1,
      'ms above bare',
      ` (${ms(at('answer'))})`,
    ),
    {
      what: 'answer to durable, 99th percentile (a hold and its PIN)',
      figure: ms(p99('answer')),
    },
    {
      what: 'until the unit stands at its next check, median',
      figure: ms(at('follow')),
    },
    {
      what: 'the same where the register has its entry (once a minute)',
      figure: ms(at('entered')),
    },
  ];
}

/** What was decided, of a line as it was written. */
function unchained(line: string): EventBody {
  const { v, n, at, by, bench, prev, hash, ...body } = JSON.parse(line) as Record<string, unknown>;
  return body as unknown as EventBody;
}

function build(
  ports: RealPorts,
  unit: string,
  timed: (run: () => void, between: () => void) => void,
  pass: (until?: string) => void,
  photo: string,
): void {
  ports.open(unit);
  let person: string | undefined;
  let inHand: string | undefined;
  const next = () => {
    const { now, bench, rules, instruments, open } = ports.world();
    const context = { now, bench, person, inHand, workshop: rules, instruments };
    return {
      instruments,
      move: nextMove(open!.state, context, { pins: PINS, evidence: 'photo.jpg' }),
    };
  };
  for (;;) {
    pass();
    const { move } = next();
    if (move.kind === 'finished') return;
    if (move.kind === 'stuck') throw new Error(move.why);
    if (move.kind === 'wait') {
      pass(move.until);
      continue;
    }
    const { action } = move;
    if (action.do === 'person') person = action.person;
    else if (action.do === 'instrument') inHand = action.instrument;
    else {
      if ('evidence' in action && action.evidence) newPicture(photo);
      timed(() => {
        const acted = ports.act(action, { person, inHand });
        if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
      }, next);
    }
  }
}
