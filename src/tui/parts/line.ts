/** Screen text as data: lines of spans with a tone, cropped and wrapped before the terminal library sees them. */

import widthOf from 'string-width';
import { sanitize } from '../../base/text.js';
import { UTC_PATTERN } from '../../base/wallclock.js';
import { data, laid, type Spoken } from '../../base/words.js';
import type { Tone } from '../state.js';

export interface Span {
  readonly text: Spoken;
  readonly tone?: Tone;
}
export type Line = readonly Span[];

export const BLANK: Line = [];

export const line = (text: Spoken, tone: Tone = 'plain'): Line => [{ text, tone }];

/** Room between words. */
export const blanks = (count: number): Span => ({ text: data(' '.repeat(count)) });

export const lineWidth = (spans: Line): number => spans.reduce((sum, { text }) => sum + widthOf(text), 0);

/** Crops to a width, with an ellipsis if anything was cut. */
export function crop(spans: Line, width: number, ellipsis = '…'): Line {
  if (lineWidth(spans) <= width) return spans;
  const out: Span[] = [];
  let left = width - widthOf(ellipsis);
  for (const span of spans) {
    const kept = withoutHalfTime(cut(span.text, left), span.text);
    out.push({ ...span, text: data(kept.length < span.text.length ? kept + ellipsis : kept) });
    left -= widthOf(kept);
    if (kept.length < span.text.length) return out;
  }
  return out;
}

/** A time that was cut could not be told by the wall any more: it is left out. */
function withoutHalfTime(kept: string, text: string): string {
  if (kept.length === text.length || !text.includes(' UTC')) return kept;
  const halved = [...text.matchAll(TIMES)].find(
    ({ index, 0: { length } }) => index < kept.length && kept.length < index + length,
  );
  return halved ? kept.slice(0, halved.index) : kept;
}

const TIMES = new RegExp(UTC_PATTERN, 'g');

/** Replaces the program's own signs by ASCII for terminals that have no others. Names keep their letters. */
export function inAscii(spans: Line, width: number): Line {
  const plainer = spans.map((span) => ({
    ...span,
    text: data(span.text.replace(SIGNS, (sign) => ASCII[sign]!)),
  }));
  return crop(plainer, width, '~');
}

const ASCII: Readonly<Record<string, string>> = {
  '…': '~',
  '±': '+/-',
  '≤': '<=',
  '≥': '>=',
  '×': 'x',
  '°': ' deg',
  '–': '-',
  '—': '-',
  '²': '2',
  '·': '.',
  '’': "'",
  '“': '"',
  '”': '"',
};
const SIGNS = new RegExp(`[${Object.keys(ASCII).join('')}]`, 'g');

/** Left text, padding, right text. The left text is cropped if both do not fit. */
export function justify(left: Line, right: Line, width: number): Line {
  const room = Math.max(0, width - lineWidth(right) - 1);
  const fitted = crop(left, room);
  return [...fitted, blanks(Math.max(1, width - lineWidth(fitted) - lineWidth(right))), ...right];
}

/** Wraps at spaces, cutting longer words. Leading spaces indent the first line, and the rest unless `hang` is given. */
export function wrapLine(text: Spoken, width: number, tone: Tone = 'plain', hang?: string): readonly Line[] {
  const safe = sanitize(text);
  const lead = /^ */.exec(safe)![0];
  const indent = hang ?? lead;
  const lines: Line[] = [];
  let row = lead;
  let empty = true;
  const end = (): void => {
    lines.push(line(data(row), tone));
    row = indent;
    empty = true;
  };
  for (const word of safe.match(WORDS) ?? []) {
    if (!empty && widthOf(row) + 1 + widthOf(word) > width) end();
    let rest = word;
    while (widthOf(row) + widthOf(rest) + (empty ? 0 : 1) > width) {
      const part = cut(rest, Math.max(1, width - widthOf(row)));
      if (part === '' || part === rest) break;
      row += part;
      end();
      rest = rest.slice(part.length);
    }
    row += empty ? rest : ` ${rest}`;
    empty = false;
  }
  if (!empty || lines.length === 0) lines.push(line(data(row), tone));
  return lines;
}

/** A time in UTC stays one word, so that it can be told by the wall; so does any run without a space. */
const WORDS = new RegExp(`${UTC_PATTERN}[^ ]*|[^ ]+`, 'g');

/** Limits the number of lines; the last one shows that there is more. */
export function atMost(lines: readonly Line[], count: number): readonly Line[] {
  if (lines.length <= count) return lines;
  if (count <= 0) return [];
  const last = lines[count - 1]!;
  return [...lines.slice(0, count - 1), [...last, { text: data(' …') }]];
}

/** A window of rows starting at `from`, kept within the text; the last row says by `more` that there is more below. */
export function scrolled(lines: readonly Line[], from: number, rows: number, more: Spoken): readonly Line[] {
  const start = Math.min(from, Math.max(0, lines.length - rows));
  const shown = lines.slice(start, start + rows);
  if (start + rows >= lines.length) return shown;
  return [...shown.slice(0, -1), line(laid` ${more}`, 'strong')];
}

function cut(text: string, width: number): string {
  if (width <= 0) return '';
  if (widthOf(text) <= width) return text;
  let out = '';
  let used = 0;
  for (const character of text) {
    const wide = widthOf(character);
    if (used + wide > width) break;
    out += character;
    used += wide;
  }
  return out;
}
