/** A job is removed only where an archive holds it as it is, and nobody else needs what goes. */
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { removeJob } from '../../src/store/archive.js';
import { realDisk } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { Journal } from '../../src/store/journal.js';
import { verifyTree } from '../../src/store/verify.js';
import { Crash, faulty } from './faultdisk.js';
import { noted, stamp } from './samples.js';

import { beginWithFolders, JOB, path, put, root, taken, workshop } from './sealedjob.js';

beginWithFolders();

describe('a job is removed', () => {
  it('with its seal and what nobody else names, and the other job still holds', () => {
    const { shared } = workshop();
    const files = taken();
    expect(removeJob(realDisk, root, JOB, files)).toMatchObject({ ok: true, value: 5 });
    expect(realDisk.list(path('logs/sources'))).toEqual([shared]);
    expect(realDisk.list(path(`logs/${JOB}`))).toEqual(['evidence']);
    expect(realDisk.list(path(`logs/${JOB}/evidence`))).toEqual([]);
    expect(verifyTree(realDisk, root)).toMatchObject({ holds: true, notes: [], journals: 1 });
  });

  it.each<[string, () => void, object]>([
    [
      'where a unit went on since',
      () => {
        const journal = Journal.open(realDisk, root, JOB, 'P02-1');
        if (journal.ok) journal.value.append([noted('later')], stamp(9));
        if (journal.ok) journal.value.close();
      },
      { id: 'archive.not-removed', place: { file: `logs/${JOB}/P02-1.jsonl` } },
    ],
    [
      'where a file, if only an empty one, came since',
      () => put(`logs/${JOB}/P03-1.jsonl`, ''),
      { id: 'archive.not-removed', place: { file: `logs/${JOB}/P03-1.jsonl` } },
    ],
    [
      'where it was damaged since',
      () => put(`logs/${JOB}/P02-1.jsonl`, 'x\n'),
      { id: 'journal.damaged', place: { file: `logs/${JOB}/P02-1.jsonl`, line: 1 } },
    ],
    [
      'where a source went missing since',
      () => rmSync(path(`logs/sources/${pinSources(realDisk, root, { job: 'own\n' }).job}`)),
      { id: 'archive.wanting' },
    ],
    [
      'where nobody knows what another job rests on',
      () => put('logs/quay-end/Q1-1.jsonl', 'x\n'),
      { id: 'journal.damaged', place: { file: 'logs/quay-end/Q1-1.jsonl', line: 1 } },
    ],
    [
      'where a bench has a unit, and the units taken before are let go',
      () => put(`logs/${JOB}/P02-1.lock`, '{'),
      { id: 'lock.unreadable', place: { file: `logs/${JOB}/P02-1.lock` } },
    ],
  ])('not %s', (_, change, problem) => {
    workshop();
    const files = taken();
    change();
    const before = snapshot();
    expect(removeJob(realDisk, root, JOB, files)).toMatchObject({ ok: false, problems: [problem] });
    expect(snapshot()).toEqual(before);
  });

  it('so that a crash before any file leaves what holds by itself', () => {
    let nth = 1;
    for (let reached = true; reached; nth++) {
      rmSync(root, { recursive: true });
      mkdirSync(root);
      workshop();
      const disk = faulty(realDisk, nth, { kind: 'crash-before' }, new Set(['unlink']));
      try {
        removeJob(disk, root, JOB, taken());
      } catch (error) {
        if (!(error instanceof Crash)) throw error;
      }
      reached = disk.struck();
      const report = verifyTree(realDisk, root);
      expect(report.faults, `call ${nth}`).toEqual([]);
      expect(report.notes.filter(({ id }) => !/(source|evidence)-unknown/.test(id))).toEqual([]);
    }
    expect(nth).toBeGreaterThan(6);
  });
});

const snapshot = (): Record<string, string> =>
  Object.fromEntries(
    ['logs', 'logs/sources', `logs/${JOB}`, `logs/${JOB}/evidence`, 'logs/quay-end'].flatMap((folder) =>
      realDisk
        .list(path(folder))
        .filter((name) => realDisk.stat(path(`${folder}/${name}`))?.kind === 'file')
        .map((name) => [`${folder}/${name}`, readFileSync(path(`${folder}/${name}`), 'latin1')]),
    ),
  );
