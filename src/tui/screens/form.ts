/**
 * One question at a time, with common answers to choose from; then a summary that only the Right arrow submits. Enter
 * never does, so a code scanned into a form writes nothing.
 */

import { sanitize } from '../../base/text.js';
import { utcText } from '../../base/wallclock.js';
import type { World } from '../../session/ports.js';
import { findCheck } from '../../unit/graph.js';
import { lastUndoable, wouldReopen } from '../../unit/next.js';
import { timeText } from '../../unit/timers.js';
import { send, takeInstrument } from '../answers.js';
import { MARKING, worded } from '../keys/table.js';
import { emptied, goBack, say, stay, withoutNote } from '../navigate.js';
import { BLANK, crop, type Line, line, lineWidth, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import { type BenchState, TOP } from '../state.js';
import { answerText } from '../theme.js';
import { currentField, type FormScreen, formAction, formTitle, givenFields } from './fields.js';
import type { Field, ScreenDefinition } from './screen.js';
import { WITH } from './setupfields.js';

/**
 * The top of a form: its title, the answers so far, and the current question or the summary prompt. Where the screen is
 * low, the first answers give way: what is asked, and a list to choose from, always show.
 */
export function formLines(
  state: BenchState,
  screen: FormScreen,
  world: World,
  width: number,
  height: number,
): readonly Line[] {
  const field = currentField(screen, state, world);
  const top = [line(` ${formTitle(screen.form)}`, 'strong'), ...aboutLines(screen, world, width), BLANK];
  const asked = field ? askedLines(field, width) : summaryLines(state, world, width);
  const list = Math.min(field?.choices.length ?? 0, LIST_ROWS);
  const given = givenFields(screen, state, world).map((each) => givenLine(each.ask, each.given, width));
  return [...top, ...lastOf(given, Math.max(1, height - top.length - asked.length - list)), ...asked];
}

/** Rows that a list to choose from has at least. */
const LIST_ROWS = 8;

function askedLines({ ask, words, choices }: Field, width: number): readonly Line[] {
  return [
    ...wrapLine(` ${ask}`, width, 'strong', ' '),
    ...(words && choices.length > 0
      ? wrapLine(' Up and Down, then Right; or type your own words, then Enter.', width)
      : []),
  ];
}

function summaryLines({ person }: BenchState, { rules }: World, width: number): readonly Line[] {
  const who = rules.people.find(({ id }) => id === person)?.name ?? 'nobody';
  return [
    ...wrapLine(` This will be written in the name of ${who}.`, width),
    ...wrapLine(
      ' Right arrow: do it.   Left arrow: one question back.   Esc: leave it; nothing is written.',
      width,
      'strong',
      ' ',
    ),
  ];
}

function lastOf(lines: readonly Line[], rows: number): readonly Line[] {
  if (lines.length <= rows) return lines;
  const left = lines.length - rows + 1;
  return [line(`   … ${left} ${left === 1 ? 'answer' : 'answers'} before`), ...lines.slice(left)];
}

/** Crops a long question but not its answer; crops both if both are long. */
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
        ...wrapLine(` "${title}"`, width),
        ...(reopened.length === 0
          ? wrapLine(' Nothing else rests on it yet.', width)
          : [
              line(` It re-opens ${reopened.length}:`, 'ask'),
              ...reopened.slice(0, 6).map(({ why }) => crop(line(`   ${sanitize(why)}`), width)),
              ...(reopened.length > 6 ? [line(`   and ${reopened.length - 6} more`)] : []),
            ]),
      ];
    }
    case 'put-right': {
      const last = lastUndoable(unit.derived.marks)?.last;
      if (!last) return [];
      const check = last.kind === 'released' ? undefined : findCheck(unit.route, last.check)?.check;
      const given =
        last.kind === 'answered'
          ? answerText(last)
          : last.kind === 'read'
            ? last.reading.raw
            : 'hold released';
      const what = check ? `${sanitize(check.ask)} ${sanitize(given)}` : given;
      const by = world.rules.people.find(({ id }) => id === last.by)?.initials ?? last.by;
      return wrapLine(
        ` Entry ${last.n}, ${last.kind} at ${utcText(last.at).slice(11)} by ${by}: ${what} (${last.step})`,
        width,
        'plain',
        ' ',
      );
    }
    case 'snag':
      return form.step === undefined
        ? []
        : wrapLine(` at "${unit.steps.get(form.step)?.step.title ?? form.step}"`, width);
    case 'decide':
    case 'close': {
      const snag = unit.snags.find(({ n }) => n === form.snag);
      return snag
        ? wrapLine(` #${snag.n} ${snag.raised.severity}: ${snag.raised.text}`, width, 'plain', ' ')
        : [];
    }
    case 'override':
      return wrapLine(` ${form.problem}`, width);
    case 'take-over':
      return keptLines(world, width);
    case 'unsigned':
      return wrapLine(
        ' The unit would be closed here without a signature; its record says who allowed that, and why the bench could not sign. To have it signed: Esc, mend the key, and do the same again.',
        width,
        'ask',
        ' ',
      );
    default:
      return [];
  }
}

