/** Confirmations: a likely misread, an answer that could not be saved, and whether to leave the bench. */

import { sanitize } from '../../base/text.js';
import { laid } from '../../base/words.js';
import type { World } from '../../session/ports.js';
import { type BenchAction, isWorkshopAction } from '../../unit/actions.js';
import { placesOf } from '../../unit/sets.js';
import { answerByEntry, send } from '../answers.js';
import { asked } from '../currenttask.js';
import { looksNumeric } from '../entry.js';
import { emptied, goBack, keptOnLine, say, stay } from '../navigate.js';
import { BLANK, type Line, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import type { BenchState, Screen } from '../state.js';
import { type BenchSay, told } from '../words/told.js';
import type { ScreenDefinition } from './screen.js';
import { setItems } from './stepitems.js';

export function questionLines(
  screen: Extract<Screen, { name: 'question' }>,
  width: number,
  words: BenchSay,
): readonly Line[] {
  return [
    ...wrapLine(laid` ${words.tell(screen.question.text)}`, width, 'ask', ' '),
    BLANK,
    ...screen.question.details.flatMap((detail) =>
      wrapLine(laid`   ${words.tell(detail)}`, width, 'plain', '   '),
    ),
    BLANK,
    ...(screen.retry
      ? wrapLine(laid` ${words('question-retry')}`, width, 'strong', ' ')
      : wrapLine(
          laid` ${words(
            screen.question.id === 'build.same-picture'
              ? 'question-picture'
              : isAboutSet(screen.action)
                ? 'question-set'
                : 'question-one',
          )}`,
          width,
          'strong',
          ' ',
        )),
  ];
}

export const questionScreen: ScreenDefinition<'question'> = {
  modal: true,
  lines: (_state, screen, world, width) => questionLines(screen, width, told(world)),
  right: (state, { action, retry }, world) =>
    send(state, retry ? action : ({ ...action, confirmed: true } as typeof action), world),
  left: (state, { question }, world) =>
    stay(
      say(
        goBack(state),
        'ask',
        told(world)('not-logged'),
        told(world)(question.id === 'build.same-picture' ? 'another-picture' : 'measure-again'),
      ),
    ),
  list: (state, world) =>
    state.screen.name === 'question' && isAboutSet(state.screen.action) ? setItems(state, world) : [],
  typed(state, { action }, text, world) {
    // The question is about this reading: what is typed takes its place.
    if (action.do === 'read')
      return keptOnLine(state, send(goBack(emptied(state)), { ...action, value: text }, world));
    if (isAboutSet(action)) return keptOnLine(state, retaken(state, action, text, world));
    if (isWorkshopAction(action))
      return stay(
        say(
          emptied(state),
          'ask',
          told(world)('not-taken', { text: sanitize(text) }),
          told(world)('left-measure'),
        ),
      );
    return keptOnLine(state, answerByEntry(goBack(emptied(state)), text, world));
  },
};

const isAboutSet = (action: BenchAction): action is Extract<BenchAction, { do: 'answer' }> =>
  action.do === 'answer' && typeof action.value !== 'string';

/** The question stays until the reading that is doubted is marked; what was typed stays on the line. */
function retaken(
  state: BenchState,
  { check }: Extract<BenchAction, { do: 'answer' }>,
  text: string,
  world: World,
): Update {
  const { at, moved } = state.screen.cursor;
  const place = moved ? placesOf(asked(state, world)?.check ?? { kind: 'points' })[at] : undefined;
  if (!place || !looksNumeric(text))
    return stay(
      say(
        { ...state, entry: text, suggested: true },
        'ask',
        place ? told(world)('no-reading', { text: sanitize(text) }) : told(world)('which-reading'),
        told(world)(place ? 'type-number' : 'set-mark'),
      ),
    );
  const { key, time } = place;
  return send(goBack(emptied(state)), { do: 'read', check, key, value: text, replaces: time }, world);
}

export function leaveLines(world: World, width: number): readonly Line[] {
  const words = told(world);
  return [
    ...wrapLine(laid` ${words('leave-ask')}`, width, 'strong'),
    BLANK,
    ...wrapLine(laid` ${words('leave-lost')}`, width),
    ...(world.open ? wrapLine(laid` ${words('leave-again', { unit: world.open.id })}`, width) : []),
    BLANK,
    ...wrapLine(laid` ${words('leave-keys')}`, width, 'strong', ' '),
  ];
}

export const leaveScreen: ScreenDefinition<'leave'> = {
  modal: true,
  lines: (_state, _screen, world, width) => leaveLines(world, width),
  right: (state) => stay({ ...state, left: true }),
  left: (state) => stay(goBack(state)),
};
