/**
 * Accumulated marks of the events, before anything is judged: when each step was made, and each check's answers in
 * order. Events are applied one by one; copying for a later state is cheap because only the records an event touches
 * are cloned (each record knows which copy owns it).
 */
import type { Problem } from '../base/problem.js';
import type { Reading } from '../measure/types.js';
import type { Route } from '../procedure/types.js';
import { type Basis, basisAfter, type JournalEvent } from './events.js';
import { type Graph, graphOf, type StepNode } from './graph.js';
import type { CheckState } from './types.js';

type AnsweredEvent = JournalEvent & { readonly kind: 'answered' };
type ReleasedEvent = JournalEvent & { readonly kind: 'released' };
type EarlierWhy = 'corrected' | 'superseded' | 'reworked' | 'stale';

export interface AnswerMark {
  readonly event: AnsweredEvent;
  /** Sum of the clock jumps so far, ms; see `timeOf`. */
  readonly shift: number;
  /** Why it no longer counts; absent while it may. */
  readonly why?: EarlierWhy;
}

interface Owned {
  owner: object;
}

export interface CheckMarks extends Owned {
  answers: AnswerMark[];
  /** Readings of a set that is not settled, in order; `replaces` as in the event. */
  reads: {
    readonly n: number;
    readonly key: string;
    readonly reading: Reading;
    readonly replaces?: number | undefined;
  }[];
  /** The check state that stale.ts cached for this record; cleared whenever the record changes. */
  shown?:
    | {
        readonly fresh: boolean;
        readonly holds: boolean;
        readonly concession: number | undefined;
        readonly state: CheckState;
      }
    | undefined;
}

export interface StepMarks extends Owned {
  madeAt: number;
  madeTime: number;
  checks: Map<string, CheckMarks>;
  release?: ReleasedEvent | undefined;
}

interface SnagMarks {
  readonly raised: JournalEvent & { readonly kind: 'snag-raised' };
  readonly decided?: JournalEvent & { readonly kind: 'snag-decided' };
  readonly closed?: JournalEvent & { readonly kind: 'snag-closed' };
  /** concession: n of the failed answer it accepts. */
  readonly concedes?: number;
}

export interface FoldState {
  readonly route: Route;
  readonly graph: Graph;
  readonly problems: readonly Problem[];
  owner: object;
  events: JournalEvent[];
  unit: string;
  job: string;
  opened: boolean;
  basis: Basis;
  /** Steps that the last revision re-opened, and why. */
  revised: { readonly n: number; readonly because: Readonly<Record<string, readonly string[]>> } | undefined;
  steps: Map<string, StepMarks>;
  snags: Map<number, SnagMarks>;
  overridden: readonly { readonly problem: string; readonly text: string }[];
  parked: boolean;
  finishedAt: number | undefined;
  scrapped: string | undefined;
  /** Sum of the noticed wall-clock jumps, ms: wall time minus this is steady time. */
  shift: number;
  /** Step last worked on, where the bench resumes. */
  lastStep: string | undefined;
  lastRework: number;
  lastDecision: number;
}

export function emptyMarks(route: Route, problems: readonly Problem[]): FoldState {
  return {
    route,
    graph: graphOf(route),
    problems,
    owner: {},
    events: [],
    unit: route.unit,
    job: '',
    opened: false,
    basis: {},
    revised: undefined,
    steps: new Map(),
    snags: new Map(),
    overridden: [],
    parked: false,
    finishedAt: undefined,
    scrapped: undefined,
    shift: 0,
    lastStep: undefined,
    lastRework: 0,
    lastDecision: 0,
  };
}

/** A copy to which events can be added without affecting the original. */
export const copyMarks = (marks: FoldState): FoldState => ({
  ...marks,
  owner: {},
  events: marks.events.slice(),
  steps: new Map(marks.steps),
  snags: new Map(marks.snags),
});

/** The answer that counts within its own step; stale.ts decides whether its dependencies make it stale. */
export function currentAnswer(check: CheckMarks | undefined): AnswerMark | undefined {
  const last = check?.answers.findLast((mark) => mark.why !== 'corrected');
  return last && last.why === undefined ? last : undefined;
}

/** Time of an answer on the steady scale (clock jumps removed), ms. Computed only when a timer needs it. */
export const timeOf = ({ event, shift }: AnswerMark): number => Date.parse(event.at) - shift;

