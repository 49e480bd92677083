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
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { chainHash, chainLine, FIRST_PREV, sealEvent } from '../../src/build/chain.js';
import type { EventBody } from '../../src/build/events.js';
import { makeKeyPair, sealOn, sealOver, signerOf } from '../../src/build/sealing.js';
import { run } from '../../src/commands/verify.js';
import { realDisk } from '../../src/store/disk.js';
import { LARGEST_SEAL, makeJobSeal, writeJobSeal } from '../../src/store/jobseal.js';
import { Journal } from '../../src/store/journal.js';
import { benchKey, newBenchKey } from '../../src/store/key.js';
import { freezeSources } from '../../src/store/sources.js';
import { verifyTree } from '../../src/store/verify.js';
import { type VERIFY_MESSAGES, VERIFY_NOTES } from '../../src/store/verifymessages.js';
import { faulty } from './faultdisk.js';
import { keepEvidence } from './keepevidence.js';
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

/** Gives the bench a key and closes P01-1 with a seal: line 7 finished, line 8 sealed. */
function signed(): string {
  const made = newBenchKey(realDisk, root, 'bench-1');
  if (!made.ok) throw new Error('no key');
  const key = benchKey(realDisk, root, 'bench-1');
  const journal = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  if (!key.ok || !key.value || !journal.ok) throw new Error('cannot sign');
  const signer = key.value;
  journal.value.append([{ kind: 'finished', steps: 1, checks: 1 }], stamp(6), (last) => sealOn(last, signer));
  journal.value.close();
  return made.value.id;
}

/** Writes every line from `line` on anew, with `change` done to that one, so that the chain holds again. */
function forge(line: number, change: (event: Record<string, unknown>) => void): void {
  let prev = line === 1 ? FIRST_PREV : (JSON.parse(lines()[line - 2]!) as { hash: string }).hash;
  putLines(
    lines().map((text, i) => {
      if (i < line - 1) return text;
      const event = { ...JSON.parse(text), prev };
      if (i === line - 1) change(event);
      // Whoever forges writes the seal's head anew as well: it is no secret.
      if (event.kind === 'sealed' && i !== line - 1) event.head = prev;
      event.hash = chainHash(event);
      prev = event.hash;
      return chainLine(event);
    }),
  );
}

const jobSeal = (): string => join(root, 'logs/pier-house/job.seal.json');
/** Seals both units of the job as they are. */
function sealedJob(): void {
  signed();
  const key = benchKey(realDisk, root, 'bench-1');
  const units = ['P01-1', 'P02-1'].map((unit) => {
    const all = readFileSync(join(root, `logs/pier-house/${unit}.jsonl`), 'utf8')
      .trimEnd()
      .split('\n');
    return { unit, lines: all.length, hash: (JSON.parse(all.at(-1)!) as { hash: string }).hash };
  });
  const signer = key.ok ? key.value : undefined;
  writeJobSeal(realDisk, root, makeJobSeal('pier-house', units, { ...stamp(9), signer }));
}

type Id = keyof typeof VERIFY_MESSAGES;
/** Of files handed in: their bad samples are in tests/commands. */
type Elsewhere =
  | 'verify.document-differs'
  | 'verify.document-seal'
  | 'verify.document-unknown'
  | 'verify.archive'
  | 'verify.key-brought';
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

