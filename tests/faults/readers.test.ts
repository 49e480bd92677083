/**
 * Every reader over mutated files: a value, or problems with a place and a way out, in plain text; never an exception. A hang
 * ends the test. 40 mutations a reader; PINCHROD_FUZZ=1000 for more. That whole processes stay small is held in
 * hazards.test.ts.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Problem, Result, SourceText } from '../../src/base/problem.js';
import { sanitize } from '../../src/base/text.js';
import { parseInstruments } from '../../src/measure/instruments.js';
import { parseLimits } from '../../src/measure/limits.js';
import { parseProcedure } from '../../src/procedure/parse.js';
import { makeRoute } from '../../src/procedure/route.js';
import { loadIndex } from '../../src/session/index.js';
import { packFiles } from '../../src/store/archive.js';
import { readChainLog } from '../../src/store/chainlog.js';
import { parseHouse, parsePeople } from '../../src/store/company.js';
import type { Disk } from '../../src/store/disk.js';
import { readWorkshopFile } from '../../src/store/filecollection.js';
import { readJobSeal } from '../../src/store/jobseal.js';
import { readEvents } from '../../src/store/journal.js';
import { publicKeys } from '../../src/store/key.js';
import { parseSetups } from '../../src/store/setups.js';
import { verifyTree } from '../../src/store/verify.js';
import { memoryDisk, verifyArchive } from '../../src/store/verifyarchive.js';
import { chainLine } from '../../src/unit/chain.js';
import { contextsOf } from '../../src/window/context.js';
import { parseJob } from '../../src/window/job.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import { journal } from '../store/samples.js';
import { chance } from './chance.js';
import { mutate } from './mutate.js';

const ROUNDS = Number(process.env.PINCHROD_FUZZ ?? 40);
const SEED = Number(process.env.PINCHROD_SEED ?? 20_261_125);
const ROOT = join(import.meta.dirname, '../..');
const read = (file: string): string => readFileSync(join(ROOT, file), 'utf8');
const sure = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(result.problems[0]!.text);
  return result.value;
};
const limits = sure(parseLimits({ file: 'shared/limits.yaml', text: read('shared/limits.yaml') }));
const set = sure(parseProfileSet({ file: 'w52', text: read('shared/profile-sets/w52.yaml') }));
const house = sure(parseJob({ file: 'job', text: read('shared/jobs/pier-house.yaml') }));

const CSV = `job,title,customer,profile_set,procedure,glass,revision,mark,quantity,width,height,light_1,note
pier,Pier,"M. Aldous, invented",w52,casement,4-16-4,A,P01,2,900,1200,fixed,"by the door, left"
,,,,,4-16-4,,P02,1,1000,700,fixed,
`;

/** Reader by the file that it reads: what it makes of a text, used as the program uses it. */
const READERS: Record<string, (source: SourceText) => Result<unknown>> = {
  'shared/workshop.yaml': parseHouse,
  'shared/people.yaml': parsePeople,
  'shared/limits.yaml': parseLimits,
  'shared/instruments.yaml': parseInstruments,
  'shared/setups.yaml': (source) => parseSetups(source, limits),
  'shared/jobs/pier-house.yaml': (source) => {
    const job = parseJob(source);
    if (job.ok) for (const unit of job.value.units.slice(0, 3)) setOut(unit, set);
    return job;
  },
  'shared/profile-sets/w52.yaml': (source) => {
    const made = parseProfileSet(source);
    if (made.ok) for (const unit of house.units.slice(0, 2)) setOut(unit, made.value);
    return made;
  },
  'procedures/casement.yaml': (source) => {
    const made = parseProcedure(source);
    return made.ok ? makeRoute(made.value, contextsOf(setOut(house.units[4]!, set))) : made;
  },
  'shared/jobs/pier.csv': parseJob,
};
const textOf = (file: string): string => (file.endsWith('.csv') ? CSV : read(file));

/** What a library says of a file on its own would go past every screen and escape. */
const said: Error[] = [];
const listen = (warning: Error): void => {
  if (!/Experimental/.test(warning.name)) said.push(warning);
};
beforeAll(() => {
  process.on('warning', listen);
});
afterAll(() => {
  process.off('warning', listen);
  expect(said).toEqual([]);
});

it('with a key that is no text is not spoken of behind the screen', async () => {
  const text = 'format: pinchrod-people 1\npeople:\n  ? !!binary "////"\n  : 1\n';
  expect(parsePeople({ file: 'shared/people.yaml', text }).ok).toBe(false);
  // Warnings are told in a turn of their own.
  await new Promise((done) => setImmediate(done));
  expect(said).toEqual([]);
});

describe.each(Object.keys(READERS))('%s', (file) => {
  it('mutated gives a value, or problems that say where and what to do', () => {
    const random = chance(SEED);
    const good = textOf(file);
    expect(READERS[file]!({ file, text: good })).toMatchObject({ ok: true });
    const count = { taken: 0, refused: 0 };
    for (let i = 0; i < ROUNDS; i++) {
      const text = mutate(good, random);
      // As from disk: what is no text does not come further.
      const source = readWorkshopFile(memoryDisk('/w', new Map([[file, Buffer.from(text)]])), '/w', file);
      const result = source.ok ? READERS[file]!(source.value) : source;
      count[result.ok ? 'taken' : 'refused'] += 1;
      for (const problem of result.ok ? result.warnings : result.problems)
        wellSaid(problem, file, `seed ${SEED}, mutation ${i}`);
    }
    console.log(`${file}: ${count.taken} taken, ${count.refused} refused`);
    expect(count.refused).toBeGreaterThan(ROUNDS / 10);
  }, 600_000);
});

