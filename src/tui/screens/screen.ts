/** What one screen is: what it lists, what it draws, and what its keys do. Each screen is a file of this folder. */
import type { World } from '../../session/ports.js';
import type { WordedKey } from '../keys/table.js';
import type { Line } from '../parts/line.js';
import type { Update } from '../protocol.js';
import type { BenchState, Screen, ScreenName } from '../state.js';
import type { Theme } from '../theme.js';

/** What can be chosen on a screen. The reducer chooses from the list that is drawn: one list, not two. */
export interface Item {
  readonly id: string;
  readonly text: string;
  /** Shape and word that tell its standing, before the text. */
  readonly sign?: string;
  /** Cannot be chosen now. */
  readonly shut?: boolean;
}

/** A screen's own part of the bench's state. */
type ScreenState<N extends ScreenName> = N extends 'form' | 'question' | 'release'
  ? Extract<Screen, { readonly name: N }>
  : Screen;

/** Lines, and the rows that the list gets under them. */
export interface View {
  readonly lines: readonly Line[];
  readonly menu: number;
}

export interface ScreenDefinition<N extends ScreenName> {
  /** Heads a list that has no lines of its own. */
  readonly title?: string;
  /** A list that grows with the workshop. */
  readonly long?: true;
  /** Text that the arrows scroll. */
  readonly scrolls?: true;
  /** It is finished, or left with Esc: keys that open other screens wait until it is. */
  readonly modal?: true;
  list?(state: BenchState, world: World): readonly Item[];
  lines?(
    state: BenchState,
    screen: ScreenState<N>,
    world: World,
    width: number,
    theme: Theme,
  ): readonly Line[];
  /** Where the room for the list depends on the lines. */
  view?(state: BenchState, world: World, width: number, height: number, theme: Theme): View;
  /** The keys that answer what is asked now: in the footer those stand before the rest. */
  keys?(state: BenchState, screen: ScreenState<N>, world: World): readonly WordedKey[];
  /** What is typed is not shown. */
  hides?(state: BenchState, screen: ScreenState<N>, world: World): boolean;
  /** An item marked with the arrows was taken. */
  choose?(state: BenchState, item: Item, world: World): Update;
  right?(state: BenchState, screen: ScreenState<N>, world: World): Update;
  left?(state: BenchState, screen: ScreenState<N>, world: World): Update;
  /** Enter, with words on the entry line that are no code of the workshop's. */
  typed?(state: BenchState, screen: ScreenState<N>, text: string, world: World): Update;
}
