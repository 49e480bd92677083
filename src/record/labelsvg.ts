/** Labels as SVG: one label, or a sheet of them. Text stays text, so it can be searched and read aloud. */
import { escapeHtml } from './html.js';
import type { Label, LabelMark, Stock } from './labelmarks.js';

const n = (value: number) => String(Math.round(value * 1000) / 1000);

export const labelSvg = (label: Label): string =>
  `${open(label.w, label.h, label.title)}${label.marks.map(markSvg).join('')}</svg>\n`;

export function sheetSvg(
  placed: readonly { readonly label: Label; readonly x: number; readonly y: number }[],
  stock: Stock,
): string {
  const groups = placed.map(
    ({ label, x, y }) =>
      `<g transform="translate(${n(x)} ${n(y)})"><desc>${escapeHtml(label.title)}</desc>${label.marks.map(markSvg).join('')}</g>`,
  );
  return `${open(stock.page.w, stock.page.h, `${placed.length} labels`)}${groups.join('')}</svg>\n`;
}

const open = (w: number, h: number, title: string) =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${n(w)}mm" height="${n(h)}mm" viewBox="0 0 ${n(w)} ${n(h)}" role="img" aria-label="${escapeHtml(title)}" font-family="'Noto Sans','Liberation Sans',Arial,sans-serif"><title>${escapeHtml(title)}</title><rect x="0" y="0" width="${n(w)}" height="${n(h)}" fill="#ffffff"/>`;

function markSvg(mark: LabelMark): string {
  switch (mark.kind) {
    case 'box':
      return `<rect x="${n(mark.x)}" y="${n(mark.y)}" width="${n(mark.w)}" height="${n(mark.h)}" fill="#000000" shape-rendering="crispEdges"/>`;
    case 'line':
      return `<line x1="${n(mark.x1)}" y1="${n(mark.y1)}" x2="${n(mark.x2)}" y2="${n(mark.y2)}" stroke="#000000" stroke-width="${n(mark.width)}"${mark.dashed ? ' stroke-dasharray="1.2 0.8"' : ''}/>`;
    case 'words': {
      // Bold characters average at most about 0.62 of the type size in width; longer text is shrunk.
      const fitting = Math.min(mark.size, mark.room / (Math.max(1, [...mark.text].length) * 0.62));
      return `<text x="${n(mark.x)}" y="${n(mark.y)}" font-size="${n(fitting)}"${mark.bold ? ' font-weight="700"' : ''}${mark.anchor === 'middle' ? ' text-anchor="middle"' : ''}>${escapeHtml(mark.text)}</text>`;
    }
  }
}
