/** Steps open across units, and the walk that does one of them unit by unit, on the units listed when it was chosen. */

import { sanitize } from '../../base/text.js';
import { data, laid } from '../../base/words.js';
import type { World } from '../../session/ports.js';
import type { BenchAction } from '../../unit/actions.js';
import type { StageRow } from '../../unit/board.js';
import { citing } from '../../unit/handlers/cite.js';
import { HANDOVER_TITLES } from '../../unit/summary.js';
import { citesAt } from '../cited.js';
import { stay } from '../navigate.js';
import { bigNumber } from '../parts/drawing.js';
import { BLANK, blanks, crop, type Line, line, wrapLine } from '../parts/line.js';
import type { Effect, Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import type { Theme } from '../theme.js';
import { told } from '../words/told.js';
import type { Item, ScreenDefinition } from './screen.js';

/** Units with the step open come first, then units that start with it, then units where it only waits for a release. */
function startWalk(state: BenchState, { title, open, held, notStarted = [] }: StageRow): Update {
  const units = [...open, ...notStarted, ...held];
  const first = units[0];
  if (!first) return { state, effects: [] };
  return {
    state: { ...state, entry: '', walk: { title, units, batch: units.map(({ unit }) => unit) } },
    effects: [openOf(first)],
  };
}

/** If a unit of the walk was opened, goes to its step there, whichever comes first; any other unit ends the walk. */
export function atWalk(state: BenchState, { open }: World): BenchState {
  const { walk } = state;
  if (!walk || !open) return state;
  const at = walk.units.find(({ job, unit }) => unit === open.id && job === open.job);
  const { walk: _over, ...rest } = state;
  if (!at) return rest;
  const units = [at, ...walk.units.filter((each) => each !== at)];
  return { ...state, at: at.step, walk: { ...walk, units } };
}

/** What was just asked of the first unit of a walk stands for the next ones: it is cited without a key. */
export function citesInWalk(state: BenchState, world: World): readonly Effect[] {
  const at = state.walk?.units[0];
  const step = at && world.open?.state.steps.get(at.step);
  const cite = step && citing(step);
  if (!cite || !step.open || state.person === undefined || world.open?.readOnly !== undefined) return [];
  return citesAt(step, state, world).length > 0 ? [{ kind: 'act', action: cite }] : [];
}

/** The unit at hand, large where there is room, how far the walk has come, and which units are left. */
export function walkLines(
  { walk }: BenchState,
  world: World,
  width: number,
  large: boolean,
  theme: Theme,
): readonly Line[] {
  const { open } = world;
  if (!walk || !open) return [];
  const left = walk.units.slice(1).map(({ unit }) => unit);
  const rest =
    left.length === 0
      ? told(world)('walk-last')
      : told(world)('walk-more', { n: left.length, units: left.join(' ') });
  const big = large ? bigNumber(open.id, width - 2, theme) : undefined;
  return [
    ...(big ?? []).map((row) => [blanks(1), ...row]),
    crop([{ text: laid` ${sanitize(open.id)}  `, tone: 'strong' }, { text: sanitize(rest) }], width),
  ];
}

/** Moves on to the next unit when this unit's step is done or waits for a release; undefined if the walk stays here. */
export function walkOn(state: BenchState, did: BenchAction['do'], world: World): Update | undefined {
  const { open } = world;
  const { walk } = state;
  const at = walk?.units[0];
  if (!walk || !at || at.unit !== open?.id || at.job !== open.job) return undefined;
  const status = open.state.steps.get(at.step)?.status;
  const parked = did === 'snag' && open.state.parked;
  if (status !== 'done' && status !== 'held' && !parked) return undefined;
  // A hold is released in place; only a step that was answered in this walk moves it on.
  if (status === 'held' && !WORKED.has(did)) return undefined;
  const units = walk.units.slice(1);
  const next = units[0];
  if (next) return { state: { ...state, walk: { ...walk, units } }, effects: [openOf(next)] };
  const { walk: _over, ...rest } = state;
  const note = {
    tone: 'good' as const,
    text: told(world)('walk-over', { step: told(world).retell(walk.title) }),
  };
  return { state: { ...rest, note }, effects: [] };
}

const WORKED: ReadonlySet<BenchAction['do']> = new Set(['answer', 'read', 'look', 'cite']);

const openOf = ({ job, unit }: { readonly job: string; readonly unit: string }) => ({
  kind: 'open' as const,
  unit: `${job}/${unit}`,
});

/** Each step across units: how many are open, how many are held, and how many units have not started. */
function stageRows(world: World): readonly Item[] {
  const { more } = world;
  const say = told(world);
  const stages = more?.stages() ?? [];
  const titles = new Map(stages.map(({ base, title }) => [base, say.retell(title)]));
  const widest = [...titles.values()].reduce((most, title) => Math.max(most, title.length), 0);
  return stages.map(({ base, open, held, notStarted = [] }) => ({
    id: base,
    sign: open.length > 0 ? '>' : held.length > 0 ? '#' : '.',
    text: data(
      `${titles.get(base)!.padEnd(Math.min(50, widest))}  ${[
        ...(open.length > 0 ? [say('stage-open', { n: open.length })] : []),
        ...(held.length > 0 ? [say('stage-held', { n: held.length })] : []),
        ...(notStarted.length > 0 ? [say('stage-not-started', { n: notStarted.length })] : []),
      ].join(', ')}  ${[...open, ...held, ...notStarted]
        .map(({ unit }) => unit)
        .slice(0, 8)
        .join(' ')}`,
    ),
  }));
}

export const stagesScreen: ScreenDefinition<'stages'> = {
  title: 'title-stages',
  long: true,
  list: (_state, world) => stageRows(world),
  choose(state, item, world) {
    const row = world.more?.stages().find(({ base }) => base === item.id);
    return row ? startWalk(state, row) : stay(state);
  },
};

// The hand-over page: what the next shift finds open, held, curing and half done.

export function handoverLines(world: World, width: number): readonly Line[] {
  const { more } = world;
  const page = more?.handover();
  const say = told(world);
  const found = HANDOVER_TITLES.flatMap(([heading, title]): readonly Line[] => {
    const lines = page?.[heading] ?? [];
    if (lines.length === 0) return [];
    return [
      BLANK,
      line(laid` ${say.retell(title)}`, 'strong'),
      ...lines.flatMap(({ job, unit, text }) =>
        wrapLine(laid`   ${sanitize(`${job}/${unit}`)}  ${say.retell(text)}`, width, 'plain', '     '),
      ),
    ];
  });
  return [
    line(laid` ${say('handover-title')}`, 'strong'),
    ...(found.length === 0 ? [BLANK, ...wrapLine(laid` ${say('handover-none')}`, width)] : found),
  ];
}

export const handoverScreen: ScreenDefinition<'handover'> = {
  scrolls: true,
  lines: (_state, _screen, world, width) => handoverLines(world, width),
};
