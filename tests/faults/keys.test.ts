/**
 * Random keys through the reducer, half of them blind and half with the intent of somebody who builds: 60,000 key events,
 * PINCHROD_KEYS=1000000 for more. Never a crash, and never a wrong record: what is logged stood on the screen, in the name
 * that the screen showed; only the hold's own key releases one; Esc and single characters write nothing.
 */
import { expect, it } from 'vitest';
import { wouldDo } from '../../src/measure/fitness.js';
import { wantedBy } from '../../src/procedure/wanted.js';
import { currentTask, toolFor } from '../../src/tui/currenttask.js';
import { type Key, SPLIT_START, split } from '../../src/tui/keys/split.js';
import { commandOf } from '../../src/tui/keys/table.js';
import type { BenchState } from '../../src/tui/state.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { fold } from '../../src/unit/fold.js';
import { nextPlace } from '../../src/unit/sets.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { type Rig, ROUTE, rig } from '../tui/support.js';
import { BLIND } from './blindkeys.js';
import { chance, pick } from './chance.js';

const KEYS = Number(process.env.PINCHROD_KEYS ?? 60_000);
const SEEDS = [3, 1415, 92_653];
const UNITS = ['P01-1', 'P02-1', 'P02-2'];
const SCANS = [
  'P01-1\r',
  'P02-1\r',
  'IV\r',
  'T.O.\r',
  'NP\r',
  'T2\r',
  'C1\r',
  '1000\r',
  '1221,5\r',
  '39 3/8"\r',
];
const RIGHT = '\x1b[C';
const F6 = '\x1b[17~';
const F8 = '\x1b[19~';
/** A bench of its own after so many keys, so that a unit does not stay scrapped or finished for good. */
const SPELL = 1500;

it.each(SEEDS)(`${Math.round(KEYS / SEEDS.length)} random keys in the reducer, seed %i`, (seed) => {
  const random = chance(seed);
  const count = { sent: 0, events: 0, readings: 0, finished: 0, kinds: new Map<string, number>() };
  while (count.sent < KEYS / SEEDS.length) {
    const bench = rig();
    // Keys come at any pace: some as held down, some after a pause in which nobody is at the bench any more.
    bench.pace = pick([5, 400, 1000], random);
    const watch = watcher(bench, seed, count);
    for (const end = count.sent + SPELL; count.sent < end; ) {
      if (random() < 0.001) bench.pace = pick([5, 400, 1000, 61_000], random);
      const text =
        random() < 0.5
          ? intended(bench, random)
          : random() < 0.1
            ? pick(SCANS, random)
            : random() < 0.02
              ? mixed(pick(SCANS, random), pick(SCANS, random), random)
              : pick(BLIND, random);
      for (const key of keysOf(text)) watch(key);
    }
    for (const unit of UNITS) if (bench.events(unit).at(-1)?.kind === 'finished') count.finished += 1;
  }
  console.log(
    `seed ${seed}: ${count.sent} keys, ${count.events} events logged (${[...count.kinds].map(([kind, n]) => `${n} ${kind}`).join(', ')}), ${count.readings} readings, each one that stood on the screen`,
  );
  expect(count.readings).toBeGreaterThan(KEYS / SEEDS.length / 200);
  for (const [kind, n] of count.kinds) logged.set(kind, (logged.get(kind) ?? 0) + n);
});

/** By kind of event, over all seeds. */
const logged = new Map<string, number>();

it('logged every kind of event that a key can bring about', () => {
  for (const kind of ['answered', 'read', 'corrected', 'reworked', 'released', 'snag-raised'])
    expect(logged.get(kind) ?? 0, kind).toBeGreaterThan(0);
});

interface Count {
  sent: number;
  events: number;
  readings: number;
  readonly kinds: Map<string, number>;
}

/** Sends one key, and holds everything that it wrote against what was on the screen before it. */
function watcher(bench: Rig, seed: number, count: Count): (key: Key) => void {
  /** Everything that was entered, for readings that a form or a question still had to ask about. */
  const entered = new Set<string>();
  return (key) => {
    const before = UNITS.map((unit) => bench.events(unit).length);
    const state = bench.core.state();
    const at = `seed ${seed}, key ${count.sent} (${key.name} ${key.text ?? ''})`;
    entered.add(state.entry.trim());
    bench.core.keys([key]);
    count.sent += 1;
    if (bench.core.state().left) throw new Error(`${at}: the bench was left without ^X`);
    for (const [i, unit] of UNITS.entries()) {
      const events = bench.events(unit);
      if (events.length === before[i]) continue;
      const fresh = events.slice(before[i]);
      if (key.name === 'escape' || key.name === 'char' || key.name === 'backspace' || key.name === 'tab')
        if (key.name !== 'tab' || state.entry.trim() === '')
          throw new Error(`${at}: wrote ${fresh[0]!.kind}`);
      for (const [index, event] of fresh.entries()) {
        count.events += 1;
        count.kinds.set(event.kind, (count.kinds.get(event.kind) ?? 0) + 1);
        if (event.by !== state.person && event.by !== 'nobody') expect(event.by, at).toBe(state.person);
        if (event.kind === 'released') expect(commandOf(key.name)?.id, at).toBe('release');
        const raws = rawOf(event, events.slice(0, before[i]! + index));
        count.readings += raws.length;
        for (const raw of raws)
          if (!stood(raw, state, entered)) throw new Error(`${at}: "${raw}" never stood on the screen`);
      }
    }
    // Now and then the state that was kept is held against the events alone.
    if (count.events > 0 && count.sent % 500 === 0 && bench.core.world().open)
      sameAsFolded(bench.state(), at);
  };
}

