/** Content of labels, for a unit and for each cut part. Positions in mm; the same marks become SVG, PDF or PNG. */
import bwip, { type RawOptions } from 'bwip-js/node';
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { liftOf } from '../window/masses.js';
import type { LightSetOut, Part, Rect, SetOut } from '../window/types.js';
import { partCode, unitCode } from './codes.js';
import type { Label, LabelMark } from './labelmarks.js';
import { type DocumentSay, figureText3, joined, kilograms, size } from './telling.js';
import { unitSentence } from './unitview.js';

const PAD = 3;
/** Narrowest bar a hand scanner reads at arm's length, and the widest that looks sensible, mm. */
const NARROWEST = 0.19;
const WIDEST = 0.33;

export interface LabelOptions {
  readonly say: DocumentSay;
  readonly w: number;
  readonly h: number;
  readonly workshop: string;
  readonly triangle: 'apex-at-hinge' | 'apex-at-handle';
  /** The unit is scrapped: what is made instead. */
  readonly scrapped?: string | undefined;
}

/** Identity, handing, sketch, mass and lift caution, QR code, and Code 128 with the code as text below. */
export function unitLabel(setOut: SetOut, options: LabelOptions): Label {
  const { unit } = setOut;
  const { w, h, say } = options;
  const code = unitCode(unit.job, unit.id);
  const qr = qrMarks(code, w - PAD, PAD, Math.min(24, h * 0.42));
  const small = h < 45;
  const barHeight = small ? 5.5 : Math.min(11, h * 0.18);
  const bars = barMarks(code, PAD, h - PAD - 3.2 - barHeight, w - 2 * PAD, barHeight);
  const text = stacked(PAD, PAD, qr.left - PAD - 2);
  text.add(sanitize(unit.id), small ? 5.5 : 8, true);
  text.add(
    unit.room === ''
      ? say('doc-label-job', { job: unit.job })
      : say('doc-label-job-room', { job: unit.job, room: unit.room }),
    2.6,
    false,
  );
  text.add(say('doc-label-size', { size: size(unit.width, unit.height) }), small ? 2.8 : 3.4, true);
  if (options.scrapped !== undefined) text.add(say('doc-label-scrapped'), small ? 4 : 5, true);
  else text.add(liftCaution(say, setOut), small ? 2.8 : 3.2, true);
  const below = stacked(PAD, Math.max(text.y, qr.bottom) + (small ? 0.2 : 1), w - 2 * PAD);
  const bottom = bars.marks.length > 0 ? h - PAD - 3.6 - barHeight : h - PAD - 4;
  const room = bottom - below.y;
  const drawn = room > 11 ? sketch(setOut, { x: PAD, y: below.y, w: 30, h: room - 1 }, options.triangle) : [];
  const words = stacked(
    drawn.length > 0 ? PAD + 33 : PAD,
    below.y,
    drawn.length > 0 ? w - 2 * PAD - 33 : w - 2 * PAD,
  );
  // Handing before anything else: in smaller letters where there is little room, never left out for a sketch.
  const sentence =
    options.scrapped === undefined
      ? unitSentence(say, setOut)
      : say('doc-label-instead', { unit: sanitize(options.scrapped) });
  const type = [small ? 2.1 : 2.8, 2.1, 1.8, 1.6].find((each) => words.fits(sentence, each, bottom));
  words.fit(sentence, type ?? 1.6, bottom);
  if (setOut.profileSet.invented) words.fit(say('doc-label-invented'), 2.2, bottom);
  words.fit(sanitize(options.workshop), 2.2, bottom);
  return {
    w,
    h,
    title:
      options.scrapped === undefined
        ? say('doc-label-title', {
            unit: unit.id,
            job: unit.job,
            sentence: unitSentence(say, setOut),
            lift: liftCaution(say, setOut),
            code,
          })
        : say('doc-label-title-scrapped', { unit: unit.id, job: unit.job, code }),
    code,
    marks: [
      ...text.marks,
      ...qr.marks,
      ...drawn,
      ...words.marks,
      ...bars.marks,
      {
        kind: 'words',
        x: w / 2,
        y: h - PAD,
        size: 2.8,
        text: data(code),
        bold: true,
        room: w - 2 * PAD,
        anchor: 'middle',
      },
    ],
    left: [
      ...(bars.marks.length > 0 ? [] : [say('doc-left-bars')]),
      ...(drawn.length > 0 ? [] : [say('doc-left-sketch')]),
      ...words.left.map((text) => say('doc-left-text', { text })),
    ],
  };
}

const LIFTS = {
  'one person': 'doc-lift-one',
  'one or two people': 'doc-lift-one-or-two',
  'two people': 'doc-lift-two',
  'lifting aid': 'doc-lift-aid',
} as const;

