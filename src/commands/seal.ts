/** `seal`: signs finished units that are not yet signed, and seals a whole job. */
import { join } from 'node:path';
import { type Problem, problemFactory, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { shortCode } from '../record/codes.js';
import { realDisk, StoreError } from '../store/disk.js';
import { hashBytes } from '../store/files.js';
import { type JobSeal, makeJobSeal, writeJobSeal } from '../store/jobseal.js';
import type { BenchKey } from '../store/key.js';
import { STORE_MESSAGES } from '../store/messages.js';
import { enter } from '../store/register/enter.js';
import { signingKey } from '../store/register/signing.js';
import { lockUnit } from '../store/unitlock.js';
import { verifyTree } from '../store/verify.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import type { Stamp } from '../unit/chain.js';
import { sealOn, unsealedEnd } from '../unit/sealing.js';
import { HELP } from './help.js';
import { EXIT, exitOf, fail, type Io, readOptions, saying } from './io.js';
import { knownUnits, loadUnit, type UnitName } from './unitload.js';
import { KEY_SAYS } from './words/keys.js';

const raise = problemFactory(STORE_MESSAGES);

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.seal, {}, { least: 1 });
  if (typeof read === 'number') return read;
  const job = read.positionals[0]!;
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return said(io, workshop.problems);
  const bench = process.env.PINCHROD_BENCH ?? workshop.value.bench;
  const key = signingKey(realDisk, io.workshop, bench);
  if (!key.ok) return said(io, key.problems);

  const units = knownUnits(workshop.value, realDisk, job).units.filter((each) => each.job === job);
  if (units.length === 0) return said(io, [raise('seal.no-units', { job })]);
  const open = openUnits(workshop.value, units);
  if (open.length > 0) return said(io, open);
  // Nothing is signed over what does not hold: a new signature would make it look as if it did.
  const { faults } = verifyTree(realDisk, io.workshop, { job });
  if (faults.length > 0) return said(io, faults);
  const at = new Date().toISOString();
  const covered: JobSeal['units'][number][] = [];
  for (const name of units) {
    const signed = signUnit(io, name, key.value, { by: 'nobody', at, bench });
    if (!signed.ok) return said(io, signed.problems);
    covered.push(signed.value);
  }
  const seal = makeJobSeal(job, covered, { at, bench, signer: key.value });
  const wrote = writeJobSeal(realDisk, io.workshop, seal);
  if (!wrote.ok) return said(io, wrote.problems);
  const entered = register(io, job, covered, { by: 'nobody', at, bench });
  if (!entered.ok) return said(io, entered.problems);
  const say = saying(io, KEY_SAYS);
  const { file, there } = wrote.value;
  io.out(say(there ? 'seal-there' : 'seal-made', { file, n: covered.length, code: shortCode(seal.seal) }));
  io.out(
    key.value ? say('seal-signed', { key: key.value.id, bench: sanitize(bench) }) : say('seal-unsigned'),
  );
  return EXIT.done;
}

/** The seal as it is on disk now, and the journals that it covers. */
function register(io: Io, job: string, covered: JobSeal['units'], stamp: Stamp): Result<unknown> {
  const file = `logs/${job}/job.seal.json`;
  const heads = covered.map(({ unit, lines, hash }) => ({
    file: `logs/${job}/${unit}.jsonl`,
    events: lines,
    hash,
  }));
  const sha256 = hashBytes(realDisk.read(join(io.workshop, file)));
  const body = { kind: 'heads', on: 'sealed', heads, files: [{ file, sha256 }] } as const;
  return enter(realDisk, io.workshop, stamp, [{ ...body, heads: [...heads], files: [...body.files] }]);
}

function openUnits(workshop: Workshop, units: readonly UnitName[]): Problem[] {
  const now = new Date().toISOString();
  const problems: Problem[] = [];
  const open: string[] = [];
  for (const name of units) {
    const unit = loadUnit(realDisk, workshop, name, now);
    if (!unit.ok) problems.push(...unit.problems);
    else if (!unit.value.state.finished && !unit.value.state.scrapped) open.push(name.unit);
  }
  if (open.length > 0)
    problems.push(
      open.length > 20
        ? raise('seal.open-units/more', { open: open.slice(0, 20), more: open.length - 20 })
        : raise('seal.open-units', { open }),
    );
  return problems;
}

/** Locks the unit, so that nothing is added between reading and sealing; signs its end if that is missing. */
function signUnit(
  io: Io,
  { job, unit }: UnitName,
  key: BenchKey | undefined,
  stamp: { readonly by: string; readonly at: string; readonly bench: string },
): Result<JobSeal['units'][number]> {
  const claim = lockUnit(realDisk, io.workshop, job, unit, { bench: stamp.bench, who: '' });
  if (!claim.ok) return claim;
  const { journal, release } = claim.value;
  try {
    // Notes may follow the end: the signature covers the last line, and so these too.
    if (key && unsealedEnd(journal.events)) {
      journal.append([sealOn(journal.events.at(-1)!, key)], stamp);
      io.out(saying(io, KEY_SAYS)('seal-late', { unit: sanitize(unit) }));
    }
    const last = journal.events.at(-1)!;
    return { ok: true, value: { unit, lines: last.n, hash: last.hash }, warnings: [] };
  } catch (error) {
    if (error instanceof StoreError) return { ok: false, problems: [error.problem] };
    throw error;
  } finally {
    release();
  }
}

function said(io: Io, problems: readonly Problem[]): number {
  return fail(
    io,
    problems,
    problems.some(({ id }) => id === 'seal.open-units') ? EXIT.doesNotHold : exitOf(problems),
  );
}
