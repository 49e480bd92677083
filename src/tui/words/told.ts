/** The bench's words in the language of whoever reads the screen. */
import { type Say, sayIn } from '../../base/words.js';
import { DE } from './de.js';
import { BENCH_WORDS } from './en.js';

export type BenchSay = Say<typeof BENCH_WORDS>;

const ENGLISH = sayIn(BENCH_WORDS, 'en');
const SPOKEN = new Map<string, () => BenchSay>([['de', () => sayIn(BENCH_WORDS, 'de', DE)]]);
const made = new Map<string, BenchSay>();

/** English where the bench does not speak the language, or none is named. */
export function told({ language = 'en' }: { readonly language?: string | undefined }): BenchSay {
  const say = made.get(language) ?? SPOKEN.get(language)?.() ?? ENGLISH;
  made.set(language, say);
  return say;
}
