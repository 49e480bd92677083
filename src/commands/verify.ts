/** `verify [JOB] [UNIT]`: checks that journals are whole and unaltered. Read-only. */
import { resolve } from 'node:path';
import { type Problem, problemFactory, problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data, Several, type Spoken } from '../base/words.js';
import { readCard } from '../store/card.js';
import { realDisk } from '../store/disk.js';
import { publicKeys } from '../store/key.js';
import { readRegisters } from '../store/register/registers.js';
import { helpVerify, type VerifyReport, type VerifyRequest, verifyInThreads } from '../store/verify.js';
import { VERIFY_NOTES } from '../store/verifymessages.js';
import { COMMAND_MESSAGES } from './catalogue.js';
import { asJson, EXIT, fail, type Io, indented, parseOptions, saying, tellOf } from './io.js';
import { byTheWall } from './wall.js';
import { VERIFY_SAYS } from './words/verify.js';

const raise = problemFactory(COMMAND_MESSAGES);

/** Worker script of the bundled program. When run from source it does not exist, and no worker starts. */
const MAIN = new URL('./main.js', import.meta.url);

export async function run(args: string[], io: Io): Promise<number> {
  if (helpVerify()) return EXIT.done;
  const read = parseOptions(args, {
    json: { type: 'boolean' },
    trust: { type: 'string', multiple: true },
    shop: { type: 'boolean' },
  });
  if (typeof read === 'string')
    return fail(io, [raise('verify.usage/option', { fault: read })], EXIT.badInput);
  const { values, positionals } = read;
  if (positionals.length > 2) return fail(io, [raise('verify.usage')], EXIT.badInput);
  const trust = values.trust?.map((each) => each.replace(/[\s:]/g, '').toLowerCase());
  const wrong = trust?.findIndex((each) => !/^[0-9a-f]{64}$/.test(each)) ?? -1;
  if (wrong >= 0)
    return fail(io, [raise('verify.usage/trust', { given: values.trust![wrong]! })], EXIT.badInput);
  const file = positionals.length === 1 ? handedIn(positionals[0]!) : undefined;
  if (file !== undefined) return verifyFile(file, { json: values.json === true, trust }, io);
  const card = readCard(realDisk, io.workshop);
  if (!card.ok) return fail(io, card.problems);
  const wrongThere = values.shop ? await (await import('./verifyshop.js')).verifyShop(io) : 0;
  if (wrongThere > 1) return wrongThere;
  if (!values.shop && card.value) await (await import('./shopfirst.js')).shopFirst(io);
  const result = await firstFound(io.workshop, positionals, trust);
  if (!result)
    return fail(io, [raise('verify.usage/no-journal', { names: positionals.join(' ') })], EXIT.badInput);
  if (values.json) io.out(asJson(result, 2));
  else await show(result, io);
  if (result.faults.some(({ id }) => id === 'verify.unreadable')) return EXIT.resource;
  return result.holds && wrongThere === 0 ? EXIT.done : EXIT.doesNotHold;
}

/** Fingerprints of the only keys that count; all where undefined. */
type Trust = readonly string[] | undefined;

/** The first interpretation of the words that finds anything. */
async function firstFound(
  root: string,
  words: readonly string[],
  trust: Trust,
): Promise<VerifyReport | undefined> {
  for (const request of requests(words)) {
    const report = await verifyInThreads(root, trust ? { ...request, trust } : request, {
      script: MAIN,
      words: ['verify'],
    });
    if (words.length === 0 || report.journals > 0 || report.faults.length > 0) return report;
  }
  return undefined;
}

const LARGEST_FILE = 1_500_000_000;
/** The record of a job with hundreds of units takes a few megabytes. */
const LARGEST_DOCUMENT = 50_000_000;

function handedIn(word: string): string | undefined {
  const file = resolve(word);
  // A unit's name has no ending and no folder.
  return /[./\\]/.test(word) && realDisk.stat(file)?.kind === 'file' ? file : undefined;
}

