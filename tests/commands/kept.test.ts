import {
  appendFileSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Io } from '../../src/commands/io.js';
import { GROUNDS, kept } from '../../src/commands/kept.js';
import { run as lint } from '../../src/commands/lint.js';
import { run as setout } from '../../src/commands/setout.js';
import { squareWorkshop } from '../../src/commands/squareworkshop.js';
import { realDisk } from '../../src/store/disk.js';

const ROOT = join(import.meta.dirname, '..', '..');
let workshop: string;
beforeEach(() => {
  workshop = mkdtempSync(join(tmpdir(), 'kept-'));
  for (const part of ['procedures', 'shared', 'logs'])
    cpSync(join(ROOT, part), join(workshop, part), {
      recursive: true,
      filter: (path) => !path.includes('index'),
    });
});
afterEach(() => rmSync(workshop, { recursive: true, force: true }));

const answers = () => join(workshop, 'logs', 'index', 'answers');

/** Runs a verb through `kept`, and counts how often it was really worked out. */
async function ask(words: string[], verb = setout, build: string | undefined = 'one') {
  const ground = verb === lint ? GROUNDS.lint : GROUNDS.setout;
  const out: string[] = [];
  const err: string[] = [];
  let worked = 0;
  const io: Io = { out: (text) => out.push(text), err: (text) => err.push(text), workshop };
  const code = await kept(
    io,
    words,
    ground,
    (to) => {
      worked += 1;
      return verb(words.slice(1), to);
    },
    { build },
  );
  return { code, out, err, worked };
}

test('the same words and files give the same answer without working it out again', async () => {
  for (const words of [['setout', 'pier-house', 'P05-1'], ['setout', 'pier-house', '--json'], ['lint']]) {
    const verb = words[0] === 'lint' ? lint : setout;
    const first = await ask(words, verb);
    const second = await ask(words, verb);
    expect(first).toMatchObject({ code: 0, worked: 1 });
    expect(second).toEqual({ ...first, worked: 0 });
  }
});

test('a change of a file it rests on, of the words or of the program is worked out anew', async () => {
  const words = ['setout', 'pier-house', 'P01-1'];
  await ask(words);
  expect((await ask(['setout', 'pier-house', 'P02-1'])).worked).toBe(1);
  expect((await ask(words, setout, 'another')).worked).toBe(1);
  const files = ['shared', 'procedures'].flatMap((folder) =>
    readdirSync(join(workshop, folder), { recursive: true, encoding: 'utf8' }).map((file) =>
      join(folder, file),
    ),
  );
  for (const file of files.filter((each) => /\.[a-z]+$/.test(each))) {
    appendFileSync(join(workshop, file), '\n# a note\n');
    const rests = /(jobs|profile-sets)/.test(file);
    expect((await ask(words)).worked, file).toBe(rests ? 1 : 0);
    expect((await ask(words)).worked, file).toBe(0);
  }
  const job = join(workshop, 'shared', 'jobs', 'pier-house.yaml');
  writeFileSync(job, readFileSync(job, 'utf8').replace(/width: 900/, 'width: 905'));
  const wider = await ask(words);
  expect(wider.worked).toBe(1);
  expect(wider.out.join('\n')).toContain('905');
});

test('an answer rests on its ground alone: nothing else in the workshop changes it', async () => {
  const asks = [['pier-house'], ['pier-house', 'P05-1', '--why', 'glass.L2.width'], ['pier-house', '--json']];
  const alone = mkdtempSync(join(tmpdir(), 'kept-alone-'));
  for (const part of GROUNDS.setout) cpSync(join(workshop, part), join(alone, part), { recursive: true });
  const said = async (folder: string, words: string[]) => {
    const out: string[] = [];
    const io: Io = { out: (text) => out.push(text), err: (text) => out.push(text), workshop: folder };
    return { code: await setout(words, io), out };
  };
  for (const words of asks) expect(await said(alone, words)).toEqual(await said(workshop, words));
  rmSync(join(alone, GROUNDS.setout[1]), { recursive: true });
  expect(await said(alone, asks[0]!)).not.toEqual(await said(workshop, asks[0]!));
  rmSync(alone, { recursive: true });
});

test('a refusal is not kept, and neither is an answer that rests on a file elsewhere', async () => {
  const refused = ['setout', 'no-such-job'];
  expect(await ask(refused)).toMatchObject({ code: 2, worked: 1 });
  expect(await ask(refused)).toMatchObject({ code: 2, worked: 1 });
  const elsewhere = join(workshop, 'mine.yaml');
  cpSync(join(workshop, 'shared', 'jobs', 'pier-house.yaml'), elsewhere);
  const away = ['setout', elsewhere];
  expect(await ask(away)).toMatchObject({ code: 0, worked: 1 });
  expect(await ask(away)).toMatchObject({ code: 0, worked: 1 });
});

test('a file that is changed while the answer is worked out: nothing is kept', async () => {
  const words = ['setout', 'pier-house', 'P01-1'];
  await ask(words, (args, io) => {
    appendFileSync(join(workshop, 'shared', 'jobs', 'pier-house.yaml'), '\n# meanwhile\n');
    return setout(args, io);
  });
  expect(existsSync(answers()) ? readdirSync(answers()) : []).toEqual([]);
});

test('a damaged answer, and one that cannot be written, cost time and nothing else', async () => {
  const words = ['setout', 'pier-house', 'P01-1'];
  const first = await ask(words);
  const file = join(answers(), readdirSync(answers())[0]!);
  const bytes = readFileSync(file);
  bytes[bytes.length >> 1]! ^= 1;
  writeFileSync(file, bytes);
  expect(await ask(words)).toEqual(first);
  rmSync(join(workshop, 'logs', 'index'), { recursive: true });
  writeFileSync(join(workshop, 'logs', 'index'), 'in the way');
  expect(await ask(words)).toEqual(first);
  rmSync(join(workshop, 'logs'), { recursive: true });
  expect(await ask(words)).toEqual(first);
  expect(existsSync(join(workshop, 'logs'))).toBe(false);
});

test('answers stay few: the oldest go', async () => {
  const io: Io = { out: () => {}, err: () => {}, workshop };
  for (let n = 0; n < 70; n += 1)
    await kept(io, ['setout', `word-${n}`], ['shared'], async () => 0, { build: 'one', disk: realDisk });
  expect(readdirSync(answers())).toHaveLength(64);
});

test('without a build of its own the program keeps nothing', async () => {
  const io: Io = { out: () => {}, err: () => {}, workshop };
  await kept(io, ['setout', 'pier-house'], ['shared'], async () => 0);
  expect(existsSync(answers())).toBe(false);
});

test('what the squareness calculator takes from the workshop comes back from JSON as it was read', async () => {
  const fresh = await squareWorkshop(workshop, { build: 'one' });
  expect(fresh).toMatchObject({ ok: true, value: { published: false } });
  const again = await squareWorkshop(workshop, { build: 'one' });
  expect(again).toEqual(fresh);
  expect(readdirSync(answers())).toHaveLength(1);
});
