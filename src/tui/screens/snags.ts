/** The unit's snags. */
import type { World } from '../../session/ports.js';
import type { UnitState } from '../../unit/unitstate.js';
import { currentTask } from '../currenttask.js';
import { say, showForm, stay } from '../navigate.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import type { Item, ScreenDefinition } from './screen.js';

function snagItems(unit: UnitState): readonly Item[] {
  return [
    { id: 'new', sign: '+', text: 'raise a new snag' },
    ...unit.snags.map((snag) => ({
      id: String(snag.n),
      sign: snag.open ? '!' : 'v',
      text: `#${snag.n} ${snag.raised.severity}: ${snag.raised.cause.replaceAll('-', ' ')}, ${snag.raised.text}  ${
        snag.open ? (snag.decided ? `open, ${snag.decided.disposition}` : 'open, not decided') : 'closed'
      }`,
    })),
  ];
}

/** A new snag refers to the current step and check. */
export function snagHere(state: BenchState, world: World) {
  const task = world.open && currentTask(world.open.state, state.at);
  return {
    id: 'snag' as const,
    ...(task ? { step: task.step.step.id } : {}),
    ...(task?.check ? { check: task.check.id } : {}),
  };
}

function chooseSnag(state: BenchState, item: Item, world: World): Update {
  if (item.id === 'new') return stay(showForm(state, snagHere(state, world)));
  const snag = world.open?.state.snags.find(({ n }) => String(n) === item.id);
  if (!snag) return stay(state);
  if (!snag.open) return stay(say(state, 'plain', `Snag #${snag.n} is closed.`));
  return stay(showForm(state, { id: snag.decided ? 'close' : 'decide', snag: snag.n }));
}

export const snagsScreen: ScreenDefinition<'snags'> = {
  title: 'title-snags',
  long: true,
  list: (_state, { open }) => (open ? snagItems(open.state) : []),
  choose: chooseSnag,
};
