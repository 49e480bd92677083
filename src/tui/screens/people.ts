/** Choose or scan the person at the bench and the instrument in hand. */

import { sanitize } from '../../base/text.js';
import { data, laid, type Spoken } from '../../base/words.js';
import { measuresIt } from '../../measure/fitness.js';
import type { Instrument } from '../../measure/types.js';
import { measureWords } from '../../measure/words.js';
import { wantedBy } from '../../procedure/wanted.js';
import type { World } from '../../session/ports.js';
import type { Person } from '../../unit/types.js';
import { secondOf, takeInstrument } from '../answers.js';
import { asked } from '../currenttask.js';
import { emptied, goBack, say, stay } from '../navigate.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import { type BenchSay, told } from '../words/told.js';
import type { Item, ScreenDefinition } from './screen.js';

function instrumentItems(state: BenchState, world: World): readonly Item[] {
  const say = told(world);
  const check = asked(state, world)?.check;
  const wanted = check && wantedBy(check);
  const fits = wanted ? world.instruments.filter((each) => measuresIt(each, wanted)) : [];
  const others = world.instruments.filter((each) => !fits.includes(each));
  return [...fits, ...others].map(({ id, title, due, measures }) => ({
    id,
    text: laid`${data(id.padEnd(6))} ${toolText(title, measures, due, say)}`,
  }));
}

function toolText(
  title: string,
  measures: Instrument['measures'],
  due: string | undefined,
  say: BenchSay,
): Spoken {
  const told = {
    title,
    measures:
      measures.length === 0
        ? say('compares-only')
        : measures.map((quantity) => say.tell(measureWords(`quantity-${quantity}`))),
  };
  return due === undefined ? say('tool-line', told) : say('tool-line-due', { ...told, due });
}

/** Signs a person in. Whoever was there comes back after a release; a second name stays with its own person. */
export function signIn(state: BenchState, person: Person, world: World): BenchState {
  const { before: _gone, ...rest } = state;
  const left = state.person === undefined || state.person === person.id ? {} : { before: state.person };
  return say(
    { ...rest, ...left, person: person.id },
    'good',
    told({ ...world, language: person.language ?? world.language })('person-here', {
      name: person.name,
    }),
  );
}

/** Choosing this takes back the second name of the person at the bench. */
const ALONE_AGAIN = 'alone';

export const peopleScreen: ScreenDefinition<'people'> = {
  title: 'title-people',
  long: true,
  list(state, world) {
    const second = world.rules.people.find(({ id }) => id === secondOf(state));
    return [
      ...(second ? [{ id: ALONE_AGAIN, text: told(world)('second-back', { name: second.name }) }] : []),
      ...world.rules.people.map(({ id, initials, name }) => ({
        id,
        text: data(`${initials.padEnd(6)} ${name}`),
      })),
    ];
  },
  choose(state, item, world) {
    const { person: here } = state;
    if (item.id === ALONE_AGAIN && here !== undefined) {
      const { [here]: _gone, ...seconds } = state.seconds;
      return stay(say(goBack({ ...state, seconds }), 'plain', told(world)('second-gone')));
    }
    const person = world.rules.people.find(({ id }) => id === item.id);
    return person ? stay(goBack(signIn(state, person, world))) : stay(state);
  },
  typed: notListed,
};

export const instrumentsScreen: ScreenDefinition<'instruments'> = {
  title: 'title-instruments',
  long: true,
  list: instrumentItems,
  choose(state, item, world) {
    const instrument = world.instruments.find(({ id }) => id === item.id);
    return instrument
      ? stay(takeInstrument(goBack(state), instrument, told(world), asked(state, world)?.check?.id))
      : stay(state);
  },
  typed: notListed,
};

function notListed(state: BenchState, _screen: unknown, text: string, world: World): Update {
  return stay(
    say(
      emptied(state),
      'bad',
      told(world)('not-in-list', { text: sanitize(text) }),
      told(world)('choose-or-scan'),
    ),
  );
}
