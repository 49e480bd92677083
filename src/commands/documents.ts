/** Generates unit documents from journals, for `record`, archives, and `verify FILE`. */

import { readFileSync } from 'node:fs';
import { dirname, extname, join, relative, resolve, sep } from 'node:path';
import { LANGUAGES } from '../base/languages.js';
import { err, ok, type Problem, problemFactory, type Result } from '../base/problem.js';
import { isUtc, type Zone, zoneOver } from '../base/wallclock.js';
import { type Maker, NOTHING_KEPT, RecordBasis, type Told } from '../record/basis.js';
import type { Document } from '../record/blocks.js';
import { recordCsv } from '../record/csv.js';
import { declarationDocument } from '../record/declaration.js';
import { htmlOf } from '../record/html.js';
import { type Chosen, collectionDocument, collectionView } from '../record/job.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import type { PdfAssets } from '../record/pdfpen.js';
import { smallCopy } from '../record/photograph.js';
import type { CollectionView, RecordView, RegistersThen } from '../record/schema.js';
import type { SetupTold } from '../record/setupview.js';
import { DOCUMENT_LANGUAGE, type DocumentSay, tellingOf, wordsHash } from '../record/telling.js';
import { textOf } from '../record/text.js';
import { unitDocument } from '../record/unitblocks.js';
import { type RecordContext, recordView } from '../record/view.js';
import { type Disk, realDisk } from '../store/disk.js';
import { writeWhole } from '../store/files.js';
import { readEvidence } from '../store/hashed.js';
import { readSetupLog } from '../store/setups.js';
import type { Workshop } from '../store/workshop.js';
import { HOUSE_FILE } from '../store/workshop.js';
import { firstOffId } from '../unit/firstoff.js';
import type { Job } from '../window/job.js';
import { makerOf } from './basisload.js';
import { learnLanguage, stateIn } from './documentlanguage.js';
import { type LoadedUnit, registersOf } from './unitload.js';

export const FORMATS = ['text', 'html', 'json', 'csv', 'pdf'] as const;
export type Format = (typeof FORMATS)[number];

export interface Made {
  /** UTC, ISO 8601. */
  readonly at: string;
  /** Names appear as initials. */
  readonly initials: boolean;
  /** How far the registers have come; undefined: there are none. */
  readonly registers?: RegistersThen;
  /** Whose time it tells; UTC if absent. */
  readonly zone?: Zone | undefined;
  /** In whose words: see `RecordContext`. */
  readonly language?: string | undefined;
  readonly words?: string | undefined;
  /** See `RecordContext`. */
  readonly annex?: boolean | undefined;
  readonly paper?: 'letter' | undefined;
  /** By which program, if not this one. */
  readonly program?: string;
  /** Of each unit: what an earlier document states of facts that are not kept. */
  readonly told?: readonly Told[];
  /** 1: as version 0.1.0 wrote it. */
  readonly form?: 1 | 2;
}

export interface Drawable {
  readonly document: Document;
  readonly view: RecordView | CollectionView;
  readonly records: readonly RecordView[];
  /** Of the workshop, for faces of its own. */
  readonly root: string;
}

/** A document that is made now. A language must have been learnt. */
export function madeNow(
  workshop: Workshop,
  initials: boolean,
  { annex = false, paper, language = DOCUMENT_LANGUAGE }: Pick<Made, 'annex' | 'paper' | 'language'> = {},
): Made {
  const { heads, firstKey } = registersOf(workshop);
  const registers = heads.length > 0 ? { heads, ...(firstKey === undefined ? {} : { firstKey }) } : undefined;
  return {
    at: new Date().toISOString(),
    initials,
    ...(registers ? { registers } : {}),
    language,
    words: wordsHash(language),
    annex,
    ...(paper ? { paper } : {}),
  };
}

/** The same, telling the time of the workshop's zone since the first of these units was begun. A table of figures keeps UTC. */
export function byTheClock(
  workshop: Workshop,
  units: readonly LoadedUnit[],
  made: Made,
  format: Format,
): Made {
  // Where the workshop's own file cannot be read, nobody knows its zone.
  if (format === 'csv' || workshop.troubles.some(({ place }) => place?.file === HOUSE_FILE)) return made;
  const begun = units.flatMap(({ state }) => state.events.map(({ at }) => at)).sort()[0] ?? made.at;
  const zone = zoneOver(workshop.zone, begun, made.at);
  return isUtc(zone) ? made : { ...made, zone };
}

