/** A document handed in, held against the journal: made anew from it, does it say the same. */
import { good, type Problem, type Result, raiser } from '../ground/problem.js';
import { htmlOf } from '../record/html.js';
import { recordJson } from '../record/json.js';
import { factsHash, type Proof, proofSchema } from '../record/proof.js';
import { collectionSchema, type RecordView, recordSchema } from '../record/schema.js';
import { sealOver, shortCode } from '../record/seal.js';
import { unitDocument } from '../record/unitblocks.js';
import { recordView } from '../record/view.js';
import { realDisk } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { VERIFY_MESSAGES } from '../store/verifymessages.js';
import type { Workshop } from '../store/workshop.js';
import { recordContextOf } from './recordcontext.js';
import { loadUnit } from './unitload.js';

const raise = raiser(VERIFY_MESSAGES);

export interface DocumentReport {
  /** "P02-1 of pier-house, 60 lines", for each unit that the document is of. */
  readonly of: readonly string[];
  readonly problems: readonly Problem[];
}

/** @param file as problems name it. Not ok where a journal, or what a unit was built from, cannot be read. */
export function verifyDocument(workshop: Workshop, text: string, file: string): Result<DocumentReport> {
  const unknown = (why: string) =>
    good({ of: [], problems: [raise('verify.document-unknown', why, { file })] });
  if (!/^\s*\{/.test(text))
    return verifyHtml(workshop, text, file) ?? unknown('It is no HTML record of a unit.');
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return unknown('It is no whole JSON.');
  }
  const one = recordSchema.safeParse(data);
  if (one.success) return verifyJson(workshop, one.data, file);
  const many = collectionSchema.safeParse(data);
  if (!many.success) return unknown('It is no record in the format of this version.');
  const { seal, records } = many.data;
  const of: string[] = [];
  const problems: Problem[] = [];
  const over = sealOver(records.map((record) => record.seal.hash));
  if (seal.hash !== over || seal.code !== shortCode(over) || seal.units !== records.length)
    problems.push(raise('verify.document-differs', 'The seal is not the one over its units.', { file }));
  for (const record of records) {
    const found = verifyJson(workshop, record, file);
    if (!found.ok) return found;
    of.push(...found.value.of);
    problems.push(...found.value.problems);
  }
  return good({ of, problems });
}

function verifyJson(workshop: Workshop, record: RecordView, file: string): Result<DocumentReport> {
  const { unit, seal, made } = record;
  const proof = {
    job: unit.job,
    unit: unit.id,
    lines: seal.lines,
    hash: seal.hash,
    at: made.at,
    program: made.program,
    initials: made.initials,
  };
  return held(workshop, proof, file, (view) => {
    const differs = firstDifference(JSON.parse(recordJson(view)), record, '');
    return differs && `${unit.id}: ${differs}`;
  });
}

const META = /<meta name="pinchrod-record" content="([^"]*)">/;
const ENTITIES: Record<string, string> = { quot: '"', amp: '&', lt: '<', gt: '>', '#39': "'" };

function verifyHtml(workshop: Workshop, text: string, file: string): Result<DocumentReport> | undefined {
  const content = META.exec(text)?.[1]?.replace(
    /&(quot|amp|lt|gt|#39);/g,
    (_, name: string) => ENTITIES[name]!,
  );
  let proof: Proof;
  try {
    proof = proofSchema.parse(JSON.parse(content ?? ''));
  } catch {
    return undefined;
  }
  return held(workshop, proof, file, (view) => {
    const anew = htmlOf(unitDocument(view)).split('\n');
    const given = text.replaceAll('\r\n', '\n').split('\n');
    const at = given.findIndex((line, i) => line !== anew[i]);
    if (at < 0 && given.length === anew.length) return undefined;
    // Another version may draw the same facts in other words; nobody can tell that from a changed page.
    const drawn =
      factsHash(view) === proof.facts &&
      view.made.program !== recordContextOf(workshop, undefined, view.made).program
        ? ' It was made by another version of the program, and its facts hash fits: the page may only be drawn otherwise.'
        : '';
    return `Line ${at < 0 ? given.length : at + 1} is not what the journal gives.${drawn}`;
  });
}

/** What both have in common: the seal is of a line of the journal, and the record of it so far says the same. */
function held(
  workshop: Workshop,
  proof: Omit<Proof, 'facts'>,
  file: string,
  differs: (view: RecordView) => string | undefined,
): Result<DocumentReport> {
  const { job, unit, lines } = proof;
  const of = [`${unit} of ${job}, ${lines} lines`];
  const events = readEvents(realDisk, workshop.root, job, unit);
  if (!events.ok) return events;
  const seal = lines === 0 ? '' : events.value[lines - 1]?.hash;
  if (seal !== proof.hash) {
    const why =
      seal === undefined
        ? `It is of ${lines} lines; the journal of ${unit} has ${events.value.length}.`
        : `Its seal is not of line ${lines} of the journal of ${unit}.`;
    return good({ of, problems: [raise('verify.document-seal', why, { file })] });
  }
  const loaded = loadUnit(realDisk, workshop, { job, unit }, proof.at, lines);
  if (!loaded.ok) return loaded;
  const context = recordContextOf(workshop, loaded.value, proof);
  const problem = differs(recordView(loaded.value.state, loaded.value.plan.setOut, context));
  const problems = problem === undefined ? [] : [raise('verify.document-differs', problem, { file })];
  const more = events.value.length - lines;
  if (more > 0)
    problems.push(
      raise('verify.grown', `The journal of ${unit} has ${more} more lines than the document.`, { file }),
    );
  return good({ of, problems });
}

/** The first member, in the order of the format, that is not the same; nothing where all are. */
function firstDifference(want: unknown, given: unknown, path: string): string | undefined {
  if (want === given) return undefined;
  const both = [want, given];
  if (both.every((each) => each !== null && typeof each === 'object')) {
    const [a, b] = both as Record<string, unknown>[];
    for (const key of new Set([...Object.keys(a!), ...Object.keys(b!)])) {
      const found = firstDifference(a![key], b![key], path === '' ? key : `${path}.${key}`);
      if (found !== undefined) return found;
    }
    return undefined;
  }
  const shown = (value: unknown) => (value === undefined ? 'nothing' : JSON.stringify(value).slice(0, 120));
  return `${path} is ${shown(given)}; the journal gives ${shown(want)}.`;
}
