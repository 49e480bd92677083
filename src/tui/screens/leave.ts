/** Whether to leave the bench. */
import type { World } from '../../session/ports.js';
import { goBack, stay } from '../navigate.js';
import { BLANK, type Line, wrap } from '../parts/line.js';
import type { ScreenDefinition } from './screen.js';

export function leaveLines(world: World, width: number): readonly Line[] {
  return [
    ...wrap(' Leave the bench?', width, 'strong'),
    BLANK,
    ...wrap(' Nothing is lost: all that was acknowledged is on disk.', width),
    ...(world.open ? wrap(` ${world.open.id} is taken up again at the same check.`, width) : []),
    BLANK,
    ...wrap(' Right arrow, ^X or ^C: leave.   Left arrow or Esc: stay.', width, 'strong', ' '),
  ];
}

export const leaveScreen: ScreenDefinition<'leave'> = {
  modal: true,
  lines: (_state, _screen, world, width) => leaveLines(world, width),
  right: (state) => stay({ ...state, left: true }),
  left: (state) => stay(goBack(state)),
};
