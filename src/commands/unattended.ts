/** Builds one unit at the bench by its keys alone, and counts what a person would have had to do. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { sanitize } from '../base/text.js';
import { isOfTheShop } from '../procedure/rhythm.js';
import { keysFor } from '../tui/keyscript.js';
import type { makeCore } from '../tui/loop.js';
import type { Action } from '../unit/actions.js';
import { nextMove } from '../unit/autopilot.js';
import type { JournalEvent } from '../unit/events.js';
import { findCheck } from '../unit/graph.js';
import type { UnitState } from '../unit/unitstate.js';
import { demoPicture } from './demopicture.js';
import type { Io } from './io.js';

/** What building took: acts of the unit and of the shop, releases by a person, keys, readings. */
export interface Tally {
  confirmations: number;
  holds: number;
  keys: number;
  readings: number;
  shared: number;
}

export const tallyText = ({ confirmations, holds, keys, readings, shared }: Tally): string =>
  `Confirmations: ${confirmations}   holds: ${holds}   keys: ${keys}   readings: ${readings}   shared: ${shared}`;

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

/** Builds the open unit; a sentence if it got stuck. */
export function buildByKeys(building: Building, tally: Tally): string | undefined {
  const { core, pins, evidence, io, wait } = building;
  let stage = '';
  let step = '';
  let idle = 0;
  for (;;) {
    core.tick();
    const world = core.world();
    const { state } = world.open!;
    const { person, inHand } = core.state();
    const { now, bench, rules: workshop, instruments } = world;
    const context = { now, bench, person, inHand, workshop, instruments };
    const cites = (id: string): boolean => (world.more?.shared?.takes(id).length ?? 0) > 0;
    const move = nextMove(state, context, { pins, evidence, cites });
    if (move.kind === 'finished') return undefined;
    if (move.kind === 'stuck') return move.why;
    if (move.kind === 'wait') {
      io.out(`    (the demonstration's clock goes on to ${move.until.slice(11, 16)} UTC: something cures)`);
      wait(Math.max(0, Date.parse(move.until) - Date.parse(now)) + 1000);
      continue;
    }
    const { action } = move;
    const at = stepAt(action, state);
    if (at && at.stage !== stage) {
      stage = at.stage;
      io.out(`\n${sanitize(state.route.stages.find((each) => each.id === stage)?.title ?? stage)}`);
    }
    if (at && at.id !== step) {
      step = at.id;
      io.out(`  ${sanitize(at.title)}`);
      wait(Math.max(PACE_MS, (at.leastSeconds ?? 0) * 1000));
    }
    const check = action.do === 'answer' ? at?.checks.find((each) => each.id === action.check) : undefined;
    if ('evidence' in action && action.evidence) writeFileSync(evidence, demoPicture());
    const hold = core.state().screen.name === 'release';
    const keys = keysFor(action, check?.kind, { hold });
    if (!keys) return `the bench has no keys for "${action.do}"`;
    const before = state.events.length;
    for (const chunk of keys) {
      wait(PACE_MS);
      core.feed(chunk);
      core.quiet();
      tally.keys += keysIn(chunk, { action, sends: instruments.find(({ id }) => id === inHand)?.sends });
    }
    const after = core.world().open!.state;
    const note = core.state().note;
    const events = after.events.slice(before);
    if (events.length > 0 && note) io.out(`    ${sanitize(note.text)}`);
    count(events, after, tally);
    idle =
      events.length > 0 || core.state().person !== person || core.state().inHand !== inHand ? 0 : idle + 1;
    if (idle > 2) return `nothing came of ${action.do}${note ? `: ${note.text} ${note.todo ?? ''}` : ''}`;
  }
}

function stepAt(action: Action, { route, steps }: UnitState) {
  if (action.do === 'answer') return findCheck(route, action.check)?.step;
  return action.do === 'look' || action.do === 'release' ? steps.get(action.step)?.step : undefined;
}

/** Keys as a person presses them: a scan is one, and so is a reading that an instrument sends by itself. */
function keysIn(chunk: string, { action, sends }: { action: Action; sends: boolean | undefined }): number {
  const scanned =
    action.do === 'person' ||
    action.do === 'instrument' ||
    (action.do === 'answer' && typeof action.value === 'string' && /\p{L}/u.test(action.value));
  const sent = action.do === 'answer' && sends && /^[\d.]+\r$/.test(chunk);
  if (chunk.endsWith('\r') && (scanned || sent)) return 1;
  // The Backspace before an arrow or a function key only keeps two of them apart.
  return chunk.replaceAll('\u007f', '').replace(/\u001b\[[\d;]*[A-Z~]/g, '*').length;
}

/** One act of a person, from what it wrote. */
function count(events: readonly JournalEvent[], { route, steps }: UnitState, tally: Tally): void {
  const answers = events.filter((event) => event.kind === 'answered');
  const released = events.find((event) => event.kind === 'released' && !event.cited);
  for (const { answer } of answers.filter(({ cited }) => !cited))
    if ('readings' in answer)
      tally.readings += Array.isArray(answer.readings)
        ? answer.readings.length
        : Object.values(answer.readings).flat().length;
  if (released?.kind === 'released') {
    if (isOfTheShop(steps.get(released.step)?.step.hold?.rhythm)) tally.shared += 1;
    else {
      tally.confirmations += 1;
      tally.holds += 1;
    }
  } else if (answers.length > 0) {
    const own = answers.filter(({ cited }) => !cited);
    const ofShop =
      own.length > 0 && own.every(({ check }) => isOfTheShop(findCheck(route, check)?.check.rhythm));
    if (ofShop) tally.shared += 1;
    else tally.confirmations += 1;
  }
}

/** Where a picture lies that a check or a hold asks for. */
export function picture(folder: string): string {
  mkdirSync(join(folder, 'inbox'), { recursive: true });
  return join(folder, 'inbox', 'unattended.png');
}
