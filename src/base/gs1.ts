/**
 * GS1 element strings, as a GS1-128 or GS1 DataMatrix symbol holds them: application identifiers (AI), each followed by
 * its data. Source: GS1 General Specifications (published): AI 10 batch or lot, 17 expiration date (YYMMDD; day 00 is
 * the last of the month), 21 serial number; element strings of predefined length need no separator, all others end with
 * FNC1, which a scanner sends as 0x1D. Symbology identifiers: ISO/IEC 15424.
 */
import { dateOf } from './dates.js';

const SEPARATOR = '\u001d';

/** Whole length, with the AI, of the element strings of predefined length, by the first two digits of the AI. */
const PREDEFINED: Readonly<Record<string, number>> = {
  '00': 20,
  '01': 16,
  '02': 16,
  '03': 16,
  '04': 18,
  '11': 8,
  '12': 8,
  '13': 8,
  '14': 8,
  '15': 8,
  '16': 8,
  '17': 8,
  '18': 8,
  '19': 8,
  '20': 4,
  '31': 10,
  '32': 10,
  '33': 10,
  '34': 10,
  '35': 10,
  '36': 10,
  '41': 16,
};
/** Digits of the AI itself, by its first two; two where not listed. */
const AI_DIGITS: Readonly<Record<string, number>> = {
  '23': 3,
  '24': 3,
  '25': 3,
  '31': 4,
  '32': 4,
  '33': 4,
  '34': 4,
  '35': 4,
  '36': 4,
  '39': 4,
  '40': 3,
  '41': 3,
  '42': 3,
  '43': 4,
  '70': 4,
  '71': 3,
  '72': 4,
  '80': 4,
  '81': 4,
  '82': 4,
};

/** Data by AI; undefined if the text is no element string, so that an ordinary code that looks a little like one stays one. */
export function readGs1(text: string): ReadonlyMap<string, string> | undefined {
  const bare = text.replace(/^\][CedQJ][0-9]/, '');
  const scanned = bare !== text || bare.includes(SEPARATOR);
  if (/^\(\d{2,4}\)/.test(bare)) return written(bare);
  if (!scanned && !hasItemNumber(bare)) return undefined;
  return elements(bare);
}

/** Written for people, as printed under a symbol: `(10)PR-77(17)270331`. */
function written(text: string): ReadonlyMap<string, string> | undefined {
  const found = new Map<string, string>();
  for (const part of text.split(/(?=\(\d{2,4}\))/)) {
    const [, ai = '', data = ''] = /^\((\d{2,4})\)(.+)$/s.exec(part.trim()) ?? [];
    if (data === '' || !add(found, ai, data)) return undefined;
  }
  return found;
}

function elements(text: string): ReadonlyMap<string, string> | undefined {
  const found = new Map<string, string>();
  let rest = text.startsWith(SEPARATOR) ? text.slice(1) : text;
  while (rest !== '') {
    const first = rest.slice(0, 2);
    if (!/^\d\d$/.test(first)) return undefined;
    const digits = AI_DIGITS[first] ?? 2;
    const end = rest.indexOf(SEPARATOR);
    const length = PREDEFINED[first] ?? (end < 0 ? rest.length : end);
    const ai = rest.slice(0, digits);
    if (!/^\d+$/.test(ai) || rest.length < length || !add(found, ai, rest.slice(digits, length)))
      return undefined;
    rest = rest.slice(length);
    if (rest.startsWith(SEPARATOR)) rest = rest.slice(1);
  }
  return found.size > 0 ? found : undefined;
}

/** False if the data cannot be of that AI. */
function add(found: Map<string, string>, ai: string, data: string): boolean {
  if (data === '' || data.includes(SEPARATOR) || data.length > 90) return false;
  const length = PREDEFINED[ai.slice(0, 2)];
  if (length !== undefined && data.length !== length - ai.length) return false;
  if ((ai === '10' || ai === '21') && data.length > 20) return false;
  found.set(ai, data);
  return true;
}

/** A text that begins with AI 01 and a trade item number whose check digit is right; chance alone is 1 in 10. */
function hasItemNumber(text: string): boolean {
  const digits = /^01(\d{14})/.exec(text)?.[1];
  return digits !== undefined && text.length > 16 && checkDigit(digits.slice(0, 13)) === Number(digits[13]);
}

/** Check digit of a GS1 identification number: weights 3 and 1 from the right, up to the next ten. */
function checkDigit(digits: string): number {
  const sum = [...digits]
    .reverse()
    .reduce((total, digit, i) => total + Number(digit) * (i % 2 === 0 ? 3 : 1), 0);
  return (10 - (sum % 10)) % 10;
}

/**
 * `270331` as `2027-03-31`; day 00 is the last of the month. The century is the one that puts the year within 49 years
 * before and 50 after the present one (GS1 General Specifications, determination of century in dates).
 * @param now ISO 8601
 */
export function gs1Date(data: string, now: string): string | undefined {
  const [, yy, mm, dd] = /^(\d\d)(\d\d)(\d\d)$/.exec(data) ?? [];
  if (yy === undefined) return undefined;
  const present = Number(now.slice(0, 4));
  const apart = Number(yy) - (present % 100);
  const century = Math.floor(present / 100) + (apart >= 51 ? -1 : apart <= -50 ? 1 : 0);
  return dateOf(century * 100 + Number(yy), Number(mm), Number(dd), dd === '00');
}
