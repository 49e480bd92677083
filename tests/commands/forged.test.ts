/** A signature that does not hold is laundered nowhere: not by sealing, not by printing, not by a document that verifies. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { command } from '../errors/museum.js';
import { withoutRegister } from '../registerless.js';
import { BENCH, builtWorkshop, JOB } from './built.js';
import { rewritten } from './rewritten.js';

let root: string;
let genuine: string;
const file = () => join(root, `logs/${JOB}/Q1-1.jsonl`);
const seal = () => join(root, `logs/${JOB}/job.seal.json`);

beforeAll(() => {
  process.env.PINCHROD_BENCH = BENCH;
  model = builtWorkshop(true);
  genuine = readFileSync(join(model, `logs/${JOB}/Q1-1.jsonl`), 'utf8');
}, 60_000);
/** The workshop as it was built, in a folder of its own. */
let model: string;
beforeEach(() => {
  const parent = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  root = join(parent, 'shop');
  cpSync(model, root, { recursive: true });
});
afterEach(() => rmSync(dirname(root), { recursive: true, force: true }));
afterAll(() => {
  delete process.env.PINCHROD_BENCH;
  rmSync(dirname(model), { recursive: true, force: true });
});

const rewrite = () => writeFileSync(file(), rewritten(genuine));

it('is genuine at first: recorded, sealed, verified', async () => {
  expect(await command(root, ['record', 'Q1-1'])).toMatchObject({
    code: 0,
    text: expect.stringMatching(new RegExp(`Signed by +${BENCH}`)),
  });
  expect(await command(root, ['seal', JOB])).toMatchObject({ code: 0 });
  expect(await command(root, ['verify'])).toMatchObject({ code: 0 });
});

it.each(['record', 'label'])('%s makes nothing of a journal that its signature is not of', async (verb) => {
  rewrite();
  const { code, text } = await command(root, [verb, 'Q1-1']);
  expect({ code, text }).toMatchObject({ code: 1, text: expect.stringContaining('[verify.forged-chain]') });
  expect(text).not.toContain('Signed by');
});

it('a document of such a journal does not verify, nor does a genuine one against it', async () => {
  const printed = join(root, '..', 'genuine.html');
  await command(root, ['record', 'Q1-1', '--format', 'html', '--out', printed]);
  expect(await command(root, ['verify', printed])).toMatchObject({ code: 0 });
  rewrite();
  expect(await command(root, ['verify', printed])).toMatchObject({ code: 1 });
});

it('sealing refuses it, and signs nothing', async () => {
  rewrite();
  const forged = readFileSync(file(), 'utf8');
  const { code, text } = await command(root, ['seal', JOB]);
  expect({ code, text }).toMatchObject({ code: 1, text: expect.stringContaining('[verify.forged-chain]') });
  expect(readFileSync(file(), 'utf8')).toBe(forged);
});

it('sealing refuses a job that an earlier seal does not fit', async () => {
  await command(root, ['seal', JOB]);
  const before = readFileSync(seal(), 'utf8');
  // Taken away with its seal, the end may be signed anew only where nothing knows better.
  const short = genuine.trimEnd().split('\n').slice(0, -1);
  writeFileSync(file(), `${short.join('\n')}\n`);
  const { code, text } = await command(root, ['seal', JOB]);
  expect({ code, text }).toMatchObject({ code: 1, text: expect.stringContaining('[verify.journal-cut]') });
  withoutRegister(root);
  expect(await command(root, ['seal', JOB])).toMatchObject({
    code: 1,
    text: expect.stringContaining('[verify.job-seal]'),
  });
  expect(readFileSync(seal(), 'utf8')).toBe(before);
});
