/** Locks between two benches whose calls fall between one another's, on disks without links, and on disks that fail. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { Disk } from '../../src/store/disk.js';
import { type Host, type Lock, lockSeen, takeLock } from '../../src/store/lock.js';
import { type JournalPlace, journalPlace } from '../../src/store/paths.js';
import { CrashDisk } from './crashdisk.js';
import { faulty } from './faultdisk.js';
import { prepare, ROOT } from './writers.js';

const place = placeOf();
function placeOf(): JournalPlace {
  const made = journalPlace(ROOT, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error('no place');
  return made.value;
}
/** Processes 1 and 2 live on the machine; 9 is no more. */
const host = (token: string, pid: number): Host => ({
  host: 'h',
  machine: 'm',
  boot: 'b',
  pid,
  token,
  started: (p) => (p === 1 || p === 2 ? `s${p}` : undefined),
});
const HERE = host('here', 1);
const THERE = host('there', 2);
const take = (disk: Disk, by: Host) => takeLock(disk, place, by, { bench: by.token, who: '' });
const sure = (made: ReturnType<typeof take>): Lock => {
  if (!made.ok) throw new Error(made.problems[0]!.text);
  return made.value;
};

let disk: CrashDisk;
beforeEach(() => {
  disk = new CrashDisk();
  prepare(disk);
  disk.mkdir(`${ROOT}/logs`);
  disk.mkdir(place.folder);
});

/** The lock of a process that is no more. */
function leaveDead(): void {
  const text = JSON.stringify({
    ...{ host: 'h', machine: 'm', boot: 'b', pid: 9, started: 's9', token: 'old', bench: 'x', who: '' },
  });
  const handle = disk.open(place.lock, 'new');
  disk.write(handle, Buffer.from(text), 0);
  disk.close(handle);
}

/** The disk, on which something else happens just before the n-th call. */
function interrupted(nth: number, what: () => void): Disk & { readonly reached: () => boolean } {
  let calls = 0;
  return new Proxy(disk, {
    get: (target, name) => {
      if (name === 'reached') return () => calls >= nth;
      const call = Reflect.get(target, name, target) as unknown;
      if (typeof call !== 'function') return call;
      return (...args: unknown[]) => {
        if (++calls === nth) what();
        return call.apply(target, args);
      };
    },
  }) as never;
}

describe('whatever call of the one it falls before', () => {
  it('the other lets the unit go: the one gets it, or is told who had it', () => {
    const ends = new Set<string>();
    for (let nth = 1, reached = true; reached; nth++) {
      const other = sure(take(disk, THERE));
      const between = interrupted(nth, other.release);
      const mine = take(between, HERE);
      reached = between.reached();
      ends.add(mine.ok ? 'taken' : mine.problems[0]!.id);
      if (mine.ok) {
        expect(mine.value.lost()).toBeUndefined();
        mine.value.release();
      } else other.release();
      expect(disk.list(place.folder)).toEqual([]);
    }
    expect([...ends].sort()).toEqual(['lock.held', 'taken']);
  });

  it('the other has had and left a unit whose lock was dead: the one gets it', () => {
    for (let nth = 1, reached = true; reached; nth++) {
      leaveDead();
      const between = interrupted(nth, () => {
        const other = take(disk, THERE);
        if (other.ok) other.value.release();
      });
      const mine = take(between, HERE);
      reached = between.reached();
      expect(mine.ok, `call ${nth}`).toBe(true);
      sure(mine).release();
      expect(disk.list(place.folder)).toEqual([]);
    }
  });

  it('the other lets the unit go while somebody looks: it is held by the other, or by nobody', () => {
    const seen: unknown[] = [];
    for (let nth = 1, reached = true; reached; nth++) {
      const other = sure(take(disk, THERE));
      const between = interrupted(nth, other.release);
      seen.push(lockSeen(between, place, HERE)?.holder?.bench);
      reached = between.reached();
      other.release();
    }
    expect(seen).toEqual([undefined, undefined, 'there']);
    expect(lockSeen(disk, place, HERE)).toBeUndefined();
  });
});

describe('a lock that was let go', () => {
  it('says so, and does not let go what another has by now', () => {
    const mine = sure(take(disk, HERE));
    mine.release();
    expect(mine.lost()).toMatchObject({ id: 'journal.let-go', text: 'P01-1 was let go here.' });
    const other = sure(take(disk, THERE));
    mine.release();
    expect(other.lost()).toBeUndefined();
    other.release();
  });
});