/**
 * "12 kg: one person", "24.4 kg: one or two people" (depends on who lifts), "31 kg: TWO PEOPLE". A reminder, not an
 * assessment; the record gives its source.
 */
export function liftCaution(say: DocumentSay, { mass_kg }: SetOut): Spoken {
  const lift = liftOf(mass_kg);
  return say('doc-label-lift', { mass: kilograms(mass_kg), who: say(LIFTS[lift]) });
}

/** A cut part: what, unit, length, ends, mark positions. Its code names the part; a scan opens the unit. */
export function partLabel(setOut: SetOut, part: Part, nth: number, options: LabelOptions): Label {
  const { unit } = setOut;
  const { w, h, say } = options;
  const code = partCode(unit.job, unit.id, part.id, nth);
  const qr = qrMarks(code, w - PAD, PAD, Math.min(16, h * 0.4));
  const small = h < 45;
  const length = figureText3(Math.round(part.length * 10) / 10);
  const text = stacked(PAD, PAD, qr.left - PAD - 2);
  const title = partTitle(setOut, part, say);
  text.fit(title, small ? 3.2 : 4, h / 2, true);
  text.add(data(`${length} mm`), 6, true);
  text.add(
    say('doc-label-ends', {
      a: figureText3(part.ends[0]),
      b: figureText3(part.ends[1]),
      profile: sanitize(part.profile),
    }),
    2.4,
    false,
  );
  if (part.quantity > 1) text.add(say('doc-label-piece', { n: nth, of: part.quantity }), 2.4, false);
  const words = stacked(PAD, Math.max(text.y, qr.bottom) + 0.6, w - 2 * PAD);
  const bottom = h - PAD - 3.4;
  if (part.marks.length > 0) {
    const all = say('doc-label-marks', { datum: sanitize(part.datum), marks: marksByKind(part) });
    const fitting = [2.2, 1.9, 1.6].find((type) => words.fits(all, type, bottom));
    words.fit(all, fitting ?? 1.6, bottom);
  }
  return {
    w,
    h,
    title: say('doc-label-part-title', {
      part: part.id,
      unit: unit.id,
      job: unit.job,
      title,
      length,
      code,
    }),
    code,
    marks: [
      ...text.marks,
      ...qr.marks,
      ...words.marks,
      { kind: 'words', x: PAD, y: h - PAD, size: 2.4, text: data(code), bold: false, room: w - 2 * PAD },
    ],
    left: words.left.map((left) => say('doc-left-text', { text: left })),
  };
}

/** Part labels usually include the unit's id; if not, it is prefixed. */
const partTitle = ({ unit }: SetOut, { label }: Part, say: DocumentSay): Spoken =>
  label.includes(unit.id) ? sanitize(label) : sanitize(say('doc-label-part', { unit: unit.id, part: label }));

/** "drain-inner 112, 497; fixing 75": each kind once, so that a long sill fits on a label. */
function marksByKind({ marks }: Part): Spoken {
  const kinds = new Map<string, string[]>();
  for (const { kind, at } of marks)
    kinds.set(kind, [...(kinds.get(kind) ?? []), figureText3(Math.round(at * 10) / 10)]);
  return joined(
    [...kinds].map(([kind, places]) => sanitize(`${kind} ${places.join(', ')}`)),
    '; ',
  );
}

/** A QR code placed by its top right corner; its quiet zone of four squares lies inside the label's white. */
function qrMarks(text: string, right: number, top: number, side: number) {
  const { size: count, dark } = qrSquares(text);
  const square = side / count;
  const marks: LabelMark[] = [];
  for (let row = 0; row < count; row++)
    for (let column = 0; column < count; column++) {
      if (!dark[row * count + column]) continue;
      let run = 1;
      while (column + run < count && dark[row * count + column + run]) run++;
      marks.push({
        kind: 'box',
        x: right - side + column * square,
        y: top + row * square,
        w: run * square,
        h: square,
      });
      column += run - 1;
    }
  return { marks, left: right - side - 4 * square, bottom: top + side + 1 };
}

/** Code 128, centred, with a quiet zone of ten modules on each side; empty if its bars would be too narrow. */
function barMarks(text: string, x: number, y: number, room: number, height: number) {
  const bars = code128Bars(text);
  const modules = bars.reduce((sum, width) => sum + width, 0);
  const module = Math.min(WIDEST, room / (modules + 20));
  const marks: LabelMark[] = [];
  if (module < NARROWEST) return { marks };
  let at = x + (room - modules * module) / 2;
  bars.forEach((width, i) => {
    if (i % 2 === 0) marks.push({ kind: 'box', x: at, y, w: width * module, h: height });
    at += width * module;
  });
  return { marks };
}

