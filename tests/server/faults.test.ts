/**
 * What can happen to a shop, against a real server. After each: no acknowledged answer is lost, no chain is broken, no
 * event stands twice, branches are whole, and `verify` passes. PINCHROD_SHOP_FAULTS times as many rounds: npm run faults.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { Cluster, serverPrograms } from '../../scripts/cluster.js';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { makeVolume } from '../faults/volume.js';
import { Bench, makeTestShop, note, until } from './folders.js';
import { TestLine } from './testline.js';

const TIMES = Number(process.env.PINCHROD_SHOP_FAULTS ?? 1);
const rounds = (few: number, all: number): number => (TIMES > 1 ? all : few);

/** Seeded, so that a round can be repeated. */
function chances(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
}

const SEED = Number(process.env.PINCHROD_SEED ?? 20261201);

describe.skipIf(serverPrograms() === undefined)('a shop survives', () => {
  let cluster: Cluster;
  let benches: Bench[] = [];
  let database = 0;

  beforeAll(async () => {
    cluster = await Cluster.make();
  });
  afterAll(() => cluster?.remove());
  afterEach(async () => {
    await Promise.all(benches.map((bench) => bench.remove()));
    benches = [];
  });

  async function shop(count: number, port = cluster.port): Promise<Bench[]> {
    const name = `shop${++database}`;
    cluster.sql(`create database ${name}`);
    const settings = cluster.settings({ database: name });
    await makeTestShop(settings);
    for (let i = 1; i <= count; i++)
      benches.push(await new Bench(`bench-${i}`, { ...settings, port }).join());
    return benches;
  }

  const settled = async (...all: Bench[]): Promise<void> => {
    for (const bench of all)
      await until(
        `what ${bench.name} has at the server`,
        () => bench.agent!.waiting() === 0 && !bench.agent!.down,
        60_000,
      );
    const sizes = () => all.map((bench) => [...ofJob(bench), ...registers(bench)].join());
    await until('the same at every bench', () => new Set(sizes()).size === 1, 60_000);
  };

  const ofJob = (bench: Bench): string[] =>
    journals(bench).map((file) => `${file} ${readFileSync(join(bench.root, 'logs/job', file)).length}`);

  /** What a bench set aside is known only with its register. */
  const registers = ({ root }: Bench): string[] => {
    const folder = join(root, 'register/benches');
    if (!existsSync(folder)) return [];
    return readdirSync(folder)
      .filter((file) => file.endsWith('.jsonl'))
      .map((file) => `${file} ${readFileSync(join(folder, file)).length}`);
  };

  const journals = ({ root }: Bench): string[] => {
    try {
      return readdirSync(join(root, 'logs/job'))
        .filter((file) => file.endsWith('.jsonl'))
        .sort();
    } catch {
      return [];
    }
  };

  /** Every answer that was acknowledged stands once, in the journal or in a branch, the same at every bench. */
  function expectWhole(all: readonly Bench[], given: readonly string[]): void {
    for (const bench of all) {
      const notes = journals(bench).flatMap((file) => bench.notes('job', file.slice(0, -'.jsonl'.length)));
      const main = journals(bench)
        .filter((file) => !file.includes('~'))
        .flatMap((file) => bench.notes('job', file.slice(0, -'.jsonl'.length)));
      expect(
        given.filter((text) => !notes.includes(text)),
        bench.name,
      ).toEqual([]);
      expect(main.length, `twice at ${bench.name}`).toBe(new Set(main).size);
      const report = verifyTree(realDisk, bench.root);
      expect(report.faults, bench.name).toEqual([]);
    }
    const one = (bench: Bench) =>
      journals(bench).map((file) => readFileSync(join(bench.root, 'logs/job', file), 'utf8'));
    for (const bench of all.slice(1)) expect(one(bench)).toEqual(one(all[0]!));
  }

  it('a server that is killed again and again while four benches write', async () => {
    const all = await shop(4);
    const chance = chances(SEED);
    for (const bench of all) bench.connect();
    const given: string[] = [];
    let over = false;
    const writing = all.map(async (bench) => {
      for (let i = 0; !over; i++) {
        const text = `${bench.name} ${i}`;
        bench.write('job', `${bench.name}-${i % 5}`, [note(text)]);
        given.push(text);
        await pause(20 + chance() * 40);
      }
    });
    for (let i = 0; i < rounds(4, 100); i++) {
      await pause(200 + chance() * 500);
      await cluster.kill();
      await cluster.start();
    }
    over = true;
    await Promise.all(writing);
    await settled(...all);
    expectWhole(all, given);
    console.log(`killed ${rounds(4, 100)} times (seed ${SEED}): ${given.length} answers, all there`);
  }, 600_000);

  it('a line that is cut at every message', async () => {
    const line = await TestLine.to(cluster.port);
    const [a, b] = await shop(2);
    b!.connect();
    const given: string[] = [];
    const most = rounds(24, 200);
    for (let i = 0; i < most; i++) {
      line.cutAfterReplies = i % 2 === 0 ? i / 2 : undefined;
      line.cutAfter = i % 2 === 1 ? i * 23 : undefined;
      const before = line.cuts;
      const text = `cut ${i}`;
      a!.connect({ settings: { ...a!.settings, port: line.port } });
      a!.write('job', `U-${i % 3}`, [note(text)]);
      given.push(text);
      await until(
        `cut ${i}, or everything handed over`,
        () => line.cuts > before || (a!.agent!.waiting() === 0 && !a!.agent!.down),
      );
      line.cutAfter = undefined;
      line.cutAfterReplies = undefined;
      await a!.disconnect();
    }
    line.close();
    a!.connect();
    await settled(a!, b!);
    expectWhole([a!, b!], given);
  }, 600_000);

  it('a slow line, and one that says nothing any more', async () => {
    const line = await TestLine.to(cluster.port);
    const [a, b] = await shop(2);
    line.delay = 120;
    b!.connect();
    a!.connect({ settings: { ...a!.settings, port: line.port } });
    const given: string[] = [];
    const give = (text: string) => {
      a!.write('job', 'U-1', [note(text)]);
      given.push(text);
    };
    for (let i = 0; i < 5; i++) give(`slow ${i}`);
    await until('the slow ones', () => b!.notes('job', 'U-1').length === 5, 30_000);
    line.silent = true;
    for (let i = 0; i < 5; i++) give(`half open ${i}`);
    await until('that the bench notices', () => a!.agent!.down !== undefined, 30_000);
    line.silent = false;
    line.delay = 0;
    line.cut();
    await settled(a!, b!);
    expectWhole([a!, b!], given);
    await a!.disconnect();
    line.close();
  }, 120_000);

  it('two benches that open one unit at the same instant', async () => {
    const [a, b] = await shop(2);
    for (const bench of [a!, b!]) bench.connect();
    await until('both lines', () => !a!.agent!.down && !b!.agent!.down);
    const given: string[] = [];
    const most = rounds(60, 1_000);
    let both = 0;
    for (let i = 0; i < most; i++) {
      const wrote = await Promise.all(
        [a!, b!].map(async (bench) => {
          const { ok } = await bench.agent!.lease('job', `R-${i}`);
          if (!ok) return 0;
          bench.write('job', `R-${i}`, [note(`${bench.name} ${i}`)]);
          given.push(`${bench.name} ${i}`);
          return 1;
        }),
      );
      expect(wrote[0]! + wrote[1]!).toBeGreaterThanOrEqual(1);
      both += wrote[0]! + wrote[1]! - 1;
    }
    await settled(a!, b!);
    expectWhole([a!, b!], given);
    expect(
      cluster.sql(
        "select count(*) from pinchrod.lease where turn = 1 and journal like 'job/R-%'",
        `shop${database}`,
      ),
    ).toBe(String(most));
    console.log(`${most} units opened by two benches at once: ${both} times one after the other`);
  }, 600_000);

  it('two benches that begin one unit without a line', async () => {
    const [a, b] = await shop(2);
    const given: string[] = [];
    for (let i = 0; i < rounds(5, 40); i++)
      for (const bench of [a!, b!])
        for (const word of ['x', 'y']) {
          bench.write('job', `P-${i}`, [note(`${bench.name} ${word} ${i}`)]);
          given.push(`${bench.name} ${word} ${i}`);
        }
    for (const bench of [a!, b!]) bench.connect();
    await settled(a!, b!);
    expectWhole([a!, b!], given);
    expect(journals(a!).filter((file) => file.includes('~'))).toHaveLength(rounds(5, 40));
  }, 120_000);

  it('a bench that is away for a shift, while its units are taken over', async () => {
    const [a, b, c] = await shop(3);
    for (const bench of [a!, b!, c!]) bench.connect();
    await until('all lines', () => benches.every((bench) => !bench.agent!.down));
    const given: string[] = [];
    const give = (bench: Bench, unit: string, text: string) => {
      bench.write('job', unit, [note(text)]);
      given.push(text);
    };
    for (const unit of ['S-1', 'S-2', 'S-3']) {
      expect((await a!.agent!.lease('job', unit)).ok).toBe(true);
      give(a!, unit, `${unit} begun`);
    }
    await settled(a!, b!, c!);
    await a!.disconnect();
    for (let i = 0; i < 50; i++)
      for (const unit of ['S-1', 'S-2', 'S-3']) give(a!, unit, `${unit} away ${i}`);
    const how = { by: 'ot', reason: 'away', body: (from: string) => note(`S-1 taken from ${from}`) };
    expect((await b!.agent!.takeOver('job', 'S-1', how)).ok).toBe(true);
    give(b!, 'S-1', 'S-1 goes on at bench-2');
    a!.connect();
    await settled(a!, b!, c!);
    expectWhole([a!, b!, c!], given);
    expect(journals(c!)).toEqual(['S-1.jsonl', 'S-1~1.jsonl', 'S-2.jsonl', 'S-3.jsonl']);
    expect(c!.notes('job', 'S-1~1')).toHaveLength(51);
    expect(c!.notes('job', 'S-2')).toHaveLength(51);
  }, 120_000);

  it('a bench whose clock is ten minutes off', async () => {
    const [a, b] = await shop(2);
    a!.clock = () => Date.now() + 600_000;
    for (const bench of [a!, b!]) bench.connect();
    await until('both lines', () => !a!.agent!.down && !b!.agent!.down);
    a!.write('job', 'C-1', [note('ahead')]);
    await settled(a!, b!);
    await b!.disconnect();
    b!.connect();
    await until('the clocks', () => Math.abs((b!.agent!.aheadOf('bench-1') ?? 0) + 600_000) < 5_000);
    expectWhole([a!, b!], ['ahead']);
  }, 120_000);

  const volume = makeVolume();
  if (typeof volume === 'string') it.skip(`a server whose disk is full: ${volume}`, () => undefined);
  else
    it('a server whose disk is full', async () => {
      try {
        const [a, b] = await shop(2);
        cluster.give(volume.folder);
        cluster.sql(`create tablespace small location '${volume.folder}'`);
        cluster.sql('alter table pinchrod.line set tablespace small', `shop${database}`);
        for (const bench of [a!, b!]) bench.connect();
        await until('both lines', () => !a!.agent!.down && !b!.agent!.down);
        const filler = join(volume.folder, 'filler');
        const { status } = spawnSync('dd', ['if=/dev/zero', `of=${filler}`, 'bs=4096'], { stdio: 'ignore' });
        expect(status).not.toBe(0);
        const given: string[] = [];
        for (let i = 0; a!.agent!.down?.id !== 'shop.server-full'; i++) {
          const text = `${i} ${'x'.repeat(1_900)}`;
          a!.write('job', `F-${i % 7}`, [note(text)]);
          given.push(text);
          expect(i).toBeLessThan(2_000);
          await pause(4);
        }
        rmSync(filler);
        await settled(a!, b!);
        expectWhole([a!, b!], given);
        await Promise.all([a!.disconnect(), b!.disconnect()]);
        cluster.sql(`drop database shop${database}`);
        cluster.sql('drop tablespace small');
      } finally {
        volume.remove();
      }
    }, 180_000);

  it('a backup that is put back, with lines that only benches have', async () => {
    const [a, b] = await shop(2);
    const name = `shop${database}`;
    for (const bench of [a!, b!]) bench.connect();
    const given: string[] = [];
    const give = (bench: Bench, unit: string, text: string) => {
      bench.write('job', unit, [note(text)]);
      given.push(text);
    };
    give(a!, 'B-1', 'before');
    await settled(a!, b!);
    const file = join(cluster.folder, `${name}.dump`);
    const at = ['-h', '127.0.0.1', '-p', String(cluster.port), '-U', 'owner'];
    cluster.run('pg_dump', [...at, '-Fc', '-f', file, name]);
    give(a!, 'B-1', 'after the backup');
    give(b!, 'B-2', 'another');
    await settled(a!, b!);
    await Promise.all([a!.disconnect(), b!.disconnect()]);
    cluster.sql(`drop database ${name}`);
    cluster.sql(`create database ${name}`);
    cluster.run('pg_restore', [...at, '-d', name, file]);
    give(b!, 'B-3', 'meanwhile');
    b!.connect();
    await until('the line', () => !b!.agent!.down);
    expect(await b!.agent!.lease('job', 'B-9')).toMatchObject({
      ok: false,
      problems: [{ id: 'shop.setback' }],
    });
    a!.connect();
    await settled(a!, b!);
    expect(await b!.agent!.lease('job', 'B-9')).toMatchObject({ ok: true });
    expectWhole([a!, b!], given);
  }, 120_000);
});

