/** Lines of journals on the server: a row a line, added and never changed. */
import { checkLine, FIRST_PREV } from '../unit/chain.js';
import { type ServerClient, ServerError } from './client.js';
import { SCHEMA } from './migrations.js';

export interface Tip {
  readonly n: number;
  readonly hash: string;
}

export interface JournalLine extends Tip {
  readonly prev: string;
  /** As it stands in the file, without its line end. */
  readonly bytes: Buffer;
}

/** Before the first line. */
export const NOTHING: Tip = { n: 0, hash: FIRST_PREV };

const LF = 0x0a;

/** Whole lines, in order; what follows the last line end is left out. Undefined if one is no whole line of a chain after `tip`. */
export function linesIn(bytes: Buffer, tip: Tip): JournalLine[] | undefined {
  const lines: JournalLine[] = [];
  let last = tip;
  let from = 0;
  for (let end = bytes.indexOf(LF); end >= 0; end = bytes.indexOf(LF, from)) {
    const line = lineOf(bytes.subarray(from, end));
    if (!line || line.n !== last.n + 1 || line.prev !== last.hash) return undefined;
    lines.push(line);
    last = line;
    from = end + 1;
  }
  return lines;
}

function lineOf(bytes: Buffer): JournalLine | undefined {
  const read = checkLine(bytes.toString('utf8'));
  if (!read.whole) return undefined;
  const { n, hash, prev } = read.event;
  return { n, hash, prev, bytes };
}

/** The last line of every journal that the server has. */
export async function serverTips(client: ServerClient): Promise<Map<string, Tip>> {
  const rows = await client.query<{ journal: string; n: number; hash: string }>(
    `select f.journal, t.n::int as n, t.hash from ${SCHEMA}.line f
     join lateral (select l.n, l.hash from ${SCHEMA}.line l where l.journal = f.journal order by l.n desc limit 1) t on true
     where f.n = 0`,
  );
  return new Map(rows.map(({ journal, n, hash }) => [journal, { n: Number(n), hash }]));
}

/** Of one journal; `NOTHING` if the server has none of it. */
export async function serverTip(client: ServerClient, journal: string): Promise<Tip> {
  const [row] = await client.query<{ n: number; hash: string }>(
    `select n, hash from ${SCHEMA}.line where journal = $1 order by n desc limit 1`,
    [journal],
  );
  return row ? { n: Number(row.n), hash: row.hash } : NOTHING;
}

/**
 * Adds lines that follow one another, and the news of it, as a whole. Throws ServerError: `isTaken` if the server has a line
 * of one of these numbers, `hasNoRoot` if it lacks the one that they follow.
 */
export async function addLines(
  client: ServerClient,
  journal: string,
  lines: readonly JournalLine[],
  news: { readonly folder: string; readonly k: number },
): Promise<void> {
  if (lines[0]?.n === 1)
    await client.query(
      `insert into ${SCHEMA}.line (journal, n, hash, line) values ($1, 0, $2, '') on conflict do nothing`,
      [journal, FIRST_PREV],
    );
  await client.query(
    `with added as (
       insert into ${SCHEMA}.line (journal, n, pn, prev, hash, line)
       select $1, x.n, x.n - 1, x.prev, x.hash, x.line
       from unnest($2::int[], $3::text[], $4::text[], $5::bytea[]) as x (n, prev, hash, line)
       returning n
     )
     insert into ${SCHEMA}.news (folder, k, kind, subject, upto) select $6, $7::int, 'lines', $1, max(n) from added`,
    [
      journal,
      lines.map(({ n }) => n),
      lines.map(({ prev }) => prev),
      lines.map(({ hash }) => hash),
      lines.map(({ bytes }) => bytes),
      news.folder,
      news.k,
    ],
  );
}

/** Whether the number of the news, and no line, was taken: another process of this folder was faster. */
export const isNewsTaken = (error: unknown): boolean =>
  error instanceof ServerError && error.isTaken && /^news/.test(error.constraint);

/** Numbers and hashes of the lines behind `n`, at most `most` of them. */
export async function hashesAfter(
  client: ServerClient,
  journal: string,
  n: number,
  most: number,
): Promise<Tip[]> {
  const rows = await client.query<{ n: number; hash: string }>(
    `select n, hash from ${SCHEMA}.line where journal = $1 and n > $2 order by n limit $3`,
    [journal, n, most],
  );
  return rows.map((row) => ({ n: Number(row.n), hash: row.hash }));
}

/** The hash of line `n`, and of row 0 the one that the first line follows; undefined if there is none. */
export async function hashAt(client: ServerClient, journal: string, n: number): Promise<string | undefined> {
  const [row] = await client.query<{ hash: string }>(
    `select hash from ${SCHEMA}.line where journal = $1 and n = $2`,
    [journal, n],
  );
  return row?.hash;
}

/** The bytes of the lines behind `n`, each with its line end, at most `most` of them. */
export async function bytesAfter(
  client: ServerClient,
  journal: string,
  n: number,
  most: number,
): Promise<Buffer> {
  const rows = await client.query<{ line: Buffer }>(
    `select line from ${SCHEMA}.line where journal = $1 and n > $2 order by n limit $3`,
    [journal, n, most],
    { utf8: true },
  );
  return Buffer.concat(rows.flatMap(({ line }) => [line, Buffer.of(LF)]));
}

/** Whole journals, as their files are. */
export async function wholeJournals(
  client: ServerClient,
  journals: readonly string[],
): Promise<ReadonlyMap<string, Buffer>> {
  const rows = await client.query<{ journal: string; file: Buffer }>(
    `select journal, string_agg(line, '\\x0a'::bytea order by n) as file
     from ${SCHEMA}.line where journal = any($1::text[]) and n > 0 group by journal`,
    [journals],
    { utf8: true },
  );
  return new Map(rows.map(({ journal, file }) => [journal, Buffer.concat([file, Buffer.of(LF)])]));
}
