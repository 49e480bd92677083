/**
 * The measured frame against its nominal, as pure geometry: points in mm and labels, used for both the terminal drawing
 * and the documents' SVG. The error is magnified by a stated factor; otherwise it would be invisible.
 */

import { type Message, Several } from '../base/words.js';
import { figure, signed } from './decision.js';
import { LENGTH_NAMES } from './misread.js';
import { CORNERS, type Corner, type Corners, distance, ENDS, type Point } from './quadrilateral.js';
import { type Nominal, nominalOf, type SquareSolution } from './square.js';
import { SQUARE_KEYS, type SquareKey } from './types.js';
import { lengthText } from './units.js';
import { measureWords } from './words.js';

export interface AsMeasured {
  /** Magnification of the error. */
  readonly factor: number;
  /** Rectangle of the nominal size (or of the mean sizes if unknown), bl at the origin, y upwards. */
  readonly nominal: Corners;
  readonly drawn: Corners;
  /** The longer diagonal, if they differ by more than the reading uncertainty. */
  readonly long?: 'bl_tr' | 'br_tl';
  /** Text at each length read: "1000.5 (+0.5)". */
  readonly labels: Readonly<Partial<Record<SquareKey, string>>>;
  readonly caption: Message;
}

const FACTORS = [500, 200, 100, 50, 20, 10, 5, 2, 1] as const;
/** The largest error is drawn at most this fraction of the shorter side. */
const SHOWN = 0.09;
const MIN_DEVIATION = 0.05;

/** Undefined if the readings give no figure to draw. `units` applies to labels and caption. */
export function asMeasured(
  solution: SquareSolution,
  nominal?: Nominal,
  units: 'mm' | 'inch' = 'mm',
): AsMeasured | undefined {
  const corners = cornersOf(solution, nominal);
  if (!corners) return undefined;
  const size = nominal ?? {
    w: (distance(corners.bl, corners.br) + distance(corners.tl, corners.tr)) / 2,
    h: (distance(corners.bl, corners.tl) + distance(corners.br, corners.tr)) / 2,
  };
  const rectangle: Corners = {
    bl: { x: 0, y: 0 },
    br: { x: size.w, y: 0 },
    tr: { x: size.w, y: size.h },
    tl: { x: 0, y: size.h },
  };
  const most = Math.max(
    MIN_DEVIATION,
    ...CORNERS.map((corner) => distance(corners[corner], rectangle[corner])),
  );
  const factor = FACTORS.find((f) => f * most <= SHOWN * Math.min(size.w, size.h)) ?? 1;
  const drawn = Object.fromEntries(
    CORNERS.map((corner) => [corner, magnified(rectangle[corner], corners[corner], factor)]),
  ) as Record<keyof Corners, Point>;
  const { difference = 0, differenceU = 0, measured } = solution;
  const long = Math.abs(difference) > 2 * differenceU ? (difference > 0 ? 'bl_tr' : 'br_tl') : undefined;
  const length = (mm: number) => (units === 'mm' ? figure(mm) : lengthText(mm, units));
  const off = (mm: number) => (units === 'mm' ? signed(mm) : signedInches(mm));
  const labels = Object.fromEntries(
    SQUARE_KEYS.filter((key) => measured[key] !== undefined).map((key) => [
      key,
      nominal
        ? `${length(measured[key]!)} (${off(measured[key]! - nominalOf(key, nominal))})`
        : length(measured[key]!),
    ]),
  );
  return {
    factor,
    nominal: rectangle,
    drawn,
    ...(long ? { long } : {}),
    labels,
    caption: nominal
      ? measureWords('picture-nominal', { factor, w: length(size.w), h: length(size.h) })
      : measureWords('picture', { factor }),
  };
}

const signedInches = (mm: number): string => {
  const text = lengthText(mm, 'inch');
  return mm > 0 && text !== '0"' ? `+${text}` : text;
};

const magnified = (from: Point, to: Point, factor: number): Point => ({
  x: from.x + (to.x - from.x) * factor,
  y: from.y + (to.y - from.y) * factor,
});

