/** The bench's key: private to its owner, never shown, and told when it cannot be used. */
import { chmodSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { run } from '../../src/commands/key.js';
import { realDisk } from '../../src/store/disk.js';
import { anyKey, benchKey, newBenchKey, publicKeys } from '../../src/store/key.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { makeKeyPair } from '../../src/unit/sealing.js';

let root: string;
const file = () => join(root, 'keys/bench-1.pem');
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

function made(): string {
  const key = newBenchKey(realDisk, root, 'bench-1');
  if (!key.ok) throw new Error(key.problems[0]!.text);
  return key.value.id;
}

it('is made readable by its owner alone, with its public part under its id', ({ skip }) => {
  const id = made();
  expect(benchKey(realDisk, root, 'bench-1')).toMatchObject({ ok: true, value: { id } });
  expect(publicKeys(realDisk, root)).toMatchObject({ problems: [] });
  expect([...publicKeys(realDisk, root).keys.keys()]).toEqual([id]);
  expect(readFileSync(join(root, `shared/keys/${id}.pem`), 'utf8')).toContain('BEGIN PUBLIC KEY');
  if (process.platform === 'win32') skip('this system has no rights of that kind');
  expect(statSync(file()).mode & 0o777).toBe(0o600);
});

it('is not made twice, and not used where others may read it or it holds no key', () => {
  expect(benchKey(realDisk, root, 'bench-1')).toMatchObject({ ok: true, value: undefined });
  made();
  const before = readFileSync(file(), 'utf8');
  expect(newBenchKey(realDisk, root, 'bench-1')).toMatchObject({
    ok: false,
    problems: [{ id: 'key.there' }],
  });
  expect(readFileSync(file(), 'utf8')).toBe(before);
  if (process.platform !== 'win32') {
    chmodSync(file(), 0o640);
    expect(benchKey(realDisk, root, 'bench-1')).toMatchObject({ ok: false, problems: [{ id: 'key.open' }] });
    chmodSync(file(), 0o600);
  }
  writeFileSync(file(), 'nonsense');
  expect(benchKey(realDisk, root, 'bench-1')).toMatchObject({
    ok: false,
    problems: [{ id: 'key.unusable' }],
  });
  const none = { ok: false, problems: [{ id: 'key.unusable', text: 'This is no key file.' }] };
  writeFileSync(file(), ' '.repeat(10_001), { mode: 0o600 });
  expect(benchKey(realDisk, root, 'bench-1')).toMatchObject(none);
  rmSync(file());
  mkdirSync(file());
  expect(benchKey(realDisk, root, 'bench-1')).toMatchObject(none);
  expect(benchKey(realDisk, root, '../x')).toMatchObject({ ok: false, problems: [{ id: 'key.bench-name' }] });
  // Where what is there cannot be used, none is made over it.
  for (const bench of ['bench-1', '../x']) expect(newBenchKey(realDisk, root, bench).ok).toBe(false);
});

it('of any bench is the first by name that can be used; what is no key is passed over', () => {
  expect(anyKey(realDisk, root)).toBeUndefined();
  const id = made();
  writeFileSync(join(root, 'keys/about.txt'), 'the keys of this bench');
  writeFileSync(join(root, 'keys/bench-0.pem'), 'nonsense', { mode: 0o600 });
  expect(anyKey(realDisk, root)).toMatchObject({ id });
  rmSync(file());
  expect(anyKey(realDisk, root)).toBeUndefined();
});

it('of a public file that holds another key is not believed', () => {
  const id = made();
  writeFileSync(join(root, `shared/keys/${id}.pem`), makeKeyPair().publicPem);
  expect(publicKeys(realDisk, root)).toMatchObject({ problems: [{ id: 'key.unusable' }] });
  expect(publicKeys(realDisk, root).keys.size).toBe(0);
});

it('of a public file that is no file or far too large is not believed; other files are passed over', () => {
  const id = made();
  mkdirSync(join(root, `shared/keys/${'a'.repeat(16)}.pem`));
  writeFileSync(join(root, `shared/keys/${'b'.repeat(16)}.pem`), ' '.repeat(10_001));
  writeFileSync(join(root, 'shared/keys/notes.txt'), 'x');
  const { keys, problems } = publicKeys(realDisk, root);
  expect([...keys.keys()]).toEqual([id]);
  expect(problems.map((each) => [each.id, each.place?.file])).toEqual(
    ['a', 'b'].map((each) => ['key.unusable', `shared/keys/${each.repeat(16)}.pem`]),
  );
});

it('is shown by the command without its private part', async () => {
  const workshop = join(root, 'shop');
  expect(makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), workshop).ok).toBe(true);
  const said: string[] = [];
  const io = {
    workshop,
    out: (text: string) => void said.push(text),
    err: (text: string) => void said.push(text),
  };
  expect(await run(['show'], io)).toBe(0);
  expect(said.join('\n')).toContain('has no key');
  expect(await run(['new'], io)).toBe(0);
  expect(await run(['show'], io)).toBe(0);
  expect(await run(['new'], io)).toBe(2);
  expect(await run(['lend'], io)).toBe(2);
  const all = said.join('\n');
  expect(all).toContain('BEGIN PUBLIC KEY');
  expect(all).not.toContain('PRIVATE');
  const [name] = realDisk.list(join(workshop, 'keys'));
  const secret = readFileSync(join(workshop, 'keys', name!), 'utf8').split('\n')[1]!;
  expect(all).not.toContain(secret);
});
