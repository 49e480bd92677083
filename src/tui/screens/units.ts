/** All units and their status, filtered by the entry line. */

import { data } from '../../base/words.js';
import type { World } from '../../session/ports.js';
import { emptied, stay } from '../navigate.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import { STANDING } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import { takeFound } from './filtered.js';
import type { Item, ScreenDefinition } from './screen.js';

/** Units whose job, id or status contains the entry. Cached between keys: a board may have thousands of units. */
function unitItems(world: World, query: string): readonly Item[] {
  const wanted = query.trim().toLowerCase();
  const say = told(world);
  if (lastFound?.board === world.board && lastFound.say === say && lastFound.query === wanted)
    return lastFound.items;
  const items = boardText(world.board, say)
    .filter(({ find }) => wanted === '' || find.includes(wanted))
    .map(({ item }) => item);
  lastFound = { board: world.board, say, query: wanted, items };
  return items;
}

let lastFound: { board: World['board']; say: BenchSay; query: string; items: readonly Item[] } | undefined;

const boardTexts = new WeakMap<
  World['board'],
  { readonly say: BenchSay; readonly made: readonly { readonly find: string; readonly item: Item }[] }
>();

function boardText(board: World['board'], say: BenchSay) {
  const kept = boardTexts.get(board);
  if (kept?.say === say) return kept.made;
  const seen = new Set<string>();
  const twice = new Set(
    board.flatMap(({ unit }) => {
      const again = seen.has(unit);
      seen.add(unit);
      return again ? [unit] : [];
    }),
  );
  // Two jobs may have a unit of one name: these stand with their job.
  const nameOf = ({ job, unit }: (typeof board)[number]) => (twice.has(unit) ? `${job}/${unit}` : unit);
  const widest = board.reduce((most, row) => Math.max(most, nameOf(row).length), 0);
  const made = board.map((row) => {
    const { sign } = STANDING[row.standing];
    const word = say(`standing-${row.standing}`);
    const done = row.total > 0 ? `${row.done}/${row.total}` : '';
    return {
      find: `${row.job}/${row.unit} ${word} ${row.at ?? ''}`.toLowerCase(),
      item: {
        id: `${row.job}/${row.unit}`,
        sign,
        text: data(
          `${nameOf(row).padEnd(widest)}  ${row.size.padEnd(11)}  ${word.padEnd(11)}  ${done.padStart(7)}  ${row.at === undefined ? '' : `${say('at-bench', { bench: row.at })} `}${say.retell(row.where || row.sentence)}`,
        ),
      },
    };
  });
  boardTexts.set(board, { say, made });
  return made;
}

export const unitsScreen: ScreenDefinition<'units'> = {
  title: 'title-units',
  long: true,
  filtered: true,
  list: (state, world) => unitItems(world, state.entry),
  // Whoever looks for a unit looks for another one.
  startsAt(state, world) {
    const here = world.open && `${world.open.job}/${world.open.id}`;
    const first = unitItems(world, state.entry).findIndex(({ id }) => id !== here);
    return first < 0 ? undefined : first;
  },
  choose: (state, item) => openUnit(state, item.id),
  typed: (state, _screen, text, world) =>
    takeFound(state, text, unitItems(world, text), 'unit', told(world), (on, { id }) => openUnit(on, id)),
};

const openUnit = (state: BenchState, unit: string): Update => stay(emptied(state), { kind: 'open', unit });
