/**
 * Sentences that the program makes about a light, a packer or a lift, in the words of a translation: phrase by phrase, since
 * they are put together from the set-out.
 */
import type { Formula } from '../base/formula.js';

/** Names whose value is such a sentence, or a list of them. */
export const SENTENCE_NAMES: ReadonlySet<string> = new Set([
  'unit.sentence',
  'unit.lift',
  'light.sentence',
  'light.packers',
  'light.reliefs',
  'marks.lines',
  'divider.name',
  'divider.first.member',
  'divider.second.member',
]);

/** Every phrase used in those sentences; the rest is numbers, ids and punctuation. */
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
  'one or two people',
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
  // Of marks: members, walls and things as the shipped sets call them.
  'mullion',
  'transom',
  'frame head',
  'frame sill',
  'frame left jamb',
  'frame right jamb',
  'add-on head',
  'add-on sill',
  'add-on left jamb',
  'add-on right jamb',
  'sash top rail',
  'sash bottom rail',
  'sash left stile',
  'sash right stile',
  'upper side',
  'under side',
  'left side',
  'right side',
  'inner side',
  'along the divider',
  'outside',
  'through',
  'divider centre line',
  'divider screw',
  'cleat screw',
  'inner drain slot',
  'outer drain slot',
  'pressure slot',
  'inner drain hole',
  'outer drain hole',
  'middle drain slot',
  'pressure hole',
  'add-on screw',
  'gearbox slot',
  'gearbox centre',
  'keep centre',
  'first hole of the stay',
  'first hole of the stay bracket',
  'from the left end',
  'from the bottom end',
  'moved by the set-out:',
] as const;

export type Phrases = Readonly<Record<string, string>>;

/** Translates the sentence of a sentence formula. Other formulas are unchanged, so conditions still compare ids. */
export function inPhrases(formula: Formula, phrases: Phrases): Formula {
  if (!SENTENCE_NAMES.has(formula.text.trim())) return formula;
  const say = (value: unknown): unknown => {
    if (typeof value === 'string') return phrased(value, phrases);
    return Array.isArray(value) ? value.map(say) : value;
  };
  return { ...formula, run: (values) => say(formula.run(values)) };
}

/** Replaces whole words only, longest phrase first; an untranslated phrase stays. */
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
