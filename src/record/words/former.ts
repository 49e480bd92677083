/**
 * Words of documents that are others now. Whoever changes a word of documents adds here what it was, under the hash of all
 * words before the change: documents printed until then are told by these when they are verified.
 */

/** Documents printed before there were catalogues name no hash. */
export const NO_HASH = '';

type Texts = Readonly<Record<string, string>>;

/** Until the drawing told inwards from outwards. */
const DASHED: Texts = {
  'doc-seen-hinge': 'Seen from outside; the dashed lines meet at the hinge',
  'doc-seen-handle': 'Seen from outside; the dashed lines meet at the handle',
};

export const FORMER_WORDS: ReadonlyMap<string, Texts> = new Map<string, Texts>([
  [NO_HASH, { 'doc-corrections': 'Corrections and why', ...DASHED }],
  ['1db0bb595de5c1b5d012f002053b58d44009dfb61a49115b1e1423c1aa2882aa', DASHED],
  // Until there were words for what is no window: nothing that was there changed.
  ['55189fa29d5fd82702468de1ce02f33e74c96a7a69de1642a08b163ff2cfca1a', {}],
  // Until records were arranged in layers, the same.
  ['7318927c3d66d8b24859b2af6c65c27381cd1df7f56279445022d638238c7b6d', {}],
]);
