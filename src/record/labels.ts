/** What stands on a label: the unit's, and each cut part's. Places in mm; the same marks become SVG, PDF or PNG. */
import { plain } from '../ground/plain.js';
import { liftOf } from '../window/lift.js';
import type { Part, SetOut } from '../window/types.js';
import { code128Bars, qrSquares } from './barcode.js';
import { unitCode } from './codes.js';
import type { Label, LabelMark } from './labelmarks.js';
import { sketch } from './sketch.js';
import { unitSentence } from './unitview.js';
import { figure, size } from './words.js';

const PAD = 3;
/** Narrowest bar that a hand scanner reads at arm's length, and the widest that looks sensible, mm. */
const NARROWEST = 0.19;
const WIDEST = 0.33;

export interface LabelOptions {
  readonly w: number;
  readonly h: number;
  readonly workshop: string;
  readonly triangle: 'apex-at-hinge' | 'apex-at-handle';
}

/** Identity, handing, sketch, mass and lift caution, QR and Code 128 with the code in letters under it. */
export function unitLabel(setOut: SetOut, options: LabelOptions): Label {
  const { unit } = setOut;
  const { w, h } = options;
  const code = unitCode(unit.job, unit.id);
  const qr = qrMarks(code, w - PAD, PAD, Math.min(24, h * 0.42));
  const small = h < 45;
  const barHeight = small ? 5.5 : Math.min(11, h * 0.18);
  const bars = barMarks(code, PAD, h - PAD - 3.2 - barHeight, w - 2 * PAD, barHeight);
  const text = stacked(PAD, PAD, qr.left - PAD - 2);
  text.add(unit.id, small ? 5.5 : 8, true);
  text.add(`job ${unit.job}${unit.room === '' ? '' : `, ${unit.room}`}`, 2.6, false);
  text.add(`${size(unit.width, unit.height)} overall`, small ? 2.8 : 3.4, true);
  text.add(liftCaution(setOut), small ? 2.8 : 3.2, true);
  const below = stacked(PAD, Math.max(text.y, qr.bottom) + (small ? 0.2 : 1), w - 2 * PAD);
  const bottom = bars.marks.length > 0 ? h - PAD - 3.6 - barHeight : h - PAD - 4;
  const room = bottom - below.y;
  const drawn = room > 11 ? sketch(setOut, { x: PAD, y: below.y, w: 30, h: room - 1 }, options.triangle) : [];
  const words = stacked(
    drawn.length > 0 ? PAD + 33 : PAD,
    below.y,
    drawn.length > 0 ? w - 2 * PAD - 33 : w - 2 * PAD,
  );
  words.fit(unitSentence(setOut), small ? 2.1 : 2.8, bottom);
  if (setOut.profileSet.invented) words.fit('Invented profile set: demonstration only.', 2.2, bottom);
  words.fit(plain(options.workshop), 2.2, bottom);
  return {
    w,
    h,
    title: `Label of ${unit.id}, job ${unit.job}: ${unitSentence(setOut)}; ${liftCaution(setOut)}; code ${code}`,
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
        text: code,
        bold: true,
        room: w - 2 * PAD,
        anchor: 'middle',
      },
    ],
    left: [
      ...(bars.marks.length > 0
        ? []
        : ['Code 128 (the label is too narrow for this code; the QR code holds the same)']),
      ...(drawn.length > 0 ? [] : ['the sketch']),
      ...words.left,
    ],
  };
}

/** "24.4 kg: one person", "31 kg: TWO PEOPLE". A reminder, not an assessment; the record gives its source. */
export function liftCaution({ mass_kg }: SetOut): string {
  const lift = liftOf(mass_kg);
  return `${figure(Math.round(mass_kg * 10) / 10)} kg: ${lift === 'one person' ? lift : lift.toUpperCase()}`;
}

/** A cut part: what it is, of which unit, length, ends, and where its marks are. Its code is the unit's, so a scan opens the unit. */
export function partLabel(setOut: SetOut, part: Part, nth: number, options: LabelOptions): Label {
  const { unit } = setOut;
  const { w, h } = options;
  const code = unitCode(unit.job, unit.id);
  const qr = qrMarks(code, w - PAD, PAD, Math.min(16, h * 0.4));
  const text = stacked(PAD, PAD, qr.left - PAD - 2);
  text.add(`${unit.id}  ${plain(part.label)}`, 4, true);
  text.add(`${figure(part.length)} mm`, 6, true);
  text.add(
    `ends ${figure(part.ends[0])}° and ${figure(part.ends[1])}°; profile ${plain(part.profile)}`,
    2.4,
    false,
  );
  if (part.quantity > 1) text.add(`piece ${nth} of ${part.quantity}`, 2.4, false);
  const words = stacked(PAD, Math.max(text.y, qr.bottom) + 0.6, w - 2 * PAD);
  const bottom = h - PAD - 3.4;
  if (part.marks.length > 0) {
    words.fit(`marks from ${plain(part.datum)}:`, 2.2, bottom);
    words.fit(
      part.marks.map(({ kind, at }) => `${plain(kind)} ${figure(Math.round(at * 10) / 10)}`).join('; '),
      2.2,
      bottom,
    );
  }
  return {
    w,
    h,
    title: `Label of part ${part.id} of ${unit.id}, job ${unit.job}: ${part.label}, ${figure(part.length)} mm; code ${code}`,
    code,
    marks: [
      ...text.marks,
      ...qr.marks,
      ...words.marks,
      { kind: 'words', x: PAD, y: h - PAD, size: 2.4, text: code, bold: false, room: w - 2 * PAD },
    ],
    left: words.left,
  };
}

/** A QR code with its right top corner given, its quiet zone of four squares inside the label's white. */
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

/** Code 128, centred, with ten modules of quiet zone on each side; nothing where its bars would get too narrow. */
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

/** Words under one another; about 0.56 of the type size a sign is a safe width for wrapping, and drawing shrinks what is still too wide. */
function stacked(x: number, y: number, room: number) {
  const marks: LabelMark[] = [];
  const left: string[] = [];
  const stack = {
    marks,
    left,
    y,
    add(text: string, size: number, bold: boolean) {
      stack.y += size * 1.22;
      marks.push({ kind: 'words', x, y: stack.y - size * 0.28, size, text: plain(text), bold, room });
    },
    /** As many lines as stand above `bottom`; what does not fit at all is named in `left`. */
    fit(text: string, size: number, bottom: number) {
      const signs = Math.max(8, Math.floor(room / (size * 0.56)));
      const lines = text === '' ? [] : broken(text, signs);
      if (stack.y + lines.length * size * 1.22 > bottom) {
        if (lines.length > 0) left.push(`"${text}"`);
        return;
      }
      for (const line of lines) stack.add(line, size, false);
    },
  };
  return stack;
}

function broken(text: string, signs: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= signs)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