describe.skipIf(serverPrograms() === undefined)('a standby that is promoted', () => {
  it('while four benches write, gets what it did not have from them', async () => {
    const first = await Cluster.make(['wal_level = replica', 'max_wal_senders = 5']);
    const benches: Bench[] = [];
    let standby: Cluster | undefined;
    try {
      const line = await TestLine.to(first.port);
      const settings = first.settings();
      await makeTestShop(settings);
      standby = await first.standby();
      for (let i = 1; i <= 4; i++)
        benches.push(await new Bench(`bench-${i}`, { ...settings, port: line.port }).join());
      for (const bench of benches) bench.connect();
      const given: string[] = [];
      let over = false;
      const writing = benches.map(async (bench) => {
        for (let i = 0; !over; i++) {
          bench.write('job', bench.name, [note(`${bench.name} ${i}`)]);
          given.push(`${bench.name} ${i}`);
          await pause(15);
        }
      });
      await pause(1_000);
      await first.kill();
      await standby.promote();
      line.leadTo(standby.port);
      await pause(1_500);
      over = true;
      await Promise.all(writing);
      for (const bench of benches)
        await until('the rest', () => bench.agent!.waiting() === 0 && !bench.agent!.down, 60_000);
      await until(
        'all at the last',
        () =>
          benches.every(
            ({ name }) =>
              benches[3]!.notes('job', name).length === given.filter((text) => text.startsWith(name)).length,
          ),
        60_000,
      );
      for (const bench of benches) expect(verifyTree(realDisk, bench.root).faults).toEqual([]);
      line.close();
    } finally {
      await Promise.all(benches.map((bench) => bench.remove()));
      standby?.remove();
      first.remove();
    }
  }, 180_000);
});
