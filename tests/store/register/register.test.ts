/** Registers and keys at the command line: what each finding is given by, and each way out. All data is invented. */
import {
  chmodSync,
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { realPorts } from '../../../src/session/workshopports.js';
import { type Disk, realDisk } from '../../../src/store/disk.js';
import { forgetHere, keepFirstKeyHere } from '../../../src/store/register/account.js';
import { canonicalText } from '../../../src/unit/chain.js';
import { fingerprintOf, makeKeyPair, signerOf } from '../../../src/unit/sealing.js';
import { command } from '../../errors/museum.js';
import { withoutRegister } from '../../registerless.js';
import { benchOf, portsOf, RIGHT, remove } from '../../tui/realbench.js';
import { linesOf, rechained } from './attack.js';
import {
  A,
  asBench,
  B,
  build,
  type Files,
  filesIn,
  must,
  opened,
  type RegisteredShop,
  registeredShop,
} from './registeredshop.js';

let signing: RegisteredShop;
let keyless: RegisteredShop;
let root: string;
const PIN = '2705';

beforeAll(async () => {
  signing = await registeredShop(true);
  keyless = await registeredShop(false);
}, 120_000);
afterAll(() => {
  for (const each of [signing, keyless]) remove(each.root);
});
/** A copy, of which this account knows nothing until it works there. */
function copyOf({ root: from }: RegisteredShop): string {
  const to = join(mkdtempSync(join(tmpdir(), 'pinchrod-')), 'shop');
  cpSync(from, to, { recursive: true });
  return to;
}
beforeEach(() => {
  root = copyOf(signing);
});
afterEach(() => {
  withoutRegister(root);
  remove(root);
});

const path = (file: string) => join(root, file);
const A1 = 'logs/row/A1-1.jsonl';
const D1 = 'logs/done/D1-1.jsonl';
const SETUPS = 'logs/setups.jsonl';
const register = (bench: string) => `register/benches/${bench}.jsonl`;
const KEYS = 'register/keys.jsonl';
const texts = (file: string): string[] => readFileSync(path(file), 'utf8').trimEnd().split('\n');
const put = (file: string, lines: readonly string[]) =>
  writeFileSync(path(file), lines.map((line) => `${line}\n`).join(''));
const cut = (file: string, by = 1) => put(file, texts(file).slice(0, -by));
function again(
  file: string,
  from: number,
  change: (line: Record<string, unknown>) => object = (line) => line,
): void {
  const lines = linesOf(readFileSync(path(file)));
  const changed = lines.map((line, i) => (i < from ? line : change(line))) as typeof lines;
  put(
    file,
    rechained(changed, from).map((line) => canonicalText(line)),
  );
}
const verified = (...args: string[]) => asBench(A, () => command(root, ['verify', ...args]));
const ran = (bench: string, args: string[], input: readonly string[] = []) =>
  asBench(bench, () => command(root, args, input));
const accepted = (bench = A, by = 'ot', pin = PIN) =>
  ran(bench, ['register', 'accept', '--by', by, '--reason', 'the disk failed'], [pin]);
/** One answer more, so that this account knows the registers. */
function work(bench: string, unit: string): void {
  const ports = portsOf(root, { wall: Date.UTC(2026, 3, 1, 8), steady: 1 }, bench);
  opened(ports, unit);
  const acted = ports.act({ do: 'note', text: 'one more' }, { person: 'jb' });
  if (acted.kind !== 'done') throw new Error(JSON.stringify(acted));
  ports.close();
}

describe('what verify names', () => {
  const FINDS: readonly (readonly [id: string, what: string, () => unknown])[] = [
    ['verify.journal-cut', 'a journal cut at a line end', () => cut(A1, 2)],
    ['verify.journal-emptied', 'a journal emptied', () => put(A1, [])],
    ['verify.journal-gone', 'a journal removed', () => rmSync(path(A1))],
    [
      'verify.journal-gone',
      'the folder of a sealed job removed',
      () => rmSync(path('logs/done'), { recursive: true }),
    ],
    ['verify.seal-gone', 'a seal removed', () => rmSync(path('logs/done/job.seal.json'))],
    ['verify.journal-gone', 'the journal of set-ups removed', () => rmSync(path(SETUPS))],
    ['verify.journal-put-back', 'the journal of set-ups cut where an entry was made', () => cut(SETUPS, 3)],
    ['verify.journal-gone', 'sign-offs removed', () => rmSync(path('practice/signoff.jsonl'))],
    ['verify.journal-emptied', 'practice emptied', () => put('practice/people/ek.jsonl', [])],
    [
      'verify.changed-line',
      'a line of the sign-offs changed',
      () =>
        put(
          'practice/signoff.jsonl',
          texts('practice/signoff.jsonl').map((line) => line.replace('sawed well', 'sawed best')),
        ),
    ],
    ['verify.journal-put-back', 'an older copy put back', () => put(SETUPS, texts(SETUPS).slice(0, 2))],
    [
      'verify.journal-anew',
      'set-ups written anew from a line on',
      () => again(SETUPS, 2, (line) => ({ ...line, by: 'ek' })),
    ],
    [
      'verify.journal-born-again',
      'set-ups written anew from the first',
      () => again(SETUPS, 0, (line) => ({ ...line, by: 'ek' })),
    ],
    ['verify.register-gone', 'a register removed', () => rmSync(path(register(A)))],
    ['verify.register-gone', 'the whole folder removed', () => rmSync(path('register'), { recursive: true })],
    [
      'verify.register-cut',
      'a register cut before what units name',
      () => put(register(A), texts(register(A)).slice(0, 4)),
    ],
    ['verify.register-gone', 'the register of keys removed', () => rmSync(path(KEYS))],
    [
      'verify.register-unsigned',
      'signatures stripped',
      () => again(register(B), 3, ({ signedBy: _b, signature: _s, ...line }) => line),
    ],
    [
      'verify.forged-chain',
      'a register written anew',
      () => again(register(B), 3, (line) => ({ ...line, by: 'jb' })),
    ],
    [
      'verify.key-entry',
      'the register of keys written anew',
      () => again(KEYS, 1, (line) => ({ ...line, of: 'bench-z' })),
    ],
    [
      'verify.torn-end',
      'a torn end',
      () => writeFileSync(path(register(A)), `${texts(register(A)).join('\n')}\n{"a`),
    ],
    [
      'verify.not-opened',
      'a register under another name',
      () => renameSync(path(register(B)), path(register('bench-z'))),
    ],
    [
      'verify.unknown-event',
      'an entry that this version does not know',
      () => again(register(B), 5, (line) => ({ ...line, kind: 'dreamt' })),
    ],
    [
      'verify.not-a-file',
      'a folder in the place of a register',
      () => {
        rmSync(path(register(B)));
        mkdirSync(path(register(B)));
      },
    ],
    [
      'verify.not-a-file',
      'a folder in the place of the sign-offs',
      () => {
        rmSync(path('practice/signoff.jsonl'));
        mkdirSync(path('practice/signoff.jsonl'));
      },
    ],
    [
      'verify.key-not-introduced',
      'a fresh key that signed a rewritten unit',
      () => {
        const { id, privatePem, publicPem } = makeKeyPair();
        writeFileSync(path(`shared/keys/${id}.pem`), publicPem);
        const lines = linesOf(readFileSync(path(A1))).map((line) => ({
          ...line,
          ...(line.kind === 'answered' ? { by: 'ek' } : {}),
        }));
        put(A1, rechained(lines as never, 0, signerOf(privatePem)).map(canonicalText));
      },
    ],
    ['verify.key-missing', 'a public key removed', () => rmSync(path(`shared/keys/${publicKeys()[0]}`))],
  ];
  it.each(FINDS)('%s: %s', async (id, _what, act) => {
    expect(await verified()).toMatchObject({ code: 0 });
    await act();
    const { code, text } = await verified();
    expect({ code, text }).toMatchObject({ code: 1, text: expect.stringContaining(`[${id}]`) });
  });

  it('nothing, in a workshop that is as it was left; and that of an earlier version with a note', async () => {
    expect(await verified()).toMatchObject({ code: 0, text: expect.stringContaining('register entries') });
    const earlier = copyOf(signing);
    withoutRegister(earlier);
    for (const file of [A1, D1, 'logs/row/A2-1.jsonl', 'logs/row/A3-1.jsonl', 'logs/row/A4-1.jsonl']) {
      const lines = linesOf(readFileSync(join(earlier, file)));
      const keys = lines.map(({ register: _, ...line }) => line) as typeof lines;
      writeFileSync(
        join(earlier, file),
        rechained(
          keys.filter(({ kind }) => kind !== 'sealed'),
          0,
        )
          .map((line) => `${canonicalText(line)}\n`)
          .join(''),
      );
    }
    rmSync(join(earlier, 'logs/done/job.seal.json'));
    const { code, text } = await asBench(A, () => command(earlier, ['verify']));
    expect({ code, text }).toMatchObject({ code: 0, text: expect.stringContaining('[verify.no-register]') });
    remove(earlier);
  });

  it.each([
    ['at its end', () => []],
    ['before a note', () => [{ kind: 'noted', text: 'well done' }]],
    [
      'before a jump of the clock',
      () => [{ kind: 'clock-jumped', from: '2026-03-02T08:00:00.000Z', to: '2026-03-02T09:00:00.000Z' }],
    ],
  ])('a unit that was closed by hand, without a signature, %s', async (_where, more) => {
    const file = 'logs/row/A4-1.jsonl';
    const lines = linesOf(readFileSync(path(file)));
    const last = lines.at(-1)!;
    const { text: _, ...plain } = last as Record<string, unknown>;
    const forged = [
      { ...plain, kind: 'finished', steps: 4, checks: 8, bench: A },
      ...more().map((each) => ({ ...plain, ...each })),
    ];
    put(
      file,
      rechained([...lines, ...forged] as never, lines.length).map((line) => canonicalText(line)),
    );
    const { code, text } = await verified();
    expect({ code, text }).toMatchObject({
      code: 1,
      text: expect.stringContaining('[verify.signature-missing]'),
    });
    expect((await ran(A, ['record', 'A4-1'])).text).toContain('[verify.signature-missing]');
  });

  it('such a unit, though a register of a bench that there never was says that it was so from the first', async () => {
    const file = 'logs/row/A4-1.jsonl';
    const lines = linesOf(readFileSync(path(file)));
    const { text: _, ...plain } = lines.at(-1)! as Record<string, unknown>;
    const forged = { ...plain, kind: 'finished', steps: 4, checks: 8, bench: A };
    const anew = rechained([...lines, forged] as never, lines.length);
    put(
      file,
      anew.map((line) => canonicalText(line)),
    );
    const last = anew.at(-1)!;
    const own = { v: 2, at: '2026-03-02T07:00:00.000Z', by: 'nobody', bench: 'bench-z', prev: '', hash: '' };
    const planted = [
      { ...own, n: 1, kind: 'register-begun', of: 'bench-z', program: '0.2.0', before: [] },
      { ...own, n: 2, kind: 'heads', on: 'begun', heads: [{ file, events: last.n, hash: last.hash }] },
    ];
    put(
      register('bench-z'),
      rechained(planted as never, 0).map((line) => canonicalText(line)),
    );
    const { code, text } = await verified();
    expect({ code, text }).toMatchObject({
      code: 1,
      text: expect.stringContaining('[verify.signature-missing]'),
    });
  });

  it('an acceptance that was planted with a bench without a key, once that bench is given one', async () => {
    for (const name of [A, B]) renameSync(path(`keys/${name}.pem`), path(`${name}.pem`));
    work('bench-c', 'row/A4-1');
    const lines = linesOf(readFileSync(path(register('bench-c'))));
    const { heads: _h, on: _o, ...plain } = lines.at(-1)! as Record<string, unknown>;
    const gone = { file: D1, events: 0, hash: '0'.repeat(64) };
    const seen = [A, B].map((bench) => ({ bench, n: texts(register(bench)).length }));
    const planted = {
      ...plain,
      kind: 'restore-accepted',
      reason: 'x',
      pin: true,
      heads: [gone],
      lost: [],
      seen,
    };
    put(
      register('bench-c'),
      rechained([...lines, planted] as never, lines.length).map((line) => canonicalText(line)),
    );
    withoutKnown();
    rmSync(path(D1));
    rmSync(path('logs/done/job.seal.json'));
    expect((await verified()).text).toContain('[verify.journal-gone]');
    const fingerprint = /accept ([0-9a-f]{64})/.exec((await ran('bench-c', ['key', 'new'])).text)![1]!;
    renameSync(path(`${A}.pem`), path(`keys/${A}.pem`));
    expect(await ran(A, ['key', 'accept', fingerprint])).toMatchObject({ code: 0 });
    expect((await verified()).text).toContain('[verify.journal-gone]');
  });

  it('a sign-off that was written by hand, as a note', async () => {
    const lines = linesOf(readFileSync(path('practice/signoff.jsonl')));
    const more = [...lines, { ...lines.at(-1)!, text: 'may do all', n: lines.length + 1 }];
    put(
      'practice/signoff.jsonl',
      rechained(more, lines.length).map((line) => canonicalText(line)),
    );
    const { code, text } = await verified();
    expect({ code, text }).toMatchObject({ code: 0, text: expect.stringContaining('[verify.not-entered]') });
    expect(text).toContain('practice/signoff.jsonl:4');
  });

  it('a unit asked for alone, and only it', async () => {
    rmSync(path(D1));
    expect(await verified('A1-1')).toMatchObject({ code: 0 });
    expect(await verified('done')).toMatchObject({
      code: 1,
      text: expect.stringContaining('[verify.journal-gone]'),
    });
    cut(A1, 2);
    expect(await verified('row', 'A1-1')).toMatchObject({
      code: 1,
      text: expect.stringContaining('[verify.journal-cut]'),
    });
    expect(await verified('row', 'A2-1')).toMatchObject({ code: 0 });
  });

  it('a file that is not to be read', async ({ skip }) => {
    if (process.getuid?.() === 0) skip('nothing is closed to root');
    chmodSync(path(register(A)), 0);
    expect(await verified()).toMatchObject({ code: 3, text: expect.stringContaining('[verify.unreadable]') });
  });
});

const publicKeys = (): string[] => readdirSync(path('shared/keys')).filter((name) => name.endsWith('.pem'));

describe('what this account knows by itself', () => {
  it('a register put back whole, with all the rest', async () => {
    const before = filesIn(root);
    work(A, 'row/A3-1');
    restore(before);
    const { code, text } = await verified();
    expect({ code, text }).toMatchObject({ code: 1, text: expect.stringContaining('[verify.register-cut]') });
    expect(text).toContain('What this account knows names entry');
    // The bench goes on, enters nothing over it, and says why.
    const ports = portsOf(root, { wall: Date.UTC(2026, 3, 1, 8), steady: 1 }, A);
    opened(ports, 'row/A3-1');
    expect(ports.act({ do: 'note', text: 'goes on' }, { person: 'jb' }).kind).toBe('done');
    expect(ports.warnings()).toMatchObject([{ id: 'register.gone' }]);
    ports.close();
    expect((await verified()).text).toContain('[verify.register-cut]');
  });

  it('a workshop without keys that was written anew from end to end', async () => {
    root = copyOf(keyless);
    expect(await verified()).toMatchObject({ code: 0 });
    work(A, 'row/A3-1');
    again(register(A), 2, (line) => ({ ...line, by: 'mv' }));
    expect((await verified()).text).toContain('[verify.register-anew]');
  });

  it('is not asked where another workshop is made in the same place', async () => {
    work(A, 'row/A3-1');
    rmSync(root, { recursive: true });
    await must(tmpdir(), 'init', root, '--demonstration');
    expect(await verified()).toMatchObject({ code: 0 });
  });

  it('the first key, so that a whole other workshop signed with another does not pass', async () => {
    work(A, 'row/A3-1');
    const other = await registeredShop(true);
    rmSync(root, { recursive: true });
    cpSync(other.root, root, { recursive: true });
    const { text } = await verified();
    expect(text).toContain('[verify.register-');
    expect(text).toContain('[verify.key-not-introduced]');
    remove(other.root);
  }, 60_000);
});

function restore(files: Files): void {
  for (const name of filesIn(root).keys()) if (!files.has(name)) rmSync(path(name));
  for (const [name, bytes] of files) {
    mkdirSync(dirname(path(name)), { recursive: true });
    writeFileSync(path(name), bytes);
  }
}

describe('a restore', () => {
  let before: Files;
  beforeEach(() => {
    before = filesIn(root);
    work(A, 'row/A3-1');
    build(root, { wall: Date.UTC(2026, 3, 2, 8), steady: 1 }, B, 'row/A4-1', 2);
    restore(before);
  });

  it('is accepted by a named person who may release, by their PIN, and stays named', async () => {
    expect(await verified()).toMatchObject({ code: 1 });
    expect(await accepted(A, 'nobody')).toMatchObject({
      code: 2,
      text: expect.stringContaining('[person.unknown]'),
    });
    expect(await accepted(A, 'ek')).toMatchObject({
      code: 1,
      text: expect.stringContaining('[person.right]'),
    });
    expect(await accepted(A, 'ot', '0000')).toMatchObject({
      code: 1,
      text: expect.stringContaining('[person.pin-wrong]'),
    });
    expect(await accepted()).toMatchObject({ code: 0, text: expect.stringContaining('Accepted by') });
    const { code, text } = await verified();
    expect({ code, text }).toMatchObject({
      code: 0,
      text: expect.stringContaining('[verify.restore-accepted]'),
    });
    expect(text).toContain('the disk failed');
    expect(await accepted()).toMatchObject({ code: 1, text: expect.stringContaining('[register.nothing]') });
    // Both benches go on.
    work(A, 'row/A3-1');
    work(B, 'row/A4-1');
    expect(await verified()).toMatchObject({ code: 0 });
    // And what is put back after that is found as before.
    cut(SETUPS, 2);
    expect((await verified()).text).toContain('[verify.journal-put-back]');
  });

  it('accepts a journal, a seal and a register that are gone, and a register that is damaged', async () => {
    rmSync(path(D1));
    rmSync(path('logs/done/job.seal.json'));
    rmSync(path(register(B)));
    put(
      register(A),
      texts(register(A)).map((line, i) => (i === 5 ? line.replace('"by":"', '"by":"x') : line)),
    );
    expect(await accepted()).toMatchObject({ code: 0 });
    expect(await verified()).toMatchObject({ code: 0 });
    expect(readdirSync(path('register/benches'))).toContain('bench-a.jsonl.aside-1');
    work(B, 'row/A4-1');
    expect(await verified()).toMatchObject({ code: 0 });
  });

  it.each([A, B])('accepts that the register of %s is gone, and it goes on', async (lost) => {
    rmSync(path(register(lost)));
    for (const bench of [A, B]) {
      await accepted(bench);
      expect(await verified()).toMatchObject({ code: 0 });
      work(bench, 'row/A3-1');
      expect(await verified()).toMatchObject({ code: 0 });
    }
  });

  it('with all registers gone the advice leads through: the register of keys first, then the restore', async () => {
    rmSync(path('register'), { recursive: true });
    expect((await accepted()).text).toContain('[key.register-gone]');
    expect(await ran(A, ['key', 'new', '--anew'])).toMatchObject({ code: 0 });
    for (const file of publicKeys()) {
      const { text } = await ran(A, [
        'key',
        'accept',
        fingerprintOf(readFileSync(path(`shared/keys/${file}`), 'utf8'))!,
        '--bench',
        B,
      ]);
      expect(text).toMatch(/counts from now on|takes .* for a first key/);
    }
    expect(await accepted()).toMatchObject({ code: 0 });
    expect(await verified()).toMatchObject({ code: 0 });
    for (const bench of [A, B]) work(bench, 'row/A3-1');
    expect(await verified()).toMatchObject({ code: 0 });
  });

  it('accepts nothing else, and not where the bench does not sign', async () => {
    const keys = texts(KEYS);
    put(
      KEYS,
      keys.map((line) => line.replace('"by":"nobody"', '"by":"somebody"')),
    );
    expect(await accepted()).toMatchObject({
      code: 1,
      text: expect.stringContaining('[register.not-restored]'),
    });
    put(KEYS, keys);
    expect(await accepted('bench-c')).toMatchObject({
      code: 2,
      text: expect.stringContaining('[key.nobody-signs]'),
    });
    expect(await ran(A, ['register', 'accept', '--by', 'ot'])).toMatchObject({
      code: 2,
      text: expect.stringContaining('[command.usage]'),
    });
  });

  it('is not accepted by an entry of somebody who has no key', async () => {
    await accepted();
    again(register(A), texts(register(A)).length - 1, (line) => ({
      ...line,
      reason: 'none of your business',
    }));
    expect((await verified()).text).toContain('[verify.forged-chain]');
  });
});

describe('keys', () => {
  it('of a third bench count once one that counts introduces them, by their fingerprint', async () => {
    for (const name of [A, B]) renameSync(path(`keys/${name}.pem`), path(`${name}.pem`));
    const asked = await ran('bench-c', ['key', 'new']);
    expect(asked).toMatchObject({ code: 0, text: expect.stringContaining('does not count yet') });
    const fingerprint = /accept ([0-9a-f]{64})/.exec(asked.text)![1]!;
    expect(await verified()).toMatchObject({ code: 0 });
    expect((await ran('bench-c', ['key', 'show'])).text).toContain('It does not count yet');
    // What it would close is asked about, as with a key that cannot be used.
    expect((await ran('bench-c', ['seal', 'done'])).text).toContain('[key.not-introduced]');
    expect(await ran(A, ['key', 'accept', fingerprint])).toMatchObject({
      code: 2,
      text: expect.stringContaining('[key.nobody-signs]'),
    });
    renameSync(path(`${A}.pem`), path(`keys/${A}.pem`));
    expect((await ran(A, ['key', 'show'])).text).toContain(`pinchrod key accept ${fingerprint}`);
    expect(await ran(A, ['key', 'accept', 'ab'.repeat(32)])).toMatchObject({
      code: 2,
      text: expect.stringContaining('[key.unknown]'),
    });
    expect(await ran(A, ['key', 'accept', 'abc'])).toMatchObject({
      code: 2,
      text: expect.stringContaining('[key.unknown]'),
    });
    expect(await ran(A, ['key', 'accept', fingerprint])).toMatchObject({ code: 0 });
    build(root, { wall: Date.UTC(2026, 2, 3, 8), steady: 1 }, 'bench-c', 'row/A4-1');
    const { code, text } = await verified();
    expect({ code, text }).toMatchObject({ code: 0 });
    expect((await ran('bench-c', ['key', 'show'])).text).toContain('Counts: key');
  });

  it('are replaced and withdrawn; what they signed by then still counts, and nothing after', async () => {
    const old = readFileSync(path(`keys/${A}.pem`));
    expect(await ran(A, ['key', 'replace'])).toMatchObject({
      code: 0,
      text: expect.stringContaining('is withdrawn'),
    });
    expect(await verified()).toMatchObject({ code: 0 });
    work(A, 'row/A3-1');
    expect(await verified()).toMatchObject({ code: 0 });
    // Somebody who has the old key goes on with it.
    const files = filesIn(root);
    writeFileSync(path(`keys/${A}.pem`), old, { mode: 0o600 });
    expect((await ran(A, ['seal', 'done'])).text).toContain('[key.withdrawn]');
    const signer = signerOf(old.toString())!;
    put(
      A1,
      rechained(linesOf(files.get(A1)!).concat(linesOf(files.get(A1)!).slice(-1)) as never, 0, signer).map(
        canonicalText,
      ),
    );
    put(register(A), rechained(linesOf(files.get(register(A))!), 3, signer).map(canonicalText));
    expect((await verified()).text).toContain('[verify.key-withdrawn]');
    restore(files);
    const { key } = linesOf(files.get(KEYS)!)[1] as unknown as { key: string };
    expect(await ran(A, ['key', 'withdraw', key, '--why', 'exposed'])).toMatchObject({ code: 0 });
    expect(await ran(A, ['key', 'withdraw', key, '--why', 'exposed'])).toMatchObject({
      code: 2,
      text: expect.stringContaining('[key.unknown]'),
    });
    expect(await ran(A, ['key', 'withdraw', key])).toMatchObject({
      code: 2,
      text: expect.stringContaining('[command.usage]'),
    });
    expect(await verified()).toMatchObject({ code: 0 });
    expect((await ran(A, ['key', 'show'])).text).toContain('Withdrawn: key');
    expect((await ran(B, ['seal', 'done'])).text).toContain('[key.withdrawn]');
  });

  it('replacing goes on where a stop came after the entries', async () => {
    await ran(A, ['key', 'replace']);
    renameSync(path(`keys/${A}.pem`), path(`keys/${A}.next.pem`));
    expect(await ran(A, ['key', 'replace'])).toMatchObject({ code: 0 });
    work(A, 'row/A3-1');
    expect(await verified()).toMatchObject({ code: 0 });
    expect(await ran('bench-q', ['key', 'replace'])).toMatchObject({
      code: 2,
      text: expect.stringContaining('[key.gone]'),
    });
  });

  it('whose private part is gone stop the signing; where none is left the register of keys begins anew', async () => {
    for (const name of [A, B]) rmSync(path(`keys/${name}.pem`));
    expect((await ran(A, ['seal', 'done'])).text).toContain('[key.gone]');
    expect(await ran(A, ['key', 'withdraw', publicKeys()[0]!.slice(0, 16), '--why', 'lost'])).toMatchObject({
      code: 2,
      text: expect.stringContaining('[key.nobody-signs]'),
    });
    const { text } = await ran(A, ['key', 'new', '--anew']);
    const fingerprint = /fingerprint: ([0-9a-f]{64})/.exec(text)![1]!;
    // This account made it, and knows it; a stranger must be told.
    expect(await verified('--trust', fingerprint)).toMatchObject({
      code: 1,
      text: expect.stringContaining('[verify.untrusted-key]'),
    });
    const first = (linesOf(readFileSync(path(KEYS)))[0] as unknown as { fingerprint: string }).fingerprint;
    expect(await verified('--trust', fingerprint, '--trust', first)).toMatchObject({ code: 0 });
    work(A, 'row/A3-1');
    expect(await verified('--trust', fingerprint, '--trust', first)).toMatchObject({ code: 0 });
    // An account that knew the old one is told, and takes the new one by its fingerprint.
    withoutKnown();
    keepFirstKeyHere(realDisk, root, first);
    expect(await verified()).toMatchObject({
      code: 1,
      text: expect.stringContaining('[verify.key-begun-anew]'),
    });
    expect(await ran(B, ['key', 'accept', fingerprint])).toMatchObject({ code: 0 });
    expect(await verified()).toMatchObject({ code: 0 });
  });

  it('that this workshop had before it had a register are taken as they are', async () => {
    root = copyOf(keyless);
    withoutRegister(root);
    const { id, publicPem } = makeKeyPair();
    mkdirSync(path('shared/keys'), { recursive: true });
    writeFileSync(path(`shared/keys/${id}.pem`), publicPem);
    work(A, 'row/A3-1');
    const other = makeKeyPair();
    writeFileSync(path(`shared/keys/${other.id}.pem`), other.publicPem);
    const late = (await verified()).text;
    expect(late).toContain(`${other.id}.pem: No register introduces`);
    expect(late).not.toContain(`${id}.pem`);
  });

  it('show and register show what counts', async () => {
    const json = JSON.parse((await ran(A, ['register', '--json'])).text);
    expect(json).toMatchObject({ heads: [{ bench: A }, { bench: B }], keys: [{ of: A }, { of: B }] });
    const { text } = await ran(A, ['register']);
    expect(text).toContain(json.firstKey);
    expect(text).toContain(`${B}: entry ${json.heads[1].n}`);
    const bare = join(dirname(root), 'bare');
    await must(tmpdir(), 'init', bare, '--demonstration');
    expect((await command(bare, ['register'])).text).toContain('no register yet');
    expect(await verified('--trust', json.firstKey)).toMatchObject({ code: 0 });
  });
});

describe('the register', () => {
  it('held by another process is not written, the work goes on, and the next entry catches up', () => {
    const lock = path(`register/benches/${A}.lock`);
    writeFileSync(lock, 'somebody');
    const clock = { wall: Date.UTC(2026, 3, 1, 8), steady: 1 };
    const ports = portsOf(root, clock, A);
    opened(ports, 'row/A3-1');
    expect(ports.warnings()).toMatchObject([{ id: 'register.locked' }]);
    expect(ports.act({ do: 'note', text: 'x' }, { person: 'jb' }).kind).toBe('done');
    rmSync(lock);
    const before = texts(register(A)).length;
    ports.close();
    expect(texts(register(A)).length).toBe(before + 1);
    expect(JSON.parse(texts(register(A)).at(-1)!)).toMatchObject({
      on: 'left',
      heads: [{ file: 'logs/row/A3-1.jsonl' }],
    });
  });

  it('costs two flushes where a unit is left, and none where a question is answered within a minute', () => {
    let flushes = 0;
    const disk: Disk = {
      ...realDisk,
      flush(handle) {
        flushes += 1;
        realDisk.flush(handle);
      },
      flushFolder(folder) {
        flushes += 1;
        realDisk.flushFolder(folder);
      },
    };
    const clock = { wall: Date.UTC(2026, 3, 1, 8), steady: 1 };
    const made = realPorts({
      workshop: root,
      bench: A,
      disk,
      clock: () => clock.wall,
      steady: () => clock.steady,
    });
    if (!made.ok) throw new Error('no bench');
    opened(made.value, 'row/A4-1');
    const during = (act: () => void): number => {
      const before = flushes;
      act();
      return flushes - before;
    };
    const note = () => void made.value.act({ do: 'note', text: 'x' }, { person: 'jb' });
    note();
    expect(during(note)).toBe(1);
    clock.steady += 61_000;
    clock.wall += 61_000;
    expect(during(note)).toBe(3);
    note();
    expect(during(() => made.value.close())).toBe(2);
  });

  it('that cannot be written is told on the screen, once, and the answer is logged all the same', () => {
    const lock = path(`register/benches/${A}.lock`);
    writeFileSync(lock, 'somebody');
    const bench = benchOf(root, { wall: Date.UTC(2026, 3, 1, 8), steady: 1 }, A);
    bench.core.open('row/A4-1');
    const note = () => bench.core.state().note;
    expect(note()).toMatchObject({
      text: expect.stringContaining('register'),
      todo: expect.stringContaining('lock file'),
    });
    bench.press('JB\r');
    bench.press(RIGHT);
    expect(note()?.text).not.toContain('register');
    rmSync(lock);
    bench.ports.close();
  });

  it('with a damaged last line is told, and with a torn end goes on', async () => {
    writeFileSync(path(register(A)), `${texts(register(A)).join('\n')}\n{"a`);
    work(A, 'row/A3-1');
    expect(await verified()).toMatchObject({ code: 0 });
    put(register(A), texts(register(A)).with(-1, '{"n":1}'));
    const ports = portsOf(root, { wall: Date.UTC(2026, 3, 1, 8), steady: 1 }, A);
    opened(ports, 'row/A3-1');
    expect(ports.warnings()).toMatchObject([{ id: 'register.damaged' }]);
    ports.close();
  });

  it('that was written anew gets no entry signed behind it', async () => {
    again(register(A), 4, (line) => ({ ...line, by: 'mv' }));
    const before = texts(register(A));
    const ports = portsOf(root, { wall: Date.UTC(2026, 3, 1, 8), steady: 1 }, A);
    opened(ports, 'row/A4-1');
    expect(ports.warnings()).toMatchObject([{ id: 'register.damaged' }]);
    ports.close();
    expect(texts(register(A))).toEqual(before);
    expect(await verified()).toMatchObject({
      code: 1,
      text: expect.stringContaining('[verify.forged-chain]'),
    });
    // It may be set aside by a named person, and stays there.
    expect(await accepted()).toMatchObject({ code: 0 });
    expect(await verified()).toMatchObject({ code: 0 });
  });

  it('lets a unit be looked at only, whose journal is another than it knows', async () => {
    const clock = { wall: Date.UTC(2026, 2, 3, 8), steady: 1 };
    build(root, clock, A, 'row/A4-1', 7);
    again('logs/row/A4-1.jsonl', 2, (line) => ({
      ...line,
      ...(line.kind === 'noted' ? { text: 'rewritten' } : {}),
    }));
    const ports = portsOf(root, clock, A);
    opened(ports, 'row/A4-1');
    // Nothing is added to it until it is put right, or accepted.
    expect(ports.world().open).toMatchObject({
      readOnly: expect.stringContaining('written anew'),
      readOnlyTodo: expect.stringContaining('Restore it'),
    });
    expect(ports.act({ do: 'note', text: 'x' }, { person: 'jb' })).toMatchObject({
      kind: 'refused',
      problem: { id: 'verify.journal-anew' },
    });
    ports.close();
    expect((await verified()).text).toContain('[verify.journal-anew]');
    expect(await accepted()).toMatchObject({ code: 0 });
    work(A, 'row/A4-1');
    expect(await verified()).toMatchObject({ code: 0 });
  });

  it('of keys that is gone or damaged stops the signing', async () => {
    const keys = readFileSync(path(KEYS));
    rmSync(path(KEYS));
    expect((await ran(A, ['seal', 'done'])).text).toContain('[key.register-gone]');
    writeFileSync(path(KEYS), keys.toString().replace('"by":"nobody"', '"by":"somebody"'));
    expect((await ran(A, ['seal', 'done'])).text).toContain('[register.damaged]');
  });

  it('a job that is archived and removed is no fault, and may be begun again', async () => {
    const printed = join(dirname(root), 'done.html');
    await asBench(A, () => must(root, 'record', 'done', '--out', printed));
    expect(
      await ran(A, ['archive', 'done', '--remove', '--out', join(dirname(root), 'done.zip')]),
    ).toMatchObject({ code: 0 });
    expect(await verified()).toMatchObject({ code: 0 });
    expect(await verified(printed)).toMatchObject({
      code: 1,
      text: expect.stringContaining('[verify.document-archived]'),
    });
    work(A, 'done/D1-1');
    expect(await verified()).toMatchObject({ code: 0 });
  });

  it('is printed on every document, and a document finds a copy that is older than it', async () => {
    const out = (ending: string) => join(dirname(root), `r.${ending}`);
    const before = filesIn(root);
    work(A, 'row/A3-1');
    for (const ending of ['txt', 'html', 'json', 'csv', 'pdf'])
      await asBench(A, () => must(root, 'record', 'A1-1', '--out', out(ending)));
    await asBench(A, () => must(root, 'record', 'A1-1', '--declaration', '--out', out('sheet.txt')));
    const heads = JSON.parse((await ran(A, ['register', '--json'])).text);
    for (const ending of ['txt', 'html', 'json', 'csv', 'sheet.txt']) {
      const text = readFileSync(out(ending), 'utf8').replaceAll(/<[^>]*>|\s/g, '');
      expect(text, ending).toContain(heads.firstKey);
      for (const { hash } of heads.heads) expect(text, ending).toContain(hash);
    }
    withoutRegisterKnown(before);
    for (const ending of ['txt', 'html', 'json', 'csv', 'pdf', 'sheet.txt']) {
      const { code, text } = await verified(out(ending));
      expect({ ending, code, text }).toMatchObject({
        code: 1,
        text: expect.stringContaining('[verify.register-cut]'),
      });
    }
  });
});

const withoutKnown = (): void => forgetHere(realDisk, root);

/** All put back, on a machine that knows nothing of it. */
function withoutRegisterKnown(files: Files): void {
  withoutRegister(root);
  restore(files);
}
