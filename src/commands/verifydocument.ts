/** A document handed in, held against the journals: made anew from them, does it say the same. */
import type { JournalEvent } from '../build/events.js';
import { answersTo, summaryOf } from '../build/summary.js';
import { bad, good, type Problem, type Result, raiser } from '../ground/problem.js';
import { factsHash } from '../record/proof.js';
import type { Proof } from '../record/proofread.js';
import type { Asked } from '../record/schema.js';
import { realDisk } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { listJournals } from '../store/journals.js';
import { VERIFY_MESSAGES } from '../store/verifymessages.js';
import type { Workshop } from '../store/workshop.js';
import { differenceOf } from './documentdiffers.js';
import { type HandedIn, readHandedIn } from './documentread.js';
import { type Drawable, drawn, ofUnit, ofUnits } from './documents.js';
import { programName } from './recordcontext.js';
import { type LoadedUnit, loadUnit } from './unitload.js';

const raise = raiser(VERIFY_MESSAGES);

export interface DocumentReport {
  /** "P02-1 of pier-house, 60 lines", for each unit that the document is of. */
  readonly of: readonly string[];
  readonly problems: readonly Problem[];
}
type Claim = Proof['of'][number];

/** @param file as problems name it. Not ok where a journal, or what a unit was built from, cannot be read. */
export async function verifyDocument(
  workshop: Workshop,
  bytes: Buffer,
  file: string,
): Promise<Result<DocumentReport>> {
  const given = readHandedIn(bytes);
  if (!given)
    return good({
      of: [],
      problems: [
        raise('verify.document-unknown', 'It is no record of units as this version writes it.', { file }),
      ],
    });
  if (!given.proof) return verifyCsv(workshop, given, file);
  const { proof } = given;
  const held = unitsOf(workshop, proof.of, proof.at, file);
  if (!held.ok) return held;
  const { of, problems, units } = held.value;
  if (proof.sheet === 'units') problems.push(...chosenProblems(workshop, proof, file));
  if (units.length === proof.of.length) {
    const made = { at: proof.at, initials: proof.initials, program: proof.program };
    const anew =
      proof.sheet === 'units'
        ? ofUnits(workshop, units, made, { asked: proof.asked ?? {}, notBegun: proof.notBegun ?? [] })
        : ofUnit(workshop, units[0]!, made, proof.sheet);
    const differs = differenceOf(given, bytes, await drawn(given.format, anew));
    if (differs !== undefined)
      problems.push(raise('verify.document-differs', `${differs}${drawnOtherwise(proof, anew)}`, { file }));
  }
  return good({ of, problems });
}

/** Another version may draw the same facts in other words; nobody can tell that from a changed page. */
const drawnOtherwise = (proof: Proof, { records: [first] }: Drawable): string =>
  proof.sheet === 'unit' && proof.program !== programName() && first && factsHash(first) === proof.facts
    ? ' It was made by another version of the program, and its facts hash fits: it may only be drawn otherwise.'
    : '';

interface Held extends DocumentReport {
  readonly problems: Problem[];
  /** Those whose seal is of their journal, as they stood then. */
  readonly units: readonly LoadedUnit[];
}

function unitsOf(workshop: Workshop, claims: readonly Claim[], at: string, file: string): Result<Held> {
  const of: string[] = [];
  const problems: Problem[] = [];
  const units: LoadedUnit[] = [];
  for (const claim of claims) {
    const { job, unit, lines } = claim;
    of.push(`${unit} of ${job}, ${lines} lines`);
    const events = readEvents(realDisk, workshop.root, job, unit);
    if (!events.ok) return events;
    const wrong = sealProblem(claim, events.value);
    if (wrong !== undefined) {
      problems.push(raise('verify.document-seal', wrong, { file }));
      continue;
    }
    const loaded = loadUnit(realDisk, workshop, claim, at, lines);
    if (!loaded.ok) return loaded;
    units.push(loaded.value);
    const more = events.value.length - lines;
    const known = events.value.slice(lines).filter((event) => event.at <= at).length;
    const before = known > 0 ? ` ${known} of them are from before it was made.` : '';
    if (more > 0)
      problems.push(
        raise('verify.grown', `The journal of ${unit} has ${more} more lines than the document.${before}`, {
          file,
        }),
      );
  }
  return good({ of, problems, units });
}

