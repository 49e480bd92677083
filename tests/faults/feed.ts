/** A real build by way of `pinchrod feed`: the actions that a person would do next, worked out from what is on disk. */

import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { loadUnit } from '../../src/commands/unitload.js';
import { realDisk } from '../../src/store/disk.js';
import { openWorkshop } from '../../src/store/workshop.js';
import type { Action } from '../../src/unit/actions.js';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { nextMove } from '../../src/unit/autopilot.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { apply } from '../../src/unit/fold.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { newPicture } from '../picture.js';
import { MAIN, ROOT } from '../tui/terminal.js';

export const JOB = 'pier-house';
export const UNITS = ['P01-1', 'P02-1', 'P02-2', 'P03-1', 'P04-1', 'P05-1', 'P06-1', 'P07-1'] as const;
/** PINs of the demonstration's invented people. */
const PINS = { ot: '2705', mv: '4168' };
const EVIDENCE = 'shot.txt';

export interface Reply {
  readonly ok: boolean;
  readonly events?: readonly { readonly n: number; readonly hash: string }[];
  readonly refused?: { readonly id: string; readonly text: string; readonly todo: string };
}

/** A program that answers each line with a line: `feed`, or lowdb's adapter in its place. */
export class Talk {
  readonly child: ChildProcessWithoutNullStreams;
  readonly ended: Promise<number | null>;
  readonly #lines: AsyncIterator<string>;
  errors = '';

  constructor(command: string, args: readonly string[], env: Readonly<Record<string, string>> = {}) {
    this.child = spawn(command, args, { env: { ...process.env, ...env } });
    this.child.stdin.on('error', () => {});
    this.child.stderr.on('data', (data) => {
      this.errors += data;
    });
    this.ended = new Promise((done) => this.child.on('close', done));
    this.#lines = createInterface({ input: this.child.stdout })[Symbol.asyncIterator]();
  }

  say(action: object): void {
    this.child.stdin.write(`${JSON.stringify(action)}\n`);
  }

  /** The next answer; undefined where the program ended. */
  async hear(): Promise<Reply | undefined> {
    const { value, done } = await this.#lines.next();
    return done ? undefined : (JSON.parse(value) as Reply);
  }

  kill(): Promise<number | null> {
    this.child.kill('SIGKILL');
    return this.ended;
  }
}

/** One unit of a workshop, built by whatever process is at hand; its clock goes on over things that cure. */
export class Build {
  #hand: { person: string | undefined; inHand?: string | undefined } = { person: undefined };
  #ahead = 0;
  readonly #clock: string;
  readonly #workshop;

  constructor(
    readonly folder: string,
    readonly unit: string,
    aside: string,
    readonly pins: Readonly<Record<string, string>> = PINS,
  ) {
    const workshop = openWorkshop(folder, realDisk);
    if (!workshop.ok) throw new Error(workshop.problems.map(({ text }) => text).join('\n'));
    this.#workshop = workshop.value;
    this.#clock = join(aside, 'ahead');
    this.#ahead = existsSync(this.#clock) ? Number(readFileSync(this.#clock, 'utf8')) : 0;
    newPicture(join(folder, EVIDENCE));
  }

  /** A process that takes the unit; nobody is at it yet. */
  start(command: readonly string[] = [process.execPath]): Talk {
    this.#hand = { person: undefined };
    writeFileSync(this.#clock, String(this.#ahead));
    const [program, ...before] = command;
    const args = [...before, MAIN, '--workshop', this.folder, 'feed', this.unit];
    return new Talk(program!, args, {
      NODE_OPTIONS: `--import=${join(ROOT, 'tests/bench/clock.mjs')}`,
      TEST_CLOCK_FILE: this.#clock,
    });
  }

  /** What is done next, by the journal on disk; undefined when the unit is finished. */
  next(): Action | undefined {
    const { rules, instruments } = this.#workshop;
    for (;;) {
      const now = new Date(Date.now() + this.#ahead).toISOString();
      const loaded = loadUnit(realDisk, this.#workshop, { job: JOB, unit: this.unit }, now);
      if (!loaded.ok) throw new Error(loaded.problems.map(({ text }) => text).join('\n'));
      const { state } = loaded.value;
      const begun = state.events.length > 0 ? state : withOpened(state);
      const context = {
        now,
        bench: '',
        ...this.#hand,
        person: this.#hand.person,
        workshop: rules,
        instruments,
      };
      const move = nextMove(begun, context, { pins: this.pins, evidence: EVIDENCE });
      if (move.kind === 'finished') return undefined;
      if (move.kind === 'stuck') throw new Error(move.why);
      if (move.kind === 'act') {
        if ('evidence' in move.action && move.action.evidence) newPicture(join(this.folder, EVIDENCE));
        return move.action;
      }
      this.#ahead += Math.max(0, Date.parse(move.until) - Date.parse(now)) + 1000;
      writeFileSync(this.#clock, String(this.#ahead));
    }
  }

  /** The program took it: who is there and what is in hand is of that process alone. */
  took(action: Action): void {
    if (action.do === 'person') this.#hand = { ...this.#hand, person: action.person };
    if (action.do !== 'instrument') return;
    const tool = this.#workshop.instruments.find(({ id }) => id === action.instrument)!;
    this.#hand = { ...this.#hand, inHand: tool.id };
  }
}

/** The whole lines of a unit's journal. */
export function written(folder: string, unit: string): JournalEvent[] {
  const file = join(folder, 'logs', JOB, `${unit}.jsonl`);
  if (!existsSync(file)) return [];
  return readFileSync(file, 'utf8')
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as JournalEvent);
}

/** A unit that is not begun has no first event; the driver is shown the state as it will be once it has. */
function withOpened(state: UnitState): UnitState {
  const body: EventBody = {
    kind: 'opened',
    unit: state.unit,
    job: state.job,
    sources: {},
    procedure: { name: '', version: '' },
    profileSet: '',
    program: '',
  };
  return apply(state, ...asIfWritten({ events: [] }, [body], 'nobody', { now: state.now, bench: '' }));
}
