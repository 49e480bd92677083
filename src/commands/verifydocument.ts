/** Verifies a document against the journals by regenerating it from them and comparing. */
import { parse } from 'csv-parse/sync';
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { isZone, zoneOver, zoneText } from '../base/wallclock.js';
import { type Message, messagesOf } from '../base/words.js';
import { peopleIn, type Told } from '../record/basis.js';
import { type Credential, readCredential } from '../record/credential.js';
import { CSV_COLUMNS, registersInRow } from '../record/csv.js';
import { asQuoted, differs as differ, pdfDifference } from '../record/pdfdiffer.js';
import { collectionProofOf, factsHash, type Proof, proofOf, readProof } from '../record/proof.js';
import { collectionSchema, type JobFilter, type RegistersThen, recordSchema } from '../record/schema.js';
import { particularsBy, toldBy } from '../record/stated.js';
import { knownWords } from '../record/telling.js';
import { PROOF_END, PROOF_LINE } from '../record/text.js';
import { realDisk } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { listJournals } from '../store/journals.js';
import { isUnpacked } from '../store/register/check.js';
import type { Registers } from '../store/register/registers.js';
import { VERIFY_MESSAGES } from '../store/verifymessages.js';
import { storeWords } from '../store/words.js';
import type { Workshop } from '../store/workshop.js';
import { canonicalText } from '../unit/chain.js';
import type { JournalEvent } from '../unit/events.js';
import { answersTo, summaryOf } from '../unit/summary.js';
import { learnLanguage } from './documentlanguage.js';
import { type Drawable, drawn, type Format, type Made, ofUnit, ofUnits, programName } from './documents.js';
import { countedFor, type LoadedUnit, loadUnit } from './unitload.js';
import { credentialProblems } from './verifycredential.js';
import { VERIFY_SAYS } from './words/verify.js';

const raise = problemFactory(VERIFY_MESSAGES);
const covers = messagesOf(VERIFY_SAYS);

export interface DocumentReport {
  /** One entry per unit in the document: "P02-1 of pier-house, 60 lines". */
  readonly of: readonly Message[];
  readonly problems: readonly Problem[];
}
type Claim = Proof['of'][number];

/** @param file name used in problems. Fails if a journal, or what a unit was built from, cannot be read. */
export async function verifyDocument(
  workshop: Workshop,
  registers: Registers,
  bytes: Buffer,
  file: string,
): Promise<Result<DocumentReport>> {
  const given = readHandedIn(bytes);
  if (!given)
    return ok({
      of: [],
      problems: [raise('verify.document-unknown', {}, { file })],
    });
  if (!given.proof) return verifyCsv(workshop, registers, given, file);
  const { proof } = given;
  const held = unitsOf(workshop, registers, proof, file);
  if (!held.ok) return held;
  const { of, problems, units } = held.value;
  if (proof.sheet === 'units') problems.push(...chosenProblems(workshop, proof, file));
  problems.push(...registerProblems(workshop, registers, proof.registers as RegistersThen | undefined, file));
  problems.push(...zoneProblems(proof, file));
  if (given.credential) problems.push(...credentialProblems(workshop, given.credential, file));
  const { language } = proof;
  if (language !== undefined && !(await learnLanguage(language)))
    problems.push(
      raise('verify.document-differs', { difference: differ('differs-language', { language }) }, { file }),
    );
  if (units.length === proof.of.length) {
    const compared = await compare(workshop, units, given, proof, bytes);
    if (compared.differs !== undefined)
      problems.push(raise('verify.document-differs', { difference: compared.differs }, { file }));
    else if (compared.told) problems.push(raise('verify.document-told', {}, { file }));
  }
  return ok({ of, problems });
}

/** Its times are made anew with the offsets that it states: whether its zone has them is told beside. */
function zoneProblems({ zone, at }: Proof, file: string): readonly Problem[] {
  if (!zone) return [];
  const known = isZone(zone.name) ? zoneOver(zone.name, zone.offsets[0]!.from, at) : undefined;
  if (known && canonicalText(known) === canonicalText(zone)) return [];
  return [
    known
      ? raise('verify.document-zone', { zone: zoneText(zone), here: zoneText(known) }, { file })
      : raise('verify.document-zone/unknown', { zone: zoneText(zone) }, { file }),
  ];
}

