/** A job as an archive: what is taken, and what an archive may hold. */
import { existsSync, mkdirSync, rmSync, symlinkSync, truncateSync } from 'node:fs';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import {
  type Files,
  jobFiles,
  LARGEST_ARCHIVE,
  MANIFEST,
  packFiles,
  unpackFiles,
} from '../../src/store/archive.js';
import { realDisk } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { readEvents } from '../../src/store/journal.js';
import { verifyTree } from '../../src/store/verify.js';
import { verifyArchive } from '../../src/store/verifyarchive.js';
import { HASH } from './samples.js';

import { beginWithFolders, JOB, path, put, root, taken, workshop } from './sealedjob.js';

beginWithFolders();

describe('what is taken', () => {
  it('is what the records rest on, and nothing else', () => {
    const { key } = workshop();
    put(`logs/${JOB}/P01-1.jsonl.torn-1`, '{"at"');
    for (const name of ['list.txt', 'P01-1.lock', 'x.tmp', 'x.gone']) put(`logs/${JOB}/${name}`, 'x');
    put(`logs/${JOB}/evidence/nobodys`, 'x');
    put('logs/README.md', 'the manual');
    const names = [...taken().keys()].map((name) => name.replace(/[0-9a-f]{64}/, '<hash>')).sort();
    expect(names).toEqual([
      'logs/README.md',
      `logs/${JOB}/P01-1.jsonl`,
      `logs/${JOB}/P01-1.jsonl.torn-1`,
      `logs/${JOB}/P02-1.jsonl`,
      `logs/${JOB}/evidence/<hash>.jpg`,
      `logs/${JOB}/job.seal.json`,
      'logs/sources/<hash>',
      'logs/sources/<hash>',
      `shared/keys/${key}.pem`,
    ]);
  });

  it('is without a public key that is not there: verify says so of both', () => {
    const { key } = workshop();
    rmSync(path(`shared/keys/${key}.pem`));
    expect([...taken().keys()].filter((name) => name.startsWith('shared'))).toEqual([]);
    expect(verifyTree(realDisk, root).faults.map(({ id }) => id)).toContain('verify.unknown-key');
  });

  it.each<[string, () => void, string]>([
    ['of a job that there is not', () => rmSync(path(`logs/${JOB}`), { recursive: true }), 'archive.no-job'],
    ['with a damaged journal', () => put(`logs/${JOB}/P01-1.jsonl`, 'x\n'), 'journal.damaged'],
    [
      'with a source that is no file',
      () => {
        const name = `logs/sources/${pinSources(realDisk, root, { job: 'own\n' }).job}`;
        rmSync(path(name));
        mkdirSync(path(name));
      },
      'archive.wanting',
    ],
    [
      'larger than an archive can be',
      () => {
        put(`logs/${JOB}/P01-1.jsonl.torn-1`, '');
        // A length without content: no disk needs the room for it.
        truncateSync(path(`logs/${JOB}/P01-1.jsonl.torn-1`), LARGEST_ARCHIVE + 1);
      },
      'archive.too-large',
    ],
  ])('%s is nothing', (_, make, id) => {
    workshop();
    make();
    expect(jobFiles(realDisk, root, JOB)).toMatchObject({ ok: false, problems: [{ id }] });
  });
});

