/** The way into a shop: making it, bringing it up to date, and taking part in it. */
import { err, ok, type Result } from '../base/problem.js';
import { isFileName } from '../store/paths.js';
import { type ServerClient, ServerError } from './client.js';
import { newFolderId } from './contents.js';
import { shopProblem } from './messages.js';
import { grantsOf, MIGRATIONS, NEWEST, ROLES, type Role, SCHEMA } from './migrations.js';
import { type Teller, unlessTaken } from './news.js';

export interface ShopNamed {
  readonly id: string;
  readonly name: string;
  /** Form of the tables. */
  readonly form: number;
}

/** Which shop the database holds; a database without one is a problem. Throws ServerError. */
export async function shopThere(client: ServerClient): Promise<Result<ShopNamed>> {
  const form = await formThere(client);
  if (form === undefined) return err(shopProblem('shop.no-shop'));
  const [shop] = await client.query<{ id: string; name: string }>(`select id, name from ${SCHEMA}.shop`);
  return shop ? ok({ ...shop, form }) : err(shopProblem('shop.no-shop'));
}

async function formThere(client: ServerClient): Promise<number | undefined> {
  try {
    const [row] = await client.query<{ n: number | null }>(`select max(n) as n from ${SCHEMA}.migration`);
    return Number(row?.n ?? 0);
  } catch (error) {
    if (error instanceof ServerError && error.problem.id === 'shop.no-shop') return undefined;
    throw error;
  }
}

/** Whether this program may hand over to a shop of this form. */
export const formProblem = (form: number) =>
  form > NEWEST
    ? shopProblem('shop.newer', { form, newest: NEWEST })
    : form < NEWEST
      ? shopProblem('shop.older', { form, newest: NEWEST })
      : undefined;

export interface MadeShop {
  readonly shop: ShopNamed;
  /** It was there, and was brought to the present form. */
  readonly brought: boolean;
  /** Roles that this user may not make: statements for somebody who may. */
  readonly missing: readonly string[];
}

/**
 * Makes the tables, or brings them up to date, each step as a whole; then gives the roles their rights. A shop that is there
 * and up to date is a problem.
 */
export async function makeShop(
  client: ServerClient,
  name: string,
  program: string,
): Promise<Result<MadeShop>> {
  const form = await formThere(client);
  if (form !== undefined && form > NEWEST) return err(formProblem(form)!);
  if (form === NEWEST) return err(shopProblem('shop.there-already'));
  const id = newFolderId();
  for (const { n, statements } of MIGRATIONS.slice(form ?? 0))
    await client.together([
      ...(n === 1 ? FIRST : []).map((text) => ({ text })),
      ...statements.map((text) => ({ text })),
      {
        text: `insert into ${SCHEMA}.migration (n, program) values ($1, $2)`,
        values: [n, program],
      },
      ...(n === 1
        ? [{ text: `insert into ${SCHEMA}.shop (one, id, name) values (1, $1, $2)`, values: [id, name] }]
        : []),
    ]);
  const missing = await giveRights(client);
  const shop = await shopThere(client);
  return shop.ok ? ok({ shop: shop.value, brought: form !== undefined, missing }) : shop;
}

const FIRST = [
  `create schema ${SCHEMA}`,
  `create table ${SCHEMA}.migration (n int primary key, program text not null, at timestamptz not null default now())`,
];

/** Returns what could not be done: only somebody who may make roles can. */
async function giveRights(client: ServerClient): Promise<string[]> {
  const missing: string[] = [];
  for (const role of Object.keys(ROLES) as Role[]) {
    const [there] = await client.query(`select 1 from pg_roles where rolname = $1`, [role]);
    const statements = [...(there ? [] : [`create role ${role}`]), ...grantsOf(role)];
    for (const [i, text] of statements.entries()) {
      try {
        await client.query(text);
      } catch (error) {
        if (!(error instanceof ServerError) || client.over) throw error;
        missing.push(...statements.slice(i).map((each) => `${each};`));
        break;
      }
    }
  }
  return missing;
}

export interface BenchThere {
  readonly name: string;
  readonly folder: string;
  readonly left: boolean;
}

/** Every bench that took part. */
export async function benches(client: ServerClient): Promise<BenchThere[]> {
  const rows = await client.query<{ name: string; folder: string; left: boolean }>(
    `select b.name, b.folder, l.folder is not null as left from ${SCHEMA}.bench b
     left join ${SCHEMA}.bench_left l on l.folder = b.folder order by b.name`,
  );
  return rows;
}

/** Takes part under a name that no other folder has. */
export async function enrol(
  client: ServerClient,
  bench: string,
  folder: string,
  by: string,
): Promise<Result<void>> {
  if (!isFileName(bench)) return err(shopProblem('shop.bench-name/cannot', { bench }));
  const there = (await benches(client)).find(({ name }) => name === bench);
  if (there && (there.folder !== folder || there.left))
    return err(shopProblem('shop.bench-taken', { bench }));
  if (there) return ok(undefined);
  try {
    await client.query(`insert into ${SCHEMA}.bench (name, folder, joined_by) values ($1, $2, $3)`, [
      bench,
      folder,
      by,
    ]);
    return ok(undefined);
  } catch (error) {
    if (error instanceof ServerError && error.isTaken)
      return err(shopProblem('shop.bench-taken/takes', { bench }));
    throw error;
  }
}

/** The folder takes part no longer. */
export async function signOff(client: ServerClient, teller: Teller, by: string): Promise<void> {
  // A bench that is still open in the folder hears of it.
  await unlessTaken(() =>
    teller.add('bench_left', { folder: teller.folder, left_by: by }, { kind: 'left', subject: '', upto: 0 }),
  );
  await client.announce();
}
