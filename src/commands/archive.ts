/** `archive`: a job with all its records rest on, in one file; and, if asked, out of the workshop. */
import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { plain } from '../ground/plain.js';
import { bad, good, type Problem, problemText, type Result, raiser } from '../ground/problem.js';
import { htmlOf } from '../record/html.js';
import { recordJson } from '../record/json.js';
import { textOf } from '../record/text.js';
import { unitDocument } from '../record/unitblocks.js';
import { recordView } from '../record/view.js';
import { type Files, jobFiles, LARGEST_ARCHIVE, packFiles } from '../store/archive.js';
import { realDisk } from '../store/disk.js';
import { listJournals } from '../store/journals.js';
import { publicKeys } from '../store/key.js';
import { STORE_MESSAGES } from '../store/messages.js';
import { removeJob } from '../store/removejob.js';
import { verifyArchive } from '../store/verifyarchive.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import { EXIT, type Io } from './io.js';
import { readOptions } from './options.js';
import { writeDocument } from './outfile.js';
import { recordContextOf } from './recordcontext.js';
import { exitOf, loadUnit } from './unitload.js';

const raise = raiser(STORE_MESSAGES);

const HELP = `pinchrod archive JOB [--out FILE] [--remove]

Packs a job into one ZIP file: journals, seals, evidence, what the units were built from, public keys, the manual of the
format, each unit's record as text, HTML and JSON, and MANIFEST, a list of hashes (unpack, then: sha256sum -c MANIFEST). The
file is read back and verified. Without --out it is JOB.zip in the folder where you are. Nothing is removed from the
workshop unless --remove is given; then only a job of which every unit is closed, after the archive has been verified.

Example: pinchrod archive pier-house --out pier-house-2026.zip
Exit codes: 0 archived and verified, 1 something does not hold, 2 used wrongly, 3 the disk failed.`;

export async function run(args: string[], io: Io): Promise<number> {
  const options = { out: { type: 'string' }, remove: { type: 'boolean' } } as const;
  const read = readOptions(args, io, HELP, options, { least: 1 });
  if (typeof read === 'number') return read;
  const job = read.positionals[0]!;
  const out = resolve(read.values.out ?? `${job}.zip`);
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return said(io, workshop.problems);
  const files = jobFiles(realDisk, io.workshop, job);
  if (!files.ok) return said(io, files.problems);
  const units = documented(workshop.value, job, files.value);
  if (!units.ok) return said(io, units.problems);
  if (read.values.remove && units.value.open.length > 0)
    return said(io, [raise('archive.not-removed', `Not closed: ${units.value.open.join(', ')}.`)]);
  if (existsSync(out)) return said(io, [raise('archive.there', `${out} is there.`, { file: out })]);

  const wrote = writeDocument(realDisk, io.workshop, out, packFiles(job, files.value));
  if (!wrote.ok) return said(io, wrote.problems);
  // What is on disk is verified, not what was meant to be written.
  const trusted = new Set(publicKeys(realDisk, io.workshop).keys.keys());
  const stat = realDisk.stat(out);
  const bytes = stat && stat.size <= LARGEST_ARCHIVE ? realDisk.read(out) : new Uint8Array();
  const report = verifyArchive(bytes, out, trusted);
  if (!report.holds) return said(io, report.faults);
  io.out(
    `${plain(out)}: ${report.journals} journals, ${report.events} events, ${report.files.size} files, verified.`,
  );
  if (!read.values.remove) return EXIT.done;
  const removed = removeJob(realDisk, io.workshop, job, report.files);
  if (!removed.ok) return said(io, removed.problems);
  io.out(`${removed.value} files of ${plain(job)} removed from logs/.`);
  if (workshop.value.jobs.names.includes(job))
    io.out(`Remove the job's own file from shared/jobs as well, or its units show as not begun.`);
  return EXIT.done;
}

/** Adds each unit's record to the files; says which units are still open. */
function documented(workshop: Workshop, job: string, files: Files): Result<{ readonly open: string[] }> {
  const at = new Date().toISOString();
  const open: string[] = [];
  const problems: Problem[] = [];
  for (const name of listJournals(realDisk, workshop.root).filter((each) => each.job === job)) {
    const unit = loadUnit(realDisk, workshop, name, at);
    if (!unit.ok) {
      problems.push(...unit.problems);
      continue;
    }
    const { state, plan } = unit.value;
    if (!state.finished && !state.scrapped) open.push(name.unit);
    const context = recordContextOf(workshop, unit.value, { at, initials: false });
    const view = recordView(state, plan.setOut, context);
    const document = unitDocument(view);
    const put = (ending: string, text: string) =>
      files.set(join('documents', `${name.unit}.${ending}`).replaceAll('\\', '/'), Buffer.from(text));
    put('txt', textOf(document));
    put('html', htmlOf(document));
    put('json', recordJson(view));
  }
  return problems.length > 0 ? bad(...problems) : good({ open });
}

function said(io: Io, problems: readonly Problem[]): number {
  for (const problem of problems) io.err(problemText(problem));
  return problems.some(({ id }) => /^archive\.(wanting|not-removed)$/.test(id))
    ? EXIT.doesNotHold
    : exitOf(problems);
}
