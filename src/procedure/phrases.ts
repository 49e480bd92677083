/** Sentences that the program makes (of a light, a packer, a lift), said in a translation's own phrases. */
import type { Formula } from '../base/formula.js';

/** Names whose value is such a sentence, or a list of them. */
export const SENTENCE_NAMES: ReadonlySet<string> = new Set([
  'unit.sentence',
  'unit.lift',
  'light.sentence',
  'light.packers',
]);

/** Every phrase of them; what stands between is numbers, ids and punctuation. */
export const PHRASES = [
  'fixed light',
  'top-hung',
  'hinged at the top',
  'hinged left',
  'hinged right',
  'seen from outside',
  'opens out',
  'opens in',
  'one person',
  'two people',
  'lifting aid',
  'setting',
  'location',
  'bracing',
  'bottom edge',
  'top edge',
  'left edge',
  'right edge',
  'centre',
  'from the left corner of the glass',
  'from the bottom corner of the glass',
] as const;

export type Phrases = Readonly<Record<string, string>>;

/** The formula, its sentence in the translation's phrases; any other formula as it is, so that conditions keep to the ids. */
export function inPhrases(formula: Formula, phrases: Phrases): Formula {
  if (!SENTENCE_NAMES.has(formula.text.trim())) return formula;
  const say = (value: unknown): unknown => {
    if (typeof value === 'string') return phrased(value, phrases);
    return Array.isArray(value) ? value.map(say) : value;
  };
  return { ...formula, run: (values) => say(formula.run(values)) };
}

/** Whole words alone, the longest phrase first; a phrase that the translation lacks stays. */
export function phrased(text: string, phrases: Phrases): string {
  return text.replace(ANY, (found) => (Object.hasOwn(phrases, found) ? phrases[found]! : found));
}

const escaped = (text: string): string => text.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&');
const ANY = new RegExp(
  `(?<![\\p{L}-])(?:${[...PHRASES]
    .sort((a, b) => b.length - a.length)
    .map(escaped)
    .join('|')})(?![\\p{L}-])`,
  'gu',
);
