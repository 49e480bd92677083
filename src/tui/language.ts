import type { Route } from '../procedure/types.js';
import type { OpenUnit, Words, World } from '../session/ports.js';
import { say, stay } from './navigate.js';
import type { Update } from './protocol.js';
import type { BenchState } from './state.js';

/** The language chosen at the bench, else the one in shared/people.yaml; undefined for the procedure's own. */
function languageOf(state: BenchState, world: World): string | undefined {
  const { said, person } = state;
  if (said && said.by === person) return said.language;
  return world.rules.people.find(({ id }) => id === person)?.language;
}

/** The world in this person's language. Returns the same object if there is nothing to translate. */
export function localizedWorld(state: BenchState, world: World): World {
  const { open } = world;
  const language = open?.words && languageOf(state, world);
  if (!open?.words || language === undefined || language === open.words.own) return world;
  const route = open.words.route(language);
  return route ? { ...world, open: spokenUnit(open, route) } : world;
}

/** The next language in the cycle; undefined if there is only one. */
function nextLanguage(words: Words, now: string | undefined): string | undefined {
  const all = [words.own, ...words.others];
  return all.length < 2 ? undefined : all[(Math.max(0, all.indexOf(now ?? words.own)) + 1) % all.length];
}

const languageName = (code: string): string =>
  new Intl.DisplayNames(['en'], { type: 'language' }).of(code) ?? code;

// Cached so that an unchanged screen is not redrawn.
const spoken = new WeakMap<OpenUnit, { readonly route: Route; readonly open: OpenUnit }>();

function spokenUnit(open: OpenUnit, route: Route): OpenUnit {
  const before = spoken.get(open);
  if (before?.route === route) return before.open;
  const words = new Map(route.steps.map((step) => [step.id, step]));
  const steps = new Map(
    [...open.state.steps].map(([id, state]) => [id, { ...state, step: words.get(id) ?? state.step }]),
  );
  const made = { ...open, state: { ...open.state, route, steps } };
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
        world.open ? 'This procedure is in one language only.' : 'No unit is open.',
        world.open ? 'procedures/README.md says how to add another one.' : 'Choose or scan a unit.',
      ),
    );
  return stay(
    say(
      { ...state, said: { by: state.person, language } },
      'plain',
      `The steps are in ${languageName(language)}.`,
    ),
  );
}
