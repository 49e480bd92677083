/**
 * A bench's part in a shop of several: whether a unit may be written here, and what the screens say of the line. The agent
 * does the work; nothing here waits for the server.
 */
import type { Problem } from '../base/problem.js';
import type { Agent } from '../server/agent.js';
import { shopProblem } from '../server/messages.js';
import type { Card } from '../store/card.js';
import type { UseEnded } from '../unit/lateuse.js';
import type { Unseen } from '../unit/types.js';
import type { BoardEntry, ShopSeen } from './ports.js';

/** How long an answer about a unit counts, ms: opening it again then asks again. */
const COUNTS_MS = 4_000;

/** Begun, be it with a note alone, and not closed. */
const isBeingMade = ({ total, standing }: BoardEntry): boolean =>
  total > 0 && standing !== 'finished' && standing !== 'scrapped';

/** A unit cannot be asked for then. */

/** What waits for longer is told, ms. */
const LONG_MS = 1_000;

export class SharedShop {
  readonly #answers = new Map<string, { readonly at: number; readonly problem?: Problem }>();
  readonly #asking = new Set<string>();
  #branched: Problem | undefined;
  #board:
    | { readonly rows: unknown; readonly leases: unknown; readonly shown: readonly BoardEntry[] }
    | undefined;
  #edition: ShopSeen['edition'];
  /** When something began to wait, ms. */
  #waitsSince: number | undefined;

  constructor(
    readonly agent: Agent,
    private readonly card: Card,
    /** Whether a unit may be released while the server lacks some of it. */
    private readonly mayReleaseUnseen: () => boolean,
    /** Whether the unit's journal has lines in this folder. */
    private readonly isBegun: (job: string, unit: string) => boolean,
    /** Monotonic, ms. */
    private readonly steady: () => number,
  ) {}

  /** The board with the bench that has each unit which is being made elsewhere. */
  withHolders(rows: readonly BoardEntry[]): readonly BoardEntry[] {
    const { leases } = this.agent;
    if (this.#board?.rows !== rows || this.#board.leases !== leases) {
      const shown = rows.map((row) => {
        const holder = leases.get(`${row.job}/${row.unit}`);
        const isAway = holder !== undefined && holder !== this.card.bench && isBeingMade(row);
        return isAway ? { ...row, at: holder } : row;
      });
      this.#board = { rows, leases, shown };
    }
    return this.#board.shown;
  }

  /** The workshop's files are others. */
  tookEdition(): void {
    const { n, by, reason } = this.agent.edition();
    this.#edition = { n, by, reason };
  }

  seen(): ShopSeen {
    const { down } = this.agent;
    const waiting = this.agent.waiting();
    if (waiting === 0) this.#waitsSince = undefined;
    else this.#waitsSince ??= this.steady();
    // What is on its way for a moment only would flicker.
    const isLong = this.#waitsSince !== undefined && this.steady() - this.#waitsSince >= LONG_MS;
    return {
      ...(down ? { down } : {}),
      waiting: down || isLong ? waiting : 0,
      ...(this.#edition ? { edition: this.#edition } : {}),
    };
  }

  /** What somebody has to see to: that the line is down for a while is none of it. */
  trouble(): Problem | undefined {
    const { down, troubles } = this.agent;
    if (this.#branched) return this.#branched;
    return down && down.id !== 'shop.unreachable' ? down : troubles.find(({ id }) => !id.startsWith('lock.'));
  }

  /** Whether the shop must be asked before the unit is opened, which it can be. */
  mustAsk(job: string, unit: string): boolean {
    if (this.agent.down || this.agent.holder(job, unit) === this.card.bench) return false;
    const answer = this.#answers.get(`${job}/${unit}`);
    return answer === undefined || this.steady() - answer.at > COUNTS_MS;
  }

  /** Whether this bench has the unit. */
  isOwn(job: string, unit: string): boolean {
    return this.agent.holder(job, unit) === this.card.bench;
  }

  /** Whether no bench has the unit, as the server says. */
  isFree(job: string, unit: string): boolean {
    return !this.agent.down && this.agent.holder(job, unit) === undefined;
  }

  /** Asks for the lease; `answered` is called once, with a problem or without. */
  ask(job: string, unit: string, answered: (problem?: Problem) => void): void {
    const key = `${job}/${unit}`;
    if (this.#asking.has(key)) return;
    this.#asking.add(key);
    void this.agent.lease(job, unit).then((asked) => {
      this.#asking.delete(key);
      const problem = asked.ok ? undefined : asked.problems[0]!;
      this.#answers.set(key, { at: this.steady(), ...(problem ? { problem } : {}) });
      answered(problem);
    });
  }

  /** Why the unit may only be looked at: another bench has it, or it was not to be had. Without a line it is begun all the same. */
  lookOnly(job: string, unit: string): Problem | undefined {
    // An older program than the shop's tables would hand over what it does not know.
    if (this.agent.down?.id === 'shop.newer') return this.agent.down;
    const holder = this.agent.holder(job, unit);
    if (holder === this.card.bench) return undefined;
    // Without a line a unit may be begun here; it is the unit's journal if no other bench began it meanwhile.
    if (holder !== undefined && (!this.agent.down || this.isBegun(job, unit)))
      return shopProblem(this.agent.down ? 'shop.leased/no-line' : 'shop.leased', { bench: holder, unit });
    const answer = this.#answers.get(`${job}/${unit}`);
    return answer && !this.agent.down && this.steady() - answer.at <= COUNTS_MS ? answer.problem : undefined;
  }

  /** Why a unit that is open here for writing is so no longer: the line is up, and another bench has it. */
  lost(job: string, unit: string): Problem | undefined {
    if (this.agent.down) return undefined;
    return this.agent.isBlocked(job, unit)
      ? shopProblem('shop.branched', { unit })
      : this.lookOnly(job, unit);
  }

  /** Journals of this bench became branches: somebody is to know. */
  branched(branches: readonly string[]): void {
    const units = branches.map((each) => each.split('/')[1]).join(', ');
    this.#branched = shopProblem('shop.branched/another', { units });
  }

  /** What the server lacks of a unit with so many lines; undefined if nothing. */
  unseen(job: string, unit: string, lines: number): Unseen | undefined {
    if (this.agent.hasAll(job, unit, lines)) return undefined;
    return {
      lines: Math.max(0, lines - this.agent.handed(job, unit)),
      allowed: this.mayReleaseUnseen(),
    };
  }

  /** Instruments that the shop took out of use. */
  retired(): readonly UseEnded[] {
    return Object.entries(this.agent.edition().retired).map(([id, { at, by, reason }]) => ({
      kind: 'instrument',
      id,
      at,
      by: `${by} (${reason})`,
    }));
  }

  /** So many lines were written to a file of the workshop, which has so many now, where that is known. */
  wrote(file: string, count: number, lines?: number): void {
    this.agent.wrote(file, count, lines);
  }
}
