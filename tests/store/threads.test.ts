/** Large logs verified by several threads: what is found is what one thread finds. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { verifyInThreads, verifyTree } from '../../src/store/verify.js';
import { JOB, realWorkshop } from './realjournals.js';

const UNITS = ['P01-1', 'P02-1', 'P02-2', 'P03-1', 'P04-1', 'P05-1'];
let folder: string;
let root: string;
let script: URL;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'pinchrod-threads-'));
  root = join(folder, 'workshop');
  for (const [name, bytes] of realWorkshop(UNITS).files) {
    const file = join(root, name);
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, bytes);
  }
  // A job of the same unit by many names: whose name a journal stands under is a fault of its own, in every one of them.
  mkdirSync(join(root, 'logs', 'quay-end'));
  const text = readFileSync(join(root, `logs/${JOB}/P05-1.jsonl`));
  for (let i = 1; i <= 20; i++)
    writeFileSync(join(root, `logs/quay-end/Q${i}.jsonl`), i === 7 ? text.subarray(0, 5000) : text);
  const outfile = join(folder, 'helper.mjs');
  const source = `import { helpVerify } from '${join(import.meta.dirname, '../../src/store/verify.ts')}'; helpVerify();`;
  await build({
    stdin: { contents: source, resolveDir: import.meta.dirname, loader: 'ts' },
    outfile,
    bundle: true,
    platform: 'node',
    format: 'esm',
    banner: {
      js: "import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    },
    logLevel: 'error',
  });
  script = pathToFileURL(outfile);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it.each([2, 3, 5])('by %i threads is the same report, word for word', async (threads) => {
  const alone = verifyTree(realDisk, root);
  expect(alone).toMatchObject({ holds: false, journals: 26, seals: 26 });
  expect(await verifyInThreads(root, {}, { script, words: [] }, { threads, worthIt: 0 })).toEqual(alone);
  const request = { job: 'quay-end' };
  const one = await verifyInThreads(root, request, { script, words: [] }, { threads, worthIt: 0 });
  expect(one).toEqual(verifyTree(realDisk, root, request));
});

it('counts no key but those named, in every thread', async () => {
  const request = { trust: ['ab'.repeat(32)] };
  const report = await verifyInThreads(root, request, { script, words: [] }, { threads: 3, worthIt: 0 });
  expect(report).toEqual(verifyTree(realDisk, root, request));
  expect(report.faults.filter(({ id }) => id === 'verify.untrusted-key').length).toBeGreaterThan(
    UNITS.length,
  );
});

it('is the same where helpers cannot start, or die', async () => {
  const alone = verifyTree(realDisk, root);
  const dies = join(folder, 'dies.mjs');
  writeFileSync(
    dies,
    "import { workerData } from 'node:worker_threads'; Atomics.add(new Int32Array(workerData.taken), 0, 2); throw new Error('dead');",
  );
  for (const other of [pathToFileURL(join(folder, 'no-such.mjs')), pathToFileURL(dies)])
    expect(await verifyInThreads(root, {}, { script: other, words: [] }, { threads: 3, worthIt: 0 })).toEqual(
      alone,
    );
});
