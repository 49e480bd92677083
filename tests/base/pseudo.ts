/** Languages that nobody speaks: every word of a catalogue with accents, and every text as much longer as German is at most. */
import type { Catalogue, Translations } from '../../src/base/words.js';

const ACCENTS: Readonly<Record<string, string>> = Object.fromEntries(
  [...'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ'].map((letter, i) => [
    letter,
    [...'àƀçđéƒğħíĵķłṁñóƥɋřšŧúṽŵẋýžÀƁÇĐÉƑĞĦÍĴĶŁṀÑÓƤɊŘŠŦÚṼŴẊÝŽ'][i]!,
  ]),
);
export const accented = (text: string): string => text.replace(/[A-Za-z]/g, (letter) => ACCENTS[letter]!);

/** Changes the words of a message, and none of what stands in its braces but the words of variants. */
function inWords(text: string, change: (words: string) => string): string {
  let out = '';
  let at = 0;
  while (at < text.length) {
    const open = text.indexOf('{', at);
    if (open < 0) return out + change(text.slice(at));
    out += change(text.slice(at, open));
    const close = closing(text, open);
    const inside = text.slice(open, close);
    out += inside.includes('->')
      ? inside.replace(
          /^(\s*\*?\[\w+\] )(.*)$/gm,
          (_all, key: string, value: string) => key + inWords(value, change),
        )
      : inside;
    at = close;
  }
  return out;
}

function closing(text: string, open: number): number {
  let depth = 0;
  for (let i = open; i < text.length; i++) {
    if (text[i] === '{') depth += 1;
    else if (text[i] === '}' && --depth === 0) return i + 1;
  }
  return text.length;
}

/** By how much a text may grow: measured on the German of this program, the shorter the more. */
export const growth = (length: number): number => (length <= 15 ? 1 : length <= 40 ? 0.5 : 0.35);

/** The longer text, in words that can be wrapped. */
export function longer(text: string): string {
  const words = text.replace(/\{[^}]*\}/g, '').trim();
  if (words === '') return text;
  const more = Math.ceil(words.length * growth(words.length));
  const filler = 'vwlng '
    .repeat(Math.ceil(more / 6))
    .slice(0, more)
    .trim();
  return /[.:!?]$/.test(text) ? `${text.slice(0, -1)} ${filler}${text.slice(-1)}` : `${text} ${filler}`;
}

export const pseudo = (catalogue: Catalogue, change: (text: string) => string): Translations =>
  Object.fromEntries(Object.entries(catalogue).map(([id, { text }]) => [id, change(text)]));

export const accentedText = (text: string): string => inWords(text, accented);
