/** Defines a screen: what it lists, what it draws, and what its keys do. Each screen is a file in this folder. */

import type { Spoken } from '../../base/words.js';
import type { World } from '../../session/ports.js';
import type { WordedKey } from '../keys/table.js';
import type { Line } from '../parts/line.js';
import type { Update } from '../protocol.js';
import type { BenchState, Screen, ScreenName } from '../state.js';
import type { Theme } from '../theme.js';
import type { BenchWord } from '../words/en.js';

/** A list entry. The reducer chooses from the same list that is drawn. */
export interface Item {
  readonly id: string;
  readonly text: Spoken;
  /** Shows the entry's status, before the text. */
  readonly sign?: string;
  readonly shut?: boolean;
}

/** A question of a form. */
export interface Field {
  readonly id: string;
  readonly ask: Spoken;
  readonly choices: readonly Item[];
  readonly words: boolean;
  /** Pattern that typed text must match. */
  readonly takes?: RegExp;
  /** Shown when it does not match. */
  readonly hint?: Spoken;
  readonly hidden?: boolean;
}

type ScreenState<N extends ScreenName> = N extends 'form' | 'question' | 'release' | 'lists' | 'figures'
  ? Extract<Screen, { readonly name: N }>
  : Screen;

export interface View {
  readonly lines: readonly Line[];
  readonly menu: number;
  /** At the foot, in the rows that lines and list leave free. */
  readonly below?: readonly Line[];
}

export interface ScreenDefinition<N extends ScreenName> {
  /** Title of a list that has no lines of its own. */
  readonly title?: Extract<BenchWord, `title-${string}`>;
  /** The entry line filters its list as one types. */
  readonly filtered?: true;
  /** Its arrows only turn pages: they write nothing, and may come as fast as they like. */
  readonly turns?: true;
  /** A list that grows with the workshop. */
  readonly long?: true;
  /** The arrows scroll the text. */
  readonly scrolls?: true;
  /** Must be finished or left with Esc before keys can open other screens. */
  readonly modal?: true;
  list?(state: BenchState, world: World): readonly Item[];
  /** The item that the first arrow marks; without it, the one where the list stands. */
  startsAt?(state: BenchState, world: World): number | undefined;
  lines?(
    state: BenchState,
    screen: ScreenState<N>,
    world: World,
    width: number,
    theme: Theme,
    height: number,
  ): readonly Line[];
  /** For screens where the room for the list depends on the lines. */
  view?(state: BenchState, world: World, width: number, height: number, theme: Theme): View;
  /** Keys that answer the current question; they come first in the footer. */
  keys?(state: BenchState, screen: ScreenState<N>, world: World): readonly WordedKey[];
  hides?(state: BenchState, screen: ScreenState<N>, world: World): boolean;
  /** Called when an item marked with the arrows is chosen. */
  choose?(state: BenchState, item: Item, world: World): Update;
  right?(state: BenchState, screen: ScreenState<N>, world: World): Update;
  left?(state: BenchState, screen: ScreenState<N>, world: World): Update;
  /** Called on Enter with text that is not a code the workshop knows. */
  typed?(state: BenchState, screen: ScreenState<N>, text: string, world: World): Update;
}
