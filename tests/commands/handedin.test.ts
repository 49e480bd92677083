/** What leaves the workshop and comes back: seals, documents and archives, whole and tampered with. */
import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { unzipSync, type Zippable, zipSync } from 'fflate';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import * as archive from '../../src/commands/archive.js';
import * as key from '../../src/commands/key.js';
import * as record from '../../src/commands/record.js';
import * as seal from '../../src/commands/seal.js';
import * as verify from '../../src/commands/verify.js';
import { realPorts } from '../../src/session/workshopports.js';
import { sha256 } from '../../src/unit/chain.js';
import { withoutRegister } from '../registerless.js';
import { BENCH, builtWorkshop, JOB, ran } from './built.js';

let model: string;
let root: string;
let folder: string;
const file = (name: string) => join(folder, name);
const P = () => join(root, `logs/${JOB}/Q1-1.jsonl`);
const before = process.env.PINCHROD_BENCH;

beforeAll(() => {
  process.env.PINCHROD_BENCH = BENCH;
  model = builtWorkshop(true);
}, 60_000);
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  root = join(folder, 'shop');
  cpSync(model, root, { recursive: true });
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));
afterAll(() => {
  if (before === undefined) delete process.env.PINCHROD_BENCH;
  else process.env.PINCHROD_BENCH = before;
  rmSync(dirname(model), { recursive: true, force: true });
});

const events = () =>
  readFileSync(P(), 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, string>);

describe('a bench with a key', () => {
  it('signs what it finished, and says so in the record', async () => {
    const [finished, sealed] = events().slice(-2);
    expect(finished).toMatchObject({ kind: 'finished' });
    expect(sealed).toMatchObject({ kind: 'sealed', head: finished!.hash });
    const { out } = await ran(record, root, 'Q1-1');
    expect(out).toContain(`key ${sealed!.key}`);
    expect(await ran(verify, root)).toMatchObject({ code: 0, out: expect.stringContaining('1 seal') });
  });

  it('seals the job, once', async () => {
    expect(await ran(seal, root, JOB)).toMatchObject({
      code: 0,
      out: expect.stringMatching(/1 unit sealed, code/),
    });
    expect((await ran(seal, root, JOB)).out).toContain('sealed already');
    expect((await ran(verify, root)).code).toBe(0);
    expect(await ran(seal, root, 'pier-house')).toMatchObject({
      code: 1,
      err: expect.stringContaining('[seal.open-units]'),
    });
    writeFileSync(P(), `${readFileSync(P(), 'utf8').trimEnd().split('\n').slice(0, -2).join('\n')}\n`);
    expect(await ran(verify, root)).toMatchObject({
      code: 1,
      out: expect.stringContaining('[verify.job-seal]'),
    });
  });

  it('signs later what was finished without a key', async () => {
    const keyless = builtWorkshop(false);
    expect((await ran(record, keyless, 'Q1-1')).out).toContain('the bench had no key');
    expect((await ran(key, keyless, 'new')).code).toBe(0);
    expect(await ran(verify, keyless)).toMatchObject({
      code: 0,
      out: expect.stringContaining('[verify.not-signed]'),
    });
    expect((await ran(seal, keyless, JOB)).out).toContain('Q1-1: signed as it is now.');
    expect(await ran(verify, keyless)).toMatchObject({
      code: 0,
      out: expect.not.stringContaining('not-signed'),
    });
    rmSync(dirname(keyless), { recursive: true, force: true });
  });
});