/** Applies one event. Events for steps not in the route only extend the event list. */
export function applyEvent(marks: FoldState, event: JournalEvent): void {
  marks.events.push(event);
  if (event.basis) marks.basis = basisAfter(marks.basis, event);
  switch (event.kind) {
    case 'opened':
      marks.unit = event.unit;
      marks.job = event.job;
      marks.opened = true;
      return;
    case 'overridden':
      marks.overridden = [...marks.overridden, { problem: event.problem, text: event.text }];
      return;
    case 'began':
      make(marks, event.step, event, 'stale');
      return;
    case 'reworked':
      make(marks, event.step, event, 'reworked');
      marks.lastRework = event.n;
      marks.finishedAt = undefined;
      return;
    case 'revised':
      for (const step of event.changed) if (marks.steps.has(step)) make(marks, step, event, 'stale');
      for (const step of event.again ?? []) askAgain(marks, step, event);
      marks.revised = { n: event.n, because: event.because ?? {} };
      marks.lastRework = event.n;
      marks.finishedAt = undefined;
      return;
    case 'answered':
      answer(marks, event);
      return;
    case 'read': {
      const check = checkMarks(marks, event.step, event.check, event);
      check?.reads.push({
        n: event.n,
        key: event.key,
        reading: event.reading as Reading,
        replaces: event.replaces,
      });
      return;
    }
    case 'set-begun': {
      const check = checkMarks(marks, event.step, event.check, event);
      if (check) check.reads = [];
      return;
    }
    case 'released': {
      const step = own(marks, event.step, event);
      if (step) step.release = event;
      // A step that asks nothing is made by its release, so that what rests on it follows.
      const asked = marks.graph.nodes.get(event.step)?.step.checks.some(({ kind }) => kind !== 'computed');
      if (step && asked === false) {
        step.madeAt = event.n;
        step.madeTime = Date.parse(event.at) - marks.shift;
      }
      marks.lastStep = event.step;
      return;
    }
    case 'corrected':
      correct(marks, event.of);
      marks.finishedAt = undefined;
      return;
    case 'snag-raised':
      marks.snags.set(event.n, { raised: event });
      marks.finishedAt = undefined;
      return;
    case 'snag-decided':
      decideSnag(marks, event);
      marks.lastDecision = event.n;
      return;
    case 'snag-closed': {
      const snag = marks.snags.get(event.snag);
      if (snag) marks.snags.set(event.snag, { ...snag, closed: event });
      return;
    }
    case 'parked':
      marks.parked = true;
      return;
    case 'resumed':
      marks.parked = false;
      return;
    case 'clock-jumped':
      marks.shift += Date.parse(event.to) - Date.parse(event.from);
      return;
    case 'scrapped':
      marks.scrapped = event.replacement;
      return;
    case 'finished':
      marks.finishedAt = event.n;
      return;
    // Notes, seals and set-up events do not change the unit's state.
    case 'noted':
    case 'second-confirmed':
    case 'sealed':
    case 'first-off':
    case 'setup-ended':
      return;
  }
}

/** The step is made from this event on; earlier answers no longer count. */
function make(marks: FoldState, id: string, event: JournalEvent, why: EarlierWhy): void {
  const step = own(marks, id, event);
  if (!step) return;
  step.madeAt = event.n;
  step.madeTime = Date.parse(event.at) - marks.shift;
  for (const checkId of step.checks.keys()) {
    const check = checkMarks(marks, id, checkId, event)!;
    retire(check, why);
    if (check.reads.length > 0) check.reads = [];
  }
  marks.lastStep = id;
}

/** The step stays made, so that nothing that rests on it is to be made again; its answers and release no longer count. */
function askAgain(marks: FoldState, id: string, event: JournalEvent): void {
  const step = own(marks, id);
  if (!step) return;
  for (const check of step.checks.keys()) {
    const found = checkMarks(marks, id, check, event)!;
    retire(found, 'stale');
    if (found.reads.length > 0) found.reads = [];
  }
  step.release = undefined;
}

function answer(marks: FoldState, event: AnsweredEvent): void {
  const check = checkMarks(marks, event.step, event.check, event);
  if (!check) return;
  const node = marks.graph.nodes.get(event.step)!;
  const now = currentAnswer(check);
  if (now) retire(check, freshSince(marks, node, event.check, now.event.n) ? 'superseded' : 'stale');
  check.answers.push({ event, shift: marks.shift });
  check.reads = event.verdict.outcome === 'pass' ? [] : setRead(event);
}

/** The readings of a set, so that one of them can be taken again. Before version 2 an answer ended its set. */
function setRead({ v, n, answer }: AnsweredEvent): CheckMarks['reads'] {
  if (v < 2 || (answer.kind !== 'square' && answer.kind !== 'points')) return [];
  return Object.entries(answer.readings).flatMap(([key, readings]) =>
    readings.map((reading) => ({ n, key, reading: reading as Reading })),
  );
}

