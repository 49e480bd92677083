/** What `--help` prints, in the reader's language. */
import type { Spoken } from '../base/words.js';
import { ENGLISH_HELPS, type Helps } from './help.js';

async function helpsIn(language: string): Promise<Helps> {
  return language === 'de' ? (await import('./help.german.js')).GERMAN_HELPS : ENGLISH_HELPS;
}

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
