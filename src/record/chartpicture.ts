/** One model of a chart, drawn as vectors and in plain signs: readings in their order, with the limits that judge them. */
import { extent, ticks } from 'd3-array';
import { scaleLinear } from 'd3-scale';
import { curveStep, line } from 'd3-shape';

export interface ChartPicture {
  readonly points: readonly {
    readonly value: number;
    /** Rules that signal here; they stand above the point. */
    readonly signals: readonly string[];
  }[];
  readonly centre: number;
  /** Of each point, where it changes with the size of the group. */
  readonly centres?: readonly number[];
  /** Number of the first point; 1 where undefined. */
  readonly from?: number;
  readonly lower: number | readonly number[];
  readonly upper: number | readonly number[];
  /** Limits that a single reading must keep, where single readings are drawn. */
  readonly tolerance?: { readonly low?: number | undefined; readonly high?: number | undefined };
  /** The last point from which limits were found; a line parts it from those that they judge. */
  readonly first?: number | undefined;
}

const [WIDTH, HEIGHT] = [640, 250];
const [LEFT, RIGHT, TOP, BOTTOM] = [58, 12, 16, 26];
const INK = '#161616';
const DASHED = 'stroke-width="1" stroke-dasharray="6 4"';
const QUIET = '#5a5a5a';

/** Tolerance that lies too far out would press all points into a line; it is then told beside the chart. */
const FARTHEST = 1.5;

const limitAt = (limit: number | readonly number[], i: number): number =>
  typeof limit === 'number' ? limit : limit[i]!;

/** Least and greatest of all that is drawn. */
function reach({ points, lower, upper, centre, tolerance }: ChartPicture): readonly [number, number] {
  const values = points.flatMap(({ value }, i) => [value, limitAt(lower, i), limitAt(upper, i)]);
  let [low = centre, high = centre] = extent([...values, centre]);
  const room = (high - low) * FARTHEST;
  for (const each of [tolerance?.low, tolerance?.high])
    if (each !== undefined && each >= low - room && each <= high + room) {
      low = Math.min(low, each);
      high = Math.max(high, each);
    }
  if (low < high) return [low, high];
  // Shares and ranges are not below zero.
  return low >= 0 ? [0, low === 0 ? 1 : 2 * low] : [2 * low, 0];
}

/** A figure without noise in its last digits. */
export const plainFigure = (value: number): string => String(Number(value.toPrecision(5)));

