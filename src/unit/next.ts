/** The bench's position: current check, open steps, and what a rework would re-open. */
import type { EventBody, JournalEvent } from './events.js';
import type { FoldState } from './foldstate.js';
import { type Reopened, restingOn } from './graph.js';
import { replacementOf } from './replacement.js';
import type { StepState } from './types.js';
import type { UnitState } from './unitstate.js';

export interface AtHand {
  readonly step: string;
  readonly check: string;
}

/**
 * The check to answer now, or undefined if none is open: at the step last worked on; else what a running open time waits
 * for; else of its stage, else the first in walking order, leaving a hold that others can soon join for one release until
 * they can. `among` limits it to one step (a jump).
 */
export function nextCheck(state: UnitState, among?: string): AtHand | undefined {
  if (state.scrapped || state.finished || state.parked) return undefined;
  if (among !== undefined) return firstCheck(state.steps.get(among));
  const last = state.steps.get(lastStep(state) ?? '');
  const same = firstCheck(last);
  if (same) return same;
  const open = [...state.steps.values()].filter((step) => firstCheck(step));
  const urgent = open.length > 1 ? pressing(state) : undefined;
  const sooner = [
    (step: StepState) => urgent?.has(step.step.id) === true,
    (step: StepState) => step.step.stage === last?.step.stage && !isJoinedLater(state, step),
    (step: StepState) => !isJoinedLater(state, step),
  ];
  const found = sooner.reduce<StepState | undefined>((at, is) => at ?? open.find(is), undefined) ?? open[0];
  return firstCheck(found);
}

/** Steps that a running open time waits for, and all that comes before them. */
function pressing({ timers, derived }: UnitState): ReadonlySet<string> {
  const found = new Set(timers.filter(({ kind }) => kind === 'not-after').map(({ step }) => step));
  for (const id of found) {
    const node = derived.marks.graph.nodes.get(id)!;
    for (const link of node.restsOn) found.add(link.step);
    for (const step of node.earlier) found.add(step.id);
  }
  return found;
}

/** Whether another step of the same hold, which does not come after this one, cannot be done yet. */
function isJoinedLater(state: UnitState, at: StepState): boolean {
  return at.status === 'ready' && alike(state, at).some(({ status }) => status === 'waiting');
}

/** Whether a held step is released now: nothing that one walk could release with it is still to be done. */
export function isToBeReleased(state: UnitState, at: StepState): boolean {
  if (at.status !== 'held') return false;
  const isOut = ({ status }: StepState) => status !== 'done' && status !== 'held';
  return !alike(state, at).some(isOut) || nextCheck(state) === undefined;
}

/** The other held steps that are released with this one, in one walk. */
export function walkOf(state: UnitState, step: string): StepState[] {
  const at = state.steps.get(step);
  return at ? alike(state, at).filter(({ status }) => status === 'held') : [];
}

/** Steps that the same hold holds, which one person goes through in one walk; none that must come after this one. */
function alike({ steps, route, derived }: UnitState, { step }: StepState): StepState[] {
  const { hold } = step;
  if (!hold || hold.release === 'checks') return [];
  const after = new Set(restingOn(route, step.id).map((each) => each.step));
  const isLater = (other: StepState) =>
    after.has(other.step.id) ||
    derived.marks.graph.nodes.get(other.step.id)!.stagesBefore.some(({ id }) => id === step.stage);
  return [...steps.values()].filter(
    (other) => other.step.id !== step.id && other.step.hold?.id === hold.id && !isLater(other),
  );
}

/** In walking order. */
export function openSteps(state: UnitState): StepState[] {
  if (state.scrapped || state.finished || state.parked) return [];
  return [...state.steps.values()].filter((step) => step.open);
}

/** Steps whose checks all pass and whose hold awaits release, in walking order. */
export function heldSteps(state: UnitState): StepState[] {
  return [...state.steps.values()].filter((step) => step.status === 'held');
}

/** Step of the last answer, reading, release, rework or correction. */
export const lastStep = (state: UnitState): string | undefined => state.derived.marks.lastStep;

function firstCheck(step: StepState | undefined): AtHand | undefined {
  if (!step?.open) return undefined;
  const check = step.checks.find((each) => !each.holds);
  return check && { step: step.step.id, check: check.id };
}

/** What reworking a step would re-open now, and why: only steps already begun. */
export function wouldReopen(state: UnitState, stepId: string): Reopened[] {
  return restingOn(state.route, stepId).filter(({ step, checks }) => {
    const at = state.steps.get(step);
    if (at?.madeAt === undefined) return false;
    return !checks || at.checks.some((check) => checks.includes(check.id) && check.answered);
  });
}

// Recovery from torn writes: the state tells which event a power cut lost at the end of one decision.

/** The event missing at the end, if any: `finished` for a complete unit, `scrapped` after a scrap decision. */
export function missingEnd(state: UnitState): EventBody | undefined {
  if (state.scrapped || state.finished) return undefined;
  const scrap = state.snags.find(({ open, decided }) => open && decided?.disposition === 'scrap');
  if (scrap)
    return { kind: 'scrapped', reason: scrap.decided!.reason, replacement: replacementOf(state.unit) };
  const steps = state.route.steps.length;
  const complete =
    state.done === steps &&
    !state.parked &&
    state.orderProblems.length === 0 &&
    state.snags.every(({ open }) => !open);
  if (!complete) return undefined;
  const checks = state.route.steps.reduce((sum, step) => sum + step.checks.length, 0);
  return { kind: 'finished', steps, checks };
}

// Undoing the last answer, reading or release: recorded as a correction with a reason, never erased.

type Undoable = JournalEvent & { readonly kind: 'answered' | 'read' | 'released' };

/** The entry that taking back takes next: the form that asks shows this one, and `undo` decides by it. */
export function lastUndoable(
  marks: FoldState,
): { readonly last: Undoable; readonly stage: string } | undefined {
  const corrected = new Set<number>();
  const completed = new Set<string>();
  for (let i = marks.events.length - 1; i >= 0; i--) {
    const event = marks.events[i]!;
    if (event.kind === 'corrected') corrected.add(event.of);
    // Readings before a set was begun anew are gone with it.
    if (event.kind === 'set-begun') completed.add(event.check);
    if (event.kind !== 'answered' && event.kind !== 'read' && event.kind !== 'released') continue;
    const node = marks.graph.nodes.get(event.step);
    if (!node) continue;
    // An answer absorbed the single readings of its set, even if it was later corrected.
    if (event.kind === 'answered') completed.add(event.check);
    if (event.kind === 'read' && completed.has(event.check)) continue;
    if (!corrected.has(event.n)) return { last: event, stage: node.step.stage };
  }
  return undefined;
}
