/** Since when the question at hand stands on the screen: what was answered sooner than it can be read was not read. */
import type { World } from '../session/ports.js';
import type { Action } from '../unit/actions.js';
import { asked } from './currenttask.js';
import type { BenchState } from './state.js';

/** Notes the question when it comes up; another screen over it changes nothing. */
export function standing(state: BenchState, world: World): BenchState {
  if (state.screen.name !== 'step') return state;
  const check = asked(state, world)?.task.check?.id;
  const of = check === undefined ? undefined : `${world.open?.job}/${world.open?.id} ${check}`;
  if (of === state.stands?.of) return state;
  const { stands: _gone, ...rest } = state;
  return of === undefined ? rest : { ...rest, stands: { of, at: Date.parse(world.now) } };
}

/** Adds to an answer for how long its question stood. */
export function withStood({ stands }: BenchState, action: Action, { open, now }: World): Action {
  if (!stands || (action.do !== 'answer' && action.do !== 'look' && action.do !== 'read')) return action;
  const check = stands.of.slice(`${open?.job}/${open?.id} `.length);
  const isSame = action.do === 'look' ? check.startsWith(`${action.step}/`) : check === action.check;
  if (!isSame || action.stood !== undefined) return action;
  // A clock that was set back says nothing.
  const stood = (Date.parse(now) - stands.at) / 1000;
  return stood < 0 || stood > 1e6 ? action : { ...action, stood };
}
