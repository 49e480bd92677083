/**
 * The shop's tables, as numbered steps forwards. Only rows are added: no role but the owner may change or remove one.
 * The chain of a journal is held by keys and checks alone, as every server that speaks this SQL has them.
 */

export interface Migration {
  readonly n: number;
  readonly statements: readonly string[];
}

export const SCHEMA = 'pinchrod';

export const MIGRATIONS: readonly Migration[] = [
  {
    n: 1,
    statements: [
      `create table ${SCHEMA}.shop (
        one int primary key check (one = 1),
        id text not null,
        name text not null,
        made_at timestamptz not null default now()
      )`,
      `create table ${SCHEMA}.bench (
        name text primary key,
        folder text not null unique,
        joined_by text not null,
        joined_at timestamptz not null default now()
      )`,
      `create table ${SCHEMA}.bench_left (
        folder text primary key references ${SCHEMA}.bench (folder),
        left_by text not null,
        left_at timestamptz not null default now()
      )`,
      // Row 0 of a journal carries the hash that its first line follows.
      `create table ${SCHEMA}.line (
        journal text not null,
        n int not null,
        pn int,
        prev text,
        hash text not null,
        line bytea not null,
        primary key (journal, n),
        unique (journal, n, hash),
        check ((n = 0 and pn is null and prev is null)
            or (n > 0 and pn is not null and prev is not null and pn = n - 1)),
        foreign key (journal, pn, prev) references ${SCHEMA}.line (journal, n, hash)
      )`,
      // The journals that there are.
      `create index line_first on ${SCHEMA}.line (journal) where n = 0`,
      // Who may write a journal: the last turn counts; a turn of no bench gives it back.
      `create table ${SCHEMA}.lease (
        journal text not null,
        turn int not null,
        after int,
        bench text references ${SCHEMA}.bench (name),
        given_by text not null,
        reason text not null,
        given_at timestamptz not null default now(),
        primary key (journal, turn),
        check ((turn = 1 and after is null) or (turn > 1 and after is not null and after = turn - 1)),
        foreign key (journal, after) references ${SCHEMA}.lease (journal, turn)
      )`,
      `create index lease_first on ${SCHEMA}.lease (journal) where turn = 1`,
      `create table ${SCHEMA}.asked (
        journal text not null,
        turn int not null,
        bench text not null references ${SCHEMA}.bench (name),
        primary key (journal, turn, bench)
      )`,
      // Files by content, in pieces; the last statement of a file is its row here.
      `create table ${SCHEMA}.piece (
        sha256 text not null,
        i int not null,
        bytes bytea not null,
        primary key (sha256, i)
      )`,
      `create table ${SCHEMA}.content (
        sha256 text primary key,
        size int not null,
        pieces int not null
      )`,
      `create table ${SCHEMA}.kept (
        path text not null,
        version int not null check (version > 0),
        sha256 text not null references ${SCHEMA}.content (sha256),
        primary key (path, version)
      )`,
      `create table ${SCHEMA}.edition (
        n int primary key check (n > 0),
        published_by text not null,
        reason text not null,
        published_at timestamptz not null default now()
      )`,
      `create table ${SCHEMA}.edition_file (
        n int not null references ${SCHEMA}.edition (n),
        path text not null,
        sha256 text not null references ${SCHEMA}.content (sha256),
        primary key (n, path)
      )`,
      `create table ${SCHEMA}.pins (
        n int primary key check (n > 0),
        bytes bytea not null,
        published_by text not null,
        published_at timestamptz not null default now()
      )`,
      // What each folder added, in the order in which it did: a reader asks for what follows the last it knows of each.
      `create table ${SCHEMA}.news (
        folder text not null references ${SCHEMA}.bench (folder),
        k int not null check (k > 0),
        kind text not null,
        subject text not null,
        upto int not null,
        primary key (folder, k)
      )`,
      // A job that the owner removed: that it was there, and how far each journal of it had come.
      `create table ${SCHEMA}.removed (
        job text primary key,
        removed_by text not null,
        reason text not null,
        removed_at timestamptz not null default now()
      )`,
      `create table ${SCHEMA}.removed_head (
        journal text primary key,
        job text not null references ${SCHEMA}.removed (job),
        n int not null,
        hash text not null
      )`,
      `create table ${SCHEMA}.setback (
        id text primary key,
        found_by text not null references ${SCHEMA}.bench (name),
        found_at timestamptz not null default now()
      )`,
      `create table ${SCHEMA}.reported (
        setback text not null references ${SCHEMA}.setback (id),
        folder text not null references ${SCHEMA}.bench (folder),
        primary key (setback, folder)
      )`,
      `create table ${SCHEMA}.resumed (
        setback text primary key references ${SCHEMA}.setback (id),
        resumed_by text not null,
        reason text not null,
        resumed_at timestamptz not null default now()
      )`,
      `create table ${SCHEMA}.clock (
        folder text not null references ${SCHEMA}.bench (folder),
        at timestamptz not null default now(),
        ahead_ms int not null,
        primary key (folder, at)
      )`,
    ],
  },
];

export const NEWEST = MIGRATIONS.at(-1)!.n;

/** Roles of the server that a shop's users are put into, with what each may do. */
export const ROLES = {
  pinchrod_bench: {
    reads: 'all',
    adds: [
      'bench',
      'bench_left',
      'line',
      'lease',
      'asked',
      'piece',
      'content',
      'kept',
      'news',
      'setback',
      'reported',
      'clock',
    ],
  },
  pinchrod_office: {
    reads: 'all',
    adds: [
      'bench',
      'bench_left',
      'piece',
      'content',
      'edition',
      'edition_file',
      'pins',
      'news',
      'setback',
      'reported',
      'clock',
    ],
  },
  pinchrod_auditor: { reads: 'all but PINs', adds: [] },
} as const;
export type Role = keyof typeof ROLES;

const TABLES = [
  'migration',
  ...MIGRATIONS.flatMap(({ statements }) => statements).flatMap(
    (statement) => new RegExp(`create table ${SCHEMA}\\.(\\w+)`).exec(statement)?.[1] ?? [],
  ),
];

/** Given again after each migration; giving a right twice changes nothing. */
export function grantsOf(role: Role): string[] {
  const { reads, adds } = ROLES[role];
  const readable = TABLES.filter((table) => reads === 'all' || table !== 'pins');
  const named = (tables: readonly string[]) => tables.map((table) => `${SCHEMA}.${table}`).join(', ');
  return [
    `grant usage on schema ${SCHEMA} to ${role}`,
    `grant select on ${named(readable)} to ${role}`,
    ...(adds.length === 0 ? [] : [`grant insert on ${named(adds)} to ${role}`]),
  ];
}