const LINES = journal(12).map(chainLine);
const PRACTICE = ['practice', 'people', 'jb'];
const tree = (files: Readonly<Record<string, string | Uint8Array>>): Disk =>
  memoryDisk('/w', new Map(Object.entries(files).map(([name, content]) => [name, Buffer.from(content)])));

describe('files under logs/', () => {
  const each = (good: string, look: (text: string, about: string) => readonly Problem[]): void => {
    const random = chance(SEED);
    for (let i = 0; i < ROUNDS * 5; i++) {
      const about = `seed ${SEED}, mutation ${i}`;
      for (const problem of look(mutate(good, random), about)) wellSaid(problem, undefined, about);
    }
  };
  const good = `${LINES.join('\n')}\n`;

  it('a journal, read and verified', () => {
    each(good, (text) => {
      const disk = tree({ 'logs/pier-house/P01-1.jsonl': text });
      const events = readEvents(disk, '/w', 'pier-house', 'P01-1');
      return [...verifyTree(disk, '/w').faults, ...(events.ok ? [] : events.problems)];
    });
  });

  it('a journal of practice, and the one of set-ups', () => {
    each(good, (text) => {
      const disk = tree({ 'practice/people/jb.jsonl': text, 'logs/setups.jsonl': text });
      const log = readChainLog(disk, '/w', { path: PRACTICE, wrongWith: () => undefined });
      return [...verifyTree(disk, '/w').faults, ...(log.ok ? [] : log.problems)];
    });
  });

  it('a seal, a public key, the board’s cache', () => {
    const seal = JSON.stringify({
      format: 'pinchrod-job-seal 1',
      job: 'pier-house',
      at: '2026-03-02T09:00:00.000Z',
      bench: 'bench-1',
      units: [{ unit: 'P01-1', lines: 12, hash: 'a'.repeat(64) }],
      seal: 'b'.repeat(64),
    });
    each(seal, (text) => {
      readJobSeal(Buffer.from(text));
      const disk = tree({
        'logs/pier-house/P01-1.jsonl': good,
        'logs/pier-house/job.seal.json': text,
        'logs/index/board.json': text.replace('pinchrod-job-seal', 'pinchrod-board-index'),
        [`shared/keys/${'c'.repeat(16)}.pem`]: text,
      });
      loadIndex(disk, '/w');
      return [...verifyTree(disk, '/w').faults, ...publicKeys(disk, '/w').problems];
    });
  });
});

describe('an archive', () => {
  const packed = packFiles(
    'pier-house',
    new Map([['logs/pier-house/P01-1.jsonl', Buffer.from(`${LINES.join('\n')}\n`)]]),
  );

  it('with any bytes changed, cut or doubled is a problem, or whole', () => {
    const random = chance(SEED);
    for (let i = 0; i < ROUNDS * 5; i++) {
      const bytes = Buffer.from(packed);
      for (let n = 1 + Math.floor(random() * 4); n > 0; n--)
        bytes[Math.floor(random() * bytes.length)]! = Math.floor(random() * 256);
      const cut = random() < 0.3 ? bytes.subarray(0, Math.floor(random() * bytes.length)) : bytes;
      for (const problem of verifyArchive(cut, 'a.zip', new Set()).faults)
        wellSaid(problem, undefined, `seed ${SEED}, change ${i}`);
    }
  });

  it('with names that lead elsewhere is refused by its name', () => {
    for (const name of [
      '../x',
      'pier-house/../../x',
      '/etc/x',
      'C:/x',
      'pier-house\\..\\x',
      'pier-house/./x',
      'a//b',
      'pier-house/__proto__/x',
    ]) {
      const [fault] = verifyArchive(zipSync({ [name]: new Uint8Array([1]) }), 'a.zip', new Set()).faults;
      expect(fault, name).toMatchObject({ id: 'verify.archive' });
      expect(fault!.text).toContain('leads out of the archive');
    }
  });

  it('that unpacks to far more than its size is refused before it is unpacked', () => {
    const bomb = zipSync({ 'pier-house/MANIFEST': new Uint8Array(40_000_000) });
    const [fault] = verifyArchive(bomb, 'a.zip', new Set()).faults;
    expect(fault!.text).toContain('more than an archive of a job can');
  });
});

/** A problem has an id, a place, what is wrong and a way out, all of it plain text. */
function wellSaid(problem: Problem, file: string | undefined, about: string): void {
  const { id, place, text, todo } = problem;
  if (!/^[a-z]+\.[a-z-]+$/.test(id) || text === '' || todo === '' || place?.file === undefined)
    throw new Error(`${about}: ${JSON.stringify(problem)}`);
  if (file !== undefined) expect(place.file, about).toBe(file);
  if (place.line !== undefined && !(place.line >= 1)) throw new Error(`${about}: ${JSON.stringify(problem)}`);
  if (sanitize(text) !== text || sanitize(todo) !== todo)
    throw new Error(`${about}: ${JSON.stringify(problem)}`);
  if (/undefined|\[object|(Type|Range)Error/.test(text)) throw new Error(`${about}: ${text}`);
}
