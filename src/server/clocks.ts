/** How far the clock of a bench is from the server's, which all benches can see. */
import type { ServerClient } from './client.js';
import { SCHEMA } from './migrations.js';

/** Clocks further apart than before by this are written down again, ms. */
const WORTH_MS = 1_000;

/** Measures how much this bench's clock is ahead, ms, and writes it down where it changed. */
export async function noteClock(client: ServerClient, folder: string, clock: () => number): Promise<number> {
  const before = clock();
  const [row] = await client.query<{ ms: string }>(
    `select (extract(epoch from clock_timestamp()) * 1000)::bigint as ms`,
  );
  // The server looked at its clock about half way.
  const ahead = Math.round((before + clock()) / 2 - Number(row?.ms ?? before));
  const [last] = await client.query<{ ahead_ms: number }>(
    `select ahead_ms from ${SCHEMA}.clock where folder = $1 order by at desc limit 1`,
    [folder],
  );
  if (last === undefined || Math.abs(Number(last.ahead_ms) - ahead) > WORTH_MS)
    await client.query(
      `insert into ${SCHEMA}.clock (folder, ahead_ms) values ($1, $2) on conflict do nothing`,
      [folder, Math.max(-2_000_000_000, Math.min(2_000_000_000, ahead))],
    );
  return ahead;
}

/** How much the clock of each bench was ahead of the server's when it last connected, ms, by the bench's name. */
export async function clocksOf(client: ServerClient): Promise<ReadonlyMap<string, number>> {
  const rows = await client.query<{ name: string; ahead_ms: number }>(
    `select b.name, (select c.ahead_ms from ${SCHEMA}.clock c where c.folder = b.folder order by c.at desc limit 1) as ahead_ms
     from ${SCHEMA}.bench b`,
  );
  return new Map(rows.flatMap(({ name, ahead_ms }) => (ahead_ms === null ? [] : [[name, Number(ahead_ms)]])));
}
