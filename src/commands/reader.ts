/** The words of the program in the language of whoever reads the terminal. */
import { commaWithin, hasComma, withComma } from '../base/figures.js';
import { isSpoken, type Language } from '../base/languages.js';
import { reteller } from '../base/retell.js';
import { data, ENGLISH, type Reader, type Translations, teller } from '../base/words.js';

export const ENGLISH_READER: Reader = { tell: ENGLISH, retell: data };

/** Only a language that is asked for is loaded. */
export const TEXTS: Readonly<Record<Language, () => Promise<Translations>>> = {
  de: async () => (await import('./german.js')).ALL_GERMAN,
};

/**
 * English where the program does not speak the language.
 * @param own what texts of the workshop's files, such as titles of steps, are called in it
 */
export async function readerOf(
  language: string | undefined,
  own?: (text: string) => string | undefined,
): Promise<Reader> {
  if (!isSpoken(language)) return ENGLISH_READER;
  const [texts, { ALL_KEPT }] = await Promise.all([TEXTS[language](), import('./kept.js')]);
  const named = hasComma(language)
    ? (text: string, isFigure: boolean) => (isFigure ? withComma(text) : commaWithin(text))
    : undefined;
  const tell = teller(language, (id) => texts[id], {}, named);
  return { language, tell, retell: reteller(ALL_KEPT, tell, own) };
}
