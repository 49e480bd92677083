/** `label`: labels for a unit, a whole job, or the cut parts, as SVG, PNG or PDF sheets. */
import { type Problem, problemFactory, problemTold } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { data } from '../base/words.js';
import { type Label, STOCKS, type Stock, sheets } from '../record/labelmarks.js';
import { partLabel, unitLabel } from '../record/labels.js';
import { sheetSvg } from '../record/labelsvg.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { tellingOf, wordsHash } from '../record/telling.js';
import { realDisk } from '../store/disk.js';
import { openWorkshop, type Workshop } from '../store/workshop.js';
import type { SetOut } from '../window/types.js';
import { documentAssets, endingOf, languageProblem, noFormat, writeDocument } from './documents.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, readOptions, tellOf } from './io.js';
import { loadUnit, named } from './unitload.js';

const raise = problemFactory(RECORD_MESSAGES);
const FORMATS = ['svg', 'png', 'pdf'] as const;
type Format = (typeof FORMATS)[number];

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(
    args,
    io,
    HELP.label,
    {
      parts: { type: 'boolean' },
      stock: { type: 'string' },
      format: { type: 'string' },
      out: { type: 'string' },
      skip: { type: 'string' },
      dpi: { type: 'string' },
      language: { type: 'string' },
      json: { type: 'boolean' },
    },
    { least: 1 },
  );
  if (typeof read === 'number') return read;
  const { values } = read;
  const request = wishOf(values);
  if ('id' in request) return said(io, [request]);
  const { language } = request;
  const unspoken = await languageProblem(language);
  if (unspoken) return said(io, [unspoken]);
  const workshop = openWorkshop(io.workshop, realDisk);
  if (!workshop.ok) return said(io, workshop.problems);
  const units = unitsOf(workshop.value, read.positionals[0]!);
  if (!Array.isArray(units)) return said(io, units.problems);
  const labels = labelsOf(units, workshop.value, request, values.parts === true);
  if (values.json) {
    io.out(asJson(labels.map(({ title, code, left }) => ({ title, code, leftOut: left }))));
    return EXIT.done;
  }
  for (const label of labels)
    if (label.left.length > 0)
      io.err(
        problemTold(
          raise('record.label-room', { label: label.title.split(',')[0]!, left: label.left.join('; ') }),
          tellOf(io),
        ),
      );
  return write(labels, request, io);
}

interface Wish {
  readonly stock: Stock;
  readonly format: Format;
  readonly out: string | undefined;
  readonly skip: number;
  readonly dpi: number;
  readonly language: string | undefined;
}

function wishOf(values: {
  readonly stock?: string | undefined;
  readonly format?: string | undefined;
  readonly out?: string | undefined;
  readonly skip?: string | undefined;
  readonly dpi?: string | undefined;
  readonly language?: string | undefined;
}): Wish | Problem {
  const stock = STOCKS.find(({ name }) => name === (values.stock ?? 'roll-100x60'));
  if (!stock)
    return raise('record.option/stock', {
      given: values.stock ?? '',
      known: STOCKS.map(({ name }) => name),
    });
  const asked = values.format ?? endingOf(values.out);
  const format = FORMATS.find((each) => each === (asked || 'svg'));
  if (!format) return noFormat(asked, values.format === undefined, FORMATS);
  const skip = Number(values.skip ?? 0);
  if (!Number.isInteger(skip) || skip < 0 || skip >= stock.columns * stock.rows)
    return raise('record.option/skip', { given: values.skip ?? '', most: stock.columns * stock.rows - 1 });
  const dpi = Number(values.dpi ?? 300);
  if (!Number.isInteger(dpi) || dpi < 150 || dpi > 1200)
    return raise('record.option/dpi', { given: values.dpi ?? '' });
  return { stock, format, out: values.out, skip, dpi, language: values.language?.toLowerCase() };
}

interface Labelled {
  readonly setOut: SetOut;
  /** What is made instead of a scrapped unit. */
  readonly scrapped?: string | undefined;
}

function unitsOf(workshop: Workshop, word: string): Labelled[] | { readonly problems: readonly Problem[] } {
  const found = named(word, workshop, realDisk);
  if (!found.ok) return { problems: found.problems };
  const names = found.value.kind === 'unit' ? [found.value.name] : found.value.units;
  const units: Labelled[] = [];
  for (const name of names) {
    const unit = loadUnit(realDisk, workshop, name, new Date().toISOString());
    if (!unit.ok) return { problems: unit.problems };
    const { plan, state } = unit.value;
    units.push({ setOut: plan.setOut, scrapped: state.scrapped ? state.replacement : undefined });
  }
  return units;
}

function labelsOf(
  units: readonly Labelled[],
  workshop: Workshop,
  { stock, language }: Wish,
  parts: boolean,
): Label[] {
  const options = {
    say: tellingOf({ language, words: wordsHash(language) }).say,
    ...stock.label,
    workshop: workshop.particulars.maker || workshop.rules.name,
    triangle: workshop.rules.openingTriangle,
  };
  if (!parts) return units.map(({ setOut, scrapped }) => unitLabel(setOut, { ...options, scrapped }));
  return units.flatMap(({ setOut }) =>
    setOut.parts.flatMap((part) =>
      Array.from({ length: part.quantity }, (_, i) => partLabel(setOut, part, i + 1, options)),
    ),
  );
}

async function write(labels: readonly Label[], request: Wish, io: Io): Promise<number> {
  const { stock, skip } = request;
  if (request.format === 'svg') {
    const pages = sheets(labels, stock, skip).map((page) => sheetSvg(page, stock));
    if (request.out === undefined && pages.length === 1) {
      io.out(data(pages[0]!.trimEnd()));
      return EXIT.done;
    }
    return writeAll(pages, request.out, io);
  }
  if (request.out === undefined)
    return said(io, [raise('record.needs-out', { format: request.format.toUpperCase() })]);
  if (request.format === 'png') {
    const { labelPng } = await import('../record/labelpng.js');
    const assets = documentAssets();
    return writeAll(
      labels.map((label) => labelPng(label, request.dpi, assets)),
      request.out,
      io,
    );
  }
  const { labelsPdf } = await import('../record/labelpdf.js');
  const made = {
    at: new Date().toISOString(),
    title:
      labels.length === 1
        ? labels[0]!.title
        : tellingOf({ language: request.language, words: wordsHash(request.language) }).say('doc-labels', {
            n: labels.length,
          }),
  };
  return writeAll([await labelsPdf(labels, stock, skip, made, documentAssets(io.workshop))], request.out, io);
}

/** One file keeps the given name; several become name-1, name-2 … */
function writeAll(contents: readonly (string | Uint8Array)[], out: string | undefined, io: Io): number {
  if (out === undefined) return said(io, [raise('record.needs-out/these', { count: contents.length })]);
  for (const [i, content] of contents.entries()) {
    const file = contents.length === 1 ? out : out.replace(/(\.\w+)?$/, (ending) => `-${i + 1}${ending}`);
    const wrote = writeDocument(realDisk, io.workshop, file, content);
    if (!wrote.ok) return said(io, wrote.problems);
    io.out(sanitize(wrote.value));
  }
  return EXIT.done;
}

function said(io: Io, problems: readonly Problem[]): number {
  return fail(io, problems);
}
