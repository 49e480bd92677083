/** Choose or scan the person at the bench and the instrument in hand. */
import { sanitize } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import type { Person } from '../../unit/types.js';
import { asked } from '../currenttask.js';
import { emptied, goBack, say, stay } from '../navigate.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import { TITLES } from '../theme.js';
import type { Item, ScreenDefinition } from './screen.js';

function instrumentItems(state: BenchState, world: World): readonly Item[] {
  const wanted = new Set<string>(asked(state, world)?.check?.instruments);
  const fits = world.instruments.filter(({ kind }) => wanted.has(kind));
  const others = world.instruments.filter(({ kind }) => !wanted.has(kind));
  return [...fits, ...others].map(({ id, title, due }) => ({
    id,
    text: `${id.padEnd(6)} ${title}${due ? `, due ${due}` : ''}`,
  }));
}

export function signIn(state: BenchState, person: Person): BenchState {
  const { second: _gone, ...rest } = state;
  return say({ ...rest, person: person.id }, 'good', `${person.name} is at the bench.`);
}

export function takeInstrument(
  state: BenchState,
  instrument: { readonly id: string; readonly kind: string; readonly title: string },
): BenchState {
  const inHand = { ...state.inHand, [instrument.kind]: instrument.id };
  return say({ ...state, inHand }, 'good', `In hand: ${instrument.id}, ${instrument.title}.`);
}

export const peopleScreen: ScreenDefinition<'people'> = {
  title: TITLES.people,
  long: true,
  list: (_state, world) =>
    world.rules.people.map(({ id, initials, name }) => ({ id, text: `${initials.padEnd(6)} ${name}` })),
  choose(state, item, world) {
    const person = world.rules.people.find(({ id }) => id === item.id);
    return person ? stay(goBack(signIn(state, person))) : stay(state);
  },
  typed: notListed,
};

export const instrumentsScreen: ScreenDefinition<'instruments'> = {
  title: TITLES.instruments,
  long: true,
  list: instrumentItems,
  choose(state, item, world) {
    const instrument = world.instruments.find(({ id }) => id === item.id);
    return instrument ? stay(goBack(takeInstrument(state, instrument))) : stay(state);
  },
  typed: notListed,
};

function notListed(state: BenchState, _screen: unknown, text: string): Update {
  return stay(
    say(
      emptied(state),
      'bad',
      `"${sanitize(text)}" is not in this list.`,
      'Choose with Up, Down and Enter, or scan again.',
    ),
  );
}
