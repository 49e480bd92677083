/** Draws the elevation in terminal characters, scaled to the space available. */
import { mmText } from '../base/formula.js';
import { sanitize } from '../base/text.js';
import {
  type Elevation,
  type ElevationLight,
  type ElevationMark,
  middle,
  openingTriangle,
  ring,
  type Segment,
  type Spotted,
  spotPlaces,
} from './elevation.js';
import type { Rect, Spot } from './types.js';

export interface DrawTextOptions {
  readonly columns: number;
  readonly rows: number;
  readonly ascii: boolean;
  readonly spot?: Spot;
  readonly item?: string;
  /** Kinds of marks whose places are written below; all of the spot if left out. */
  readonly measured?: ReadonlySet<string>;
  readonly triangles: 'apex-at-hinge' | 'apex-at-handle';
}

/** At most `rows` lines of at most `columns` characters. A character is about twice as tall as it is wide. */
export function drawText(view: Elevation, options: DrawTextOptions): string[] {
  const { columns, rows } = options;
  if (columns < 8 || rows < 4) return [];
  const places = spotPlaces(view, options.spot, options.item);
  const { measured } = options;
  const note = measuresLine(
    places.measures.filter(({ kind }) => measured === undefined || measured.has(kind)),
    columns,
  );
  const space = { w: columns - 1, h: rows - 1 - (note === undefined ? 0 : 1) };
  const scale = Math.min(space.w / view.w, (space.h * 2) / view.h);
  const size = {
    w: Math.max(4, Math.round(view.w * scale)),
    h: Math.max(2, Math.round((view.h * scale) / 2)),
  };
  const grid = new Grid(Math.min(size.w, columns - 1), Math.min(size.h, space.h), view, options.ascii);

  grid.box({ x: 0, y: 0, w: view.w, h: view.h }, 'line');
  for (const divider of view.dividers) grid.line(stretched(middle(divider), view), 'line');
  for (const light of view.lights) {
    grid.room(light);
    for (const line of openingTriangle(light, options.triangles))
      grid.slope({ ...line, light: light.id }, light.opensIn ? 'broken' : 'faint');
  }
  for (const light of view.lights) grid.label(light.box, light.id);
  for (const line of places.lines) {
    if (line.a.x === line.b.x || line.a.y === line.b.y) grid.line(onGrid(line, view), 'strong');
    else grid.slope(line, 'strong');
  }
  for (const { id, handle } of view.lights)
    if (handle) grid.point({ ...handle, light: id }, options.ascii ? 'o' : '○');
  for (const point of places.points) grid.point(point, options.ascii ? '@' : '●');
  return [...grid.lines(), ...(note === undefined ? [] : [note])];
}

/** Draws dividers up to the lines they end on, although the profile stops at the sight line. */
function stretched({ a, b }: Segment, view: Elevation): Segment {
  const reach = (value: number, whole: number, others: readonly number[]): number =>
    [0, whole, ...others].reduce((best, each) =>
      Math.abs(each - value) < Math.abs(best - value) ? each : best,
    );
  const xs = view.dividers.filter(({ direction }) => direction === 'upright').map((d) => middle(d).a.x);
  const ys = view.dividers.filter(({ direction }) => direction === 'level').map((d) => middle(d).a.y);
  return a.x === b.x
    ? { a: { x: a.x, y: reach(a.y, view.h, ys) }, b: { x: b.x, y: reach(b.y, view.h, ys) } }
    : { a: { x: reach(a.x, view.w, xs), y: a.y }, b: { x: reach(b.x, view.w, xs), y: b.y } };
}
const onGrid = (line: Segment, view: Elevation): Segment =>
  view.dividers.some((d) => middle(d).a.x === line.a.x && middle(d).a.y === line.a.y)
    ? stretched(line, view)
    : line;

/** Positions of the highlighted marks, as many as fit: "frame-sill left 112 450 788". */
function measuresLine(marks: readonly ElevationMark[], columns: number): string | undefined {
  if (marks.length === 0) return undefined;
  const groups = new Map<string, ElevationMark[]>();
  for (const mark of marks)
    groups.set(`${mark.part} ${mark.kind}`, [...(groups.get(`${mark.part} ${mark.kind}`) ?? []), mark]);
  const texts = [...groups.values()].map((group) => {
    const from = group[0]!.axis === 'x' ? 'left' : 'bottom';
    return `${group[0]!.role} ${from} ${group.map(({ at }) => mmText(at)).join(' ')}`;
  });
  let line = '';
  for (const text of [...new Set(texts)]) {
    const next = line === '' ? text : `${line}; ${text}`;
    if (next.length > columns) return line === '' ? text.slice(0, columns) : line;
    line = next;
  }
  return line;
}

