/**
 * What keeps this folder and the shop's server the same while a bench works: it hands over what was written, lays down what
 * other benches wrote, keeps leases, and begins again by itself when the line was down. The bench never waits for it.
 */
import { setImmediate as breathe, setTimeout as pause } from 'node:timers/promises';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import type { Card } from '../store/card.js';
import type { Disk } from '../store/disk.js';
import type { Branched } from './branchoff.js';
import { Carrier } from './carrier.js';
import { ServerError } from './client.js';
import { type Held, heldEdition, takeEdition } from './editions.js';
import { isUnitJournal } from './exchange.js';
import { journalNamed, localJournals, placeNamed } from './journalnames.js';
import { askFor, freeIfAsked, giveTo, leaseWhatWasBegun, takeAhead } from './leasing.js';
import { faultOf, openLink, type ShopLink } from './link.js';
import { localEnd } from './localfile.js';
import { Memory } from './memory.js';
import { shopProblem } from './messages.js';
import { newsSince } from './news.js';
import type { Settings } from './settings.js';
import { type Takeover, takeOver } from './takeover.js';

/** How often the server is asked for news, ms; a hint from it comes sooner. */
const POLL_MS = 400;
/** However many hints come, ms. */
const LEAST_MS = 200;
/** How often this folder is looked through for what another program wrote into it, ms. */
const LOOK_MS = 30_000;
/** Before the next attempt to connect, ms. */
const WAITS = [300, 600, 1_200, 2_500, 5_000];

export interface AgentPlace {
  readonly disk: Disk;
  readonly root: string;
  readonly card: Card;
  /** Read anew for each connection: a password may have been put right meanwhile. */
  readonly settings: () => Result<Settings>;
  readonly clock: () => number;
  /** Whether somebody has the unit open for writing in this folder. */
  readonly isInUse: (job: string, unit: string) => boolean;
  /** Units of this workshop as `job/unit`, in the order in which their leases are taken ahead, and how many. */
  readonly ahead: () => { readonly units: readonly string[]; readonly most: number };
}

/** What the agent tells the bench. Each may come at any time. */
export interface Heard {
  /** Journals that other benches wrote on. */
  journals?(journals: ReadonlySet<string>): void;
  /** Files that are kept, such as a photograph. */
  files?(): void;
  /** A new edition of the workshop's files. */
  edition?(): void;
  /** First-offs or ends of set-ups of other benches. */
  setups?(): void;
  branched?(branched: readonly Branched[]): void;
  /** The line, the count of what waits, or leases are others. */
  state?(): void;
}

export class Agent {
  readonly #memory: Memory;
  #line: ShopLink | undefined;
  #carrier: Carrier | undefined;
  #problem: Problem | undefined;
  #edition: readonly Problem[] = [];
  #over = false;
  #running: Promise<void> | undefined;
  #wake: () => void = () => undefined;
  #woken = false;
  #busy = true;
  #pollAt = 0;
  #readAt = 0;
  #lookAt = 0;
  /** Journals that may have lines which the server lacks. */
  readonly #dirty = new Set<string>();
  /** Units that this bench was left with, or whose screen was left: one that asked meanwhile may have it. */
  readonly #letGo = new Set<string>();
  /** Those that are known to, and how many lines they have here. */
  readonly #ends = new Map<string, number>();