/** Corners with the bottom along x. With fewer than five lengths, a parallelogram if the sizes are known. */
function cornersOf(solution: SquareSolution, nominal: Nominal | undefined): Corners | undefined {
  if (solution.corners) return solution.corners;
  const { measured, racking } = solution;
  const w = measured.bottom ?? measured.top ?? nominal?.w;
  const h = measured.left ?? measured.right ?? nominal?.h;
  if (solution.kind === 'impossible' || racking === undefined || w === undefined || h === undefined)
    return undefined;
  if (Math.abs(racking) >= h) return undefined;
  const y = Math.sqrt(h * h - racking * racking);
  return { bl: { x: 0, y: 0 }, br: { x: w, y: 0 }, tr: { x: w + racking, y }, tl: { x: racking, y } };
}

const SIDES = ['bottom', 'right', 'top', 'left'] as const satisfies readonly SquareKey[];
/** A character cell is about twice as tall as it is wide. */
const CELL = 2;

export interface TextOptions {
  /** Space available, in characters; the caption and diagonals take the last lines. */
  readonly columns: number;
  readonly rows: number;
  readonly ascii?: boolean;
  /** If false, the drawing gets all the space and the caller shows `legendOf` elsewhere. Default true. */
  readonly legend?: boolean;
  /** Lengths beside the sides. Default true. */
  readonly labels?: boolean;
  /** In whose words its legend is; English if absent. */
  readonly tell?: (message: Message) => string;
}

/** Plain text, at most `rows` lines of at most `columns` characters. Nominal dotted, long diagonal starred. */
export function asMeasuredText(frame: AsMeasured, options: TextOptions): string[] {
  const { tell = String } = options;
  const legend =
    options.legend === false
      ? []
      : legendOf(frame).flatMap((line) => wrapHanging(tell(line), options.columns));
  const labels: AsMeasured['labels'] = options.labels === false ? {} : frame.labels;
  const left = labels.left ?? '';
  const right = labels.right ?? '';
  const gutter = Math.max(left.length, right.length) + 1;
  const columns = options.columns - 2 * gutter;
  const rows =
    options.rows - legend.length - (labels.top === undefined ? 0 : 1) - (labels.bottom === undefined ? 0 : 1);
  if (columns < 8 || rows < 4) return legend.slice(0, options.rows);
  const box = boxOf(frame);
  const scale = Math.min((columns - 1) / box.w, ((rows - 1) * CELL) / box.h);
  const width = Math.round(box.w * scale) + 1;
  const height = Math.round((box.h * scale) / CELL) + 1;
  const grid = Array.from({ length: height }, () => Array.from({ length: width }, () => ' '));
  const cell = (point: Point): Point => ({
    x: (point.x - box.x) * scale,
    y: height - 1 - ((point.y - box.y) * scale) / CELL,
  });
  const draw = (from: Point, to: Point, mark: string | undefined) =>
    line(grid, cell(from), cell(to), mark, options.ascii === true);
  const dot = options.ascii ? '.' : '·';
  for (const key of SIDES) draw(...ends(frame.nominal, key), dot);
  if (frame.long) draw(...ends(frame.drawn, frame.long), '*');
  for (const key of SIDES) draw(...ends(frame.drawn, key), undefined);
  for (const corner of Object.values(frame.drawn)) {
    const { x, y } = cell(corner);
    put(grid, x, y, '+');
  }
  const middle = Math.floor(height / 2);
  const body = grid.map((chars, i) => {
    const before = i === middle ? left : '';
    const after = i === middle ? right : '';
    return `${before.padStart(gutter - 1)} ${chars.join('')} ${after}`.trimEnd();
  });
  const centred = (text: string | undefined) =>
    text === undefined
      ? []
      : [`${' '.repeat(gutter + Math.max(0, Math.floor((width - text.length) / 2)))}${text}`];
  return [...centred(labels.top), ...body, ...centred(labels.bottom), ...legend].map((text) =>
    text.slice(0, options.columns),
  );
}

