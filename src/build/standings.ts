/** Standings by word and shape: a sign of one character stands before the word, so that colour is never needed. */
import type { UnitStanding } from './types.js';

export const STANDING_WORDS: Readonly<
  Record<UnitStanding, { readonly sign: string; readonly word: string }>
> = {
  'not-started': { sign: '.', word: 'not started' },
  refused: { sign: 'x', word: 'refused' },
  'under-way': { sign: '>', word: 'under way' },
  held: { sign: 'H', word: 'held' },
  curing: { sign: '~', word: 'curing' },
  snagged: { sign: '!', word: 'snagged' },
  parked: { sign: '=', word: 'parked' },
  finished: { sign: '*', word: 'finished' },
  scrapped: { sign: '-', word: 'scrapped' },
};
