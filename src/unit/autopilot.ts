/** Drives a unit through its route with passing answers (demo and tests); decided like a person's actions. */
import { foreseenU, wouldDo, zoneOf } from '../measure/fitness.js';
import { bandFor, type LimitBand, type LimitsFile } from '../measure/limits.js';
import { nominalOf } from '../measure/square.js';
import { type Instrument, SQUARE_KEYS } from '../measure/types.js';
import type { RouteCheck } from '../procedure/types.js';
import { limitsOf, wantedBy } from '../procedure/wanted.js';
import type { Action } from './actions.js';
import { dayNow } from './day.js';
import { decide } from './decide.js';
import { asOf } from './fold.js';
import { firstStage } from './graph.js';
import { citing } from './handlers/cite.js';
import { lookAt } from './looks.js';
import { heldSteps, isToBeReleased, missingEnd, nextCheck, walkOf } from './next.js';
import { ALONE, isValid, levelOf, RELEASES } from './people.js';
import type { DecisionContext, Level, Person, StepState } from './types.js';
import type { UnitState } from './unitstate.js';

export interface DriverOptions {
  readonly pins?: Readonly<Record<string, string>>;
  /** Name of a stored evidence file (a key of `DecisionContext.evidence`), used where evidence is required. */
  readonly evidence?: string;
  /** The unit being built, as job and unit, so that pieces of two units get different numbers. */
  readonly unit?: string;
  /** The one step that is walked, on this unit and others. */
  readonly at?: string;
  /** Whether what other units were asked may be taken over at a step, where the caller knows better than the context. */
  readonly cites?: (step: string) => boolean;
  /** By material; derived from its name where absent. */
  readonly lots?: Readonly<Record<string, string>>;
}

export type DriverMove =
  | { readonly kind: 'act'; readonly action: Action }
  /** Nothing can be done before this time: something is curing. */
  | { readonly kind: 'wait'; readonly until: string }
  | { readonly kind: 'finished' }
  | { readonly kind: 'stuck'; readonly why: string };

/** The next move for the unit's current state. Separate actions change the person or the instrument first. */
export function nextMove(unit: UnitState, context: DecisionContext, options: DriverOptions = {}): DriverMove {
  const state = asOf(unit, context.now);
  if (state.finished) return { kind: 'finished' };
  if (state.scrapped) return { kind: 'stuck', why: `${state.unit} is scrapped` };
  if (state.parked || missingEnd(state)) return act({ do: 'resume' });
  const problem = state.orderProblems[0];
  if (problem) return overriding(state, problem.id, context, options);
  const at = nextCheck(state, options.at);
  // A hold is released once all that one walk can release waits for it, or nothing else can be done.
  for (const held of heldSteps(state)) {
    if (options.at === undefined ? !isToBeReleased(state, held) : held.step.id !== options.at) continue;
    const move = releasing(held, walkOf(state, held.step.id), context, options);
    if (move) return move;
  }
  if (at) {
    const step = state.steps.get(at.step)!;
    const cite = citing(step);
    if (cite && (options.cites?.(at.step) ?? isTaken(state, cite, context)))
      return context.person === undefined ? coming(step, context) : act(cite);
    const check = step.step.checks.find(({ id }) => id === at.check)!;
    return answering(step, check, context, { ...options, unit: `${state.job}-${state.unit}-` });
  }
  const cure = state.timers
    .filter((timer) => timer.kind === 'not-before')
    .map((timer) => timer.until)
    .sort()[0];
  if (cure !== undefined) return { kind: 'wait', until: cure };
  const open = [...state.steps.values()].find((step) => step.status !== 'done');
  return {
    kind: 'stuck',
    why: open ? `${open.step.id}: ${open.because[0] ?? open.status}` : 'nothing is open',
  };
}

const act = (action: Action): DriverMove => ({ kind: 'act', action });

function answering(
  at: StepState,
  check: RouteCheck,
  context: DecisionContext,
  options: DriverOptions,
): DriverMove {
  const { id, stage } = at.step;
  const person = somebody(context, stage, ALONE);
  if (!person) return { kind: 'stuck', why: `nobody may do stage ${stage} alone` };
  if (person.id !== context.person) return act({ do: 'person', person: person.id });
  const together = lookAt(at);
  if (together.length > 0) {
    const picture = together.some(({ evidence }) => evidence) ? options.evidence : undefined;
    return act({ do: 'look', step: id, ...(picture === undefined ? {} : { evidence: [picture] }) });
  }
  const tool = bestTool(check, context);
  if (tool === 'none') return { kind: 'stuck', why: `nothing in date measures ${check.quantity}` };
  if (tool !== undefined && tool.id !== context.inHand) return act({ do: 'instrument', instrument: tool.id });
  const value = passingValue(check, context, options);
  return act({
    do: 'answer',
    check: check.id,
    value,
    ...(check.evidence && options.evidence !== undefined ? { evidence: [options.evidence] } : {}),
  });
}