describe('an archive', () => {
  const some: Files = new Map([['logs/x', Buffer.from('one')]]);
  const says = (bytes: Uint8Array): string => {
    const read = unpackFiles(bytes);
    return read.ok ? 'whole' : read.problems.map(({ id, text }) => `${id}: ${text}`).join();
  };
  /** The archive with a name in it replaced by another of the same length. */
  const renamed = (bytes: Uint8Array, from: string, to: string): Uint8Array =>
    Buffer.from(Buffer.from(bytes).toString('latin1').replaceAll(from, to), 'latin1');

  it('gives back what was packed', () => {
    const read = unpackFiles(packFiles(JOB, some));
    expect(read.ok && read.value.job).toBe(JOB);
    expect(read.ok && [...read.value.files.keys()]).toEqual(['logs/x', MANIFEST]);
  });

  it('is the same bytes whatever the order of its files', () => {
    const names = ['logs/b', 'logs/a', 'shared/c', 'a'];
    const packed = (each: readonly string[]) =>
      Buffer.from(packFiles(JOB, new Map(each.map((name) => [name, Buffer.from(name)]))));
    expect(packed(names).equals(packed(names.toSorted()))).toBe(true);
    expect(packed(names).equals(packed(names.toReversed()))).toBe(true);
  });

  it('may hold the names of folders, which are no files', () => {
    const manifest = Buffer.from('');
    expect(
      says(zipSync({ 'j/': new Uint8Array(), 'j/logs/': new Uint8Array(), [`j/${MANIFEST}`]: manifest })),
    ).toBe('whole');
  });

  it.each<[string, () => Uint8Array, string]>([
    ['of nothing', () => zipSync({}), 'It is no archive of one job.'],
    ['of a file beside the job', () => zipSync({ x: new Uint8Array() }), 'It is no archive of one job.'],
    [
      'with a file twice',
      () => renamed(zipSync({ 'j/one': new Uint8Array(), 'j/two': new Uint8Array() }), 'j/two', 'j/one'),
      '"j/one" is in it twice.',
    ],
    [
      'with a name that leads out, and then one twice',
      () =>
        renamed(
          zipSync({ '../x': new Uint8Array(), 'j/x': new Uint8Array(), 'j/y': new Uint8Array() }),
          'j/y',
          'j/x',
        ),
      '"../x" leads out of the archive.',
    ],
    [
      'with a manifest that is none',
      () => zipSync({ [`j/${MANIFEST}`]: Buffer.from('x\n') }),
      `${MANIFEST} cannot be read.`,
    ],
    ['without a manifest', () => zipSync({ 'j/x': new Uint8Array() }), `It has no ${MANIFEST}.`],
    [
      'that lacks a file of its manifest',
      () => zipSync({ [`j/${MANIFEST}`]: Buffer.from(`${HASH}  x\n`) }),
      `x is in ${MANIFEST}, but not there.`,
    ],
    [
      'with a file of another content than its manifest says',
      () => zipSync({ 'j/x': new Uint8Array(), [`j/${MANIFEST}`]: Buffer.from(`${HASH}  x\n`) }),
      `x is not what ${MANIFEST} says.`,
    ],
    [
      'with a file that its manifest does not have',
      () => zipSync({ 'j/x': new Uint8Array(), [`j/${MANIFEST}`]: new Uint8Array() }),
      `x is not in ${MANIFEST}.`,
    ],
    [
      'that would fill the memory',
      () => zipSync({ [`j/${MANIFEST}`]: new Uint8Array(20_000_000) }),
      'It holds more than an archive of a job can.',
    ],
    ['cut short', () => packFiles(JOB, some).subarray(0, 100), 'It is no whole ZIP file.'],
  ])('%s is refused', (_, make, text) => {
    expect(says(make())).toBe(`archive.damaged: ${text}`);
  });
});

describe('an archive that is verified', () => {
  it('holds, and says of which key only the archive knows', () => {
    const { key } = workshop();
    const packed = packFiles(JOB, taken());
    expect(verifyArchive(packed, 'a.zip', new Set([key]))).toMatchObject({
      ...{ holds: true, job: JOB, faults: [], notes: [], journals: 2, seals: 3 },
    });
    expect(verifyArchive(packed, 'a.zip', new Set())).toMatchObject({
      holds: true,
      notes: [{ id: 'verify.key-brought', place: { file: 'a.zip' }, text: expect.stringContaining(key) }],
    });
  });

  it('names the file inside, and its line, of what does not hold', () => {
    workshop();
    const name = `logs/${JOB}/P01-1.jsonl`;
    const files = new Map(taken());
    files.set(name, Buffer.from(Buffer.from(files.get(name)!).toString('utf8').replace('1220.5', '1220.0')));
    expect(verifyArchive(packFiles(JOB, files), 'a.zip', new Set()).faults).toContainEqual(
      expect.objectContaining({
        id: 'verify.changed-line',
        place: { file: `a.zip:${JOB}/${name}`, line: 2 },
      }),
    );
    expect(verifyArchive(Buffer.from('x'), 'a.zip', new Set())).toMatchObject({
      ...{ holds: false, job: '', faults: [{ id: 'verify.archive', place: { file: 'a.zip' } }] },
    });
  });
});

it('a symbolic link is not packed as what it leads to', () => {
  workshop();
  const name = `logs/${JOB}/P01-1.jsonl.torn-1`;
  symlinkSync('/etc/hostname', path(name));
  expect(jobFiles(realDisk, root, JOB)).toMatchObject({
    ok: false,
    problems: [{ id: 'archive.wanting', place: { file: name } }],
  });
  expect(existsSync(path(name))).toBe(true);
  expect(readEvents(realDisk, root, JOB, 'P01-1').ok).toBe(true);
});

it('evidence is known by its hash with or without an ending, once', () => {
  workshop();
  const named = [...taken()].find(([name]) => name.includes('/evidence/'))!;
  const plain = named[0].replace(/\.jpg$/, '');
  const packed = (change: (files: Files) => void) => {
    const files = new Map(taken());
    change(files);
    const { faults, notes } = verifyArchive(packFiles(JOB, files), 'a.zip', new Set());
    return [...faults, ...notes].map(({ id }) => id).filter((id) => id.includes('evidence'));
  };
  expect(named[0]).not.toBe(plain);
  expect(packed(() => undefined)).toEqual([]);
  // As archives of earlier versions name it.
  expect(packed((files) => files.delete(named[0]) && files.set(plain, named[1]))).toEqual([]);
  expect(packed((files) => files.set(plain, named[1]))).toEqual(['verify.evidence-unknown']);
  expect(packed((files) => files.set(named[0], Buffer.from('another picture')))).toEqual([
    'verify.evidence-changed',
  ]);
});
