/** What `--help` prints, in the reader's language. */
import { isSpoken, type Language } from '../base/languages.js';
import type { Spoken } from '../base/words.js';
import { ENGLISH_HELPS, type Helps } from './help.js';

const HELPS: Readonly<Record<Language, () => Promise<Helps>>> = {
  de: async () => (await import('./help.german.js')).GERMAN_HELPS,
};

const helpsIn = async (language: string): Promise<Helps> =>
  isSpoken(language) ? HELPS[language]() : ENGLISH_HELPS;

export async function usage(verbs: readonly string[], language: string): Promise<Spoken> {
  const { says, frame } = await helpsIn(language);
  const widest = Math.max(...verbs.map((verb) => verb.length));
  return [
    'pinchrod [--workshop DIR] [VERB ...]',
    '',
    frame.start,
    '',
    ...verbs.map((verb) => `  ${verb.padEnd(widest)}  ${says[verb]}`),
    '',
    frame.more,
    frame.codes,
  ].join('\n') as Spoken;
}

export const helpOf = async (verb: string, language: string): Promise<Spoken> =>
  (await helpsIn(language)).help[verb]! as Spoken;
