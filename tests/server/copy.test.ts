/** A shop as files and back, byte for byte; and what `verify --shop` finds on a server that somebody changed. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Cluster, serverPrograms } from '../../scripts/cluster.js';
import { runProgram } from './folders.js';

describe.skipIf(serverPrograms() === undefined)('a shop that is copied', () => {
  let cluster: Cluster;
  let folder: string;
  const at = (name: string): string => join(folder, name);
  const run = (words: readonly string[], { database = 'shop', user = 'owner', input = '2705\n' } = {}) =>
    runProgram(cluster, words, { env: { PGDATABASE: database, PGUSER: user }, input });
  const done = (words: readonly string[], how: Parameters<typeof run>[1] = {}): string => {
    const { status, text } = run(words, how);
    expect(status, text).toBe(0);
    return text;
  };
  const files = (root: string, path = ''): string[] =>
    readdirSync(join(root, path)).flatMap((name) => {
      const file = path === '' ? name : `${path}/${name}`;
      return statSync(join(root, file)).isDirectory() ? files(root, file) : [file];
    });
  /** All that a shop shares, by its path. */
  const shared = (root: string) =>
    new Map(
      files(root)
        .filter((file) => !/^(shop|logs\/index)\/|\.lock$|\.md$/.test(file))
        .map((file) => [file, readFileSync(join(root, file), 'latin1')]),
    );

  beforeAll(async () => {
    cluster = await Cluster.make();
    folder = mkdtempSync(join(tmpdir(), 'pinchrod-copy-'));
    for (const name of ['shop', 'again']) cluster.sql(`create database ${name}`);
    done(['init', at('bench-1'), '--demonstration']);
    done(['--workshop', at('bench-1'), 'key', 'new']);
    done(['--workshop', at('bench-1'), 'shop', 'init', '--by', 'ot']);
    done(['--workshop', at('bench-2'), 'shop', 'join', '--bench', 'bench-2', '--by', 'ot']);
    const order =
      '{"do":"answer","check":"order.read/agree","value":"yes"}\n{"do":"note","text":"looked at"}\n';
    run(['--workshop', at('bench-1'), 'feed', 'P02-1', '--person', 'jb'], { input: order });
    run(['--workshop', at('bench-2'), 'feed', 'P03-1', '--person', 'jb'], { input: order });
    done(['--workshop', at('bench-1'), 'board']);
  });
  afterAll(() => {
    rmSync(folder, { recursive: true, force: true });
    cluster?.remove();
  });

  it('every bench holds the same, and the copy too: a workshop by itself that verifies', () => {
    done(['--workshop', at('bench-2'), 'board']);
    cluster.sql('create role reading login in role pinchrod_auditor');
    done(['shop', 'copy', at('copied')], { user: 'reading' });
    const [one, copied] = [shared(at('bench-1')), shared(at('copied'))];
    for (const [file, text] of one) if (!/^keys\//.test(file)) expect(copied.get(file), file).toBe(text);
    expect([...copied.keys()].filter((file) => !one.has(file))).toEqual([]);
    expect(copied.has('keys/pins.json')).toBe(false);
    expect(done(['--workshop', at('copied'), 'verify'])).toContain('all whole and unaltered');
    const { status, text } = run(['shop', 'copy', at('copied')]);
    expect(text).toContain('[shop.not-empty]');
    expect(status).toBe(2);
  });

  it('and back: another server has the same, and so has a bench that joins there', () => {
    done(['shop', 'copy', at('moved')]);
    done(['--workshop', at('moved'), 'shop', 'init', '--by', 'ot', '--bench', 'bench-9'], {
      database: 'again',
    });
    done(['--workshop', at('joined'), 'shop', 'join', '--bench', 'bench-3', '--by', 'ot'], {
      database: 'again',
    });
    const [first, joined] = [shared(at('copied')), shared(at('joined'))];
    for (const [file, text] of first) expect(joined.get(file), file).toBe(text);
  });

  it('a bench that leaves is a workshop by itself, and goes on', () => {
    done(['--workshop', at('joined'), 'shop', 'leave', '--by', 'ot'], { database: 'again' });
    done(['--workshop', at('joined'), 'feed', 'P02-1', '--person', 'jb'], {
      input: '{"do":"note","text":"alone"}\n',
    });
    const { status, text } = run(['--workshop', at('joined'), 'shop', 'status'], { database: 'again' });
    expect(text).toContain('[shop.not-joined]');
    expect(status).toBe(2);
  });

  it('verify --shop names a tip that the owner removed, a line and a file that were changed', () => {
    const verify = () => run(['--workshop', at('bench-1'), 'verify', '--shop']);
    done(['--workshop', at('bench-1'), 'board']);
    expect(verify()).toMatchObject({ status: 0, text: expect.stringContaining('as they are here') });
    cluster.sql(
      `delete from pinchrod.line l where journal = 'pier-house/P03-1' and n = (select max(n) from pinchrod.line where journal = 'pier-house/P03-1')`,
      'shop',
    );
    expect(verify()).toMatchObject({ status: 1, text: expect.stringContaining('[shop.lines-lost]') });
    // Whoever connects hands it over again.
    done(['--workshop', at('bench-1'), 'shop', 'join', '--by', 'ot']);
    expect(verify().status).toBe(0);
    cluster.sql(`update pinchrod.line set line = 'x' where journal = 'pier-house/P03-1' and n = 2`, 'shop');
    expect(verify()).toMatchObject({ status: 1, text: expect.stringContaining('[shop.line-broken]') });
    cluster.sql(`update pinchrod.piece set bytes = 'x'`, 'shop');
    expect(verify().text).toContain('[shop.content-changed]');
  });

  it('a job that the owner removes is off the server, leaves its heads, and is handed over by nobody again', () => {
    const remove = (job: string) => [
      '--workshop',
      at('moved'),
      'shop',
      'remove',
      job,
      '--by',
      'ot',
      '--reason',
      'ten years are over',
    ];
    const { status, text } = run(remove('boat-shed'), { database: 'again' });
    expect(text).toContain('[shop.no-job]');
    expect(status).toBe(2);
    done(remove('pier-house'), { database: 'again' });
    const count = (table: string) => cluster.sql(`select count(*) from pinchrod.${table}`, 'again');
    const left = () =>
      cluster.sql("select count(*) from pinchrod.line where journal like 'pier-house/%'", 'again');
    expect(left()).toBe('0');
    expect(count('removed_head')).toBe('2');
    done(['--workshop', at('moved'), 'shop', 'join', '--by', 'ot'], { database: 'again' });
    done(['--workshop', at('moved'), 'verify'], { database: 'again' });
    expect(left()).toBe('0');
    expect(count('setback')).toBe('0');
  });

  it('the board of a folder says when the line is down, and shows what stands here', () => {
    cluster.sql('alter database shop allow_connections false');
    const { status, text } = run(['--workshop', at('bench-1'), 'board']);
    expect(text).toContain('when the line was last up');
    expect(text).toContain('P02-1');
    expect(status).toBe(0);
    const waits = () => run(['--workshop', at('bench-1'), 'shop', 'status']).text;
    expect(waits()).toContain('No lines wait here to be handed over.');
    run(['--workshop', at('bench-1'), 'feed', 'P04-1', '--person', 'jb'], {
      input: '{"do":"note","text":"x"}\n',
    });
    expect(waits()).toContain('3 lines wait here to be handed over. [shop.refused]');
    writeFileSync(join(at('bench-1'), 'shop/shop.json'), '{');
    expect(run(['--workshop', at('bench-1'), 'verify', '--shop']).text).toContain('[workshop.shop-card]');
  });
});
