/** Commands: keys that no scanner sends. Keys specific to one screen are handled by that screen. */

import type { World } from '../session/ports.js';
import { walkOf } from '../unit/next.js';
import { isSet } from '../unit/sets.js';
import { backOnLine, send } from './answers.js';
import { asked, currentTask } from './currenttask.js';
import type { CommandId } from './keys/table.js';
import { switchLanguage } from './language.js';
import {
  emptied,
  goBack,
  say,
  showForm,
  showPlain,
  stay,
  toStep,
  withCursor,
  withoutNote,
} from './navigate.js';
import type { Update } from './protocol.js';
import { currentField, formAction, wantsPin } from './screens/fields.js';
import { showFigures } from './screens/figures.js';
import { releasesHold } from './screens/form.js';
import { showLists } from './screens/lists.js';
import { fromMeasured, lastMeasured } from './screens/measured.js';
import { toRelease } from './screens/release.js';
import { listOf, screenOn } from './screens/screens.js';
import { showSetups } from './screens/setups.js';
import { snagHere } from './screens/snags.js';
import { markedStep } from './screens/unit.js';
import type { BenchState, FormRequest } from './state.js';
import { told } from './words/told.js';

export function onCommand(state: BenchState, id: CommandId, world: World): Update {
  const { command, ...update } = commanded(state, id, world);
  return command === undefined ? update : onCommand(update.state, command, world);
}

function commanded(state: BenchState, id: CommandId, world: World): Update {
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
    case 'anew':
      return anew(state, world);
    case 'release':
      return release(state, world);
    case 'leave':
      return stay(state.screen.name === 'leave' ? { ...state, left: true } : showPlain(state, 'leave'));
    case 'language':
      return switchLanguage(state, world);
    default:
      return opens(state, id, world);
  }
}

