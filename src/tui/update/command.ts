/** Commands: the keys that no scanner types. */

import type { World } from '../../session/ports.js';
import { currentField, wantsPin } from '../forms/fields.js';
import { formAction } from '../forms/submit.js';
import type { CommandId } from '../keys/table.js';
import { listOf, PAGE } from '../lists.js';
import { lastMeasured } from '../measured.js';
import type { Update } from '../protocol.js';
import { squareNext, standOf } from '../stand.js';
import { type BenchState, TOP } from '../state.js';
import { answerByArrow, send } from './answer.js';
import { choose } from './choose.js';
import { formLeft, formRight, releasesHold } from './form.js';
import { switchLanguage } from './language.js';
import { fromMeasured } from './measured.js';
import {
  goBack,
  isModal,
  say,
  show,
  showForm,
  showPlain,
  stay,
  toStep,
  withCursor,
  withoutNote,
} from './navigate.js';
import { showSetups } from './setups.js';

export function onCommand(state: BenchState, id: CommandId, world: World): Update {
  switch (id) {
    case 'up':
      return stay(moveBy(state, -1, world));
    case 'down':
      return stay(moveBy(state, 1, world));
    case 'page-up':
      return stay(moveBy(state, -PAGE, world));
    case 'page-down':
      return stay(moveBy(state, PAGE, world));
    case 'back':
      return back(state, world);
    case 'yes':
    case 'no':
      return yesOrNo(state, id === 'yes', world);
    case 'act':
      return enter(state, world);
    case 'release':
      return release(state, world);
    case 'leave':
      return state.screen.name === 'leave'
        ? { state: { ...state, left: true }, effects: [] }
        : stay(showPlain(state, 'leave'));
    case 'language':
      return switchLanguage(state, world);
    default:
      return opens(state, id, world);
  }
}

/** Commands that open a screen or a form. */
function opens(state: BenchState, id: CommandId, world: World): Update {
  if (isModal(state.screen) && id !== 'help' && id !== 'units' && id !== 'stages')
    return stay(say(state, 'ask', 'Finish this first, or leave it with Esc: nothing is written by leaving.'));
  const clear = withoutNote(state);
  switch (id) {
    case 'help':
      return stay(showPlain(clear, 'help'));
    case 'units':
      return { state: showPlain({ ...clear, entry: '' }, 'units'), effects: [{ kind: 'refresh' }] };
    case 'stages': {
      // The same key goes round: units, the steps open across them, the hand-over page.
      const { name } = state.screen;
      const to = name === 'stages' ? 'handover' : name === 'handover' ? 'units' : 'stages';
      return { state: showPlain({ ...clear, entry: '' }, to), effects: [{ kind: 'refresh' }] };
    }
    case 'person':
      return stay(showPlain(clear, 'people'));
    case 'instrument':
      return stay(showPlain(clear, 'instruments'));
    case 'menu':
      return stay(showPlain(clear, 'menu'));
    case 'setups':
      return showSetups(clear, world);
  }
  const { open } = world;
  if (!open) return stay(say(state, 'ask', 'No unit is open.', 'Choose or scan a unit.'));
  const stand = standOf(open.state, state.at);
  switch (id) {
    case 'unit':
      return stay(showPlain(clear, 'unit'));
    case 'steps': {
      const at = [...open.state.steps.keys()].indexOf(stand?.step.step.id ?? '');
      return stay(showPlain(clear, 'steps', Math.max(0, at)));
    }
    case 'why':
      return stay(showPlain(clear, 'why'));
    case 'measured':
      if (lastMeasured(world)) return stay(showPlain(clear, 'measured'));
      return stay(say(state, 'plain', 'No set of sides and diagonals was measured on this unit yet.'));
    case 'snags':
      if (open.state.snags.length > 0) return stay(showPlain(clear, 'snags'));
      return stay(showForm(clear, snagHere(state, world)));
    case 'rework': {
      const step = stepAt(state, world) ?? stand?.step.step.id;
      if (step === undefined)
        return stay(
          say(
            state,
            'ask',
            'Choose the step to be made again.',
            'F3 shows the steps; mark one with the arrows, then F7.',
          ),
        );
      return stay(showForm(clear, { id: 'rework', step }));
    }
    case 'park':
      return open.state.parked ? send(state, { do: 'resume' }, world) : stay(showForm(clear, { id: 'park' }));
    case 'note':
      return stay(showForm(clear, stand ? { id: 'note', step: stand.step.step.id } : { id: 'note' }));
    case 'put-right':
      return stay(showForm(clear, { id: 'put-right' }));
    default:
      return stay(state);
  }
}

/** The step marked in the list of steps, where that is the screen. */
function stepAt(state: BenchState, world: World): string | undefined {
  return state.screen.name === 'steps' ? listOf(state, world)[state.screen.cursor.at]?.id : undefined;
}