/** Citing asks for nobody in particular: whoever comes to the bench may. */
const isTaken = (state: UnitState, cite: Action, context: DecisionContext): boolean => {
  const person = context.person ?? context.workshop.people[0]?.id;
  return decide(state, cite, { ...context, person }).kind === 'events';
};

/** Somebody who may do the step comes to the bench. */
function coming({ step }: StepState, context: DecisionContext): DriverMove {
  const person = somebody(context, step.stage, ALONE);
  return person
    ? act({ do: 'person', person: person.id })
    : { kind: 'stuck', why: `nobody may do stage ${step.stage} alone` };
}

function releasing(
  held: StepState,
  others: readonly StepState[],
  context: DecisionContext,
  options: DriverOptions,
): DriverMove | undefined {
  const hold = held.step.hold!;
  const doers = hold.notSamePerson
    ? [held, ...others].flatMap(({ checks }) => checks.map(({ answered }) => answered?.by))
    : [];
  const person = somebody(context, held.step.stage, RELEASES, doers);
  if (!person) return undefined;
  if (person.id !== context.person) return act({ do: 'person', person: person.id });
  const pin = options.pins?.[person.id];
  return act({
    do: 'release',
    step: held.step.id,
    ...(others.length === 0 ? {} : { also: others.map(({ step }) => step.id) }),
    ...(pin === undefined ? {} : { pin }),
    ...(hold.evidence && options.evidence !== undefined ? { evidence: [options.evidence] } : {}),
  });
}

function overriding(
  state: UnitState,
  problem: string,
  context: DecisionContext,
  options: DriverOptions,
): DriverMove {
  const person = somebody(context, firstStage(state.route), RELEASES);
  if (!person)
    return { kind: 'stuck', why: `the order check refuses ${state.unit}, and nobody may override it` };
  if (person.id !== context.person) return act({ do: 'person', person: person.id });
  const pin = options.pins?.[person.id];
  return act({
    do: 'override',
    problem,
    reason: 'unattended demonstration',
    ...(pin === undefined ? {} : { pin }),
  });
}

/** The least qualified person who is able, preferring whoever is at the bench: keeps releasers free to release. */
function somebody(
  context: DecisionContext,
  stage: string,
  least: Level,
  not: readonly (string | undefined)[] = [],
): Person | undefined {
  const able = context.workshop.people.filter(
    (person) =>
      levelOf(person, stage) >= least && isValid(person, dayNow(context)) && !not.includes(person.id),
  );
  const sorted = able.toSorted((a, b) => levelOf(a, stage) - levelOf(b, stage));
  const easiest = sorted[0];
  const present = able.find(({ id }) => id === context.person);
  return present && easiest && levelOf(present, stage) === levelOf(easiest, stage) ? present : easiest;
}

/** The instrument to take: one that sends its readings, else the one in hand if it is good enough, else the best. */
export function bestTool(
  check: RouteCheck,
  context: Pick<DecisionContext, 'instruments' | 'inHand' | 'now' | 'workshop'>,
): Instrument | 'none' | undefined {
  const wanted = wantedBy(check);
  if (wanted === undefined) return undefined;
  const { byId } = context.workshop.limits;
  const bands = limitsOf(check).flatMap((id) => {
    const limit = byId.get(id);
    const band = limit && bandFor(limit, check.size ?? sizeOf(check));
    return limit && band ? [{ limit, band }] : [];
  });
  const at = sizeOf(check);
  const coarseness = (instrument: Instrument) =>
    Math.max(
      0,
      ...bands.map(
        ({ limit, band }) =>
          foreseenU(instrument, at, limit.of !== 'value' && limit.of !== 'deviation') / zoneOf(band),
      ),
    );
  const able = wouldDo(
    context.instruments,
    wanted,
    dayNow(context),
    at || typicalOf(check, context.workshop.limits),
  );
  const good = able.filter((each) => coarseness(each) < 1);
  // A frame is measured from corner to corner with a tape; anything else with what sends its readings.
  const sending = check.kind === 'square' ? [] : good.filter(({ sends }) => sends);
  const among = sending.length > 0 ? sending : good;
  return (
    among.find(({ id }) => id === context.inHand) ??
    among[0] ??
    able.toSorted((a, b) => coarseness(a) - coarseness(b))[0] ??
    'none'
  );
}