function opens(state: BenchState, id: CommandId, world: World): Update {
  if (screenOn(state).modal && id !== 'help' && id !== 'units' && id !== 'stages')
    return stay(say(state, 'ask', told(world)('finish-first')));
  // What was typed to find something is no answer to what opens.
  const clear = withoutNote(screenOn(state).filtered ? emptied(state) : state);
  switch (id) {
    case 'help':
      return stay(showPlain(clear, 'help'));
    case 'units':
      return { state: showPlain({ ...clear, entry: '' }, 'units'), effects: [{ kind: 'refresh' }] };
    case 'stages': {
      // The key cycles through the units, the steps open across units, and the hand-over page.
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
  if (!open) return stay(say(state, 'ask', told(world)('no-unit-open'), told(world)('choose-unit')));
  const task = currentTask(open.state, state.at);
  switch (id) {
    case 'unit':
      return stay(showPlain(clear, 'unit'));
    case 'steps': {
      const at = [...open.state.steps.keys()].indexOf(task?.step.step.id ?? '');
      return stay(showPlain(emptied(clear), 'steps', Math.max(0, at)));
    }
    case 'lists':
      return stay(showLists(clear, world));
    case 'figures':
      return stay(showFigures(clear, world));
    case 'why':
      return stay(showPlain(clear, 'why'));
    case 'measured':
      if (lastMeasured(world)) return stay(showPlain(clear, 'measured'));
      return stay(say(state, 'plain', told(world)('none-measured')));
    case 'snags':
      if (open.state.snags.length > 0) return stay(showPlain(clear, 'snags'));
      return stay(showForm(clear, snagHere(state, world)));
    case 'rework': {
      const step = markedStep(state, world) ?? task?.step.step.id;
      if (step === undefined)
        return stay(say(state, 'ask', told(world)('rework-which'), told(world)('rework-mark')));
      if (open.state.steps.get(step)?.madeAt === undefined)
        return stay(
          say(
            state,
            'ask',
            told(world)('rework-not-begun', { step: open.state.steps.get(step)?.step.title ?? step }),
            told(world)('rework-mark-done'),
          ),
        );
      return stay(showForm(clear, { id: 'rework', step }));
    }
    case 'park':
      return open.state.parked ? send(state, { do: 'resume' }, world) : stay(showForm(clear, { id: 'park' }));
    case 'note':
      return stay(showForm(clear, task ? { id: 'note', step: task.step.step.id } : { id: 'note' }));
    case 'put-right':
      return stay(showForm(clear, { id: 'put-right' }));
    default:
      return stay(state);
  }
}

/** Begins the set at hand anew, also from the question about its readings. */
function anew(state: BenchState, world: World): Update {
  const at = asked(state, world);
  if (!at?.check || !isSet(at.check) || at.task.check?.partial === undefined)
    return stay(say(state, 'ask', told(world)('no-set')));
  const here = state.screen.name === 'question' ? goBack(state) : state;
  return send({ ...here, entry: '' }, { do: 'begin-set', check: at.check.id }, world);
}

const PAGE = 10;

function moveBy(state: BenchState, by: number, world: World): BenchState {
  const { at } = state.screen.cursor;
  if (screenOn(state).scrolls) return withCursor(state, Math.max(0, at + by));
  const last = listOf(state, world).length - 1;
  const byOne = Math.abs(by) === 1 && !state.screen.cursor.moved;
  const start = byOne ? screenOn(state).startsAt?.(state, world) : undefined;
  if (start !== undefined) return withCursor(state, start);
  // Nothing is marked before the first arrow, but for a form: it marks the row where the list stands, and passes none by.
  const from = byOne && state.screen.name !== 'form' ? 0 : by;
  return last < 0 ? state : withCursor(state, Math.min(last, Math.max(0, Math.min(at, last) + from)));
}

function back(state: BenchState, world: World): Update {
  if (state.entry !== '') return stay({ ...state, entry: '' });
  // What was refused is not on the line any more: whoever would empty it all the same does not leave the unit by that.
  if (state.screen.name === 'step' && state.note?.tone === 'bad') return stay(withoutNote(state));
  if (state.back.length === 0) {
    // On the board, Esc goes to the open unit, if any; it never exits the program.
    return stay(world.open && state.screen.name === 'units' ? toStep(withoutNote(state)) : state);
  }
  if (state.screen.name === 'measured') return fromMeasured(state, world);
  const typed = state.screen.name === 'form' ? answerIn(state.screen.form) : undefined;
  if (typed !== undefined) return stay({ ...goBack(withoutNote(state)), entry: typed, suggested: true });
  return stay(backOnLine(goBack(withoutNote(state)), world));
}

/** The typed answer that a form was to complete; leaving the form puts it back on the line. */
function answerIn(form: FormRequest): string | undefined {
  const action = 'action' in form ? form.action : undefined;
  if (action?.do === 'read') return action.value;
  const typed = action?.do === 'answer' && typeof action.value === 'string' && !ONE_KEY.has(action.value);
  return typed ? (action.value as string) : undefined;
}
/** Answers that a single key gives. */
const ONE_KEY: ReadonlySet<string> = new Set(['yes', 'no']);

function yesOrNo(state: BenchState, yes: boolean, world: World): Update {
  const { screen } = state;
  if (state.entry !== '' && screen.name !== 'leave')
    return stay(say(state, 'ask', told(world)('line-not-empty'), told(world)('line-empty-it')));
  const { right, left } = screenOn(state);
  const own = yes ? right : left;
  if (own) return own(state, screen, world);
  return yes && screen.cursor.moved ? enter(state, world) : stay(state);
}

/** Enter on an empty line picks the list item marked with the arrows on this screen; otherwise it does nothing. */
function enter(state: BenchState, world: World): Update {
  const { at, moved } = state.screen.cursor;
  const list = listOf(state, world);
  if (!moved && list.length > 0)
    return stay(say(state, 'ask', told(world)('enter-nothing'), told(world)('enter-mark')));
  const item = moved ? list[at] : undefined;
  return (item && screenOn(state).choose?.(state, item, world)) ?? stay(state);
}

/** The first press shows the hold; the second releases it, with the PIN on the entry line if one is required. */
function release(state: BenchState, world: World): Update {
  const { screen } = state;
  // The evidence file for the hold has been named: the same key releases it.
  if (screen.name === 'form' && releasesHold(screen) && !currentField(screen, state, world))
    return send(state, formAction(screen), world);
  if (screenOn(state).modal) return stay(say(state, 'ask', told(world)('finish-first')));
  const { open } = world;
  if (!open) return stay(say(state, 'ask', told(world)('no-unit-open'), told(world)('choose-unit')));
  if (state.screen.name === 'release') {
    const pin = state.entry.trim();
    if (wantsPin(state, world) && pin === '') return stay(say(state, 'ask', told(world)('pin-first')));
    const { step } = state.screen;
    const also = walkOf(open.state, step).map((each) => each.step.id);
    return send(
      state,
      {
        do: 'release',
        step,
        ...(also.length === 0 ? {} : { also }),
        ...(pin === '' ? {} : { pin }),
      },
      world,
    );
  }
  const marked = markedStep(state, world) ?? currentTask(open.state, state.at)?.step.step.id;
  const held = [...open.state.steps.values()].filter(({ status }) => status === 'held');
  const step = held.find((each) => each.step.id === marked) ?? held[0];
  if (!step) return stay(say(state, 'plain', told(world)('no-hold')));
  return stay(toRelease(state, step.step.id));
}
