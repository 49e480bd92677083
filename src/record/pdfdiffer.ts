/**
 * Where two PDFs made by this program differ: which page says what. Files are compared object by object with streams
 * unpacked, so a different compression library version makes no difference, but anything else does.
 */
import { inflateSync } from 'node:zlib';
import { type Message, messagesOf } from '../base/words.js';
import { DIFFER_WORDS } from './words/en/differs.js';

export const differs = messagesOf(DIFFER_WORDS);

export const asQuoted = (text: string | undefined): Message =>
  text === undefined || text === '' ? differs('differs-nothing') : differs('differs-quoted', { text });

interface Part {
  /** The object without its stream and without anything that depends on compression. */
  readonly head: string;
  readonly stream: string;
}

/** Undefined if both have the same content, drawn the same way. */
export function pdfDifference(given: Uint8Array, want: Uint8Array): Message | undefined {
  if (Buffer.compare(given, want) === 0) return undefined;
  const [a, b] = [partsOf(given), partsOf(want)];
  if (!a || !b) return differs('differs-pdf');
  const same = (x: Part | undefined, y: Part | undefined) => x?.head === y?.head && x?.stream === y?.stream;
  if (a.length === b.length && a.every((part, i) => same(part, b[i]))) return undefined;
  const [said, wanted] = [pagesOf(a), pagesOf(b)];
  for (let page = 0; page < Math.max(said.length, wanted.length); page++) {
    const [x, y] = [said[page], wanted[page]];
    if (!x || !y) return differs('differs-pages', { n: said.length, wanted: wanted.length });
    for (let i = 0; i < Math.max(x.length, y.length); i++)
      if (x[i] !== y[i])
        return differs('differs-page', { n: page + 1, said: asQuoted(x[i]), wanted: asQuoted(y[i]) });
  }
  return differs('differs-drawn');
}

/** The file's objects in order, then the rest of the file; undefined if it cannot be parsed. */
function partsOf(bytes: Uint8Array): Part[] | undefined {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const text = file.toString('latin1');
  const parts: Part[] = [];
  let from = Math.max(0, text.search(/^\d+ 0 obj$/m));
  parts.push({ head: text.slice(0, from), stream: '' });
  try {
    for (;;) {
      const start = /^(\d+) 0 obj\n/.exec(text.slice(from, from + 20));
      if (!start) break;
      const end = text.indexOf('\nendobj', from);
      const streamAt = text.indexOf('\nstream\n', from);
      if (streamAt < 0 || streamAt > end) {
        if (end < 0) return undefined;
        parts.push({ head: text.slice(from, end), stream: '' });
        from = end + '\nendobj\n'.length;
        continue;
      }
      const head = text.slice(from, streamAt);
      const length = Number(/\/Length (\d+)/.exec(head)?.[1]);
      const at = streamAt + '\nstream\n'.length;
      const packed = file.subarray(at, at + length);
      const stream = head.includes('/FlateDecode') ? inflateSync(packed) : packed;
      parts.push({ head: head.replace(/\/Length \d+/, ''), stream: stream.toString('latin1') });
      const after = text.indexOf('endobj\n', at + length);
      if (after < 0) return undefined;
      parts.push({ head: text.slice(at + length, after), stream: '' });
      from = after + 'endobj\n'.length;
    }
  } catch {
    return undefined;
  }
  // Object offsets depend on compression.
  parts.push({
    head: text
      .slice(from)
      .replace(/^\d{10} (?=\d{5} n)/gm, '')
      .replace(/startxref\n\d+/, ''),
    stream: '',
  });
  return parts;
}

/** All texts of a PDF in drawing order, without the lines at the foot of its pages. */
export function pdfTexts(bytes: Uint8Array): string[] {
  return pagesOf(partsOf(bytes) ?? []).flatMap((texts) =>
    texts.filter((text, i) => !isPageNumber(text) && !isPageNumber(texts[i + 1])),
  );
}

const isPageNumber = (text: string | undefined): boolean => /^page \d+ of \d+$/.test(text ?? '');

/** The texts of each page in drawing order. */
function pagesOf(parts: readonly Part[]): string[][] {
  const fonts = parts
    .filter(({ stream }) => stream.includes('beginbfrange'))
    .map(({ stream }) => signsOf(stream));
  return parts
    .filter(({ stream }) => /\bBT\n/.test(stream))
    .map(({ stream }) => {
      const texts: string[] = [];
      let font = new Map<string, string>();
      for (const [, name, shown] of stream.matchAll(/\/F(\d+) [\d.]+ Tf|\[([^\]]*)\] TJ/g)) {
        if (name !== undefined) font = fonts[Number(name) - 1] ?? font;
        else
          texts.push(
            [...shown!.matchAll(/<([0-9a-f]*)>/g)]
              .flatMap(([, hex]) => hex!.match(/.{4}/g) ?? [])
              .map((code) => font.get(code) ?? '\ufffd')
              .join(''),
          );
      }
      return texts;
    });
}

/** Maps a font's codes to text, from the table PDF readers use for copying. */
function signsOf(table: string): Map<string, string> {
  const signs = new Map<string, string>();
  for (const [, first, list] of table.matchAll(/<([0-9a-f]{4})> <[0-9a-f]{4}> \[([^\]]*)\]/g))
    for (const [i, [, hex]] of [...list!.matchAll(/<([0-9a-f]*)>/g)].entries()) {
      const units = (hex!.match(/.{4}/g) ?? []).map((unit) => Number.parseInt(unit, 16));
      signs.set(
        (Number.parseInt(first!, 16) + i).toString(16).padStart(4, '0'),
        String.fromCharCode(...units),
      );
    }
  return signs;
}
