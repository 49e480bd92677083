/** Builds a unit up to a given check with the bench's own decisions and journal, for pictures. */

import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { demoPicture } from '../src/commands/demopicture.js';
import type { RouteCheck } from '../src/procedure/types.js';
import { proveSetups } from '../src/session/setups.js';
import { realPorts } from '../src/session/workshopports.js';
import { nextMove } from '../src/unit/autopilot.js';
import { nextCheck } from '../src/unit/next.js';

/** PINs of the demonstration's fictional people. */
const PINS = { ot: '2705', mv: '4168' };

/**
 * Returns the initials of the person at the bench. The clock ends at `now`, or later if something must dry first.
 * Throws if no such check is reached.
 */
export function driveTo(
  folder: string,
  unit: string,
  wanted: (check: RouteCheck) => boolean,
  now: number,
): string {
  const pace = 4000;
  let clock = now - 600_000;
  const made = realPorts({ workshop: folder, clock: () => clock, bench: 'bench-1' });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  const ports = made.value;
  proveSetups(ports);
  ports.open(unit);
  let hand: { person: string | undefined; inHand?: string | undefined } = {
    person: undefined,
  };
  for (let moves = 0; moves < 2000; moves += 1) {
    clock += pace;
    const world = ports.world();
    const { state } = world.open!;
    const next = nextCheck(state);
    const check = state.route.steps
      .find(({ id }) => id === next?.step)
      ?.checks.find(({ id }) => id === next?.check);
    if (check && wanted(check) && hand.person !== undefined) break;
    const context = {
      ...hand,
      now: world.now,
      bench: world.bench,
      workshop: world.rules,
      instruments: world.instruments,
    };
    const move = nextMove(state, context, { pins: PINS, evidence: 'drive.png' });
    if (move.kind === 'wait') {
      clock = Date.parse(move.until);
      continue;
    }
    if (move.kind !== 'act') throw new Error(JSON.stringify(move));
    const { action } = move;
    if (action.do === 'person') hand = { ...hand, person: action.person };
    else if (action.do === 'instrument') {
      const tool = world.instruments.find(({ id }) => id === action.instrument)!;
      hand = { ...hand, inHand: tool.id };
    } else {
      if ('evidence' in action) writeFileSync(join(folder, 'drive.png'), demoPicture());
      const acted = ports.act(action, hand);
      if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
    }
  }
  ports.close();
  rmSync(join(folder, 'drive.png'), { force: true });
  return made.value.world().rules.people.find(({ id }) => id === hand.person)!.initials;
}