describe('seals', () => {
  it('hold where nothing was changed', () => {
    sealedJob();
    expect(verifyTree(realDisk, root)).toMatchObject({ holds: true, faults: [], notes: [], seals: 2 });
    expect(verifyTree(realDisk, root, { unit: 'P02-1' })).toMatchObject({ holds: true, notes: [], seals: 1 });
  });

  it('show that a line before them was written anew, whichever it was', () => {
    signed();
    const good = lines();
    for (let line = 1; line <= 7; line++) {
      putLines(good);
      forge(line, (event) => {
        event.at = '2026-03-02T08:00:00.000Z';
      });
      expect(
        verifyTree(realDisk, root).faults.map(({ id }) => id),
        `line ${line}`,
      ).toEqual(['verify.forged-chain']);
    }
  });

  it('do not hold with the seal of another unit, or by a key made for the purpose', () => {
    signed();
    const { signature } = JSON.parse(lines()[7]!) as { signature: string };
    forge(8, (event) => {
      event.signature = Buffer.from(signature, 'base64').fill(7, 10, 20).toString('base64');
    });
    expect(verifyTree(realDisk, root).faults).toMatchObject([{ id: 'verify.forged-chain' }]);
    const { id, privatePem } = makeKeyPair();
    forge(8, (event) => {
      event.key = id;
      event.signature = signerOf(privatePem)!.sign(event.head as string);
    });
    expect(verifyTree(realDisk, root).faults).toMatchObject([{ id: 'verify.unknown-key' }]);
    forge(8, (event) => {
      event.head = JSON.parse(lines()[4]!).hash;
    });
    expect(verifyTree(realDisk, root).faults).toMatchObject([
      { id: 'verify.bad-signature', text: expect.stringContaining('another line') },
    ]);
  });

  it.each<[string, (seal: ReturnType<typeof makeJobSeal>) => object]>([
    ['of another job', (seal) => ({ ...seal, job: 'quay-end' })],
    ['with a unit left out', (seal) => ({ ...seal, units: seal.units.slice(1) })],
    ['over other hashes', (seal) => ({ ...seal, seal: 'a'.repeat(64) })],
    ['that is nonsense', () => ({ format: 'x' })],
    [
      'of a unit that there is not',
      ({ units: [first, ...rest], ...seal }) => ({ ...seal, units: [{ ...first!, unit: 'P09-1' }, ...rest] }),
    ],
  ])('of a job %s is found', (_, change) => {
    sealedJob();
    writeFileSync(jobSeal(), JSON.stringify(change(JSON.parse(readFileSync(jobSeal(), 'utf8')))));
    expect(verifyTree(realDisk, root).faults.map(({ id }) => id)).toContain('verify.job-seal');
  });

  it.each([
    ['key', 'verify.unknown-key'],
    ['signature', 'verify.bad-signature'],
  ] as const)('of a job without its %s is half a signature, and none', (member, id) => {
    sealedJob();
    const { [member]: _, ...rest } = JSON.parse(readFileSync(jobSeal(), 'utf8')) as Record<string, unknown>;
    writeFileSync(jobSeal(), JSON.stringify(rest));
    expect(verifyTree(realDisk, root).faults.map((fault) => fault.id)).toEqual([id]);
  });

  it('of a job that is no file, or too large, is found and counts as none', () => {
    sealedJob();
    truncateSync(jobSeal(), LARGEST_SEAL + 1);
    expect(verifyTree(realDisk, root)).toMatchObject({
      faults: [{ id: 'verify.not-a-file', text: `The file has ${LARGEST_SEAL + 1} bytes.` }],
      seals: 1,
    });
    rmSync(jobSeal());
    mkdirSync(jobSeal());
    expect(verifyTree(realDisk, root)).toMatchObject({
      faults: [{ id: 'verify.not-a-file', text: 'This is no ordinary file.' }],
      seals: 1,
    });
  });

  it('that hold tell from where on a later one does not', () => {
    signed();
    const key = benchKey(realDisk, root, 'bench-1');
    const journal = Journal.open(realDisk, root, 'pier-house', 'P01-1');
    if (!key.ok || !key.value || !journal.ok) throw new Error('cannot sign');
    const signer = key.value;
    journal.value.append([noted('later')], stamp(7), (last) => sealOn(last, signer));
    journal.value.close();
    forge(9, (event) => {
      event.text = 'kinder';
    });
    expect(verifyTree(realDisk, root).faults).toMatchObject([
      {
        id: 'verify.forged-chain',
        text: expect.stringContaining('from some line after 8, where the last good seal stands, on'),
        place: { line: 10 },
      },
    ]);
  });

  it('of a job worked out anew without its unit is found by the signature', () => {
    sealedJob();
    const seal = JSON.parse(readFileSync(jobSeal(), 'utf8')) as ReturnType<typeof makeJobSeal>;
    const units = seal.units.slice(1);
    const over = sealOver(units.map(({ hash }) => hash));
    writeFileSync(jobSeal(), JSON.stringify({ ...seal, units, seal: over }));
    expect(verifyTree(realDisk, root).faults.map(({ id }) => id)).toEqual(['verify.forged-chain']);
  });

  it('made again stand beside the earlier ones, and all are checked', () => {
    sealedJob();
    const first = readFileSync(jobSeal(), 'utf8');
    putLines([...lines(), whole(noted('later'), 9, JSON.parse(lines()[7]!).hash)]);
    const seal = JSON.parse(first) as ReturnType<typeof makeJobSeal>;
    const later = seal.units.map((unit) =>
      unit.unit === 'P01-1' ? { ...unit, lines: 9, hash: JSON.parse(lines()[8]!).hash as string } : unit,
    );
    const again = () => writeJobSeal(realDisk, root, makeJobSeal('pier-house', later, stamp(10)));
    expect(again()).toMatchObject({ ok: true, value: { there: false } });
    expect(again()).toMatchObject({ ok: true, value: { there: true } });
    expect(readFileSync(join(root, 'logs/pier-house/job.seal.1.json'), 'utf8')).toBe(first);
    expect(verifyTree(realDisk, root)).toMatchObject({
      holds: true,
      notes: [{ id: 'verify.grown' }],
      seals: 3,
    });
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
