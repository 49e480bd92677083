/** An action on a unit: decided by the build room, and on disk before it is answered. */
import { ok, problemFactory, type Result } from '../base/problem.js';
import { type Disk, StoreError } from '../store/disk.js';
import { keepFound, pinSources } from '../store/hashed.js';
import { benchKey } from '../store/key.js';
import type { UnitLock } from '../store/unitlock.js';
import type { Workshop } from '../store/workshop.js';
import type { Action, WorkshopAction } from '../unit/actions.js';
import { asIfWritten, decide } from '../unit/decide.js';
import { type EventBody, type JournalEvent, pinnedSources } from '../unit/events.js';
import { apply } from '../unit/fold.js';
import { jump } from '../unit/handlers/context.js';
import { atBench } from '../unit/people.js';
import { decideRevision } from '../unit/revision.js';
import { signatureEvent } from '../unit/sealing.js';
import { toBeSnagged } from '../unit/setups.js';
import type { DecisionContext } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import { findNamed } from './inbox.js';
import { BENCH_MESSAGES } from './messages.js';
import { keeperOf, type OpenedUnit } from './openunit.js';
import { builtFromNow, frozenTexts, openedBody, planOf } from './plan.js';
import type { Acted, Hand } from './ports.js';
import { actedOf, setupSnag } from './setups.js';
import type { FoundFiles, Shop } from './shop.js';

const raise = problemFactory(BENCH_MESSAGES);

/** Throws StoreError where the disk fails; then nothing was written. */
export function actOnUnit(shop: Shop, held: OpenedUnit, action: Action, hand: Hand): Acted {
  const { claim } = held;
  if (!claim)
    return {
      kind: 'refused',
      problem: held.readOnly ?? raise('bench.read-only', `${held.id} is written by somebody else.`),
    };
  const evidence = findNamed(shop.disk, shop.root, held.job, action);
  if (!evidence.ok) return { kind: 'refused', problem: evidence.problems[0]! };
  const begun = claim.journal.events.length > 0;
  const noted = timeNoted(shop, held, claim, hand, evidence.value);
  if (!noted.ok) return { kind: 'refused', problem: noted.problems[0]! };
  const context = noted.value;
  const first = begun ? undefined : openedBody(held.plan, {});
  const before = first
    ? apply(held.state, ...asIfWritten(held.state, [first], hand.person ?? 'nobody', context))
    : held.state;
  const decision = decide(before, action, context);
  if (decision.kind === 'refused') {
    shop.tries.note(decision.problem, action, hand.person, shop.clock());
    return { kind: 'refused', problem: decision.problem };
  }
  if (decision.kind === 'ask') return decision;
  if (decision.events.length === 0) return { kind: 'done', events: [] };
  for (const found of Object.values(evidence.value)) keepFound(shop.disk, shop.root, held.job, found);
  const events = write(shop, held, claim, decision, context.now);
  shop.tries.right(action, hand.person);
  return { kind: 'done', events: begun ? events : events.slice(1) };
}

function write(
  shop: Shop,
  held: OpenedUnit,
  claim: UnitLock,
  decision: { readonly events: readonly EventBody[]; readonly by: string },
  at: string,
): readonly JournalEvent[] {
  // What the unit is built from is frozen before its first event says so.
  const first = () => openedBody(held.plan, pinSources(shop.disk, shop.root, frozenTexts(held.plan)));
  const bodies = claim.journal.events.length > 0 ? decision.events : [first(), ...decision.events];
  const events = claim.journal.append(bodies, { by: decision.by, at, bench: shop.bench }, (last) =>
    sealAfter(shop, last),
  );
  held.state = apply(held.state, ...events);
  held.seen = 0;
  shop.steady.noted(shop.clock());
  shop.setups.forget();
  // The unit that replaces a scrapped one is another row.
  if (held.state.scrapped) shop.board.forget();
  else shop.board.update(held.job, held.id, held.state);
  return events;
}

/** A jump of the clock is in the journal before anything is decided by the time, and also where that is then refused. */
function timeNoted(
  shop: Shop,
  held: OpenedUnit,
  claim: UnitLock,
  hand: Hand,
  found: FoundFiles,
): Result<DecisionContext> {
  const context = shop.contextWith(hand, held.plan.from, found);
  const { state } = held;
  if (!context.ok || state.events.length === 0 || state.finished || state.scrapped) return context;
  const { events } = jump(state, context.value);
  if (events.length === 0) return context;
  write(shop, held, claim, { events, by: 'nobody' }, context.value.now);
  return shop.contextWith(hand, held.plan.from, found);
}

/** The seal that follows a finished or scrapped unit. A key that cannot be used keeps no unit from being finished: it is warned of. */
function sealAfter(shop: Shop, last: JournalEvent): EventBody | undefined {
  if (last.kind !== 'finished' && last.kind !== 'scrapped') return undefined;
  const key = benchKey(shop.disk, shop.root, shop.bench);
  if (!key.ok) shop.warnings = [...shop.warnings, ...key.problems];
  return signatureEvent(last, key.ok ? key.value : undefined);
}

// Actions that are no single unit's: set-ups proven and ended, snags on all that was made under one, a unit taken
// over.

