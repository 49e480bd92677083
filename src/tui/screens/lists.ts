/** The lists that units are made from, with what is done: of the unit, of the batch it is made in, and of its job. */

import { sanitize } from '../../base/text.js';
import { data, laid, type Spoken } from '../../base/words.js';
import type { JobUnit, World } from '../../session/ports.js';
import { type ListedRow, listedRows, listsOf, rowsOfStep } from '../../unit/worklists.js';
import { WORK_LISTS, type WorkList, workRows } from '../../window/worklists.js';
import { asked } from '../currenttask.js';
import { worded } from '../keys/table.js';
import { show, stay } from '../navigate.js';
import { BLANK, justify, type Line, line, lineWidth, wrapLine } from '../parts/line.js';
import type { BenchState, ListScope, Screen } from '../state.js';
import { STATUS, shape, type Theme } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import type { ScreenDefinition } from './screen.js';

type ListsScreen = Extract<Screen, { readonly name: 'lists' }>;

/** Opens the list that the step at hand works on, at its rows; on the lists themselves, widens to more units. */
export function showLists(state: BenchState, world: World): BenchState {
  const { screen } = state;
  if (screen.name === 'lists') {
    const scopes = scopesOf(state);
    const scope = scopes[(scopes.indexOf(screen.scope) + 1) % scopes.length]!;
    return atRows({ ...state, screen: { ...screen, scope } }, world);
  }
  const task = asked(state, world)?.task;
  const list = (task ? listsOf(task.step.step)[0] : undefined) ?? WORK_LISTS[0];
  const opened = show(state, { name: 'lists', list, scope: scopesOf(state)[0]!, cursor: START });
  return atRows(opened, world);
}

const START = { at: 0, moved: false } as const;

const scopesOf = ({ walk }: BenchState): readonly ListScope[] =>
  walk && walk.batch.length > 1 ? ['batch', 'job', 'unit'] : ['unit', 'job'];

/** Scrolled so that the rows of the step at hand are on the screen. */
function atRows(state: BenchState, world: World): BenchState {
  const screen = state.screen as ListsScreen;
  const wanted = rowsHere(state, world, screen.list);
  const blocks = blocksOf(screen, state, world);
  let at = 0;
  for (const { rows } of blocks) {
    if (rows.some((row) => wanted.has(keyOf(row)))) break;
    at += rows.length + 2;
  }
  const there = wanted.size > 0 && at < blocks.reduce((sum, { rows }) => sum + rows.length + 2, 0);
  return { ...state, screen: { ...screen, cursor: { at: there ? at : 0, moved: false } } };
}

const keyOf = ({ unit, role, item, text }: ListedRow): string => JSON.stringify([unit, role, item, text]);

/** The rows that the step at hand makes. */
function rowsHere(state: BenchState, world: World, list: WorkList): ReadonlySet<string> {
  const { open } = world;
  const step = asked(state, world)?.task.step;
  if (!open || !step) return new Set();
  const found = rowsOfStep(step, open.setOut).find((each) => each.list === list);
  return new Set((found?.rows ?? []).map(keyOf));
}

interface Block {
  readonly heading: string;
  readonly rows: readonly (ListedRow & { readonly shown: string })[];
}

/** Bars of one profile stand together whatever unit they are for, longest first; the rest by unit. */
function blocksOf({ list, scope }: ListsScreen, state: BenchState, world: World): readonly Block[] {
  const units = unitsOf(scope, state, world);
  const several = units.length > 1;
  const blocks = new Map<string, (ListedRow & { shown: string })[]>();
  for (const { unit, setOut, state: now } of units)
    for (const row of listedRows(list, setOut, now)) {
      const byUnit = several && list !== 'cutting';
      const heading = byUnit ? `${unit}  ${row.group}` : row.group;
      const shown = several && list === 'cutting' ? `${row.text}  ${unit}` : row.text;
      blocks.set(heading, [...(blocks.get(heading) ?? []), { ...row, shown }]);
    }
  return [...blocks].map(([heading, rows]) => ({
    heading,
    rows: list === 'cutting' ? rows.sort((a, b) => (b.length ?? 0) - (a.length ?? 0)) : rows,
  }));
}

function unitsOf(scope: ListScope, { walk }: BenchState, { open, more }: World): readonly JobUnit[] {
  if (!open) return [];
  const own = { unit: open.id, setOut: open.setOut, state: open.state };
  if (scope === 'unit') return [own];
  const all = more?.jobUnits?.() ?? [own];
  return scope === 'job' ? all : all.filter(({ unit }) => walk?.batch.includes(unit));
}

