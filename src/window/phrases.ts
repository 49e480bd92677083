/** The words that the program's own sentences of a light, a packer and a lift are made of, for a translation to give its own. */

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