function sealProblem({ unit, lines, hash }: Claim, events: readonly JournalEvent[]): string | undefined {
  const seal = lines === 0 ? '' : events[lines - 1]?.hash;
  if (seal === hash) return undefined;
  return seal === undefined
    ? `It is of ${lines} lines; the journal of ${unit} has ${events.length}.`
    : `Its seal is not of line ${lines} of the journal of ${unit}.`;
}

/** Whether it is of all the units that answer to what was asked for, as far as they had come when it was made, and of no other. */
function chosenProblems(workshop: Workshop, { at, asked, of }: Proof, file: string): Problem[] {
  const shown = new Set(of.map(({ job, unit }) => `${job}/${unit}`));
  const differs = (text: string) => raise('verify.document-differs', text, { file });
  return listJournals(realDisk, workshop.root).flatMap(({ job, unit }) => {
    const there = shown.has(`${job}/${unit}`);
    const events = readEvents(realDisk, workshop.root, job, unit);
    if (!events.ok) return there ? [] : events.problems;
    const answers = wanted(
      asked ?? {},
      job,
      events.value.filter((event) => event.at <= at),
    );
    if (answers && !there)
      return [differs(`It leaves out ${unit} of ${job}, which answers to what was asked for.`)];
    return there && !answers
      ? [differs(`It shows ${unit} of ${job}, which does not answer to what was asked for.`)]
      : [];
  });
}

const wanted = (asked: Asked, job: string, events: readonly JournalEvent[]): boolean =>
  events.length > 0 && (asked.job === undefined || job === asked.job) && answersTo(summaryOf(events), asked);

/** A spreadsheet says of each row which unit it is of and what the last hash was; names may stand in it whole or as initials. */
async function verifyCsv(workshop: Workshop, given: HandedIn, file: string): Promise<Result<DocumentReport>> {
  const [head, ...rows] = given.data as string[][];
  const column = (name: string) => head!.indexOf(name);
  const claims = new Map<string, Claim>();
  for (const row of rows) {
    const [job, unit, hash] = [
      row[column('job')] ?? '',
      row[column('unit')] ?? '',
      row[column('seal')] ?? '',
    ];
    const name = `${job}/${unit}`;
    if (claims.has(name)) continue;
    const events = readEvents(realDisk, workshop.root, job, unit);
    if (!events.ok) return bad(...events.problems);
    const lines = hash === '' ? 0 : events.value.findIndex((event) => event.hash === hash) + 1;
    claims.set(name, {
      job,
      unit,
      hash,
      lines: hash !== '' && lines === 0 ? Number.MAX_SAFE_INTEGER : lines,
    });
  }
  const unknown = [...claims.values()].find(({ lines }) => lines === Number.MAX_SAFE_INTEGER);
  if (unknown)
    return good({
      of: [`${unknown.unit} of ${unknown.job}`],
      problems: [
        raise('verify.document-seal', `Its seal is of no line of the journal of ${unknown.unit}.`, { file }),
      ],
    });
  const at = new Date().toISOString();
  const held = unitsOf(workshop, [...claims.values()], at, file);
  if (!held.ok) return held;
  const { of, problems, units } = held.value;
  const differences: string[] = [];
  for (const initials of [false, true]) {
    const anew = String(await drawn('csv', ofUnits(workshop, units, { at, initials }, { asked: {} })));
    const differs = differenceOf(given, Buffer.alloc(0), anew);
    if (differs === undefined) return good({ of, problems });
    differences.push(differs);
  }
  problems.push(raise('verify.document-differs', differences[0]!, { file }));
  return good({ of, problems });
}
