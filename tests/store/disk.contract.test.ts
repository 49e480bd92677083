/** What every disk must do, held against the real one and against the model that the crash tests run over. */
import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Disk, isNoFolderFlush, realDisk, rightsOf } from '../../src/store/disk.js';
import { memoryDisk } from '../../src/store/verifyarchive.js';
import { CrashDisk } from './crashdisk.js';

const DISKS: Record<string, () => { disk: Disk; root: string; clean(): void }> = {
  'the real disk': () => {
    const root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
    return { disk: realDisk, root, clean: () => rmSync(root, { recursive: true, force: true }) };
  },
  'the model': () => {
    const disk = new CrashDisk();
    disk.mkdir('/w');
    return { disk, root: '/w', clean: () => undefined };
  },
};

function code(run: () => unknown): string | undefined {
  try {
    run();
    return undefined;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code;
  }
}

describe.each(Object.keys(DISKS))('%s', (name) => {
  let made: ReturnType<(typeof DISKS)[string]>;
  beforeEach(() => {
    made = DISKS[name]!();
  });
  afterEach(() => made.clean());
  const put = (path: string, text: string): void => {
    const handle = made.disk.open(path, 'new');
    made.disk.write(handle, Buffer.from(text), 0);
    made.disk.flush(handle);
    made.disk.close(handle);
  };

  it('makes a file once, and appends to one that is there', () => {
    const { disk, root } = made;
    const path = join(root, 'a');
    expect(code(() => disk.open(path, 'append'))).toBe('ENOENT');
    put(path, 'one');
    expect(code(() => disk.open(path, 'new'))).toBe('EEXIST');
    const handle = disk.open(path, 'append');
    expect(disk.size(handle)).toBe(3);
    expect(disk.write(handle, Buffer.from('xtwo'), 1)).toBe(3);
    disk.flush(handle);
    disk.close(handle);
    expect(disk.read(path).toString()).toBe('onetwo');
    expect(disk.stat(path)).toMatchObject({ kind: 'file', size: 6 });
  });

  it('shortens a file, and appends after what is left', () => {
    const { disk, root } = made;
    const path = join(root, 'a');
    put(path, 'one two');
    const mend = disk.open(path, 'mend');
    disk.truncate(mend, 3);
    disk.flush(mend);
    disk.close(mend);
    const handle = disk.open(path, 'append');
    disk.write(handle, Buffer.from('!'), 0);
    disk.close(handle);
    expect(disk.read(path).toString()).toBe('one!');
  });

  it('renames over a file, links only to a free name, removes', () => {
    const { disk, root } = made;
    const [a, b, c] = ['a', 'b', 'c'].map((each) => join(root, each)) as [string, string, string];
    put(a, 'first');
    put(b, 'second');
    expect(code(() => disk.link(a, b))).toBe('EEXIST');
    disk.link(a, c);
    expect(disk.stat(c)!.id).toBe(disk.stat(a)!.id);
    disk.rename(a, b);
    expect(disk.read(b).toString()).toBe('first');
    expect(disk.stat(a)).toBeUndefined();
    disk.unlink(b);
    expect(code(() => disk.unlink(b))).toBe('ENOENT');
    expect(code(() => disk.rename(b, a))).toBe('ENOENT');
    expect(disk.list(root)).toEqual(['c']);
  });

  it('makes folders, lists them in order, flushes them', () => {
    const { disk, root } = made;
    disk.mkdir(join(root, 'f'));
    expect(code(() => disk.mkdir(join(root, 'f')))).toBe('EEXIST');
    expect(code(() => disk.mkdir(join(root, 'no', 'f')))).toBe('ENOENT');
    for (const each of ['b', 'a', 'c']) put(join(root, 'f', each), each);
    disk.flushFolder(join(root, 'f'));
    expect(disk.list(join(root, 'f'))).toEqual(['a', 'b', 'c']);
    expect(code(() => disk.list(join(root, 'g')))).toBe('ENOENT');
    expect(disk.stat(join(root, 'f'))).toMatchObject({ kind: 'folder' });
    expect(code(() => disk.read(join(root, 'f')))).toBe('EISDIR');
  });

  it('refuses a handle that was closed', () => {
    const { disk, root } = made;
    const handle = disk.open(join(root, 'a'), 'new');
    disk.close(handle);
    expect(code(() => disk.write(handle, Buffer.from('x'), 0))).toBe('EBADF');
  });
});

describe('the real disk alone', () => {
  it('tells what is neither file nor folder, and does not follow a link', ({ skip }) => {
    const root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
    symlinkSync(root, join(root, 'link'));
    expect(realDisk.stat(join(root, 'link'))?.kind).toBe('link');
    rmSync(root, { recursive: true });
    if (process.platform === 'win32') skip('this system has no such device');
    expect(realDisk.stat('/dev/null')?.kind).toBe('other');
  });

  it('says that a folder to be flushed is not there, and goes on where there is no such thing as flushing one', ({
    skip,
  }) => {
    expect(code(() => realDisk.flushFolder(join(tmpdir(), 'pinchrod-no-such')))).toBe('ENOENT');
    if (process.platform !== 'linux') skip('only Linux has such a folder for certain');
    expect(realDisk.flushFolder('/proc')).toBeUndefined();
  });

  it.each<[string, NodeJS.Platform, boolean]>([
    ['EISDIR', 'linux', true],
    ['EINVAL', 'linux', true],
    ['ENOTSUP', 'darwin', true],
    ['EIO', 'linux', false],
    ['EPERM', 'linux', false],
    ['EPERM', 'win32', true],
    ['EACCES', 'win32', true],
    ['EACCES', 'darwin', false],
    ['ENOENT', 'win32', false],
  ])('%s on %s: there is no such thing as flushing a folder: %s', (error, platform, none) => {
    expect(isNoFolderFlush(error, platform)).toBe(none);
  });

  it('says whether others may read a file, but not where the system has no such rights', () => {
    expect(rightsOf(0o100_600, 'linux')).toEqual({ open: false });
    for (const mode of [0o640, 0o604, 0o644])
      expect(rightsOf(0o100_000 | mode, 'linux')).toEqual({ open: true });
    expect(rightsOf(0o100_666, 'win32')).toEqual({});
  });
});

it('files in memory are a disk that can only be read', () => {
  const disk = memoryDisk('/a', new Map([['logs/x/P01-1.jsonl', Buffer.from('one')]]));
  expect(disk.list('/a/logs')).toEqual(['x']);
  expect(disk.read('/a/logs/x/P01-1.jsonl').toString()).toBe('one');
  expect(disk.stat('/a/logs/x')).toMatchObject({ kind: 'folder' });
  expect(disk.stat('/a/none')).toBeUndefined();
  expect(code(() => disk.read('/a/none'))).toBe('ENOENT');
  expect(code(() => disk.read('/a/logs'))).toBe('ENOENT');
  expect(code(() => disk.list('/a/none'))).toBe('ENOENT');
  for (const write of [
    () => disk.open('/a/b', 'new'),
    () => disk.mkdir('/a/b'),
    () => disk.unlink('/a/logs/x/P01-1.jsonl'),
  ])
    expect(code(write)).toBe('EROFS');
  expect(disk.read('/a/logs/x/P01-1.jsonl').toString()).toBe('one');
});
