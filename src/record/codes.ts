/**
 * Label codes and how they are read back: `pier-house/P02-1/K` is job, unit, and the ISO 7064 MOD 37-36 check character
 * over the letters and digits of both. A scanner types exactly that, then Enter.
 */

export const unitCode = (job: string, unit: string): string => `${job}/${unit}/${checkCharacter(job + unit)}`;

/** `pier-house/P02-1/frame-head.1/K`: a unit's code with a part and which piece of it. A scan opens the unit. */
export const partCode = (job: string, unit: string, part: string, nth: number): string =>
  `${job}/${unit}/${part}.${nth}/${checkCharacter(`${job}${unit}${part}${nth}`)}`;

/** What a printed code is of: the letter before its point (`I.R2`). Unit labels have a form of their own. */
export type CodeLetter =
  /** A unit. */
  | 'U'
  /** A person. */
  | 'P'
  /** An instrument. */
  | 'I'
  /** A lot. */
  | 'L'
  /** A set-up. */
  | 'S';

/** `I.R2` -> the letter and `R2`; another text without a letter. */
export function readPrefix(text: string): { readonly letter?: CodeLetter; readonly code: string } {
  const [, letter = '', code = ''] = /^([UPILS])\.(.+)$/i.exec(text) ?? [];
  return code === '' ? { code: text } : { letter: letter.toUpperCase() as CodeLetter, code };
}

export type ReadCode =
  | { readonly kind: 'unit'; readonly job: string; readonly unit: string; readonly part?: string }
  /** Has the form of a unit code, but a character was misread or mistyped. */
  | { readonly kind: 'wrong-check' }
  | { readonly kind: 'no-code' };

/** Keeps the case as read; compare case-insensitively. */
export function readUnitCode(text: string): ReadCode {
  const match = /^([A-Za-z0-9][\w.-]*)\/([A-Za-z0-9][\w.-]*)(?:\/([A-Za-z0-9][\w.-]+))?\/([0-9A-Za-z])$/.exec(
    text.trim(),
  );
  if (!match) return { kind: 'no-code' };
  const [, job = '', unit = '', part = '', check = ''] = match;
  return checkCharacter(job + unit + part) === check.toUpperCase()
    ? { kind: 'unit', job, unit, ...(part === '' ? {} : { part }) }
    : { kind: 'wrong-check' };
}

/**
 * Printed seals: a short code derived from a hash, which a person can read out over the telephone, with an ISO 7064 MOD
 * 37-36 check character. Also the single hash covering a job's units in order (computed in the unit room).
 */
export { sealOver } from '../unit/sealing.js';

const DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';
/** 32 unambiguous characters: no I, L, O, U. */
const READABLE = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/** ISO 7064 MOD 37-36 check character. Skips everything but letters and digits; case-insensitive. */
export function checkCharacter(text: string): string {
  let p = 36;
  for (const sign of text.toUpperCase()) {
    const value = DIGITS.indexOf(sign);
    if (value < 0) continue;
    const s = (p + value) % 36 || 36;
    p = (s * 2) % 37;
  }
  return DIGITS[(37 - p) % 36]!;
}

/** Whether the text's last letter or digit is the check character of what precedes it. */
export function checkHolds(text: string): boolean {
  const signs = text.toUpperCase().replace(/[^0-9A-Z]/g, '');
  return signs.length > 1 && checkCharacter(signs.slice(0, -1)) === signs.at(-1);
}

/** `4F7K-QX2M-9TA`: first 50 bits of a hex hash, then the check character. "" for no hash. */
export function shortCode(hash: string): string {
  if (!/^[0-9a-f]{16,}$/.test(hash)) return '';
  let bits = BigInt(`0x${hash.slice(0, 13)}`) >> 2n;
  let signs = '';
  for (let i = 0; i < 10; i++) {
    signs = READABLE[Number(bits & 31n)] + signs;
    bits >>= 5n;
  }
  const whole = signs + checkCharacter(signs);
  return `${whole.slice(0, 4)}-${whole.slice(4, 8)}-${whole.slice(8)}`;
}
