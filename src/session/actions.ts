/** Acting on a unit: decided by the unit room and written to disk before the result is returned. */
import { isAbsolute, join, resolve } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { err, ok, problemFactory, type Result } from '../base/problem.js';
import { type Disk, StoreError } from '../store/disk.js';
import { type FoundEvidence, findEvidence, keepFound, pinSources } from '../store/hashed.js';
import { signingKey } from '../store/register/signing.js';
import type { UnitLock } from '../store/unitlock.js';
import type { Workshop } from '../store/workshop.js';
import type { Action, BenchAction, WorkshopAction } from '../unit/actions.js';
import { asIfWritten } from '../unit/aswritten.js';
import { sha256 } from '../unit/chain.js';
import { decide } from '../unit/decide.js';
import { type Basis, type EventBody, type JournalEvent, pinnedSources } from '../unit/events.js';
import { apply } from '../unit/fold.js';
import { jump } from '../unit/handlers/context.js';
import { atBench } from '../unit/people.js';
import { decideRevision, type Judged, type RevisionEffect, revisionEffect } from '../unit/revision.js';
import { signatureEvent } from '../unit/sealing.js';
import { toBeSnagged } from '../unit/setups.js';
import type { DecisionContext } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import { type WordsRead, wordsReadText } from '../unit/wordsread.js';
import type { Unit } from '../window/types.js';
import type { Used } from './basis.js';
import { BENCH_MESSAGES } from './messages.js';
import { keeperOf, type OpenedUnit } from './openunit.js';
import { pictureIn } from './pictures.js';
import { builtFromNow, frozenTexts, openedBody, type Plan, planOf } from './plan.js';
import type { Acted, Hand, InboxFile } from './ports.js';
import { actedOf, setupSnag } from './setups.js';
import type { FoundFiles, Shop } from './shop.js';
import { sessionSays } from './words.js';

const raise = problemFactory(BENCH_MESSAGES);

/** Throws StoreError if the disk fails; nothing has been written then. */
export function actOnUnit(shop: Shop, held: OpenedUnit, action: Action, hand: Hand): Acted {
  const { claim } = held;
  if (!claim)
    return {
      kind: 'refused',
      problem: held.readOnly ?? raise('bench.read-only', { held: held.id }),
    };
  const { leastPicture } = shop.workshop.rules;
  const evidence = findNamed(shop.disk, shop.root, held.job, action, leastPicture);
  if (!evidence.ok) return { kind: 'refused', problem: evidence.problems[0]! };
  const begun = claim.journal.events.length > 0;
  const noted = timeNoted(shop, held, claim, hand, evidence.value);
  if (!noted.ok) return { kind: 'refused', problem: noted.problems[0]! };
  const context = noted.value;
  const decision = decide(asBegun(held.state, held, context), action, context);
  if (decision.kind === 'refused') {
    shop.tries.note(decision.problem, action, hand.person, shop.clock());
    return { kind: 'refused', problem: decision.problem };
  }
  if (decision.kind === 'ask') return decision;
  if (decision.events.length === 0) return { kind: 'done', events: [] };
  for (const found of Object.values(evidence.value)) keepFound(shop.disk, shop.root, held.job, found);
  const events = write(shop, held, claim, decision, context, hand.reads);
  shop.tries.right(action, hand.person);
  return { kind: 'done', events: begun ? events : events.slice(1) };
}

/** The unit as its first event will make it, where nothing is logged yet. */
export function asBegun(state: UnitState, held: OpenedUnit, context: DecisionContext): UnitState {
  if (state.events.length > 0) return state;
  const first = openedBody(held.plan, {});
  return apply(state, ...asIfWritten(state, [first], context.person ?? 'nobody', context));
}

function write(
  shop: Shop,
  held: OpenedUnit,
  claim: UnitLock,
  decision: { readonly events: readonly EventBody[]; readonly by: string },
  context: DecisionContext,
  reads?: WordsRead,
): readonly JournalEvent[] {
  // Freeze what the events refer to before they do.
  const first = () => openedBody(held.plan, pinSources(shop.disk, shop.root, frozenTexts(held.plan)));
  const decided = claim.journal.events.length > 0 ? decision.events : [first(), ...decision.events];
  const { basis } = held.state.derived.marks;
  const resting = shop.basis.onto(basis, decided, {
    ...usedBy(shop, context, decided),
    words: wordsUsed(shop, held, basis, reads),
  });
  const bodies = shop.register.onto(resting);
  const stamp = { by: decision.by, at: context.now, bench: shop.bench };
  const events = claim.journal.append(bodies, stamp, (last) => sealAfter(shop, last));
  held.state = apply(held.state, ...events);
  held.seen = 0;
  shop.steady.noted(shop.clock());
  shop.written(held, events.length);
  shop.register.wrote(held, events);
  return events;
}

