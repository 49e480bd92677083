/**
 * A server that was put back to an earlier state: a folder finds it by lines that were there and are not any more. Until
 * every bench has brought back what it has, or the owner goes on without, no lease is given.
 */
import { randomBytes } from 'node:crypto';
import type { ServerClient } from './client.js';
import { SCHEMA } from './migrations.js';

export async function noteSetback(client: ServerClient, bench: string): Promise<void> {
  await client.query(`insert into ${SCHEMA}.setback (id, found_by) values ($1, $2)`, [
    randomBytes(8).toString('hex'),
    bench,
  ]);
}

/** This folder has handed over all that it has. */
export async function reportSetbacks(client: ServerClient, folder: string): Promise<void> {
  await client.query(
    `insert into ${SCHEMA}.reported (setback, folder)
     select s.id, $1 from ${SCHEMA}.setback s
     where not exists (select 1 from ${SCHEMA}.resumed r where r.setback = s.id)
     on conflict do nothing`,
    [folder],
  );
}

/** Goes on without the benches that have not reported. Returns how many setbacks that ended. */
export async function resumeShop(client: ServerClient, by: string, reason: string): Promise<number> {
  const rows = await client.query(
    `insert into ${SCHEMA}.resumed (setback, resumed_by, reason)
     select s.id, $1, $2 from ${SCHEMA}.setback s
     where not exists (select 1 from ${SCHEMA}.resumed r where r.setback = s.id)
     returning setback`,
    [by, reason],
  );
  return rows.length;
}
