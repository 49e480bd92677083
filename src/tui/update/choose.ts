/** A list item chosen with the arrows. */

import type { World } from '../../session/ports.js';
import type { CommandId } from '../keys/table.js';
import { type Item, PROBLEM, TAKE_OVER } from '../lists.js';
import type { Update } from '../protocol.js';
import { asked } from '../stand.js';
import { type BenchState, TOP } from '../state.js';
import { signIn, takeInstrument } from './act.js';
import { send } from './answer.js';
import { onCommand, snagHere } from './command.js';
import { fieldGiven } from './form.js';
import { goBack, say, showForm, stay, toStep, withoutNote } from './navigate.js';
import { startWalk } from './walk.js';

export function choose(state: BenchState, item: Item, world: World): Update {
  const { screen } = state;
  switch (screen.name) {
    case 'units':
      return { state: { ...state, entry: '' }, effects: [{ kind: 'open', unit: item.id }] };
    case 'stages': {
      const row = world.more?.stages().find(({ base }) => base === item.id);
      return row ? startWalk(state, row) : stay(state);
    }
    case 'setups':
      return stay(showForm(state, { id: 'setup', setup: item.id }));
    case 'unit': {
      if (item.id === TAKE_OVER) return stay(showForm(state, { id: 'take-over' }));
      if (item.id.startsWith(PROBLEM))
        return stay(showForm(state, { id: 'override', problem: item.id.slice(PROBLEM.length) }));
      const steps = world.open?.state.route.stages.find(({ id }) => id === item.id)?.steps ?? [];
      const open = steps.find((id) => world.open?.state.steps.get(id)?.status !== 'done') ?? steps[0];
      return open === undefined ? stay(state) : jump(state, open, world);
    }
    case 'steps':
      return jump(state, item.id, world);
    case 'people': {
      const person = world.rules.people.find(({ id }) => id === item.id);
      return person ? stay(goBack(signIn(state, person))) : stay(state);
    }
    case 'instruments': {
      const instrument = world.instruments.find(({ id }) => id === item.id);
      return instrument ? stay(goBack(takeInstrument(state, instrument))) : stay(state);
    }
    case 'menu':
      return onCommand(goBack(state), item.id as CommandId, world);
    case 'snags':
      return chooseSnag(state, item, world);
    case 'form':
      return fieldGiven(state, screen, item.id, world);
    case 'step':
      return chooseAtCheck(state, item, world);
    default:
      return stay(state);
  }
}

/** To a step that is open; a shut one says what it waits for, a done one that it is done. */
function jump(state: BenchState, id: string, world: World): Update {
  const step = world.open?.state.steps.get(id);
  if (!step) return stay(state);
  if (!step.open && step.status !== 'done' && step.status !== 'held')
    return stay(
      say(state, 'ask', `"${step.step.title}" waits.`, step.because[0] ?? 'Something before it is not done.'),
    );
  if (step.status === 'done')
    return stay(
      say(
        state,
        'plain',
        `"${step.step.title}" is done.`,
        'F7 makes it again, and shows first what that re-opens.',
      ),
    );
  return stay(withoutNote({ ...toStep(state), at: id }));
}

function chooseSnag(state: BenchState, item: Item, world: World): Update {
  if (item.id === 'new') return stay(showForm(state, snagHere(state, world)));
  const snag = world.open?.state.snags.find(({ n }) => String(n) === item.id);
  if (!snag) return stay(state);
  if (!snag.open) return stay(say(state, 'plain', `Snag #${snag.n} is closed.`));
  return stay(showForm(state, { id: snag.decided ? 'close' : 'decide', snag: snag.n }));
}

function chooseAtCheck(state: BenchState, item: Item, world: World): Update {
  const at = asked(state, world);
  if (!at?.stand.check || !at.check) return stay(state);
  const failed = at.stand.check.answered !== undefined && !at.stand.check.holds;
  if (!failed && at.check.kind === 'square')
    return stay(
      say(state, 'ask', `${item.text}: take it again.`, 'Type or send the new reading, then Enter.'),
    );
  if (!failed) return send(state, { do: 'answer', check: at.check.id, value: item.id }, world);
  const calm = { ...state, screen: { ...state.screen, cursor: TOP } };
  if (item.id === 'rework') return stay(showForm(calm, { id: 'rework', step: at.stand.step.step.id }));
  if (item.id === 'snag') return stay(showForm(calm, snagHere(state, world)));
  return stay(
    say(
      calm,
      'ask',
      'Check it again.',
      at.check.kind === 'number' || at.check.kind === 'square'
        ? 'Type or send the new reading, then Enter.'
        : 'Then answer again.',
    ),
  );
}