/** Rows are made of figures, names of the set's parts and words of the set-out, parted so. */
const BETWEEN = /( {2,}|, |: |(?:^|(?<= ))[A-Z]{1,2}\d+ | [A-Z]{1,2}\d+$)/;
const SENTENCE = /, [\d.]+ kg$|^stay |^handle, |^keeps /;
const FIGURES = /^[\d. ×]+$/;

/** A row in the reader's language. Names that only the set knows stay as they are. */
export function rowTold(text: string, say: BenchSay, comma: boolean): Spoken {
  // Glass and hardware are sentences; all that is in them is told with them.
  if (SENTENCE.test(text)) return say.retell(text);
  const told = text
    .split(BETWEEN)
    .map((piece, i) =>
      i % 2 === 1
        ? piece
        : FIGURES.test(piece)
          ? comma
            ? piece.replace(/(\d)\.(\d)/g, '$1,$2')
            : piece
          : say.retell(piece),
    )
    .join('');
  return data(told);
}

export function rowLine(
  row: ListedRow & { readonly shown?: string },
  width: number,
  theme: Theme,
): readonly Line[] {
  const sign = row.done === true ? STATUS.done : STATUS.ready;
  const mark = row.done === undefined ? data(' ') : shape(sign, theme);
  const whole = line(laid` ${mark} ${sanitize(row.shown ?? row.text)}`);
  // Wrapping closes up the columns, so only what is too long is wrapped.
  return lineWidth(whole) <= width ? [whole] : wrapLine(whole[0]!.text, width, 'plain', '     ');
}

function listLines(
  state: BenchState,
  screen: ListsScreen,
  world: World,
  width: number,
  theme: Theme,
): readonly Line[] {
  const blocks = blocksOf(screen, state, world);
  const { list, scope } = screen;
  const whose =
    scope === 'job' ? world.open?.job : scope === 'unit' ? world.open?.id : state.walk?.batch.join(' ');
  const rows = blocks.flatMap((block) => block.rows);
  const counted = rows.filter(({ done }) => done !== undefined);
  const done = counted.filter((row) => row.done).length;
  const say = told(world);
  const comma = theme.comma === true;
  const count = counted.length === 0 ? data('') : laid`${say('list-done', { done, of: counted.length })} `;
  const head = [
    { text: laid` ${say(`list-${list}`)}`, tone: 'strong' as const },
    { text: laid`  ${sanitize(whose ?? '')}` },
  ];
  return [
    justify(head, [{ text: count }], width),
    ...(rows.length === 0 ? [BLANK, ...wrapLine(laid` ${say('list-none')}`, width)] : []),
    ...blocks.flatMap((block) => [
      BLANK,
      line(laid` ${sanitize(rowTold(block.heading, say, comma))}`, 'strong'),
      ...block.rows.flatMap((row) =>
        rowLine({ ...row, shown: rowTold(row.shown, say, comma) }, width, theme),
      ),
    ]),
  ];
}

/** The list so many further on among those that have rows: a screen has no glass, a fixed light no hardware. */
function listBeside(state: BenchState, { list, scope }: ListsScreen, by: 1 | -1, world: World): WorkList {
  const units = unitsOf(scope, state, world);
  const lists = WORK_LISTS.filter(
    (each) => each === list || units.some(({ setOut }) => workRows(each, setOut).length > 0),
  );
  return lists[(lists.indexOf(list) + by + lists.length) % lists.length]!;
}

const turned = (state: BenchState, screen: ListsScreen, by: 1 | -1, world: World) =>
  stay(atRows({ ...state, screen: { ...screen, list: listBeside(state, screen, by, world) } }, world));

export const listsScreen: ScreenDefinition<'lists'> = {
  scrolls: true,
  turns: true,
  lines: (state, screen, world, width, theme) => listLines(state, screen, world, width, theme),
  keys(state, screen, world) {
    const say = told(world);
    const beside = (by: 1 | -1) => say(`list-${listBeside(state, screen, by, world)}`);
    return [worded('yes', beside(1)), worded('no', beside(-1))];
  },
  right: (state, screen, world) => turned(state, screen, 1, world),
  left: (state, screen, world) => turned(state, screen, -1, world),
};
