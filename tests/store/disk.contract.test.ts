/** What every disk must do, held against the real one and against the model that the crash tests run over. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Disk, realDisk } from '../../src/store/disk.js';
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

describe.each(Object.keys(DISKS))('%s', (name) => {
  let made: ReturnType<(typeof DISKS)[string]>;
  beforeEach(() => {
    made = DISKS[name]!();
  });
  afterEach(() => made.clean());
  const code = (run: () => unknown): string | undefined => {
    try {
      run();
      return undefined;
    } catch (error) {
      return (error as NodeJS.ErrnoException).code;
    }
  };
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
