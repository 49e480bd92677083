/** A unit's overview: what it is, its status, and what is in the way, with the list of stages below. */

import { sanitize } from '../../base/text.js';
import { data, laid } from '../../base/words.js';
import type { OpenUnit, World } from '../../session/ports.js';
import type { StepState, StepStatus } from '../../unit/types.js';
import type { UnitState } from '../../unit/unitstate.js';
import { emptied, say, showForm, stay, toStep, withoutNote } from '../navigate.js';
import { atMost, BLANK, crop, type Line, line, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import type { BenchState } from '../state.js';
import { STANDING, STATUS, STATUSES, shape, type Theme, timeLeft } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import { takeFound } from './filtered.js';
import type { Item, ScreenDefinition } from './screen.js';

export function overviewLines(world: World, width: number, theme: Theme): readonly Line[] {
  const { open } = world;
  const say = told(world);
  if (!open) return wrapLine(laid` ${say('bench-no-unit')}`, width);
  const { state, setOut } = open;
  const { unit } = setOut;
  const { sign } = STANDING[state.standing];
  const room = unit.room === '' ? '' : `   ${unit.room}`;
  return [
    [
      { text: laid` ${sanitize(open.job)} / ${sanitize(open.id)}`, tone: 'strong' },
      { text: laid`   ${shape(sign, theme)} ${say(`standing-${state.standing}`)}${sanitize(room)}` },
    ],
    ...setOut.lights.map(({ id, sentence }) =>
      crop(line(laid`   ${data(id)} ${sanitize(say.retell(sentence))}`), width),
    ),
    crop(line(laid`   ${sanitize(say.retell(setOut.lift))}`), width),
    ...(state.parked ? wrapLine(laid` ${say('overview-parked')}`, width, 'ask') : []),
    ...setOut.warnings
      .slice(0, 2)
      .flatMap(({ said }) =>
        atMost(wrapLine(laid` ${shape('!', theme)} ${say.tell(said)}`, width, 'ask', '   '), 2),
      ),
    ...state.timers.slice(0, 2).flatMap(({ text, until }) => {
      const left =
        until > world.now
          ? laid` ${say('overview-in', { left: timeLeft(until, world.now, say) })}`
          : data('');
      return wrapLine(
        laid` ${shape('~', theme)} ${sanitize(say.retell(text))}${left}`,
        width,
        'plain',
        '   ',
      );
    }),
    ...state.snags
      .filter((snag) => snag.open)
      .slice(0, 2)
      .map((snag) =>
        crop(
          line(
            laid` ${shape('!', theme)} ${say('overview-snag', { n: snag.n, text: sanitize(snag.raised.text) })}`,
            'ask',
          ),
          width,
        ),
      ),
    BLANK,
  ];
}

/** Id of the list item for a read-only unit whose lock may be abandoned. */
const TAKE_OVER = 'take-over:';

const keeperItems = ({ keptBy }: OpenUnit, say: BenchSay): readonly Item[] =>
  keptBy && !keptBy.runs
    ? [{ id: TAKE_OVER, sign: '!', text: say('overview-take-over', { who: keptBy.who }) }]
    : [];

/** A problem from the order check; an authorised person may override it. */
const PROBLEM = 'problem:';

function problemItems(unit: UnitState, say: BenchSay): readonly Item[] {
  return unit.orderProblems.map(({ id, text }) => ({
    id: PROBLEM + id,
    sign: 'X',
    text: say('overview-refused', { why: say.retell(text) }),
  }));
}

function stageItems(unit: UnitState, say: BenchSay): readonly Item[] {
  const widest = Math.max(...STATUSES.map((status) => say(`status-${status}`).length).filter((n) => n < 16));
  return unit.route.stages.map((stage) => {
    const steps = stepsOf(unit, stage.steps);
    const done = steps.filter(({ status }) => status === 'done').length;
    const status = stageStatus(steps);
    return {
      id: stage.id,
      sign: STATUS[status],
      text: data(
        `${`${done}/${steps.length}`.padStart(5)}  ${say(`status-${status}`).padEnd(widest)}  ${stage.title}`,
      ),
    };
  });
}

const stepsOf = (unit: UnitState, ids: readonly string[]): readonly StepState[] =>
  ids.flatMap((id) => unit.steps.get(id) ?? []);

/** A sign for each stage in the order of the route, the one at hand in brackets. */
export function stageStrip(unit: UnitState, at: string | undefined, width: number, theme: Theme): string {
  const { stages } = unit.route;
  const gap = 2 * stages.length + 2 <= width ? ' ' : '';
  return stages
    .map(({ id, steps }) => {
      const sign = shape(STATUS[stageStatus(stepsOf(unit, steps))], theme);
      return id === at ? `[${sign}]` : sign;
    })
    .join(gap);
}

/** The status of a stage: the worst among its steps. */
function stageStatus(steps: readonly StepState[]): StepStatus {
  for (const status of ['failed', 'held', 'stale', 'begun', 'ready'] as const)
    if (steps.some((step) => step.status === status)) return status;
  return steps.every(({ status }) => status === 'done') ? 'done' : 'waiting';
}

export const unitScreen: ScreenDefinition<'unit'> = {
  long: true,
  list: (_state, { open, language }) =>
    open
      ? [
          ...keeperItems(open, told({ language })),
          ...problemItems(open.state, told({ language })),
          ...stageItems(open.state, told({ language })),
        ]
      : [],
  view(_state, world, width, height, theme) {
    const lines = overviewLines(world, width, theme);
    return { lines, menu: Math.max(3, height - lines.length) };
  },
  choose(state, item, world) {
    if (item.id === TAKE_OVER) return stay(showForm(state, { id: 'take-over' }));
    if (item.id.startsWith(PROBLEM))
      return stay(showForm(state, { id: 'override', problem: item.id.slice(PROBLEM.length) }));
    const steps = world.open?.state.route.stages.find(({ id }) => id === item.id)?.steps ?? [];
    const open = steps.find((id) => world.open?.state.steps.get(id)?.status !== 'done') ?? steps[0];
    return open === undefined ? stay(state) : jump(state, open, world);
  },
};

function stepItem({ step, status, because, open }: StepState, say: BenchSay): Item {
  const item = step.item !== undefined && !step.title.includes(step.item) ? ` ${step.item}` : '';
  const why = open ? undefined : because[0];
  return {
    id: step.id,
    sign: STATUS[status],
    text: laid`${data(step.title + item)}  ${say(`status-${status}`)}${why ? laid`: ${say.retell(why)}` : data('')}`,
    shut: !open && status !== 'done' && status !== 'held',
  };
}

/** Jumps to an open step; a shut one says what it waits for, a finished one that it is done. */
function jump(state: BenchState, id: string, world: World): Update {
  const step = world.open?.state.steps.get(id);
  if (!step) return stay(state);
  if (!step.open && step.status !== 'done' && step.status !== 'held')
    return stay(
      say(
        state,
        'ask',
        told(world)('step-waits', { step: step.step.title }),
        told(world).retell(step.because[0] ?? told(world)('step-before')),
      ),
    );
  if (step.status === 'done')
    return stay(
      say(
        state,
        'plain',
        told(world)('step-is-done', { step: step.step.title }),
        told(world)('step-make-again'),
      ),
    );
  return stay(withoutNote({ ...toStep(state), at: id }));
}

/** The steps whose stage, words or status contain what is typed. */
function stepItems({ entry }: Pick<BenchState, 'entry'>, world: World): readonly Item[] {
  const { open } = world;
  const wanted = entry.trim().toLowerCase();
  const stages = new Map(open?.state.route.stages.map(({ id, title }) => [id, title]));
  return [...(open?.state.steps.values() ?? [])].flatMap((state) => {
    const item = stepItem(state, told(world));
    const found = `${item.text} ${stages.get(state.step.stage) ?? ''}`.toLowerCase();
    return found.includes(wanted) ? [item] : [];
  });
}

/** The step marked in the list of steps, if that is the current screen. */
export function markedStep(state: BenchState, world: World): string | undefined {
  const { screen } = state;
  return screen.name === 'steps' ? stepItems(state, world)[screen.cursor.at]?.id : undefined;
}

export const stepsScreen: ScreenDefinition<'steps'> = {
  title: 'title-steps',
  long: true,
  filtered: true,
  list: stepItems,
  choose: (state, item, world) => jump(emptied(state), item.id, world),
  typed: (state, _screen, text, world) =>
    takeFound(state, text, stepItems({ entry: text }, world), 'step', told(world), (on, { id }) =>
      jump(on, id, world),
    ),
};
