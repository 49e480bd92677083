/**
 * Journals between this disk and the server, over one connection: whatever stands here and not there is handed over, in
 * order; whatever stands there and not here is laid beside it. Where both went on differently, the server's counts and
 * what was given here becomes a branch.
 */
import { setImmediate as breathe } from 'node:timers/promises';
import type { Problem, Result } from '../base/problem.js';
import type { Card } from '../store/card.js';
import type { Disk } from '../store/disk.js';
import { branchNamed, type JournalPlace } from '../store/paths.js';
import { benchFile } from '../store/register/place.js';
import { type Branched, branchOff } from './branchoff.js';
import { type ServerClient, ServerError } from './client.js';
import { localJournals, placeNamed } from './journalnames.js';
import {
  addLines,
  bytesAfter,
  hashAt,
  hashesAfter,
  type JournalLine,
  NOTHING,
  serverTip,
  serverTips,
  type Tip,
  wholeJournals,
} from './lines.js';
import {
  BEFORE_ALL,
  cursorAt,
  damaged,
  type FileEnd,
  layBehind,
  linesBehind,
  localEnd,
} from './localfile.js';
import { shopProblem } from './messages.js';
import type { Teller } from './news.js';
import { removedJobs } from './removal.js';

/** Lines handed over or fetched at once. */
const MOST_LINES = 500;
/** And bytes, unless a single line has more. */
const MOST_BYTES = 1_000_000;
/** Lines of whole journals that are fetched at once. */
const MOST_FETCHED = 10_000;
/** Journals looked at before keys and other work get their turn. */
const AT_ONCE = 50;

export interface Journals {
  readonly disk: Disk;
  readonly root: string;
  readonly card: Card;
  readonly now: () => string;
}

export class Exchange {
  /** What the server has, and where it ends in the file here. */
  readonly #there = new Map<string, FileEnd>();
  /** Journals that went different ways and are open here: nothing becomes of them until they are let go. */
  readonly blocked = new Set<string>();
  /** Journals that cannot be exchanged, and why. */
  readonly wrong = new Map<string, Problem>();
  #removed: ReadonlySet<string> = new Set();
  readonly #branched: Branched[] = [];
  readonly #changed = new Set<string>();
  readonly #given = new Set<string>();

  constructor(
    private readonly client: ServerClient,
    private readonly teller: Teller,
    private readonly at: Journals,
  ) {}

