/**
 * The bench's ports over a workshop on disk: set-out, route and fold come from the pure rooms, journals and locks from
 * the store. Everything is synchronous, so whatever the bench shows as logged is on disk.
 */
import { uptime } from 'node:os';
import { resolve } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { localDay } from '../base/wallclock.js';
import type { TitleReader } from '../procedure/titles.js';
import { shopProblem } from '../server/messages.js';
import { type Disk, diskProblem, isFileError, realDisk, StoreError } from '../store/disk.js';
import { testLogsFolder } from '../store/files.js';
import { storeWords } from '../store/words.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { type BenchAction, isWorkshopAction } from '../unit/actions.js';
import { asOf } from '../unit/fold.js';
import { citable, citedWithStep, citing } from '../unit/handlers/cite.js';
import type { RevisionEffect } from '../unit/revision.js';
import type { InDoubt, SetupStanding } from '../unit/setups.js';
import type { UnitState } from '../unit/unitstate.js';
import { actOnShop, actOnUnit, asBegun, filesInInbox, reviseUnit, revisionOf } from './actions.js';
import { materialsOf } from './board.js';
import { BENCH_MESSAGES } from './messages.js';
import { follow, isLocked, keeperOf, type OpenedUnit } from './openunit.js';
import { unitOfJob, wordsOf } from './plan.js';
import type { Acted, Hand, JobUnit, OpenUnit, Ports, World } from './ports.js';
import type { SharedShop } from './sharedshop.js';
import { Shop } from './shop.js';
import { sessionSays } from './words.js';

const raise = problemFactory(BENCH_MESSAGES);

export interface RealOptions {
  /** The workshop folder. */
  readonly workshop: string;
  readonly disk?: Disk;
  /** Wall clock, ms. */
  readonly clock?: () => number;
  /** Monotonic clock, ms; the wall clock is checked against it. */
  readonly steady?: () => number;
  /** Overrides the bench name from the workshop file and PINCHROD_BENCH. */
  readonly bench?: string;
}

/** What came from a shop; `ended`: set-ups of other benches, or instruments. */
export type ShopNews = 'journals' | 'files' | 'ended' | 'state';

/** Opens the workshop. Fails if one of its four mandatory files is unusable. */
export function realPorts(options: RealOptions): Result<RealPorts> {
  const disk = options.disk ?? realDisk;
  const root = resolve(options.workshop);
  const workshop = openWorkshop(root, disk);
  if (!workshop.ok) return workshop;
  const ports = new RealPorts(root, disk, workshop.value, options);
  const levels = ports.trouble();
  return levels ? err(levels) : ok(ports, workshop.warnings);
}

export class RealPorts implements Ports {
  readonly #shop: Shop;
  #held: OpenedUnit | undefined;
  readonly #view: OpenView;
  #changed: (open?: string) => void = () => undefined;
  /** Nobody is at the open unit: a list is on the screen. */
  #aside = false;
  /** The unit that the shop is being asked for, as it was named. */
  #wanted: string | undefined;
  #last: Partial<Pick<World, 'rules' | 'board'>> = {};
  readonly #titles = (language: string): TitleReader =>
    orNone(
      () => this.#shop.board.titles(this.#shop.workshop, language, this.#shop.now()),
      () => undefined,
    );
  /** The units of the open one's job, as they stood at `of`, an event of that one. */
  #siblings: { readonly of: string; readonly units: readonly JobUnit[] } | undefined;

