/** Filling a form, going back in it, and carrying it out. */

import type { World } from '../../session/ports.js';
import { currentField, type FormScreen } from '../forms/fields.js';
import { WITH } from '../forms/setup.js';
import { formAction } from '../forms/submit.js';
import type { Update } from '../protocol.js';
import { type BenchState, TOP } from '../state.js';
import { send } from './answer.js';
import { goBack, say, stay, withoutNote } from './navigate.js';

/** The question at hand is answered with this: on to the next one. */
export function fieldGiven(state: BenchState, screen: FormScreen, value: string, world: World): Update {
  const field = currentField(screen, state, world);
  if (!field) return stay(state);
  const given = { ...screen.given, [field.id]: value };
  const tool = field.id.startsWith(WITH) ? world.instruments.find(({ id }) => id === value) : undefined;
  const held = tool ? { ...state, inHand: { ...state.inHand, [tool.kind]: tool.id } } : state;
  return stay(withoutNote({ ...held, entry: '', screen: { ...screen, given, cursor: TOP } }));
}

/** Right arrow: take what is marked; on the summary, do it. */
export function formRight(state: BenchState, screen: FormScreen, world: World): Update {
  const field = currentField(screen, state, world);
  if (!field && releasesHold(screen))
    return stay(say(state, 'ask', 'Arrows never release a hold.', 'F8 releases it.'));
  if (!field) return send(state, formAction(screen), world);
  const item = field.choices[screen.cursor.at];
  if (!item) return stay(say(state, 'ask', 'This is typed, then Enter.'));
  return fieldGiven(state, screen, item.id, world);
}

/** Left arrow: one question back; on the first one out of the form. Nothing is written. */
export function formLeft(state: BenchState, screen: FormScreen): Update {
  const last = Object.keys(screen.given).at(-1);
  if (last === undefined) return stay(goBack(withoutNote(state)));
  const { [last]: _gone, ...given } = screen.given;
  return stay(withoutNote({ ...state, screen: { ...screen, given, cursor: TOP } }));
}

/** A form that only gathers what the release of a hold asks for: it is carried out by the hold's own key. */
export const releasesHold = ({ form }: FormScreen): boolean =>
  form.id === 'evidence' && form.action.do === 'release';
