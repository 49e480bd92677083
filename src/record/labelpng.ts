/** A label as a black-and-white PNG, for label printers that only accept images. */
import { create, type Font, type PathCommand } from 'fontkit';
import { PNG } from 'pngjs';
import type { Label, LabelMark } from './labelmarks.js';
import type { PdfAssets } from './pdfpen.js';

/** @param dpi dots per inch: 203, 300 and 600 are usual. Bars snap to whole pixels so they stay even. */
export function labelPng(label: Label, dpi: number, assets: PdfAssets): Uint8Array {
  const scale = dpi / 25.4;
  const raster = new Raster(Math.round(label.w * scale), Math.round(label.h * scale));
  const fonts = {
    regular: create(assets.regular),
    bold: create(assets.bold),
  };
  for (const mark of label.marks)
    drawMark(raster, mark, scale, mark.kind === 'words' && mark.bold ? fonts.bold : fonts.regular);
  const png = new PNG({ width: raster.width, height: raster.height });
  for (let i = 0; i < raster.dark.length; i++)
    png.data.fill(raster.dark[i] ? 0 : 255, i * 4, i * 4 + 3).fill(255, i * 4 + 3, i * 4 + 4);
  return PNG.sync.write(png, { colorType: 0 });
}

type Point = readonly [number, number];

function drawMark(raster: Raster, mark: LabelMark, scale: number, font: Font): void {
  switch (mark.kind) {
    case 'box':
      raster.box(mark.x * scale, mark.y * scale, (mark.x + mark.w) * scale, (mark.y + mark.h) * scale);
      return;
    case 'line':
      for (const [from, to] of mark.dashed ? dashes(mark) : [[0, 1] as const]) {
        const at = (t: number): Point => [
          (mark.x1 + (mark.x2 - mark.x1) * t) * scale,
          (mark.y1 + (mark.y2 - mark.y1) * t) * scale,
        ];
        raster.stroke(at(from), at(to), Math.max(1, mark.width * scale));
      }
      return;
    case 'words': {
      const { glyphs } = font.layout(mark.text.normalize('NFC'));
      const em = glyphs.reduce((sum, { advanceWidth }) => sum + advanceWidth, 0) / font.unitsPerEm;
      const size = Math.min(mark.size, mark.room / Math.max(em, 0.001));
      const unit = (size * scale) / font.unitsPerEm;
      let x = (mark.anchor === 'middle' ? mark.x - (em * size) / 2 : mark.x) * scale;
      for (const glyph of glyphs) {
        raster.fill(
          outlines(glyph.path.commands).map((ring) =>
            ring.map(([gx, gy]): Point => [x + gx * unit, mark.y * scale - gy * unit]),
          ),
        );
        x += glyph.advanceWidth * unit;
      }
    }
  }
}

function dashes(mark: LabelMark & { kind: 'line' }): (readonly [number, number])[] {
  const length = Math.hypot(mark.x2 - mark.x1, mark.y2 - mark.y1);
  const count = Math.ceil(length / 2);
  return Array.from(
    { length: count },
    (_, i) => [(i * 2) / length, Math.min(1, (i * 2 + 1.2) / length)] as const,
  );
}

/** A glyph outline as rings of points; each curve becomes eight line segments. */
function outlines(commands: readonly PathCommand[]): Point[][] {
  const rings: Point[][] = [];
  for (const { command, args } of commands) {
    const ring = rings.at(-1);
    if (command === 'moveTo') rings.push([[args[0]!, args[1]!]]);
    else if (command === 'lineTo') ring?.push([args[0]!, args[1]!]);
    else if (command === 'quadraticCurveTo' && ring) {
      const [x0, y0] = ring.at(-1)!;
      const [cx = 0, cy = 0, x = 0, y = 0] = args;
      for (let i = 1; i <= 8; i++) {
        const t = i / 8;
        const u = 1 - t;
        ring.push([u * u * x0 + 2 * u * t * cx + t * t * x, u * u * y0 + 2 * u * t * cy + t * t * y]);
      }
    }
  }
  return rings;
}

class Raster {
  readonly dark: Uint8Array;
  readonly width: number;
  readonly height: number;

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
    this.dark = new Uint8Array(width * height);
  }

  /** Edges are rounded to whole pixels, so adjacent bars neither overlap nor leave gaps. */
  box(left: number, top: number, right: number, bottom: number): void {
    const [x0, x1] = [Math.max(0, Math.round(left)), Math.min(this.width, Math.round(right))];
    for (let y = Math.max(0, Math.round(top)); y < Math.min(this.height, Math.round(bottom)); y++)
      this.dark.fill(1, y * this.width + x0, y * this.width + x1);
  }

  /** Fills rings by the non-zero winding rule, as font outlines require. */
  fill(rings: readonly (readonly Point[])[]): void {
    const edges = rings.flatMap((ring) => ring.map((a, i) => [a, ring[(i + 1) % ring.length]!] as const));
    const ys = edges.flatMap(([[, y]]) => y);
    const top = Math.max(0, Math.floor(Math.min(...ys)));
    const bottom = Math.min(this.height - 1, Math.ceil(Math.max(...ys)));
    for (let row = top; row <= bottom; row++) {
      const y = row + 0.5;
      const crossings = edges
        .filter(([[, ay], [, by]]) => ay <= y !== by <= y)
        .map(([[ax, ay], [bx, by]]) => ({
          x: ax + ((y - ay) / (by - ay)) * (bx - ax),
          way: by > ay ? 1 : -1,
        }))
        .sort((a, b) => a.x - b.x);
      let winding = 0;
      crossings.forEach(({ x, way }, i) => {
        winding += way;
        const next = crossings[i + 1];
        if (winding !== 0 && next)
          for (
            let column = Math.max(0, Math.ceil(x - 0.5));
            column + 0.5 <= Math.min(this.width, next.x);
            column++
          )
            this.dark[row * this.width + column] = 1;
      });
    }
  }

  stroke([x1, y1]: Point, [x2, y2]: Point, width: number): void {
    const length = Math.hypot(x2 - x1, y2 - y1);
    if (length === 0) return;
    const [dx, dy] = [((y2 - y1) / length) * (width / 2), (-(x2 - x1) / length) * (width / 2)];
    this.fill([
      [
        [x1 + dx, y1 + dy],
        [x2 + dx, y2 + dy],
        [x2 - dx, y2 - dy],
        [x1 - dx, y1 - dy],
      ],
    ]);
  }
}