/** `broken`: an opening away from whoever looks at it. */
type Weight = 'faint' | 'broken' | 'line' | 'strong';
interface Room {
  readonly box: Rect;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}
const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
const UP = 1;
const DOWN = 2;
const LEFT = 4;
const RIGHT = 8;
const LIGHT_LINES = ' ╵╷│╴┘┐┤╶└┌├─┴┬┼';
const HEAVY_LINES = ' ╹╻┃╸┛┓┫╺┗┏┣━┻┳╋';

class Grid {
  readonly #w: number;
  readonly #h: number;
  readonly #view: Elevation;
  readonly #ascii: boolean;
  readonly #arms: Uint8Array;
  readonly #strong: Uint8Array;
  readonly #text: (string | undefined)[];

  constructor(w: number, h: number, view: Elevation, ascii: boolean) {
    this.#w = w + 1;
    this.#h = h + 1;
    this.#view = view;
    this.#ascii = ascii;
    this.#arms = new Uint8Array(this.#w * this.#h);
    this.#strong = new Uint8Array(this.#w * this.#h);
    this.#text = Array.from({ length: this.#w * this.#h });
  }

  /** Where each light's pieces are drawn: slightly inside the opening, to set them apart. */
  readonly #rooms = new Map<string, Room>();

  #cell2(x: number, y: number, light?: string): { c: number; r: number } {
    const room = light === undefined ? undefined : this.#rooms.get(light);
    if (!room) {
      const c = Math.round((x / this.#view.w) * (this.#w - 1));
      const r = this.#h - 1 - Math.round((y / this.#view.h) * (this.#h - 1));
      return { c: clamp(c, 0, this.#w - 1), r: clamp(r, 0, this.#h - 1) };
    }
    const { box, left, right, top, bottom } = room;
    const c = left + Math.round(((x - box.x) / box.w) * (right - left));
    const r = bottom - Math.round(((y - box.y) / box.h) * (bottom - top));
    return { c: clamp(c, left, right), r: clamp(r, top, bottom) };
  }

  line({ a, b, light }: Segment, weight: Weight): void {
    const from = this.#cell2(a.x, a.y, light);
    const to = this.#cell2(b.x, b.y, light);
    this.#cells(from.c, from.r, to.c, to.r, weight);
  }
  box(box: Rect, weight: Weight): void {
    for (const line of ring(box)) this.line(line, weight);
  }
  /** Chooses where a light's pieces are drawn, and draws its sash there if there is room. */
  room({ id, box, sash }: ElevationLight): void {
    const inside = {
      l: this.#edge(box.x, box.y + box.h / 2, 1, 0),
      r: this.#edge(box.x + box.w, box.y + box.h / 2, -1, 0),
    };
    const inside2 = {
      t: this.#edge(box.x + box.w / 2, box.y + box.h, 0, 1),
      b: this.#edge(box.x + box.w / 2, box.y, 0, -1),
    };
    const [left, right, top, bottom] = [inside.l + 1, inside.r - 1, inside2.t + 1, inside2.b - 1];
    if (right - left < 3 || bottom - top < 1) return;
    this.#rooms.set(id, { box: sash ?? box, left, right, top, bottom });
    if (sash) for (const line of ring(sash)) this.line({ ...line, light: id }, 'line');
  }
  /** The drawn line bounding an opening: at its sight line, or one cell outside it. */
  #edge(x: number, y: number, right: -1 | 0 | 1, down: -1 | 0 | 1): number {
    const { c, r } = this.#cell2(x, y);
    for (const step of [1, 0, -1, -2, -3]) {
      const at = { c: c + right * step, r: r + down * step };
      const arms =
        at.c < 0 || at.r < 0 || at.c >= this.#w || at.r >= this.#h ? 0 : this.#arms[at.r * this.#w + at.c]!;
      if (right !== 0 ? (arms & (UP | DOWN)) !== 0 : (arms & (LEFT | RIGHT)) !== 0)
        return right !== 0 ? at.c : at.r;
    }
    return right !== 0 ? c : r;
  }
  #cells(c1: number, r1: number, c2: number, r2: number, weight: Weight): void {
    const level = r1 === r2;
    const [low, high] = level ? [Math.min(c1, c2), Math.max(c1, c2)] : [Math.min(r1, r2), Math.max(r1, r2)];
    for (let i = low; i <= high; i++) {
      const cell = level ? r1 * this.#w + i : i * this.#w + c1;
      if (i > low) this.#arms[cell] = this.#arms[cell]! | (level ? LEFT : UP);
      if (i < high) this.#arms[cell] = this.#arms[cell]! | (level ? RIGHT : DOWN);
      if (weight === 'strong') this.#strong[cell] = 1;
    }
  }
  slope({ a, b, light }: Segment, weight: Weight): void {
    const { c: c1, r: r1 } = this.#cell2(a.x, a.y, light);
    const { c: c2, r: r2 } = this.#cell2(b.x, b.y, light);
    const steps = Math.max(Math.abs(c2 - c1), Math.abs(r2 - r1));
    const rising = (c2 - c1) * (r2 - r1) < 0;
    const mark =
      weight === 'strong'
        ? this.#ascii
          ? '*'
          : '•'
        : this.#ascii
          ? rising
            ? '/'
            : '\\'
          : rising
            ? '╱'
            : '╲';
    let last = -1;
    for (let i = 0; i <= steps; i++) {
      const r = Math.round(r1 + ((r2 - r1) * i) / Math.max(1, steps));
      const c = Math.round(c1 + ((c2 - c1) * i) / Math.max(1, steps));
      // A shallow slope gets one stroke per row or, if very shallow, one in every third column.
      if (weight !== 'strong' && r === last && i % 3 !== 0) continue;
      if (weight === 'broken' && r % 2 !== 0) {
        last = r;
        continue;
      }
      last = r;
      this.#text[r * this.#w + c] = mark;
    }
  }
  point({ x, y, light }: Spotted, mark: string): void {
    const { c, r } = this.#cell2(x, y, light);
    this.#text[r * this.#w + c] = `!${mark}`;
  }
  label(box: Rect, text: string): void {
    const { c, r: row } = this.#cell2(box.x + box.w / 2, box.y + box.h / 2);
    const col = c - Math.floor(text.length / 2);
    [...text].forEach((letter, i) => {
      if (col + i > 0 && col + i < this.#w - 1) this.#text[row * this.#w + col + i] = `!${letter}`;
    });
  }
  lines(): string[] {
    return Array.from({ length: this.#h }, (_, r) =>
      Array.from({ length: this.#w }, (_, c) => this.#cell(r * this.#w + c))
        .join('')
        .trimEnd(),
    );
  }
  #cell(cell: number): string {
    const text = this.#text[cell];
    if (text?.startsWith('!')) return text.slice(1);
    const arms = this.#arms[cell]!;
    if (arms === 0) return text ?? ' ';
    const strong = this.#strong[cell] === 1;
    if (!this.#ascii) return (strong ? HEAVY_LINES : LIGHT_LINES)[arms]!;
    const level = (arms & (LEFT | RIGHT)) !== 0;
    const upright = (arms & (UP | DOWN)) !== 0;
    if (strong) return '#';
    return level && upright ? '+' : level ? '-' : '|';
  }
}

export interface DrawSvgOptions {
  readonly spot?: Spot;
  readonly item?: string;
  readonly triangles: 'apex-at-hinge' | 'apex-at-handle';
  readonly width?: number;
}

/** A complete `<svg>` element without scripts, external styles or fonts of its own. */
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
    out.push(line(joint(view, corner), `stroke="#000" stroke-width="${n(thin)}"`));
  for (const { box } of view.dividers)
    out.push(rect(box, `fill="#fff" stroke="#000" stroke-width="${n(thin)}"`));
  for (const light of view.lights) {
    if (light.sash) out.push(rect(light.sash, `fill="none" stroke="#000" stroke-width="${n(thin * 1.5)}"`));
    if (light.glass)
      out.push(
        rect(
          light.glass,
          `fill="none" stroke="#555" stroke-width="${n(thin * 0.7)}" stroke-dasharray="${n(thin * 6)} ${n(thin * 4)}"`,
        ),
      );
    // Whole lines open towards whoever looks at it, broken ones away (common practice).
    const away = light.opensIn ? ` stroke-dasharray="${n(thin * 10)} ${n(thin * 6)}"` : '';
    for (const each of openingTriangle(light, options.triangles))
      out.push(line(each, `stroke="#000" stroke-width="${n(thin)}"${away}`));
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
  // Strong lines are wider as well as coloured: colour alone never carries meaning.
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

/** The line where two members of the frame meet. */
function joint({ w, h, inner, corners }: Elevation, corner: number): Segment {
  const right = corner === 1 || corner === 2;
  const top = corner >= 2;
  const outer = { x: right ? w : 0, y: top ? h : 0 };
  const b = { x: right ? inner.x + inner.w : inner.x, y: top ? inner.y + inner.h : inner.y };
  switch (corners[corner]) {
    case 'upright-through':
      return { a: { x: b.x, y: outer.y }, b };
    case 'level-through':
      return { a: { x: outer.x, y: b.y }, b };
    default:
      return { a: outer, b };
  }
}

const n = (value: number): string => String(Math.round(value * 100) / 100);
const escaped = (text: string): string =>
  sanitize(text).replace(
    /[&<>"']/g,
    (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' })[c]!,
  );