  #isRemoved(journal: string): boolean {
    return isUnits(journal) && this.#removed.has(journal.split('/')[0]!);
  }

  /** Lines of the journal that the server is known to have. Of a job that was removed nothing is wanted there. */
  handed(journal: string): number {
    if (this.#isRemoved(journal)) return Number.POSITIVE_INFINITY;
    return this.#there.get(journal)?.n ?? 0;
  }

  /** Journals of which lines were handed over since this was last asked. */
  given(): ReadonlySet<string> {
    const given = new Set(this.#given);
    this.#given.clear();
    return given;
  }

  /** Lines that the server has of each journal. */
  tips(): ReadonlyMap<string, number> {
    return new Map([...this.#there].map(([journal, { n }]) => [journal, n]));
  }

  /** Branches that were made, and journals that other benches have written on, since this was last asked. */
  happened(): { readonly branched: readonly Branched[]; readonly changed: ReadonlySet<string> } {
    const branched = this.#branched.splice(0);
    const changed = new Set(this.#changed);
    this.#changed.clear();
    return { branched, changed };
  }

  /**
   * Compares the last line of every journal, and brings both sides to the same. Throws ServerError.
   * @param known lines that the server was known to have. @param lost called before anything is handed over, if it has not
   */
  async begin(
    known: ReadonlyMap<string, number>,
    lost: (journals: readonly string[]) => Promise<void>,
    progress: (done: number, of: number) => void = () => undefined,
  ): Promise<void> {
    this.#removed = await removedJobs(this.client);
    const tips = await serverTips(this.client);
    const gone = lostOf(known, tips).filter((journal) => !this.#isRemoved(journal));
    if (gone.length > 0) await lost(gone);
    const local = localJournals(this.at.disk, this.at.root).filter(
      ({ journal }) => !this.#isRemoved(journal),
    );
    const here = new Set(local.map(({ journal }) => journal));
    const fresh = [...tips].filter(([journal, { n }]) => n > 0 && !here.has(journal));
    const of = local.length + fresh.length;
    for (const [i, { journal, place }] of local.entries()) {
      if (i % AT_ONCE === 0) {
        progress(i, of);
        await breathe();
      }
      await this.#compare(journal, place, tips.get(journal) ?? NOTHING);
    }
    let done = local.length;
    for (const journals of batches(fresh)) {
      await this.#fetchWhole(journals);
      done += journals.length;
      progress(done, of);
    }
  }

  /** Compares the last line of one journal, and brings both sides to the same. Throws ServerError. */
  async level(journal: string): Promise<void> {
    const place = this.#place(journal);
    if (place) await this.#compare(journal, place, await serverTip(this.client, journal));
  }

  /** Hands over what stands here and not there. Throws ServerError. */
  async handOver(journal: string): Promise<void> {
    const place = this.#isRemoved(journal) ? undefined : this.#place(journal);
    if (!place) return;
    for (;;) {
      const from = this.#there.get(journal) ?? BEFORE_ALL;
      const lines = linesBehind(this.at.disk, place, from);
      if (!lines.ok) {
        const tip = await serverTip(this.client, journal);
        if (tip.n === from.n && tip.hash === from.hash) this.#refuse(journal, damaged(place));
        else await this.#compare(journal, place, tip);
        return;
      }
      if (lines.value.length === 0) return;
      const batch = batchOf(lines.value);
      try {
        await this.teller.tell((news) => addLines(this.client, journal, batch, news));
      } catch (error) {
        if (!(error instanceof ServerError) || !(error.isTaken || error.hasNoRoot)) throw error;
        if (!(await this.#meet(journal, place, from, lines.value))) return;
        continue;
      }
      this.wrong.delete(journal);
      this.#given.add(journal);
      const { n, hash } = batch.at(-1)!;
      this.#there.set(journal, { n, hash, bytes: from.bytes + sizeOf(batch) });
    }
  }

  /** Lays what the server has behind what stands here. Throws ServerError. */
  async fetch(journal: string): Promise<void> {
    const place = this.#place(journal);
    if (!place) return;
    for (;;) {
      const from = this.#there.get(journal) ?? BEFORE_ALL;
      const end = localEnd(this.at.disk, place);
      if (!end.ok) {
        this.#refuse(journal, end.problems[0]!);
        return;
      }
      // Lines of this bench that are not there yet: handing them over finds out whose come first.
      if (end.value.n > from.n) {
        await this.handOver(journal);
        if ((this.#there.get(journal)?.n ?? 0) < end.value.n) return;
        continue;
      }
      const bytes = await bytesAfter(this.client, journal, from.n, MOST_LINES);
      if (bytes.length === 0) return;
      if (!this.#lay(journal, place, from, bytes)) return;
    }
  }

  /** Both sides of one journal, where `tip` is the server's last line. */
  async #compare(journal: string, place: JournalPlace, tip: Tip): Promise<void> {
    const end = localEnd(this.at.disk, place);
    if (!end.ok) return this.#refuse(journal, end.problems[0]!);
    const { n, hash } = end.value;
    if (tip.n === n && tip.hash === hash) {
      this.#there.set(journal, end.value);
      this.wrong.delete(journal);
      return;
    }
    if (tip.n <= n) {
      const cursor = cursorAt(this.at.disk, place, tip);
      if (!cursor.ok) return this.#diverged(journal, place);
      this.#there.set(journal, cursor.value);
      return this.handOver(journal);
    }
    if ((await hashAt(this.client, journal, n)) !== hash) return this.#diverged(journal, place);
    this.#there.set(journal, end.value);
    return this.fetch(journal);
  }

  /** The server has other lines of these numbers, or the same: whoever handed them over. Returns whether to go on. */
  async #meet(
    journal: string,
    place: JournalPlace,
    from: FileEnd,
    lines: readonly JournalLine[],
  ): Promise<boolean> {
    const theirs = await hashesAfter(this.client, journal, from.n, lines.length);
    const same = lines.findIndex(({ hash }, i) => theirs[i]?.hash !== hash);
    const count = same < 0 ? lines.length : same;
    const last = lines[count - 1];
    if (last)
      this.#there.set(journal, {
        n: last.n,
        hash: last.hash,
        bytes: from.bytes + sizeOf(lines.slice(0, count)),
      });
    if (count < theirs.length) {
      await this.#diverged(journal, place);
      return false;
    }
    // The root was there and is gone: the server lost lines that it had.
    if (count === 0) {
      const tip = await serverTip(this.client, journal);
      if (tip.n === from.n) return this.#isRefused(journal);
      await this.#compare(journal, place, tip);
      return false;
    }
    return true;
  }

  /** A line that the server takes from nobody. */
  #isRefused(journal: string): boolean {
    this.#refuse(journal, placeProblem(journal));
    return false;
  }

  async #diverged(journal: string, place: JournalPlace): Promise<void> {
    if (!isUnits(journal)) return this.#refuse(journal, placeProblem(place.shown));
    const server = (await wholeJournals(this.client, [journal])).get(journal);
    if (!server) return this.#refuse(journal, placeProblem(place.shown));
    const { disk, root, card, now } = this.at;
    const branched = branchOff(disk, root, place, server, { bench: card.bench, at: now() });
    if (!branched.ok) {
      const problem = branched.problems[0]!;
      if (problem.id.startsWith('lock.')) this.blocked.add(journal);
      return this.#refuse(journal, problem);
    }
    this.blocked.delete(journal);
    this.wrong.delete(journal);
    this.#given.delete(journal);
    this.#branched.push(branched.value);
    this.#changed.add(journal);
    const end = localEnd(disk, place);
    if (end.ok) this.#there.set(journal, end.value);
    await this.handOver(branched.value.branch);
    // What the register said of the journal before goes over together with what sets it aside.
    await this.handOver(benchFile(card.bench));
  }

  async #fetchWhole(journals: readonly string[]): Promise<void> {
    const files = await wholeJournals(this.client, journals);
    for (const [journal, bytes] of files) {
      const place = this.#place(journal);
      if (place) this.#lay(journal, place, BEFORE_ALL, bytes);
    }
  }

  #lay(journal: string, place: JournalPlace, from: FileEnd, bytes: Buffer): boolean {
    const { disk, root, card } = this.at;
    const laid = layBehind(disk, root, place, from, bytes, card.bench);
    if (!laid.ok) {
      this.#refuse(journal, laid.problems[0]!);
      return false;
    }
    this.#there.set(journal, laid.value);
    this.#changed.add(journal);
    this.wrong.delete(journal);
    return true;
  }

  #place(journal: string): JournalPlace | undefined {
    const place: Result<JournalPlace> = placeNamed(this.at.root, journal);
    if (place.ok) return place.value;
    this.#refuse(journal, place.problems[0]!);
    return undefined;
  }

  #refuse(journal: string, problem: Problem): void {
    this.wrong.set(journal, problem);
  }
}

