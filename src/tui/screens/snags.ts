/** The unit's snags. */

import type { World } from '../../session/ports.js';
import type { UnitState } from '../../unit/unitstate.js';
import { unitWords } from '../../unit/words.js';
import { currentTask } from '../currenttask.js';
import { say, showForm, stay } from '../navigate.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import { type BenchSay, told } from '../words/told.js';
import { causeSaid, reasonSaid } from './reasons.js';
import type { Item, ScreenDefinition } from './screen.js';

function snagItems(unit: UnitState, words: BenchSay): readonly Item[] {
  return [
    { id: 'new', sign: '+', text: words('snag-new') },
    ...unit.snags.map((snag) => ({
      id: String(snag.n),
      sign: snag.open ? '!' : 'v',
      text: words('snag-row', {
        n: snag.n,
        severity: words(`severity-${snag.raised.severity}-word`),
        cause: causeSaid(snag.raised.cause, words),
        text: reasonSaid(snag.raised.text, words),
        state: !snag.open
          ? words('snag-closed')
          : snag.decided
            ? words('snag-decided', { disposition: unitWords(`decided-${snag.decided.disposition}`) })
            : words('snag-open'),
      }),
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
  if (!snag.open) return stay(say(state, 'plain', told(world)('snag-is-closed', { n: snag.n })));
  return stay(showForm(state, { id: snag.decided ? 'close' : 'decide', snag: snag.n }));
}

export const snagsScreen: ScreenDefinition<'snags'> = {
  title: 'title-snags',
  long: true,
  list: (_state, world) => (world.open ? snagItems(world.open.state, told(world)) : []),
  choose: chooseSnag,
};
