/** The keys, as a help page and as a menu of commands. */

import { data, laid, type Spoken } from '../../base/words.js';
import { COMMANDS, type CommandId, keyText } from '../keys/table.js';
import { goBack, stay } from '../navigate.js';
import { BLANK, type Line, wrapLine } from '../parts/line.js';
import { STATUS, STATUSES, shape, type Theme } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import type { ScreenDefinition } from './screen.js';

/** What the signs of steps and stages mean. */
const signsText = (theme: Theme, say: BenchSay): Spoken =>
  data(STATUSES.map((status) => laid`${shape(STATUS[status], theme)} ${say(`status-${status}`)}`).join(', '));

export function helpLines(width: number, theme: Theme, say: BenchSay): readonly Line[] {
  const keyWidth = 14;
  return [
    ...wrapLine(laid` ${say('help-typing')}`, width, 'plain', ' '),
    ...wrapLine(laid` ${signsText(theme, say)}`, width, 'plain', ' '),
    BLANK,
    ...COMMANDS.flatMap(({ id, keys }) =>
      wrapLine(say(`key-${id}-help`), width - keyWidth - 2).map(
        (row, index): Line => [
          {
            text: data(
              ` ${(index === 0 ? keys.map((key) => keyText(key, say)).join(' ') : '').padEnd(keyWidth)}`,
            ),
            tone: 'strong',
          },
          ...row,
        ],
      ),
    ),
  ];
}

export const helpScreen: ScreenDefinition<'help'> = {
  scrolls: true,
  lines: (_state, _screen, world, width, theme) => helpLines(width, theme, told(world)),
};

export const menuScreen: ScreenDefinition<'menu'> = {
  title: 'title-menu',
  list: (_state, world) =>
    COMMANDS.filter((each) => each.inMenu && (!each.needsUnit || world.open)).map((each) => ({
      id: each.id,
      text: data(
        `${told(world)(`key-${each.id}`).padEnd(14)} ${each.keys.map((key) => keyText(key, told(world))).join(` ${told(world)('menu-or')} `)}`,
      ),
    })),
  choose: (state, item) => ({ ...stay(goBack(state)), command: item.id as CommandId }),
};
