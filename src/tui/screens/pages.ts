/** The screens that are text to read: why, help, the hold, a question, leaving, and the head of a form or list. */

import { plain } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import { timeText } from '../../unit/clock.js';
import { wouldReopen } from '../../unit/next.js';
import type { Trace } from '../../window/types.js';
import { currentField, type FormScreen, formTitle, summaryOf, wantsPin } from '../forms/fields.js';
import { COMMANDS, keyText } from '../keys/table.js';
import { whyNotReleased } from '../mayrelease.js';
import { BLANK, crop, type Line, line, lineWidth, wrap } from '../parts/line.js';
import { standOf } from '../stand.js';
import type { BenchState, Screen } from '../state.js';
import { figureText } from '../words.js';
import { cautionsAndLimits, instructions } from './whole.js';

export function helpLines(width: number): readonly Line[] {
  const keyWidth = 14;
  return [
    ...wrap(
      ' Letters, digits and . , - / always go to the entry line, on every screen. Enter acts on what stands there.',
      width,
      'plain',
      ' ',
    ),
    BLANK,
    ...COMMANDS.flatMap(({ keys, words }) =>
      wrap(words, width - keyWidth - 2).map(
        (row, index): Line => [
          { text: ` ${(index === 0 ? keys.map(keyText).join(' ') : '').padEnd(keyWidth)}`, tone: 'strong' },
          ...row,
        ],
      ),
    ),
  ];
}

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

export function releaseLines(
  state: BenchState,
  screen: Extract<Screen, { name: 'release' }>,
  world: World,
  width: number,
): readonly Line[] {
  const at = world.open?.state.steps.get(screen.step);
  const hold = at?.step.hold;
  if (!at || !hold) return wrap(' This step has no hold.', width);
  const person = world.rules.people.find(({ id }) => id === state.person);
  const who = person ? person.name : 'nobody';
  const refusal = whyNotReleased(state, world, screen.step);
  return [
    line(` HOLD  ${plain(hold.title)}`, 'strong'),
    ...wrap(` at "${at.step.title}"`, width),
    BLANK,
    ...at.checks.flatMap((check) => {
      const asked = at.step.checks.find(({ id }) => id === check.id);
      const by = check.answered
        ? `${check.answered.verdict.outcome}, by ${check.answered.by}`
        : 'not answered';
      return [crop(line(`   ${by}: ${plain(asked?.ask ?? check.id)}`), width)];
    }),
    BLANK,
    ...(hold.notSamePerson ? wrap(' Not by the one who did the step.', width) : []),
    ...(refusal
      ? [...wrap(` ${refusal.text}`, width, 'ask', ' '), ...wrap(` ${refusal.todo}`, width, 'plain', ' ')]
      : [
          ...wrap(` It will be released in the name of ${who}.`, width, 'strong'),
          ...(wantsPin(state, world)
            ? wrap(' Type your PIN, then press F8.', width, 'ask')
            : wrap(' Press F8 once more to release it. Enter never does.', width, 'ask')),
        ]),
  ];
}

export function questionLines(screen: Extract<Screen, { name: 'question' }>, width: number): readonly Line[] {
  return [
    ...wrap(` ${screen.question.text}`, width, 'ask', ' '),
    BLANK,
    ...screen.question.details.flatMap((detail) => wrap(`   ${detail}`, width, 'plain', '   ')),
    BLANK,
    ...(screen.retry
      ? wrap(' Right arrow: try again.   Left arrow: leave it unlogged.', width, 'strong', ' ')
      : wrap(
          ' Right arrow: it is so, log it.   Left arrow: measure again.   Or type the new reading.',
          width,
          'strong',
          ' ',
        )),
  ];
}

export function leaveLines(world: World, width: number): readonly Line[] {
  return [
    ...wrap(' Leave the bench?', width, 'strong'),
    BLANK,
    ...wrap(' Nothing is lost: all that was acknowledged is on disk.', width),
    ...(world.open ? wrap(` ${world.open.id} is taken up again at the same check.`, width) : []),
    BLANK,
    ...wrap(' Right arrow, ^X or ^C: leave.   Left arrow or Esc: stay.', width, 'strong', ' '),
  ];
}

