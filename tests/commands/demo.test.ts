/** The unattended demonstration is over when it is over: what is printed of it afterwards verifies. */
import { rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { command } from '../errors/museum.js';

it('a record of what was built unattended, printed right after it, verifies', async () => {
  const built = await command('.', ['demo', '--unattended', 'P02-1']);
  expect(built.code, built.text).toBe(0);
  const [, shop] = /^Workshop: (.+)$/m.exec(built.text)!;
  const out = join(dirname(shop!), 'all.html');
  try {
    expect((await command(shop!, ['record', '--since', '2020-01-01', '--out', out])).code).toBe(0);
    expect(await command(shop!, ['verify', out])).toMatchObject({ code: 0 });
  } finally {
    rmSync(dirname(shop!), { recursive: true, force: true });
  }
}, 60_000);

it('a job is built as a batch to the end, whatever other jobs there are', async () => {
  const built = await command('.', ['demo', '--unattended', 'yard-side']);
  expect(built.text).not.toContain('demo.stuck');
  expect(built.text).toMatch(/Confirmations of each: Y1-1 \d+ +Y2-1 \d+/);
}, 120_000);
