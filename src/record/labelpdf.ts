/** Sheets of labels as PDF, in points, with the embedded font. */
import { buffer } from 'node:stream/consumers';
import { type Label, type LabelMark, type Stock, sheets } from './labelmarks.js';
import { type PdfAssets, Pen } from './pdfpen.js';

const MM = 72 / 25.4;

export async function labelsPdf(
  labels: readonly Label[],
  stock: Stock,
  skip: number,
  made: { readonly at: string; readonly title: string },
  assets: PdfAssets,
): Promise<Uint8Array> {
  const date = new Date(made.at);
  const size: [number, number] = [stock.page.w * MM, stock.page.h * MM];
  const pen = new Pen(
    {
      size,
      margin: 0,
      autoFirstPage: false,
      pdfVersion: '1.7',
      subset: 'PDF/A-2b',
      lang: 'en-GB',
      displayTitle: true,
      info: {
        Title: made.title,
        Creator: 'pinchrod',
        Producer: 'pinchrod',
        CreationDate: date,
        ModDate: date,
      },
    },
    assets,
  );
  const file = buffer(pen.doc);
  for (const page of sheets(labels, stock, skip)) {
    pen.doc.addPage({ size, margin: 0 });
    for (const { label, x, y } of page) {
      pen.doc.save();
      pen.doc.translate(x * MM, y * MM).scale(MM);
      for (const mark of label.marks) drawMark(pen, mark);
      pen.doc.restore();
    }
  }
  pen.doc.end();
  return file;
}

function drawMark(pen: Pen, mark: LabelMark): void {
  const { doc } = pen;
  switch (mark.kind) {
    case 'box':
      doc.rect(mark.x, mark.y, mark.w, mark.h).fill('#000000');
      return;
    case 'line':
      doc.save();
      doc.moveTo(mark.x1, mark.y1).lineTo(mark.x2, mark.y2).lineWidth(mark.width).strokeColor('#000000');
      if (mark.dashed) doc.dash(1.2, { space: 0.8 });
      doc.stroke();
      doc.restore();
      return;
    case 'words': {
      const text = pen.shown(mark.text);
      const wide = pen.width(text, { size: 1, bold: mark.bold, colour: '' });
      const size = Math.min(mark.size, mark.room / Math.max(wide, 0.001));
      const x = mark.anchor === 'middle' ? mark.x - (wide * size) / 2 : mark.x;
      pen.put(text, x, mark.y - size * 1.069, { size, bold: mark.bold, colour: '#000000' });
      return;
    }
  }
}
