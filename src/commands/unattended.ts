/** Builds one unit at the bench by its keys alone, and counts what a person would have had to do. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { sanitize } from '../base/text.js';
import { localTimes, utcText } from '../base/wallclock.js';
import { data, type Message, messagesOf, type Spoken } from '../base/words.js';
import { isOfTheShop } from '../procedure/rhythm.js';
import type { RouteStep } from '../procedure/types.js';
import { keysFor } from '../tui/keyscript.js';
import type { makeCore } from '../tui/loop.js';
import type { Action } from '../unit/actions.js';
import { nextMove } from '../unit/autopilot.js';
import type { JournalEvent } from '../unit/events.js';
import { findCheck } from '../unit/graph.js';
import { lookAt } from '../unit/looks.js';
import { isSet, placesOf } from '../unit/sets.js';
import type { UnitState } from '../unit/unitstate.js';
import { demoPicture } from './demopicture.js';
import { asLines, type Io, indented, retold, saying } from './io.js';
import { MAKING_SAYS } from './words/making.js';

/** What building took: acts of the unit and of the shop, releases by a person, keys, readings. */
export interface Tally {
  confirmations: number;
  holds: number;
  keys: number;
  readings: number;
  shared: number;
  /** Confirmations of each unit. */
  readonly units: Map<string, number>;
}

export const noTally = (): Tally => ({
  confirmations: 0,
  holds: 0,
  keys: 0,
  readings: 0,
  shared: 0,
  units: new Map(),
});

/** Of a batch, also what each unit took of it. */
export const unitsText = ({ units }: Tally): Spoken =>
  sanitize([...units].map(([unit, count]) => `${unit} ${count}`).join('   '));

export const tallyText = ({ confirmations, holds, keys, readings, shared }: Tally, io: Io): Spoken =>
  saying(io, MAKING_SAYS)('demo-tally', { confirmations, holds, keys, readings, shared });

export const makingWords = messagesOf(MAKING_SAYS);

/** Minimum time between two answers, so that none is marked as a burst. */
const PACE_MS = 20_000;

export interface Building {
  readonly core: ReturnType<typeof makeCore>;
  readonly pins: Readonly<Record<string, string>>;
  /** Where a picture lies that a check or a hold asks for; written anew before each. */
  readonly evidence: string;
  readonly io: Io;
  readonly wait: (ms: number) => void;
}

/** Where the building of a unit stands after a move. */
export type Moved = 'acted' | 'finished' | { readonly until: string } | { readonly stuck: Message | string };

/** Builds by keys, move by move. */
export class KeyBuilder {
  readonly #building: Building;
  readonly tally: Tally;
  #stage = '';
  #step = '';
  #idle = 0;

  constructor(building: Building, tally: Tally) {
    this.#building = building;
    this.tally = tally;
  }

  /** Presses keys that belong to no unit: a list, a scan. */
  press(...chunks: readonly string[]): void {
    const { core, wait } = this.#building;
    for (const chunk of chunks) {
      wait(PACE_MS);
      core.feed(chunk);
      core.quiet();
      this.tally.keys += keysIn(chunk, true);
    }
  }