function setupLines(setup: string, { more }: World, width: number): readonly Line[] {
  const row = more?.setups().find(({ standing }) => standing.rule.id === setup);
  return row ? wrapLine(` ${row.standing.because}`, width, 'plain', ' ') : [];
}

/** Who holds the unit, since when, and what they wrote last: all there is to judge by. */
function keptLines({ open, now }: World, width: number): readonly Line[] {
  if (!open?.keptBy) return [];
  const { who, since } = open.keptBy;
  const last = open.state.events.at(-1);
  return [
    ...wrapLine(` ${who} has ${open.id} since ${timeText(since, now)}.`, width, 'strong', ' '),
    ...wrapLine(
      last
        ? ` Its last entry is by ${last.by}, at ${timeText(last.at, now)}.`
        : ' Nothing is logged of it yet.',
      width,
    ),
    ...wrapLine(
      ' Make sure that nobody works on it there. What is typed there from now on is refused; nothing that was logged is lost.',
      width,
      'ask',
      ' ',
    ),
  ];
}

export function fieldGiven(state: BenchState, screen: FormScreen, value: string, world: World): Update {
  const field = currentField(screen, state, world);
  if (!field) return stay(state);
  const given = { ...screen.given, [field.id]: value };
  const tool = field.id.startsWith(WITH) ? world.instruments.find(({ id }) => id === value) : undefined;
  // What waits for the form to be done waits on.
  const waiting = state.waiting ? { waiting: state.waiting } : {};
  const held = tool ? { ...takeInstrument(state, tool), ...waiting } : state;
  const filled = { ...screen, given, cursor: TOP };
  // A picture is all that its form asks: taking it gives the answer. A hold is released by its own key alone.
  if (screen.form.id === 'evidence' && !releasesHold(screen))
    return send(withoutNote({ ...held, entry: '', screen: filled }), formAction(filled), world);
  return stay(withoutNote({ ...held, entry: '', screen: filled }));
}

/** Right arrow: takes the marked choice; on the summary, submits. */
function formRight(state: BenchState, screen: FormScreen, world: World): Update {
  const field = currentField(screen, state, world);
  if (!field && releasesHold(screen))
    return stay(say(state, 'ask', 'Arrows never release a hold.', 'F8 releases it.'));
  if (!field) return send(state, formAction(screen), world);
  const item = field.choices[screen.cursor.at];
  if (!item) return stay(say(state, 'ask', 'This is typed, then Enter.'));
  return fieldGiven(state, screen, item.id, world);
}

/** Left arrow: goes back one question, or leaves the form from the first one. Nothing is written. */
function formLeft(state: BenchState, screen: FormScreen): Update {
  const last = Object.keys(screen.given).at(-1);
  if (last === undefined) return stay(goBack(withoutNote(state)));
  const { [last]: _gone, ...given } = screen.given;
  return stay(withoutNote({ ...state, screen: { ...screen, given, cursor: TOP } }));
}

/** Whether the form only collects what a hold's release needs; it is submitted by the release key. */
export const releasesHold = ({ form }: FormScreen): boolean =>
  form.id === 'evidence' && form.action.do === 'release';

function typedInForm(state: BenchState, screen: FormScreen, text: string, world: World): Update {
  const empty = emptied(state);
  const field = currentField(screen, state, world);
  if (!field)
    return stay(
      // What follows a PIN may be the PIN again.
      say(
        empty,
        'ask',
        screen.given.pin === undefined
          ? `"${sanitize(text)}" changes nothing here.`
          : 'What was typed changes nothing here.',
        'Right arrow does it; Esc leaves it.',
      ),
    );
  if (field.hidden) return fieldGiven(empty, screen, text, world);
  const choice = field.choices.find(({ id }) => id.toLowerCase() === text.toLowerCase());
  if (choice) return fieldGiven(empty, screen, choice.id, world);
  if (field.takes ? field.takes.test(text) : field.words && /\p{L}{2}/u.test(text))
    return fieldGiven(empty, screen, text, world);
  const wanted = field.words
    ? 'Say it in words, or choose with Up, Down and Right.'
    : 'Choose with Up, Down and Right.';
  return stay(say(empty, 'bad', `"${sanitize(text)}" is no answer to that.`, field.hint ?? wanted));
}

const BACK_ONE = worded('no', 'one back');

export const formScreen: ScreenDefinition<'form'> = {
  modal: true,
  list: (state, world) =>
    state.screen.name === 'form' ? (currentField(state.screen, state, world)?.choices ?? []) : [],
  lines: (state, screen, world, width, _theme, height) => formLines(state, screen, world, width, height),
  keys(state, screen, world) {
    const field = currentField(screen, state, world);
    if (!field) return [worded('yes', 'do it'), BACK_ONE];
    return field.choices.length > 0
      ? [...MARKING, worded('yes', 'take it'), BACK_ONE]
      : [worded('act', 'takes what is typed'), BACK_ONE];
  },
  hides: (state, screen, world) => currentField(screen, state, world)?.hidden === true,
  choose: (state, item, world) =>
    state.screen.name === 'form' ? fieldGiven(state, state.screen, item.id, world) : stay(state),
  right: formRight,
  left: formLeft,
  typed: typedInForm,
};
