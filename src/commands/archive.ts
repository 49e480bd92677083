/** `archive`: packs a job and all its records rest on into one file, and removes it from the workshop if asked. */
import { existsSync } from 'node:fs';
import { resolve } from 'node:path';
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { type Files, jobFiles, LARGEST_ARCHIVE, packFiles, removeJob } from '../store/archive.js';
import { realDisk } from '../store/disk.js';
import { hashBytes } from '../store/files.js';
import { listJournals } from '../store/journals.js';
import { publicKeys } from '../store/key.js';
import { STORE_MESSAGES } from '../store/messages.js';
import { enter, reachedNow } from '../store/register/enter.js';
import { verifyArchive } from '../store/verifyarchive.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import {
  byTheClock,
  type Drawable,
  drawn,
  type Made,
  madeNow,
  ofUnit,
  ofUnits,
  writeDocument,
} from './documents.js';
import { HELP } from './help.js';
import { EXIT, exitOf, fail, type Io, readOptions, saying } from './io.js';
import { type LoadedUnit, loadUnit } from './unitload.js';
import { KEY_SAYS } from './words/keys.js';

const raise = problemFactory(STORE_MESSAGES);

export async function run(args: string[], io: Io): Promise<number> {
  const options = { out: { type: 'string' }, remove: { type: 'boolean' } } as const;
  const read = readOptions(args, io, HELP.archive, options, { least: 1 });
  if (typeof read === 'number') return read;
  const job = read.positionals[0]!;
  const out = resolve(read.values.out ?? `${job}.zip`);
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return said(io, workshop.problems);
  const files = jobFiles(realDisk, io.workshop, job);
  if (!files.ok) return said(io, files.problems);
  const units = await documented(workshop.value, job, files.value);
  if (!units.ok) return said(io, units.problems);
  if (read.values.remove && units.value.open.length > 0)
    return said(io, [raise('archive.not-removed', { open: units.value.open.join(', ') })]);
  if (existsSync(out)) return said(io, [raise('archive.there', { out }, { file: out })]);

  const wrote = writeDocument(realDisk, io.workshop, out, packFiles(job, files.value));
  if (!wrote.ok) return said(io, wrote.problems);
  // Verify what is on disk, not what was meant to be written.
  const trusted = new Set(publicKeys(realDisk, io.workshop).keys.keys());
  const stat = realDisk.stat(out);
  const bytes = stat && stat.size <= LARGEST_ARCHIVE ? realDisk.read(out) : new Uint8Array();
  const report = verifyArchive(bytes, out, trusted);
  if (!report.holds) return said(io, report.faults);
  const say = saying(io, KEY_SAYS);
  io.out(
    say('archive-made', {
      file: sanitize(out),
      journals: report.journals,
      events: report.events,
      files: report.files.size,
    }),
  );
  if (!read.values.remove) return EXIT.done;
  const entered = enterRemoval(io, workshop.value, job, bytes, report.files);
  if (!entered.ok) return said(io, entered.problems);
  const removed = removeJob(realDisk, io.workshop, job, report.files);
  if (!removed.ok) return said(io, removed.problems);
  io.out(say('archive-removed', { n: removed.value, job: sanitize(job) }));
  if (workshop.value.jobs.names.includes(job)) io.out(say('archive-then'));
  return EXIT.done;
}

/** That the job's journals and seals are archived stands in the register before they go. */
function enterRemoval(
  io: Io,
  workshop: Workshop,
  job: string,
  archive: Uint8Array,
  files: Files,
): Result<unknown> {
  const bench = process.env.PINCHROD_BENCH ?? workshop.bench;
  const gone = [...files.keys()].filter(
    (name) => name.startsWith(`logs/${job}/`) && /\.(jsonl|json)$/.test(name),
  );
  return enter(realDisk, io.workshop, { by: 'nobody', at: new Date().toISOString(), bench }, [
    { kind: 'removed', files: gone, archive: hashBytes(archive), seen: reachedNow(realDisk, io.workshop) },
  ]);
}

/** Adds the records of the units and of the job to the files in every readable format; returns the units still open. */
async function documented(
  workshop: Workshop,
  job: string,
  files: Files,
): Promise<Result<{ readonly open: string[] }>> {
  const made = madeNow(workshop, false);
  const units: LoadedUnit[] = [];
  const problems: Problem[] = [];
  for (const name of listJournals(realDisk, workshop.root).filter((each) => each.job === job)) {
    const unit = loadUnit(realDisk, workshop, name, made.at);
    if (unit.ok) units.push(unit.value);
    else problems.push(...unit.problems);
  }
  if (problems.length > 0) return err(...problems);
  const put = async (name: string, of: readonly LoadedUnit[], draw: (made: Made) => Drawable) => {
    for (const [ending, format] of DOCUMENTS) {
      const drawable = draw(byTheClock(workshop, of, made, format));
      files.set(`documents/${name}.${ending}`, Buffer.from(await drawn(format, drawable)));
    }
  };
  for (const unit of units) await put(unit.unit, [unit], (by) => ofUnit(workshop, unit, by, 'unit'));
  const begun = new Set(units.map(({ unit }) => unit));
  const notBegun = (unitsOfJob(workshop, job) ?? []).filter((unit) => !begun.has(unit));
  await put(`job/${job}`, units, (by) => ofUnits(workshop, units, by, { asked: { job }, notBegun }));
  const open = units.filter(({ state }) => !state.finished && !state.scrapped).map(({ unit }) => unit);
  return ok({ open: [...open, ...notBegun] });
}

const DOCUMENTS = [
  ['txt', 'text'],
  ['html', 'html'],
  ['json', 'json'],
  ['csv', 'csv'],
  ['pdf', 'pdf'],
] as const;

/** In the job's order; undefined if the job file is missing or unreadable: what was built is in the journals. */
function unitsOfJob(workshop: Workshop, job: string): string[] | undefined {
  const read = workshop.jobs.names.includes(job) ? workshop.jobs.get(job) : undefined;
  return read?.ok ? read.value.value.units.map(({ id }) => id) : undefined;
}

function said(io: Io, problems: readonly Problem[]): number {
  return fail(
    io,
    problems,
    problems.some(({ id }) => /^archive\.(wanting|not-removed)$/.test(id))
      ? EXIT.doesNotHold
      : exitOf(problems),
  );
}
