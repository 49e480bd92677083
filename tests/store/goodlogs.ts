/** Logs in which all holds, and what is done to them: lines put, forged, signed and sealed. */

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { pinSources } from '../../src/store/hashed.js';
import { makeJobSeal, writeJobSeal } from '../../src/store/jobseal.js';
import { Journal } from '../../src/store/journal.js';
import { benchKey, newBenchKey } from '../../src/store/key.js';
import { chainEvent, chainHash, chainLine, FIRST_PREV } from '../../src/unit/chain.js';
import type { EventBody } from '../../src/unit/events.js';
import { sealOn } from '../../src/unit/sealing.js';
import { newPicture } from '../picture.js';
import { keepEvidence } from './keepevidence.js';
import { noted, opened, stamp } from './samples.js';

let model: string;
/** The workshop of the test at hand, a copy of the good one. */
export let root: string;
/** Hashes of the evidence file and of the source that both journals name. */
export let evidence: string;
export let source: string;
export const P01 = () => join(root, 'logs/pier-house/P01-1.jsonl');
export const lines = (): string[] => readFileSync(P01(), 'utf8').trimEnd().split('\n');
export const putLines = (all: readonly string[]): void => writeFileSync(P01(), `${all.join('\n')}\n`);
/** A line that is whole in the chain, of any content. */
export const whole = (body: object, n: number, prev: string): string =>
  chainLine(chainEvent(body as EventBody, stamp(n), { n: n - 1, hash: prev }));

/** Gives every test of a file a workshop with two journals of six lines, evidence and a source, in which all holds. */
export function beginWithGoodLogs(): void {
  beforeAll(() => {
    model = mkdtempSync(join(tmpdir(), 'pinchrod-'));
    const sources = pinSources(realDisk, model, { limits: 'format: x\n' });
    source = sources.limits!;
    newPicture(join(model, 'photo.jpg'));
    const kept = keepEvidence(realDisk, model, 'pier-house', join(model, 'photo.jpg'));
    if (!kept.ok) throw new Error(JSON.stringify(kept.problems));
    evidence = kept.value.sha256;
    for (const unit of ['P01-1', 'P02-1']) {
      const made = Journal.open(realDisk, model, 'pier-house', unit);
      if (!made.ok) throw new Error('cannot open');
      made.value.append([opened(unit, 'pier-house', sources)], stamp());
      made.value.append(
        [{ kind: 'released', step: 's', hold: 'h', pin: true, evidence: [kept.value] }],
        stamp(1),
      );
      for (let i = 2; i < 6; i++) made.value.append([noted(`line ${i}`)], stamp(i));
      made.value.close();
    }
    rmSync(join(model, 'photo.jpg'));
  });
  beforeEach(() => {
    if (root) rmSync(root, { recursive: true, force: true });
    root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
    cpSync(model, root, { recursive: true });
  });
  afterAll(() => {
    for (const each of [model, root]) rmSync(each, { recursive: true, force: true });
  });
}

/** Gives the bench a key and closes P01-1 with a seal: line 7 finished, line 8 sealed. */
export function signed(): string {
  const made = newBenchKey(realDisk, root, 'bench-1');
  if (!made.ok) throw new Error('no key');
  const key = benchKey(realDisk, root, 'bench-1');
  const journal = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  if (!key.ok || !key.value || !journal.ok) throw new Error('cannot sign');
  const signer = key.value;
  journal.value.append([{ kind: 'finished', steps: 1, checks: 1 }], stamp(6), (last) => sealOn(last, signer));
  journal.value.close();
  return made.value.id;
}

/** Writes every line from `line` on anew, with `change` done to that one, so that the chain holds again. */
export function forge(line: number, change: (event: Record<string, unknown>) => void): void {
  let prev = line === 1 ? FIRST_PREV : (JSON.parse(lines()[line - 2]!) as { hash: string }).hash;
  putLines(
    lines().map((text, i) => {
      if (i < line - 1) return text;
      const event = { ...JSON.parse(text), prev };
      if (i === line - 1) change(event);
      // Whoever forges writes the seal's head anew as well: it is no secret.
      if (event.kind === 'sealed' && i !== line - 1) event.head = prev;
      event.hash = chainHash(event);
      prev = event.hash;
      return chainLine(event);
    }),
  );
}

export const jobSeal = (): string => join(root, 'logs/pier-house/job.seal.json');
/** Seals both units of the job as they are. */
export function sealedJob(): void {
  signed();
  const key = benchKey(realDisk, root, 'bench-1');
  const units = ['P01-1', 'P02-1'].map((unit) => {
    const all = readFileSync(join(root, `logs/pier-house/${unit}.jsonl`), 'utf8')
      .trimEnd()
      .split('\n');
    return { unit, lines: all.length, hash: (JSON.parse(all.at(-1)!) as { hash: string }).hash };
  });
  const signer = key.ok ? key.value : undefined;
  writeJobSeal(realDisk, root, makeJobSeal('pier-house', units, { ...stamp(9), signer }));
}
