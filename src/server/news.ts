/**
 * What each folder added to the shop, in its order. A number that is taken was taken by another process of the same folder,
 * and whoever waits for it sees what that one wrote: so no reader ever passes over a row that is committed late.
 */
import { type ServerClient, ServerError } from './client.js';
import { isNewsTaken } from './lines.js';
import { SCHEMA } from './migrations.js';

type NewsKind = 'lines' | 'lease' | 'asked' | 'kept' | 'edition' | 'pins' | 'setback' | 'left';

export interface News {
  readonly folder: string;
  readonly k: number;
  readonly kind: NewsKind;
  /** A journal, a path, or what else was added. */
  readonly subject: string;
  /** Its number: of the last line, of a turn, of a version. */
  readonly upto: number;
}

/** How far the news of each folder have been read. */
export type Read = Map<string, number>;

/** As they are now. */
export async function newsNow(client: ServerClient): Promise<Read> {
  const rows = await client.query<{ name: string; k: number | null }>(
    `select b.folder as name, (select n.k from ${SCHEMA}.news n where n.folder = b.folder order by n.k desc limit 1) as k
     from ${SCHEMA}.bench b`,
  );
  return new Map(rows.map(({ name, k }) => [name, Number(k ?? 0)]));
}

/** What was added since, in the order of each folder, and marks it as read. */
export async function newsSince(client: ServerClient, read: Read): Promise<News[]> {
  const rows = await client.query<News>(
    `select n.folder, n.k, n.kind, n.subject, n.upto from ${SCHEMA}.bench b
     left join unnest($1::text[], $2::int[]) as r (folder, k) on r.folder = b.folder
     join ${SCHEMA}.news n on n.folder = b.folder and n.k > coalesce(r.k, 0)
     order by n.folder, n.k limit 5000`,
    [[...read.keys()], [...read.values()]],
  );
  const fresh: News[] = [];
  for (const { folder, k, kind, subject, upto } of rows) {
    // A gap is a row that is still on its way; what follows it is read with it.
    if (Number(k) !== (read.get(folder) ?? 0) + 1) continue;
    read.set(folder, Number(k));
    fresh.push({ folder, k: Number(k), kind, subject, upto: Number(upto) });
  }
  return fresh;
}

/** Numbers the news of this folder. */
export class Teller {
  #k: number;

  constructor(
    private readonly client: ServerClient,
    readonly folder: string,
    k: number,
  ) {
    this.#k = k;
  }

  /** Writes something with its news; repeats it where another process of this folder took the number. */
  async tell(write: (news: { readonly folder: string; readonly k: number }) => Promise<void>): Promise<void> {
    for (let tries = 1; ; tries++) {
      try {
        await write({ folder: this.folder, k: this.#k + 1 });
        this.#k += 1;
        return;
      } catch (error) {
        if (!isNewsTaken(error) || tries >= 50) throw error;
        const [row] = await this.client.query<{ k: number | null }>(
          `select max(k) as k from ${SCHEMA}.news where folder = $1`,
          [this.folder],
        );
        this.#k = Number(row?.k ?? 0);
      }
    }
  }

  /** A row of one table and its news, in one statement. Throws ServerError: `isTaken` if the row is there. */
  async add(
    table: string,
    row: Readonly<Record<string, string | number | Buffer | null>>,
    { kind, subject, upto }: Pick<News, 'kind' | 'subject' | 'upto'>,
  ): Promise<void> {
    const columns = Object.keys(row);
    const values = Object.values(row);
    const places = values.map((value, i) => `$${i + 1}::${typeOf(value)}`);
    const at = values.length;
    await this.tell(async ({ folder, k }) => {
      await this.client.query(
        `with added as (insert into ${SCHEMA}.${table} (${columns.join(', ')}) values (${places.join(', ')}) returning 1)
         insert into ${SCHEMA}.news (folder, k, kind, subject, upto)
         select $${at + 1}, $${at + 2}::int, $${at + 3}, $${at + 4}, $${at + 5}::int from added`,
        [...values, folder, k, kind, subject, upto],
      );
    });
  }
}

const typeOf = (value: string | number | Buffer | null): string =>
  typeof value === 'number' ? 'int' : Buffer.isBuffer(value) ? 'bytea' : 'text';

/** Runs it; `fallback` where the row was there already. */
export async function unlessTaken(run: () => Promise<void>): Promise<boolean> {
  try {
    await run();
    return true;
  } catch (error) {
    if (error instanceof ServerError && error.isTaken) return false;
    throw error;
  }
}