/** Whether nothing the check or its step depends on was made after event `n`. */
function freshSince(marks: FoldState, node: StepNode, check: string, n: number): boolean {
  const index = marks.graph.checks.get(check)!.index;
  const later = (link: { step: string }) => (marks.steps.get(link.step)?.madeAt ?? 0) > n;
  return !node.restsOn.some(later) && !node.checkRestsOn[index]!.some(later);
}

/** Only the last uncorrected answer can still count. */
function retire(check: CheckMarks, why: EarlierWhy): void {
  let i = check.answers.length - 1;
  while (i >= 0 && check.answers[i]!.why === 'corrected') i -= 1;
  const mark = check.answers[i];
  if (!mark || mark.why !== undefined) return;
  check.answers[i] = { event: mark.event, shift: mark.shift, why };
  check.shown = undefined;
}

function correct(marks: FoldState, of: number): void {
  const event = eventAt(marks.events, of);
  if (event?.kind === 'answered') {
    const check = checkMarks(marks, event.step, event.check, event);
    if (!check) return;
    const i = check.answers.findIndex((mark) => mark.event.n === of);
    check.answers[i] = { ...check.answers[i]!, why: 'corrected' };
    check.reads = setRead(event);
    // The answer that the corrected one had superseded counts again.
    const before = check.answers.findLastIndex((mark, at) => at < i && mark.why !== 'corrected');
    if (before >= 0 && check.answers[before]!.why === 'superseded') {
      const { event: kept, shift } = check.answers[before]!;
      check.answers[before] = { event: kept, shift };
    }
    marks.lastStep = event.step;
  } else if (event?.kind === 'read') {
    const check = checkMarks(marks, event.step, event.check, event);
    if (check) check.reads = check.reads.filter((read) => read.n !== of);
    marks.lastStep = event.step;
  } else if (event?.kind === 'released') {
    const step = own(marks, event.step);
    if (step?.release?.n === of) step.release = undefined;
    marks.lastStep = event.step;
  }
}

function decideSnag(marks: FoldState, event: JournalEvent & { readonly kind: 'snag-decided' }): void {
  const snag = marks.snags.get(event.snag);
  if (!snag) return;
  const { check } = snag.raised;
  const step = check === undefined ? undefined : marks.graph.checks.get(check)?.node.step.id;
  const failed =
    event.disposition === 'concession' && check !== undefined && step !== undefined
      ? currentAnswer(marks.steps.get(step)?.checks.get(check))
      : undefined;
  const { concedes: _before, ...rest } = snag;
  marks.snags.set(event.snag, {
    ...rest,
    decided: event,
    ...(failed ? { concedes: failed.event.n } : {}),
  });
}

/** Journals are numbered 1, 2, 3 …, so event `n` is nearly always at index n - 1. */
function eventAt(events: readonly JournalEvent[], n: number): JournalEvent | undefined {
  const guess = events[n - 1];
  return guess?.n === n ? guess : events.find((event) => event.n === n);
}

/** The step's record, cloned if another copy owns it. With `event`, creates the step if it is not made yet. */
function own(marks: FoldState, id: string, event?: JournalEvent): StepMarks | undefined {
  let step = marks.steps.get(id);
  if (step === undefined) {
    if (!event || !marks.graph.nodes.has(id)) return undefined;
    step = {
      owner: marks.owner,
      madeAt: event.n,
      madeTime: Date.parse(event.at) - marks.shift,
      checks: new Map(),
    };
    marks.steps.set(id, step);
  } else if (step.owner !== marks.owner) {
    step = { ...step, owner: marks.owner, checks: new Map(step.checks) };
    marks.steps.set(id, step);
  }
  return step;
}

function checkMarks(
  marks: FoldState,
  stepId: string,
  id: string,
  event: JournalEvent,
): CheckMarks | undefined {
  if (marks.graph.checks.get(id)?.node.step.id !== stepId) return undefined;
  const step = own(marks, stepId, event)!;
  marks.lastStep = stepId;
  let check = step.checks.get(id);
  if (check === undefined) {
    check = { owner: marks.owner, answers: [], reads: [] };
    step.checks.set(id, check);
  } else if (check.owner !== marks.owner) {
    check = { owner: marks.owner, answers: check.answers.slice(), reads: check.reads.slice() };
    step.checks.set(id, check);
  }
  check.shown = undefined;
  return check;
}
