/** A workshop of many units, each begun, in ten jobs; and the index that a board of them leaves. */
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Index, saveIndex } from '../../src/session/index.js';
import { unitReader } from '../../src/session/plan.js';
import { realDisk } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { journalMarks } from '../../src/store/journals.js';
import { canonicalText, chainEvent } from '../../src/unit/chain.js';

export const JOBS = 10;

export function makeMany(root: string, folder: string, count: number): void {
  for (const part of ['procedures', 'shared'])
    cpSync(join(root, part), join(folder, part), { recursive: true });
  rmSync(join(folder, 'shared/jobs/pier-house.yaml'));
  const read = (file: string) => readFileSync(join(folder, file), 'utf8');
  const texts = {
    profileSet: read('shared/profile-sets/w52.yaml'),
    procedure: read('procedures/casement.yaml'),
    limits: read('shared/limits.yaml'),
  };
  const version = /^version: "?([^"\n]+)/m.exec(texts.procedure)?.[1] ?? '1';
  for (let n = 0; n < JOBS; n += 1) {
    const name = `job-${n}`;
    const marks = count / JOBS / 10;
    const job = jobText(root, name, marks);
    writeFileSync(join(folder, `shared/jobs/${name}.yaml`), job);
    const sources = pinSources(realDisk, folder, { ...texts, job });
    mkdirSync(join(folder, 'logs', name), { recursive: true });
    for (let mark = 0; mark < marks; mark += 1)
      for (let number = 1; number <= 10; number += 1)
        begin(folder, name, `W${mark}-${number}`, version, sources);
  }
}

/** Ten fixed windows of each mark. */
const jobText = (root: string, name: string, marks: number): string => {
  const head = readFileSync(join(root, 'shared/jobs/pier-house.yaml'), 'utf8').split(/^units:/m)[0]!;
  const units = Array.from(
    { length: marks },
    (_, mark) =>
      `  - {mark: W${mark}, quantity: 10, width: ${900 + (mark % 50)}, height: 1200, layout: {light: fixed}}\n`,
  );
  return `${head.replace(/^name: .*$/m, `name: ${name}`)}units:\n${units.join('')}`;
};

function begin(
  folder: string,
  job: string,
  unit: string,
  version: string,
  sources: Readonly<Record<string, string>>,
): void {
  const stamp = { at: '2026-03-02T07:00:00.000Z', by: 'jb', bench: 'bench-1' };
  const first = chainEvent(
    {
      kind: 'opened',
      unit,
      job,
      sources: { ...sources },
      procedure: { name: 'casement', version },
      profileSet: 'w52',
      program: 'bench',
    },
    stamp,
  );
  const note = chainEvent({ kind: 'noted', text: 'begun' }, stamp, first);
  writeFileSync(
    join(folder, 'logs', job, `${unit}.jsonl`),
    `${canonicalText(first)}\n${canonicalText(note)}\n`,
  );
}

export function fillIndex(folder: string): void {
  const { version } = JSON.parse(readFileSync(join(process.env.PINCHROD_ROOT!, 'package.json'), 'utf8'));
  const reader = unitReader(realDisk, folder);
  const now = new Date().toISOString();
  const index: Index = { jobs: new Map(), titles: new Map(), units: new Map() };
  const read = new Map<string, ReturnType<typeof reader>>();
  for (const { job, unit, mark } of journalMarks(realDisk, folder)) {
    const one = read.get(job) ?? reader(job, unit, now);
    read.set(job, one);
    if (!one.ok) throw new Error(one.problems[0]!.text);
    index.units.set(`${job}/${unit}`, { mark, ...one.value });
  }
  saveIndex(realDisk, folder, index, version);
}
