/** The rows of a unit's work lists, with which are done: a row is done when every step that makes it is. */
import { claimedMarks } from '../window/claims.js';
import type { Mark, SetOut } from '../window/types.js';
import { WORK_LISTS, type WorkList, type WorkRow, workRows } from '../window/worklists.js';
import type { StepState } from './types.js';
import type { UnitState } from './unitstate.js';

export interface ListedRow extends WorkRow {
  /** Undefined where no step of the procedure says that it makes it. */
  readonly done?: boolean;
}

/** @param state undefined for a unit that was not begun */
export function listedRows(list: WorkList, setOut: SetOut, state: UnitState | undefined): ListedRow[] {
  if (!state) return workRows(list, setOut).map((row) => ({ ...row, done: false }));
  const steps = [...state.steps.values()];
  const makers = list === 'machining' ? markMakers(steps, setOut) : undefined;
  return workRows(list, setOut).map((row) => {
    const by = makers
      ? new Set((row.marks ?? []).flatMap((mark) => makers.get(mark) ?? []))
      : steps.filter(({ step }) => (step.list ?? []).some((claim) => isOf(claim, list, row, step.item)));
    const all = [...by];
    return all.length === 0 ? row : { ...row, done: all.every(({ status }) => status === 'done') };
  });
}

/** The rows that a step makes, list by list; what it marks comes first. */
export function rowsOfStep({ step }: StepState, setOut: SetOut): { list: WorkList; rows: WorkRow[] }[] {
  const marks = new Set(claimedMarks(setOut, step.marks ?? [], step.item).map(({ mark }) => mark));
  return listsOf(step).map((list) => ({
    list,
    rows: workRows(list, setOut).filter((row) =>
      list === 'machining'
        ? row.marks?.some((mark) => marks.has(mark))
        : (step.list ?? []).some((claim) => isOf(claim, list, row, step.item)),
    ),
  }));
}

/** The lists that a step works on. */
export function listsOf({ marks = [], list = [] }: StepState['step']): WorkList[] {
  const named = new Set<string>(list.map((claim) => claim.split('/')[0]!));
  if (marks.length > 0) named.add('machining');
  return WORK_LISTS.filter((each) => named.has(each));
}

function isOf(claim: string, list: WorkList, row: WorkRow, item: string | undefined): boolean {
  const [of, role = ''] = claim.split('/');
  return of === list && row.role.startsWith(role) && (item === undefined || row.item === item);
}

function markMakers(steps: readonly StepState[], setOut: SetOut): Map<Mark, StepState[]> {
  const makers = new Map<Mark, StepState[]>();
  for (const each of steps)
    for (const { mark } of claimedMarks(setOut, each.step.marks ?? [], each.step.item))
      makers.set(mark, [...(makers.get(mark) ?? []), each]);
  return makers;
}
