import type { Route } from '../procedure/types.js';
import type { OpenUnit, Words, World } from '../session/ports.js';
import { say, stay } from './navigate.js';
import type { Update } from './protocol.js';
import type { BenchState } from './state.js';

/** What the person chose at the bench, else what shared/people.yaml says of them; undefined for the procedure's own. */
function languageOf(state: BenchState, world: World): string | undefined {
  const { said, person } = state;
  if (said && said.by === person) return said.language;
  return world.rules.people.find(({ id }) => id === person)?.language;
}

/** The world as this person reads it. The same world where there is nothing to translate. */
export function localizedWorld(state: BenchState, world: World): World {
  const { open } = world;
  const language = open?.words && languageOf(state, world);
  if (!open?.words || language === undefined || language === open.words.own) return world;
  const route = open.words.route(language);
  return route ? { ...world, open: spokenUnit(open, route) } : world;
}

/** The next language after the one that is read now, in a ring; undefined where there is but one. */
function nextLanguage(words: Words, now: string | undefined): string | undefined {
  const all = [words.own, ...words.others];
  return all.length < 2 ? undefined : all[(Math.max(0, all.indexOf(now ?? words.own)) + 1) % all.length];
}

/** "German" for `de`, in the words of the bench. */
const languageName = (code: string): string =>
  new Intl.DisplayNames(['en'], { type: 'language' }).of(code) ?? code;

// Kept, so that a screen on which nothing changed is not drawn again.
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

/** The next language, for the person at the bench and until another one comes. */
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