/** Whether a reading that is logged now is the one on the entry line, or the one that a question or form on the screen is about. */
function stood(raw: string, state: BenchState, entered: ReadonlySet<string>): boolean {
  if (state.entry.split(';').some((piece) => piece.trim() === raw)) return true;
  const { screen } = state;
  const about =
    screen.name === 'question'
      ? screen.action
      : screen.name === 'form' && 'action' in screen.form
        ? screen.form.action
        : undefined;
  return (
    about !== undefined &&
    JSON.stringify(about).includes(JSON.stringify(raw).slice(1, -1)) &&
    [...entered].some((line) => line.includes(raw))
  );
}

/** What was typed for the readings that an event logs for the first time. */
function rawOf(event: JournalEvent, before: readonly JournalEvent[]): readonly string[] {
  if (event.kind === 'read') return [event.reading.raw];
  if (event.kind !== 'answered') return [];
  if (event.answer.kind === 'number') return event.answer.readings.map(({ raw }) => raw);
  if (event.answer.kind !== 'square') return [];
  // A set is judged from readings that stand in the journal already.
  const known = new Set(before.flatMap((each) => (each.kind === 'read' ? [each.reading.raw] : [])));
  return Object.values(event.answer.readings)
    .flat()
    .map(({ raw }) => raw)
    .filter((raw) => !known.has(raw));
}

function sameAsFolded(state: UnitState, at: string): void {
  const again = fold({ ...ROUTE, unit: state.unit }, state.events);
  const picture = ({ standing, done, finished, scrapped, steps }: UnitState) => ({
    standing,
    done,
    finished,
    scrapped,
    steps: [...steps].map(([id, { status, checks }]) => [id, status, checks.map(({ holds }) => holds)]),
  });
  expect(picture(state), at).toEqual(picture(again));
}

/** What somebody would send who builds the unit at hand: mostly right, sometimes a slip of a digit, sometimes no. */
function intended(bench: Rig, random: () => number): string {
  const state = bench.core.state();
  const { open } = bench.core.world();
  if (!open || (open.state.finished && random() < 0.3)) return `${pick(UNITS, random)}\r`;
  if (state.person === undefined) return random() < 0.6 ? 'IV\r' : 'T.O.\r';
  if (state.screen.name === 'question') return random() < 0.6 ? RIGHT : '\x1b[D';
  if (state.screen.name === 'release') return `4711${F8}`;
  if (state.screen.name === 'form')
    return pick([RIGHT, RIGHT, RIGHT, 'because it was so\r', '4711\r', 'T.O.\r'], random);
  if (state.screen.name === 'snags') return pick(['\x1b[B', '\r', '\r', '\x1b'], random);
  if (open.state.snags.length > 0 && random() < 0.1) return F6;
  if (state.screen.name !== 'step') return pick(['\x1b', '\x1b', RIGHT, `${open.id}\r`], random);
  const stand = currentTask(open.state, state.at);
  if (stand?.step.status === 'held') return state.person === 'tom' ? F8 : 'T.O.\r';
  const check = stand?.step.step.checks.find(({ id }) => id === stand.check?.id);
  if (!stand?.check || !check) return pick(['\x1b[14~', `${pick(UNITS, random)}\r`], random);
  const wanted = wantedBy(check);
  if (wanted && !toolFor(check, state, bench.core.world()) && random() < 0.9) {
    const { instruments, now } = bench.core.world();
    return `${wouldDo(instruments, wanted, now, check.expect)[0]?.id}\r`;
  }
  switch (check.kind) {
    case 'tick':
    case 'computed':
      return RIGHT;
    case 'go-no-go':
      return random() < 0.9 ? RIGHT : '\x1b[D';
    case 'number':
      return `${slip(check.expect ?? 0, random)}\r`;
    case 'count':
      return `${check.expect ?? 0}\r`;
    case 'choice':
      return `${pick(check.choices ?? [], random).id}\r`;
    case 'text':
      return 'L-2601\r';
    case 'points':
    case 'square': {
      const next = nextPlace(check, stand.check);
      return next ? `${slip(next.expect ?? 0, random)}\r` : RIGHT;
    }
  }
}

/** A reading near what it should be; now and then far off, or with two figures changed about. */
function slip(value: number, random: () => number): string {
  const near = Math.round((value + (random() - 0.5)) * 2) / 2;
  if (random() < 0.9) return String(near);
  return random() < 0.5
    ? String(near + pick([10, 100, -10, 1000], random))
    : String(near).replace(/(\d)(\d)/, '$2$1');
}

/** Two devices that type at the same time, each its own order kept. */
function mixed(a: string, b: string, random: () => number): string {
  const [one, other] = [[...a], [...b]];
  let text = '';
  while (one.length + other.length > 0)
    text += (random() < one.length / (one.length + other.length) ? one : other).shift();
  return text;
}

function keysOf(text: string): readonly Key[] {
  const { state, keys } = split(SPLIT_START, text);
  return state.pending === '\x1b' ? [...keys, { name: 'escape' }] : keys;
}
