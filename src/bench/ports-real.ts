/**
 * The bench's ports over a workshop on disk: set-out, route and fold by the pure rooms, journals and locks by the store.
 * Everything is done at once, so that what the bench shows as logged is on disk.
 */
import { uptime } from 'node:os';
import { isAbsolute, resolve } from 'node:path';
import type { Action } from '../build/actions.js';
import { boardRow, type StageRow } from '../build/board.js';
import { asIfWritten, decide } from '../build/decide.js';
import { stagesOf } from '../build/digests.js';
import type { EventBody, Evidence, JournalEvent } from '../build/events.js';
import { apply, asOf, fold } from '../build/fold.js';
import { frozenIn } from '../build/frozen.js';
import { sealedBody } from '../build/sealing.js';
import { type InDoubt, type SetupStanding, unitsInDoubt, validSetups } from '../build/setups.js';
import type { Surroundings, UnitState } from '../build/types.js';
import type { WorkshopRules } from '../build/workshop.js';
import { bad, good, type Problem, type Result, raiser } from '../ground/problem.js';
import { type Claim, claimUnit } from '../store/claim.js';
import { type Disk, realDisk } from '../store/disk.js';
import { StoreError } from '../store/diskproblem.js';
import { keepEvidence } from '../store/evidence.js';
import { readEvents } from '../store/journal.js';
import { benchKey } from '../store/key.js';
import { freezeSources } from '../store/sources.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { testLogsFolder } from '../store/writable.js';
import { BENCH_MESSAGES } from './messages.js';
import type { Acted, BoardRow, Hand, OpenUnit, Ports, World } from './ports.js';
import { type Board, BoardReader, materialsOf } from './real/board.js';
import { unitReader } from './real/digest.js';
import { filesMark } from './real/filesmark.js';
import { wordsOf } from './real/languages.js';
import { frozenTexts, openedBody } from './real/opened.js';
import { PinTries } from './real/pintries.js';
import { builtFromFrozen, builtFromNow, type Plan, planOf } from './real/plan.js';
import { reviseUnit } from './real/revise.js';
import { ruleOf, type SetupActed, SetupBook } from './real/setupbook.js';
import { SteadyClock } from './real/steadyclock.js';
import { rulesWithSignoffs, signoffMark } from './train/journals.js';

const raise = raiser(BENCH_MESSAGES);
/** Timers are worked out anew this often, ms; between times the state stays as it is. */
const TIMERS_MS = 1000;

export interface RealOptions {
  /** The workshop's folder. */
  readonly workshop: string;
  readonly disk?: Disk;
  /** The wall clock, ms. */
  readonly clock?: () => number;
  /** Name of the bench, instead of the workshop file's and PINCHROD_BENCH. */
  readonly bench?: string;
}

/** Opens the workshop. Problems where one of its four files cannot be used. */
export function realPorts(options: RealOptions): Result<RealPorts> {
  const disk = options.disk ?? realDisk;
  const root = resolve(options.workshop);
  const workshop = openWorkshop(root, disk);
  if (!workshop.ok) return workshop;
  const ports = new RealPorts(root, disk, workshop.value, options);
  const levels = ports.trouble();
  return levels ? bad(levels) : good(ports, workshop.warnings);
}

interface Held {
  readonly id: string;
  readonly job: string;
  readonly plan: Plan;
  /** The house rules, with the limits that the unit was begun with. */
  readonly rules: WorkshopRules;
  readonly claim?: Claim;
  readonly readOnly?: Problem;
  state: UnitState;
  /** When the timers of `state` were worked out, ms. */
  seen: number;
}