/** Loads the code for documents and archives only when needed. */
async function verifyFile(
  file: string,
  { json, trust }: { readonly json: boolean; readonly trust: Trust },
  io: Io,
): Promise<number> {
  const { size } = realDisk.stat(file)!;
  const most = /\.zip$/i.test(file) ? LARGEST_FILE : LARGEST_DOCUMENT;
  if (size > most)
    return fail(
      io,
      [raise('verify.usage/large', { file, size: String(size), most: String(most) })],
      EXIT.badInput,
    );
  const bytes = realDisk.read(file);
  if (/\.zip$/i.test(file)) {
    const { verifyArchive } = await import('../store/verifyarchive.js');
    const trusted = new Set(publicKeys(realDisk, io.workshop).keys.keys());
    const { files, ...report } = verifyArchive(bytes, file, trusted, trust);
    if (json) io.out(asJson({ ...report, files: files.size }, 2));
    else await show(report, io);
    return report.holds ? EXIT.done : EXIT.doesNotHold;
  }
  const { openWorkshop } = await import('../store/workshop.js');
  const { countedFor } = await import('./unitload.js');
  const { verifyDocument } = await import('./verifydocument.js');
  const workshop = openWorkshop(io.workshop, realDisk, { back: true });
  if (!workshop.ok) return fail(io, workshop.problems);
  const registers = readRegisters(realDisk, io.workshop, countedFor(realDisk, workshop.value, trust));
  const checked = await verifyDocument(workshop.value, registers, bytes, file);
  if (!checked.ok) return fail(io, checked.problems);
  const { of } = checked.value;
  const say = saying(io, VERIFY_SAYS);
  const problems = [...registers.problems, ...checked.value.problems];
  const holds = problems.every(({ id }) => VERIFY_NOTES.has(id));
  if (json) io.out(asJson({ holds, of, problems }, 2));
  else {
    for (const problem of problems) {
      const told = problemTold(problem, tellOf(io));
      io.out(VERIFY_NOTES.has(problem.id) ? say('verify-note', { problem: told }) : told);
    }
    const unknown = problems.some(({ id }) => id === 'verify.document-unknown');
    const covered = of.length === 0 ? say('verify-no-record') : new Several(of);
    if (unknown) io.out(say('verify-not-checked', { file: sanitize(file) }));
    else io.out(say(holds ? 'verify-holds' : 'verify-differs', { file: sanitize(file), of: covered }));
  }
  return holds ? EXIT.done : EXIT.doesNotHold;
}

/** A single name may be a job or a unit; tries the job first. */
function requests([first, second]: readonly string[]): VerifyRequest[] {
  if (first === undefined) return [{}];
  return second === undefined ? [{ job: first }, { unit: first }] : [{ job: first, unit: second }];
}

/** Prints the same advice only once, below the last of the consecutive problems that share it. */
async function show(report: VerifyReport, io: Io): Promise<void> {
  const { faults, notes, journals, events, sources, evidence, seals, entries, firstKey } = report;
  const say = saying(io, VERIFY_SAYS);
  const lines: Spoken[] = notes.map((problem) =>
    say('verify-note', { problem: problemTold(problem, tellOf(io)) }),
  );
  for (const [i, problem] of faults.entries()) {
    const told = problemTold(problem, tellOf(io));
    lines.push(sameWayOut(problem, faults[i + 1]) ? data(told.split('\n')[0]!) : told);
  }
  const what = data(
    [
      say('verify-journals', { n: journals }),
      say('verify-events', { n: events }),
      say('verify-sources', { n: sources }),
      say('verify-files', { n: evidence }),
      ...(seals === 0 ? [] : [say('verify-seals', { n: seals })]),
      ...(entries === 0 ? [] : [say('verify-entries', { n: entries })]),
    ].join(', '),
  );
  lines.push(
    faults.length === 0 ? say('verify-whole', { what }) : say('verify-faults', { what, n: faults.length }),
  );
  if (firstKey !== undefined) lines.push(say('verify-first-key'), indented(data(firstKey)));
  for (const text of await byTheWall(io, lines)) io.out(text);
}

const sameWayOut = (problem: Problem, next: Problem | undefined): boolean => problem.todo === next?.todo;