describe('a document handed in', () => {
  const made = async (name: string, ...args: string[]) => {
    expect((await ran(record, root, ...args, '--out', file(name))).code).toBe(0);
    return readFileSync(file(name), 'utf8');
  };
  const checked = () => ran(verify, root, file('r.html'));

  it.each([
    ['r.html', ['Q1-1']],
    ['r.html', ['Q1-1', '--initials']],
    ['r.json', ['Q1-1']],
    ['r.json', ['Q1-1', '--initials']],
    ['r.json', [JOB]],
  ])('%s of %j holds as it was made', async (name, args) => {
    await made(name, ...args);
    const { code, out } = await ran(verify, root, file(name));
    expect(out).toContain('says what the journal gives');
    expect(code).toBe(0);
  });

  it('says another thing in a page: the line is named', async () => {
    const html = await made('r.html', 'Q1-1');
    const at = html.split('\n').findIndex((line) => line.includes('Finished and released'));
    writeFileSync(file('r.html'), html.replaceAll('Finished and released', 'Finished and approved'));
    expect(at).toBeGreaterThan(0);
    const { code, out } = await checked();
    expect(code).toBe(1);
    expect(out).toContain('[verify.document-differs]');
    for (const more of ['<p>and more</p>\n', ' ', '\n\n']) {
      writeFileSync(file('r.html'), html + more);
      expect((await checked()).code, JSON.stringify(more)).toBe(1);
    }
  });

  it('says another thing in JSON: the member is named', async () => {
    const json = await made('r.json', 'Q1-1');
    const data = JSON.parse(json) as { stages: { steps: { checks: { answer?: { by: string } }[] }[] }[] };
    const answer = data.stages[0]!.steps[0]!.checks[0]!.answer!;
    answer.by = 'Somebody Else';
    writeFileSync(file('r.json'), JSON.stringify(data));
    const { code, out } = await ran(verify, root, file('r.json'));
    expect(code).toBe(1);
    expect(out).toContain('stages.0.steps.0.checks.0.answer.by is "Somebody Else"');
  });

  it('with a seal that is of no line is told, and one made before the journal went on is noted', async () => {
    const json = await made('r.json', 'Q1-1');
    const { hash } = events().at(-1)!;
    writeFileSync(file('r.json'), json.replaceAll(hash!, 'a'.repeat(64)));
    expect((await ran(verify, root, file('r.json'))).out).toContain('[verify.document-seal]');
    writeFileSync(file('r.json'), json);
    const lines = readFileSync(P(), 'utf8').trimEnd().split('\n');
    writeFileSync(P(), `${lines.slice(0, -1).join('\n')}\n`);
    expect((await ran(verify, root, file('r.json'))).out).toContain('[verify.document-seal]');
    writeFileSync(P(), `${lines.join('\n')}\n`);
    await made('r.html', 'Q1-1');
    const ports = realPorts({ workshop: root, bench: BENCH });
    if (!ports.ok || ports.value.open('Q1-1').kind !== 'open') throw new Error('not opened');
    expect(ports.value.act({ do: 'note', text: 'more' }, { person: 'jb' }).kind).toBe('done');
    ports.value.close();
    expect(await checked()).toMatchObject({ code: 0, out: expect.stringContaining('[verify.grown]') });
  });

  it('that is none is said to be none', async () => {
    writeFileSync(file('r.html'), '<p>hello</p>');
    expect(await checked()).toMatchObject({
      code: 1,
      out: expect.stringContaining('[verify.document-unknown]'),
    });
    for (const text of ['{', '{}', '{"format":"pinchrod-record 1"}']) {
      writeFileSync(file('r.json'), text);
      expect((await ran(verify, root, file('r.json'))).out).toContain('[verify.document-unknown]');
    }
  });
});

