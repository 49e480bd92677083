/** What somebody read at the bench, as it is kept beside a journal: language, words of the program, and the translation. */

export interface WordsRead {
  /** BCP 47; that of the procedure if absent. */
  readonly language?: string;
  /** SHA-256 of the program's words in that language, canonical JSON by id. */
  readonly catalogue: string;
}

const FORMAT = 'pinchrod-words 1';

/** @param language in which it was read
 * @param translation the file of the procedure's words in that language; nothing where it has none */
export const wordsReadText = (language: string, { catalogue }: WordsRead, translation = ''): string =>
  `${FORMAT}\nlanguage ${language}\ncatalogue ${catalogue}\n\n${translation}`;