export function chartSvg(picture: ChartPicture): string {
  const { points, lower, upper, centre, centres, tolerance, first, from = 1 } = picture;
  const reached = reach(picture);
  const y = scaleLinear(reached, [HEIGHT - BOTTOM, TOP]).nice(5);
  const x = scaleLinear([0.5, points.length + 0.5], [LEFT, WIDTH - RIGHT]);
  const at = (value: number) => value.toFixed(1);
  const out: string[] = [];
  const rule = (value: number, look: string) =>
    out.push(
      `<line x1="${LEFT}" y1="${at(y(value))}" x2="${WIDTH - RIGHT}" y2="${at(y(value))}" stroke="${INK}" ${look}/>`,
    );
  // Figures alone: nothing in them needs an escape.
  const figure = (value: number, left: number, top: number, anchor: 'middle' | 'end') =>
    out.push(
      `<text x="${at(left)}" y="${at(top)}" font-size="11" text-anchor="${anchor}" fill="${INK}">${plainFigure(value)}</text>`,
    );
  const [bottom, top] = y.domain() as [number, number];
  for (const tick of ticks(bottom, top, 5)) {
    out.push(
      `<line x1="${LEFT - 4}" y1="${at(y(tick))}" x2="${LEFT}" y2="${at(y(tick))}" stroke="${QUIET}" stroke-width="0.8"/>`,
    );
    figure(tick, LEFT - 7, y(tick) + 4, 'end');
  }
  out.push(
    `<line x1="${LEFT}" y1="${TOP}" x2="${LEFT}" y2="${HEIGHT - BOTTOM}" stroke="${QUIET}" stroke-width="0.8"/>`,
  );
  for (const [limit, look] of [
    [centres ?? centre, 'stroke-width="0.8"'],
    [lower, DASHED],
    [upper, DASHED],
  ] as const)
    if (typeof limit === 'number') rule(limit, look);
    else {
      const steps = line<number>(
        (_, i) => x(i + 1),
        (value) => y(value),
      ).curve(curveStep);
      out.push(`<path d="${steps(limit) ?? ''}" fill="none" stroke="${INK}" ${look}/>`);
    }
  for (const each of [tolerance?.low, tolerance?.high])
    if (each !== undefined && each >= bottom && each <= top)
      rule(each, 'stroke-width="1.6" stroke-dasharray="1.5 3"');
  if (first !== undefined && first < points.length)
    out.push(
      `<line x1="${at(x(first + 0.5))}" y1="${TOP}" x2="${at(x(first + 0.5))}" y2="${HEIGHT - BOTTOM}" stroke="${QUIET}" stroke-width="0.8" stroke-dasharray="2 3"/>`,
    );
  const many = points.length > MOST_DRAWN;
  const drawn = many ? ends(points.map(({ value }) => value)) : points.map((_, i) => i);
  const path = drawn.map((i) => `${at(x(i + 1))},${at(y(points[i]!.value))}`).join(' ');
  out.push(`<polyline points="${path}" fill="none" stroke="${QUIET}" stroke-width="0.7"/>`);
  const size = points.length > 150 ? 1.2 : 2.4;
  for (const [i, { value, signals }] of points.entries()) {
    const [cx, cy] = [x(i + 1), y(value)];
    if (signals.length === 0) {
      if (many) continue;
      out.push(`<circle cx="${at(cx)}" cy="${at(cy)}" r="${size}" fill="${INK}"/>`);
      continue;
    }
    // A square on its corner, empty within: another shape, not another colour.
    const r = size + 3;
    out.push(
      `<polygon points="${at(cx)},${at(cy - r)} ${at(cx + r)},${at(cy)} ${at(cx)},${at(cy + r)} ${at(cx - r)},${at(cy)}" fill="#ffffff" stroke="${INK}" stroke-width="1.6"/>`,
    );
  }
  for (const tick of countTicks(points.length, from))
    figure(tick, x(tick - from + 1), HEIGHT - BOTTOM + 15, 'middle');
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="sans-serif">${out.join('')}</svg>`;
}

/** Whole numbers of points. */
const countTicks = (n: number, from: number): readonly number[] => [
  from,
  ...ticks(from, from + n - 1, 8).filter((tick) => Number.isInteger(tick) && tick > from),
];

/** More points than a page has places for are drawn as a line alone, and those that signal. */
const MOST_DRAWN = 1200;

/** Of each stretch that falls on one place of the page, where its least and its greatest value stand. */
function ends(values: readonly number[]): number[] {
  const stretch = Math.ceil(values.length / (MOST_DRAWN / 2));
  const out: number[] = [];
  for (let from = 0; from < values.length; from += stretch) {
    let [least, most] = [from, from];
    for (let i = from; i < Math.min(values.length, from + stretch); i++) {
      if (values[i]! < values[least]!) least = i;
      if (values[i]! > values[most]!) most = i;
    }
    out.push(Math.min(least, most), Math.max(least, most));
  }
  return out;
}

/** Columns of a terminal, less one. */
export const TERMINAL = 79;

const [COLUMNS, ROWS] = [66, 13];
/** Below this a chart shows nothing. */
const FEWEST_ROWS = 6;

/**
 * In signs of ASCII, 76 wide: `o` a reading, `X` one that signals, `-` the limits, `=` the centre, `.` a tolerance. Where there are
 * more readings than columns, a column shows all that fall into it.
 */
export function chartSigns(picture: ChartPicture, most = ROWS): string[] {
  const height = Math.max(FEWEST_ROWS, Math.min(ROWS, most));
  const { points, lower, upper, centre, centres, tolerance, first, from = 1 } = picture;
  const [low, high] = reach(picture);
  const y = scaleLinear([low, high], [height - 1, 0]);
  const row = (value: number) => Math.min(height - 1, Math.max(0, Math.round(y(value))));
  const wide = points.length * 2 <= COLUMNS ? 2 : 1;
  const used = Math.min(COLUMNS, points.length * wide);
  const column = (i: number) =>
    points.length * wide <= COLUMNS ? i * wide : Math.floor((i * COLUMNS) / points.length);
  const rows = Array.from({ length: height }, () => Array.from({ length: used }, () => ' '));
  const across = (value: number, sign: string) => {
    for (let c = 0; c < used; c++) rows[row(value)]![c] = sign;
  };
  for (const each of [tolerance?.low, tolerance?.high])
    if (each !== undefined && each >= low && each <= high) across(each, '.');
  for (const limit of [lower, upper])
    if (typeof limit === 'number') across(limit, '-');
    else
      for (const [i, value] of limit.entries())
        for (let c = column(i); c < Math.min(used, column(i) + wide); c++) rows[row(value)]![c] = '-';
  if (centres === undefined) across(centre, '=');
  else
    for (const [i, value] of centres.entries())
      for (let c = column(i); c < Math.min(used, column(i) + wide); c++) rows[row(value)]![c] = '=';
  if (first !== undefined && first < points.length)
    for (const each of rows) if (each[column(first) - 1] === ' ') each[column(first) - 1] = ':';
  /** What lies beyond a limit, or within it, is drawn on that side of it, however near it is. */
  const besides = (value: number, i: number): number => {
    const at = row(value);
    const [above, below] = [limitAt(upper, i), limitAt(lower, i)];
    if (at === row(above) && above > centre) return Math.max(0, value > above ? at - 1 : at + 1);
    if (at === row(below) && below < centre) return Math.min(height - 1, value < below ? at + 1 : at - 1);
    return at;
  };
  for (const [i, { value, signals }] of points.entries()) {
    const cells = rows[besides(value, i)]!;
    if (signals.length > 0) cells[column(i)] = 'X';
    else if (cells[column(i)] !== 'X') cells[column(i)] = 'o';
  }
  const names = new Map<number, string>();
  for (const value of [low, high, centre]) names.set(row(value), plainFigure(value));
  for (const limit of [lower, upper])
    if (typeof limit === 'number') names.set(row(limit), plainFigure(limit));
  return [
    ...rows.map((cells, i) => `${(names.get(i) ?? '').padStart(8)} |${cells.join('')}`.trimEnd()),
    `${' '.repeat(9)}+${'-'.repeat(used)}`,
    footSigns(points.length, from, column, used),
  ];
}

function footSigns(n: number, first: number, column: (i: number) => number, used: number): string {
  const cells = Array.from({ length: used + 6 }, () => ' ');
  for (const tick of countTicks(n, first)) {
    const text = String(tick);
    const from = column(tick - first);
    if (cells.slice(Math.max(0, from - 1), from + text.length + 1).every((cell) => cell === ' '))
      for (const [k, sign] of [...text].entries()) cells[from + k] = sign;
  }
  return `${' '.repeat(10)}${cells.join('')}`.trimEnd();
}
