/** A real journal, signed and sealed, changed at random ten thousand times: found every time, with its line, and never a crash. */
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { makeJobSeal } from '../../src/store/jobseal.js';
import { benchKey, publicKeyFile } from '../../src/store/key.js';
import { readJournal } from '../../src/store/readjournal.js';
import { verifyTree } from '../../src/store/verify.js';
import { memoryDisk } from '../../src/store/verifyarchive.js';
import { unitSealProblems } from '../../src/store/verifykept.js';
import { chainHash, chainLine } from '../../src/unit/chain.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { BENCH, builtWorkshop, JOB } from './built.js';

const NAME = `logs/${JOB}/Q1-1.jsonl`;
let root: string;
let whole: Buffer;
let all: string[];
let keys: Map<string, { readonly pem: string }>;
let rest: Map<string, Uint8Array>;

beforeAll(() => {
  root = builtWorkshop(true);
  whole = readFileSync(join(root, NAME));
  all = whole.toString('utf8').split('\n').slice(0, -1);
  const last = JSON.parse(all.at(-1)!) as JournalEvent & { key: string };
  const pem = readFileSync(join(root, publicKeyFile(last.key)));
  keys = new Map([[last.key, { pem: pem.toString('utf8') }]]);
  const key = benchKey(realDisk, root, BENCH);
  const seal = makeJobSeal(JOB, [{ unit: 'Q1-1', lines: all.length, hash: last.hash }], {
    at: last.at,
    bench: BENCH,
    signer: key.ok ? key.value : undefined,
  });
  rest = new Map<string, Uint8Array>([
    [publicKeyFile(last.key), pem],
    [`logs/${JOB}/job.seal.json`, Buffer.from(JSON.stringify(seal))],
  ]);
  rest.set('logs/setups.jsonl', readFileSync(join(root, 'logs/setups.jsonl')));
  for (const folder of ['logs/sources', 'logs/names', `logs/${JOB}/evidence`]) {
    mkdirSync(join(root, folder), { recursive: true });
    for (const name of realDisk.list(join(root, folder)))
      rest.set(`${folder}/${name}`, readFileSync(join(root, folder, name)));
  }
}, 60_000);
afterAll(() => rmSync(dirname(root), { recursive: true, force: true }));

/** The whole of `verify`, over files in memory. */
const verified = (journal: Buffer) =>
  verifyTree(memoryDisk('/shop', new Map([...rest, [NAME, journal]])), '/shop');
const lineOf = (whole: Buffer, at: number): number =>
  whole.subarray(0, at).filter((byte) => byte === 0x0a).length + 1;
const joined = (lines: readonly string[]): Buffer => Buffer.from(`${lines.join('\n')}\n`);

it('untouched: no false alarm', () => {
  expect(all.length).toBeGreaterThan(100);
  for (let i = 0; i < 20; i++)
    expect(verified(whole)).toMatchObject({ holds: true, faults: [], notes: [], seals: 2 });
});

// 10,000 together: most over the journal's beginning, since each run reads all that there is.
it.each([
  ['9,500 over its first 30 lines', 30, 9_500],
  ['500 over all of it', Number.POSITIVE_INFINITY, 500],
])(
  'single bytes, swaps, deletions and cuts, %s: every one found where it is',
  (_, count, numRuns) => {
    const texts = all.slice(0, count);
    const whole = joined(texts);
    const line = fc.nat(texts.length - 1);
    const change = fc.oneof(
      {
        weight: 6,
        arbitrary: fc.record({
          do: fc.constant('byte' as const),
          at: fc.nat(whole.length - 1),
          by: fc.integer({ min: 1, max: 255 }),
        }),
      },
      { weight: 1, arbitrary: fc.record({ do: fc.constant('swap' as const), a: line, b: line }) },
      {
        weight: 1,
        arbitrary: fc.record({ do: fc.constant('delete' as const), at: fc.nat(texts.length - 2) }),
      },
      {
        weight: 1,
        arbitrary: fc.record({
          do: fc.constant('cut' as const),
          at: fc.integer({ min: 1, max: whole.length - 1 }),
        }),
      },
    );
    let found = 0;
    fc.assert(
      fc.property(change, (each) => {
        let bytes: Buffer = Buffer.from(whole);
        // Lines from and to which the fault may be named.
        let from: number;
        let to: number;
        if (each.do === 'byte') {
          bytes[each.at]! ^= each.by;
          from = to = lineOf(whole, each.at);
        } else if (each.do === 'cut') {
          if (whole[each.at - 1] === 0x0a) return;
          bytes = whole.subarray(0, each.at);
          from = to = lineOf(whole, each.at);
        } else if (each.do === 'delete') {
          bytes = joined(texts.toSpliced(each.at, 1));
          from = to = each.at + 1;
        } else {
          if (each.a === each.b) return;
          bytes = joined(texts.with(each.a, texts[each.b]!).with(each.b, texts[each.a]!));
          from = to = Math.min(each.a, each.b) + 1;
        }
        const read = readJournal(bytes, { of: { job: JOB, unit: 'Q1-1' } });
        const named = read.faults[0]?.line ?? read.tail?.line;
        expect(named).toBeGreaterThanOrEqual(from);
        expect(named).toBeLessThanOrEqual(to);
        found++;
      }),
      { seed: 10_000, numRuns },
    );
    expect(found).toBeGreaterThan(numRuns * 0.9);
  },
  120_000,
);

it('whole lines cut off the end: the seals tell, down to the last line', () => {
  for (let keep = 1; keep < all.length; keep += keep > all.length - 12 ? 1 : 17) {
    const { holds, faults } = verified(joined(all.slice(0, keep)));
    expect(holds, `${keep} lines kept`).toBe(false);
    expect(faults.at(-1)).toMatchObject({
      id: 'verify.job-seal',
      place: { file: `logs/${JOB}/job.seal.json` },
    });
  }
});

it('written anew from any line on, every hash with it: the signature tells', () => {
  const events = all.map((text) => JSON.parse(text) as JournalEvent);
  fc.assert(
    fc.property(fc.nat(all.length - 2), (at) => {
      let prev = events[at]!.prev;
      const forged = events.slice(at).map((event, i) => {
        const anew = { ...event, prev, ...(i === 0 ? { by: 'zz' } : {}) } as Record<string, unknown>;
        if (anew.kind === 'sealed') anew.head = prev;
        prev = chainHash(anew);
        return chainLine({ ...anew, hash: prev } as unknown as JournalEvent);
      });
      const read = readJournal(joined([...all.slice(0, at), ...forged]), {
        of: { job: JOB, unit: 'Q1-1' },
      });
      expect(read.faults).toEqual([]);
      expect(unitSealProblems(read.events, NAME, keys).map(({ id }) => id)).toEqual(['verify.forged-chain']);
    }),
    { seed: 11, numRuns: 40 },
  );
});
