/**
 * The demonstration workshop under the real bench, worked by keys that know what is asked: the answers of the unattended
 * build as keys, on a clock that the test moves.
 */

import { join } from 'node:path';
import { problemText } from '../../src/base/problem.js';
import type { Ports } from '../../src/session/ports.js';
import { type RealPorts, realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { keysFor } from '../../src/tui/keyscript.js';
import { type Core, makeCore } from '../../src/tui/loop.js';
import type { Action } from '../../src/unit/actions.js';
import { nextMove } from '../../src/unit/autopilot.js';
import { newPicture } from '../picture.js';
import { PINS } from './realbench.js';
import { freshWorkshop } from './terminal.js';

/** As evidence, wherever it is asked for. */
const SHOT = 'shot.txt';

export interface KeyedWorkshop {
  readonly folder: string;
  readonly core: Core;
  readonly ports: RealPorts;
  /** The wall clock, ms. */
  clock: number;
  /** The keys of the next right thing to do on the open unit; `wait` where something cures, `none` where nothing is left. */
  next(): readonly string[] | 'wait' | 'none';
  close(): void;
}

/** @param wrap stands between the bench and the workshop, to make calls fail */
export function keyedWorkshop(wrap: (ports: RealPorts) => Ports = (ports) => ports): KeyedWorkshop {
  const { folder, remove } = freshWorkshop();
  newPicture(join(folder, SHOT));
  const box = { clock: Date.UTC(2026, 10, 2, 7) };
  // Durability is tested elsewhere; here it would only take time.
  const disk = { ...realDisk, flush() {}, flushFolder() {} };
  const made = realPorts({ workshop: folder, disk, clock: () => box.clock, bench: 'bench-t' });
  if (!made.ok) throw new Error(made.problems.map(problemText).join('\n'));
  const ports = made.value;
  const core = makeCore(wrap(ports));
  const next = (): readonly string[] | 'wait' | 'none' => {
    const { open, now, bench, rules, instruments } = core.world();
    if (!open) return 'none';
    const { person, inHand } = core.state();
    const context = { now, bench, person, inHand, workshop: rules, instruments };
    const move = nextMove(open.state, context, { pins: PINS, evidence: SHOT });
    if (move.kind === 'wait') {
      box.clock = Math.max(box.clock, Date.parse(move.until) + 1000);
      return 'wait';
    }
    return move.kind === 'act' ? keysOf(move.action) : 'none';
  };
  const keysOf = (action: Action): readonly string[] | 'none' => {
    if ('evidence' in action && action.evidence) newPicture(join(folder, SHOT));
    const route = core.world().open!.state.route;
    const check = route.steps
      .flatMap((step) => step.checks)
      .find(({ id }) => 'check' in action && id === action.check);
    return keysFor(action, check?.kind) ?? 'none';
  };
  return {
    folder,
    core,
    ports,
    get clock() {
      return box.clock;
    },
    set clock(ms) {
      box.clock = ms;
    },
    next,
    close() {
      ports.close();
      remove();
    },
  };
}

/** Presses what is right, a minute an answer, until the state is the one wanted. */
export function workUntil(shop: KeyedWorkshop, wanted: () => boolean): void {
  for (let moves = 0; !wanted(); moves += 1) {
    const keys = shop.next();
    if (keys === 'none' || moves > 3000)
      throw new Error(`nothing to press: ${JSON.stringify(shop.core.state().note)}`);
    if (keys === 'wait') continue;
    for (const chunk of keys) {
      shop.clock += 5000;
      shop.core.feed(chunk);
      shop.core.quiet();
    }
  }
}
