/** The workshop of a running bench: its files, its clock, and everything cached in memory between keys. */
import { join } from 'node:path';
import { ok, type Problem, type Result } from '../base/problem.js';
import { localDay } from '../base/wallclock.js';
import type { Disk } from '../store/disk.js';
import type { FoundEvidence } from '../store/hashed.js';
import { readEvents } from '../store/journal.js';
import { journalPlace } from '../store/paths.js';
import { signingKey } from '../store/register/signing.js';
import { readSetupLog } from '../store/setups.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import type { JournalEvent } from '../unit/events.js';
import { lateHead, lateUses, setupsEnded, type UseEnded } from '../unit/lateuse.js';
import type { DecisionContext, Unseen, WorkshopRules } from '../unit/types.js';
import { BasisKeeper } from './basis.js';
import { type Board, materialsOf } from './board.js';
import { BoardCache } from './boardcache.js';
import { type OpenedUnit, type OpenOptions, openUnit } from './openunit.js';
import { raiseBranches, raiseLate } from './ownsnags.js';
import type { BuiltFrom } from './plan.js';
import type { BoardEntry, Hand } from './ports.js';
import { Registering } from './registering.js';
import { EffectiveRules, PinAttempts } from './rules.js';
import { SetupDesk } from './setups.js';
import type { SharedShop } from './sharedshop.js';

export interface ShopOptions {
  readonly bench: string;
  /** Wall clock, ms. */
  readonly clock: () => number;
  /** Monotonic clock, ms. */
  readonly steady: () => number;
}

export class Shop {
  readonly bench: string;
  readonly clock: () => number;
  readonly tries = new PinAttempts();
  readonly steady: ClockJumpDetector;
  /** Files that broke while the bench is running. */
  broken: readonly Problem[] = [];
  readonly basis: BasisKeeper;
  readonly register: Registering;
  /** Where the folder takes part in a shop of several benches, and is connected. */
  shared: SharedShop | undefined;
  readonly #setups: SetupDesk;
  readonly #board: BoardCache;
  /** Unit written since the board and set-ups were last read. */
  #written: OpenedUnit | undefined;
  readonly #house: EffectiveRules;
  #workshop: Workshop;
  /** Heads of what other benches had ended, as far as it was looked for in the units. */
  readonly #known = new Set<string>();
  /** What they had ended when that was last read: no answer waits for the disk for that. */
  #endedNow: readonly UseEnded[] = [];
  /** Fingerprint of the workshop files when last read. */
  #mark: string;

  constructor(
    readonly root: string,
    readonly disk: Disk,
    workshop: Workshop,
    { bench, clock, steady }: ShopOptions,
  ) {
    this.bench = bench;
    this.clock = clock;
    this.steady = new ClockJumpDetector(clock, steady);
    this.basis = new BasisKeeper(disk, root);
    this.register = new Registering(
      disk,
      root,
      bench,
      () => this.now(),
      steady,
      (file) => this.shared?.wrote(file, 1),
    );
    this.#setups = new SetupDesk(disk, root, this.basis, this.register);
    this.#board = new BoardCache(disk, root);
    this.#house = new EffectiveRules(disk, root);
    this.#workshop = workshop;
    this.#mark = filesFingerprint(disk, root);
  }

  get workshop(): Workshop {
    return this.#workshop;
  }

  get board(): BoardCache {
    this.#catchUp();
    return this.#board;
  }

  get setups(): SetupDesk {
    this.#catchUp();
    return this.#setups;
  }

  /** Records a write of so many events; the board and set-ups catch up on next access. */
  written(held: OpenedUnit, events: number): void {
    this.shared?.wrote(`logs/${held.job}/${held.id}.jsonl`, events, held.state.events.length);
    if (this.#written !== held) this.#catchUp();
    this.#written = held;
  }

  #catchUp(): void {
    const held = this.#written;
    if (!held) return;
    this.#written = undefined;
    this.#setups.forget();
    // A scrapped unit's replacement gets its own row.
    if (held.state.scrapped) this.#board.forget();
    else this.#board.update(held.job, held.id, held.state);
  }

