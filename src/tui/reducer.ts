/** The bench's decisions as a pure function: state, message and world in, next state and effects out. */

import { sanitize } from '../base/text.js';
import { Several } from '../base/words.js';
import type { Instrument } from '../measure/types.js';
import type { World } from '../session/ports.js';
import { levelOf, RELEASES } from '../unit/people.js';
import type { Person } from '../unit/types.js';
import { takeInstrument } from './answers.js';
import { onCommand } from './commands.js';
import { asked, currentTask } from './currenttask.js';
import { readEntry } from './entry.js';
import type { Key } from './keys/split.js';
import { commandOf } from './keys/table.js';
import { emptied, goBack, say, showForm, stay } from './navigate.js';
import type { BenchMessage, Effect, Update } from './protocol.js';
import { onResult } from './result.js';
import { currentField } from './screens/fields.js';
import { fieldGiven } from './screens/form.js';
import { signIn } from './screens/people.js';
import { toRelease } from './screens/release.js';
import { screenOn } from './screens/screens.js';
import { WITH } from './screens/setupfields.js';
import { standing } from './stands.js';
import { type BenchState, LONGEST_ENTRY, TOP } from './state.js';
import { type BenchSay, told } from './words/told.js';

export function update(state: BenchState, message: BenchMessage, world: World): Update {
  const done = updated(state, message, world);
  return { ...done, state: standing(done.state, world) };
}

function updated(state: BenchState, message: BenchMessage, world: World): Update {
  switch (message.kind) {
    case 'key':
      return onKey(handBack(state, world, message.at), message.key, message.at, world);
    case 'tick':
      return { state: handBack(state, world, message.at), effects: [] };
    case 'result':
      return onResult(state, message, world);
  }
}

/** Nobody does a step as fast as this: the same key again after an answer is a key held down, or pressed by mistake. */
const HELD_MS = 700;
/** A key held down repeats itself at least this fast, however long it is held. */
const REPEAT_MS = 150;
/** Keys that write or decide something; all others may repeat. */
const ONCE: ReadonlySet<string> = new Set(['yes', 'no', 'release', 'put-right']);
const NONE: readonly Effect[] = [];

function onKey(state: BenchState, key: Key, at: number, world: World): Update {
  const before = state.lastKey;
  let next: BenchState = {
    ...state,
    lastKey: { name: key.name, at, ...(before?.acted === undefined ? {} : { acted: before.acted }) },
  };
  if (key.name === 'char') return typed(next, key.text ?? '');
  if (key.name === 'backspace' || key.name === 'delete') {
    return {
      state: { ...next, entry: [...next.entry].slice(0, -1).join(''), suggested: false },
      effects: NONE,
    };
  }
  const found = commandOf(key.name);
  if (!found) return { state: next, effects: NONE };
  if (ONCE.has(found.id) && !screenOn(next).turns) {
    const again = before?.name === key.name;
    const since = again ? Math.abs(at - (before.acted ?? before.at)) : HELD_MS;
    if (again && (since < HELD_MS || Math.abs(at - before.at) < REPEAT_MS))
      return stay(tooSoon(next, told(world)));
    next = { ...next, lastKey: { name: key.name, at, acted: at } };
  }
  if (found.id === 'act') {
    if (next.entry.trim() !== '') return actOnEntry(next, world);
    // Tab acts only on typed text; Enter also picks from a list that was moved. A scanner may send an extra one of
    // either.
    const again = before?.name === key.name && Math.abs(at - before.at) < HELD_MS;
    return key.name === 'enter' && !(again && !next.screen.cursor.moved)
      ? onCommand({ ...next, entry: '' }, 'act', world)
      : { state: next, effects: NONE };
  }
  return onCommand(next, found.id, world);
}

/** Says so beside the result of the first press, which stays. */
function tooSoon(state: BenchState, words: BenchSay): BenchState {
  const { note } = state;
  const todo = words('press-again');
  return {
    ...state,
    note: note ? { ...note, todo } : { tone: 'ask', text: words('too-soon'), todo },
  };
}

function typed(state: BenchState, text: string): Update {
  // Keeps one character over the limit, so that Enter can tell the entry was too long.
  if (state.entry.length > LONGEST_ENTRY) return { state, effects: NONE };
  const next = { ...state, entry: (state.suggested ? '' : state.entry) + text, suggested: false };
  // The entry line filters the list, so the mark no longer applies.
  const screen = screenOn(state).filtered ? { ...next.screen, cursor: TOP } : next.screen;
  return { state: { ...next, screen }, effects: NONE };
}

