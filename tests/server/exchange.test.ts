/** Benches of one shop and a real server: what one gives stands at the others, line by line the same. */
import { randomBytes } from 'node:crypto';
import { cpSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Cluster, serverPrograms } from '../../scripts/cluster.js';
import { leaveShop } from '../../src/server/join.js';
import { realDisk } from '../../src/store/disk.js';
import { hashBytes, makeFolders } from '../../src/store/files.js';
import { eraseNames, NameKeeper } from '../../src/store/names.js';
import { enter } from '../../src/store/register/enter.js';
import { verifyTree } from '../../src/store/verify.js';
import { Bench, makeTestShop, note, until } from './folders.js';
import { TestLine } from './testline.js';

describe.skipIf(serverPrograms() === undefined)('a shop of two benches', () => {
  let cluster: Cluster;
  let a: Bench;
  let b: Bench;

  beforeAll(async () => {
    cluster = await Cluster.make();
    await makeTestShop(cluster.settings());
    a = await new Bench('bench-1', cluster.settings()).join();
    b = await new Bench('bench-2', cluster.settings()).join();
    a.connect();
    b.connect();
    await until('both lines', () => !a.agent!.down && !b.agent!.down);
  });
  afterAll(async () => {
    await a?.remove();
    await b?.remove();
    cluster?.remove();
  });

  it('what one gives stands at the other, byte for byte', async () => {
    a.write('job', 'U-1', [note('first'), note('second')]);
    await until('the lines', () => b.notes('job', 'U-1').length === 2);
    const of = ({ root }: Bench) => readFileSync(join(root, 'logs/job/U-1.jsonl'));
    expect(of(b)).toEqual(of(a));
    expect(await a.agent!.settle(5000)).toBe(true);
    expect(a.agent!.waiting()).toBe(0);
  });

  it('works on without the line, and hands over when it is back', async () => {
    await a.disconnect();
    a.write('job', 'U-2', [note('alone')]);
    a.connect();
    await until('the lines', () => b.notes('job', 'U-2').length === 1);
  });

  it('what is given after a takeover becomes a branch, whole', async () => {
    await until('the line', () => !a.agent!.down);
    await a.takes('job', 'U-3');
    a.write('job', 'U-3', [note('one')]);
    await until('the lines', () => b.notes('job', 'U-3').length === 1);
    await a.disconnect();
    a.write('job', 'U-3', [note('two'), note('three')]);
    const how = { by: 'jb', reason: 'bench-1 is out', body: (from: string) => note(`from ${from}`) };
    expect(await b.agent!.takeOver('job', 'U-3', how)).toMatchObject({ ok: true });
    b.write('job', 'U-3', [note('on')]);
    a.connect();
    await until('the branch', () => b.notes('job', 'U-3~1').length === 3);
    await until('the journal', () => a.notes('job', 'U-3').length === 3);
    for (const bench of [a, b]) {
      expect(bench.notes('job', 'U-3')).toEqual(['one', 'from bench-1', 'on']);
      expect(bench.notes('job', 'U-3~1')).toEqual(['one', 'two', 'three']);
    }
    expect(a.agent!.troubles).toEqual([]);
    const verified = verifyTree(realDisk, a.root);
    expect(verified.faults).toEqual([]);
    expect(verified.notes).toMatchObject([{ id: 'verify.branched' }]);
  });

  it('a bench whose line was down meanwhile has nothing left to hand over, and does not ask for the unit', async () => {
    await a.disconnect();
    const line = await TestLine.to(cluster.port);
    a.connect({ settings: { ...a.settings, port: line.port } });
    await until('the line', () => !a.agent!.down);
    await a.takes('job', 'U-5');
    a.write('job', 'U-5', [note('one')]);
    await until('the lines', () => b.notes('job', 'U-5').length === 1);
    line.leadTo(1);
    await until('that it is down', () => a.agent!.down !== undefined);
    a.write('job', 'U-5', [note('two'), note('three')]);
    const how = { by: 'jb', reason: 'out', body: (from: string) => note(`from ${from}`) };
    expect(await b.agent!.takeOver('job', 'U-5', how)).toMatchObject({ ok: true });
    line.leadTo(cluster.port);
    await until('the branch', () => b.notes('job', 'U-5~1').length === 3);
    await until('that nothing waits', () => a.agent!.waiting() === 0 && !a.agent!.down);
    await a.agent!.settle(5000);
    expect([a, b].map((bench) => bench.agent!.holder('job', 'U-5'))).toEqual(['bench-2', 'bench-2']);
    await a.disconnect();
    line.close();
    a.connect();
    await until('the line', () => !a.agent!.down);
  });

  it('a unit that was given away is not asked for again', async () => {
    await a.takes('job', 'U-6');
    a.write('job', 'U-6', [note('one')]);
    await until('the lines', () => b.notes('job', 'U-6').length === 1);
    await b.takes('job', 'U-6');
    await until('the news of it', () => a.agent!.holder('job', 'U-6') === 'bench-2');
    a.agent!.wrote('logs/job/U-6.jsonl', 0);
    await a.agent!.settle(5000);
    await until(
      'what was asked',
      () => cluster.sql("select count(*) from pinchrod.lease where journal = 'job/U-6'") === '2',
    );
    expect(b.agent!.holder('job', 'U-6')).toBe('bench-2');
  });

  it('a photograph goes in pieces, and a name that is erased is erased everywhere', async () => {
    const bytes = randomBytes(2_500_000);
    const sha256 = hashBytes(bytes);
    const folder = makeFolders(realDisk, a.root, ['logs', 'job', 'evidence']);
    writeFileSync(join(folder, sha256), bytes);
    const person = { id: 'tf', initials: 'TF', name: 'Teo', levels: { all: 2 } } as const;
    const name = `logs/names/${new NameKeeper(realDisk, a.root).hashOf(person)}`;
    const look = (bench: Bench) => bench.agent!.wrote('logs/job/U-1.jsonl', 0);
    look(a);
    const at = (bench: Bench, file: string) => join(bench.root, ...file.split('/'));
    const evidence = `logs/job/evidence/${sha256}`;
    await until('both files', () => [evidence, name].every((file) => existsSync(at(b, file))));
    expect(readFileSync(at(b, evidence)).equals(bytes)).toBe(true);
    expect(cluster.sql(`select count(*) from pinchrod.piece where sha256 = '${sha256}'`)).toBe('3');
    expect(readFileSync(at(b, name), 'utf8')).toContain('Teo');
    expect(eraseNames(realDisk, b.root, 'tf', { at: '2026-12-01T08:00:00.000Z', by: 'ot' })).toMatchObject({
      value: 1,
    });
    look(b);
    await until('that it is erased', () => !readFileSync(at(a, name), 'utf8').includes('Teo'));
    expect(a.agent!.troubles).toEqual([]);
  });

  it('a journal that is damaged where the server does not know it stops only itself', async () => {
    await a.disconnect();
    a.write('job', 'D-1', [note('one'), note('two')]);
    const file = join(a.root, 'logs/job/D-1.jsonl');
    const whole = readFileSync(file, 'utf8');
    writeFileSync(file, whole.replace('"two"', '"too"'));
    a.write('job', 'D-2', [note('other')]);
    a.connect();
    await until('the other unit', () => b.notes('job', 'D-2').length === 1);
    await until('that it is told', () => a.agent!.troubles.length > 0);
    expect(a.agent!.troubles).toMatchObject([{ id: 'shop.journal-damaged' }]);
    expect(a.agent!.down).toBeUndefined();
    writeFileSync(file, whole);
    a.agent!.wrote('logs/job/D-1.jsonl', 0);
    await until('the unit', () => b.notes('job', 'D-1').length === 2);
    expect(a.agent!.troubles).toEqual([]);
  });

  it('a copy of the folder is refused, and may take part as a bench of its own', async () => {
    const copy = new Bench('bench-1', cluster.settings());
    rmSync(copy.root, { recursive: true });
    cpSync(a.root, copy.root, { recursive: true });
    copy.card = a.card;
    copy.connect();
    await copy.agent!.firstAnswer();
    expect(copy.agent!.down).toMatchObject({ id: 'shop.copied' });
    await copy.disconnect();
    await expect(copy.join()).rejects.toThrow('shop.copied');
    const own = new Bench('bench-7', cluster.settings());
    rmSync(own.root, { recursive: true });
    cpSync(a.root, own.root, { recursive: true });
    // What a copy wrote as the bench that it is not never becomes that bench's.
    const stamp = { by: 'jb', at: new Date().toISOString(), bench: 'bench-1' };
    expect(enter(realDisk, own.root, stamp, [{ kind: 'heads', on: 'worked', heads: [] }])).toMatchObject({
      ok: true,
    });
    expect((await own.join()).card).toMatchObject({ bench: 'bench-7' });
    const register = ({ root }: Bench) => readFileSync(join(root, 'register/benches/bench-1.jsonl'));
    expect(register(own)).toEqual(register(a));
    expect(existsSync(join(own.root, 'shop/dropped/register/benches/bench-1.jsonl'))).toBe(true);
    await copy.remove();
    await own.remove();
  });

  it('a bench that is still open when its folder leaves hands nothing over any more', async () => {
    const c = await new Bench('bench-8', cluster.settings()).join();
    c.connect();
    await until('the line', () => !c.agent!.down);
    const left = await leaveShop(
      { disk: realDisk, root: c.root, settings: c.settings, clock: Date.now },
      c.card,
      'ot',
    );
    expect(left).toMatchObject({ ok: true });
    await until('that it hears of it', () => c.agent!.down?.id === 'shop.not-joined');
    c.write('job', 'L-1', [note('alone')]);
    await a.agent!.settle(2000);
    expect(a.notes('job', 'L-1')).toEqual([]);
    await c.remove();
  });

  it('a unit that nobody uses goes to the bench that asks', async () => {
    await a.takes('job', 'U-4');
    a.write('job', 'U-4', [note('frame')]);
    await b.takes('job', 'U-4');
    expect(b.notes('job', 'U-4')).toEqual(['frame']);
    await until('the news of it', () => a.agent!.holder('job', 'U-4') === 'bench-2');
  });
});
