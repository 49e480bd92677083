/** Enter with something on the entry line. A code the workshop knows is a scan, whatever screen is at hand. */

import { plain } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import { isWorkshopAction } from '../../unit/actions.js';
import type { Person } from '../../unit/workshop.js';
import { readEntry } from '../entry.js';
import { currentField } from '../forms/fields.js';
import { unitItems } from '../lists.js';
import type { Update } from '../protocol.js';
import { type BenchState, LONGEST_ENTRY } from '../state.js';
import { answerByEntry } from './answer.js';
import { fieldGiven } from './form.js';
import { fromMeasured } from './measured.js';
import { goBack, say, stay } from './navigate.js';

export function actOnEntry(state: BenchState, world: World): Update {
  const empty: BenchState = { ...state, entry: '' };
  if (state.entry.length > LONGEST_ENTRY)
    return stay(
      say(empty, 'bad', 'That was too long to be one scan; nothing was taken.', 'Scan or type it again.'),
    );
  const entry = readEntry(state.entry, world);
  switch (entry.kind) {
    case 'unit':
      return { state: empty, effects: [{ kind: 'open', unit: entry.unit }] };
    case 'wrong-check':
      return stay(
        say(
          empty,
          'bad',
          `"${plain(entry.text)}" is a label's code with a sign read or typed wrongly.`,
          'Scan the label again.',
        ),
      );
    case 'person':
      return personScanned(empty, entry.person, world);
    case 'instrument':
      return stay(takeInstrument(empty, entry.instrument));
    default:
      return typedWords(state, empty, entry.text, world);
  }
}

/** Who is at the bench, from now on. */
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

function personScanned(state: BenchState, person: Person, world: World): Update {
  const { screen } = state;
  if (screen.name === 'form' && screen.form.id === 'second')
    return person.id === state.person
      ? stay(say(state, 'bad', `${person.name} is at the bench already; a second name is somebody else's.`))
      : fieldGiven(state, screen, person.id, world);
  if (screen.name === 'form' && screen.form.id === 'overdue')
    return fieldGiven(state, screen, person.id, world);
  // A form half filled belongs to the person who began it: a PIN typed by one is never sent in another's name.
  const signed = signIn(screen.name === 'form' ? goBack(state) : state, person);
  return stay(screen.name === 'people' ? goBack(signed) : signed);
}

function typedWords(before: BenchState, empty: BenchState, text: string, world: World): Update {
  switch (before.screen.name) {
    case 'step':
      return keepIfNotLogged(before, answerByEntry(empty, text, world));
    case 'form': {
      const field = currentField(before.screen, before, world);
      if (!field)
        return stay(
          say(empty, 'ask', `"${plain(text)}" changes nothing here.`, 'Right arrow does it; Esc leaves it.'),
        );
      if (field.hidden) return fieldGiven(empty, before.screen, text, world);
      const choice = field.choices.find(({ id }) => id.toLowerCase() === text.toLowerCase());
      if (choice) return fieldGiven(empty, before.screen, choice.id, world);
      if (field.takes ? field.takes.test(text) : field.words && /\p{L}{2}/u.test(text))
        return fieldGiven(empty, before.screen, text, world);
      return stay(
        say(
          empty,
          'bad',
          `"${plain(text)}" is no answer to that.`,
          field.hint ??
            (field.words
              ? 'Say it in words, or choose with Up, Down and Right.'
              : 'Choose with Up, Down and Right.'),
        ),
      );
    }
    case 'release':
      // A PIN stays on the line, unseen, until the release key takes it; what cannot be one goes. Enter never releases.
      return stay(
        say(
          /^\d{1,12}$/.test(text) ? before : empty,
          'ask',
          'Enter never releases a hold.',
          'F8 releases it; Esc leaves it.',
        ),
      );
    case 'measured':
      return onPicture(before, empty, text, world);
    case 'question':
      if (isWorkshopAction(before.screen.action))
        return stay(say(empty, 'ask', `"${plain(text)}" was not taken.`, 'Left arrow, then measure again.'));
      return keepIfNotLogged(before, answerByEntry({ ...goBack(empty) }, text, world));
    case 'units': {
      const found = unitItems(world, text);
      const marked = before.screen.cursor.moved ? found[before.screen.cursor.at] : undefined;
      if (marked) return { state: empty, effects: [{ kind: 'open', unit: marked.id }] };
      if (found.length === 1) return { state: empty, effects: [{ kind: 'open', unit: found[0]!.id }] };
      const much = found.length === 0 ? 'No unit' : `${found.length} units`;
      return stay(
        say(
          empty,
          'ask',
          `${much} for "${plain(text)}".`,
          'Type more of it, or choose with Up, Down and Enter.',
        ),
      );
    }
    case 'people':
    case 'instruments':
      return stay(
        say(
          empty,
          'bad',
          `"${plain(text)}" is not in this list.`,
          'Choose with Up, Down and Enter, or scan again.',
        ),
      );
    default:
      return stay(
        say(
          empty,
          'ask',
          `"${plain(text)}" was not logged: this screen asks for nothing.`,
          'Esc goes back to the step.',
        ),
      );
  }
}

/** What is typed on the picture is for the check at hand; not where the picture is left for another unit. */
function onPicture(before: BenchState, empty: BenchState, text: string, world: World): Update {
  const left = fromMeasured(empty, world);
  if (left.effects.length === 0) return keepIfNotLogged(before, answerByEntry(left.state, text, world));
  return {
    ...left,
    state: say(left.state, 'ask', `"${plain(text)}" was not logged: the next unit comes first.`),
  };
}

/** Until the world has said that it is written, an answer stays on the line; what was refused at once is cleared. */
function keepIfNotLogged(before: BenchState, update: Update): Update {
  if (update.effects.length > 0)
    return { state: { ...update.state, entry: before.entry }, effects: update.effects };
  return update;
}