describe('a bench’s own lock', () => {
  it('keeps a second claim of the same program out, also one that would take the unit over', () => {
    const mine = sure(take(disk, HERE));
    expect(lockSeen(disk, place, HERE)).toMatchObject({ holder: { bench: 'here' }, runs: true });
    for (const takeOver of [false, true])
      expect(takeLock(disk, place, HERE, { bench: 'here', who: '', takeOver })).toMatchObject({
        problems: [{ id: 'lock.held' }],
      });
    expect(mine.lost()).toBeUndefined();
    mine.release();
  });

  it('which could not be removed when the unit was let go is no lock any more', () => {
    // Two removals are of the temporary file, the third is of the lock.
    const failing = faulty(disk, 3, { kind: 'error', code: 'EIO' }, new Set(['unlink']));
    sure(take(failing, HERE)).release();
    expect(disk.list(place.folder)).toEqual(['P01-1.lock']);
    expect(take(disk, THERE)).toMatchObject({ ok: false, problems: [{ id: 'lock.held' }] });
    sure(take(disk, HERE)).release();
    expect(disk.list(place.folder)).toEqual([]);
  });
});

describe('on a disk without links', () => {
  const codes = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV', 'EINVAL'];
  const without = (code: string, before: () => void = () => undefined): Disk =>
    new Proxy(disk, {
      get: (target, name) => {
        if (name === 'link')
          return () => {
            before();
            throw Object.assign(new Error(code), { code });
          };
        const call = Reflect.get(target, name, target) as unknown;
        return typeof call === 'function' ? call.bind(target) : call;
      },
    });

  it.each(codes)('(%s) one bench has the unit, and the next is refused', (code) => {
    const mine = sure(take(without(code), HERE));
    expect(take(without(code), THERE)).toMatchObject({ ok: false, problems: [{ id: 'lock.held' }] });
    mine.release();
    sure(take(without(code), THERE)).release();
    expect(disk.list(place.folder)).toEqual([]);
  });

  it('of two that make the lock at once, the quicker has it', () => {
    let other: Lock | undefined;
    const mine = take(
      without('EPERM', () => {
        other ??= sure(take(disk, THERE));
      }),
      HERE,
    );
    expect(mine).toMatchObject({ ok: false, problems: [{ id: 'lock.held' }] });
    expect(other?.lost()).toBeUndefined();
    other?.release();
    expect(disk.list(place.folder)).toEqual([]);
  });

  it('a failure to make it is the disk’s', () => {
    // The temporary file is opened first, then the lock itself.
    const failing = faulty(without('EPERM'), 2, { kind: 'error', code: 'ENOSPC' }, new Set(['open']));
    expect(() => take(failing, HERE)).toThrow('ENOSPC');
    expect(disk.list(place.folder)).toEqual([]);
  });
});

describe('a disk that fails', () => {
  it.each([
    ['link', 'EIO'],
    ['read', 'EIO'],
    ['rename', 'EROFS'],
  ])('at %s: the failure is told, and no file is left but the lock that was there', (call, code) => {
    leaveDead();
    expect(() => take(faulty(disk, 1, { kind: 'error', code }, new Set([call])), HERE)).toThrow(code);
    expect(disk.list(place.folder)).toEqual(['P01-1.lock']);
  });

  it('and gives the dead lock back each time it was moved away: is not tried for ever', () => {
    leaveDead();
    const stubborn = new Proxy(disk, {
      get: (target, name) => {
        const call = Reflect.get(target, name, target) as unknown;
        if (typeof call !== 'function') return call;
        return (...args: unknown[]) => {
          const result: unknown = call.apply(target, args);
          if (name === 'rename') leaveDead();
          return result;
        };
      },
    });
    expect(take(stubborn, HERE)).toMatchObject({ ok: false, problems: [{ id: 'lock.held' }] });
  });

  it('and says that a lock is there which it does not show: is not tried for ever', () => {
    let links = 0;
    const blind: Disk = new Proxy(disk, {
      get: (target, name) => {
        if (name === 'link')
          return () => {
            if (++links > 1000) throw new Error('it is tried for ever');
            throw Object.assign(new Error('EEXIST'), { code: 'EEXIST' });
          };
        const call = Reflect.get(target, name, target) as unknown;
        return typeof call === 'function' ? call.bind(target) : call;
      },
    });
    expect(take(blind, HERE)).toMatchObject({ ok: false, problems: [{ id: 'lock.unreadable' }] });
    expect(disk.list(place.folder)).toEqual([]);
  });
});