/** What the document knows of the registers must still be there. An unpacked archive has none. */
function registerProblems(
  workshop: Workshop,
  registers: Registers,
  then: RegistersThen | undefined,
  file: string,
): readonly Problem[] {
  if (!then || isUnpacked(realDisk, workshop.root)) return [];
  const { firstKey } = then;
  return [
    ...then.heads.flatMap((head) => registers.against(head, { file }, storeWords('known-document'))),
    ...(firstKey === undefined ||
    countedFor(realDisk, workshop).introduced.some(({ fingerprint }) => fingerprint === firstKey)
      ? []
      : [
          raise(
            'verify.key-missing',
            { firstKey },
            {
              file,
            },
          ),
        ]),
  ];
}

/** Version 0.1.0 printed another form, and its journals keep less. */
const formOf = (program: string): 1 | 2 => (program === 'pinchrod 0.1.0' ? 1 : 2);

interface Compared {
  readonly differs?: Message | undefined;
  /** It was made anew with facts that only it states. */
  readonly told?: boolean;
}

async function compare(
  workshop: Workshop,
  units: readonly LoadedUnit[],
  given: HandedIn,
  proof: Proof,
  bytes: Buffer,
): Promise<Compared> {
  const { at, initials, program, sheet, zone, language, words, annex, paper } = proof;
  const registers = proof.registers as RegistersThen | undefined;
  const form = formOf(program);
  const again = (told: readonly Told[] | undefined): Drawable => {
    const made: Made = {
      at,
      initials,
      program,
      form,
      ...(told ? { told } : {}),
      ...(registers ? { registers } : {}),
      ...(zone ? { zone } : {}),
      language,
      words,
      annex,
      paper,
    };
    return sheet === 'units'
      ? ofUnits(workshop, units, made, { asked: proof.asked ?? {}, notBegun: proof.notBegun ?? [] })
      : ofUnit(workshop, units[0]!, made, sheet);
  };
  const difference = async (anew: Drawable) => {
    const differs = differenceOf(given, bytes, await drawn(given.format, anew));
    return differs && withReason(differs, proof, anew);
  };
  const asNow = again(undefined);
  const plain = await difference(asNow);
  if (plain === undefined) return {};
  // The schema allows members that are there and undefined.
  const told =
    form === 2
      ? (proof.told as readonly Told[] | undefined)
      : statedIn(proof, given, bytes, again, units, workshop);
  // A proof is over facts that the document does not show, too, and nobody reads it.
  const proofOfIt = given.proofText === undefined ? {} : { proof: given.proofText };
  const readably = (anew: Drawable) => difference({ ...anew, document: { ...anew.document, ...proofOfIt } });
  if (!told || told.every((each) => Object.keys(each).length === 0))
    return { differs: (await readably(asNow)) ?? plain };
  const differs = await readably(again(told));
  return differs === undefined ? { told: true } : { differs };
}

/** What a document of version 0.1.0 states, read from its tables. */
function statedIn(
  { sheet }: Proof,
  { format, data }: HandedIn,
  bytes: Buffer,
  again: (told: readonly Told[]) => Drawable,
  units: readonly LoadedUnit[],
  workshop: Workshop,
): readonly Told[] | undefined {
  if (format === 'csv') return undefined;
  if (sheet === 'particulars') {
    const told = particularsBy({ format, bytes });
    return told && [told];
  }
  const orders = units.map(({ state }) => peopleIn(state.events));
  // Each id stands for itself.
  const { records } = again(orders.map((people) => ({ people })));
  return toldBy({ format, bytes, data }, records, orders, workshop.instruments);
}

/** Another version may draw or word the same facts differently; a changed page cannot be told from that. */
function withReason(difference: Message, proof: Proof, { records: [first] }: Drawable): Message {
  if (proof.words !== undefined && !knownWords(proof.language).includes(proof.words))
    return differ('differs-words', { difference });
  const fits = proof.sheet === 'unit' && first && factsHash(first) === proof.facts;
  return fits && proof.program !== programName() ? differ('differs-version', { difference }) : difference;
}

interface Held extends DocumentReport {
  readonly problems: Problem[];
  /** The units whose seal matches their journal, as they were then. */
  readonly units: readonly LoadedUnit[];
}

