/** The elevation as SVG for documents: the same geometry, with the part in question and its marks dimensioned. */
import { mmText } from '../base/formula.js';
import { plain } from '../base/text.js';
import {
  type Elevation,
  type ElevationMark,
  openingTriangle,
  type Segment,
  spotPlaces,
} from './elevation.js';
import type { Rect, Spot } from './types.js';

export interface DrawSvgOptions {
  readonly spot?: Spot;
  readonly item?: string;
  readonly triangles: 'apex-at-hinge' | 'apex-at-handle';
  /** Width of the picture in px; its height follows. */
  readonly width?: number;
}

/** A complete `<svg>` element without scripts, styles from outside or fonts of its own. */
export function drawSvg(view: Elevation, options: DrawSvgOptions): string {
  const places = spotPlaces(view, options.spot, options.item);
  const margin = Math.max(view.w, view.h) * 0.12;
  const type = Math.max(view.w, view.h) * 0.028;
  const thin = Math.max(view.w, view.h) * 0.0015;
  const total = { w: view.w + 2 * margin, h: view.h + 2 * margin };
  const px = (x: number): string => n(x + margin);
  const py = (y: number): string => n(view.h - y + margin);
  const rect = (box: Rect, attributes: string): string =>
    `<rect x="${px(box.x)}" y="${py(box.y + box.h)}" width="${n(box.w)}" height="${n(box.h)}" ${attributes}/>`;
  const line = ({ a, b }: Segment, attributes: string): string =>
    `<line x1="${px(a.x)}" y1="${py(a.y)}" x2="${px(b.x)}" y2="${py(b.y)}" ${attributes}/>`;
  const words = (x: string, y: string, text: string, more = ''): string =>
    `<text x="${x}" y="${y}" font-size="${n(type)}" text-anchor="middle" ${more}>${escaped(text)}</text>`;
  const out: string[] = [];
  out.push(
    rect({ x: 0, y: 0, w: view.w, h: view.h }, `fill="#fff" stroke="#000" stroke-width="${n(thin * 2)}"`),
  );
  out.push(rect(view.inner, `fill="none" stroke="#000" stroke-width="${n(thin)}"`));
  for (const corner of [0, 1, 2, 3])
    out.push(line(mitre(view, corner), `stroke="#000" stroke-width="${n(thin)}"`));
  for (const { box } of view.dividers)
    out.push(rect(box, `fill="#fff" stroke="#000" stroke-width="${n(thin)}"`));
  for (const light of view.lights) {
    if (light.sash) out.push(rect(light.sash, `fill="none" stroke="#000" stroke-width="${n(thin * 1.5)}"`));
    out.push(
      rect(
        light.glass,
        `fill="none" stroke="#555" stroke-width="${n(thin * 0.7)}" stroke-dasharray="${n(thin * 6)} ${n(thin * 4)}"`,
      ),
    );
    for (const each of openingTriangle(light, options.triangles))
      out.push(line(each, `stroke="#000" stroke-width="${n(thin)}"`));
    if (light.handle)
      out.push(
        `<circle cx="${px(light.handle.x)}" cy="${py(light.handle.y)}" r="${n(type * 0.35)}" fill="#000"/>`,
      );
    out.push(
      words(
        px(light.box.x + light.box.w / 2),
        py(light.box.y + light.box.h / 2),
        light.id,
        'font-weight="bold"',
      ),
    );
  }
  // Strong lines are wide as well as coloured: nothing is said by colour alone.
  for (const each of places.lines) out.push(line(each, `stroke="#b00" stroke-width="${n(thin * 5)}"`));
  for (const { x, y } of places.points)
    out.push(
      `<circle cx="${px(x)}" cy="${py(y)}" r="${n(type * 0.4)}" fill="none" stroke="#b00" stroke-width="${n(thin * 2.5)}"/>`,
    );
  out.push(...measures(places.measures));
  out.push(words(px(view.w / 2), n(total.h - margin * 0.25), mmText(view.w)));
  const side = { x: n(margin * 0.4), y: py(view.h / 2) };
  out.push(words(side.x, side.y, mmText(view.h), `transform="rotate(-90 ${side.x} ${side.y})"`));
  const width = options.width ?? 480;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${n(width)}" height="${n((width * total.h) / total.w)}" viewBox="0 0 ${n(total.w)} ${n(total.h)}" font-family="sans-serif" role="img">`,
    `<title>${escaped(`${view.unit} seen from outside`)}</title>`,
    ...out,
    '</svg>',
  ].join('\n');

  function measures(marks: readonly ElevationMark[]): string[] {
    const shown = new Set<string>();
    return marks.flatMap((mark) => {
      const text = mmText(mark.at);
      const key = `${mark.axis} ${Math.round(mark.x)} ${Math.round(mark.y)} ${text}`;
      if (shown.has(key)) return [];
      shown.add(key);
      const x = px(mark.x + (mark.axis === 'y' ? type * 1.4 : 0));
      const y = mark.axis === 'y' ? py(mark.y) : py(mark.y + type * 0.9);
      return [
        mark.axis === 'x'
          ? words(x, y, text, `fill="#b00" transform="rotate(-60 ${x} ${y})"`)
          : words(x, y, text, 'fill="#b00"'),
      ];
    });
  }
}

function mitre({ w, h, inner }: Elevation, corner: number): Segment {
  const right = corner === 1 || corner === 2;
  const top = corner >= 2;
  return {
    a: { x: right ? w : 0, y: top ? h : 0 },
    b: { x: right ? inner.x + inner.w : inner.x, y: top ? inner.y + inner.h : inner.y },
  };
}

const n = (value: number): string => String(Math.round(value * 100) / 100);
const escaped = (text: string): string =>
  plain(text).replace(
    /[&<>"']/g,
    (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' })[c]!,
  );
