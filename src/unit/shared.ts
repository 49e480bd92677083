/**
 * Facts that several units share: asked of one, cited by the others for as long as they stand. Two checks share a fact
 * where they ask the same in the same words and with the same figures, say the same rhythm and, but for what is asked of the
 * bench in a shift, stand in the same step.
 */
import { isShared, type SharedRhythm } from '../procedure/rhythm.js';
import type { Route, RouteCheck, RouteStep } from '../procedure/types.js';
import { dayNow } from './day.js';
import type { Cited, EventBody } from './events.js';
import { readingsOfAnswer } from './trace.js';
import type { DecisionContext, SharedFact, StepState } from './types.js';
import type { UnitState } from './unitstate.js';

type Answered = EventBody & { kind: 'answered' };

const keyOf = ({ job, unit, n }: Pick<Cited, 'job' | 'unit' | 'n'>): string => `${job}/${unit}/${n}`;

/**
 * What is asked, in full. Only what is asked of the bench in a shift is the same wherever it is asked; the rest is asked of
 * what its step works on.
 */
function termsOf(check: RouteCheck, { base }: RouteStep, { order }: Route): string {
  const about = check.rhythm === 'shift' ? undefined : `${base}/${check.id.split('/').at(-1)}`;
  // Limits are compared apart: what met more of them meets fewer.
  const {
    id: _,
    rests: _r,
    spot: _s,
    explains: _e,
    accepts: _a,
    alone: _o,
    limits: _l,
    points,
    ...asked
  } = check;
  const ofOrder = check.rhythm === 'job' && order ? [order] : [];
  return JSON.stringify([
    about,
    asked,
    points?.map(({ spot: _p, explains: _x, ...point }) => point),
    ...ofOrder,
  ]);
}

const holdTerms = ({ base, hold }: RouteStep, { order }: Route): string =>
  JSON.stringify([base, hold?.id, hold?.rhythm, ...(hold?.rhythm === 'job' && order ? [order] : [])]);

/** What this unit offers to others: answers of its own that count and pass, and releases of its own. */
export function factsOf({ unit, job, events, steps, route }: UnitState): readonly SharedFact[] {
  const out: SharedFact[] = [];
  for (const { step, checks, released } of steps.values()) {
    const lot = checks.find(({ answered }) => answered?.lot)?.answered?.lot?.code;
    const of = (n: number) => ({ job, unit, n, bench: events[n - 1]!.bench });
    for (const [i, { holds, answered }] of checks.entries()) {
      const check = step.checks[i]!;
      if (!isShared(check.rhythm) || !holds || !answered || answered.cited) continue;
      if (answered.concession !== undefined) continue;
      const { n, at, by, second, answer, verdict, lot: named, evidence, setup } = answered;
      out.push({
        terms: termsOf(check, step, route),
        limits: check.limits,
        from: { ...of(n), at, by, ...(second === undefined ? {} : { second }) },
        ...(setup === undefined ? {} : { setup }),
        ...(lot === undefined ? {} : { lot }),
        answered: {
          answer,
          verdict: verdict as Answered['verdict'],
          ...(named ? { lot: named } : {}),
          ...(evidence.length > 0 ? { evidence: [...evidence] } : {}),
          ...(setup === undefined ? {} : { setup }),
        },
      });
    }
    const event = released && events[released.n - 1];
    if (!isShared(step.hold?.rhythm) || event?.kind !== 'released' || event.cited) continue;
    const setup = checks.find(({ answered }) => answered?.setup)?.answered?.setup;
    out.push({
      terms: holdTerms(step, route),
      limits: [],
      from: { ...of(event.n), at: event.at, by: event.by },
      ...(setup === undefined ? {} : { setup }),
      released: {
        pin: event.pin,
        ...(event.rule === undefined ? {} : { rule: event.rule }),
        ...(event.evidence ? { evidence: event.evidence } : {}),
      },
    });
  }
  return out;
}

