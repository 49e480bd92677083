/** Seals of units and of jobs, held against journals that were changed, forged or are gone. */
import { mkdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { LARGEST_SEAL, makeJobSeal, writeJobSeal } from '../../src/store/jobseal.js';
import { Journal } from '../../src/store/journal.js';
import { benchKey } from '../../src/store/key.js';
import { verifyTree } from '../../src/store/verify.js';
import { makeKeyPair, sealOn, sealOver, signerOf } from '../../src/unit/sealing.js';
import {
  beginWithGoodLogs,
  forge,
  jobSeal,
  lines,
  putLines,
  root,
  sealedJob,
  signed,
  whole,
} from './goodlogs.js';
import { noted, stamp } from './samples.js';

beginWithGoodLogs();

describe('seals', () => {
  it('hold where nothing was changed', () => {
    sealedJob();
    expect(verifyTree(realDisk, root)).toMatchObject({ holds: true, faults: [], notes: [], seals: 2 });
    expect(verifyTree(realDisk, root, { unit: 'P02-1' })).toMatchObject({ holds: true, notes: [], seals: 1 });
  });

  it('show that a line before them was written anew, whichever it was', () => {
    signed();
    const good = lines();
    for (let line = 1; line <= 7; line++) {
      putLines(good);
      forge(line, (event) => {
        event.at = '2026-03-02T08:00:00.000Z';
      });
      expect(
        verifyTree(realDisk, root).faults.map(({ id }) => id),
        `line ${line}`,
      ).toEqual(['verify.forged-chain']);
    }
  });

  it('do not hold with the seal of another unit, or by a key made for the purpose', () => {
    signed();
    const { signature } = JSON.parse(lines()[7]!) as { signature: string };
    forge(8, (event) => {
      event.signature = Buffer.from(signature, 'base64').fill(7, 10, 20).toString('base64');
    });
    expect(verifyTree(realDisk, root).faults).toMatchObject([{ id: 'verify.forged-chain' }]);
    const { id, privatePem } = makeKeyPair();
    forge(8, (event) => {
      event.key = id;
      event.signature = signerOf(privatePem)!.sign(event.head as string);
    });
    expect(verifyTree(realDisk, root).faults).toMatchObject([{ id: 'verify.unknown-key' }]);
    forge(8, (event) => {
      event.head = JSON.parse(lines()[4]!).hash;
    });
    expect(verifyTree(realDisk, root).faults).toMatchObject([
      { id: 'verify.bad-signature', text: expect.stringContaining('another line') },
    ]);
  });

  it.each<[string, (seal: ReturnType<typeof makeJobSeal>) => object]>([
    ['of another job', (seal) => ({ ...seal, job: 'quay-end' })],
    ['with a unit left out', (seal) => ({ ...seal, units: seal.units.slice(1) })],
    ['over other hashes', (seal) => ({ ...seal, seal: 'a'.repeat(64) })],
    ['that is nonsense', () => ({ format: 'x' })],
    [
      'of a unit that there is not',
      ({ units: [first, ...rest], ...seal }) => ({ ...seal, units: [{ ...first!, unit: 'P09-1' }, ...rest] }),
    ],
  ])('of a job %s is found', (_, change) => {
    sealedJob();
    writeFileSync(jobSeal(), JSON.stringify(change(JSON.parse(readFileSync(jobSeal(), 'utf8')))));
    expect(verifyTree(realDisk, root).faults.map(({ id }) => id)).toContain('verify.job-seal');
  });

  it.each([
    ['key', 'verify.unknown-key'],
    ['signature', 'verify.bad-signature'],
  ] as const)('of a job without its %s is half a signature, and none', (member, id) => {
    sealedJob();
    const { [member]: _, ...rest } = JSON.parse(readFileSync(jobSeal(), 'utf8')) as Record<string, unknown>;
    writeFileSync(jobSeal(), JSON.stringify(rest));
    expect(verifyTree(realDisk, root).faults.map((fault) => fault.id)).toEqual([id]);
  });

  it('of a job that is no file, or too large, is found and counts as none', () => {
    sealedJob();
    truncateSync(jobSeal(), LARGEST_SEAL + 1);
    expect(verifyTree(realDisk, root)).toMatchObject({
      faults: [{ id: 'verify.not-a-file', text: `The file has ${LARGEST_SEAL + 1} bytes.` }],
      seals: 1,
    });
    rmSync(jobSeal());
    mkdirSync(jobSeal());
    expect(verifyTree(realDisk, root)).toMatchObject({
      faults: [{ id: 'verify.not-a-file', text: 'This is no ordinary file.' }],
      seals: 1,
    });
  });

  it('that hold tell from where on a later one does not', () => {
    signed();
    const key = benchKey(realDisk, root, 'bench-1');
    const journal = Journal.open(realDisk, root, 'pier-house', 'P01-1');
    if (!key.ok || !key.value || !journal.ok) throw new Error('cannot sign');
    const signer = key.value;
    journal.value.append([noted('later')], stamp(7), (last) => sealOn(last, signer));
    journal.value.close();
    forge(9, (event) => {
      event.text = 'kinder';
    });
    expect(verifyTree(realDisk, root).faults).toMatchObject([
      {
        id: 'verify.forged-chain',
        text: expect.stringContaining('from some line after 8 on, where the last good seal stands'),
        place: { line: 10 },
      },
    ]);
  });

  it.each(['at', 'bench'] as const)('of a job is over %s, too', (member) => {
    sealedJob();
    const seal = JSON.parse(readFileSync(jobSeal(), 'utf8'));
    const other = { at: '2026-01-01T00:00:00.000Z', bench: 'bench-9' };
    writeFileSync(jobSeal(), JSON.stringify({ ...seal, [member]: other[member] }));
    expect(verifyTree(realDisk, root).faults.map(({ id }) => id)).toEqual(['verify.forged-chain']);
  });

  it('of a job that lost key and signature is told where the workshop has keys', () => {
    sealedJob();
    const { key: _k, signature: _s, ...rest } = JSON.parse(readFileSync(jobSeal(), 'utf8'));
    writeFileSync(jobSeal(), JSON.stringify(rest));
    expect(verifyTree(realDisk, root).notes.map(({ id }) => id)).toEqual(['verify.not-signed']);
  });

  it('of a job in format 1 is over the hashes alone, and holds', () => {
    sealedJob();
    const key = benchKey(realDisk, root, 'bench-1');
    const seal = JSON.parse(readFileSync(jobSeal(), 'utf8'));
    const signature = key.ok && key.value?.sign(seal.seal);
    writeFileSync(jobSeal(), JSON.stringify({ ...seal, format: 'pinchrod-job-seal 1', signature }));
    expect(verifyTree(realDisk, root)).toMatchObject({ holds: true, notes: [], seals: 2 });
  });

  it('of a job worked out anew without its unit is found by the signature', () => {
    sealedJob();
    const seal = JSON.parse(readFileSync(jobSeal(), 'utf8')) as ReturnType<typeof makeJobSeal>;
    const units = seal.units.slice(1);
    const over = sealOver(units.map(({ hash }) => hash));
    writeFileSync(jobSeal(), JSON.stringify({ ...seal, units, seal: over }));
    expect(verifyTree(realDisk, root).faults.map(({ id }) => id)).toEqual(['verify.forged-chain']);
  });

  it('made again stand beside the earlier ones, and all are checked', () => {
    sealedJob();
    const first = readFileSync(jobSeal(), 'utf8');
    putLines([...lines(), whole(noted('later'), 9, JSON.parse(lines()[7]!).hash)]);
    const seal = JSON.parse(first) as ReturnType<typeof makeJobSeal>;
    const later = seal.units.map((unit) =>
      unit.unit === 'P01-1' ? { ...unit, lines: 9, hash: JSON.parse(lines()[8]!).hash as string } : unit,
    );
    const again = () => writeJobSeal(realDisk, root, makeJobSeal('pier-house', later, stamp(10)));
    expect(again()).toMatchObject({ ok: true, value: { there: false } });
    expect(again()).toMatchObject({ ok: true, value: { there: true } });
    expect(readFileSync(join(root, 'logs/pier-house/job.seal.1.json'), 'utf8')).toBe(first);
    expect(verifyTree(realDisk, root)).toMatchObject({
      holds: true,
      notes: [
        { id: 'verify.grown' },
        { id: 'verify.not-signed', place: { file: 'logs/pier-house/job.seal.json' } },
      ],
      seals: 3,
    });
  });
});