/** Named where the steps are not read in their own language, and where they are again. */
function wordsUsed(
  { workshop }: Shop,
  { plan }: OpenedUnit,
  basis: Basis,
  reads: WordsRead | undefined,
): string | undefined {
  const { name, language: own } = plan.from.procedure;
  if (!reads) return undefined;
  const { language = own } = reads;
  if (language === own && basis.words === undefined) return undefined;
  return wordsReadText(language, reads, workshop.translations.text(name, language));
}

/** Set-ups and other units are looked at only where an event names one. */
const usedBy = (shop: Shop, context: DecisionContext, bodies: readonly EventBody[]): Used => ({
  workshop: shop.workshop,
  people: context.workshop.people,
  setups: bodies.some((body) => body.kind === 'answered' && body.setup !== undefined)
    ? context.setups
    : undefined,
  ...(bodies.some((body) => 'cited' in body && body.cited) ? { shared: context.shared } : {}),
});

/** Logs a clock jump before any decision that depends on time, even if that decision is then refused. */
function timeNoted(
  shop: Shop,
  held: OpenedUnit,
  claim: UnitLock,
  hand: Hand,
  found: FoundFiles,
): Result<DecisionContext> {
  const context = shop.contextWith(hand, held, found);
  const { state } = held;
  if (!context.ok || state.events.length === 0 || state.finished || state.scrapped) return context;
  const { events } = jump(state, context.value);
  if (events.length === 0) return context;
  write(shop, held, claim, { events, by: 'nobody' }, context.value);
  return shop.contextWith(hand, held, found);
}

/** The seal that follows `finished` or `scrapped`; none where somebody closed the unit without (see decide). */
function sealAfter(shop: Shop, last: JournalEvent): EventBody | undefined {
  if ((last.kind !== 'finished' && last.kind !== 'scrapped') || last.unsigned) return undefined;
  const key = signingKey(shop.disk, shop.root, shop.bench);
  return signatureEvent(last, key.ok ? key.value : undefined);
}

// Actions of no single unit: proving and ending set-ups, snagging everything made under one, taking over a unit.

/** The result, and the unit now on the bench if it has changed. */
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

/** Raises a snag on every unit in doubt that has none yet; the open unit stays open. */
function snagAll(shop: Shop, held: OpenedUnit | undefined, setup: string, hand: Hand): Acted {
  const doubt = shop.setups.inDoubt(setup, shop.look());
  const keys = doubt ? toBeSnagged(doubt) : [];
  if (!doubt || keys.length === 0)
    return {
      kind: 'refused',
      problem: raise('bench.nothing-in-doubt', { setup }),
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
      if (!own) shop.letGo(taken.value);
    }
  });
  shop.board.forget();
  shop.setups.forget();
  return { kind: 'done', events, snags };
}

/** Takes the open unit from the bench holding its lock, and notes in the journal who had it and why it was taken. */
function takeOver(shop: Shop, held: OpenedUnit | undefined, reason: string, hand: Hand): ShopActed {
  const refused = (problem: ReturnType<typeof raise>): ShopActed => ({ acted: { kind: 'refused', problem } });
  if (!held) return refused(raise('bench.no-unit'));
  if (!held.readOnly) return refused(raise('bench.not-kept', { held: held.id }));
  const found = atBench(shop.context(hand, undefined));
  if ('problem' in found) return refused(found.problem);
  const { job, id } = held;
  const before = keeperOf(shop.disk, shop.root, job, id);
  const taken = shop.take(job, id, found.person.id, { takeOver: true });
  if (!taken.ok) return refused(taken.problems[0]!);
  const now = taken.value;
  if (!now.claim) return { acted: { kind: 'refused', problem: now.readOnly! }, held: now };
  const text = before
    ? sessionSays('taken-over', { who: before.who, since: before.since, reason })
    : sessionSays('taken-over-free', { reason });
  return { acted: actOnUnit(shop, now, { do: 'note', text }, hand), held: now };
}

// Revising a unit under way to the current workshop files: its sources are frozen again.

interface Revising {
  readonly id: string;
  readonly job: string;
  readonly plan: Plan;
  readonly state: UnitState;
}