/** A snag raised now is about the step and check at hand. */
export function snagHere(state: BenchState, world: World) {
  const stand = world.open && standOf(world.open.state, state.at);
  return {
    id: 'snag' as const,
    ...(stand ? { step: stand.step.step.id } : {}),
    ...(stand?.check ? { check: stand.check.id } : {}),
  };
}

function moveBy(state: BenchState, by: number, world: World): BenchState {
  if (['help', 'why', 'measured', 'handover'].includes(state.screen.name))
    return withCursor(state, Math.max(0, state.screen.cursor.at + by));
  const items = listOf(state, world);
  if (items.length === 0) return state;
  const to = Math.min(items.length - 1, Math.max(0, Math.min(state.screen.cursor.at, items.length - 1) + by));
  return withCursor(state, to);
}

function back(state: BenchState, world: World): Update {
  if (state.entry !== '') return stay({ ...state, entry: '' });
  if (state.back.length === 0) {
    // From the board Esc goes to the unit on the bench, if there is one; it never leaves the program.
    return stay(world.open && state.screen.name === 'units' ? toStep(withoutNote(state)) : state);
  }
  if (state.screen.name === 'measured') return fromMeasured(state, world);
  return stay(goBack(withoutNote(state)));
}

function yesOrNo(state: BenchState, yes: boolean, world: World): Update {
  const { screen } = state;
  if (state.entry !== '' && screen.name !== 'leave')
    return stay(
      say(
        state,
        'ask',
        'Something stands on the entry line.',
        'Enter acts on it, Esc empties it; then the arrows answer.',
      ),
    );
  switch (screen.name) {
    case 'step': {
      if (yes && screen.cursor.moved && !squareIsIn(state, world)) return enter(state, world);
      return answerByArrow(state, yes, world);
    }
    case 'form':
      return yes ? formRight(state, screen, world) : formLeft(state, screen);
    case 'question':
      return yes
        ? send(
            state,
            screen.retry ? screen.action : ({ ...screen.action, confirmed: true } as typeof screen.action),
            world,
          )
        : stay(say(goBack(state), 'ask', 'Not logged.', 'Measure again.'));
    case 'measured':
      return fromMeasured(state, world);
    case 'leave':
      return yes ? { state: { ...state, left: true }, effects: [] } : stay(goBack(state));
    case 'release':
      return stay(say(state, 'ask', 'Arrows never release a hold.', 'F8 releases it; Esc leaves it.'));
    default:
      return yes && screen.cursor.moved ? enter(state, world) : stay(state);
  }
}

/** The list under a complete square set marks a reading to take again; Right arrow still judges the set. */
function squareIsIn(state: BenchState, world: World): boolean {
  const check = world.open && standOf(world.open.state, state.at)?.check;
  return check?.partial !== undefined && squareNext(check) === undefined;
}

/** Enter on an empty line chooses in a list that was moved with the arrows on this screen, and does nothing else. */
function enter(state: BenchState, world: World): Update {
  const { at, moved } = state.screen.cursor;
  const list = listOf(state, world);
  if (!moved && list.length > 0)
    return stay(
      say(
        state,
        'ask',
        'Enter chose nothing: the arrows have marked nothing yet.',
        'Up and Down mark, Enter then takes it; or type what it is.',
      ),
    );
  const item = moved ? list[at] : undefined;
  return item ? choose(state, item, world) : stay(state);
}

/** The hold's own key: the first press shows it, the second releases it with the PIN on the line, where one is asked. */
function release(state: BenchState, world: World): Update {
  const { screen } = state;
  // The file that a hold asks for has been named: the same key releases.
  if (screen.name === 'form' && releasesHold(screen) && !currentField(screen, state, world))
    return send(state, formAction(screen), world);
  if (isModal(state.screen)) return stay(say(state, 'ask', 'Finish this first, or leave it with Esc.'));
  const { open } = world;
  if (!open) return stay(say(state, 'ask', 'No unit is open.', 'Choose or scan a unit.'));
  if (state.screen.name === 'release') {
    const pin = state.entry.trim();
    if (wantsPin(state, world) && pin === '') return stay(say(state, 'ask', 'Your PIN first, then F8.'));
    return send(state, { do: 'release', step: state.screen.step, ...(pin === '' ? {} : { pin }) }, world);
  }
  const marked = stepAt(state, world) ?? standOf(open.state, state.at)?.step.step.id;
  const held = [...open.state.steps.values()].filter(({ status }) => status === 'held');
  const step = held.find((each) => each.step.id === marked) ?? held[0];
  if (!step) return stay(say(state, 'plain', 'No hold waits to be released here.'));
  return stay(
    show(withoutNote({ ...state, entry: '' }), { name: 'release', step: step.step.id, cursor: TOP }),
  );
}
