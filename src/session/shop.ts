/** The workshop of a running bench: its files, its clock, and what is kept in memory of all of it between two keys. */
import { join } from 'node:path';
import { ok, type Problem, type Result } from '../base/problem.js';
import type { Disk } from '../store/disk.js';
import type { FoundEvidence } from '../store/hashed.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import type { DecisionContext, WorkshopRules } from '../unit/types.js';
import { type Board, materialsOf } from './board.js';
import { BoardCache } from './boardcache.js';
import { type OpenedUnit, type OpenOptions, openUnit } from './openunit.js';
import type { BuiltFrom } from './plan.js';
import type { Hand } from './ports.js';
import { EffectiveRules, PinAttempts } from './rules.js';
import { SetupDesk } from './setups.js';

export interface ShopOptions {
  readonly bench: string;
  /** The wall clock, ms. */
  readonly clock: () => number;
  /** A clock that only goes forward, ms. */
  readonly steady: () => number;
}

export class Shop {
  readonly bench: string;
  readonly clock: () => number;
  readonly tries = new PinAttempts();
  readonly steady: ClockJumpDetector;
  readonly setups: SetupDesk;
  readonly board: BoardCache;
  /** Of files that broke while the bench runs, and of a key that cannot be used. */
  warnings: readonly Problem[] = [];
  readonly #house: EffectiveRules;
  #workshop: Workshop;
  /** The workshop files as they were when they were read. */
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
    this.setups = new SetupDesk(disk, root);
    this.board = new BoardCache(disk, root);
    this.#house = new EffectiveRules(disk, root);
    this.#workshop = workshop;
    this.#mark = filesFingerprint(disk, root);
  }

  get workshop(): Workshop {
    return this.#workshop;
  }

  now(): string {
    return new Date(this.clock()).toISOString();
  }

  /** @param from what the open unit is built from */
  rules(now: string, from: BuiltFrom | undefined): WorkshopRules {
    return this.#house.now(this.#workshop, from, now);
  }

  /** Why nobody can say who may do what: the journal of sign-offs is damaged. */
  trouble(): Problem | undefined {
    const rules = this.#house.signed(this.#workshop, undefined, this.now());
    return rules.ok ? undefined : rules.problems[0];
  }

  context(hand: Hand, from: BuiltFrom | undefined): DecisionContext {
    const ms = this.clock();
    const now = new Date(ms).toISOString();
    return new ShopContext(this, hand, ms, now, this.rules(now, from), {});
  }

  /** As `around`, with files of evidence; not ok where nobody can say who may do what. */
  contextWith(hand: Hand, from: BuiltFrom | undefined, found: FoundFiles): Result<DecisionContext> {
    const ms = this.clock();
    const now = new Date(ms).toISOString();
    const rules = this.#house.sure(this.#workshop, from, now);
    return rules.ok ? ok(new ShopContext(this, hand, ms, now, rules.value, found)) : rules;
  }

  /** Every unit as it is on disk now. */
  look(now = this.now()): Board {
    return this.board.look(this.#workshop, now);
  }

  /** Where a unit is, by its id or as JOB/UNIT. One that its job's file lists is found without looking at others. */
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
    const options = { job, unit, bench: this.bench, who, now: this.now(), ...how };
    return openUnit(this.disk, this.root, this.#workshop, options);
  }

  /** The board and, where one was changed, the workshop's files are read again. Whether files were. */
  refresh(): boolean {
    this.board.forget();
    this.setups.forget();
    const mark = filesFingerprint(this.disk, this.root);
    if (mark === this.#mark) return false;
    this.#mark = mark;
    const again = openWorkshop(this.root, this.disk);
    // A file broken while the bench runs does not take away what it has.
    if (again.ok) this.#workshop = again.value;
    this.warnings = again.ok ? [] : again.problems;
    return again.ok;
  }
}

// What a decision is given of a running shop. Lots, snags of other units and set-ups are read from disk only where a
// decision asks for them, as they are then, and once.

/** Evidence files by the names under which the action speaks of them. */
export type FoundFiles = Readonly<Record<string, FoundEvidence>>;
type Evidence = NonNullable<DecisionContext['evidence']>;

class ShopContext implements DecisionContext {
  readonly bench: string;
  readonly person: DecisionContext['person'];
  readonly inHand: DecisionContext['inHand'];
  readonly instruments: DecisionContext['instruments'];
  readonly clockJump: DecisionContext['clockJump'];
  readonly evidence: Evidence;
  // Not of the kind with a #: a decision may look through an object that inherits from this one.
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
  ) {
    this.bench = shop.bench;
    this.person = hand.person;
    this.inHand = hand.inHand;
    this.instruments = shop.workshop.instruments;
    this.clockJump = shop.steady.jump(ms);
    this.evidence = evidenceIn(found);
  }

  get pinLocked(): readonly string[] {
    return this.shop.tries.locked(this.ms);
  }

  get lots() {
    return this.materials.lots;
  }

  get snagged() {
    return this.materials.snagged;
  }

  get setups(): DecisionContext['setups'] {
    const { shop, now } = this;
    if (!shop.workshop.setups) return undefined;
    this.proven ??= shop.setups.valid(shop.workshop, () => this.materials.uses, now);
    return this.proven;
  }

  private get materials() {
    this.known ??= materialsOf(this.shop.look(this.now));
    return this.known;
  }
}

function evidenceIn(found: FoundFiles): Evidence {
  const out: Record<string, Evidence[string]> = {};
  for (const name in found) out[name] = found[name]!.evidence;
  return out;
}

// Tells whether any file that a workshop owns was changed, without reading one.

const FOLDERS = ['shared', 'shared/jobs', 'shared/profile-sets', 'procedures'];

/** A text that is another one when a workshop file was added, removed or written. */
function filesFingerprint(disk: Disk, root: string): string {
  const marks: string[] = [];
  for (const folder of FOLDERS) {
    try {
      for (const name of disk.list(join(root, folder))) {
        const stat = disk.stat(join(root, folder, name));
        if (stat?.kind === 'file') marks.push(`${folder}/${name} ${stat.id} ${stat.size} ${stat.modifiedMs}`);
      }
    } catch {
      // A folder that is not there holds nothing that could change; opening the workshop says what is missing.
      marks.push(`${folder} -`);
    }
  }
  return marks.join('\n');
}

// Notices that somebody set the wall clock while the bench runs: it is held against a clock that only goes forward.

/** Drift and delays that are no jump, ms. */
const SLACK_MS = 2000;

export class ClockJumpDetector {
  #wallThen: number;
  #steadyThen: number;

  /** Both in ms. @param steady goes on while the machine sleeps */
  constructor(
    wall: () => number,
    private readonly steady: () => number,
  ) {
    this.#wallThen = wall();
    this.#steadyThen = steady();
  }

  /** Where the wall clock should be by now and where it is, if that is another; UTC. */
  jump(wall: number): { readonly from: string; readonly to: string } | undefined {
    const should = this.#wallThen + (this.steady() - this.#steadyThen);
    if (Math.abs(wall - should) < SLACK_MS) return undefined;
    return { from: new Date(should).toISOString(), to: new Date(wall).toISOString() };
  }

  /** The time as it would be without the jump that is noticed and not in the journal yet, UTC. */
  unjumped(wall: number): string {
    return this.jump(wall)?.from ?? new Date(wall).toISOString();
  }

  /** What was noticed until now is in the journal. */
  noted(wall: number): void {
    this.#steadyThen = this.steady();
    this.#wallThen = wall;
  }
}