function viewOf(
  workshop: Workshop,
  unit: LoadedUnit,
  made: Made,
  told: Told | undefined,
  smallOf?: (sha256: string) => string | undefined,
): RecordView {
  const context = { ...recordContextOf(workshop, unit, made, told), smallOf };
  // Version 0.1.0 knew no chapter after release.
  const { closed } = made.form === 1 ? { closed: undefined } : unit;
  const read = (of: Pick<LoadedUnit, 'plan' | 'state'>) => stateIn(made.language, workshop, of, of.state);
  return closed
    ? recordView(read(closed), closed.plan.setOut, context, read(unit))
    : recordView(read(unit), unit.plan.setOut, context);
}

export function ofUnit(
  workshop: Workshop,
  unit: LoadedUnit,
  made: Made,
  sheet: 'unit' | 'particulars',
): Drawable {
  const view = viewOf(
    workshop,
    unit,
    made,
    made.told?.[0],
    // Documents in layers alone hold copies of photographs.
    made.annex === undefined ? undefined : (sha256) => smallOf(workshop, unit, sha256),
  );
  const document =
    sheet === 'unit' ? unitDocument(view) : declarationDocument(makerOfUnit(workshop, unit, made), view);
  return { document, view, records: [view], root: workshop.root };
}

/** A copy of a photograph that is there and is what its hash says; `verify` says where one is not. */
function smallOf({ root }: Workshop, { job }: LoadedUnit, sha256: string): string | undefined {
  const read = readEvidence(realDisk, root, job, { sha256, name: sha256, bytes: 0 });
  return read.ok ? smallCopy(read.value) : undefined;
}

export function ofUnits(
  workshop: Workshop,
  units: readonly LoadedUnit[],
  made: Made,
  chosen: Chosen,
): Drawable {
  // Units chosen by period may belong to several customers.
  const ofJob = chosen.asked.job === undefined ? undefined : units[0];
  const records = units.map((unit, i) => viewOf(workshop, unit, made, made.told?.[i]));
  const view = collectionView(records, chosen, recordContextOf(workshop, ofJob, made));
  return { document: collectionDocument(view), view, records, root: workshop.root };
}

/** @param lost takes the letters that the font of a PDF does not have */
export async function drawn(
  format: Format,
  { document, view, records, root }: Drawable,
  lost?: Set<string>,
): Promise<string | Uint8Array> {
  switch (format) {
    case 'text':
      return textOf(document);
    case 'html':
      return htmlOf(document);
    case 'csv':
      return recordCsv(records);
    case 'json':
      return (await import('../record/schema.js')).recordJson(view);
    case 'pdf':
      return (await import('../record/pdf.js')).pdfOf(document, documentAssets(root), lost);
  }
}

function recordContextOf(
  workshop: Workshop,
  unit: LoadedUnit | undefined,
  made: Made,
  told?: Told,
): RecordContext {
  const { say } = tellingOf(made);
  const { job } = (unit?.closed ?? unit)?.plan.from ?? {};
  return {
    maker: makerOf(workshop),
    customer: job?.customer ?? '',
    ...(job ? { order: orderOf(job, say) } : {}),
    ...(unit && made.form !== 1 ? { kept: unit.kept } : {}),
    ...(told ? { told } : {}),
    ...(made.form === undefined ? {} : { form: made.form }),
    ...(made.registers ? { registers: made.registers } : {}),
    ...(made.zone ? { zone: made.zone } : {}),
    language: made.language,
    words: made.words,
    annex: made.annex,
    paper: made.paper,
    setups: setupsTold(workshop),
    people: workshop.rules.people,
    instruments: workshop.instruments,
    at: made.at,
    program: made.program ?? programName(),
    initials: made.initials,
    ...(unit && !unit.sameSetOut
      ? {
          remarks: [say('doc-remark-setout')],
        }
      : {}),
  };
}

/** The particulars that a unit's declaration prints. */
function makerOfUnit(workshop: Workshop, unit: LoadedUnit, made: Made): Maker['particulars'] {
  const context = recordContextOf(workshop, unit, made, made.told?.[0]);
  const { events } = (made.form === 1 ? unit : (unit.closed ?? unit)).state;
  return new RecordBasis(events, context.kept ?? NOTHING_KEPT, context, context.told).maker.maker.particulars;
}

/** `Pier house, revision B`. */
const orderOf = ({ title, revision }: Job, say: DocumentSay): string =>
  [title, revision === '' ? '' : say('doc-revision', { revision })].filter((part) => part !== '').join(', ');

const told = new WeakMap<Workshop, readonly SetupTold[]>();