/** Signs the person out after idle time. Measured from the last key, so time asleep counts as idle. */
function handBack(state: BenchState, world: World, at: number): BenchState {
  if (state.person === undefined || state.lastKey === undefined) return state;
  if (at - state.lastKey.at < world.rules.idleMinutes * 60_000) return state;
  const { person: _gone, before: _too, ...rest } = state;
  return {
    ...rest,
    seconds: {},
    note: {
      tone: 'ask',
      text: told(world)('idle', { n: world.rules.idleMinutes }),
      todo: told(world)('choose-person'),
    },
  };
}

/** Handles Enter with text on the entry line. A code the workshop knows counts as a scan on any screen. */
function actOnEntry(state: BenchState, world: World): Update {
  const empty: BenchState = { ...state, entry: '' };
  if (state.entry.length > LONGEST_ENTRY)
    return stay(say(empty, 'bad', told(world)('too-long'), told(world)('scan-again')));
  const entry = readEntry(state.entry, world);
  switch (entry.kind) {
    case 'unit':
      if (
        state.screen.name === 'step' &&
        world.open &&
        entry.unit === `${world.open.job}/${world.open.id}` &&
        world.open.readOnly === undefined
      )
        return stay(say(empty, 'plain', told(world)('here-already', { unit: world.open.id })));
      return { state: empty, effects: [{ kind: 'open', unit: entry.unit }] };
    case 'wrong-check':
      return stay(
        say(
          empty,
          'bad',
          told(world)('wrong-sign', { text: sanitize(entry.text) }),
          told(world)('scan-label'),
        ),
      );
    case 'person':
      return personScanned(empty, entry.person, world);
    case 'instrument':
      return instrumentScanned(empty, entry.instrument, world);
    case 'setup':
      return stay(showForm(empty, { id: 'setup', setup: entry.setup }));
    case 'several': {
      const words = told(world);
      return stay(
        say(
          empty,
          'ask',
          words('several-codes', {
            code: sanitize(entry.text),
            kinds: new Several(entry.letters.map((letter) => words(`code-${letter}`))),
          }),
          words('several-type', { codes: entry.codes }),
        ),
      );
    }
    default:
      return typedWords(state, entry.text, world);
  }
}

function personScanned(state: BenchState, person: Person, world: World): Update {
  const { screen } = state;
  if (
    screen.name === 'form' &&
    screen.form.id === 'second' &&
    currentField(screen, state, world)?.id === 'code'
  )
    return fieldGiven(state, screen, person.id, world);
  if (screen.name === 'form' && screen.form.id === 'second')
    return person.id === state.person
      ? stay(say(state, 'bad', told(world)('second-is-other', { name: person.name })))
      : fieldGiven(state, screen, person.id, world);
  if (screen.name === 'form' && ['overdue', 'accept', 'unsigned'].includes(screen.form.id))
    return fieldGiven(state, screen, person.id, world);
  // A half-filled form belongs to the person who began it: a PIN typed by one person is never sent in another's name.
  const signed = signIn(screen.name === 'form' ? goBack(state) : state, person, world);
  return stay(atHold(screen.name === 'people' ? goBack(signed) : signed, person, world));
}

/** Somebody who may release the hold at which the step waits has its readings before them at once. */
function atHold(state: BenchState, person: Person, { open }: World): BenchState {
  const task = open && state.screen.name === 'step' ? currentTask(open.state, state.at) : undefined;
  if (!task || task.check || task.step.status !== 'held') return state;
  const { id, stage } = task.step.step;
  return levelOf(person, stage) >= RELEASES ? toRelease(state, id) : state;
}

/** On a form that asks with which instrument, the scan answers that. */
function instrumentScanned(state: BenchState, instrument: Instrument, world: World): Update {
  const { screen } = state;
  const field = screen.name === 'form' ? currentField(screen, state, world) : undefined;
  if (
    screen.name === 'form' &&
    field?.id.startsWith(WITH) &&
    field.choices.some(({ id }) => id === instrument.id)
  )
    return fieldGiven(state, screen, instrument.id, world);
  // Over the list of instruments the scan is the choice.
  const at = screen.name === 'instruments' ? goBack(state) : state;
  return stay(takeInstrument(at, instrument, told(world), asked(at, world)?.check?.id));
}

function typedWords(state: BenchState, text: string, world: World): Update {
  const own = screenOn(state).typed?.(state, state.screen, text, world);
  return (
    own ??
    stay(
      say(
        emptied(state),
        'ask',
        told(world)('asks-nothing', { text: sanitize(text) }),
        told(world)('esc-to-step'),
      ),
    )
  );
}