/** A complete SVG element, size in px, with a title for screen readers. */
export function asMeasuredSvg(
  frame: AsMeasured,
  options: { readonly width: number; readonly height: number },
): string {
  const { width, height } = options;
  const box = boxOf(frame);
  const side = 90;
  const edge = 24;
  const scale = Math.min((width - 2 * side) / box.w, (height - 2 * edge) / box.h);
  const at = ({ x, y }: Point): Point => ({
    x: round(width / 2 + (x - box.x - box.w / 2) * scale),
    y: round(height / 2 - (y - box.y - box.h / 2) * scale),
  });
  const points = (corners: AsMeasured['drawn']) =>
    (['bl', 'br', 'tr', 'tl'] as const satisfies readonly Corner[])
      .map((corner) => at(corners[corner]))
      .map(({ x, y }) => `${x},${y}`)
      .join(' ');
  const long = frame.long && ends(frame.drawn, frame.long).map(at);
  const label = (key: SquareKey, anchor: string, dx: number, dy: number) => {
    const text = frame.labels[key];
    if (text === undefined) return '';
    const [a, b] = ends(frame.drawn, key).map(at) as [Point, Point];
    return `<text x="${round((a.x + b.x) / 2 + dx)}" y="${round((a.y + b.y) / 2 + dy)}" text-anchor="${anchor}">${text}</text>`;
  };
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" font-family="sans-serif" font-size="11">`,
    `<title>${legendOf(frame).join(' ')}</title>`,
    `<polygon points="${points(frame.nominal)}" fill="none" stroke="#777" stroke-width="1" stroke-dasharray="2 3"/>`,
    `<polygon points="${points(frame.drawn)}" fill="none" stroke="#000" stroke-width="2"/>`,
    long
      ? `<line x1="${long[0]!.x}" y1="${long[0]!.y}" x2="${long[1]!.x}" y2="${long[1]!.y}" stroke="#000" stroke-width="1.5" stroke-dasharray="8 3"/>`
      : '',
    label('top', 'middle', 0, -7),
    label('bottom', 'middle', 0, 16),
    label('left', 'end', -7, 4),
    label('right', 'start', 7, 4),
    '</svg>',
  ].join('');
}

/** What the picture shows, in sentences; also its alternative text. */
export function legendOf(frame: AsMeasured): Message[] {
  const diagonals = (['bl_tr', 'br_tl'] as const)
    .filter((key) => frame.labels[key] !== undefined)
    .map((key) =>
      measureWords(frame.long === key ? 'picture-diagonal-long' : 'picture-diagonal', {
        diagonal: LENGTH_NAMES[key],
        label: frame.labels[key]!,
      }),
    );
  return [measureWords('picture-diagonals', { diagonals: new Several(diagonals) }), frame.caption];
}

const ends = (corners: AsMeasured['drawn'], key: SquareKey): [Point, Point] => [
  corners[ENDS[key][0]],
  corners[ENDS[key][1]],
];
const round = (value: number) => Math.round(value * 10) / 10;

function boxOf(frame: AsMeasured): { x: number; y: number; w: number; h: number } {
  const all = [...Object.values(frame.nominal), ...Object.values(frame.drawn)];
  const x = Math.min(...all.map((p) => p.x));
  const y = Math.min(...all.map((p) => p.y));
  return { x, y, w: Math.max(...all.map((p) => p.x)) - x, h: Math.max(...all.map((p) => p.y)) - y };
}

function line(grid: string[][], from: Point, to: Point, mark: string | undefined, ascii: boolean): void {
  const steps = Math.max(1, Math.ceil(Math.max(Math.abs(to.x - from.x), Math.abs(to.y - from.y))));
  const across = Math.abs(to.x - from.x);
  const up = Math.abs(to.y - from.y);
  const rising = (to.x - from.x) * (to.y - from.y) < 0;
  const own =
    across > 2 * up
      ? ascii
        ? '-'
        : '─'
      : up > across / 2 && across < up
        ? ascii
          ? '|'
          : '│'
        : rising
          ? '/'
          : '\\';
  for (let i = 0; i <= steps; i++)
    put(grid, from.x + ((to.x - from.x) * i) / steps, from.y + ((to.y - from.y) * i) / steps, mark ?? own);
}

function put(grid: string[][], x: number, y: number, mark: string): void {
  const row = grid[Math.min(grid.length - 1, Math.max(0, Math.round(y)))]!;
  row[Math.min(row.length - 1, Math.max(0, Math.round(x)))] = mark;
}

/** Wraps a sentence between words; lines after the first are indented by `hang`. */
export function wrapHanging(text: string, columns: number, hang = ''): string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of text.split(' ')) {
    if (current !== '' && current.length + 1 + word.length > columns) {
      lines.push(current);
      current = `${hang}${word}`;
    } else current = current === '' ? word : `${current} ${word}`;
  }
  return [...lines, current];
}