/** The greatest figure that would pass, where none is expected. */
const typicalOf = (check: RouteCheck, limits: LimitsFile): number =>
  Math.max(
    0,
    ...(check.points ?? [{}]).map((point: { limits?: readonly string[] }) =>
      passingNumber({ ...check, limits: point.limits ?? check.limits }, limits),
    ),
  );

const sizeOf = (check: RouteCheck): number =>
  check.nominal
    ? Math.hypot(check.nominal.w, check.nominal.h)
    : (check.expect ?? Math.max(0, ...(check.points ?? []).map(({ expect = 0 }) => expect)));

/** A value that passes the check, as a person would type it. */
export function passingValue(
  check: RouteCheck,
  context: DecisionContext,
  options: DriverOptions,
): string | Record<string, string> {
  switch (check.kind) {
    case 'tick':
    case 'go-no-go':
    // The program answers it; nobody is asked.
    case 'computed':
      return 'yes';
    case 'count':
      return String(check.expect ?? 0);
    case 'choice':
      return check.choices?.find(({ pass }) => pass)?.id ?? '';
    case 'text':
      return check.lot === undefined ? 'as marked' : lotText(check, context, options);
    case 'number':
      return shown(passingNumber(check, context.workshop.limits), check, context);
    case 'points':
      return Object.fromEntries(
        (check.points ?? []).map(({ id, expect, limits }) => [
          id,
          shown(
            expect ?? passingNumber({ ...check, limits: limits ?? check.limits }, context.workshop.limits),
            check,
            context,
          ),
        ]),
      );
    case 'square': {
      const { nominal = { w: 1000, h: 1000 } } = check;
      return Object.fromEntries(
        SQUARE_KEYS.map((key) => [key, shown(nominalOf(key, nominal), check, context)]),
      );
    }
  }
}

/** A number per piece, unlike any other; one lot per material, with a date where it needs one. */
function lotText(check: RouteCheck, context: DecisionContext, options: DriverOptions): string {
  const lot = options.lots?.[check.lot!] ?? `${check.lot!.toUpperCase().slice(0, 12)}-2601`;
  if (check.serial) return `${lot}-${options.unit ?? ''}${/@([^/]+)/.exec(check.id)?.[1] ?? ''}`;
  return check.dated ? `${lot} ${Number(context.now.slice(0, 4)) + 2}-12-31` : lot;
}

/** A figure as the instrument in hand shows it; the unit is appended where the workshop reads inches. */
function shown(value: number, check: RouteCheck, context: DecisionContext): string {
  const instrument = context.instruments.find((each) => each.id === context.inHand);
  const read = value - (instrument?.offset ?? 0);
  const { steps, resolution = 0.001 } = instrument ?? {};
  const figure = steps
    ? (steps.findLast((step) => step <= read + 1e-6) ?? 0)
    : Math.round(read / resolution) * resolution;
  const inches = context.workshop.units === 'inch' && (check.unit ?? 'mm') === 'mm';
  return `${Math.round(figure * 1000) / 1000}${inches ? ' mm' : ''}`;
}

/** The expected value if there is one; otherwise the middle of the range that all limits allow. */
function passingNumber(check: RouteCheck, limits: LimitsFile): number {
  if (check.against === 'deviation') return check.expect ?? 0;
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  for (const id of check.limits) {
    const limit = limits.byId.get(id);
    const band: LimitBand | undefined = limit && bandFor(limit, check.size ?? check.expect);
    low = Math.max(low, band?.low ?? Number.NEGATIVE_INFINITY);
    high = Math.min(high, band?.high ?? Number.POSITIVE_INFINITY);
  }
  if (check.expect !== undefined && check.expect >= low && check.expect <= high) return check.expect;
  if (Number.isFinite(low) && Number.isFinite(high)) return Math.round((low + high) * 50) / 100;
  if (Number.isFinite(high)) return Math.max(0, Math.floor(high * 50) / 100);
  return Number.isFinite(low) ? low * 2 : 0;
}
