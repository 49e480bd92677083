/** The current position in a unit. Derived from the unit's events, so a restart resumes at the same field. */
import { type Instrument, type ReadingUnit, SQUARE_KEYS, type SquareKey } from '../measure/types.js';
import { unitRead } from '../measure/units.js';
import type { RouteCheck } from '../procedure/types.js';
import type { World } from '../session/ports.js';
import { heldSteps, lastStep, nextCheck } from '../unit/next.js';
import type { CheckState, StepState } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { BenchState } from './state.js';

export interface CurrentTask {
  readonly step: StepState;
  /** The check asked now; absent if the step waits for its hold or for something else. */
  readonly check?: CheckState;
}

/**
 * The step jumped to, if open or held; else the step last worked on, if held; else the unit room's next check, which
 * continues that step; else the first held step. A failed check is never skipped: the first one of a step that does not
 * hold is asked.
 */
export function currentTask(unit: UnitState, at?: string): CurrentTask | undefined {
  if (unit.finished || unit.scrapped) return undefined;
  const jumped = unit.steps.get(at ?? '');
  if (jumped && (jumped.open || jumped.status === 'held')) return task(jumped);
  const last = unit.steps.get(lastStep(unit) ?? '');
  if (last?.status === 'held') return { step: last };
  const next = unit.steps.get(nextCheck(unit)?.step ?? '') ?? heldSteps(unit)[0];
  return next && task(next);
}

function task(step: StepState): CurrentTask {
  const check = step.open && step.status !== 'held' ? step.checks.find((each) => !each.holds) : undefined;
  return check ? { step, check } : { step };
}

/** The current task, with its check as defined by the route. */
export function asked(
  state: BenchState,
  world: World,
): { readonly task: CurrentTask; readonly check?: RouteCheck } | undefined {
  const task = world.open && currentTask(world.open.state, state.at);
  if (!task) return undefined;
  const check = task.step.step.checks.find(({ id }) => id === task.check?.id);
  return check ? { task, check } : { task };
}

export function toolFor(
  check: RouteCheck,
  { inHand }: Pick<BenchState, 'inHand'>,
  { instruments }: Pick<World, 'instruments'>,
): Instrument | undefined {
  const id = check.instruments.map((kind) => inHand[kind]).find((each) => each !== undefined);
  return instruments.find((each) => each.id === id);
}

export const unitAt = (check: RouteCheck, state: Pick<BenchState, 'inHand'>, world: World): ReadingUnit =>
  unitRead(check.unit ?? 'mm', toolFor(check, state, world), world.rules.units);

/** The order in which a square set is read: the sides, both diagonals, then the first diagonal again. */
export const SQUARE_ORDER: readonly SquareKey[] = [
  'bottom',
  'top',
  'left',
  'right',
  'bl_tr',
  'br_tl',
  'bl_tr',
];

/** The next reading of a square set, and whether it is a repeat; undefined when the set is complete. */
export function squareNext(
  check: CheckState,
): { readonly key: SquareKey; readonly again: boolean; readonly left: number } | undefined {
  const taken = new Map<string, number>(SQUARE_KEYS.map((key) => [key, check.partial?.[key]?.length ?? 0]));
  const wanted = new Map<string, number>();
  for (const [index, key] of SQUARE_ORDER.entries()) {
    const times = (wanted.get(key) ?? 0) + 1;
    wanted.set(key, times);
    if (taken.get(key)! < times) return { key, again: times > 1, left: SQUARE_ORDER.length - index };
  }
  return undefined;
}
