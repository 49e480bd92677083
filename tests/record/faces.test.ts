/**
 * Letters that the program's font lacks: shown in a face of the workshop's own where it has them, else told. The face here is
 * Liberation Sans, as pdfjs-dist brings it.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import { data } from '../../src/base/words.js';
import { documentAssets } from '../../src/commands/documents.js';
import type { Document } from '../../src/record/blocks.js';
import { pdfOf } from '../../src/record/pdf.js';
import { tellingOf, wordsHash } from '../../src/record/telling.js';

const { say } = tellingOf({ words: wordsHash() });
const LIBERATION = resolve(
  import.meta.dirname,
  '../../node_modules/pdfjs-dist/standard_fonts/LiberationSans-Regular.ttf',
);
const document: Document = {
  title: data('faces'),
  subject: data('faces'),
  foot: data('faces'),
  author: data('shop'),
  at: '2026-03-09T16:00:00.000Z',
  say,
  proof: '',
  layered: true,
  blocks: [{ kind: 'text', text: data('seen ♠ and 窓 too') }],
};

async function made(
  more: readonly Uint8Array[],
): Promise<{ text: string; lost: string[]; bytes: Uint8Array }> {
  const lost = new Set<string>();
  const bytes = await pdfOf(document, { ...documentAssets(), more }, lost);
  const pdf = await getDocument({ data: new Uint8Array(bytes), useSystemFonts: false }).promise;
  const { items } = await (await pdf.getPage(1)).getTextContent();
  const text = items.map((item) => ('str' in item ? item.str : '')).join('');
  await pdf.destroy();
  return { text, lost: [...lost], bytes };
}

describe('a letter that the font lacks', () => {
  it('is told where no other face has it', async () => {
    expect((await made([])).lost).toEqual(['♠', '窓']);
  });
  it('is shown in a face that has it, and only what that lacks too is told', async () => {
    const { text, lost } = await made([readFileSync(LIBERATION)]);
    expect(lost).toEqual(['窓']);
    expect(text).toContain('♠');
    expect(text).toContain('�');
  });
  it('the same faces give the same bytes', async () => {
    const faces = [readFileSync(LIBERATION)];
    expect(
      Buffer.compare(Buffer.from((await made(faces)).bytes), Buffer.from((await made(faces)).bytes)),
    ).toBe(0);
  });
  it('a file that is no font helps nobody, and harms nothing', async () => {
    const { lost } = await made([Buffer.from('no font'), readFileSync(LIBERATION)]);
    expect(lost).toEqual(['窓']);
  });
});