/** The unit as today's files would have it made, and what the change would do. */
export function revisionOf(
  workshop: Workshop,
  unit: Revising,
): Result<{
  readonly plan: Plan;
  readonly old: Judged;
  readonly next: Judged;
  readonly effect: RevisionEffect;
}> {
  if (unit.state.events.length === 0) return err(raise('bench.not-begun', { unit: unit.id }));
  const from = builtFromNow(workshop, unit.job);
  const plan = from.ok ? planOf(from.value, unit.id) : from;
  if (!plan.ok) return plan;
  const judged = ({ route, from, unit: line }: Plan): Judged => ({
    order: { revision: from.job.revision, ...orderLine(line) },
    route,
    limits: from.limits,
    decisionRule: from.decisionRule ?? workshop.rules.decisionRule,
  });
  const [old, next] = [judged(unit.plan), judged(plan.value)];
  const sources = pinnedSources(unit.state.events)!.sources;
  const texts = Object.entries(frozenTexts(plan.value));
  if (
    texts.every(([kind, text]) => sources[kind] === sha256(text)) &&
    isDeepStrictEqual(old.decisionRule, next.decisionRule)
  )
    return err(raise('bench.same-sources', { unit: unit.id }));
  return ok({ plan: plan.value, old, next, effect: revisionEffect(unit.state, old, next) });
}

/** What the order says of the unit, less what names it. */
const orderLine = ({ id: _i, mark: _m, number: _n, job: _j, ...line }: Unit): Record<string, unknown> => line;

/** Writes `revised`, or says why not. The caller must reopen the unit afterwards, because its route has changed. */
export function reviseUnit(
  shop: Shop,
  unit: Revising,
  given: { readonly reason: string; readonly pin?: string | undefined },
  context: DecisionContext,
  claim: UnitLock,
): Acted {
  const { disk, root, workshop } = shop;
  const revision = revisionOf(workshop, unit);
  if (!revision.ok) return { kind: 'refused', problem: revision.problems[0]! };
  const { plan, old, next } = revision.value;
  // Decide before freezing anything, so that a refusal leaves no file behind.
  const trial = decideRevision(unit.state, { old, next }, {}, given, context);
  if (trial.kind !== 'events') return trial;
  try {
    const sources = pinSources(disk, root, frozenTexts(plan));
    const decided = trial.events.map(
      (body): EventBody => (body.kind === 'revised' ? { ...body, sources } : body),
    );
    const used = usedBy(shop, context, decided);
    const bodies = shop.basis.onto(unit.state.derived.marks.basis, decided, used, { revising: true });
    const events = claim.journal.append(bodies, { by: trial.by, at: context.now, bench: context.bench });
    shop.shared?.wrote(`logs/${unit.job}/${unit.id}.jsonl`, events.length);
    return { kind: 'done', events };
  } catch (error) {
    if (error instanceof StoreError) return { kind: 'failed', problem: error.problem };
    throw error;
  }
}

// Evidence files named in an action.

/** Workshop folder where a camera or phone drops pictures. */
const INBOX = 'inbox';
/** Stands for the newest file in the inbox folder instead of a path. */
const NEWEST = 'newest';

/** Kinds of picture that cameras and phones write. */
const PICTURE = /\.(jpe?g|png|webp|hei[cf])$/i;

/** Pictures in the inbox folder, by their names' endings, as evidence names them; the newest first. */
export function filesInInbox(disk: Disk, root: string): readonly InboxFile[] {
  const folder = join(root, INBOX);
  let names: readonly string[];
  try {
    names = disk.list(folder);
  } catch {
    return [];
  }
  return names
    .flatMap((name): readonly InboxFile[] => {
      // Dot files are partial copies or system files.
      const stat = name.startsWith('.') || !PICTURE.test(name) ? undefined : disk.stat(join(folder, name));
      if (stat?.kind !== 'file' || stat.size === 0) return [];
      return [{ name: `${INBOX}/${name}`, size: stat.size, at: new Date(stat.modifiedMs).toISOString() }];
    })
    .sort((a, b) => (b.at === a.at ? (a.name < b.name ? 1 : -1) : a.at < b.at ? 1 : -1));
}

const NOTHING = ok<Record<string, FoundEvidence>>({});

/** Files found, keyed by the name used in the action. Fails if a file is missing or cannot be kept. */
function findNamed(
  disk: Disk,
  root: string,
  job: string,
  action: BenchAction,
  least: readonly [number, number],
): Result<Record<string, FoundEvidence>> {
  const names = 'evidence' in action ? (action.evidence ?? []) : [];
  if (names.length === 0) return NOTHING;
  const found: Record<string, FoundEvidence> = {};
  for (const name of names) {
    const path = name === NEWEST ? filesInInbox(disk, root)[0]?.name : name;
    if (path === undefined) return err(raise('bench.inbox-empty', { inbox: INBOX }));
    const result = findEvidence(disk, job, isAbsolute(path) ? path : resolve(root, path));
    if (!result.ok) return result;
    const { bytes, evidence } = result.value;
    const picture = pictureIn(bytes, evidence.name, least);
    if (!picture.ok) return picture;
    found[name] = { bytes, evidence: { ...evidence, picture: picture.value } };
  }
  return ok(found);
}
