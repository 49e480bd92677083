/** Why a step is done and a number is what it is; and what the work screen had to crop, whole. */
import { plain } from '../../base/text.js';
import { bandFor, boundsText, type Limit } from '../../measure/limits.js';
import type { RouteCheck, RouteStep } from '../../procedure/types.js';
import type { World } from '../../session/ports.js';
import type { Trace } from '../../window/types.js';
import { standOf } from '../currenttask.js';
import { BLANK, crop, type Line, line, wrap } from '../parts/line.js';
import type { BenchState } from '../state.js';
import { figureText } from '../theme.js';
import type { ScreenDefinition } from './screen.js';

/** Why, what to take care of, the limits, the sum behind the number as a tree, and the instructions: all of it whole. */
export function whyLines(state: BenchState, world: World, width: number): readonly Line[] {
  const stand = world.open && standOf(world.open.state, state.at);
  const { step } = stand?.step ?? {};
  const check = step?.checks.find(({ id }) => id === stand?.check?.id);
  const told: Line[] = step
    ? [line(` ${plain(step.title)}`, 'strong'), ...wrap(` ${step.why}`, width, 'plain', ' '), BLANK]
    : [];
  if (step && step.watch !== '')
    told.push(...wrap(` What usually goes wrong: ${step.watch}`, width, 'plain', ' '), BLANK);
  if (step) told.push(...cautionsAndLimits(step, check, world, width));
  const name = check?.explains;
  const trace = name === undefined ? undefined : world.open?.setOut.numbers.get(name);
  const sum = trace
    ? traceLines(trace, width, 0)
    : wrap(' No worked-out number stands behind this check.', width);
  return [...told, ...sum, ...(step ? instructions(step, width) : [])];
}

function traceLines(trace: Trace, width: number, depth: number): readonly Line[] {
  const indent = ' '.repeat(1 + Math.min(depth, 8) * 2);
  const unit = trace.unit === 'none' || trace.unit === 'count' ? '' : ` ${trace.unit}`;
  const sum = trace.formula === undefined ? '' : ` = ${trace.formula}`;
  const head: Line = [
    { text: `${indent}${plain(trace.name)} ` },
    { text: `${figureText(trace.value)}${unit}`, tone: depth === 0 ? 'strong' : 'plain' },
    { text: plain(sum) },
  ];
  const filled =
    trace.filled === undefined ? [] : wrap(`${indent}  = ${trace.filled}`, width, 'plain', `${indent}    `);
  const source = trace.source
    ? wrap(`${indent}  (${trace.source.kind}: ${trace.source.text})`, width, 'plain', `${indent}   `)
    : [];
  return [
    crop(head, width),
    ...filled,
    ...source,
    ...trace.of.flatMap((each) => traceLines(each, width, depth + 1)),
  ];
}

/** Of the step: its caution. Of the check at hand: the question, how it is done, and all its limits with their sources. */
export function cautionsAndLimits(
  step: RouteStep,
  check: RouteCheck | undefined,
  world: World,
  width: number,
): readonly Line[] {
  const lines = [
    ...(step.caution === undefined ? [] : wrap(` Take care: ${step.caution}`, width, 'ask', '   ')),
    ...(check ? wrap(` ${check.ask}`, width, 'strong', '   ') : []),
    ...(check?.how === undefined ? [] : wrap(` ${check.how}`, width, 'plain', '   ')),
    ...(check ? limitTexts(check, world).flatMap((text) => wrap(`   ${text}`, width, 'plain', '     ')) : []),
  ];
  return lines.length === 0 ? [] : [...lines, BLANK];
}

export const instructions = (step: RouteStep, width: number): readonly Line[] =>
  step.do.length === 0
    ? []
    : [BLANK, ...step.do.flatMap((sentence) => wrap(` ${sentence}`, width, 'plain', '   '))];

/** Each limit that judges a check: what it is, what it says for this size, and where it is from. */
export function limitTexts(check: RouteCheck, { rules }: World): readonly string[] {
  const size = check.nominal ? Math.max(check.nominal.w, check.nominal.h) : check.expect;
  return check.limits.flatMap((id) => {
    const limit = rules.limits.byId.get(id);
    return limit ? [limitText(limit, size)] : [];
  });
}

function limitText(limit: Limit, size: number | undefined): string {
  const band = bandFor(limit, size) ?? limit.bands[0];
  const says = band ? boundsText(band, limit.unit) : '';
  const source = `${limit.source.kind.replace('-', ' ')}: ${plain(limit.source.text)}`;
  return `${plain(limit.title)}: ${says} (${source})`;
}

export const whyScreen: ScreenDefinition<'why'> = {
  scrolls: true,
  lines: (state, _screen, world, width) => whyLines(state, world, width),
};