export class RealPorts implements Ports {
  readonly #root: string;
  readonly #disk: Disk;
  readonly #clock: () => number;
  readonly #bench: string;
  readonly #reader: BoardReader;
  readonly #tries = new PinTries();
  readonly #steady: SteadyClock;
  readonly #setups: SetupBook;
  #workshop: Workshop;
  /** The rules with the levels that count by the sign-offs; a problem where those are damaged. */
  #levels:
    | { readonly mark: string; readonly of: Workshop; readonly rules: Result<WorkshopRules> }
    | undefined;
  #withLimits: { readonly base: WorkshopRules; readonly rules: WorkshopRules } | undefined;
  /** The workshop files as they were when they were read. */
  #mark: string;
  #ahead = 0;
  #board: readonly BoardRow[] | undefined;
  #stages: readonly StageRow[] = [];
  #warnings: readonly Problem[] = [];
  #held: Held | undefined;
  #open: OpenUnit | undefined;

  constructor(root: string, disk: Disk, workshop: Workshop, options: RealOptions) {
    this.#root = root;
    this.#disk = disk;
    this.#workshop = workshop;
    this.#clock = options.clock ?? Date.now;
    this.#bench = options.bench ?? process.env.PINCHROD_BENCH ?? workshop.bench;
    this.#reader = new BoardReader(disk, root);
    this.#setups = new SetupBook(disk, root);
    // A clock that comes from outside is its own measure.
    this.#steady = new SteadyClock(options.clock ?? Date.now, options.clock ?? steady);
    this.#mark = filesMark(disk, root);
  }

  world(): World {
    const ms = this.#clock();
    const now = new Date(ms).toISOString();
    const open = this.#openNow(ms, now);
    return {
      now,
      rules: this.#rules(),
      bench: this.#bench,
      instruments: this.#workshop.instruments,
      board: this.#boardNow(now),
      stages: this.#stages,
      ...(open ? { open } : {}),
    };
  }

  /** Jobs and journals that could not be read when the board was last looked at; a logs folder that cannot be trusted. */
  warnings(): readonly Problem[] {
    return this.#warnings;
  }

