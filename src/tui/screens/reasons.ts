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

/** A reason as it stands in the journal, in the reader's language where it is one of those offered. */
export function reasonSaid(text: string, say: BenchSay): string {
  const id = named('reason').find((each) => told({})(each) === text);
  return id === undefined ? text : say(id);
}

/** A cause by its id; in the person's own words where they gave some. */
export function causeSaid(cause: string, say: BenchSay): string {
  const id = named('cause').find((each) => each === `cause-${cause}`);
  return id === undefined ? cause.replaceAll('-', ' ') : say(id);
}
