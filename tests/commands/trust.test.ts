/** With fingerprints from paper, a key that somebody dropped into shared/keys vouches for nothing. */
import { cpSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { keyId, makeKeyPair, signerOf } from '../../src/unit/sealing.js';
import { command } from '../errors/museum.js';
import { withoutRegister } from '../registerless.js';
import { BENCH, builtWorkshop, JOB } from './built.js';
import { rewritten } from './rewritten.js';

let root: string;
let genuine: string;
let fingerprint: string;
const file = () => join(root, `logs/${JOB}/Q1-1.jsonl`);
const { id: theirs, privatePem, publicPem } = makeKeyPair();
const theirKey = () => join(root, `shared/keys/${theirs}.pem`);

beforeAll(async () => {
  process.env.PINCHROD_BENCH = BENCH;
  root = builtWorkshop(true);
  genuine = readFileSync(file(), 'utf8');
  fingerprint = /fingerprint: ([0-9a-f]{64})/.exec((await command(root, ['key', 'show'])).text)![1]!;
}, 60_000);
beforeEach(() => {
  writeFileSync(file(), genuine);
  rmSync(theirKey(), { force: true });
});
afterAll(() => {
  delete process.env.PINCHROD_BENCH;
  rmSync(dirname(root), { recursive: true, force: true });
});

function forge(): void {
  writeFileSync(theirKey(), publicPem);
  writeFileSync(file(), rewritten(genuine, signerOf(privatePem)));
}

it('what the named key signed holds; the id of a key is the beginning of its fingerprint', async () => {
  const trust = ['--trust', fingerprint.toUpperCase().replace(/(..)(?=.)/g, '$1:')];
  expect(await command(root, ['verify', ...trust])).toMatchObject({ code: 0 });
  expect(genuine).toContain(`"key":"${fingerprint.slice(0, 16)}"`);
  expect(keyId(publicPem)).toBe(theirs);
});

it.each([
  ['the journals', [] as string[]],
  ['a unit', ['Q1-1']],
])('a forgery with a fresh key is found in %s', async (_what, words) => {
  forge();
  const { code, text } = await command(root, ['verify', ...words, '--trust', fingerprint]);
  expect({ code, text }).toMatchObject({ code: 1, text: expect.stringContaining('[verify.untrusted-key]') });
});

it('and in a document or an archive made of it', async () => {
  // Made where nothing is known of the workshop's register, and so nothing of its keys.
  const theirShop = join(root, '..', 'theirs');
  cpSync(root, theirShop, { recursive: true });
  withoutRegister(theirShop);
  const genuineRoot = root;
  root = theirShop;
  forge();
  root = genuineRoot;
  const made = { txt: join(root, 'q.txt'), zip: join(root, 'q.zip') };
  for (const [verb, ...args] of [
    ['record', 'Q1-1', '--format', 'text', '--out', made.txt],
    ['archive', JOB, '--out', made.zip],
  ])
    expect(await command(theirShop, [verb!, ...args])).toMatchObject({ code: 0 });
  forge();
  for (const each of Object.values(made)) {
    const { code, text } = await command(root, ['verify', each, '--trust', fingerprint]);
    expect({ code, text }).toMatchObject({ code: 1, text: expect.stringContaining('verify.untrusted-key') });
  }
});

it('a named key that is gone is a fault, and no fingerprint is taken that is none', async () => {
  const absent = 'ab'.repeat(32);
  expect(await command(root, ['verify', '--trust', fingerprint, '--trust', absent])).toMatchObject({
    code: 1,
    text: expect.stringContaining('[verify.key-missing]'),
  });
  expect(await command(root, ['verify', '--trust', fingerprint.slice(1)])).toMatchObject({
    code: 2,
    text: expect.stringContaining('64 hex digits'),
  });
});
