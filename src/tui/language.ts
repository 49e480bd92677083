import type { Route } from '../procedure/types.js';
import { stateWorded } from '../session/plan.js';
import type { OpenUnit, Words, World } from '../session/ports.js';
import { say, stay } from './navigate.js';
import type { Update } from './protocol.js';
import type { BenchState } from './state.js';
import { told } from './words/told.js';

/** The language chosen at the bench, else the one in shared/people.yaml, else that of the terminal. */
export function languageOf(state: BenchState, world: World): string | undefined {
  const { said, person } = state;
  if (said && said.by === person) return said.language;
  return world.rules.people.find(({ id }) => id === person)?.language ?? state.terminal;
}

/** The world in this person's language. Returns the same object if there is nothing to translate. */
export function localizedWorld(state: BenchState, world: World): World {
  const { open } = world;
  const language = languageOf(state, world);
  if (language === undefined) return world;
  const route = open?.words && language !== open.words.own ? open.words.route(language) : undefined;
  return { ...world, language, ...(open && route ? { open: spokenUnit(open, route) } : {}) };
}

/** The next language in the cycle; undefined if there is only one. */
function nextLanguage(words: Words, now: string | undefined): string | undefined {
  const all = [words.own, ...words.others];
  return all.length < 2 ? undefined : all[(Math.max(0, all.indexOf(now ?? words.own)) + 1) % all.length];
}

const languageName = (code: string, reader: string): string =>
  new Intl.DisplayNames([reader], { type: 'language' }).of(code) ?? code;

// Cached so that an unchanged screen is not redrawn.
const spoken = new WeakMap<OpenUnit, { readonly route: Route; readonly open: OpenUnit }>();

function spokenUnit(open: OpenUnit, route: Route): OpenUnit {
  const before = spoken.get(open);
  if (before?.route === route) return before.open;
  const made = { ...open, own: open.state.route, state: stateWorded(open.state, route) };
  spoken.set(open, { route, open: made });
  return made;
}

/** Switches to the next language; it lasts until the person at the bench changes. */
export function switchLanguage(state: BenchState, world: World): Update {
  const words = world.open?.words;
  const language = words && nextLanguage(words, languageOf(state, world));
  if (language === undefined)
    return stay(
      say(
        state,
        'ask',
        told(world)(world.open ? 'language-one' : 'no-unit-open'),
        told(world)(world.open ? 'language-add' : 'choose-unit'),
      ),
    );
  return stay(
    say(
      { ...state, said: { by: state.person, language } },
      'plain',
      told({ language })('language-now', { language: languageName(language, language) }),
    ),
  );
}
