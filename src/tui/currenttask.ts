/** The current position in a unit. Derived from the unit's events, so a restart resumes at the same field. */
import { measuresIt, wouldDo } from '../measure/fitness.js';
import type { Instrument, ReadingUnit } from '../measure/types.js';
import { unitRead } from '../measure/units.js';
import type { RouteCheck } from '../procedure/types.js';
import { wantedBy } from '../procedure/wanted.js';
import type { World } from '../session/ports.js';
import { dayNow } from '../unit/day.js';
import { lotsOffered } from '../unit/lots.js';
import { heldSteps, isToBeReleased, lastStep, nextCheck } from '../unit/next.js';
import { isSet, nextPlace } from '../unit/sets.js';
import type { CheckState, LotUsed, StepState } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { BenchState } from './state.js';

export interface CurrentTask {
  readonly step: StepState;
  /** The check asked now; absent if the step waits for its hold or for something else. */
  readonly check?: CheckState;
}

/**
 * The step jumped to, if open or held; else the step last worked on, if it is held and nothing joins it in its walk;
 * else the unit room's next check, which continues that step; else the first held step. A failed check is never skipped: the first one of a step that does not
 * hold is asked.
 */
export function currentTask(unit: UnitState, at?: string): CurrentTask | undefined {
  if (unit.finished || unit.scrapped) return undefined;
  const jumped = unit.steps.get(at ?? '');
  if (jumped && (jumped.open || jumped.status === 'held')) return task(jumped);
  const last = unit.steps.get(lastStep(unit) ?? '');
  if (last && isToBeReleased(unit, last)) return { step: last };
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

/** The instrument that a reading would be booked to: the one in hand, if it measures what is asked. */
export function toolFor(
  check: RouteCheck,
  { inHand }: Pick<BenchState, 'inHand'>,
  { instruments }: Pick<World, 'instruments'>,
): Instrument | undefined {
  const tool = instruments.find((each) => each.id === inHand);
  const wanted = wantedBy(check);
  return tool && wanted && measuresIt(tool, wanted) ? tool : undefined;
}

/** While the one in hand does not do: the one last used for this quantity, or the only one there is. Right takes it up. */
export function toolOffered(check: RouteCheck, state: BenchState, world: World): Instrument | undefined {
  const wanted = wantedBy(check);
  if (!wanted || toolFor(check, state, world)) return undefined;
  const able = wouldDo(world.instruments, wanted, dayNow(world), largestOf(check));
  return (
    able.find(({ id }) => id === state.lastFor[wanted.quantity]) ?? (able.length === 1 ? able[0] : undefined)
  );
}

/** The largest figure that a check expects: an instrument that does not reach so far is not offered. */
function largestOf({ expect, points = [], nominal }: RouteCheck): number | undefined {
  const all = [expect, ...points.map((point) => point.expect), nominal?.w, nominal?.h];
  const known = all.filter((each) => each !== undefined);
  return known.length === 0 ? undefined : Math.max(...known);
}

export const unitAt = (check: RouteCheck, state: Pick<BenchState, 'inHand'>, world: World): ReadingUnit =>
  unitRead(check.unit ?? 'mm', toolFor(check, state, world), world.rules.units);

/** Whether all readings of a set are in; it is not settled. */
export const setIsIn = (check: RouteCheck | undefined, state: CheckState | undefined): boolean =>
  check !== undefined &&
  isSet(check) &&
  state?.partial !== undefined &&
  nextPlace(check, state) === undefined;

/** The lots that a check offers; the first is taken by Right. */
export function offersOf(check: RouteCheck, world: World): readonly LotUsed[] {
  if (check.lot === undefined || !world.open || !world.more) return [];
  const { known, snagged } = world.more.lots();
  return lotsOffered(world.open.state, check, known, snagged, dayNow(world));
}
