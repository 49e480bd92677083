/** Explains a step and its number, and shows in full what the work screen had to crop. */

import { sanitize } from '../../base/text.js';
import { data, laid, type Spoken } from '../../base/words.js';
import { bandFor, boundsText, type Limit } from '../../measure/limits.js';
import { sourceText } from '../../measure/verdict.js';
import type { RouteCheck, RouteStep } from '../../procedure/types.js';
import { limitsOf } from '../../procedure/wanted.js';
import type { World } from '../../session/ports.js';
import { isSet, nextPlace } from '../../unit/sets.js';
import type { CheckState } from '../../unit/types.js';
import type { Trace } from '../../window/types.js';
import { currentTask } from '../currenttask.js';
import { BLANK, crop, type Line, line, wrapLine } from '../parts/line.js';
import type { BenchState } from '../state.js';
import { figureText } from '../theme.js';
import { told } from '../words/told.js';
import type { ScreenDefinition } from './screen.js';

/** Reasons, usual mistakes, caution, limits, the number's calculation as a tree, and instructions, all in full. */
export function whyScreenLines(state: BenchState, world: World, width: number): readonly Line[] {
  const task = world.open && currentTask(world.open.state, state.at);
  const { step } = task?.step ?? {};
  const check = step?.checks.find(({ id }) => id === task?.check?.id);
  const say = told(world);
  const lines: Line[] = step
    ? [
        line(laid` ${sanitize(step.title)}`, 'strong'),
        ...wrapLine(laid` ${data(step.why)}`, width, 'plain', ' '),
        BLANK,
      ]
    : [];
  if (step && step.watch !== '')
    lines.push(...wrapLine(laid` ${say('why-wrong', { what: step.watch })}`, width, 'plain', ' '), BLANK);
  if (step) lines.push(...cautionsAndLimits(step, check, world, width));
  const name = check && explainedNow(check, task?.check);
  const trace = name === undefined ? undefined : world.open?.setOut.numbers.get(name);
  const sum = trace ? traceLines(trace, width, 0) : wrapLine(laid` ${say('why-no-sum')}`, width);
  return [...lines, ...sum, ...(step ? instructions(step, width) : [])];
}

/** Of a set, the reading that is taken next has a sum of its own, where it names one. */
function explainedNow(check: RouteCheck, now: CheckState | undefined): string | undefined {
  const place = isSet(check) ? nextPlace(check, now ?? {}) : undefined;
  return place?.explains ?? check.explains;
}

function traceLines(trace: Trace, width: number, depth: number): readonly Line[] {
  const indent = data(' '.repeat(1 + Math.min(depth, 8) * 2));
  const unit = trace.unit === 'none' || trace.unit === 'count' ? '' : ` ${trace.unit}`;
  const sum = trace.formula === undefined ? '' : ` = ${trace.formula}`;
  const head: Line = [
    { text: laid`${indent}${sanitize(trace.name)} ` },
    { text: data(figureText(trace.value) + unit), tone: depth === 0 ? 'strong' : 'plain' },
    { text: sanitize(sum) },
  ];
  const filled =
    trace.filled === undefined
      ? []
      : wrapLine(laid`${indent}  = ${data(trace.filled)}`, width, 'plain', `${indent}    `);
  const source = trace.source
    ? wrapLine(
        laid`${indent}  (${data(trace.source.kind)}: ${data(trace.source.text)})`,
        width,
        'plain',
        `${indent}   `,
      )
    : [];
  return [
    crop(head, width),
    ...filled,
    ...source,
    ...trace.of.flatMap((each) => traceLines(each, width, depth + 1)),
  ];
}

/** The step's caution; the current check's question, method, and all its limits with their sources. */
export function cautionsAndLimits(
  step: RouteStep,
  check: RouteCheck | undefined,
  world: World,
  width: number,
): readonly Line[] {
  const lines = [
    ...(step.caution === undefined
      ? []
      : wrapLine(laid` ${told(world)('why-care', { caution: step.caution })}`, width, 'ask', '   ')),
    ...(check ? wrapLine(laid` ${data(check.ask)}`, width, 'strong', '   ') : []),
    ...(check?.how === undefined ? [] : wrapLine(laid` ${data(check.how)}`, width, 'plain', '   ')),
    ...(check
      ? limitTexts(check, world).flatMap((text) => wrapLine(laid`   ${text}`, width, 'plain', '     '))
      : []),
  ];
  return lines.length === 0 ? [] : [...lines, BLANK];
}

export const instructions = (step: RouteStep, width: number): readonly Line[] =>
  step.do.length === 0
    ? []
    : [BLANK, ...step.do.flatMap((sentence) => wrapLine(laid` ${data(sentence)}`, width, 'plain', '   '))];

/** Each limit that applies to a check: its title, its value for this size, and its source. */
export const limitTexts = (check: RouteCheck, world: World): readonly Spoken[] =>
  limitsFor(check, world).map(
    ([limit, size]) =>
      laid`${sanitize(limit.title)}: ${allowed(limit, size, world)} (${sourceOf(limit, world)})`,
  );

/** The limits that apply, each with the size that chooses its band. */
function limitsFor(check: RouteCheck, { rules }: World, ids = limitsOf(check)) {
  const size = check.nominal ? Math.max(check.nominal.w, check.nominal.h) : check.expect;
  return ids.flatMap((id) => {
    const limit = rules.limits.byId.get(id);
    return limit ? [[limit, size] as const] : [];
  });
}

function allowed(limit: Limit, size: number | undefined, world: World): Spoken {
  const band = bandFor(limit, size) ?? limit.bands[0];
  return band ? told(world).retell(boundsText(band, limit.unit)) : data('');
}

const sourceOf = ({ source: { kind, text } }: Limit, world: World): Spoken =>
  told(world).retell(sourceText({ sourceKind: kind, source: sanitize(text) }));

/**
 * The same with the figure first, for where the end may be cropped.
 * @param point the reading that is asked now; one with limits of its own is held to no others
 */
export const limitTextsShort = (check: RouteCheck, world: World, point?: string): readonly Spoken[] =>
  limitsFor(check, world, check.points?.find(({ id }) => id === point)?.limits ?? check.limits).map(
    ([limit, size]) =>
      laid`${allowed(limit, size, world)}: ${sanitize(limit.title)} (${sourceOf(limit, world)})`,
  );

export const whyScreen: ScreenDefinition<'why'> = {
  scrolls: true,
  lines: (state, _screen, world, width) => whyScreenLines(state, world, width),
};