  /** The next right thing on the open unit; at one step of it, if that is named. */
  move(at?: string): Moved {
    const { core, pins, evidence, io } = this.#building;
    core.tick();
    const world = core.world();
    const { state } = world.open!;
    const { person, inHand } = core.state();
    const { now, bench, rules: workshop, instruments } = world;
    const context = { now, bench, person, inHand, workshop, instruments };
    const cites = (id: string): boolean => (world.more?.shared?.takes(id).length ?? 0) > 0;
    const move = nextMove(state, context, { pins, evidence, cites, ...(at === undefined ? {} : { at }) });
    if (move.kind === 'finished') return 'finished';
    if (move.kind === 'stuck') return { stuck: move.why };
    if (move.kind === 'wait') return { until: move.until };
    const { action } = move;
    const step = stepAt(action, state);
    if (step) this.#tellStep(step, state);
    const check = action.do === 'answer' ? step?.checks.find((each) => each.id === action.check) : undefined;
    if ('evidence' in action && action.evidence) writeFileSync(evidence, demoPicture());
    const keys = keysFor(action, check?.kind, { hold: core.state().screen.name === 'release' });
    if (!keys) return { stuck: makingWords('demo-no-keys', { action: action.do }) };
    const sends = instruments.find(({ id }) => id === inHand)?.sends === true;
    const before = state.events.length;
    const { job, unit } = state;
    for (const chunk of keys) {
      this.#building.wait(PACE_MS);
      core.feed(chunk);
      core.quiet();
      this.tally.keys += keysIn(chunk, isScan(action) || (sends && isReading(action, chunk)));
    }
    const { note } = core.state();
    const open = core.world().open!;
    // A walk may have gone on to its next unit.
    const events =
      open.state.unit === unit && open.state.job === job ? open.state.events.slice(before) : undefined;
    if ((events?.length ?? 1) > 0 && note) io.out(indented(retold(io, note.text), 4));
    this.#count(action, events, state);
    const isNew =
      (events?.length ?? 1) > 0 || core.state().person !== person || core.state().inHand !== inHand;
    this.#idle = isNew ? 0 : this.#idle + 1;
    if (this.#idle <= 2) return 'acted';
    const came = { action: action.do };
    return {
      stuck: note
        ? makingWords('demo-nothing-came-note', { ...came, note: `${note.text} ${note.todo ?? ''}` })
        : makingWords('demo-nothing-came', came),
    };
  }

  #tellStep(step: RouteStep, { route, unit }: UnitState): void {
    const { io, wait } = this.#building;
    if (step.stage !== this.#stage) {
      this.#stage = step.stage;
      const stage = route.stages.find((each) => each.id === step.stage)?.title ?? step.stage;
      io.out(asLines([data(''), sanitize(stage)]));
    }
    const name = `${unit} ${step.id}`;
    if (name === this.#step) return;
    this.#step = name;
    io.out(indented(sanitize(step.title)));
    wait(Math.max(PACE_MS, (step.leastSeconds ?? 0) * 1000));
  }

  /** One act of a person, by what was asked. */
  #count(action: Action, events: readonly JournalEvent[] | undefined, state: UnitState): void {
    const { route, steps, unit } = state;
    const { tally } = this;
    const one = (shared: boolean): void => {
      if (shared) tally.shared += 1;
      else {
        tally.confirmations += 1;
        tally.units.set(unit, (tally.units.get(unit) ?? 0) + 1);
      }
    };
    if (action.do === 'release') {
      const shared = isOfTheShop(steps.get(action.step)?.step.hold?.rhythm);
      if (!shared) tally.holds += 1;
      one(shared);
      return;
    }
    if (events?.length === 0) return;
    if (action.do === 'cite') {
      one(false);
      return;
    }
    if (action.do !== 'answer' && action.do !== 'look') return;
    // A picture is an act of its own, though the answer takes it along.
    if (action.evidence) one(false);
    const asked =
      action.do === 'answer' ? [findCheck(route, action.check)!.check] : lookAt(steps.get(action.step)!);
    const [first] = asked;
    if (first && isSet(first)) tally.readings += placesOf(first).length;
    else if (first?.kind === 'number') tally.readings += 1;
    one(asked.every(({ rhythm }) => isOfTheShop(rhythm)));
  }
}

/** Builds the open unit; a sentence if it got stuck. */
export function buildByKeys(building: Building, tally: Tally): Message | string | undefined {
  const builder = new KeyBuilder(building, tally);
  for (;;) {
    const moved = builder.move();
    if (moved === 'finished') return undefined;
    if (moved === 'acted') continue;
    if ('stuck' in moved) return moved.stuck;
    waitUntil(building, moved.until);
  }
}

export function waitUntil({ core, io, wait }: Building, until: string): void {
  const time = localTimes(utcText(until).slice(11), undefined, Date.parse(until));
  io.out(indented(saying(io, MAKING_SAYS)('demo-waits', { time }), 4));
  wait(Math.max(0, Date.parse(until) - Date.parse(core.world().now)) + 1000);
}

function stepAt(action: Action, { route, steps }: UnitState) {
  if (action.do === 'answer') return findCheck(route, action.check)?.step;
  return action.do === 'look' || action.do === 'release' ? steps.get(action.step)?.step : undefined;
}

const isScan = (action: Action): boolean =>
  action.do === 'person' ||
  action.do === 'instrument' ||
  (action.do === 'answer' && typeof action.value === 'string' && /\p{L}/u.test(action.value));

const isReading = (action: Action, chunk: string): boolean =>
  action.do === 'answer' && /^[\d.]+\r$/.test(chunk);

/** Keys as a person presses them: a scan is one, and so is a reading that an instrument sends by itself. */
function keysIn(chunk: string, isOne: boolean): number {
  if (isOne && chunk.endsWith('\r')) return 1;
  // The Backspace before an arrow or a function key only keeps two of them apart.
  return chunk.replaceAll('\u007f', '').replace(/\u001b\[[\d;]*[A-Z~]/g, '*').length;
}

/** Where a picture lies that a check or a hold asks for. */
export function picture(folder: string): string {
  mkdirSync(join(folder, 'inbox'), { recursive: true });
  return join(folder, 'inbox', 'unattended.png');
}
