/** Confirmations: a likely misread, an answer that could not be saved, and whether to leave the bench. */
import { sanitize } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import { isWorkshopAction } from '../../unit/actions.js';
import { answerByEntry, send } from '../answers.js';
import { emptied, goBack, keptOnLine, say, stay } from '../navigate.js';
import { BLANK, type Line, wrapLine } from '../parts/line.js';
import type { Screen } from '../state.js';
import type { ScreenDefinition } from './screen.js';

export function questionLines(screen: Extract<Screen, { name: 'question' }>, width: number): readonly Line[] {
  return [
    ...wrapLine(` ${screen.question.text}`, width, 'ask', ' '),
    BLANK,
    ...screen.question.details.flatMap((detail) => wrapLine(`   ${detail}`, width, 'plain', '   ')),
    BLANK,
    ...(screen.retry
      ? wrapLine(' Right arrow: try again.   Left arrow: leave it unlogged.', width, 'strong', ' ')
      : wrapLine(
          ' Right arrow: it is so, log it.   Left arrow: measure again.   Or type the new reading.',
          width,
          'strong',
          ' ',
        )),
  ];
}

export const questionScreen: ScreenDefinition<'question'> = {
  modal: true,
  lines: (_state, screen, _world, width) => questionLines(screen, width),
  right: (state, { action, retry }, world) =>
    send(state, retry ? action : ({ ...action, confirmed: true } as typeof action), world),
  left: (state) => stay(say(goBack(state), 'ask', 'Not logged.', 'Measure again.')),
  typed(state, { action }, text, world) {
    if (isWorkshopAction(action))
      return stay(
        say(emptied(state), 'ask', `"${sanitize(text)}" was not taken.`, 'Left arrow, then measure again.'),
      );
    return keptOnLine(state, answerByEntry(goBack(emptied(state)), text, world));
  },
};

export function leaveLines(world: World, width: number): readonly Line[] {
  return [
    ...wrapLine(' Leave the bench?', width, 'strong'),
    BLANK,
    ...wrapLine(' Nothing is lost: all that was acknowledged is on disk.', width),
    ...(world.open ? wrapLine(` ${world.open.id} is taken up again at the same check.`, width) : []),
    BLANK,
    ...wrapLine(' Right arrow, ^X or ^C: leave.   Left arrow or Esc: stay.', width, 'strong', ' '),
  ];
}

export const leaveScreen: ScreenDefinition<'leave'> = {
  modal: true,
  lines: (_state, _screen, world, width) => leaveLines(world, width),
  right: (state) => stay({ ...state, left: true }),
  left: (state) => stay(goBack(state)),
};
