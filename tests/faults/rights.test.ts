/**
 * A whole build, its seal, its documents and its archive: with sane file modes whatever the umask, without a network (in an
 * empty network namespace), and with neither the signing key nor a PIN in anything that was printed, written or passed.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { hashPin } from '../../src/store/pins.js';
import { givePins } from '../pins.js';
import { freshWorkshop, MAIN } from '../tui/terminal.js';
import { Build, JOB } from './feed.js';

/** Long enough to stand nowhere by chance. */
const PINS = { ot: '918273645546', mv: '192837465564' };
const UNIT = 'P01-1';

const alone = spawnSync('unshare', ['-rn', 'true']).status === 0 ? ['unshare', '-rn'] : [];
const { folder, remove } = freshWorkshop();
const aside = mkdtempSync(join(tmpdir(), 'pinchrod-rights-'));
afterAll(() => {
  remove();
  rmSync(aside, { recursive: true, force: true });
});

/** Everything that was printed. */
let printed = '';
/** What the system's list of processes showed of the program while it ran. */
let listed = '';

function pinchrod(...args: string[]): void {
  const [program, ...before] = [...alone, '/bin/sh', '-c', 'umask 0; exec "$@"', 'sh', process.execPath];
  const done = spawnSync(program!, [...before, MAIN, '--workshop', folder, ...args], {
    encoding: 'utf8',
    cwd: aside,
  });
  printed += `${done.stdout}${done.stderr}`;
  expect(done.status, `${args.join(' ')}: ${done.stderr}${done.stdout}`).toBe(0);
}

beforeAll(async () => {
  if (alone.length === 0)
    console.warn('the build has a network: no namespace without one can be made here (unshare -rn)');
  givePins(folder, Object.fromEntries(Object.entries(PINS).map(([id, pin]) => [id, hashPin(pin)])));
  pinchrod('key', 'new');
  const build = new Build(folder, UNIT, aside, PINS);
  const talk = build.start([...alone, '/bin/sh', '-c', 'umask 0; exec "$@"', 'sh', process.execPath]);
  for (let action = build.next(); action !== undefined; action = build.next()) {
    // A wrong PIN first: what is refused is as secret as what is taken.
    if (action.do === 'release' && action.pin !== undefined) {
      talk.say({ ...action, pin: `${action.pin}9` });
      printed += JSON.stringify(await talk.hear());
      talk.say({ ...action, pin: Number(action.pin) });
      printed += JSON.stringify(await talk.hear());
    }
    talk.say(action);
    const reply = await talk.hear();
    printed += JSON.stringify(reply);
    expect(reply?.ok, JSON.stringify([action, reply])).toBe(true);
    build.took(action);
    listed = existsSync(`/proc/${talk.child.pid}/cmdline`)
      ? readFileSync(`/proc/${talk.child.pid}/cmdline`, 'utf8') +
        readFileSync(`/proc/${talk.child.pid}/environ`, 'utf8')
      : '';
  }
  talk.child.stdin.end();
  await talk.ended;
  printed += talk.errors;
  for (const format of ['text', 'html', 'json', 'csv']) pinchrod('record', UNIT, '--format', format);
  pinchrod('record', UNIT, '--format', 'pdf', '--out', join(aside, 'record.pdf'));
  pinchrod('archive', JOB, '--out', join(aside, 'job.zip'));
  pinchrod('verify');
  pinchrod('key', 'show');
  pinchrod('board');
}, 240_000);

describe('after a whole build', () => {
  it('the unit is finished and signed', () => {
    const last = journal().trim().split('\n').at(-1)!;
    expect(JSON.parse(last)).toMatchObject({ kind: 'sealed' });
    if (alone.length > 0) console.log('the whole build ran in an empty network namespace');
  });

  it('no file can be written by others, and the key be read by its owner alone', ({ skip }) => {
    if (process.platform === 'win32') skip('this system has no rights of that kind');
    for (const path of [...under(join(folder, 'logs')), ...under(join(folder, 'keys'))]) {
      const { mode } = statSync(path);
      expect(mode & 0o022, relative(folder, path)).toBe(0);
      if (path.startsWith(join(folder, 'keys')) && !statSync(path).isDirectory())
        expect(mode & 0o777).toBe(0o600);
    }
    expect(statSync(join(aside, 'job.zip')).mode & 0o022).toBe(0);
  });

  it('the signing key is in its own file alone', () => {
    const [name] = readdirSync(join(folder, 'keys'));
    const pem = readFileSync(join(folder, 'keys', name!), 'utf8');
    const secret = pem.split('\n')[1]!;
    expect(secret.length).toBeGreaterThan(40);
    for (const [where, text] of everything()) {
      expect(text.includes(secret), where).toBe(false);
      expect(text.includes('PRIVATE KEY'), where).toBe(false);
    }
  });

  it('a PIN is nowhere', () => {
    expect(journal()).toContain('"pin":true');
    for (const [where, text] of everything())
      for (const pin of Object.values(PINS)) expect(text.includes(pin), where).toBe(false);
  });
});

it.skipIf(spawnSync('strace', ['-V']).error !== undefined)('no socket of a network is asked for', () => {
  const out = join(aside, 'sockets');
  for (const args of [['board'], ['verify'], ['lint'], ['record', UNIT]])
    spawnSync('strace', [
      '-f',
      '-qq',
      '-o',
      out,
      '-e',
      'trace=socket,connect,bind,sendto',
      process.execPath,
      MAIN,
      '--workshop',
      folder,
      ...args,
    ]);
  expect(readFileSync(out, 'utf8')).not.toMatch(/AF_INET|AF_UNIX.*(nscd|dns)/);
});

const journal = (): string => readFileSync(join(folder, 'logs', JOB, `${UNIT}.jsonl`), 'utf8');

/** All that was printed, listed, written and archived, but the key's own file. */
function* everything(): Generator<readonly [where: string, text: string]> {
  yield ['what was printed', printed];
  yield ['the list of processes', listed];
  for (const path of [...under(folder), ...under(aside)])
    if (!statSync(path).isDirectory() && !path.startsWith(join(folder, 'keys')))
      yield [relative(folder, path), readFileSync(path, 'latin1')];
  for (const [name, bytes] of Object.entries(unzipSync(readFileSync(join(aside, 'job.zip'))))) {
    expect(name).not.toMatch(/\/keys\/(?![0-9a-f]{16}\.pem)/);
    yield [name, Buffer.from(bytes).toString('latin1')];
  }
}

function under(path: string): string[] {
  if (!existsSync(path)) return [];
  return [
    path,
    ...readdirSync(path, { withFileTypes: true }).flatMap((entry) =>
      entry.isDirectory() ? under(join(path, entry.name)) : [join(path, entry.name)],
    ),
  ];
}
