/** Benches of one shop and a real server: what one gives stands at the others, line by line the same. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Cluster, serverPrograms } from '../../scripts/cluster.js';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { Bench, makeTestShop, note, until } from './folders.js';

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
    expect(await a.agent!.lease('job', 'U-3')).toMatchObject({ ok: true });
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

  it('a unit that nobody uses goes to the bench that asks', async () => {
    expect(await a.agent!.lease('job', 'U-4')).toMatchObject({ ok: true });
    a.write('job', 'U-4', [note('frame')]);
    expect(await b.agent!.lease('job', 'U-4')).toMatchObject({ ok: true });
    expect(b.notes('job', 'U-4')).toEqual(['frame']);
    await until('the news of it', () => a.agent!.holder('job', 'U-4') === 'bench-2');
  });
});
