/**
 * Removing a job from the server, for erasure or because it need not be kept any longer: the owner's act. What stays is that it
 * was there, by whom it was removed and why, and how far each of its journals had come. No bench hands it over again.
 */
import { err, ok, type Result } from '../base/problem.js';
import { isFileName } from '../store/paths.js';
import type { ServerClient } from './client.js';
import { shopProblem } from './messages.js';
import { SCHEMA } from './migrations.js';

/** Returns how many journals went. A job that the server does not have is a problem. Throws ServerError. */
export async function removeFromShop(
  client: ServerClient,
  job: string,
  by: string,
  reason: string,
): Promise<Result<number>> {
  if (!isFileName(job)) return err(shopProblem('shop.no-job', { job }));
  const prefix = `${job}/`;
  const [there] = await client.query<{ count: string }>(
    `select count(*) as count from ${SCHEMA}.line where n = 0 and starts_with(journal, $1)`,
    [prefix],
  );
  const journals = Number(there?.count ?? 0);
  if (journals === 0) return err(shopProblem('shop.no-job/server', { job }));
  const path = `logs/${job}/`;
  await client.together([
    {
      text: `insert into ${SCHEMA}.removed (job, removed_by, reason) values ($1, $2, $3)`,
      values: [job, by, reason],
    },
    {
      text: `insert into ${SCHEMA}.removed_head (journal, job, n, hash)
             select l.journal, $1, l.n, l.hash from ${SCHEMA}.line l
             where starts_with(l.journal, $2)
               and l.n = (select max(m.n) from ${SCHEMA}.line m where m.journal = l.journal)`,
      values: [job, prefix],
    },
    { text: `delete from ${SCHEMA}.line where starts_with(journal, $1)`, values: [prefix] },
    { text: `delete from ${SCHEMA}.asked where starts_with(journal, $1)`, values: [prefix] },
    { text: `delete from ${SCHEMA}.lease where starts_with(journal, $1)`, values: [prefix] },
    { text: `delete from ${SCHEMA}.kept where starts_with(path, $1)`, values: [path] },
    {
      text: `delete from ${SCHEMA}.content c where not exists (select 1 from ${SCHEMA}.kept k where k.sha256 = c.sha256)
             and not exists (select 1 from ${SCHEMA}.edition_file e where e.sha256 = c.sha256)`,
    },
    {
      text: `delete from ${SCHEMA}.piece p where not exists (select 1 from ${SCHEMA}.content c where c.sha256 = p.sha256)`,
    },
  ]);
  return ok(journals);
}

/** Jobs that were removed: nothing of them is exchanged. */
export async function removedJobs(client: ServerClient): Promise<ReadonlySet<string>> {
  const rows = await client.query<{ job: string }>(`select job from ${SCHEMA}.removed`);
  return new Set(rows.map(({ job }) => job));
}
