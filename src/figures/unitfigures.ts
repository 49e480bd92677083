/** What one unit adds to the figures over many: its readings, its steps, what failed and where its time went. */
import type { JournalEvent } from '../unit/events.js';
import type { UnitState } from '../unit/unitstate.js';
import { firstAnswer, type KindOfLimit, readingsOfUnit, titleOf, type UnitReading } from './readings.js';

export interface UnitFigures {
  readonly job: string;
  readonly unit: string;
  /** Name of its profile set. */
  readonly set: string;
  readonly finished: boolean;
  /** Every first answer passed, without a snag and without work done again. */
  readonly whole: boolean;
  readonly lots: readonly { readonly code: string; readonly at: string }[];
  readonly measured: readonly UnitReading[];
  /** Steps whose checks all have an answer. */
  readonly steps: readonly StepDone[];
  readonly failures: readonly Trouble[];
  readonly causes: readonly Trouble[];
  readonly times: readonly StepTimed[];
}

interface StepDone {
  readonly step: string;
  readonly title: string;
  readonly right: boolean;
  /** Of its last first answer. */
  readonly at: string;
}

interface Trouble {
  readonly what: string;
  /** Until it was right; undefined while it is not. */
  readonly hours: number | undefined;
  readonly parts: number;
}

interface StepTimed {
  readonly step: string;
  readonly title: string;
  /** Minutes. */
  readonly work: number;
  readonly waiting: number;
}

const HOUR = 3_600_000;
/** Two answers farther apart than this are not one piece of work. */
const PAUSE_MINUTES = 30;

export function unitFigures(state: UnitState, kindOf: KindOfLimit): UnitFigures {
  const opened = state.events.find((event) => event.kind === 'opened');
  const byLine = new Map(state.events.map((event) => [event.n, event]));
  const again = new Set(state.events.flatMap((event) => (event.kind === 'reworked' ? [event.step] : [])));
  const snagged = new Set(
    state.snags.flatMap(({ raised }) => (raised.step === undefined ? [] : [raised.step])),
  );
  let whole = state.snags.length === 0 && again.size === 0;
  const steps: StepDone[] = [];
  const failures: Trouble[] = [];
  for (const { step, checks } of state.steps.values()) {
    let [passed, at] = [true, ''];
    let answers = 0;
    for (const check of checks) {
      const first = firstAnswer(check, byLine);
      if (!first) continue;
      answers += 1;
      if (first.at > at) at = first.at;
      if (first.verdict.outcome === 'pass') continue;
      passed = false;
      const { answered } = check;
      const mended = answered && answered.n > first.n && answered.verdict.outcome === 'pass';
      failures.push({
        what: `${step.base}/${check.id.slice(check.id.lastIndexOf('/') + 1)}`,
        hours: mended ? hoursBetween(first.at, answered.at) : undefined,
        parts: 0,
      });
    }
    if (!passed) whole = false;
    // A step whose checks were all cited, or that asks nothing, says nothing here.
    const open = checks.some(({ answered, earlier }) => !answered && earlier.length === 0);
    if (answers > 0 && !open)
      steps.push({
        step: step.base,
        title: titleOf(step),
        right: passed && !again.has(step.id) && !snagged.has(step.id),
        at,
      });
  }
  return {
    job: state.job,
    unit: state.unit,
    set: opened?.kind === 'opened' ? opened.profileSet : '',
    finished: state.finished,
    whole,
    lots: state.events.flatMap((event) =>
      event.kind === 'answered' && event.lot ? [{ code: event.lot.code, at: event.at }] : [],
    ),
    measured: readingsOfUnit(state, kindOf),
    steps,
    failures,
    causes: state.snags.map(({ raised, decided, closed }) => ({
      what: raised.cause,
      hours: closed ? hoursBetween(raised.at, closed.at) : undefined,
      parts: decided?.disposition === 'scrap' ? 1 : 0,
    })),
    times: timesIn(state),
  };
}

const hoursBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / HOUR;

function timesIn(state: UnitState): StepTimed[] {
  const own = new Map<string, { step: string; title: string; work: number; waiting: number }>();
  let before: string | undefined;
  for (const event of state.events) {
    const step = stepIn(event, state);
    if (!step) continue;
    const minutes = before === undefined ? 0 : hoursBetween(before, event.at) * 60;
    before = event.at;
    const of = own.get(step.id) ?? { step: step.base, title: titleOf(step), work: 0, waiting: 0 };
    own.set(step.id, of);
    if (minutes > PAUSE_MINUTES) of.waiting += minutes;
    else of.work += minutes;
  }
  return [...own.values()];
}

function stepIn(event: JournalEvent, { steps }: UnitState) {
  return event.kind === 'answered' || event.kind === 'read' || event.kind === 'released'
    ? steps.get(event.step)?.step
    : undefined;
}
