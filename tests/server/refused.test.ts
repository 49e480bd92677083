/** What a shop refuses: each by its message, with the way out, its exit code, and nothing written. The real program, a real server. */
import { execFileSync } from 'node:child_process';
import { chmodSync, chownSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir, userInfo } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Cluster, serverPrograms } from '../../scripts/cluster.js';
import { ageProblem } from '../../src/server/client.js';
import type { SERVER_MESSAGES } from '../../src/server/messages.js';
import { chainEvent, chainLine } from '../../src/unit/chain.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { runProgram } from './folders.js';

const PIN = '2705\n';

it('a server older than PostgreSQL 13 is refused', () => {
  expect(ageProblem(120_019, '12.19')).toMatchObject({
    id: 'shop.too-old',
    text: expect.stringContaining('12.19'),
  });
  expect(ageProblem(130_000, '13.0')).toBeUndefined();
});

describe.skipIf(serverPrograms() === undefined)('a shop refuses', () => {
  let cluster: Cluster;
  let folder: string;
  const run = (words: readonly string[], over: Readonly<Record<string, string>> = {}, input = PIN) =>
    runProgram(cluster, words, { env: { HOME: folder, ...over }, input });
  const at = (name: string): string => join(folder, name);
  const joinAs = (name: string, over: Readonly<Record<string, string>> = {}) =>
    run(['--workshop', at(name), 'shop', 'join', '--bench', name, '--by', 'ot'], over);

  const noteOn = (bench: string, unit: string, over: Readonly<Record<string, string>> = {}) =>
    run(['--workshop', at(bench), 'feed', unit, '--person', 'jb'], over, '{"do":"note","text":"x"}\n');

  /** It is refused by this message, with its way out and this exit code. */
  const refuses = (
    id: keyof typeof SERVER_MESSAGES,
    code: number,
    words: readonly string[],
    over: Readonly<Record<string, string>> = {},
  ): void => {
    const { status, text } = run(words, over);
    expect(text).toContain(`[${id}]`);
    expect(status, text).toBe(code);
    expect(
      text.split('\n').filter((line) => line.startsWith('  ') && line.length > 10),
      text,
    ).not.toEqual([]);
  };

  beforeAll(async () => {
    cluster = await Cluster.make();
    folder = mkdtempSync(join(tmpdir(), 'pinchrod-refused-'));
    cluster.sql('create database shop');
    cluster.sql('create database other');
    cluster.sql("create role secret login password 'right'");
    cluster.sql('create role stranger login');
    cluster.admit(['host all secret 127.0.0.1/32 scram-sha-256']);
    cluster.sql('select pg_reload_conf()');
    expect(run(['init', at('bench-1'), '--demonstration']).status).toBe(0);
  });
  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
    cluster?.remove();
  });

  const status = ['shop', 'status'] as const;
  const init = () => ['--workshop', at('bench-1'), 'shop', 'init', '--by', 'ot'];

  it('what is not reached, and settings that cannot be used', () => {
    refuses('shop.not-joined', 2, ['--workshop', at('bench-1'), ...status]);
    refuses('shop.unreachable', 3, init(), { PGPORT: '1' });
    refuses('shop.setting', 2, init(), { PGPORT: 'five' });
    refuses('shop.setting', 2, init(), { PGSSLMODE: 'sometimes' });
    refuses('shop.service', 2, init(), { PGSERVICE: 'nowhere' });
    refuses('shop.no-database', 2, init(), { PGDATABASE: 'nowhere' });
    refuses('shop.login', 2, init(), { PGUSER: 'secret', PGPASSWORD: 'wrong' });
    refuses('shop.login', 2, init(), { PGUSER: 'secret' });
    refuses('shop.certificate', 2, init(), { PGSSLMODE: 'verify-full' });
    refuses('shop.no-right', 2, init(), { PGUSER: 'stranger' });
    const { status: code, text } = joinAs('bench-9');
    expect(text).toContain('[shop.no-shop]');
    expect(code).toBe(2);
    expect(cluster.sql("select count(*) from pg_namespace where nspname = 'pinchrod'", 'shop')).toBe('0');
  });

  it('a certificate that is not trusted, and takes one that is', () => {
    const [key, crt] = [join(cluster.data, 'server.key'), join(cluster.data, 'server.crt')];
    execFileSync(
      'openssl',
      [
        'req',
        '-x509',
        '-newkey',
        'rsa:2048',
        '-nodes',
        '-days',
        '2',
        '-keyout',
        key,
        '-out',
        crt,
        '-subj',
        '/CN=localhost',
        '-addext',
        'subjectAltName=DNS:localhost',
      ],
      { stdio: 'ignore' },
    );
    chmodSync(key, 0o600);
    if (userInfo().uid === 0) for (const file of [key, crt]) chownSync(file, 65_534, 65_534);
    cluster.configure(['ssl = on']);
    cluster.sql('select pg_reload_conf()');
    const authority = at('authority.crt');
    writeFileSync(authority, readFileSync(crt));
    refuses('shop.certificate', 2, init(), { PGHOST: 'localhost', PGSSLMODE: 'verify-full' });
    refuses('shop.certificate', 2, init(), {
      PGHOST: '127.0.0.1',
      PGSSLMODE: 'verify-full',
      PGSSLROOTCERT: authority,
    });
    refuses('shop.login', 2, init(), {
      PGHOST: 'localhost',
      PGSSLMODE: 'verify-full',
      PGSSLROOTCERT: authority,
      PGUSER: 'secret',
      PGPASSWORD: 'wrong',
    });
  });

  it('a second shop, a second bench of one name, and a folder of another shop', () => {
    const made = run(init());
    expect(made.status, made.text).toBe(0);
    refuses('shop.there-already', 2, init());
    refuses('shop.bench-taken', 2, [
      '--workshop',
      at('bench-x'),
      'shop',
      'join',
      '--bench',
      'bench-1',
      '--by',
      'ot',
    ]);
    refuses('shop.bench-name', 2, [
      '--workshop',
      at('bench-y'),
      'shop',
      'join',
      '--bench',
      '../x',
      '--by',
      'ot',
    ]);
    refuses('shop.bench-name', 2, ['--workshop', at('bench-y'), 'shop', 'join', '--by', 'ot']);
    expect(joinAs('bench-2').status).toBe(0);
    refuses('shop.joined-already', 2, [
      '--workshop',
      at('bench-2'),
      'shop',
      'join',
      '--bench',
      'bench-3',
      '--by',
      'ot',
    ]);
    expect(run(['init', at('away'), '--demonstration']).status).toBe(0);
    expect(
      run(['--workshop', at('away'), 'shop', 'init', '--by', 'ot'], { PGDATABASE: 'other' }).status,
    ).toBe(0);
    refuses('shop.other-shop', 2, ['--workshop', at('bench-2'), ...status], { PGDATABASE: 'other' });
  });

  it('what a user of the server, or a person, may not do', () => {
    cluster.sql('create role auditing login in role pinchrod_auditor');
    cluster.sql('create role working login in role pinchrod_bench');
    refuses(
      'shop.no-right',
      2,
      ['--workshop', at('bench-5'), 'shop', 'join', '--bench', 'bench-5', '--by', 'ot'],
      { PGUSER: 'auditing' },
    );
    writeFileSync(join(at('bench-1'), 'shared/note.md'), 'new\n');
    const publish = ['--workshop', at('bench-1'), 'shop', 'publish', '--by', 'ot', '--reason', 'a note'];
    refuses('shop.no-right', 2, publish, { PGUSER: 'working' });
    expect(() => cluster.sql('set role working; select bytes from pinchrod.pins', 'shop')).not.toThrow();
    expect(() => cluster.sql('set role auditing; select bytes from pinchrod.pins', 'shop')).toThrow(
      /permission denied/,
    );
    for (const role of ['working', 'auditing'])
      for (const deed of [
        'delete from pinchrod.line',
        "update pinchrod.line set hash = ''",
        'truncate pinchrod.line',
      ])
        expect(() => cluster.sql(`set role ${role}; ${deed}`, 'shop')).toThrow(/permission denied/);
    const take = ['--workshop', at('bench-1'), 'shop', 'take', 'P02-1', '--by', 'ot', '--reason', 'x'];
    refuses('shop.not-held', 2, take);
    refuses('shop.no-unit', 2, take.with(4, 'X99-1'));
  });

  it('and lets a bench and an office do what their roles are for', () => {
    cluster.sql('create role deciding login in role pinchrod_office');
    const [bench, office] = [{ PGUSER: 'working' }, { PGUSER: 'deciding' }];
    const worked = joinAs('bench-w', bench);
    expect(worked.status, worked.text).toBe(0);
    const noted = noteOn('bench-w', 'P06-1', bench);
    expect(noted.status, noted.text).toBe(0);
    expect(cluster.sql("select max(n) from pinchrod.line where journal = 'pier-house/P06-1'", 'shop')).toBe(
      '2',
    );
    const joined = joinAs('office', office);
    expect(joined.status, joined.text).toBe(0);
    const file = join(at('office'), 'shared/instruments.yaml');
    const before = readFileSync(file, 'utf8');
    const publish = ['--workshop', at('office'), 'shop', 'publish', '--by', 'ot', '--reason', 'a note'];
    for (const text of [`${before}# looked through\n`, before]) {
      writeFileSync(file, text);
      const published = run(publish, office);
      expect(published.status, published.text).toBe(0);
    }
    // The rest of these tests counts editions and benches by itself.
    expect(run(['--workshop', at('bench-1'), 'shop', 'publish', '--drop', '--by', 'ot']).status).toBe(0);
    for (const name of ['bench-w', 'office']) {
      const left = run(
        ['--workshop', at(name), 'shop', 'leave', '--by', 'ot'],
        name === 'office' ? office : bench,
      );
      expect(left.status, left.text).toBe(0);
    }
  });

  it('files that were changed and not published, and an edition that somebody passed', () => {
    const publish = (bench: string) => [
      '--workshop',
      at(bench),
      'shop',
      'publish',
      '--by',
      'ot',
      '--reason',
      'a note',
    ];
    writeFileSync(join(at('bench-1'), 'shared/note.md'), 'new\n');
    expect(run(publish('bench-1')).text).toContain('edition 4');
    writeFileSync(join(at('bench-2'), 'shared/note.md'), 'other\n');
    refuses('shop.edition-passed', 2, publish('bench-2'));
    refuses('shop.files-changed', 2, ['--workshop', at('bench-2'), 'shop', 'join', '--by', 'ot']);
    expect(readFileSync(join(at('bench-2'), 'shared/note.md'), 'utf8')).toBe('other\n');
    expect(run([...publish('bench-2'), '--drop']).status).toBe(0);
    expect(readFileSync(join(at('bench-2'), 'shared/note.md'), 'utf8')).toBe('new\n');
  });

  it('lines and files that somebody changed on the server', () => {
    mkdirSync(at('bench-6'));
    const feed = noteOn('bench-1', 'P02-1');
    expect(feed.status, feed.text).toBe(0);
    cluster.sql("update pinchrod.line set line = 'x' where n = 1", 'shop');
    const broken = joinAs('bench-6');
    expect(broken.text).toContain('[shop.line-broken]');
    expect(broken.status).toBe(1);
    cluster.sql("update pinchrod.piece set bytes = 'x'", 'shop');
    const changed = joinAs('bench-7');
    expect(changed.text).toContain('[shop.content-changed]');
    expect(changed.status).toBe(1);
  });

  it('to give leases before all benches have reported after a setback', () => {
    cluster.sql("insert into pinchrod.setback (id, found_by) values ('a', 'bench-1')", 'shop');
    cluster.sql(
      "insert into pinchrod.lease (journal, turn, bench, given_by, reason) values ('pier-house/P03-1', 1, 'bench-2', 'x', 'x')",
      'shop',
    );
    const take = ['--workshop', at('bench-1'), 'shop', 'take', 'P03-1', '--by', 'ot', '--reason', 'x'];
    refuses('shop.setback', 1, take);
    expect(
      run(['--workshop', at('bench-1'), 'shop', 'resume', '--by', 'ot', '--reason', 'x']).text,
    ).toContain('given again');
    expect(run(take).status).toBe(0);
  });

  it('what another bench has, and journals that went different ways', () => {
    cluster.sql(
      "insert into pinchrod.lease (journal, turn, bench, given_by, reason) values ('pier-house/P04-1', 1, 'bench-2', 'x', 'x')",
      'shop',
    );
    const held = noteOn('bench-1', 'P04-1');
    expect(held.text).toContain('shop.leased');
    expect(held.status, held.text).toBe(1);
    cluster.sql(
      "insert into pinchrod.line (journal, n, hash, line) values ('logs/setups.jsonl', 0, repeat('0', 64), '')",
      'shop',
    );
    cluster.sql(
      "insert into pinchrod.line (journal, n, pn, prev, hash, line) values ('logs/setups.jsonl', 1, 0, repeat('0', 64), repeat('1', 64), 'x')",
      'shop',
    );
    const stamp = { by: 'jb', at: '2026-11-01T08:00:00.000Z', bench: 'bench-1' };
    const ended = chainEvent({ kind: 'setup-ended', setup: 'saw', why: 'other' }, stamp);
    writeFileSync(join(at('bench-1'), 'logs/setups.jsonl'), `${chainLine(ended as JournalEvent)}\n`);
    const differs = run(['--workshop', at('bench-1'), 'shop', 'join', '--by', 'ot']);
    expect(differs.text).toContain('[shop.journal-differs]');
    expect(differs.status).toBe(1);
    rmSync(join(at('bench-1'), 'logs/setups.jsonl'));
  });

  it('a shop of a later form, and of an earlier one', () => {
    cluster.sql("insert into pinchrod.migration (n, program) values (99, 'later')", 'shop');
    expect(joinAs('bench-8').text).toContain('[shop.newer]');
    expect(run(['--workshop', at('bench-1'), ...status]).status).toBe(0);
    cluster.sql('delete from pinchrod.migration', 'shop');
    expect(joinAs('bench-8').text).toContain('[shop.older]');
  });

  it('what the server refuses for reasons of its own, and a full disk', () => {
    const fails = (code: string) =>
      cluster.sql(
        `create or replace function refuse() returns trigger language plpgsql as $$ begin raise exception 'no' using errcode = '${code}'; end $$;
         drop trigger if exists t on pinchrod.edition; create trigger t before insert on pinchrod.edition execute function refuse()`,
        'other',
      );
    const publish = ['--workshop', at('away'), 'shop', 'publish', '--by', 'ot', '--reason', 'a note'];
    writeFileSync(join(at('away'), 'shared/note.md'), 'new\n');
    fails('53100');
    refuses('shop.server-full', 3, publish, { PGDATABASE: 'other' });
    fails('P0001');
    refuses('shop.refused', 3, publish, { PGDATABASE: 'other' });
  });
});
