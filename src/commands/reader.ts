/** The words of the program in the language of whoever reads the terminal. */
import { reteller } from '../base/retell.js';
import { type Catalogue, data, ENGLISH, type Reader, type Translations, teller } from '../base/words.js';

export const ENGLISH_READER: Reader = { tell: ENGLISH, retell: data };

/** English where the program does not speak the language. Only a language that is asked for is loaded. */
export async function readerOf(language: string | undefined): Promise<Reader> {
  if (language !== 'de') return ENGLISH_READER;
  const { ALL_GERMAN, ALL_KEPT } = await import('./german.js');
  return readerWith('de', ALL_GERMAN, ALL_KEPT);
}

export function readerWith(language: string, texts: Translations, kept: Catalogue): Reader {
  const tell = teller(language, (id) => texts[id]);
  return { tell, retell: reteller(kept, tell) };
}