  /** Also a register that cannot be written, and so a key that cannot be used. */
  get warnings(): readonly Problem[] {
    const { trouble } = this.register;
    return trouble ? [...this.broken, trouble] : this.broken;
  }

  now(): string {
    return new Date(this.clock()).toISOString();
  }

  /** @param from sources of the open unit */
  rules(now: string, from: BuiltFrom | undefined): WorkshopRules {
    return this.#house.now(this.#workshop, from, now);
  }

  /** Set if the sign-off journal is damaged, so nobody can say who may do what. */
  trouble(): Problem | undefined {
    const rules = this.#house.signed(this.#workshop, undefined, this.now());
    return rules.ok ? undefined : rules.problems[0];
  }

  /** @param ms the moment, where it is not now */
  context(hand: Hand, from: BuiltFrom | undefined, ms = this.clock()): DecisionContext {
    const now = new Date(ms).toISOString();
    return new ShopContext(this, hand, ms, now, this.rules(now, from), {}, undefined);
  }

  /** Like `context`, for a unit, with evidence files; fails if the sign-off journal is damaged. */
  contextWith(hand: Hand, held: OpenedUnit, found: FoundFiles): Result<DecisionContext> {
    const ms = this.clock();
    const now = new Date(ms).toISOString();
    const rules = this.#house.sure(this.#workshop, held.plan.from, now);
    return rules.ok ? ok(new ShopContext(this, hand, ms, now, rules.value, found, held)) : rules;
  }

