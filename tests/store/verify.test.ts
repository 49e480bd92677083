/** Every id that `verify` knows, each with a bad sample that gives it; the command; and that nothing is touched. */
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { chainHash, chainLine, FIRST_PREV, sealEvent } from '../../src/build/chain.js';
import type { EventBody } from '../../src/build/events.js';
import { run } from '../../src/commands/verify.js';
import { realDisk } from '../../src/store/disk.js';
import { keepEvidence } from '../../src/store/evidence.js';
import { Journal } from '../../src/store/journal.js';
import { freezeSources } from '../../src/store/sources.js';
import { verifyTree } from '../../src/store/verify.js';
import { type VERIFY_MESSAGES, VERIFY_NOTES } from '../../src/store/verifymessages.js';
import { faulty } from './faultdisk.js';
import { noted, opened, stamp } from './samples.js';

let model: string;
let root: string;
let evidence: string;
let source: string;
const P01 = () => join(root, 'logs/pier-house/P01-1.jsonl');
const lines = (): string[] => readFileSync(P01(), 'utf8').trimEnd().split('\n');
const putLines = (all: readonly string[]): void => writeFileSync(P01(), `${all.join('\n')}\n`);
/** A line that is whole in the chain, of any content. */
const whole = (body: object, n: number, prev: string): string =>
  chainLine(sealEvent(body as EventBody, { ...stamp(n), n, prev }));

beforeAll(() => {
  model = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  const sources = freezeSources(realDisk, model, { limits: 'format: x\n' });
  source = sources.limits!;
  writeFileSync(join(model, 'photo.jpg'), 'not really a photo');
  const kept = keepEvidence(realDisk, model, 'pier-house', join(model, 'photo.jpg'));
  if (!kept.ok) throw new Error(JSON.stringify(kept.problems));
  evidence = kept.value.sha256;
  for (const unit of ['P01-1', 'P02-1']) {
    const made = Journal.open(realDisk, model, 'pier-house', unit);
    if (!made.ok) throw new Error('cannot open');
    made.value.append([opened(unit, 'pier-house', sources)], stamp());
    made.value.append(
      [{ kind: 'released', step: 's', hold: 'h', pin: true, evidence: [kept.value] }],
      stamp(1),
    );
    for (let i = 2; i < 6; i++) made.value.append([noted(`line ${i}`)], stamp(i));
    made.value.close();
  }
  rmSync(join(model, 'photo.jpg'));
});
beforeEach(() => {
  if (root) rmSync(root, { recursive: true, force: true });
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  cpSync(model, root, { recursive: true });
});
afterAll(() => {
  for (const each of [model, root]) rmSync(each, { recursive: true, force: true });
});

type Id = keyof typeof VERIFY_MESSAGES;
/** What is done to a good workshop, and the line that must be named. */
const BAD: Record<Id, { do: () => void; line?: number }> = {
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
      const event = { ...JSON.parse(whole(noted('x'), 7, JSON.parse(lines()[5]!).hash)), v: 2 };
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
  it.each((Object.keys(BAD) as Id[]).filter((id) => id !== 'verify.unreadable'))('%s gives it', (id) => {
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
    expect(first).toMatchObject({ id, place: { file: expect.stringMatching(/^logs\//) } });
    expect(first!.place!.line).toBe(BAD[id].line);
    expect(report.holds).toBe(VERIFY_NOTES.has(id));
  });

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

  it('helps, and refuses what it does not take', async () => {
    expect(await command('--help')).toMatchObject({
      code: 0,
      out: expect.stringContaining('pinchrod verify pier-house P02-1'),
    });
    expect((await command('no-such')).code).toBe(2);
    expect((await command('a', 'b', 'c')).code).toBe(2);
    expect(await command('--wrong')).toMatchObject({
      code: 2,
      err: expect.stringContaining('[verify.usage]'),
    });
  });
});
