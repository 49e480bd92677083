/** Every id that `verify` knows, each with a bad sample that gives it; the command; and that nothing is touched. */
import {
  cpSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ProblemIds } from '../../src/base/problem.js';
import { run } from '../../src/commands/verify.js';
import { realDisk } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { eraseNames, NameKeeper } from '../../src/store/names.js';
import { verifyTree } from '../../src/store/verify.js';
import { type VERIFY_MESSAGES, VERIFY_NOTES } from '../../src/store/verifymessages.js';
import { chainHash, chainLine, FIRST_PREV } from '../../src/unit/chain.js';
import { makeKeyPair } from '../../src/unit/sealing.js';
import { teamText } from '../../src/unit/team.js';
import { faulty } from './faultdisk.js';
import {
  beginWithGoodLogs,
  evidence,
  forge,
  lines,
  P01,
  putLines,
  root,
  sealedJob,
  signed,
  source,
  whole,
} from './goodlogs.js';
import { noted } from './samples.js';

beginWithGoodLogs();

type Id = ProblemIds<typeof VERIFY_MESSAGES>;
/** Of files handed in: their bad samples are in tests/commands. */
type Elsewhere =
  | 'verify.document-differs'
  | 'verify.document-seal'
  | 'verify.document-archived'
  | 'verify.document-unknown'
  | 'verify.archive'
  | 'verify.document-told'
  | 'verify.document-zone'
  | 'verify.untrusted-key'
  | 'verify.key-missing'
  | 'verify.key-brought'
  | OfRegisters;
/** Their bad samples are in register/register.test.ts. */
type OfRegisters =
  | 'verify.restore-accepted'
  | 'verify.branched'
  | 'verify.no-register'
  | 'verify.not-entered'
  | 'verify.credential'
  | 'verify.key-begun-anew'
  | 'verify.signature-missing'
  | 'verify.key-not-introduced'
  | 'verify.key-entry'
  | 'verify.key-withdrawn'
  | `verify.register-${'gone' | 'cut' | 'anew' | 'unsigned'}`
  | `verify.journal-${'gone' | 'emptied' | 'cut' | 'put-back' | 'anew' | 'born-again'}`
  | 'verify.seal-gone';
/** Has P01-1 rest on a text of its own. */
function rest(text: string, kind: 'team' | 'setups' = 'setups'): void {
  const [hash] = Object.values(pinSources(realDisk, root, { text }));
  const basis = kind === 'team' ? { team: hash } : { setups: { 'saw-1': hash } };
  putLines([...lines(), whole({ ...noted('it rests'), basis }, 7, JSON.parse(lines()[5]!).hash)]);
}

/** A first-off that stands in no journal of set-ups. */
const firstOffKept = (): string =>
  whole({ kind: 'first-off', setup: 'saw', checks: [], passed: true }, 1, FIRST_PREV);

/** Has P01-1 rest on a team of one; returns the name of the file with the name. */
function teamKept(): string {
  const names = new NameKeeper(realDisk, root);
  const person = { id: 'jb', initials: 'JB', name: 'Joan', levels: { all: 3 } } as const;
  rest(
    teamText([person], (each) => names.hashOf(each)),
    'team',
  );
  return names.hashOf(person);
}

