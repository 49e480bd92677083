/** What a document that was handed in claims to be of, whatever its format. */
import { parse } from 'csv-parse/sync';
import { CSV_COLUMNS } from '../record/csv.js';
import { collectionProofOf, proofOf } from '../record/proof.js';
import { type Proof, readProof } from '../record/proofread.js';
import { collectionSchema, recordSchema } from '../record/schema.js';
import { PROOF_END, PROOF_LINE } from '../record/text.js';
import type { Format } from './documents.js';

export interface HandedIn {
  readonly format: Format;
  /** A spreadsheet carries none but what stands in its cells. */
  readonly proof: Proof | undefined;
  /** Of JSON, the data; of a spreadsheet, its rows. */
  readonly data?: unknown;
}

/** Nothing where it is no document of this program. */
export function readHandedIn(bytes: Buffer): HandedIn | undefined {
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
  return proof && { format, proof };
}

function json(text: string): HandedIn | undefined {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return undefined;
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

/** Rows of cells, the header's first. Throws where it is no whole spreadsheet. */
export const csvRows = (text: string): string[][] =>
  parse(text, { relax_column_count: true, max_record_size: 1_000_000 });
