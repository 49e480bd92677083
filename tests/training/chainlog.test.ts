/** Practice and sign-off journals on a disk that fails: what was acknowledged stays, what was not is gone. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { keepPractice, readPractice } from '../../src/session/practicejournals.js';
import { type Disk, realDisk } from '../../src/store/disk.js';

const roots: string[] = [];
const folder = (): string => {
  const root = mkdtempSync(join(tmpdir(), 'pinchrod-chain-'));
  roots.push(root);
  return root;
};
afterEach(() => {
  for (const root of roots.splice(0)) rmSync(root, { recursive: true, force: true });
});

const AT = '2026-03-02T07:00:00.000Z';
const review = (card: string) => ({ kind: 'reviewed', card, print: 'p', right: true, seconds: 3 }) as const;
const keep = (disk: Disk, root: string, card: string) =>
  keepPractice({ disk, root, bench: 'b' }, 'tf', [review(card)], AT);
const cards = (root: string): string[] => {
  const read = readPractice(realDisk, root, 'tf');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value.flatMap((event) => (event.kind === 'reviewed' ? [event.card] : []));
};

/**
 * The real disk, whose n-th call for the journal fails; a failing write takes half of what it was given first. The lock
 * beside it has tests of its own (tests/store).
 */
function failing(n: number, code: string): { disk: Disk; calls: () => number } {
  let count = 0;
  const lockHandles = new Set<unknown>();
  const error = () => Object.assign(new Error(code), { code });
  const disk = new Proxy(realDisk, {
    get:
      (target, name: keyof Disk) =>
      (...args: never[]) => {
        const call = target[name] as (...given: never[]) => unknown;
        const [first] = args as readonly unknown[];
        if (/\.(lock|tmp|gone)$/.test(String(first)) || lockHandles.has(first)) {
          const given = call.apply(target, args);
          if (name === 'open') lockHandles.add(given);
          if (name === 'close') lockHandles.delete(first);
          return given;
        }
        count++;
        if (count !== n) return call.apply(target, args);
        if (name === 'write') {
          const [handle, bytes, from] = args as unknown as [number, Uint8Array, number];
          target.write(handle, bytes.subarray(0, from + Math.ceil((bytes.length - from) / 2)), from);
        }
        throw error();
      },
  });
  return { disk, calls: () => count };
}

describe('a failing disk', () => {
  it.each(['ENOSPC', 'EIO'])(
    '%s at any call: as before or as after, and acknowledged means there',
    (code) => {
      const probe = folder();
      keep(realDisk, probe, 'a');
      const counted = failing(0, code);
      keep(counted.disk, probe, 'b');
      expect(counted.calls()).toBeGreaterThan(8);
      for (let n = 1; n <= counted.calls(); n++) {
        const root = folder();
        expect(keep(realDisk, root, 'a').ok).toBe(true);
        const kept = keep(failing(n, code).disk, root, 'b');
        const found = cards(root);
        expect(found, `call ${n}`).toEqual(kept.ok || found.length === 2 ? ['a', 'b'] : ['a']);
        if (!kept.ok) expect(kept.problems[0]!.todo).not.toBe('');
        // And the next one goes on from there.
        expect(keep(realDisk, root, 'c').ok, `call ${n}`).toBe(true);
        expect(cards(root)).toEqual([...found, 'c']);
      }
    },
  );

  it('two writers in turn both find what the other wrote', () => {
    const root = folder();
    for (const card of ['a', 'b', 'c', 'd']) expect(keep(realDisk, root, card).ok).toBe(true);
    expect(cards(root)).toEqual(['a', 'b', 'c', 'd']);
    expect(readFileSync(join(root, 'practice/people/tf.jsonl'), 'utf8').split('\n')).toHaveLength(6);
  });

  it('a journal under another name is noticed', () => {
    const root = folder();
    keep(realDisk, root, 'a');
    realDisk.rename(join(root, 'practice/people/tf.jsonl'), join(root, 'practice/people/jb.jsonl'));
    const read = readPractice(realDisk, root, 'jb');
    expect(!read.ok && read.problems[0]!.text).toContain('not that of jb');
  });

  it('a person whose id is no file name is refused', () => {
    const made = keepPractice({ disk: realDisk, root: folder(), bench: 'b' }, '../x', [review('a')], AT);
    expect(!made.ok && made.problems[0]!.id).toBe('journal.name');
  });
});
