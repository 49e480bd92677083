/** All screens. Whatever is true of the one that is on is asked here. */
import type { World } from '../../session/ports.js';
import type { WordedKey } from '../keys/table.js';
import type { BenchState, ScreenName } from '../state.js';
import { formScreen } from './form.js';
import { helpScreen, menuScreen } from './help.js';
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
  form: formScreen,
  release: releaseScreen,
  question: questionScreen,
  leave: leaveScreen,
};

/** The screen that is on. Its functions take the state's own `screen`. */
// biome-ignore lint/suspicious/noExplicitAny: the definition under a name takes that name's state, which types cannot say
export const screenOn = ({ screen }: Pick<BenchState, 'screen'>): ScreenDefinition<any> =>
  SCREENS[screen.name];

export const listOf = (state: BenchState, world: World): readonly Item[] =>
  screenOn(state).list?.(state, world) ?? [];

export const answerKeys = (state: BenchState, world: World): readonly WordedKey[] =>
  screenOn(state).keys?.(state, state.screen, world) ?? [];

/** PINs are not shown. */
export const hidesEntry = (state: BenchState, world: World): boolean =>
  screenOn(state).hides?.(state, state.screen, world) ?? false;
