/** Writes a document that is made of units, in the format asked for, to a file or to the terminal. */
import { sanitize } from '../base/text.js';
import { data } from '../base/words.js';
import type { Document } from '../record/blocks.js';
import { realDisk } from '../store/disk.js';
import { tellLost } from './catalogue.js';
import { documentAssets, type Format, writeDocument } from './documents.js';
import { EXIT, fail, type Io, tellOf } from './io.js';

/** @param figures the same as data, and as a table for a spreadsheet */
export async function putDocument(
  document: Document,
  { format, out }: { readonly format: Format; readonly out: string | undefined },
  figures: { readonly json: () => string; readonly csv: () => string },
  io: Io,
): Promise<number> {
  const lost = new Set<string>();
  const content = await inFormat();
  if (out === undefined) {
    io.out(data(String(content).trimEnd()));
    return EXIT.done;
  }
  const wrote = writeDocument(realDisk, io.workshop, out, content);
  if (!wrote.ok) return fail(io, wrote.problems);
  io.out(data(`${sanitize(wrote.value)}: ${document.subject}`));
  if (lost.size > 0) io.err(tellOf(io)(tellLost(lost)));
  return EXIT.done;

  async function inFormat(): Promise<string | Uint8Array> {
    switch (format) {
      case 'csv':
        return figures.csv();
      case 'json':
        return figures.json();
      case 'html':
        return (await import('../record/html.js')).htmlOf(document);
      case 'pdf':
        return (await import('../record/pdf.js')).pdfOf(document, documentAssets(io.workshop), lost);
      default:
        return (await import('../record/text.js')).textOf(document);
    }
  }
}