interface Claims {
  readonly of: readonly Claim[];
  readonly at: string;
  /** Whether that is when the document was made: a table of figures does not say it. */
  readonly isDated?: boolean;
}

function unitsOf(
  workshop: Workshop,
  { removed }: Registers,
  { of: claims, at, isDated = true }: Claims,
  file: string,
): Result<Held> {
  const of: Message[] = [];
  const problems: Problem[] = [];
  const units: LoadedUnit[] = [];
  for (const claim of claims) {
    const { job, unit, lines } = claim;
    of.push(covers('verify-of', { unit: sanitize(unit), job: sanitize(job), n: lines }));
    const events = readEvents(realDisk, workshop.root, job, unit);
    if (!events.ok) return events;
    const wrong = sealProblem(claim, events.value, file);
    if (wrong !== undefined) {
      const away = removed.get(`logs/${job}/${unit}.jsonl`);
      problems.push(
        away !== undefined && events.value.length === 0
          ? raise(
              'verify.document-archived',
              { unit, job, away: away.slice(0, 10) },
              {
                file,
              },
            )
          : wrong,
      );
      continue;
    }
    const loaded = loadUnit(realDisk, workshop, claim, at, lines);
    if (!loaded.ok) return loaded;
    units.push(loaded.value);
    const more = events.value.length - lines;
    const known = isDated ? events.value.slice(lines).filter((event) => event.at <= at).length : 0;
    if (more > 0)
      problems.push(
        known > 0
          ? raise('verify.grown/before', { unit, more, known }, { file })
          : raise('verify.grown', { unit, more }, { file }),
      );
  }
  return ok({ of, problems, units });
}

function sealProblem(
  { unit, lines, hash }: Claim,
  events: readonly JournalEvent[],
  file: string,
): Problem | undefined {
  const seal = lines === 0 ? '' : events[lines - 1]?.hash;
  if (seal === hash) return undefined;
  return seal === undefined
    ? raise('verify.document-seal/lines', { lines, unit, there: events.length }, { file })
    : raise('verify.document-seal/line', { lines, unit }, { file });
}

/** Checks that it covers exactly the units that matched the filter, given their state when it was made. */
function chosenProblems(workshop: Workshop, { at, asked, of }: Proof, file: string): Problem[] {
  const shown = new Set(of.map(({ job, unit }) => `${job}/${unit}`));
  return listJournals(realDisk, workshop.root).flatMap(({ job, unit }) => {
    const there = shown.has(`${job}/${unit}`);
    const events = readEvents(realDisk, workshop.root, job, unit);
    if (!events.ok) return there ? [] : events.problems;
    const answers = wanted(
      asked ?? {},
      job,
      events.value.filter((event) => event.at <= at),
    );
    if (answers && !there) return [raise('verify.document-differs/leaves-out', { unit, job }, { file })];
    return there && !answers ? [raise('verify.document-differs/shows', { unit, job }, { file })] : [];
  });
}

const wanted = (asked: JobFilter, job: string, events: readonly JournalEvent[]): boolean =>
  events.length > 0 && (asked.job === undefined || job === asked.job) && answersTo(summaryOf(events), asked);