/** What is done to a good workshop, and the line that must be named. */
const BAD: Record<Exclude<Id, Elsewhere>, { do: () => void; line?: number }> = {
  'verify.torn-end': { do: () => writeFileSync(P01(), readFileSync(P01()).subarray(0, -20)), line: 6 },
  'verify.no-line-end': { do: () => writeFileSync(P01(), readFileSync(P01()).subarray(0, -1)), line: 6 },
  'verify.changed-line': {
    do: () => putLines(lines().with(3, lines()[3]!.replace('line 3', 'line 8'))),
    line: 4,
  },
  'verify.missing-line': { do: () => putLines(lines().toSpliced(2, 1)), line: 3 },
  'verify.re-ordered-line': {
    do: () => putLines([...lines().slice(0, 3), ...lines().slice(3).reverse()]),
    line: 4,
  },
  'verify.repeated-line': { do: () => putLines(lines().toSpliced(3, 0, lines()[2]!)), line: 4 },
  'verify.broken-chain': {
    do: () => putLines(lines().with(3, whole(noted('kinder'), 4, JSON.parse(lines()[2]!).hash))),
    line: 5,
  },
  'verify.not-opened': { do: () => putLines([whole(noted('x'), 1, FIRST_PREV)]), line: 1 },
  'verify.wrong-unit': { do: () => cpSync(P01(), join(root, 'logs/pier-house/P09-1.jsonl')), line: 1 },
  'verify.newer-format': {
    do: () => {
      const event = { ...JSON.parse(whole(noted('x'), 7, JSON.parse(lines()[5]!).hash)), v: 3 };
      putLines([...lines(), chainLine({ ...event, hash: chainHash(event) })]);
    },
    line: 7,
  },
  'verify.unknown-event': {
    do: () => putLines([...lines(), whole({ kind: 'sung', song: 'x' }, 7, JSON.parse(lines()[5]!).hash)]),
    line: 7,
  },
  'verify.source-missing': { do: () => rmSync(join(root, 'logs/sources', source)), line: 1 },
  'verify.source-changed': { do: () => writeFileSync(join(root, 'logs/sources', source), 'format: y\n') },
  'verify.evidence-missing': { do: () => rmSync(join(root, 'logs/pier-house/evidence', evidence)), line: 2 },
  'verify.evidence-changed': {
    do: () => writeFileSync(join(root, 'logs/pier-house/evidence', evidence), 'x'),
  },
  'verify.setup-gone': {
    do: () => {
      const proof = firstOffKept();
      rest(proof);
    },
    line: 7,
  },
  'verify.name-missing': { do: () => rmSync(join(root, 'logs/names', teamKept())) },
  'verify.name-changed': { do: () => writeFileSync(join(root, 'logs/names', teamKept()), '{}') },
  'verify.name-erased': {
    do: () => {
      teamKept();
      expect(eraseNames(realDisk, root, 'jb', { at: '2026-03-05T08:00:00.000Z', by: 'ot' })).toEqual({
        ok: true,
        value: 1,
        warnings: [],
      });
    },
  },
  'verify.name-unknown': {
    do: () => {
      new NameKeeper(realDisk, root).hashOf({ id: 'jb', initials: 'JB', name: 'Joan', levels: { all: 3 } });
    },
  },
  'verify.unknown-key': { do: () => rmSync(join(root, 'shared/keys', `${signed()}.pem`)), line: 8 },
  'verify.bad-signature': {
    do: () => {
      signed();
      forge(8, (event) => {
        event.signature = 'AAAA';
      });
    },
    line: 8,
  },
  'verify.forged-chain': {
    do: () => {
      signed();
      forge(3, (event) => {
        event.text = 'kinder';
      });
    },
    line: 8,
  },
  'verify.key-damaged': {
    do: () => writeFileSync(join(root, 'shared/keys', `${signed()}.pem`), makeKeyPair().publicPem),
  },
  'verify.job-seal': {
    do: () => {
      sealedJob();
      putLines(lines().slice(0, -2));
    },
  },
  'verify.not-signed': {
    do: () => {
      signed();
      putLines(lines().slice(0, -1));
    },
    line: 7,
  },
  'verify.grown': {
    do: () => {
      sealedJob();
      putLines([...lines(), whole(noted('later'), 9, JSON.parse(lines()[7]!).hash)]);
    },
  },
  'verify.not-a-file': {
    do: () => {
      rmSync(P01());
      symlinkSync('P02-1.jsonl', P01());
    },
  },
  // A file that cannot be read is made by a failing call, below: whoever runs as root may read everything.
  'verify.unreadable': { do: () => undefined },
  'verify.source-unknown': { do: () => writeFileSync(join(root, 'logs/sources/mine.txt'), 'x') },
  'verify.evidence-unknown': {
    do: () => writeFileSync(join(root, 'logs/pier-house/evidence/mine.jpg'), 'x'),
  },
  'verify.set-aside': { do: () => writeFileSync(`${P01()}.torn-1`, '{"at"') },
  'verify.stray-file': { do: () => writeFileSync(join(root, 'logs/pier-house/list.txt'), 'x') },
};
describe('a bad sample of', () => {
  it.each((Object.keys(BAD) as (keyof typeof BAD)[]).filter((id) => id !== 'verify.unreadable'))(
    '%s gives it',
    (id) => {
      expect(verifyTree(realDisk, root)).toMatchObject({
        holds: true,
        faults: [],
        notes: [],
        journals: 2,
        events: 12,
      });
      BAD[id].do();
      const report = verifyTree(realDisk, root);
      const [first] = VERIFY_NOTES.has(id) ? report.notes : report.faults;
      expect(first).toMatchObject({ id, place: { file: expect.stringMatching(/^(logs|shared\/keys)\//) } });
      expect(first!.place!.line).toBe(BAD[id].line);
      expect(report.holds).toBe(VERIFY_NOTES.has(id));
    },
  );

  it('verify.unreadable gives it', () => {
    const disk = faulty(realDisk, 1, { kind: 'error', code: 'EIO' }, new Set(['read']));
    expect(verifyTree(disk, root).faults.map(({ id }) => id)).toContain('verify.unreadable');
  });
});

it('only reads: no file is made, changed or touched', () => {
  const shot = (): string[] =>
    readdirSync(root, { recursive: true, encoding: 'utf8' })
      .sort()
      .map((name) => {
        const { mtimeMs, size, ino } = statSync(join(root, name));
        return `${name} ${mtimeMs} ${size} ${ino}`;
      });
  BAD['verify.torn-end'].do();
  const before = shot();
  verifyTree(realDisk, root);
  expect(shot()).toEqual(before);
});

it('what is no job under logs/ is a note, but not the temporary file of a program at work', () => {
  for (const name of ['mine.txt', 'append-test-1.tmp', 'README.md'])
    writeFileSync(join(root, 'logs', name), 'x');
  mkdirSync(join(root, 'logs', 'my jobs'));
  expect(verifyTree(realDisk, root)).toMatchObject({
    holds: true,
    notes: [
      { id: 'verify.stray-file', place: { file: 'logs/mine.txt' } },
      { id: 'verify.stray-file', place: { file: 'logs/my jobs' } },
    ],
  });
});

it('names a source once, at the line that names it first, and passes over what is no hash', () => {
  const last = () => JSON.parse(lines().at(-1)!) as { hash: string; n: number };
  const add = (body: object) => putLines([...lines(), whole(body, last().n + 1, last().hash)]);
  add({ kind: 'revised', sources: { limits: source }, changed: [], reason: 'x' });
  expect(verifyTree(realDisk, root)).toMatchObject({ holds: true, sources: 1 });
  add({ kind: 'sung', sources: { limits: 7 } });
  rmSync(join(root, 'logs/sources', source));
  expect(verifyTree(realDisk, root)).toMatchObject({
    faults: [
      { id: 'verify.unknown-event', place: { line: 8 } },
      { id: 'verify.source-missing', place: { line: 1 } },
    ],
    sources: 1,
  });
});

it('of one job or unit looks at what that names alone', () => {
  mkdirSync(join(root, 'logs/quay-end'));
  writeFileSync(join(root, 'logs/quay-end/Q1-1.jsonl'), 'nonsense\n');
  expect(verifyTree(realDisk, root).holds).toBe(false);
  expect(verifyTree(realDisk, root, { job: 'pier-house' })).toMatchObject({ holds: true, journals: 2 });
  expect(verifyTree(realDisk, root, { unit: 'P02-1' })).toMatchObject({
    holds: true,
    journals: 1,
    sources: 1,
    evidence: 1,
  });
});

it('holds for a folder without logs', () => {
  expect(verifyTree(realDisk, join(root, 'no-such'))).toMatchObject({ holds: true, journals: 0 });
});

describe('the command', () => {
  const command = async (...args: string[]): Promise<{ code: number; out: string; err: string }> => {
    const out: string[] = [];
    const err: string[] = [];
    const code = await run(args, {
      workshop: root,
      out: (text) => void out.push(text),
      err: (text) => void err.push(text),
    });
    return { code, out: out.join('\n'), err: err.join('\n') };
  };

  it('says that all holds, or what does not and where', async () => {
    expect(await command()).toMatchObject({
      code: 0,
      out: '2 journals, 12 events, 1 source, 1 evidence file: all whole and unaltered.',
    });
    BAD['verify.changed-line'].do();
    const { code, out } = await command('pier-house');
    expect(code).toBe(1);
    expect(out).toContain('logs/pier-house/P01-1.jsonl:4: The line was changed');
    expect(out).toContain('[verify.changed-line]');
    expect((await command('P02-1')).code).toBe(0);
    const { faults } = JSON.parse((await command('P01-1', '--json')).out);
    expect(faults).toMatchObject([
      { id: 'verify.changed-line', place: { file: 'logs/pier-house/P01-1.jsonl', line: 4 } },
    ]);
  });

  it('refuses what it does not take', async () => {
    expect((await command('no-such')).code).toBe(2);
    expect((await command('a', 'b', 'c')).code).toBe(2);
    expect(await command('--wrong')).toMatchObject({
      code: 2,
      err: expect.stringContaining('[verify.usage]'),
    });
  });
});