/** What came of it, and the unit that is on the bench now where that is another one. */
export interface ShopActed {
  readonly acted: Acted;
  readonly held?: OpenedUnit;
}

/** @param held the unit on the bench */
export function actOnShop(
  shop: Shop,
  held: OpenedUnit | undefined,
  action: WorkshopAction,
  hand: Hand,
): ShopActed {
  const levels = shop.trouble();
  if (levels) return { acted: { kind: 'refused', problem: levels } };
  const context = () => shop.context(hand, undefined);
  switch (action.do) {
    case 'first-off':
      return { acted: actedOf(shop.setups.firstOff(shop.workshop, action, context())) };
    case 'end-setup':
      return { acted: actedOf(shop.setups.end(shop.workshop, action, context())) };
    case 'snag-setup':
      return { acted: snagAll(shop, held, action.setup, hand) };
    case 'take-over':
      return takeOver(shop, held, action.reason, hand);
  }
}

/** A snag on every unit in doubt that has none yet; the open unit stays open. */
function snagAll(shop: Shop, held: OpenedUnit | undefined, setup: string, hand: Hand): Acted {
  const doubt = shop.setups.inDoubt(setup, shop.look());
  const keys = doubt ? toBeSnagged(doubt) : [];
  if (!doubt || keys.length === 0)
    return {
      kind: 'refused',
      problem: raise('bench.nothing-in-doubt', `Nothing made under "${setup}" waits for a snag.`),
    };
  const events: JournalEvent[] = [];
  const snags = keys.map((key) => {
    const [job = '', unit = ''] = key.split('/');
    const own = held?.id === unit && held.job === job ? held : undefined;
    const taken = own ? ok(own) : shop.take(job, unit, hand.person ?? '');
    if (!taken.ok) return { job, unit, problem: taken.problems[0]! };
    try {
      const acted = actOnUnit(shop, taken.value, setupSnag(setup, doubt), hand);
      if (acted.kind === 'done') events.push(...acted.events);
      return 'problem' in acted ? { job, unit, problem: acted.problem } : { job, unit };
    } finally {
      if (!own) taken.value.claim?.release();
    }
  });
  shop.board.forget();
  shop.setups.forget();
  return { kind: 'done', events, snags };
}

/** Takes the open unit from the bench whose lock keeps it; who had it, and why, is written into the journal. */
function takeOver(shop: Shop, held: OpenedUnit | undefined, reason: string, hand: Hand): ShopActed {
  const refused = (problem: ReturnType<typeof raise>): ShopActed => ({ acted: { kind: 'refused', problem } });
  if (!held) return refused(raise('bench.no-unit', 'No unit is open.'));
  if (!held.readOnly) return refused(raise('bench.not-kept', `${held.id} is open here for writing.`));
  const found = atBench(shop.context(hand, undefined));
  if ('problem' in found) return refused(found.problem);
  const { job, id } = held;
  const before = keeperOf(shop.disk, shop.root, job, id);
  const taken = shop.take(job, id, found.person.id, { takeOver: true });
  if (!taken.ok) return refused(taken.problems[0]!);
  const now = taken.value;
  if (!now.claim) return { acted: { kind: 'refused', problem: now.readOnly! }, held: now };
  const from = before
    ? `${before.who}, who had it since ${before.since}`
    : 'a bench that let it go meanwhile';
  const text = `Taken over from ${from}: ${reason}`;
  return { acted: actOnUnit(shop, now, { do: 'note', text }, hand), held: now };
}

// A unit under way goes over to the workshop's files as they are now: its sources are frozen anew.

/** Writes `revised`, or says why not. The unit is opened again afterwards: its route is another one. */
export function reviseUnit(
  { disk, root }: { readonly disk: Disk; readonly root: string },
  workshop: Workshop,
  unit: { readonly id: string; readonly job: string; readonly state: UnitState },
  reason: string,
  context: DecisionContext,
  claim: UnitLock,
): Acted {
  const frozen = pinnedSources(claim.journal.events);
  if (!frozen)
    return { kind: 'refused', problem: raise('bench.not-begun', `Nothing of ${unit.id} is logged yet.`) };
  const from = builtFromNow(workshop, unit.job);
  const plan = from.ok ? planOf(from.value, unit.id) : from;
  if (!plan.ok) return { kind: 'refused', problem: plan.problems[0]! };
  // Decided before anything is frozen, so that a refusal leaves no file behind.
  const trial = decideRevision(unit.state, plan.value.route, {}, reason, context);
  if (trial.kind !== 'events') return trial;
  try {
    const sources = pinSources(disk, root, frozenTexts(plan.value));
    if (Object.entries(sources).every(([kind, hash]) => frozen.sources[kind] === hash))
      return {
        kind: 'refused',
        problem: raise('bench.same-sources', `${unit.id} is built from the files as they are now.`),
      };
    const bodies = trial.events.map(
      (body): EventBody => (body.kind === 'revised' ? { ...body, sources } : body),
    );
    const events = claim.journal.append(bodies, { by: trial.by, at: context.now, bench: context.bench });
    return { kind: 'done', events };
  } catch (error) {
    if (error instanceof StoreError) return { kind: 'failed', problem: error.problem };
    throw error;
  }
}