  constructor(
    private readonly at: AgentPlace,
    private readonly heard: Heard = {},
  ) {
    this.#memory = new Memory(at.disk, at.root);
    for (const journal of this.#memory.behind.keys()) this.#look(journal);
  }

  /** Why the line is down; undefined while it is up. */
  get down(): Problem | undefined {
    return this.#line ? undefined : (this.#problem ?? shopProblem('shop.unreachable'));
  }

  /** Waits until the line is up or an attempt has failed, at most so long. */
  async firstAnswer(ms = 10_000): Promise<void> {
    const end = performance.now() + ms;
    while (!this.#line && !this.#problem && performance.now() < end) await pause(10);
  }

  /** Journals that cannot be exchanged, and files that were not taken. */
  get troubles(): readonly Problem[] {
    return [
      ...(this.#line?.exchange.wrong.values() ?? []),
      ...this.#edition,
      ...(this.#carrier?.troubles ?? []),
    ];
  }

  /** Lines on this disk that the server does not have yet. */
  waiting(): number {
    let count = 0;
    for (const [journal, end] of this.#ends) count += Math.max(0, end - this.#handed(journal));
    return count;
  }

  /** Whether the server has so many lines of a unit, and all files that wait to be brought. */
  hasAll(job: string, unit: string, lines: number): boolean {
    return (
      this.#line !== undefined &&
      this.#handed(`${job}/${unit}`) >= lines &&
      (this.#carrier?.isSettled ?? false)
    );
  }

  /** Lines of a unit that the server is known to have. */
  handed(job: string, unit: string): number {
    return this.#handed(`${job}/${unit}`);
  }

  /** The bench that has the lease of a unit, as far as this folder knows. */
  holder(job: string, unit: string): string | undefined {
    return this.#memory.leases.get(`${job}/${unit}`);
  }

  /** The bench that has each unit, by `job/unit`; another map once something changed. */
  get leases(): ReadonlyMap<string, string> {
    return this.#memory.leases;
  }

  /** Whether the server has other lines of a unit, which is open here: it must be let go. */
  isBlocked(job: string, unit: string): boolean {
    return this.#line?.exchange.blocked.has(`${job}/${unit}`) ?? false;
  }

  /** How much this bench's clock is ahead of another's, ms; undefined if one of them is not known. */
  aheadOf(bench: string): number | undefined {
    const { clocks } = this.#memory;
    const [own, other] = [clocks.get(this.at.card.bench), clocks.get(bench)];
    return own === undefined || other === undefined ? undefined : own - other;
  }

  /** The edition of the workshop's files that is here. */
  edition(): Held {
    return heldEdition(this.at.disk, this.at.root);
  }

  start(): void {
    this.#running ??= this.#run();
  }

  /** Ends the connection; what waits is handed over the next time. */
  async stop(): Promise<void> {
    this.#over = true;
    this.#line?.client.close();
    this.#wakeUp();
    await this.#carrier?.stop();
    await this.#running;
    this.#memory.save();
  }

  /** So many lines were written to a file of the workshop, which has so many now: read from it where that is not known. None: it was let go. */
  wrote(file: string, count: number, lines?: number): void {
    const journal = journalNamed(file);
    if (journal === undefined) return;
    if (lines === undefined) this.#look(journal);
    else this.#ends.set(journal, lines);
    const end = this.#ends.get(journal) ?? 0;
    if (!this.#line && !this.#memory.behind.has(journal))
      this.#memory.setBehind(journal, Math.max(0, end - count));
    this.#dirty.add(journal);
    if (count === 0) this.#letGo.add(journal);
    this.#busy = true;
    this.#wakeUp();
  }

  /** Waits until both sides have the same, at most so long. Returns whether that was reached. */
  async settle(ms: number): Promise<boolean> {
    const end = performance.now() + ms;
    for (;;) {
      if (this.#line && !this.#busy && this.waiting() === 0 && this.#carrier?.isSettled) return true;
      if (performance.now() >= end) return false;
      await pause(10);
    }
  }

  /** Takes the lease of a unit, or asks the bench that has it. A problem if it was not to be had. */
  lease(job: string, unit: string): Promise<Result<void>> {
    const journal = `${job}/${unit}`;
    return this.#onLine(async (line) => {
      const { leases, exchange } = line;
      const took = await leases.take(journal);
      if (!took.ok) return took;
      if (!took.value) await askFor(line, journal);
      if (!leases.isOwn(journal)) return err(leasedBy(leases.of(journal)?.bench, unit));
      await exchange.fetch(journal);
      return ok(undefined);
    });
  }

  /** Takes a unit from the bench that has it. */
  takeOver(job: string, unit: string, how: Takeover): Promise<Result<void>> {
    const { disk, root, card, clock } = this.at;
    return this.#onLine((line) =>
      takeOver(line, { disk, root, bench: card.bench, clock }, `${job}/${unit}`, how),
    );
  }

  async #onLine(run: (line: ShopLink) => Promise<Result<void>>): Promise<Result<void>> {
    const line = this.#line;
    if (!line) return err(this.down!);
    try {
      const done = await run(line);
      this.#keepLeases(line);
      this.#tell(line);
      return done;
    } catch (error) {
      return err(this.#failed(line, error));
    }
  }

  async #run(): Promise<void> {
    for (let tries = 0; !this.#over; ) {
      try {
        if (await this.#once()) tries = 0;
        this.#memory.save();
        this.heard.state?.();
      } catch (error) {
        // Whatever goes wrong here must not end the bench.
        this.#problem = faultOf(error);
      }
      if (!this.#over) await this.#rest(WAITS[Math.min(tries++, WAITS.length - 1)]!);
    }
  }

  /** Returns whether a connection was to be had. */
  async #once(): Promise<boolean> {
    const settings = this.at.settings();
    const opened = settings.ok
      ? await openLink({ ...this.at, settings: settings.value }, this.#memory.tips)
      : settings;
    if (opened.ok) return this.#session(opened.value);
    this.#problem = opened.problems[0];
    return false;
  }

  /** One connection, until it ends. Returns whether everything was exchanged over it once. */
  async #session(line: ShopLink): Promise<boolean> {
    const { disk, root, card, settings } = this.at;
    try {
      await line.client.listen(() => {
        this.#pollAt = Math.min(this.#pollAt, this.#readAt + LEAST_MS);
        this.#wakeUp();
      });
      // Before the line counts as up: a unit that was begun without it is not taken off the screen for a moment.
      this.#tell(line);
      for (const journal of [...this.#ends.keys()]) this.#settled(line, journal);
      await leaseWhatWasBegun(line);
      this.#line = line;
      this.#memory.clocks = line.clocks;
      this.#carrier ??= new Carrier(
        { disk, root, settings, folder: card.folder },
        () => this.heard.files?.(),
        () => this.#wakeUp(),
      );
      this.#carrier.more();
      this.#keepLeases(line);
      await this.#takeEdition(line);
      await takeAhead(line, card.bench, this.at.ahead());
      this.#tell(line);
      while (!this.#over && !line.client.over) await this.#turn(line);
      this.#problem = line.client.over;
    } catch (error) {
      this.#problem = this.#failed(line, error);
    }
    line.client.close();
    this.#memory.keepTips(line.exchange.tips(), line.read);
    // How far the server had come is remembered for what it does not have yet.
    for (const journal of this.#ends.keys()) this.#memory.setBehind(journal, line.exchange.handed(journal));
    this.#line = undefined;
    return true;
  }

  async #turn(line: ShopLink): Promise<void> {
    if (this.#dirty.size > 0) {
      for (const journal of this.#dirty) {
        this.#dirty.delete(journal);
        await line.exchange.handOver(journal);
        this.#settled(line, journal);
      }
      for (const journal of this.#letGo) {
        this.#letGo.delete(journal);
        await freeIfAsked(line, this.#memory.leases, this.at, journal);
        this.#keepLeases(line);
      }
      await leaseWhatWasBegun(line);
      this.#carrier?.more();
      this.#tell(line);
      await line.client.announce();
    }
    if (performance.now() >= this.#pollAt) {
      this.#readAt = performance.now();
      this.#pollAt = this.#readAt + POLL_MS;
      await this.#readNews(line);
    }
    if (performance.now() >= this.#lookAt) {
      this.#lookAt = performance.now() + LOOK_MS;
      await this.#lookThrough(line);
      this.#memory.keepTips(line.exchange.tips(), line.read);
      this.#memory.save();
    }
    this.#busy = this.#dirty.size > 0;
    if (!this.#busy) await this.#rest(Math.min(this.#pollAt, this.#lookAt) - performance.now());
  }

  /** What another program wrote into this folder. */
  async #lookThrough(line: ShopLink): Promise<void> {
    const { disk, root } = this.at;
    for (const [i, { journal, place }] of localJournals(disk, root).entries()) {
      if (i % 50 === 0) await breathe();
      const end = localEnd(disk, place);
      if (end.ok && end.value.n > line.exchange.handed(journal)) this.#dirty.add(journal);
    }
    this.#carrier?.more();
  }

  async #readNews(line: ShopLink): Promise<void> {
    const news = await newsSince(line.client, line.read);
    if (news.length === 0) return;
    for (const { folder, kind, subject, upto } of news) {
      if (kind === 'lease') await line.leases.reread(subject);
      // Another program of this folder has left the shop: nothing is handed over any more.
      if (kind === 'left' && folder === this.at.card.folder) line.client.close();
      if (folder === this.at.card.folder) continue;
      if (kind === 'lines' && line.exchange.handed(subject) < upto) await line.exchange.fetch(subject);
      if (kind === 'asked')
        await giveTo(line, this.#memory.leases, this.at, { journal: subject, turn: upto });
      if (kind === 'kept') this.#carrier?.more(subject);
      if (kind === 'edition') await this.#takeEdition(line);
    }
    this.#keepLeases(line);
    this.#tell(line);
  }

  async #takeEdition(line: ShopLink): Promise<void> {
    const taken = await takeEdition(line.client, this.at.disk, this.at.root);
    this.#edition = taken.ok ? [] : taken.problems;
    if (taken.ok && taken.value !== undefined) this.heard.edition?.();
  }

  #keepLeases({ leases }: ShopLink): void {
    this.#memory.keepLeases(leases.held());
  }

  #tell({ exchange }: ShopLink): void {
    const { branched, changed } = exchange.happened();
    // What waited of such a journal is in the branch.
    for (const { branch } of branched) {
      const journal = branch.slice(0, branch.lastIndexOf('~'));
      this.#ends.delete(journal);
      this.#memory.noLongerBehind(journal);
    }
    if (branched.length > 0) this.heard.branched?.(branched);
    if (changed.size > 0) this.heard.journals?.(new Set([...changed].filter(isUnitJournal)));
    if ([...changed].some((journal) => journal.endsWith('/setups.jsonl'))) this.heard.setups?.();
    this.heard.state?.();
  }

  /** The server has all of it, or it is known how much it lacks. */
  #settled(line: ShopLink, journal: string): void {
    if (line.exchange.handed(journal) < (this.#ends.get(journal) ?? 0)) return;
    this.#ends.delete(journal);
    this.#memory.noLongerBehind(journal);
  }

  #handed(journal: string): number {
    return this.#line?.exchange.handed(journal) ?? this.#memory.behind.get(journal) ?? 0;
  }

  #look(journal: string): void {
    const place = placeNamed(this.at.root, journal);
    const end = place.ok ? localEnd(this.at.disk, place.value) : place;
    if (end.ok) this.#ends.set(journal, end.value.n);
  }

  #failed(line: ShopLink, error: unknown): Problem {
    if (error instanceof ServerError) return error.problem;
    line.client.close();
    return faultOf(error);
  }

  async #rest(ms: number): Promise<void> {
    if (!this.#woken && ms > 0)
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, ms);
        this.#wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    this.#woken = false;
    this.#wake = () => undefined;
  }

  #wakeUp(): void {
    this.#woken = true;
    this.#wake();
  }
}

const leasedBy = (bench: string | undefined, unit: string): Problem =>
  bench === undefined
    ? shopProblem('shop.leased/other', { unit })
    : shopProblem('shop.leased', { bench, unit });