/** 0.56 of the type size per character is safe for wrapping; rendering shrinks lines still too wide. */
function stacked(x: number, y: number, room: number) {
  const marks: LabelMark[] = [];
  const left: Spoken[] = [];
  const lined = (text: Spoken, size: number) => broken(text, Math.max(8, Math.floor(room / (size * 0.56))));
  const stack = {
    marks,
    left,
    y,
    add(text: Spoken, size: number, bold: boolean) {
      stack.y += size * 1.22;
      marks.push({ kind: 'words', x, y: stack.y - size * 0.28, size, text: sanitize(text), bold, room });
    },
    fits: (text: Spoken, size: number, bottom: number): boolean =>
      stack.y + lined(text, size).length * size * 1.22 <= bottom,
    /** Adds all of the text above `bottom`, or none of it and lists it in `left`. */
    fit(text: Spoken, size: number, bottom: number, bold = false) {
      if (text === '') return;
      if (stack.fits(text, size, bottom)) for (const line of lined(text, size)) stack.add(line, size, bold);
      else left.push(text);
    },
  };
  return stack;
}

function broken(text: Spoken, signs: number): Spoken[] {
  const lines: Spoken[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= signs)
      lines[lines.length - 1] = data(`${last} ${word}`);
    else lines.push(data(word));
  }
  return lines;
}

// Bars and squares of a code as numbers, computed by a maintained library; the label's renderer draws them.

// Use the default export: the named export `raw` is a barcode type.

/** `size` squares per side, row by row. */
interface Squares {
  readonly size: number;
  readonly dark: readonly boolean[];
}

/** QR code; level M recovers from about 15 % damage. */
function qrSquares(text: string): Squares {
  const [code] = bwip.raw({ bcid: 'qrcode', text, eclevel: 'M' } as RawOptions);
  if (!code || !('pixs' in code)) throw new Error('the barcode library gave no squares');
  return { size: code.pixx, dark: Array.from(code.pixs, (pixel) => pixel === 1) };
}

/** Widths of bars and gaps in modules, starting with a bar. */
function code128Bars(text: string): readonly number[] {
  const [code] = bwip.raw({ bcid: 'code128', text });
  if (!code || !('sbs' in code)) throw new Error('the barcode library gave no bars');
  return Array.from(code.sbs);
}

// A small line sketch of the unit seen from outside: frame, lights, dividers, opening triangles, broken where they open inwards.

interface Room {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

function sketch(setOut: SetOut, room: Room, triangle: 'apex-at-hinge' | 'apex-at-handle'): LabelMark[] {
  const { w, h } = setOut.frame;
  const scale = Math.min(room.w / w, room.h / h);
  const [left, top] = [room.x + (room.w - w * scale) / 2, room.y + (room.h - h * scale) / 2];
  const line = (a: Point, b: Point, width: number, dashed = false): LabelMark => ({
    kind: 'line',
    // Unit y goes up from the sill, label y goes down.
    x1: left + a.x * scale,
    y1: top + (h - a.y) * scale,
    x2: left + b.x * scale,
    y2: top + (h - b.y) * scale,
    width,
    dashed,
  });
  const box = (rect: Rect, width: number): LabelMark[] => {
    const [bl, br, tr, tl] = cornersOf(rect);
    return [line(bl, br, width), line(br, tr, width), line(tr, tl, width), line(tl, bl, width)];
  };
  return [
    ...box({ x: 0, y: 0, w, h }, 0.5),
    ...setOut.lights.flatMap((light) => [
      ...box(light.box, 0.2),
      ...opening(light, triangle).map(([a, b]) => line(a, b, 0.25, light.opens_in)),
    ]),
  ];
}

interface Point {
  readonly x: number;
  readonly y: number;
}

const cornersOf = ({ x, y, w, h }: Rect): [Point, Point, Point, Point] => [
  { x, y },
  { x: x + w, y },
  { x: x + w, y: y + h },
  { x, y: y + h },
];

/** Two lines from the apex to the two corners of the opposite side. */
function opening(light: LightSetOut, triangle: 'apex-at-hinge' | 'apex-at-handle'): [Point, Point][] {
  if (light.kind === 'fixed' || !light.hinge) return [];
  const [bl, br, tr, tl] = cornersOf(light.box);
  const sides = { left: [bl, tl], right: [br, tr], top: [tl, tr], bottom: [bl, br] } as const;
  const other = { left: 'right', right: 'left', top: 'bottom' } as const;
  const hinge = sides[light.hinge];
  const handle = sides[other[light.hinge]];
  const [apex, base] = triangle === 'apex-at-hinge' ? [hinge, handle] : [handle, hinge];
  const tip = { x: (apex[0].x + apex[1].x) / 2, y: (apex[0].y + apex[1].y) / 2 };
  return base.map((corner) => [tip, corner]);
}
