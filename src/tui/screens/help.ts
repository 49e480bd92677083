/** The keys, as a help page and as a menu of commands. */
import { COMMANDS, type CommandId, keyText } from '../keys/table.js';
import { goBack, stay } from '../navigate.js';
import { BLANK, type Line, wrapLine } from '../parts/line.js';
import { STATUS, shape, type Theme, TITLES } from '../theme.js';
import type { ScreenDefinition } from './screen.js';

/** What the signs of steps and stages mean. */
const signsText = (theme: Theme): string =>
  Object.values(STATUS)
    .map(({ sign, word }) => `${shape(sign, theme)} ${word}`)
    .join(', ');

export function helpLines(width: number, theme: Theme): readonly Line[] {
  const keyWidth = 14;
  return [
    ...wrapLine(
      ' Letters, digits and . , - / always go to the entry line, on every screen. Enter acts on what stands there.',
      width,
      'plain',
      ' ',
    ),
    ...wrapLine(` ${signsText(theme)}`, width, 'plain', ' '),
    BLANK,
    ...COMMANDS.flatMap(({ keys, words }) =>
      wrapLine(words, width - keyWidth - 2).map(
        (row, index): Line => [
          { text: ` ${(index === 0 ? keys.map(keyText).join(' ') : '').padEnd(keyWidth)}`, tone: 'strong' },
          ...row,
        ],
      ),
    ),
  ];
}

export const helpScreen: ScreenDefinition<'help'> = {
  scrolls: true,
  lines: (_state, _screen, _world, width, theme) => helpLines(width, theme),
};

export const menuScreen: ScreenDefinition<'menu'> = {
  title: TITLES.menu,
  list: (_state, world) =>
    COMMANDS.filter((each) => each.inMenu && (!each.needsUnit || world.open)).map((each) => ({
      id: each.id,
      text: `${each.short.padEnd(12)} ${each.keys.map(keyText).join(' or ')}`,
    })),
  choose: (state, item) => ({ ...stay(goBack(state)), command: item.id as CommandId }),
};
