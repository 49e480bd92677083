/**
 * Words of documents that are others now. Whoever changes a word of documents adds here what it was, under the hash of all
 * words before the change: documents printed until then are told by these when they are verified.
 */

/** Documents printed before there were catalogues name no hash. */
export const NO_HASH = '';

type Texts = Readonly<Record<string, string>>;

export const FORMER_WORDS: ReadonlyMap<string, Texts> = new Map<string, Texts>([
  [NO_HASH, { 'doc-corrections': 'Corrections and why' }],
]);