/** A form's head: its title, what was given, and the question at hand or the last word before it is done. */
export function formLines(
  state: BenchState,
  screen: FormScreen,
  world: World,
  width: number,
): readonly Line[] {
  const field = currentField(screen, state, world);
  const who = world.rules.people.find(({ id }) => id === state.person)?.name ?? 'nobody';
  return [
    line(` ${formTitle(screen.form)}`, 'strong'),
    ...aboutLines(screen, world, width),
    BLANK,
    ...summaryOf(screen, state, world).map((each) => givenLine(each.ask, each.given, width)),
    ...(field
      ? [
          line(` ${field.ask}`, 'strong'),
          ...(field.words && field.choices.length > 0
            ? wrap(' Up and Down, then Right; or type your own words, then Enter.', width)
            : []),
        ]
      : [
          ...wrap(` This will be written in the name of ${who}.`, width),
          ...wrap(
            ' Right arrow: do it.   Left arrow: one question back.   Esc: leave it; nothing is written.',
            width,
            'strong',
            ' ',
          ),
        ]),
  ];
}

/** A long question is cropped, what was given to it is not; where both are long, both are. */
function givenLine(ask: string, given: string, width: number): Line {
  const room = Math.max(Math.floor(width / 3), width - lineWidth(line(given)) - 5);
  return crop([...crop(line(`   ${ask}`), room), { text: ` ${given}` }], width);
}

/** What the form is about; for a rework, what it will re-open and why, before it starts. */
function aboutLines(screen: FormScreen, world: World, width: number): readonly Line[] {
  const { form } = screen;
  if (form.id === 'setup') return setupLines(form.setup, world, width);
  const unit = world.open?.state;
  if (!unit) return [];
  switch (form.id) {
    case 'rework': {
      const title = unit.steps.get(form.step)?.step.title ?? form.step;
      const reopened = wouldReopen(unit, form.step);
      return [
        ...wrap(` "${title}"`, width),
        ...(reopened.length === 0
          ? wrap(' Nothing else rests on it yet.', width)
          : [
              line(` It re-opens ${reopened.length}:`, 'ask'),
              ...reopened.slice(0, 6).map(({ why }) => crop(line(`   ${plain(why)}`), width)),
              ...(reopened.length > 6 ? [line(`   and ${reopened.length - 6} more`)] : []),
            ]),
      ];
    }
    case 'put-right': {
      const last = unit.events.findLast((event) => ['answered', 'read', 'released'].includes(event.kind));
      return last && 'step' in last
        ? wrap(
            ` Entry ${last.n}, ${last.kind} at ${last.at.slice(11, 16)} UTC by ${last.by}: ${last.step}`,
            width,
            'plain',
            ' ',
          )
        : [];
    }
    case 'snag':
      return form.step === undefined
        ? []
        : wrap(` at "${unit.steps.get(form.step)?.step.title ?? form.step}"`, width);
    case 'decide':
    case 'close': {
      const snag = unit.snags.find(({ n }) => n === form.snag);
      return snag
        ? wrap(` #${snag.n} ${snag.raised.severity}: ${snag.raised.text}`, width, 'plain', ' ')
        : [];
    }
    case 'override':
      return wrap(` ${form.problem}`, width);
    case 'take-over':
      return keptLines(world, width);
    default:
      return [];
  }
}

function setupLines(setup: string, { more }: World, width: number): readonly Line[] {
  const row = more?.setups().find(({ standing }) => standing.rule.id === setup);
  return row ? wrap(` ${row.standing.because}`, width, 'plain', ' ') : [];
}

/** Who keeps the unit, since when, and what they wrote last: all that there is to judge by. */
function keptLines({ open, now }: World, width: number): readonly Line[] {
  if (!open?.keptBy) return [];
  const { who, since } = open.keptBy;
  const last = open.state.events.at(-1);
  return [
    ...wrap(` ${who} has ${open.id} since ${timeText(since, now)}.`, width, 'strong', ' '),
    ...wrap(
      last
        ? ` Its last entry is by ${last.by}, at ${timeText(last.at, now)}.`
        : ' Nothing is logged of it yet.',
      width,
    ),
    ...wrap(
      ' Make sure that nobody works on it there. What is typed there from now on is refused; nothing that was logged is lost.',
      width,
      'ask',
      ' ',
    ),
  ];
}