/** Each row of a spreadsheet names its unit and its last hash; names may be in full or as initials. */
async function verifyCsv(
  workshop: Workshop,
  registers: Registers,
  given: HandedIn,
  file: string,
): Promise<Result<DocumentReport>> {
  const [head, ...rows] = given.data as string[][];
  const column = (name: string) => head!.indexOf(name);
  const claims = new Map<string, Claim>();
  for (const row of rows) {
    const cell = (name: string) => row[column(name)] ?? '';
    const [job, unit] = [cell('job'), cell('unit')];
    const hash = cell('after_release_hash') || cell('seal');
    const name = `${job}/${unit}`;
    if (claims.has(name)) continue;
    const events = readEvents(realDisk, workshop.root, job, unit);
    if (!events.ok) return err(...events.problems);
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
    return ok({
      of: [covers('verify-of-unsure', { unit: sanitize(unknown.unit), job: sanitize(unknown.job) })],
      problems: [raise('verify.document-seal', { unit: unknown.unit }, { file })],
    });
  const at = new Date().toISOString();
  const held = unitsOf(workshop, registers, { of: [...claims.values()], at, isDated: false }, file);
  if (!held.ok) return held;
  const { of, problems, units } = held.value;
  const told = units.map((unit) => ({ people: namesInRows(unit, rows, column) }));
  const then = registersInRow((name) => rows[0]?.[column(name)] ?? '');
  problems.push(...registerProblems(workshop, registers, then, file));
  const differences: Message[] = [];
  // It does not say by which words, nor in which form.
  const ways = [undefined, told].flatMap((stated) =>
    ([2, 1] as const).flatMap((form) =>
      [false, true].flatMap((initials) => knownWords().map((words) => ({ stated, form, initials, words }))),
    ),
  );
  for (const { stated, form, initials, words } of ways) {
    const made: Made = {
      at,
      initials,
      form,
      words,
      ...(stated ? { told: stated } : {}),
      ...(then ? { registers: then } : {}),
    };
    const anew = String(await drawn('csv', ofUnits(workshop, units, made, { asked: {} })));
    const differs = differenceOf(given, Buffer.alloc(0), anew);
    if (differs === undefined) {
      if (stated) problems.push(raise('verify.document-told', {}, { file }));
      return ok({ of, problems });
    }
    differences.push(differs);
  }
  problems.push(raise('verify.document-differs', { difference: differences[0]! }, { file }));
  return ok({ of, problems });
}

/** How a spreadsheet shows people, in the order of `peopleIn`. */
function namesInRows(
  { job, unit, state }: LoadedUnit,
  rows: readonly (readonly string[])[],
  column: (name: string) => number,
): string[] {
  const names = new Map<string, string>();
  const cell = (row: readonly string[], name: string) => row[column(name)] ?? '';
  for (const row of rows) {
    if (cell(row, 'job') !== job || cell(row, 'unit') !== unit) continue;
    const event = state.events[Number(cell(row, 'journal_line')) - 1];
    if (event?.kind !== 'answered') continue;
    const { by, second } = event.cited ?? event;
    for (const [id, shown] of [
      [by, cell(row, 'person')],
      [second, cell(row, 'second')],
      [event.overdueAllowedBy, cell(row, 'overdue_allowed_by')],
    ] as const)
      if (id !== undefined && shown !== '' && !names.has(id)) names.set(id, shown);
  }
  return peopleIn(state.events).map((id) => names.get(id) ?? '');
}

// Describes the first difference between the document and the regenerated one; undefined if they agree.

function differenceOf(given: HandedIn, bytes: Buffer, anew: string | Uint8Array): Message | undefined {
  switch (given.format) {
    case 'json':
      return memberDifference(JSON.parse(String(anew)), given.data, '');
    case 'csv':
      return cellDifference(given.data as string[][], csvRows(String(anew)));
    case 'pdf':
      return pdfDifference(bytes, anew as Uint8Array);
    default:
      // Some editors begin what they save with a mark of its own.
      return lineDifference(bytes.toString('utf8').replace(/^\ufeff/, ''), String(anew));
  }
}

function lineDifference(given: string, anew: string): Message | undefined {
  const [said, wanted] = [given.replaceAll('\r\n', '\n').split('\n'), anew.split('\n')];
  const at = said.findIndex((line, i) => line !== wanted[i]);
  if (at < 0 && said.length === wanted.length) return undefined;
  if (at < 0) return differ('differs-line-end', { n: said.length, wanted: wanted.length });
  const [x, y] = apart(said[at]!, wanted[at] ?? '');
  return differ('differs-line', { n: at + 1, said: asQuoted(x), wanted: asQuoted(y) });
}

const LONGEST = 100;

/** Excerpts of both lines from just before they differ, without HTML tags. */
function apart(a: string, b: string): [string, string] {
  const [x, y] = [a, b].map((line) =>
    line
      .replace(/<[^>]*>/g, ' ')
      .replace(/ +/g, ' ')
      .trim(),
  ) as [string, string];
  if (x === y) return [a.trim().slice(0, LONGEST), b.trim().slice(0, LONGEST)];
  let i = 0;
  while (x[i] === y[i]) i++;
  const from = Math.max(0, x.lastIndexOf(' ', Math.max(0, i - 30)) + 1);
  return [x.slice(from, from + LONGEST), y.slice(from, from + LONGEST)];
}

/** The header names the cell's column; the check's id names its row. */
function cellDifference(given: readonly string[][], anew: readonly string[][]): Message | undefined {
  const [head = []] = anew;
  const check = head.indexOf('check');
  for (let row = 0; row < Math.max(given.length, anew.length); row++) {
    const [x, y] = [given[row], anew[row]];
    if (!x || !y) return differ('differs-checks', { n: given.length - 1, wanted: anew.length - 1 });
    for (let i = 0; i < Math.max(x.length, y.length); i++)
      if (x[i] !== y[i])
        return differ('differs-cell', {
          n: row + 1,
          check: y[check] ?? differ('differs-cell-check'),
          column: head[i] ?? differ('differs-cell-more'),
          said: asQuoted(x[i]),
          wanted: asQuoted(y[i]),
        });
  }
  return undefined;
}

/** The first member that differs, in the order of the format. */
function memberDifference(want: unknown, given: unknown, path: string): Message | undefined {
  if (want === given) return undefined;
  if ([want, given].every((each) => each !== null && typeof each === 'object')) {
    const [a, b] = [want, given] as [Record<string, unknown>, Record<string, unknown>];
    for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
      const found = memberDifference(a[key], b[key], path === '' ? key : `${path}.${key}`);
      if (found !== undefined) return found;
    }
    return undefined;
  }
  const shown = (value: unknown) =>
    value === undefined ? differ('differs-nothing') : JSON.stringify(value).slice(0, 120);
  return differ('differs-member', { path, said: shown(given), wanted: shown(want) });
}