/** First-offs, read once; an unreadable journal of set-ups shows none, and `verify` says why. */
function setupsTold(workshop: Workshop): readonly SetupTold[] {
  const kept = told.get(workshop);
  if (kept) return kept;
  const read = readSetupLog(realDisk, workshop.root);
  const made = (read.ok ? read.value : []).flatMap((event): SetupTold[] => {
    if (event.kind !== 'first-off') return [];
    return [{ id: firstOffId(event), event }];
  });
  told.set(workshop, made);
  return made;
}

export const programName = (): string =>
  `pinchrod ${typeof PINCHROD_VERSION === 'undefined' ? 'from source' : PINCHROD_VERSION}`;

// Files embedded in documents: beside the bundle, or in the source tree when run from source.

const FOLDERS = [new URL('./assets/', import.meta.url), new URL('../record/assets/', import.meta.url)];

/**
 * Throws the disk error if a file cannot be read.
 * @param root of a workshop: the fonts in its folder shared/fonts, by name, help out where a letter is missing
 */
export function documentAssets(root?: string): PdfAssets {
  return {
    regular: asset('NotoSans-Regular.ttf'),
    bold: asset('NotoSans-Bold.ttf'),
    ...(root === undefined ? {} : { more: ownFaces(root) }),
    profile: asset('sRGB_IEC61966_2_1.icc'),
  };
}

const LARGEST_FONT = 40_000_000;

function ownFaces(root: string): Uint8Array[] {
  const folder = join(root, 'shared', 'fonts');
  if (realDisk.stat(folder)?.kind !== 'folder') return [];
  return realDisk
    .list(folder)
    .filter((name) => /\.(ttf|otf)$/i.test(name))
    .sort()
    .flatMap((name) => {
      const stat = realDisk.stat(join(folder, name));
      return stat?.kind === 'file' && stat.size <= LARGEST_FONT ? [realDisk.read(join(folder, name))] : [];
    });
}

function asset(name: string): Uint8Array {
  let last: unknown;
  for (const folder of FOLDERS)
    try {
      return readFileSync(new URL(name, folder));
    } catch (error) {
      last = error;
    }
  throw last;
}

// Writes a document where the user wants it, but never over the workshop's own files.

const raise = problemFactory(RECORD_MESSAGES);
/** `pdf` for `P02-1.PDF`; "" if there is none. */
export const endingOf = (file: string | undefined): string =>
  extname(file ?? '')
    .slice(1)
    .toLowerCase();

/** Formats that file endings are of, where they are of one. */
const ENDINGS: Readonly<Record<string, Format>> = {
  txt: 'text',
  htm: 'html',
  html: 'html',
  json: 'json',
  csv: 'csv',
  pdf: 'pdf',
};

/** The format asked for by name or by the file's ending; text if by neither. They must agree where both say one. */
export function formatOf(
  named: string | undefined,
  file: string | undefined,
  formats: readonly Format[],
): Format | Problem {
  const ending = endingOf(file);
  const asked = named ?? ENDINGS[ending] ?? ending;
  const format = formats.find((each) => each === (asked || 'text'));
  if (!format) return noFormat(asked, named === undefined, formats);
  return (ENDINGS[ending] ?? format) === format ? format : raise('record.option/ending', { format, ending });
}

/** Loads the language; the problem where documents cannot be told in it. */
export async function languageProblem(language: string | undefined): Promise<Problem | undefined> {
  if (language === undefined || (await learnLanguage(language))) return undefined;
  return raise('record.option/language', { language, spoken: [DOCUMENT_LANGUAGE, ...LANGUAGES] });
}

/** The problem for an unknown format, given by name or by file extension. */
export const noFormat = (asked: string, byEnding: boolean, formats: readonly string[]): Problem =>
  byEnding
    ? raise('record.option', { asked, formats: formats.map((each) => `.${each}`).join(', ') })
    : raise('record.option/format', { asked, formats: formats.join(', ') });

/** Writes the whole file or nothing. Throws the disk error if it cannot be written. */
export function writeDocument(
  disk: Disk,
  workshop: string,
  file: string,
  content: string | Uint8Array,
): Result<string> {
  const path = resolve(file);
  const [first] = relative(resolve(workshop), path).split(sep);
  if (first === 'logs' || first === 'shared' || first === 'procedures')
    return err(raise('record.out-place', { file }));
  const folder = dirname(path);
  if (disk.stat(folder)?.kind !== 'folder')
    return err(raise('record.out-folder', { value: relative('.', folder) || folder }));
  if (disk.stat(path)?.kind === 'folder')
    return err(raise('record.out-folder/is', { value: relative('.', path) || path }));
  writeWhole(disk, path, typeof content === 'string' ? Buffer.from(content, 'utf8') : Buffer.from(content));
  return ok(path);
}
