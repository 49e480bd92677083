/** A job that is finished, signed and sealed, beside another that shares a source with it: for archives and removals. */
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest';
import { type Files, jobFiles } from '../../src/store/archive.js';
import { realDisk } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { makeJobSeal, writeJobSeal } from '../../src/store/jobseal.js';
import { Journal } from '../../src/store/journal.js';
import { benchKey, newBenchKey } from '../../src/store/key.js';
import { sealOn } from '../../src/unit/sealing.js';
import { keepEvidence } from './keepevidence.js';
import { measured, opened, stamp } from './samples.js';

export const JOB = 'pier-house';
let model: string;
/** The workshop of the test at hand. */
export let root: string;
let known: ReturnType<typeof makeModel>;
/** Gives every test of a file a folder of its own. */
export function beginWithFolders(): void {
  beforeAll(() => {
    root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
    model = root;
    known = makeModel();
  });
  beforeEach(() => {
    root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
  });
  afterEach(() => rmSync(root, { recursive: true, force: true }));
  afterAll(() => rmSync(model, { recursive: true, force: true }));
}
export const path = (name: string) => join(root, name);
export const put = (name: string, text: string | Buffer): void => writeFileSync(path(name), text);

function begin(job: string, unit: string, texts: Record<string, string>): Journal {
  const made = Journal.open(realDisk, root, job, unit);
  if (!made.ok) throw new Error(made.problems[0]!.text);
  const sources = pinSources(realDisk, root, texts);
  made.value.append([opened(unit, job, sources), measured(1220.5)], stamp());
  return made.value;
}

/** Two units with evidence, signed and under the job's seal; another job shares one source with them. */
function makeModel(): { readonly key: string; readonly shared: string } {
  put('photo.jpg', 'x');
  const kept = keepEvidence(realDisk, root, JOB, path('photo.jpg'));
  const key = newBenchKey(realDisk, root, 'bench-1');
  const own = benchKey(realDisk, root, 'bench-1');
  if (!kept.ok || !key.ok || !own.ok || !own.value) throw new Error('cannot be made');
  const signer = own.value;
  const units = ['P01-1', 'P02-1'].map((unit) => {
    const journal = begin(JOB, unit, { limits: 'shared\n', job: 'own\n' });
    journal.append([{ kind: 'released', step: 's', hold: 'h', pin: true, evidence: [kept.value] }], stamp(1));
    journal.append([{ kind: 'finished', steps: 1, checks: 1 }], stamp(2), (last) => sealOn(last, signer));
    journal.close();
    return { unit, lines: journal.events.length, hash: journal.events.at(-1)!.hash };
  });
  writeJobSeal(realDisk, root, makeJobSeal(JOB, units, { ...stamp(3), signer }));
  begin('quay-end', 'Q1-1', { limits: 'shared\n' }).close();
  const shared = pinSources(realDisk, root, { limits: 'shared\n' }).limits!;
  return { key: key.value.id, shared };
}

/** Puts the sealed job there, with the other one beside it. */
export function workshop(): typeof known {
  cpSync(model, root, { recursive: true });
  return known;
}

/** What an archive of the job holds. */
export const taken = (): Files => {
  const files = jobFiles(realDisk, root, JOB);
  if (!files.ok) throw new Error(JSON.stringify(files.problems));
  return files.value;
};
