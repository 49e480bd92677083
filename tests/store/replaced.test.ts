/**
 * What is written is the journal's name: a file that was replaced, removed, renamed or relinked under an open bench is
 * refused by name, nothing is acknowledged into a file that nobody finds, and the answer may be given again.
 */
import {
  copyFileSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Problem } from '../../src/base/problem.js';
import { appendChainLog, readChainLog } from '../../src/store/chainlog.js';
import { type Disk, realDisk, StoreError } from '../../src/store/disk.js';
import { Journal, readEvents } from '../../src/store/journal.js';
import { listJournals } from '../../src/store/journals.js';
import { setupEventWrong } from '../../src/store/readjournal.js';
import { verifyTree } from '../../src/store/verify.js';
import { noted, opened, stamp } from './samples.js';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const file = () => join(root, 'logs/pier-house/P01-1.jsonl');
const aside = () => join(root, 'logs/pier-house/P01-1.copy');
function open(disk: Disk = realDisk): Journal {
  const made = Journal.open(disk, root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
}
function refused(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    if (error instanceof StoreError) return error.problem.id;
    throw error;
  }
  return 'taken';
}
const texts = (): string[] => {
  const read = readEvents(realDisk, root, 'pier-house', 'P01-1');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value.flatMap((event) => (event.kind === 'noted' ? [event.text] : []));
};

/** All keep the content, so that nothing but the name tells. */
const WAYS: Readonly<Record<string, () => void>> = {
  'a copy renamed over it': () => {
    copyFileSync(file(), aside());
    renameSync(aside(), file());
  },
  'removed and written anew': () => {
    const text = readFileSync(file());
    unlinkSync(file());
    writeFileSync(file(), text);
  },
  'another file linked to its name': () => {
    copyFileSync(file(), aside());
    unlinkSync(file());
    linkSync(aside(), file());
  },
  'a symbolic link in its place': () => {
    renameSync(file(), aside());
    symlinkSync(aside(), file());
  },
  'its folder renamed, and a copy of it in its place': () => {
    const folder = join(root, 'logs/pier-house');
    renameSync(folder, `${folder}-old`);
    mkdirSync(folder);
    copyFileSync(`${folder}-old/P01-1.jsonl`, file());
  },
};
const GONE: Readonly<Record<string, () => void>> = {
  removed: () => unlinkSync(file()),
  'renamed away': () => renameSync(file(), aside()),
  'its folder removed': () => rmSync(join(root, 'logs/pier-house'), { recursive: true }),
};

describe.each(['before an answer', 'while it is written'])('%s', (when) => {
  /** The journal, with what is done to it at that moment. */
  function with_(attack: () => void): Journal {
    let armed = false;
    const disk: Disk = {
      ...realDisk,
      flush(handle) {
        if (armed) {
          armed = false;
          attack();
        }
        realDisk.flush(handle);
      },
    };
    const journal = open(disk);
    journal.append([opened()], stamp());
    journal.append([noted('first')], stamp(1));
    if (when === 'before an answer') attack();
    else armed = true;
    return journal;
  }

  it.each(Object.keys({ ...WAYS, ...GONE }))('%s: refused by name', (way) => {
    const journal = with_({ ...WAYS, ...GONE }[way]!);
    expect(refused(() => journal.append([noted('second')], stamp(2)))).toBe('journal.replaced');
    expect(journal.events.map(({ n }) => n)).toEqual([1, 2]);
    journal.close();
  });

  it.each(Object.keys(WAYS).filter((way) => !way.includes('symbolic')))(
    '%s: given again, the answer is in the file that everybody finds, once',
    (way) => {
      const journal = with_(WAYS[way]!);
      refused(() => journal.append([noted('second')], stamp(2)));
      journal.append([noted('second')], stamp(3));
      journal.append([noted('third')], stamp(4));
      journal.close();
      rmSync(join(root, 'logs/pier-house-old'), { recursive: true, force: true });
      expect(texts()).toEqual(['first', 'second', 'third']);
      expect(verifyTree(realDisk, root).faults.map(({ id }) => id)).toEqual(['verify.source-missing']);
    },
  );

  it.each(Object.keys(GONE))('%s: put back, the answer may be given again', (way) => {
    const journal = with_(() => {
      copyFileSync(file(), join(root, 'kept'));
      GONE[way]!();
    });
    refused(() => journal.append([noted('second')], stamp(2)));
    expect(refused(() => journal.append([noted('second')], stamp(3)))).toBe('journal.replaced');
    mkdirSync(join(root, 'logs/pier-house'), { recursive: true });
    copyFileSync(join(root, 'kept'), file());
    journal.append([noted('second')], stamp(4));
    journal.close();
    expect(texts()).toEqual(['first', 'second']);
  });

  it('replaced by something else: refused each time, and that is left as it is', () => {
    const journal = with_(() => {
      copyFileSync(file(), aside());
      writeFileSync(aside(), `${readFileSync(aside(), 'utf8')}mine\n`);
      renameSync(aside(), file());
    });
    refused(() => journal.append([noted('second')], stamp(2)));
    expect(refused(() => journal.append([noted('second')], stamp(3)))).toBe('journal.changed-beneath');
    journal.close();
    expect(readFileSync(file(), 'utf8').endsWith('mine\n')).toBe(true);
  });
});

