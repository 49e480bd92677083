/**
 * What a label's codes hold, and how it is read back: `pier-house/P02-1/K`, job, unit, and the ISO 7064 MOD 37-36 check
 * character over the letters and digits of both. A scanner types just that, then Enter.
 */
import { checkCharacter } from './seal.js';

export const unitCode = (job: string, unit: string): string => `${job}/${unit}/${checkCharacter(job + unit)}`;

export type ReadCode =
  | { readonly kind: 'unit'; readonly job: string; readonly unit: string }
  /** Looks like a unit's code, but a sign was read or typed wrongly. */
  | { readonly kind: 'wrong-check' }
  | { readonly kind: 'no-code' };

/** Case is kept as it was read; compare without it. */
export function readUnitCode(text: string): ReadCode {
  const match = /^([A-Za-z0-9][\w.-]*)\/([A-Za-z0-9][\w.-]*)\/([0-9A-Za-z])$/.exec(text.trim());
  if (!match) return { kind: 'no-code' };
  const [, job = '', unit = '', check = ''] = match;
  return checkCharacter(job + unit) === check.toUpperCase()
    ? { kind: 'unit', job, unit }
    : { kind: 'wrong-check' };
}
