/**
 * Random attacks on a workshop with registers and printed documents. Each is looked for by somebody at the workshop's own
 * account, and by a stranger who has a printed document. Whatever is not of the classes that logs/README.md names must be
 * found, by its right name. PINCHROD_ATTACKS asks for another number, PINCHROD_SEED for another run.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Disk } from '../../../src/store/disk.js';
import { stateFolder } from '../../../src/store/register/account.js';
import { registered } from '../../../src/store/register/place.js';
import { verifyTree } from '../../../src/store/verify.js';
import { memoryDisk } from '../../../src/store/verifyarchive.js';
import { command } from '../../errors/museum.js';
import { remove } from '../../tui/realbench.js';
import { type Attack, Attacker, linesOf } from './attack.js';
import { asBench, type Files, filesIn, type RegisteredShop, registeredShop } from './registeredshop.js';

const ATTACKS = Number(process.env.PINCHROD_ATTACKS ?? 600);
const SEED = Number(process.env.PINCHROD_SEED ?? 20260302);

describe.each([
  ['a workshop that signs', true],
  ['a workshop without keys', false],
])('%s', (_name, keys) => {
  let shop: RegisteredShop;
  let genuine: Files;
  let known: Files;
  const nowhere = mkdtempSync(join(tmpdir(), 'pinchrod-nowhere-'));
  beforeAll(async () => {
    shop = await registeredShop(keys);
    genuine = filesIn(shop.root);
    known = filesIn(stateFolder());
  }, 60_000);
  afterAll(() => {
    remove(shop.root);
    rmSync(nowhere, { recursive: true, force: true });
  });

  /** Files in memory, and what the account knows of them where it is the account. */
  function diskOf(files: Files, account: boolean): Disk {
    const own = memoryDisk(shop.root, files);
    const state = memoryDisk(stateFolder(), account ? known : new Map());
    const of = (path: string) => (path.startsWith(stateFolder()) ? state : own);
    return {
      ...own,
      stat: (path) => of(path).stat(path),
      list: (path) => of(path).list(path),
      read: (path) => of(path).read(path),
    };
  }

  /** Ids that a stranger finds with the documents that were printed. */
  async function byDocuments(files: Files): Promise<string[]> {
    const folder = mkdtempSync(join(nowhere, 'w'));
    const put = (under: string, all: Files) => {
      for (const [name, bytes] of all) {
        mkdirSync(dirname(join(folder, under, name)), { recursive: true });
        writeFileSync(join(folder, under, name), bytes);
      }
    };
    put('shop', files);
    put('', shop.printed);
    const state = process.env.PINCHROD_STATE;
    process.env.PINCHROD_STATE = join(nowhere, 'state');
    try {
      const ids: string[] = [];
      for (const name of shop.printed.keys()) {
        const { text } = await asBench('bench-x', () =>
          command(join(folder, 'shop'), ['verify', join(folder, name), '--json']),
        );
        ids.push(...Array.from(text.matchAll(/verify\.[a-z-]+|journal\.[a-z-]+/g), String));
      }
      return ids;
    } finally {
      process.env.PINCHROD_STATE = state;
      rmSync(folder, { recursive: true });
    }
  }

  it('as it is, holds for both, and so do its documents', async () => {
    for (const account of [true, false])
      expect(verifyTree(diskOf(genuine, account), shop.root).faults).toEqual([]);
    expect((await byDocuments(genuine)).filter((id) => id !== 'verify.grown')).toEqual([]);
  }, 60_000);

  /** What is not findable for a stranger: nothing that he has from elsewhere is contradicted. */
  function beyondStranger(files: Files, { name }: Attack): boolean {
    const elsewhere = new Map<string, number>();
    const know = (bench: string, n: number) => elsewhere.set(bench, Math.max(n, elsewhere.get(bench) ?? 0));
    for (const [file, bytes] of files)
      if (/^logs\/\w+\/[\w-]+\.jsonl$/.test(file) && bytes.length > 0)
        for (const { register } of linesOf(bytes) as { register?: { bench: string; n: number } }[])
          if (register) know(register.bench, register.n);
    const printed = JSON.parse(String(shop.printed.get('A1.json'))).made.registers as {
      heads: { bench: string; n: number }[];
    };
    for (const { bench, n } of printed.heads) know(bench, n);
    const lines = (bench: string) => {
      const bytes = files.get(`register/benches/${bench}.jsonl`);
      return bytes ? linesOf(bytes).length : 0;
    };
    const there = [...elsewhere].every(([bench, n]) => lines(bench) >= n);
    // A copy, or a register cut, that is newer than every head kept elsewhere.
    if (/^(put|cut)/.test(name) && there && /all back|register\/benches/.test(name)) return true;
    if (keys) return false;
    // Without a key what is behind every head kept elsewhere may be written anew.
    const from = /(?:re-chain|re-sign) register\/benches\/([\w-]+)\.jsonl from (\d+)/.exec(name);
    return from !== null && Number(from[2]) > (elsewhere.get(from[1]!) ?? 0);
  }

  it(`finds ${ATTACKS} attacks, each by its right name`, async () => {
    let state = SEED;
    const chance = (most: number): number => {
      // Numerical Recipes' linear congruential generator; the high bits are used.
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return Math.floor((state / 2 ** 32) * (most + 1));
    };
    const attacker = new Attacker(genuine, shop.before, chance);
    const missed: string[] = [];
    const misnamed: string[] = [];
    const kinds = new Map<string, number>();
    let beyond = 0;
    let done = 0;
    for (let i = 0; i < ATTACKS; i++) {
      const files: Files = new Map(genuine);
      const attack = attacker.attack(files);
      const account = chance(1) === 0;
      const same =
        files.size === genuine.size && [...files].every(([name, bytes]) => genuine.get(name)?.equals(bytes));
      if (same) continue;
      done++;
      const report = verifyTree(diskOf(files, account), shop.root);
      let ids = report.faults.map(({ id }) => id);
      const { finds = [] } = attack;
      const right = (all: readonly string[]) => all.some((id) => finds.includes(id));
      if (!right(ids) && !account) ids = [...ids, ...(await byDocuments(files))];
      const kind = attack.name
        .split(/ |,/)
        .slice(0, 2)
        .join(' ')
        .replace(/ (logs|register|practice|line)\S*$/, '');
      kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      if (right(ids)) continue;
      if (finds.length === 0 || (!account && beyondStranger(files, attack))) beyond++;
      else if (ids.length === 0) missed.push(`${attack.name} (${account ? 'account' : 'stranger'})`);
      else
        misnamed.push(`${attack.name} (${account ? 'account' : 'stranger'}): ${[...new Set(ids)].join(' ')}`);
    }
    console.info(
      `${done} attacks of ${ATTACKS} drawn (seed ${SEED}), ${beyond} beyond finding: ${[...kinds].map(([kind, n]) => `${kind} ${n}`).join(', ')}`,
    );
    expect({ missed, misnamed }).toEqual({ missed: [], misnamed: [] });
    expect(beyond).toBeLessThan(done / 10);
    expect(registered(diskOf(genuine, false), shop.root)).toHaveLength(2);
  }, 1_800_000);
});