// What a document claims to cover, in any format.

interface HandedIn {
  readonly format: Format;
  /** Spreadsheets have none beyond their cells. */
  readonly proof: Proof | undefined;
  /** As it stands in the document. */
  readonly proofText?: string | undefined;
  /** The parsed JSON, or a spreadsheet's rows. */
  readonly data?: unknown;
  /** In which the record stands. */
  readonly credential?: Credential;
}

/** Undefined if it is not a document from this program. */
function readHandedIn(bytes: Buffer): HandedIn | undefined {
  if (bytes.subarray(0, 5).toString('latin1') === '%PDF-') {
    const file = bytes.toString('latin1');
    const [, number] = /\/PinchrodRecord (\d{1,9}) 0 R/.exec(file) ?? [];
    const at = file.indexOf(`\n${number} 0 obj\n(`);
    return at < 0 ? undefined : withProof('pdf', /\(([A-Za-z0-9+/=]*)\)/.exec(file.slice(at))?.[1]);
  }
  const text = bytes.toString('utf8').replace(/^\ufeff/, '');
  if (/^\s*\{/.test(text)) return json(text);
  if (text.startsWith(CSV_COLUMNS.slice(0, 3).join(','))) return csv(text);
  const html = /<meta name="pinchrod-record" content="([^"]*)">/.exec(text);
  if (html) return withProof('html', html[1]);
  const from = text.lastIndexOf(PROOF_LINE);
  const lines = from < 0 ? '' : text.slice(from + PROOF_LINE.length).split(`\n${PROOF_END}`)[0]!;
  return withProof('text', lines.replace(/\s/g, ''));
}

function withProof(format: Format, text: string | undefined): HandedIn | undefined {
  const proof = readProof(text);
  return proof && { format, proof, proofText: text };
}

function json(text: string): HandedIn | undefined {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return undefined;
  }
  const credential = readCredential(data);
  if (credential) {
    const { record } = credential.credentialSubject;
    return { format: 'json', proof: proofOf(record), data: record, credential };
  }
  const one = recordSchema.safeParse(data);
  if (one.success) return { format: 'json', proof: proofOf(one.data), data };
  const many = collectionSchema.safeParse(data);
  return many.success ? { format: 'json', proof: collectionProofOf(many.data), data } : undefined;
}

function csv(text: string): HandedIn | undefined {
  try {
    return { format: 'csv', proof: undefined, data: csvRows(text) };
  } catch {
    return undefined;
  }
}

/** Rows of cells, header first. Throws if the spreadsheet is malformed. */
const csvRows = (text: string): string[][] =>
  parse(text, { relax_column_count: true, max_record_size: 1_000_000 });