  constructor(root: string, disk: Disk, workshop: Workshop, options: RealOptions) {
    const clock = options.clock ?? Date.now;
    // An injected clock also serves as its own monotonic reference.
    this.#shop = new Shop(root, disk, workshop, {
      bench: options.bench ?? process.env.PINCHROD_BENCH ?? workshop.bench,
      clock,
      steady: options.steady ?? options.clock ?? steady,
    });
    this.#view = new OpenView(this.#shop);
  }

  world(): World {
    const shop = this.#shop;
    const ms = shop.clock();
    const now = new Date(ms).toISOString();
    const open = this.#view.at(this.#held, ms, now);
    let board: World['board'] | undefined;
    const look = () => this.#board(now);
    const trouble = shop.register.trouble ?? shop.shared?.trouble();
    return {
      now,
      today: localDay(now, shop.workshop.zone),
      rules: this.#asLast('rules', () => shop.rules(now, this.#held?.plan.from)),
      bench: shop.bench,
      instruments: shop.workshop.instruments,
      // Lazy: a script working on one unit never needs the board.
      get board() {
        board ??= look();
        return board;
      },
      more: {
        stages: () => shop.board.stages(shop.workshop, now),
        handover: () => shop.board.handover(shop.workshop, now),
        setups: () => shop.setups.rows(shop.workshop, () => shop.look(now), now),
        lots: () => {
          const { lots, snagged } = materialsOf(shop.look(now));
          return { known: lots, snagged: snagged.lots };
        },
        ...(open ? { jobUnits: () => orNone(() => this.#jobUnits(open, now), []) } : {}),
        ...(open ? { shared: this.#shared(open.state, ms) } : {}),
        titles: this.#titles,
        inbox: () => filesInInbox(shop.disk, shop.root),
      },
      ...(open ? { open } : {}),
      ...(trouble ? { trouble } : {}),
      ...(shop.shared ? { shop: shop.shared.seen() } : {}),
    };
  }

  #shared(unit: UnitState, ms: number) {
    const state = asOf(unit, new Date(ms).toISOString());
    const scope = () => {
      const context = this.#shop.context({ person: undefined }, this.#held?.plan.from, ms);
      return { state: this.#held ? asBegun(state, this.#held, context) : state, context };
    };
    return {
      takes: (id: string) => {
        const step = state.steps.get(id);
        const action = step && citing(step);
        return action ? orNone(() => citable(scope(), action.step), []) : [];
      },
      goesWith: (id: string) => {
        const step = state.steps.get(id);
        return step ? orNone(() => citedWithStep(scope(), step), []) : [];
      },
    };
  }

  #jobUnits({ id, job, state, setOut }: OpenUnit, now: string): readonly JobUnit[] {
    const { disk, root, workshop } = this.#shop;
    const of = `${job}/${id}/${state.events.length}`;
    if (this.#siblings?.of !== of) {
      const rows = this.#board(now).filter((row) => row.job === job);
      const units = rows.flatMap((row): readonly JobUnit[] => {
        if (row.unit === id) return [{ unit: id, setOut, state }];
        const found = unitOfJob(disk, root, workshop, row, now);
        return found ? [found] : [];
      });
      this.#siblings = { of, units };
    }
    return this.#siblings.units;
  }

  #board(now: string): World['board'] {
    const shop = this.#shop;
    const rows = this.#asLast('board', () => shop.board.rows(shop.workshop, now));
    return shop.shared?.withHolders(rows) ?? rows;
  }

  /** If the disk cannot be read right now, keep showing the last value. */
  #asLast<K extends 'rules' | 'board'>(what: K, look: () => World[K]): World[K] {
    try {
      this.#last = { ...this.#last, [what]: look() };
    } catch (error) {
      if (!isFileError(error) || this.#last[what] === undefined) throw error;
    }
    return this.#last[what] as World[K];
  }

  /** Unreadable jobs and journals; an untrustworthy logs folder. */
  warnings(): readonly Problem[] {
    this.#board(this.#shop.now());
    return [...this.#shop.warnings, ...this.#shop.board.problems()];
  }

  /** Checks that the logs folder keeps what is appended to it. */
  testLogs(): Problem | undefined {
    return testLogsFolder(this.#shop.disk, this.#shop.root);
  }

  /** `unit` is an id, or JOB/UNIT if several jobs share that id. */
  open(unit: string, who = ''): ReturnType<Ports['open']> {
    try {
      return this.#openUnit(unit, who);
    } catch (error) {
      if (!isFileError(error)) throw error;
      return { kind: 'failed', problem: diskProblem(error, 'logs', storeWords('while-unit-opened')) };
    }
  }

  #openUnit(unit: string, who: string): ReturnType<Ports['open']> {
    this.#aside = false;
    const shop = this.#shop;
    const found = shop.find(unit);
    if (!found) return { kind: 'failed', problem: raise('bench.no-unit/unit', { unit }) };
    if (this.#held && this.#held.id === found.unit && this.#held.job === found.job && !this.#held.readOnly)
      return { kind: 'open' };
    if (shop.shared?.mustAsk(found.job, found.unit)) {
      this.#ask(shop.shared, found, unit);
      return { kind: 'asked' };
    }
    const held = shop.take(found.job, found.unit, who);
    if (!held.ok) return { kind: 'failed', problem: held.problems[0]! };
    this.close();
    this.#held = held.value;
    return { kind: 'open' };
  }

  /** The unit is opened when the shop has answered, unless another was wanted meanwhile. */
  #ask(
    shared: SharedShop,
    { job, unit }: { readonly job: string; readonly unit: string },
    word: string,
  ): void {
    this.#wanted = word;
    shared.ask(job, unit, () => {
      if (this.#wanted !== word) return;
      this.#wanted = undefined;
      this.#changed(word);
    });
  }

  told(changed: (open?: string) => void): void {
    this.#changed = changed;
  }

  /** The workshop's folder takes part in this shop of several benches. */
  share(shared: SharedShop): void {
    this.#shop.share(shared);
  }

  get place() {
    const { root, disk, workshop, clock } = this.#shop;
    return { root, disk, workshop, clock };
  }

  /** A unit by its id, or as JOB/UNIT. */
  find(unit: string): { readonly job: string; readonly unit: string } | undefined {
    return this.#shop.find(unit);
  }

  /** Units that nobody began, as `job/unit`, in the order of the board. */
  notBegun(): readonly string[] {
    return this.#board(this.#shop.now()).flatMap(({ job, unit, standing }) =>
      standing === 'not-started' ? [`${job}/${unit}`] : [],
    );
  }

  /** Something came from the shop: the board and the open unit are as they are there. */
  heard(what: ShopNews): void {
    const held = this.#held;
    const lost = held?.claim && this.#shop.shared?.lost(held.job, held.id);
    if (lost) this.reread(lost);
    else if (what === 'state') this.#takeWhatIsFree();
    else if (what === 'ended') this.#raiseOwn();
    else if (what === 'files') this.#readAgain();
    else if (what === 'journals') {
      this.#siblings = undefined;
      this.#shop.board.forget();
      if (held?.claim && this.#shop.raiseOwn(held)) this.#view.forget();
    }
    this.#changed();
  }

  /** A unit that is only looked at because another bench had it, and that has let it go. */
  #takeWhatIsFree(): void {
    const { shared } = this.#shop;
    const held = this.#held;
    if (!shared || this.#aside || held?.readOnly?.id !== 'shop.leased') return;
    if (shared.isOwn(held.job, held.id)) this.reread();
    else if (shared.isFree(held.job, held.id))
      shared.ask(held.job, held.id, (problem) => {
        if (!problem && this.#held === held) this.reread();
        this.#changed();
      });
  }

  /** On the open unit, and on the others of this bench that used what was ended and that nobody has open. */
  #raiseOwn(): void {
    const shop = this.#shop;
    const held = this.#held;
    if (held?.claim && shop.raiseOwn(held)) this.#view.forget();
    const begun = this.#board(shop.now()).filter(({ standing }) => standing !== 'not-started');
    for (const { job, unit } of shop.usedLate(begun)) {
      if (job === held?.job && unit === held.id) continue;
      const taken = shop.take(job, unit, '');
      if (taken.ok) shop.letGo(taken.value);
    }
  }

  /** Lets the unit go to another bench, where it is open here and nobody is at it. Returns whether it is free now. */
  gives(job: string, unit: string): boolean {
    const held = this.#held;
    if (!this.#aside || held?.job !== job || held.id !== unit) return false;
    this.reread(shopProblem('shop.leased/asked', { unit }));
    return true;
  }

  act(action: BenchAction, hand: Hand): Acted {
    this.#aside = false;
    try {
      if (isWorkshopAction(action)) {
        const { acted, held } = actOnShop(this.#shop, this.#held, action, hand);
        if (held) {
          this.#held = held;
          this.#view.forget();
        }
        return acted;
      }
      if (!this.#held) return { kind: 'refused', problem: raise('bench.no-unit') };
      const acted = actOnUnit(this.#shop, this.#held, action, hand);
      if (acted.kind !== 'done') return acted;
      return { ...acted, events: [...acted.events, ...this.#shop.raiseLate(this.#held, acted.events)] };
    } catch (error) {
      if (!isFileError(error)) throw error;
      const problem = diskProblem(error, 'logs', storeWords('while-answer-written-journal'));
      return { kind: FOR_GOOD.has(problem.id) ? 'refused' : 'failed', problem };
    }
  }

  /** Set if the sign-off journal is damaged, so nobody can say who may do what. */
  trouble(): Problem | undefined {
    return this.#shop.trouble();
  }

  /** Undefined if the workshop requires no set-ups. */
  setups(): Result<readonly SetupStanding[]> | undefined {
    const shop = this.#shop;
    const now = shop.now();
    return shop.setups.standings(shop.workshop, () => shop.look(now), now);
  }

  /** If the last first-off failed: what was made under the set-up since its last good one. */
  inDoubt(setup: string): InDoubt | undefined {
    return this.#shop.setups.inDoubt(setup, this.#shop.look());
  }

  /** What revising the open unit would do; nothing is written. */
  revision(): Result<RevisionEffect> {
    const held = this.#held;
    if (!held) return err(raise('bench.no-unit'));
    const made = revisionOf(this.#shop.workshop, held);
    return made.ok ? ok(made.value.effect) : made;
  }

  /** Revises the open unit to the current workshop files. */
  revise(given: { readonly reason: string; readonly pin?: string | undefined }, hand: Hand): Acted {
    const held = this.#held;
    const { board } = this.#shop;
    if (!held?.claim) return { kind: 'refused', problem: held?.readOnly ?? raise('bench.no-unit') };
    const context = this.#shop.context(hand, held.plan.from);
    const made = reviseUnit(this.#shop, held, given, context, held.claim);
    if (made.kind === 'done') {
      const { job, id } = held;
      this.close();
      board.forget();
      this.open(`${job}/${id}`);
    }
    return made;
  }

  /** A list of units is on the screen: the open one may go to another bench that asks for it. */
  refresh(): void {
    this.#aside = true;
    const held = this.#held;
    if (held?.claim) this.#shop.shared?.wrote(`logs/${held.job}/${held.id}.jsonl`, 0);
    this.#readAgain();
  }

  #readAgain(): void {
    try {
      this.#siblings = undefined;
      if (this.#shop.refresh()) this.#view.forget();
    } catch (error) {
      if (!isFileError(error)) throw error;
    }
  }

  reread(lookOnly?: Problem): void {
    const held = this.#held;
    this.close();
    if (!held) return;
    const again = this.#shop.take(held.job, held.id, '', lookOnly ? { lookOnly } : {});
    if (again.ok) this.#held = again.value;
  }

  close(): void {
    this.#shop.board.save();
    if (this.#held) this.#shop.letGo(this.#held);
    this.#held = undefined;
    this.#view.forget();
  }
}

/** The screen is drawn all the same where the disk cannot be read: an answer says so itself. */
function orNone<T>(look: () => T, none: T): T {
  try {
    return look();
  } catch (error) {
    if (!isFileError(error) && !(error instanceof StoreError)) throw error;
    return none;
  }
}

/** Retrying cannot help: a damaged journal, or something a line cannot hold. */
const FOR_GOOD: ReadonlySet<string> = new Set([
  'journal.damaged',
  'journal.cannot-hold',
  'journal.too-large',
]);

/** Keeps running during sleep, unlike the process clock. macOS `uptime` follows the wall clock: not used there. */
const steady =
  process.platform === 'darwin' ? performance.now.bind(performance) : (): number => uptime() * 1000;

/** How often timers are recomputed, ms; the state is unchanged in between. */
const TIMERS_MS = 1000;

/** The open unit as screens see it: the same object until something changes. */
class OpenView {
  #open: OpenUnit | undefined;
  #words: OpenUnit['words'] | undefined;

  constructor(private readonly shop: Shop) {}

  /** `ms` and `now` are the same moment. Brings `held.state` up to date. */
  at(held: OpenedUnit | undefined, ms: number, now: string): OpenUnit | undefined {
    if (!held) return undefined;
    const { shop } = this;
    if (held.readOnly && Math.abs(ms - held.seen) >= TIMERS_MS) {
      held.seen = ms;
      // If nothing can be read, the holder is unknown too.
      if (follow(shop.disk, shop.root, held, now)) this.#lookForKeeper(held);
    }
    if (held.state.timers.length > 0 && Math.abs(ms - held.seen) >= TIMERS_MS) {
      // A clock jump not yet in the journal must not end a cure early on the screen.
      held.state = asOf(held.state, shop.steady.unjumped(ms));
      held.seen = ms;
    }
    if (this.#open?.state === held.state && this.#open.id === held.id) return this.#open;
    this.#words ??= wordsOf(held.plan, shop.workshop);
    this.#open = {
      id: held.id,
      job: held.job,
      state: held.state,
      setOut: held.plan.setOut,
      ...(held.readOnly
        ? { readOnly: isLocked(held.readOnly) && !held.keptBy ? letGo(held.id) : held.readOnly.text }
        : {}),
      ...(held.readOnly && !isLocked(held.readOnly) ? { readOnlyTodo: held.readOnly.todo } : {}),
      ...(held.keptBy ? { keptBy: held.keptBy } : {}),
      words: this.#words,
    };
    return this.#open;
  }

  /** Tells a read-only viewer when the unit becomes free or changes hands. */
  #lookForKeeper(held: OpenedUnit): void {
    const { disk, root } = this.shop;
    const keptBy = keeperOf(disk, root, held.job, held.id);
    if (isDeepStrictEqual(keptBy, held.keptBy)) return;
    held.keptBy = keptBy;
    this.forget();
  }

  /** Call when the unit, or what it was read with, has changed. */
  forget(): void {
    this.#open = undefined;
    this.#words = undefined;
  }
}

const letGo = (unit: string): string => sessionSays('nobody-has', { unit });
