/**
 * Set-ups: a saw, punch or jig proven on first-off pieces. They belong to the workshop, not to a unit, and have their
 * own journal (same events and chain). A first-off is valid until the shift ends, the blade or tool is changed,
 * something is knocked, a set time or number of uses has passed, or a later first-off fails.
 */
import { utcText } from '../base/wallclock.js';
import { isOverdue } from '../measure/instruments.js';
import type { RouteCheck } from '../procedure/types.js';
import { wantedBy } from '../procedure/wanted.js';
import { dayNow } from './day.js';
import type { EventBody, JournalEvent, setupEnds } from './events.js';
import { type FirstOff, firstOffId } from './firstoff.js';
import { instrumentFor } from './inhand.js';
import { judge, type Value } from './judge.js';
import { unitProblem } from './messages.js';
import { ALONE, atBench, levelProblem } from './people.js';
import { iso } from './timers.js';
import { type TracedUnit, type TraceRow, traceUnits } from './trace.js';
import type { Decision, DecisionContext, Question, ValidSetup } from './types.js';
import { unitSays, unitWords } from './words.js';

export interface SetupRule {
  /** The name steps refer to: `saw`, `punch`. */
  readonly id: string;
  readonly title: string;
  /** First-off checks, as route checks; ids look like `setup.saw/mitre`. */
  readonly checks: readonly RouteCheck[];
  /** Longest validity in minutes (a shift) and in uses; absent if only an event ends it. */
  readonly minutes?: number;
  readonly uses?: number;
  /** Stage whose levels decide who may prove it; defaults to `all`. */
  readonly stage?: string;
}

export interface SetupStanding {
  readonly rule: SetupRule;
  /** Id of the current first-off: `saw-12`. */
  readonly id?: string;
  readonly valid: boolean;
  /** One sentence: valid since and until when, or why not valid. */
  readonly because: string;
  readonly uses: number;
  readonly until?: string;
  /** Its current first-off, passed or not. */
  readonly firstOff?: FirstOff;
}

/** The standing of each set-up. `uses` counts steps done under each set-up id (see `usesOf`). */
export function setupStandings(
  rules: readonly SetupRule[],
  events: readonly JournalEvent[],
  uses: ReadonlyMap<string, number>,
  now: string,
): SetupStanding[] {
  return rules.map((rule) => {
    let last: FirstOff | undefined;
    let ended: string | undefined;
    for (const event of events) {
      if (event.kind === 'first-off' && event.setup === rule.id) {
        last = event;
        ended = event.passed ? undefined : unitSays('ended-failed');
      } else if (event.kind === 'setup-ended' && event.setup === rule.id)
        ended = unitSays(`ended-${event.why}`);
    }
    if (!last)
      return { rule, valid: false, because: unitSays('first-off-none', { setup: rule.title }), uses: 0 };
    const id = firstOffId(last);
    const used = uses.get(id) ?? 0;
    const until = rule.minutes === undefined ? undefined : iso(Date.parse(last.at) + rule.minutes * 60_000);
    if (ended === undefined && until !== undefined && now >= until)
      ended = unitSays('ended-minutes', { minutes: String(rule.minutes) });
    if (ended === undefined && rule.uses !== undefined && used >= rule.uses)
      ended = unitSays('ended-uses', { uses: String(used) });
    const holds = ended === undefined;
    return {
      rule,
      id,
      valid: holds,
      because: holds
        ? unitSays('first-off-proven', { setup: rule.title, at: utcText(last.at), by: last.by })
        : unitSays('first-off-ended', { setup: rule.title, why: ended!, id }),
      uses: used,
      ...(until === undefined ? {} : { until }),
      firstOff: last,
    };
  });
}

export const validSetups = (
  standings: readonly SetupStanding[],
): Readonly<Record<string, ValidSetup | undefined>> =>
  Object.fromEntries(
    standings.map(({ rule, id, valid, firstOff }) => [
      rule.id,
      valid && id !== undefined ? { id, ...(firstOff ? { firstOff } : {}) } : undefined,
    ]),
  );

