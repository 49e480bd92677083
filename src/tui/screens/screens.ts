/** The registry of all screens, with queries on the current one. */
import type { World } from '../../session/ports.js';
import type { WordedKey } from '../keys/table.js';
import type { BenchState, ScreenName } from '../state.js';
import { figuresScreen } from './figures.js';
import { formScreen } from './form.js';
import { helpScreen, menuScreen } from './help.js';
import { listsScreen } from './lists.js';
import { measuredScreen } from './measured.js';
import { instrumentsScreen, peopleScreen } from './people.js';
import { leaveScreen, questionScreen } from './question.js';
import { releaseScreen } from './release.js';
import type { Item, ScreenDefinition } from './screen.js';
import { setupsScreen } from './setups.js';
import { snagsScreen } from './snags.js';
import { handoverScreen, stagesScreen } from './stages.js';
import { stepScreen } from './step.js';
import { stepsScreen, unitScreen } from './unit.js';
import { unitsScreen } from './units.js';
import { whyScreen } from './why.js';

const SCREENS: { readonly [N in ScreenName]: ScreenDefinition<N> } = {
  units: unitsScreen,
  stages: stagesScreen,
  handover: handoverScreen,
  unit: unitScreen,
  step: stepScreen,
  steps: stepsScreen,
  people: peopleScreen,
  instruments: instrumentsScreen,
  why: whyScreen,
  measured: measuredScreen,
  help: helpScreen,
  menu: menuScreen,
  snags: snagsScreen,
  setups: setupsScreen,
  lists: listsScreen,
  figures: figuresScreen,
  form: formScreen,
  release: releaseScreen,
  question: questionScreen,
  leave: leaveScreen,
};

/** The current screen. Its functions take the state's own `screen`. */
// biome-ignore lint/suspicious/noExplicitAny: types cannot say that a name's definition takes that name's state
export const screenOn = ({ screen }: Pick<BenchState, 'screen'>): ScreenDefinition<any> =>
  SCREENS[screen.name];

export const listOf = (state: BenchState, world: World): readonly Item[] =>
  screenOn(state).list?.(state, world) ?? [];

export const answerKeys = (state: BenchState, world: World): readonly WordedKey[] =>
  screenOn(state).keys?.(state, state.screen, world) ?? [];

export const hidesEntry = (state: BenchState, world: World): boolean =>
  screenOn(state).hides?.(state, state.screen, world) ?? false;
