/** Switching the language of the steps. Nothing is written: it is a matter of reading alone. */
import type { World } from '../../session/ports.js';
import type { Update } from '../protocol.js';
import { languageName, languageOf, nextLanguage } from '../spoken.js';
import type { BenchState } from '../state.js';
import { say, stay } from './navigate.js';

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
