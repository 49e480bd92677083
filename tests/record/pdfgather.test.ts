/** What is gathered is the very file that the library streams. */
import { expect, it } from 'vitest';
import { documentAssets } from '../../src/commands/assets.js';
import { gathered } from '../../src/record/pdfgather.js';
import { Pen } from '../../src/record/pdfpen.js';

const made = new Date('2026-03-02T08:00:00Z');
const style = { size: 9, bold: false, colour: '#161616' };

function penOf(buffered: boolean): Pen {
  return new Pen(
    {
      size: 'A4',
      pdfVersion: '1.7',
      subset: 'PDF/A-2a',
      tagged: true,
      lang: 'en-GB',
      autoFirstPage: buffered,
      bufferPages: buffered,
      info: { Title: 'Prüfung & <Probe> €', Creator: 'pinchrod', CreationDate: made, ModDate: made },
    },
    documentAssets(),
  );
}

function draw(pen: Pen, buffered: boolean): void {
  if (!buffered) pen.newPage();
  for (let i = 0; i < 90; i++) {
    pen.tagged('P', `line ${i}: 1221.5 mm ≤ 1222 (Ärmel) \\ % ${'x'.repeat(i)}`, style);
    if (i % 10 === 0) pen.rule(40, 300, 0.5, '#4a4a4a');
  }
  if (buffered) {
    pen.doc.switchToPage(0);
    pen.tags.decoration(() => pen.doc.rect(40, 800, 20, 10).fill('#161616'));
  }
  pen.doc.outline.addItem('Überschrift');
  pen.tags.end();
  pen.doc.end();
}

const streamed = (doc: PDFKit.PDFDocument): Promise<Buffer> =>
  new Promise((resolve) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
  });

it.each([true, false])('byte for byte, with pages kept to the end: %s', async (buffered) => {
  const theirs = penOf(buffered);
  const want = streamed(theirs.doc);
  draw(theirs, buffered);
  const ours = penOf(buffered);
  const got = gathered(ours.doc);
  draw(ours, buffered);
  const file = Buffer.from(await got);
  expect(file.length).toBeGreaterThan(10_000);
  expect(file.equals(await want)).toBe(true);
});
