/** Common causes and reasons, offered by the forms; free text is always taken. The journal keeps a cause's id, and a reason in English. */
import { BENCH_WORDS, type BenchWord } from '../words/en.js';
import { type BenchSay, told } from '../words/told.js';
import type { Item } from './screen.js';

type Word<K extends string> = Extract<BenchWord, `${K}-${string}`>;
const named = <K extends string>(start: K): readonly Word<K>[] =>
  (Object.keys(BENCH_WORDS) as BenchWord[]).filter((id): id is Word<K> => id.startsWith(`${start}-`));

/** Causes that cover most snags (common practice). */
export const causeItems = (say: BenchSay): readonly Item[] =>
  named('cause').map((id) => ({ id: id.slice('cause-'.length), text: say(id) }));

/** Common reasons, so that nobody has to type one with sealant on their gloves. */
export const reasonItems = (form: string, say: BenchSay): readonly Item[] =>
  named('reason')
    .filter((id) => id.slice('reason-'.length, -2) === form)
    .map((id) => ({ id: told({})(id), text: say(id) }));
