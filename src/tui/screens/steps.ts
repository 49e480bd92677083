/** The steps of the unit; choosing one jumps to it. */
import type { World } from '../../session/ports.js';
import type { StepState } from '../../unit/types.js';
import { say, stay, toStep, withoutNote } from '../navigate.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import { STATUS, TITLES } from '../words.js';
import type { Item, ScreenDefinition } from './screen.js';

export function stepItem({ step, status, because, open }: StepState): Item {
  const item = step.item !== undefined && !step.title.includes(step.item) ? ` ${step.item}` : '';
  const why = open ? undefined : because[0];
  return {
    id: step.id,
    sign: STATUS[status].sign,
    text: `${step.title}${item}  ${STATUS[status].word}${why ? `: ${why}` : ''}`,
    shut: !open && status !== 'done' && status !== 'held',
  };
}

/** To a step that is open; a shut one says what it waits for, a done one that it is done. */
export function jump(state: BenchState, id: string, world: World): Update {
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

/** The step marked in the list of steps, where that is the screen. */
export function markedStep({ screen }: BenchState, world: World): string | undefined {
  return screen.name === 'steps' ? [...(world.open?.state.steps.keys() ?? [])][screen.cursor.at] : undefined;
}

export const stepsScreen: ScreenDefinition<'steps'> = {
  title: TITLES.steps,
  long: true,
  list: (_state, world) => [...(world.open?.state.steps.values() ?? [])].map(stepItem),
  choose: (state, item, world) => jump(state, item.id, world),
};