it('the journal of set-ups is written under its name, too', () => {
  const path = ['logs', 'setups'];
  const options = { path, wrongWith: setupEventWrong };
  const ended = () => [{ kind: 'setup-ended', setup: 'saw', why: 'knock' }] as never;
  expect(appendChainLog(realDisk, root, options, stamp(), ended).ok).toBe(true);
  const name = join(root, 'logs/setups.jsonl');
  const disk: Disk = {
    ...realDisk,
    write(handle, bytes, from) {
      copyFileSync(name, `${name}.copy`);
      renameSync(`${name}.copy`, name);
      return realDisk.write(handle, bytes, from);
    },
  };
  const replaced = appendChainLog(disk, root, options, stamp(1), ended);
  expect(replaced).toMatchObject({ ok: false, problems: [{ id: 'journal.replaced' }] });
  expect(appendChainLog(realDisk, root, options, stamp(2), ended).ok).toBe(true);
  const read = readChainLog(realDisk, root, options);
  expect(read.ok && read.value.map(({ n }) => n)).toEqual([1, 2]);
});

describe('a job folder that leads elsewhere', () => {
  beforeEach(() => {
    mkdirSync(join(root, 'logs'));
    mkdirSync(join(root, 'elsewhere'));
    symlinkSync(join(root, 'elsewhere'), join(root, 'logs/pier-house'));
  });

  it('is not written through, not read, and verify names it', () => {
    const made = Journal.open(realDisk, root, 'pier-house', 'P01-1');
    const appended = made.ok ? refused(() => made.value.append([opened()], stamp())) : made.problems[0]!.id;
    expect(appended).toBe('workshop.outside');
    expect(realDisk.list(join(root, 'elsewhere'))).toEqual([]);
    expect(readEvents(realDisk, root, 'pier-house', 'P01-1')).toMatchObject({
      ok: false,
      problems: [{ id: 'workshop.outside' }],
    });
    expect(listJournals(realDisk, root)).toEqual([]);
    const { holds, faults } = verifyTree(realDisk, root);
    expect({ holds, faults }).toMatchObject({ holds: false, faults: [{ id: 'verify.not-a-file' }] });
  });
});

it('one folder that cannot be listed stops only itself', () => {
  const journal = open();
  journal.append([opened()], stamp());
  journal.close();
  mkdirSync(join(root, 'logs/closed'));
  const disk: Disk = {
    ...realDisk,
    list(path) {
      if (path.endsWith('closed')) throw Object.assign(new Error('EACCES'), { code: 'EACCES' });
      return realDisk.list(path);
    },
  };
  const troubles: Problem[] = [];
  expect(listJournals(disk, root, undefined, troubles)).toEqual([{ job: 'pier-house', unit: 'P01-1' }]);
  expect(troubles).toMatchObject([{ place: { file: 'logs/closed' } }]);
  expect(() => listJournals(disk, root)).toThrow('EACCES');
  expect(verifyTree(disk, root).faults.map(({ id }) => id)).toContain('verify.unreadable');
});