const placeProblem = (file: string): Problem =>
  shopProblem('shop.journal-differs/other-lines', { file }, { file });

/** Journals of which the server has fewer lines than it was known to have. */
export const lostOf = (known: ReadonlyMap<string, number>, tips: ReadonlyMap<string, Tip>): string[] =>
  [...known].filter(([journal, n]) => (tips.get(journal)?.n ?? 0) < n).map(([journal]) => journal);

/** `job/unit`, and so not a journal of the workshop. */
const isUnits = (journal: string): boolean => !journal.endsWith('.jsonl');

/** Whether the journal is a unit's own, and no branch. */
export const isUnitJournal = (journal: string): boolean =>
  isUnits(journal) && branchNamed(journal.split('/')[1] ?? '') === undefined;

const sizeOf = (lines: readonly JournalLine[]): number =>
  lines.reduce((sum, { bytes }) => sum + bytes.length + 1, 0);

function batchOf(lines: readonly JournalLine[]): readonly JournalLine[] {
  let bytes = 0;
  const end = lines.findIndex((line, i) => {
    bytes += line.bytes.length;
    return i > 0 && (i >= MOST_LINES || bytes > MOST_BYTES);
  });
  return end < 0 ? lines : lines.slice(0, end);
}

/** Journals in groups of which none is too large to be fetched at once. */
export function* batches(tips: readonly (readonly [string, Tip])[]): Generator<string[]> {
  let batch: string[] = [];
  let lines = 0;
  for (const [journal, { n }] of tips) {
    batch.push(journal);
    lines += n;
    if (lines < MOST_FETCHED) continue;
    yield batch;
    batch = [];
    lines = 0;
  }
  if (batch.length > 0) yield batch;
}
