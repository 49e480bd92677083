/** Instruments that editions took out of the workshop's files: what was measured with one afterwards is to be told. */
import { parseInstruments } from '../measure/instruments.js';
import type { ServerClient } from './client.js';
import { getContent } from './contents.js';
import { SCHEMA } from './migrations.js';

const FILE = 'shared/instruments.yaml';

/** By the instrument's id: the edition without it, published at, UTC. */
type Retired = Readonly<
  Record<string, { readonly at: string; readonly by: string; readonly reason: string }>
>;

/**
 * Those retired by the editions after number `from`, added to those known before; one that came back is none of them.
 * Throws ServerError.
 */
export async function retiredAfter(client: ServerClient, from: number, known: Retired): Promise<Retired> {
  const editions = await client.query<{ at: Date; by: string; reason: string; sha256: string | null }>(
    `select e.published_at as at, e.published_by as by, e.reason, f.sha256 from ${SCHEMA}.edition e left join ${SCHEMA}.edition_file f on f.n = e.n and f.path = $2 where e.n >= $1 order by e.n`,
    [from, FILE],
  );
  const retired = new Map(Object.entries(known));
  let before: ReadonlySet<string> | undefined;
  let last: string | null | undefined;
  for (const { at, by, reason, sha256 } of editions) {
    if (sha256 === last) continue;
    last = sha256;
    const now = await instrumentsIn(client, sha256);
    if (!now) continue;
    for (const id of before ?? []) if (!now.has(id)) retired.set(id, { at: at.toISOString(), by, reason });
    for (const id of now) retired.delete(id);
    before = now;
  }
  return Object.fromEntries(retired);
}

/** Undefined where they cannot be read: that is told elsewhere. */
async function instrumentsIn(
  client: ServerClient,
  sha256: string | null,
): Promise<ReadonlySet<string> | undefined> {
  const content = sha256 === null ? undefined : await getContent(client, sha256);
  if (!content?.ok) return undefined;
  const read = parseInstruments({ file: FILE, text: content.value.toString('utf8') });
  return read.ok ? new Set(read.value.map(({ id }) => id)) : undefined;
}
