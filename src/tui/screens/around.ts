/** What the work screen shows where its step leaves room: the rows that the step makes, its stage, the last readings. */

import widthOf from 'string-width';
import { sanitize } from '../../base/text.js';
import { data, laid, type Spoken } from '../../base/words.js';
import type { World } from '../../session/ports.js';
import { isSet } from '../../unit/sets.js';
import type { StepState } from '../../unit/types.js';
import type { UnitState } from '../../unit/unitstate.js';
import { rowsOfStep } from '../../unit/worklists.js';
import { command, keyText } from '../keys/table.js';
import { atMost, BLANK, blanks, crop, type Line, line } from '../parts/line.js';
import { windowStart } from '../parts/rows.js';
import { answerText, OUTCOME, STATUS, shape, type Theme } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import { rowLine, rowTold } from './lists.js';

/** @param room rows that are free; a blank one is kept above */
export function aroundLines(
  step: StepState,
  world: World,
  width: number,
  room: number,
  theme: Theme,
): readonly Line[] {
  const { open } = world;
  const say = told(world);
  if (!open || room < LEAST + 1) return [];
  const lists = rowsOfStep(step, open.setOut).map(({ list, rows }): readonly Line[] => [
    line(laid` ${say(`list-${list}`)}  ${keyOfLists(say)}`, 'strong'),
    ...grouped(rows, width, theme, say),
  ]);
  const spare = room - 1;
  const forOthers = spare >= 3 * LEAST ? Math.max(LEAST, Math.floor(spare / 3)) + 1 : 0;
  const list = atMost(lists[0] ?? [], lists[0] ? spare - forOthers : 0);
  const rest = spare - list.length - (list.length > 0 ? 1 : 0);
  const others = rest < LEAST ? [] : besides(step, open.state, width, rest, theme, say);
  return [...list, ...(list.length > 0 && others.length > 0 ? [BLANK] : []), ...others];
}

/** Fewer rows say nothing. */
const LEAST = 3;
/** Two columns from this width. */
const COLUMNS_FROM = 70;
const keyOfLists = (say: BenchSay): Spoken => keyText(command('lists').keys[0]!, say);

function grouped(
  rows: ReturnType<typeof rowsOfStep>[number]['rows'],
  width: number,
  theme: Theme,
  say: BenchSay,
): readonly Line[] {
  const comma = theme.comma === true;
  const groups = [...new Set(rows.map(({ group }) => group))];
  return groups.flatMap((group) => [
    crop(line(laid`   ${sanitize(rowTold(group, say, comma))}`), width),
    ...rows
      .filter((row) => row.group === group)
      .flatMap((row) => rowLine({ ...row, shown: rowTold(row.text, say, comma) }, width, theme)),
  ]);
}

/** The steps of the stage, and the last readings of the unit beside or beneath them. */
function besides(
  step: StepState,
  unit: UnitState,
  width: number,
  rows: number,
  theme: Theme,
  say: BenchSay,
): readonly Line[] {
  if (width < COLUMNS_FROM) {
    const stage = stageLines(step, unit, width, rows, theme, say);
    const left = rows - stage.length - 1;
    return left < LEAST ? stage : [...stage, BLANK, ...readingLines(unit, width, left, theme, say)];
  }
  const half = Math.floor((width - 1) / 2);
  const stage = stageLines(step, unit, half, rows, theme, say);
  const readings = readingLines(unit, width - half - 1, rows, theme, say);
  return Array.from({ length: Math.max(stage.length, readings.length) }, (_, i): Line => {
    const left = stage[i] ?? [];
    const right = readings[i];
    if (!right) return left;
    const used = left.reduce((sum, { text }) => sum + widthOf(text), 0);
    return [...left, blanks(half + 1 - used), ...right];
  });
}

function stageLines(
  step: StepState,
  unit: UnitState,
  width: number,
  rows: number,
  theme: Theme,
  say: BenchSay,
): readonly Line[] {
  const steps = unit.route.stages
    .find(({ id }) => id === step.step.stage)!
    .steps.flatMap((id) => unit.steps.get(id) ?? []);
  const at = steps.indexOf(step);
  const room = Math.max(1, rows - 1);
  const first = windowStart(steps.length, at, room);
  return [
    line(laid` ${say('list-stage')}`, 'strong'),
    ...steps.slice(first, first + room).map((each) => {
      const sign = shape(STATUS[each.status], theme);
      const here = each === step;
      return crop(
        line(laid`${data(here ? '>' : ' ')}${sign} ${sanitize(each.step.title)}`, here ? 'strong' : 'plain'),
        width,
      );
    }),
  ];
}

function readingLines(
  unit: UnitState,
  width: number,
  rows: number,
  theme: Theme,
  say: BenchSay,
): readonly Line[] {
  const taken = [...unit.steps.values()]
    .flatMap(({ step, checks }) =>
      step.checks.flatMap((check, i) => {
        const { answered } = checks[i]!;
        const measured = isSet(check) || check.kind === 'number';
        return measured && answered && !answered.cited ? [{ check, answered }] : [];
      }),
    )
    .sort((a, b) => b.answered.n - a.answered.n)
    .slice(0, Math.max(1, rows - 1));
  if (taken.length === 0) return [];
  return [
    line(laid` ${say('list-readings')}`, 'strong'),
    ...taken.map(({ check, answered }) => {
      const { sign } = OUTCOME[answered.verdict.outcome];
      const figures = answerText(say, answered, 'mm', check);
      return crop(line(laid` ${shape(sign, theme)} ${sanitize(check.ask)}: ${sanitize(figures)}`), width);
    }),
  ];
}
