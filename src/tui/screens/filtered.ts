/** Enter on a list that the entry line filters: takes what is marked, or the only one found. */
import { sanitize } from '../../base/text.js';
import { emptied, say, stay } from '../navigate.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import type { Item } from './screen.js';

/** @param named how the list calls none, and several */
export function takeFound(
  state: BenchState,
  text: string,
  found: readonly Item[],
  named: { readonly none: string; readonly several: string },
  take: (state: BenchState, item: Item) => Update,
): Update {
  const { cursor } = state.screen;
  const one = (cursor.moved ? found[cursor.at] : undefined) ?? (found.length === 1 ? found[0] : undefined);
  if (one) return take(emptied(state), one);
  const much = found.length === 0 ? named.none : `${found.length} ${named.several}`;
  return stay(
    say(
      emptied(state),
      'ask',
      `${much} for "${sanitize(text)}".`,
      'Type more of it, or choose with Up, Down and Enter.',
    ),
  );
}