  look(now = this.now()): Board {
    return this.board.look(this.#workshop, now);
  }

  /** Finds a unit by id or as JOB/UNIT. If the named job's file lists it, no other unit is read. */
  find(unit: string): { readonly job: string; readonly unit: string } | undefined {
    const [job, id] = unit.split('/', 2);
    const listed = id === undefined ? undefined : this.#workshop.jobs.get(job!);
    return listed?.ok && listed.value.value.units.some((each) => each.id === id)
      ? { job: job!, unit: id! }
      : this.board.find(unit, this.#workshop, this.now());
  }

  /** @param who id of the person at the bench */
  take(
    job: string,
    unit: string,
    who: string,
    how: Pick<OpenOptions, 'takeOver' | 'lookOnly'> = {},
  ): Result<OpenedUnit> {
    const other = this.shared?.lookOnly(job, unit);
    const options = {
      job,
      unit,
      bench: this.bench,
      who,
      now: this.now(),
      ...how,
      ...(other && how.lookOnly === undefined ? { lookOnly: other } : {}),
    };
    const held = openUnit(this.disk, this.root, this.#workshop, options);
    if (!held.ok || !held.value.claim) return held;
    // Nothing is added to a journal that is another than the registers know, until that is put right or accepted.
    const lookOnly = this.register.contradicted(held.value);
    if (lookOnly) {
      held.value.claim.release();
      return openUnit(this.disk, this.root, this.#workshop, { ...options, lookOnly });
    }
    this.register.opened(held.value);
    this.raiseOwn(held.value);
    return held;
  }

  /**
   * Snags for what other benches gave on the unit after it had been taken over, and for what was used here after it had been
   * ended. Returns whether there were any.
   */
  raiseOwn(held: OpenedUnit): boolean {
    const events = [...raiseBranches(this, held), ...raiseLate(this, held, this.#ended())];
    if (events.length === 0) return false;
    this.written(held, events.length);
    this.register.wrote(held, events);
    return true;
  }

  /** This workshop takes part in a shop of several benches. */
  share(shared: SharedShop): void {
    this.shared = shared;
    for (const each of this.#ended()) this.#known.add(lateHead(each));
  }

  /** Of these units, those that this bench has and wrote after something they use had been ended; each end is asked about once. */
  usedLate(units: readonly BoardEntry[]): readonly BoardEntry[] {
    if (!this.shared) return [];
    const ended = this.#ended().filter((each) => !this.#known.has(lateHead(each)));
    for (const each of ended) this.#known.add(lateHead(each));
    const from = Math.min(...ended.map(({ at }) => Date.parse(at)));
    return units.filter(({ job, unit }) => {
      if (!this.shared!.isOwn(job, unit)) return false;
      const place = journalPlace(this.root, job, unit);
      if (!place.ok || (this.disk.stat(place.value.file)?.modifiedMs ?? 0) < from) return false;
      const events = readEvents(this.disk, this.root, job, unit);
      return events.ok && ended.some((each) => lateUses(events.value, this.bench, each).length > 0);
    });
  }

  /** The same for what was written just now. Returns what it added. */
  raiseLate(held: OpenedUnit, events: readonly JournalEvent[]): readonly JournalEvent[] {
    if (!this.#endedNow.some((each) => lateUses(events, this.bench, each).length > 0)) return [];
    const raised = raiseLate(this, held, this.#endedNow);
    if (raised.length > 0) {
      this.written(held, raised.length);
      this.register.wrote(held, raised);
    }
    return raised;
  }

  /** What other benches of a shop ended: set-ups and instruments. */
  #ended(): readonly UseEnded[] {
    if (!this.shared) return [];
    const setups = readSetupLog(this.disk, this.root);
    this.#endedNow = [...(setups.ok ? setupsEnded(setups.value, this.bench) : []), ...this.shared.retired()];
    return this.#endedNow;
  }

  letGo(held: OpenedUnit): void {
    if (!held.claim) return;
    this.register.left(held);
    held.claim.release();
    // What the lock kept from being exchanged is looked at again.
    this.shared?.wrote(`logs/${held.job}/${held.id}.jsonl`, 0);
  }

  /** Re-reads the board and, if a file has changed, the workshop. Returns whether the workshop was reloaded. */
  refresh(): boolean {
    this.board.forget();
    this.setups.forget();
    const mark = filesFingerprint(this.disk, this.root);
    if (mark === this.#mark) return false;
    this.#mark = mark;
    const again = openWorkshop(this.root, this.disk);
    // If a file breaks while the bench is running, keep the last good version.
    if (again.ok) this.#workshop = again.value;
    this.broken = again.ok ? [] : again.problems;
    return again.ok;
  }
}

// Decision context from a running shop. Lots, other units' snags and set-ups are read from disk only when a decision
// asks for them, once per decision.

/** Evidence files by the name the action uses. */
export type FoundFiles = Readonly<Record<string, FoundEvidence>>;
type Evidence = NonNullable<DecisionContext['evidence']>;

class ShopContext implements DecisionContext {
  readonly bench: string;
  readonly today: string;
  readonly person: DecisionContext['person'];
  readonly inHand: DecisionContext['inHand'];
  readonly instruments: DecisionContext['instruments'];
  readonly clockJump: DecisionContext['clockJump'];
  readonly evidence: Evidence;
  // TypeScript `private`, not #: a decision may access this through an object that inherits from it.
  private known: ReturnType<typeof materialsOf> | undefined;
  private proven: DecisionContext['setups'];

  /** `ms` and `now` are the same moment. */
  constructor(
    private readonly shop: Shop,
    hand: Hand,
    private readonly ms: number,
    readonly now: string,
    readonly workshop: WorkshopRules,
    found: FoundFiles,
    private readonly held: OpenedUnit | undefined,
  ) {
    this.bench = shop.bench;
    this.today = localDay(now, shop.workshop.zone);
    this.person = hand.person;
    this.inHand = hand.inHand;
    this.instruments = shop.workshop.instruments;
    this.clockJump = shop.steady.jump(ms) ?? (held && otherClock(shop, held, ms));
    this.evidence = evidenceIn(found);
  }

  get pinLocked(): readonly string[] {
    return this.shop.tries.locked(this.ms);
  }

  get lots() {
    return this.materials.lots;
  }

  get pictures() {
    return this.materials.pictures;
  }

  get snagged() {
    return this.materials.snagged;
  }

  get shared() {
    return this.materials.shared;
  }

  get setups(): DecisionContext['setups'] {
    const { shop, now } = this;
    if (!shop.workshop.setups) return undefined;
    this.proven ??= shop.setups.valid(shop.workshop, () => this.materials.uses, now);
    return this.proven;
  }

  get keyProblem() {
    const key = signingKey(this.shop.disk, this.shop.root, this.bench);
    return key.ok ? undefined : key.problems[0];
  }

  get unseen(): Unseen | undefined {
    const { held, shop } = this;
    return held && shop.shared?.unseen(held.job, held.id, held.state.events.length);
  }

  private get materials() {
    this.known ??= materialsOf(this.shop.look(this.now));
    return this.known;
  }
}

/** Smaller differences between the clocks of two benches are let pass, ms. */
const CLOCKS_MS = 2_000;

/** Where the last line is another bench's: how its clock and this one's differ, as a jump of the clock from one to the other. */
function otherClock(shop: Shop, { state }: OpenedUnit, ms: number): DecisionContext['clockJump'] {
  const last = state.events.at(-1);
  if (!last || last.bench === shop.bench) return undefined;
  const ahead = shop.shared?.agent.aheadOf(last.bench) ?? 0;
  if (Math.abs(ahead) < CLOCKS_MS) return undefined;
  return { from: new Date(ms - ahead).toISOString(), to: new Date(ms).toISOString() };
}

function evidenceIn(found: FoundFiles): Evidence {
  const out: Record<string, Evidence[string]> = {};
  for (const name in found) out[name] = found[name]!.evidence;
  return out;
}

// Detects changes to the workshop's files without reading them.

const FOLDERS = ['shared', 'shared/jobs', 'shared/profile-sets', 'procedures', 'keys'];

/** Changes whenever a workshop file is added, removed or written. */
function filesFingerprint(disk: Disk, root: string): string {
  const marks: string[] = [];
  for (const folder of FOLDERS) {
    try {
      for (const name of disk.list(join(root, folder))) {
        const stat = disk.stat(join(root, folder, name));
        if (stat?.kind === 'file') marks.push(`${folder}/${name} ${stat.id} ${stat.size} ${stat.modifiedMs}`);
      }
    } catch {
      // A missing folder holds nothing that could change; opening the workshop reports what is missing.
      marks.push(`${folder} -`);
    }
  }
  return marks.join('\n');
}

// Detects changes to the wall clock while the bench is running, by comparing it with a monotonic clock.

/** Drift and delays not counted as a jump, ms. */
const SLACK_MS = 2000;

export class ClockJumpDetector {
  #wallThen: number;
  #steadyThen: number;

  /** Both clocks in ms. @param steady keeps running while the machine sleeps */
  constructor(
    wall: () => number,
    private readonly steady: () => number,
  ) {
    this.#wallThen = wall();
    this.#steadyThen = steady();
  }

  /** If the wall clock has jumped: where it should be and where it is, UTC. */
  jump(wall: number): { readonly from: string; readonly to: string } | undefined {
    const should = this.#wallThen + (this.steady() - this.#steadyThen);
    if (Math.abs(wall - should) < SLACK_MS) return undefined;
    return { from: new Date(should).toISOString(), to: new Date(wall).toISOString() };
  }

  /** The time without a detected jump that is not in the journal yet, UTC. */
  unjumped(wall: number): string {
    return this.jump(wall)?.from ?? new Date(wall).toISOString();
  }

  /** Marks jumps up to now as written to the journal. */
  noted(wall: number): void {
    this.#steadyThen = this.steady();
    this.#wallThen = wall;
  }
}