/** Keys of the facts that a unit cites. */
export const citesOf = ({ events }: UnitState): readonly string[] =>
  events.flatMap((event) => ('cited' in event && event.cited ? [keyOf(event.cited)] : []));

interface Asking {
  readonly state: UnitState;
  readonly step: RouteStep;
  readonly context: DecisionContext;
}

/** The fact that a check may cite now; undefined if it must be asked. */
export function factFor(
  check: RouteCheck,
  step: StepState,
  asking: Omit<Asking, 'step'>,
): SharedFact | undefined {
  if (!isShared(check.rhythm)) return undefined;
  const at: Asking = { ...asking, step: step.step };
  const lot = check.rhythm === 'lot' ? lotInUse(step, at) : undefined;
  const fact = newest(termsOf(check, step.step, asking.state.route), check.rhythm, check.nth, at, lot);
  return fact && check.limits.every((id) => fact.limits.includes(id)) ? fact : undefined;
}

export function releaseFor(step: RouteStep, asking: Omit<Asking, 'step'>): SharedFact | undefined {
  const rhythm = step.hold?.rhythm;
  return isShared(rhythm)
    ? newest(holdTerms(step, asking.state.route), rhythm, undefined, { ...asking, step })
    : undefined;
}

/** The lot that a step's facts must belong to: the one named in it already, else the one last named elsewhere. */
function lotInUse({ step, checks }: StepState, asking: Asking): string | undefined {
  const named = checks.find(({ answered }) => answered?.lot)?.answered?.lot?.code;
  const check = step.checks.find(({ lot }) => lot !== undefined);
  return named ?? (check && newest(termsOf(check, step, asking.state.route), 'lot', undefined, asking)?.lot);
}

/** @param lot that the fact must belong to, where it is of a lot */
function newest(
  terms: string,
  rhythm: SharedRhythm,
  nth: number | undefined,
  asking: Asking,
  lot?: string,
): SharedFact | undefined {
  const { state, context } = asking;
  const shop = context.shared?.facts ?? [];
  // Of the unit at hand, the state is newer than what the shop knew of it.
  const others = shop.filter(({ from }) => from.job !== state.job || from.unit !== state.unit);
  return [...others, ...factsOf(state)]
    .filter((fact) => fact.terms === terms && (lot === undefined || fact.lot === lot))
    .filter((fact) => stands(fact, rhythm, nth, asking))
    .reduce<SharedFact | undefined>(
      (last, fact) => (last && last.from.at > fact.from.at ? last : fact),
      undefined,
    );
}

function stands(
  { from, setup, lot, answered }: SharedFact,
  rhythm: SharedRhythm,
  nth: number | undefined,
  { state, step, context }: Asking,
): boolean {
  const expires = answered?.lot?.expires;
  if (lot !== undefined && context.snagged?.lots.includes(lot)) return false;
  if (expires !== undefined && expires < dayNow(context)) return false;
  // What was measured with an instrument that was taken out of use is measured again.
  const isListed = (instrument: string | undefined): boolean =>
    instrument === undefined || context.instruments.some(({ id }) => id === instrument);
  if (answered && !readingsOfAnswer(answered.answer).every((reading) => isListed(reading.instrument)))
    return false;
  const since = Date.parse(context.now) - Date.parse(from.at);
  const inShift = from.bench === context.bench && since < context.workshop.shiftMinutes * 60_000;
  const valid = step.setup === undefined ? undefined : context.setups?.[step.setup]?.id;
  const sameSetup = setup === valid;
  const inBatch = inShift && sameSetup && from.job === state.job;
  switch (rhythm) {
    case 'job':
      return from.job === state.job;
    case 'shift':
      return inShift;
    case 'first-off':
      return sameSetup && (setup !== undefined || inShift);
    case 'batch':
      return inBatch;
    case 'nth':
      return inBatch && (context.shared?.cites.get(keyOf(from)) ?? 0) < (nth ?? 1) - 1;
    case 'lot':
      return true;
  }
}