/** A first-off: all its checks at once, judged like step checks; it passes if all of them pass. */
export function decideFirstOff(
  rule: SetupRule,
  values: Readonly<Record<string, Value>>,
  context: DecisionContext,
  options: {
    readonly confirmed?: boolean;
    readonly note?: string;
    readonly with?: Readonly<Record<string, string>>;
  } = {},
): Decision {
  const found = atBench(context);
  if ('problem' in found) return { kind: 'refused', problem: found.problem };
  const level = levelProblem(
    found.person,
    rule.stage ?? 'all',
    ALONE,
    unitWords('act-prove', { setup: rule.title }),
    context,
  );
  if (level) return { kind: 'refused', problem: level };
  const checks: (EventBody & { kind: 'first-off' })['checks'] = [];
  for (const check of rule.checks) {
    const value = values[check.id];
    if (value === undefined)
      return {
        kind: 'refused',
        problem: unitProblem('build.check-order', { check: check.id }),
      };
    const wanted = wantedBy(check);
    const found = wanted && instrumentFor(check, wanted, options.with?.[check.id], context);
    if (found && 'problem' in found) return { kind: 'refused', problem: found.problem };
    const instrument = found?.instrument;
    if (instrument && isOverdue(instrument, dayNow(context)))
      return {
        kind: 'refused',
        problem: unitProblem('build.instrument-overdue/was', {
          instrument: instrument.id,
          due: instrument.due!,
        }),
      };
    const judged = judge({ check, value, confirmed: options.confirmed ?? false, instrument, context });
    if (judged.kind !== 'answer') return judged as { kind: 'ask'; question: Question } & Decision;
    checks.push({ check: check.id, answer: judged.answer, verdict: judged.verdict as never });
  }
  const passed = checks.every(({ verdict }) => verdict.outcome === 'pass');
  const { note } = options;
  return {
    kind: 'events',
    by: found.person.id,
    events: [{ kind: 'first-off', setup: rule.id, checks, passed, ...(note === undefined ? {} : { note }) }],
  };
}

/** Blade changed, shift ended, something knocked: anybody at the bench may report it. */
export function decideSetupEnd(
  rule: SetupRule,
  why: (typeof setupEnds)[number],
  context: DecisionContext,
  note?: string,
): Decision {
  const found = atBench(context);
  if ('problem' in found) return { kind: 'refused', problem: found.problem };
  return {
    kind: 'events',
    by: found.person.id,
    events: [{ kind: 'setup-ended', setup: rule.id, why, ...(note === undefined ? {} : { note }) }],
  };
}

export interface InDoubt {
  readonly failed: string;
  readonly lastGood: string | undefined;
  /** Everything done under the set-up since the last good first-off. */
  readonly rows: readonly TraceRow[];
  readonly units: readonly string[];
  /** JOB/UNIT of those already snagged for the last good first-off. */
  readonly snagged: readonly string[];
}

/** If a set-up's last first-off failed: what was made since the last good one. Undefined if it did not fail. */
export function unitsInDoubt(
  setup: string,
  events: readonly JournalEvent[],
  units: readonly TracedUnit[],
): InDoubt | undefined {
  const own = events.filter(
    (event): event is FirstOff => event.kind === 'first-off' && event.setup === setup,
  );
  const last = own.at(-1);
  if (!last || last.passed) return undefined;
  const good = own.findLast((event) => event.passed);
  const lastGood = good && firstOffId(good);
  const rows = lastGood === undefined ? [] : traceUnits(units, { setup: lastGood });
  return {
    failed: firstOffId(last),
    lastGood,
    rows,
    units: [...new Set(rows.map(({ unit }) => unit))],
    snagged: units
      .filter(({ events: own }) =>
        own.some((event) => event.kind === 'snag-raised' && event.touches.setup === lastGood && lastGood),
      )
      .map(({ job, unit }) => `${job}/${unit}`),
  };
}

/** JOB/UNIT of the units in doubt that are not snagged yet. */
export const toBeSnagged = ({ rows, snagged }: InDoubt): readonly string[] =>
  [...new Set(rows.map(({ job, unit }) => `${job}/${unit}`))].filter((key) => !snagged.includes(key));
