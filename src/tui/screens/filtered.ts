/** Enter on a list that the entry line filters: takes what is marked, or the only one found. */

import { sanitize } from '../../base/text.js';
import { emptied, say, stay } from '../navigate.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import type { BenchSay } from '../words/told.js';
import type { Item } from './screen.js';

/** @param named how the list calls none, and several */
export function takeFound(
  state: BenchState,
  text: string,
  found: readonly Item[],
  what: 'unit' | 'step',
  words: BenchSay,
  take: (state: BenchState, item: Item) => Update,
): Update {
  const { cursor } = state.screen;
  const one = (cursor.moved ? found[cursor.at] : undefined) ?? (found.length === 1 ? found[0] : undefined);
  if (one) return take(emptied(state), one);
  return stay(
    say(
      emptied(state),
      'ask',
      found.length === 0
        ? words(`found-no-${what}`, { text: sanitize(text) })
        : words(`found-${what}s`, { n: found.length, text: sanitize(text) }),
      words('type-more'),
    ),
  );
}
