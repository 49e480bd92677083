/** Builds a unit of a workshop up to a check, through the same decisions and journal as the bench: for pictures. */
import { proveSetups } from '../src/session/setups.js';
import { realPorts } from '../src/session/workshopports.js';
import { nextMove } from '../src/unit/autopilot.js';
import { nextCheck } from '../src/unit/next.js';

/** PINs of the demonstration's invented people. */
const PINS = { ot: '2705', mv: '4168' };

/** The clock ends at `now`. Throws where the check is not reached. */
export function driveTo(folder: string, unit: string, check: string, now: number): void {
  const pace = 4000;
  let clock = now - 600_000;
  const made = realPorts({ workshop: folder, clock: () => clock, bench: 'bench-1' });
  if (!made.ok) throw new Error(made.problems[0]!.text);
  const ports = made.value;
  proveSetups(ports);
  ports.open(unit);
  let hand: { person: string | undefined; inHand: Record<string, string> } = {
    person: undefined,
    inHand: {},
  };
  for (let moves = 0; moves < 2000; moves += 1) {
    clock += pace;
    const world = ports.world();
    const { state } = world.open!;
    if (nextCheck(state)?.check === check) break;
    const context = {
      ...hand,
      now: world.now,
      bench: world.bench,
      workshop: world.rules,
      instruments: world.instruments,
    };
    const move = nextMove(state, context, { pins: PINS, evidence: 'shared/limits.yaml' });
    if (move.kind !== 'act') throw new Error(JSON.stringify(move));
    const { action } = move;
    if (action.do === 'person') hand = { ...hand, person: action.person };
    else if (action.do === 'instrument') {
      const tool = world.instruments.find(({ id }) => id === action.instrument)!;
      hand = { ...hand, inHand: { ...hand.inHand, [tool.kind]: tool.id } };
    } else {
      const acted = ports.act(action, hand);
      if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
    }
  }
  ports.close();
}
