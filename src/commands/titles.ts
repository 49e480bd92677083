/** Titles of steps, which lists keep as text, in the language of whoever reads. */
import type { TitleReader } from '../procedure/titles.js';
import type { Io } from './io.js';
import { readerOf } from './reader.js';

/** @param titles of the procedures that the texts are of, in a language */
export async function withTitles(
  io: Io,
  titles: (language: string) => TitleReader | Promise<TitleReader>,
): Promise<Io> {
  const language = io.reader?.language;
  return language === undefined ? io : { ...io, reader: await readerOf(language, await titles(language)) };
}