  /** Tries whether the logs folder keeps what is appended to it. */
  testLogs(): Problem | undefined {
    return testLogsFolder(this.#disk, this.#root);
  }

  /** Reads ahead what opening a unit will need, a piece a call, so that no piece keeps a key waiting long. False when all is read. */
  readAhead(): boolean {
    const { jobs, profileSets, procedures } = this.#workshop;
    const job = jobs.names.map((name) => jobs.get(name)).find(({ ok }) => ok);
    if (!job?.ok) return false;
    const pieces = [
      () => profileSets.get(job.value.value.profileSet),
      () => procedures.get(job.value.value.procedure),
    ];
    pieces[this.#ahead]?.();
    this.#ahead += 1;
    return this.#ahead < pieces.length;
  }

  /** `unit` is an id, or JOB/UNIT where several jobs have one of that id. */
  open(unit: string): ReturnType<Ports['open']> {
    const row = this.#find(unit);
    if (!row) return { kind: 'failed', problem: raise('bench.no-unit', `There is no unit "${unit}".`) };
    if (this.#held && this.#held.id === row.unit && this.#held.job === row.job && !this.#held.readOnly)
      return { kind: 'open' };
    const held = this.#take(row);
    if (!held.ok) return { kind: 'failed', problem: held.problems[0]! };
    this.close();
    this.#held = held.value;
    return { kind: 'open' };
  }

  act(action: Action, hand: Hand): Acted {
    const held = this.#held;
    if (!held) return { kind: 'refused', problem: raise('bench.no-unit', 'No unit is open.') };
    if (!held.claim)
      return {
        kind: 'refused',
        problem: held.readOnly ?? raise('bench.read-only', `${held.id} is written by somebody else.`),
      };
    try {
      return this.#act(held, held.claim, action, hand);
    } catch (error) {
      if (error instanceof StoreError)
        // A damaged journal is nothing that trying again could save.
        return {
          kind: error.problem.id === 'journal.damaged' ? 'refused' : 'failed',
          problem: error.problem,
        };
      throw error;
    }
  }

  /** Why nobody can say who may do what: the journal of sign-offs is damaged. */
  trouble(): Problem | undefined {
    const { rules } = this.#signedRules();
    return rules.ok ? undefined : rules.problems[0];
  }

  /** How the workshop's set-ups stand; undefined where it asks for none. */
  setups(): Result<readonly SetupStanding[]> | undefined {
    const rules = this.#workshop.setups;
    const now = new Date(this.#clock()).toISOString();
    return rules && this.#setups.standings(rules, () => this.#shop(now).materials().uses, now);
  }

  firstOff(
    setup: string,
    values: Parameters<SetupBook['firstOff']>[1],
    hand: Hand,
    options: { readonly confirmed?: boolean; readonly note?: string } = {},
  ): SetupActed {
    const rule = ruleOf(this.#workshop.setups, setup);
    if (!rule.ok) return { kind: 'refused', problem: rule.problems[0]! };
    return this.#setups.firstOff(rule.value, values, this.#around(hand), options);
  }

  endSetup(setup: string, why: Parameters<SetupBook['end']>[1], hand: Hand, note?: string): SetupActed {
    const rule = ruleOf(this.#workshop.setups, setup);
    if (!rule.ok) return { kind: 'refused', problem: rule.problems[0]! };
    return this.#setups.end(rule.value, why, this.#around(hand), note);
  }

  /** What was made under a set-up since its last good first-off, where the last one failed. */
  inDoubt(setup: string): InDoubt | undefined {
    const events = this.#setups.events();
    if (!events.ok) return undefined;
    const { units } = this.#look(new Date(this.#clock()).toISOString());
    const touched = units.filter(({ digest }) =>
      Object.keys(digest.uses).some((id) => id.startsWith(`${setup}-`)),
    );
    const traced = touched.flatMap(({ job, unit }) => {
      const read = readEvents(this.#disk, this.#root, job, unit);
      return read.ok ? [{ job, unit, events: read.value }] : [];
    });
    return unitsInDoubt(setup, events.value, traced);
  }

  /** Takes the open unit over to the workshop's files as they are now. */
  revise(reason: string, hand: Hand): Acted {
    const held = this.#held;
    if (!held?.claim)
      return { kind: 'refused', problem: held?.readOnly ?? raise('bench.no-unit', 'No unit is open.') };
    const disk = { disk: this.#disk, root: this.#root };
    const made = reviseUnit(disk, this.#workshop, held, reason, this.#around(hand), held.claim);
    if (made.kind === 'done') {
      const { job, id } = held;
      this.close();
      this.#board = undefined;
      this.open(`${job}/${id}`);
    }
    return made;
  }

  refresh(): void {
    this.#board = undefined;
    const mark = filesMark(this.#disk, this.#root);
    if (mark === this.#mark) return;
    this.#mark = mark;
    const again = openWorkshop(this.#root, this.#disk);
    // A file broken while the bench runs does not take away what it has.
    if (again.ok) {
      this.#workshop = again.value;
      this.#open = undefined;
    } else this.#warnings = again.problems;
  }

  close(): void {
    this.#reader.save();
    this.#held?.claim?.release();
    this.#held = undefined;
    this.#open = undefined;
  }

  #act(held: Held, claim: Claim, action: Action, hand: Hand): Acted {
    const now = new Date(this.#clock()).toISOString();
    const evidence = this.#keep(held.job, action);
    if (!evidence.ok) return { kind: 'refused', problem: evidence.problems[0]! };
    const levels = this.trouble();
    if (levels) return { kind: 'refused', problem: levels };
    const around = { ...this.#around(hand), now, evidence: evidence.value };
    const shop = this.#shop(now);
    // Looked up only where a decision asks: most answers name no lot and rest on no set-up.
    Object.defineProperties(around, {
      lots: { get: () => shop.materials().lots, enumerable: true },
      snagged: { get: () => shop.materials().snagged, enumerable: true },
      ...(this.#workshop.setups ? { setups: { get: shop.setups, enumerable: true } } : {}),
    });
    const begun = claim.journal.events.length > 0;
    const first = begun ? undefined : openedBody(held.plan, {});
    const before = first
      ? apply(held.state, ...asIfWritten(held.state, [first], hand.person ?? 'nobody', around))
      : held.state;
    const decision = decide(before, action, around);
    if (decision.kind === 'refused') {
      this.#tries.note(decision.problem, action, hand.person, this.#clock());
      return { kind: 'refused', problem: decision.problem };
    }
    if (decision.kind === 'ask') return decision;
    if (decision.events.length === 0) return { kind: 'done', events: [] };
    // What the unit is built from is frozen before its first event says so.
    const bodies: readonly EventBody[] = begun
      ? decision.events
      : [
          openedBody(held.plan, freezeSources(this.#disk, this.#root, frozenTexts(held.plan))),
          ...decision.events,
        ];
    const events = claim.journal.append(bodies, { by: decision.by, at: now, bench: this.#bench }, (last) =>
      this.#signed(last),
    );
    held.state = apply(held.state, ...events);
    held.seen = 0;
    this.#steady.noted(this.#clock());
    this.#tries.right(action, hand.person);
    this.#board = this.#boardWith(held);
    return { kind: 'done', events: begun ? events : events.slice(1) };
  }

  #around(hand: Hand): Surroundings {
    return {
      now: new Date(this.#clock()).toISOString(),
      bench: this.#bench,
      person: hand.person,
      inHand: hand.inHand,
      workshop: this.#rules(),
      instruments: this.#workshop.instruments,
      pinLocked: this.#tries.locked(this.#clock()),
      ...this.#steady.jump(this.#clock()),
    };
  }

  /** House rules with the levels that count, and the limits that the open unit was begun with. */
  #rules(): WorkshopRules {
    const { rules } = this.#signedRules();
    const base = rules.ok ? rules.value : this.#workshop.rules;
    const limits = this.#held?.rules.limits;
    if (limits === undefined || limits === base.limits) return base;
    if (this.#withLimits?.base !== base || this.#withLimits.rules.limits !== limits)
      this.#withLimits = { base, rules: { ...base, limits } };
    return this.#withLimits.rules;
  }

  #signedRules() {
    const day = new Date(this.#clock()).toISOString();
    const mark = `${signoffMark(this.#disk, this.#root)} ${day.slice(0, 10)}`;
    if (this.#levels?.mark !== mark || this.#levels.of !== this.#workshop)
      this.#levels = {
        mark,
        of: this.#workshop,
        rules: rulesWithSignoffs(this.#workshop.rules, this.#disk, this.#root, day),
      };
    return this.#levels;
  }

  /** What other units and the set-ups bear on a decision, as it is on disk now; read once, and only if asked for. */
  #shop(now: string) {
    let materials: ReturnType<typeof materialsOf> | undefined;
    const read = () => {
      materials ??= materialsOf(this.#look(now));
      return materials;
    };
    return {
      materials: read,
      setups: () => {
        const standings = this.#setups.standings(this.#workshop.setups ?? [], () => read().uses, now);
        if (!standings.ok) throw new StoreError(standings.problems[0]!);
        return validSetups(standings.value);
      },
    };
  }

  /** The seal that follows a finished or scrapped unit. A key that cannot be used keeps no unit from being finished: it is warned of. */
  #signed(last: JournalEvent): EventBody | undefined {
    if (last.kind !== 'finished' && last.kind !== 'scrapped') return undefined;
    const key = benchKey(this.#disk, this.#root, this.#bench);
    if (!key.ok) this.#warnings = [...this.#warnings, ...key.problems];
    return sealedBody(last, key.ok ? key.value : undefined);
  }

  #take(row: BoardRow): Result<Held> {
    const { job, unit } = row;
    const claim = claimUnit(this.#disk, this.#root, job, unit, { bench: this.#bench, who: '' });
    const locked = claim.ok ? undefined : claim.problems[0]!;
    if (locked && !locked.id.startsWith('lock.')) return bad(locked);
    const read = claim.ok ? good(claim.value.journal.events) : readEvents(this.#disk, this.#root, job, unit);
    if (!read.ok) return read;
    const opened = frozenIn(read.value);
    const from = opened ? builtFromFrozen(this.#disk, this.#root, opened) : builtFromNow(this.#workshop, job);
    const plan = from.ok ? planOf(from.value, unit) : from;
    if (!plan.ok) {
      if (claim.ok) claim.value.release();
      return plan;
    }
    return good({
      id: unit,
      job,
      plan: plan.value,
      rules: { ...this.#workshop.rules, limits: plan.value.from.limits },
      ...(claim.ok ? { claim: claim.value } : {}),
      ...(locked ? { readOnly: locked } : {}),
      state: stateFrom(plan.value, read.value, new Date(this.#clock()).toISOString()),
      seen: 0,
    });
  }

  /** Evidence files that an action names are copied in before it is decided; names that are no files are left to be refused. */
  #keep(job: string, action: Action): Result<Record<string, Evidence>> {
    const names = 'evidence' in action ? (action.evidence ?? []) : [];
    const kept: Record<string, Evidence> = {};
    for (const name of names) {
      const result = keepEvidence(
        this.#disk,
        this.#root,
        job,
        isAbsolute(name) ? name : resolve(this.#root, name),
      );
      if (!result.ok) return result;
      kept[name] = result.value;
    }
    return good(kept);
  }

  #openNow(ms: number, now: string): OpenUnit | undefined {
    const held = this.#held;
    if (!held) return undefined;
    if (held.readOnly && Math.abs(ms - held.seen) >= TIMERS_MS) {
      held.seen = ms;
      this.#follow(held, now);
    }
    if (held.state.timers.length > 0 && Math.abs(ms - held.seen) >= TIMERS_MS) {
      held.state = asOf(held.state, now);
      held.seen = ms;
    }
    if (this.#open?.state === held.state && this.#open.id === held.id) return this.#open;
    this.#open = {
      id: held.id,
      job: held.job,
      state: held.state,
      setOut: held.plan.setOut,
      ...(held.readOnly ? { readOnly: held.readOnly.text } : {}),
      words: wordsOf(held.plan, this.#workshop),
    };
    return this.#open;
  }

  /** A unit that somebody else writes is read again, so that one sees their steps. */
  #follow(held: Held, now: string): void {
    const read = readEvents(this.#disk, this.#root, held.job, held.id);
    if (read.ok && read.value.length !== held.state.events.length)
      held.state = stateFrom(held.plan, read.value, now);
  }

  #boardNow(now: string): readonly BoardRow[] {
    if (this.#board) return this.#board;
    const { rows, units } = this.#look(now);
    this.#board = rows;
    this.#stages = stagesOf(units, now);
    return rows;
  }

  /** Every unit as it is on disk now. */
  #look(now: string): Board {
    const board = this.#reader.read(this.#workshop, now, unitReader(this.#disk, this.#root));
    this.#warnings = board.problems;
    return board;
  }

  #boardWith(held: Held): readonly BoardRow[] | undefined {
    return this.#board?.map((row) =>
      row.unit === held.id && row.job === held.job
        ? {
            ...row,
            standing: held.state.standing,
            done: held.state.done,
            total: held.state.steps.size,
            where: boardRow(held.state).where,
          }
        : row,
    );
  }

  #find(unit: string): BoardRow | undefined {
    const board = this.#boardNow(new Date(this.#clock()).toISOString());
    const exact = board.find((row) => `${row.job}/${row.unit}` === unit);
    if (exact) return exact;
    const named = board.filter((row) => row.unit === unit);
    return named.length === 1 ? named[0] : undefined;
  }
}

/** Goes on while the machine sleeps, which the process's own clock does not; on a Mac uptime follows the wall clock. */
const steady =
  process.platform === 'darwin' ? performance.now.bind(performance) : (): number => uptime() * 1000;

const stateFrom = ({ route, setOut }: Plan, events: readonly JournalEvent[], now: string): UnitState =>
  fold(route, events, { problems: setOut.problems, now });
