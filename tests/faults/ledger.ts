/** What a program acknowledged, and the laws that a folder is held to after it was stopped in the middle. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { thisHost } from '../../src/store/lock.js';
import { lockUnit } from '../../src/store/unitlock.js';
import { verifyTree } from '../../src/store/verify.js';
import type { Action } from '../../src/unit/actions.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { JOB, type Reply, written } from './feed.js';

/** Kinds of event by which something shows as done. */
const DONE = new Set(['answered', 'released', 'read', 'overridden']);

export class Ledger {
  readonly #told = new Map<string, Map<number, string>>();
  /** How many lines stood there when a process took the unit: what one before it had written and could not tell of. */
  readonly #begunAt = new Map<string, number>();
  #before = 0;
  torn = 0;
  /** Times that the action under way was written, though nobody was told. */
  more = 0;

  get acknowledged(): number {
    return [...this.#told.values()].reduce((total, { size }) => total + size, this.#before);
  }

  begins(folder: string, unit: string): void {
    this.#begunAt.set(unit, written(folder, unit).length);
    if (!this.#told.has(unit)) this.#told.set(unit, new Map());
  }

  takes(unit: string, reply: Reply | undefined, about: string): void {
    if (reply?.ok !== true) expect(reply, about).toMatchObject({ ok: true });
    for (const { n, hash } of reply?.events ?? []) this.#told.get(unit)!.set(n, hash);
  }

  /** The workshop is begun anew. */
  anew(): void {
    this.#before = this.acknowledged;
    this.#told.clear();
    this.#begunAt.clear();
  }

  /** Acknowledged is there, once; what is there besides is the action under way of the unit at hand, or nothing. */
  look(folder: string, about: string, at: string, underWay: Action): void {
    const report = verifyTree(realDisk, folder);
    const worse = report.faults.filter(({ id }) => !/torn-end|no-line-end/.test(id));
    expect(worse, about).toEqual([]);
    this.torn += report.faults.length;
    for (const [unit, acknowledged] of this.#told) {
      const lines = written(folder, unit);
      for (const [n, hash] of acknowledged)
        if (lines[n - 1]?.hash !== hash)
          expect(lines[n - 1]?.hash, `${about}: event ${n} of ${unit}`).toBe(hash);
      // The first event of a unit is written, and not told of by number.
      const more = lines.slice(Math.max(1, this.#begunAt.get(unit) ?? 0, ...acknowledged.keys()));
      for (const event of more)
        expect(unit === at && (!DONE.has(event.kind) || isOf(event, underWay)), about).toBe(true);
      this.more += more.length > 0 ? 1 : 0;
    }
  }
}

/** Taken up again after the power cut, twice: the same bytes. */
export function recover(folder: string, unit: string): void {
  // The machine was started anew, so no process that holds a lock lives.
  const anew = { ...thisHost(), boot: 'after the power came back' };
  const bytes: string[] = [];
  for (let time = 0; time < 2; time++) {
    const claim = lockUnit(realDisk, folder, JOB, unit, { bench: 'bench-1', who: '' }, anew);
    if (!claim.ok) throw new Error(JSON.stringify(claim.problems));
    claim.value.release();
    const file = join(folder, 'logs', JOB, `${unit}.jsonl`);
    bytes.push(existsSync(file) ? readFileSync(file, 'utf8') : '');
  }
  expect(bytes[1]).toBe(bytes[0]);
}

/** Whether an event is what the action under way writes. */
function isOf(event: JournalEvent, action: Action): boolean {
  if (event.kind === 'answered' && action.do === 'look') return action.step === event.step;
  if (event.kind === 'answered') return action.do === 'answer' && action.check === event.check;
  if (event.kind === 'released') return action.do === 'release' && action.step === event.step;
  return event.kind === 'overridden' && action.do === 'override';
}
