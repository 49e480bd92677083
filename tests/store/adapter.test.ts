/** What an append log meets: nothing to write, files that are no journal or too long, and files changed beneath it. */
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Disk, realDisk, StoreError } from '../../src/store/disk.js';
import { Journal, LARGEST_JOURNAL, readEvents } from '../../src/store/journal.js';
import { noted, opened, stamp } from './samples.js';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));
const file = () => join(root, 'logs/pier-house/P01-1.jsonl');
const bytes = () => readFileSync(file(), 'utf8');

const opening = (disk: Disk = realDisk) => Journal.open(disk, root, 'pier-house', 'P01-1');
const open = (disk?: Disk): Journal => {
  const made = opening(disk);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
};
const refused = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    if (error instanceof StoreError) return error.problem.id;
    throw error;
  }
  return 'taken';
};

/** The real disk, whose calls named in `fails` fail as long as they are there. */
function failing(fails: Set<string>): Disk {
  return new Proxy(realDisk, {
    get: (target, name: keyof Disk & string) => {
      return (...args: unknown[]) => {
        const what = name === 'open' ? `open ${args[1]}` : name;
        if (fails.has(what)) throw Object.assign(new Error(what), { code: 'EIO' });
        return (target[name] as (...given: unknown[]) => unknown)(...args);
      };
    },
  });
}

it('nothing to append is nothing written', () => {
  const journal = open();
  expect(journal.append([], stamp())).toEqual([]);
  expect(existsSync(file())).toBe(false);
  journal.append([opened()], stamp());
  const before = bytes();
  expect(journal.append([], stamp(1))).toEqual([]);
  expect(bytes()).toBe(before);
  journal.close();
});

describe('what is no journal is not read', () => {
  it.each<[string, () => void, string]>([
    ['a folder', () => mkdirSync(file(), { recursive: true }), 'workshop.not-a-file'],
    [
      'a file of more than 32 MB',
      () => {
        writeFileSync(file(), '');
        truncateSync(file(), LARGEST_JOURNAL + 1);
      },
      'journal.too-large',
    ],
  ])('%s', (_, make, id) => {
    mkdirSync(join(root, 'logs/pier-house'), { recursive: true });
    make();
    const problems = [{ id, place: { file: 'logs/pier-house/P01-1.jsonl' } }];
    expect(opening()).toMatchObject({ ok: false, problems });
    expect(readEvents(realDisk, root, 'pier-house', 'P01-1')).toMatchObject({ ok: false, problems });
  });
});

it('a journal does not grow larger than what can be read again', () => {
  const journal = open();
  journal.append([opened()], stamp());
  const text = 'x'.repeat(99_000);
  const many = Array.from({ length: Math.ceil(LARGEST_JOURNAL / 99_000) }, () => noted(text));
  const before = bytes();
  expect(refused(() => journal.append(many, stamp(1)))).toBe('journal.too-large');
  expect(bytes()).toBe(before);
  expect(journal.events.length).toBe(1);
  expect(journal.append([noted('small')], stamp(2)).length).toBe(1);
  journal.close();
});

describe('after a write that failed and could not be taken back', () => {
  /** A journal with one durable event and one that was written and not acknowledged. */
  const stuck = (leave: (attempted: string) => string) => {
    const fails = new Set<string>();
    const journal = open(failing(fails));
    journal.append([opened()], stamp());
    const durable = bytes();
    fails.add('flush').add('open mend');
    expect(refused(() => journal.append([noted('not saved')], stamp(1)))).toBe('disk.fault');
    const attempted = bytes().slice(durable.length);
    expect(attempted).toContain('not saved');
    writeFileSync(file(), durable + leave(attempted));
    fails.clear();
    return { journal, durable };
  };
  const LEFT: [string, (attempted: string) => string][] = [
    ['all of it', (all) => all],
    ['a piece of it', (all) => all.slice(0, 20)],
    ['its length without its content', (all) => '\0'.repeat(all.length)],
    ['nothing', () => ''],
  ];

  it.each(LEFT)('and left %s: closing takes it back', (_, leave) => {
    const { journal, durable } = stuck(leave);
    journal.close();
    expect(bytes()).toBe(durable);
  });

  it.each(LEFT)('and left %s: the next answer takes its place', (_, leave) => {
    const { journal, durable } = stuck(leave);
    journal.append([noted('saved')], stamp(2));
    journal.close();
    expect(bytes().startsWith(durable)).toBe(true);
    expect(bytes()).not.toContain('not saved');
    const read = readEvents(realDisk, root, 'pier-house', 'P01-1');
    expect(read.ok && read.value.map(({ kind }) => kind)).toEqual(['opened', 'noted']);
  });

  it.each<[string, (attempted: string) => string]>([
    ['other bytes stand there', () => 'mine\n'],
    ['more stands there than was written', (all) => `${all}mine\n`],
  ])('and %s: they are left, and nothing is written', (_, leave) => {
    const { journal } = stuck(leave);
    const before = bytes();
    expect(refused(() => journal.append([noted('saved')], stamp(2)))).toBe('journal.changed-beneath');
    journal.close();
    expect(bytes()).toBe(before);
  });

  it('and the durable lines were changed meanwhile: nothing is written', () => {
    const { journal, durable } = stuck((all) => all);
    writeFileSync(file(), durable.replace('jb', 'ot'));
    expect(refused(() => journal.append([noted('saved')], stamp(2)))).toBe('journal.changed-beneath');
    journal.close();
    expect(bytes()).toBe(durable.replace('jb', 'ot'));
  });

  it('and the file, which was to be the first of the unit, is gone again: it is made anew', () => {
    const fails = new Set(['flush', 'open mend']);
    const journal = open(failing(fails));
    expect(refused(() => journal.append([opened()], stamp()))).toBe('disk.fault');
    rmSync(file());
    fails.clear();
    journal.append([opened()], stamp(1));
    journal.close();
    expect(bytes().split('\n').length).toBe(2);
  });
});

it('a journal that was taken away while it was open is not begun anew', () => {
  const journal = open();
  journal.append([opened()], stamp());
  writeFileSync(file(), 'mine\n', { flag: 'a' });
  expect(refused(() => journal.append([noted('a')], stamp(1)))).toBe('journal.changed-beneath');
  rmSync(file());
  expect(refused(() => journal.append([noted('a')], stamp(2)))).toBe('journal.replaced');
  expect(existsSync(file())).toBe(false);
  journal.close();
});
