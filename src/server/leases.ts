/**
 * Who may write which unit: turns on the server, of which the last counts. They never expire. A bench takes them ahead,
 * gives one that it does not use to whoever asks, and may lose one to a person who takes the unit over.
 */

import type { Problem } from '../base/problem.js';
import { err, ok, type Result } from '../base/problem.js';
import type { ServerClient } from './client.js';
import { shopProblem } from './messages.js';
import { SCHEMA } from './migrations.js';
import { type Teller, unlessTaken } from './news.js';

export interface Turn {
  readonly turn: number;
  /** Undefined: given back. */
  readonly bench: string | undefined;
}

export class Leases {
  readonly #turns = new Map<string, Turn>();

  constructor(
    private readonly client: ServerClient,
    private readonly teller: Teller,
    private readonly bench: string,
  ) {}

  async begin(): Promise<void> {
    const rows = await this.client.query<{ journal: string; turn: number; bench: string | null }>(
      `select f.journal, t.turn, t.bench from ${SCHEMA}.lease f
       join lateral (select l.turn, l.bench from ${SCHEMA}.lease l where l.journal = f.journal order by l.turn desc limit 1) t
       on true where f.turn = 1`,
    );
    for (const { journal, turn, bench } of rows)
      this.#turns.set(journal, { turn: Number(turn), bench: bench ?? undefined });
  }

  of(journal: string): Turn | undefined {
    return this.#turns.get(journal);
  }

  isOwn(journal: string): boolean {
    return this.#turns.get(journal)?.bench === this.bench;
  }

  /** Journals and the benches that have them. */
  held(): ReadonlyMap<string, string> {
    return new Map(
      [...this.#turns].flatMap(([journal, { bench }]) => (bench === undefined ? [] : [[journal, bench]])),
    );
  }

  /** The turn as it is on the server now. */
  async reread(journal: string): Promise<Turn | undefined> {
    const [row] = await this.client.query<{ turn: number; bench: string | null }>(
      `select turn, bench from ${SCHEMA}.lease where journal = $1 order by turn desc limit 1`,
      [journal],
    );
    if (row) this.#turns.set(journal, { turn: Number(row.turn), bench: row.bench ?? undefined });
    return this.#turns.get(journal);
  }

  /** Takes the lease if nobody has it. Returns whether this bench has it then. Throws ServerError. */
  async take(journal: string): Promise<Result<boolean>> {
    const last = this.#turns.get(journal);
    if (last?.bench === this.bench) return ok(true);
    if (last?.bench !== undefined) return ok(false);
    const waits = await this.waitsAfterSetback();
    if (waits) return err(waits);
    const took = await this.#next(journal, last, this.bench, 'nobody', 'taken');
    if (!took) await this.reread(journal);
    return ok(this.isOwn(journal));
  }

  /** Gives it to the bench that asked, or back. Returns whether it was this bench's to give. */
  async give(journal: string, to: string | undefined): Promise<boolean> {
    const last = this.#turns.get(journal);
    if (last?.bench !== this.bench) return false;
    // Taken off first: nothing is opened with it meanwhile.
    this.#turns.set(journal, { turn: last.turn, bench: to });
    const gave = await this.#next(journal, last, to, 'nobody', to === undefined ? 'given back' : 'asked for');
    if (!gave) await this.reread(journal);
    return gave;
  }

  /** Says to the bench that has it that this one wants it. */
  async ask(journal: string): Promise<void> {
    const last = this.#turns.get(journal);
    if (!last) return;
    // Asked again, it is told again: the bench may have been busy with it the first time.
    await this.client.query(
      `insert into ${SCHEMA}.asked (journal, turn, bench) values ($1, $2, $3) on conflict do nothing`,
      [journal, last.turn, this.bench],
    );
    await this.teller.tell(async ({ folder, k }) => {
      await this.client.query(
        `insert into ${SCHEMA}.news (folder, k, kind, subject, upto) values ($1, $2, 'asked', $3, $4)`,
        [folder, k, journal, last.turn],
      );
    });
  }

  /** Benches that asked for this turn, in no order. */
  async asking(journal: string, turn: number): Promise<string[]> {
    const rows = await this.client.query<{ bench: string }>(
      `select bench from ${SCHEMA}.asked where journal = $1 and turn = $2 order by bench`,
      [journal, turn],
    );
    return rows.map(({ bench }) => bench);
  }

  /** The next turn, in the name of a person. Returns false if somebody else had it first. */
  async next(journal: string, by: string, reason: string): Promise<boolean> {
    const took = await this.#next(journal, this.#turns.get(journal), this.bench, by, reason);
    if (!took) await this.reread(journal);
    return took;
  }

  /** Why no lease is given; undefined if there is no reason. */
  async waitsAfterSetback(): Promise<Problem | undefined> {
    const rows = await this.client.query<{ id: string; missing: string[] | null }>(
      `select s.id, (
         select array_agg(b.name order by b.name) from ${SCHEMA}.bench b
         where not exists (select 1 from ${SCHEMA}.bench_left l where l.folder = b.folder)
           and not exists (select 1 from ${SCHEMA}.reported r where r.setback = s.id and r.folder = b.folder)
       ) as missing
       from ${SCHEMA}.setback s where not exists (select 1 from ${SCHEMA}.resumed m where m.setback = s.id)`,
    );
    const missing = new Set(rows.flatMap(({ missing }) => missing ?? []));
    if (missing.size === 0) return undefined;
    return shopProblem('shop.setback', { benches: [...missing].sort() });
  }

  async #next(
    journal: string,
    last: Turn | undefined,
    bench: string | undefined,
    by: string,
    reason: string,
  ): Promise<boolean> {
    const turn = (last?.turn ?? 0) + 1;
    const row = {
      journal,
      turn,
      ...(last ? { after: last.turn } : {}),
      ...(bench === undefined ? {} : { bench }),
      given_by: by,
      reason,
    };
    const took = await unlessTaken(() =>
      this.teller.add('lease', row, { kind: 'lease', subject: journal, upto: turn }),
    );
    if (took) this.#turns.set(journal, { turn, bench });
    return took;
  }
}