describe('an archive', () => {
  const zip = () => file('job.zip');
  const archived = async (...args: string[]) => ran(archive, root, JOB, '--out', zip(), ...args);
  const secret = () => readFileSync(join(root, `keys/${BENCH}.pem`), 'utf8').split('\n')[1]!;

  it('holds everything, verifies, and leaves the workshop as it was', async () => {
    expect((await ran(seal, root, JOB)).code).toBe(0);
    const names = () => readdirSync(root, { recursive: true, encoding: 'utf8' }).sort();
    const there = names();
    expect(await archived()).toMatchObject({ code: 0, out: expect.stringContaining('verified') });
    expect(names()).toEqual(there);
    const files = unzipSync(readFileSync(zip()));
    const held = Object.keys(files);
    for (const want of [
      `logs/${JOB}/Q1-1.jsonl`,
      `logs/${JOB}/job.seal.json`,
      'documents/Q1-1.html',
      'logs/README.md',
      'MANIFEST',
    ])
      expect(held).toContain(`${JOB}/${want}`);
    expect(held.filter((name) => name.includes('/evidence/'))).toHaveLength(3);
    expect(held.filter((name) => name.includes('/shared/keys/'))).toHaveLength(1);
    for (const bytes of Object.values(files)) expect(Buffer.from(bytes).includes(secret())).toBe(false);
    expect(await ran(verify, root, zip())).toMatchObject({
      code: 0,
      out: expect.stringContaining('all whole'),
    });
    // Where nobody knows the key, the archive's own vouches for nothing by itself.
    expect((await ran(verify, folder, zip())).out).toContain('[verify.key-brought]');
    expect(await archived()).toMatchObject({ code: 2, err: expect.stringContaining('[archive.there]') });
  });

  it('can be unpacked and checked with ordinary tools', async ({ skip }) => {
    for (const tool of ['unzip', 'sha256sum'])
      try {
        execFileSync('sh', ['-c', `command -v ${tool}`]);
      } catch {
        skip(`not on this machine: ${tool}`);
      }
    await archived();
    execFileSync('unzip', ['-q', zip(), '-d', file('out')]);
    const said = execFileSync('sha256sum', ['-c', 'MANIFEST'], { cwd: file(`out/${JOB}`), encoding: 'utf8' });
    expect(
      said
        .trim()
        .split('\n')
        .every((line) => line.endsWith(': OK')),
    ).toBe(true);
    writeFileSync(file(`out/${JOB}/logs/${JOB}/Q1-1.jsonl`), 'x');
    expect(() =>
      execFileSync('sha256sum', ['-c', 'MANIFEST'], { cwd: file(`out/${JOB}`), stdio: 'pipe' }),
    ).toThrow();
  });

  /** The archive with its files changed, and a manifest that fits again where `fits`. */
  async function altered(
    change: (files: Record<string, Uint8Array>) => void,
    fits: boolean,
  ): Promise<string> {
    if (!existsSync(zip())) await archived();
    const files = unzipSync(readFileSync(zip()));
    change(files);
    if (fits) {
      const rows = Object.entries(files).filter(([name]) => name !== `${JOB}/MANIFEST`);
      files[`${JOB}/MANIFEST`] = Buffer.from(
        rows.map(([name, bytes]) => `${sha256(bytes)}  ${name.slice(JOB.length + 1)}\n`).join(''),
      );
    }
    writeFileSync(file('bad.zip'), zipSync(files as Zippable));
    const { code, out } = await ran(verify, root, file('bad.zip'));
    expect(code).toBe(1);
    return out;
  }

  const put = (name: string, text: string) => (files: Record<string, Uint8Array>) => {
    files[name] = Buffer.from(text);
  };
  const drop = (name: string) => (files: Record<string, Uint8Array>) => {
    delete files[name];
  };

  it.each<[string, (files: Record<string, Uint8Array>) => void, RegExp]>([
    ['a journal changed', put(`${JOB}/logs/${JOB}/Q1-1.jsonl`, 'x\n'), /not what MANIFEST says/],
    ['a file more', put(`${JOB}/more.txt`, 'x'), /not in MANIFEST/],
    ['a file less', drop(`${JOB}/documents/Q1-1.txt`), /but not there/],
    ['no manifest', drop(`${JOB}/MANIFEST`), /no MANIFEST/],
    ['a name that leads out', put(`${JOB}/../../x`, 'x'), /leads out/],
    ['an absolute name', put('/etc/x', 'x'), /leads out/],
    ['a name with a backslash', put(`${JOB}\\x`, 'x'), /leads out/],
    ['two jobs', put('other/x', 'x'), /no archive of one job/],
  ])('with %s is refused', async (_, change, says) => {
    const out = await altered(change, false);
    expect(out).toMatch(says);
    expect(out).toContain('[verify.archive]');
  });

  it('with a manifest that fits is still held to its journals', async () => {
    const journal = `${JOB}/logs/${JOB}/Q1-1.jsonl`;
    const out = await altered((files) => {
      files[journal] = Buffer.from(
        Buffer.from(files[journal]!).toString('utf8').replace('"go":true', '"go":false'),
      );
    }, true);
    expect(out).toContain('[verify.changed-line]');
  });

  it('cut short is refused', async () => {
    await archived();
    writeFileSync(file('bad.zip'), readFileSync(zip()).subarray(0, 2000));
    expect((await ran(verify, root, file('bad.zip'))).out).toContain('[verify.archive]');
  });

  it('takes the place of the job only with --remove', async () => {
    expect(await archived('--remove')).toMatchObject({
      code: 0,
      out: expect.stringContaining('removed from logs/'),
    });
    expect(existsSync(P())).toBe(false);
    // What the workshop's own first-offs rest on is nothing of the job.
    expect(readdirSync(join(root, 'logs/sources'))).toHaveLength(2);
    expect(readdirSync(join(root, 'logs/names')).length).toBeGreaterThan(0);
    expect((await ran(verify, root)).code).toBe(0);
    expect((await ran(verify, root, zip())).code).toBe(0);
    expect(await ran(archive, root, JOB, '--out', file('again.zip'))).toMatchObject({
      code: 2,
      err: expect.stringContaining('[archive.no-job]'),
    });
  });

  it('of a job with an open unit is made, but nothing is removed', async () => {
    withoutRegister(root);
    writeFileSync(P(), `${readFileSync(P(), 'utf8').split('\n').slice(0, 20).join('\n')}\n`);
    expect(await archived('--remove')).toMatchObject({
      code: 1,
      err: expect.stringContaining('[archive.not-removed]'),
    });
    expect(existsSync(P())).toBe(true);
    expect((await archived()).code).toBe(0);
  });

  it('is not made of what does not hold', async () => {
    const evidence = join(root, `logs/${JOB}/evidence`);
    rmSync(join(evidence, readdirSync(evidence)[0]!));
    expect(await archived()).toMatchObject({ code: 1, err: expect.stringContaining('[archive.wanting]') });
    expect(existsSync(zip())).toBe(false);
  });
});
