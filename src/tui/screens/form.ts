/**
 * One question at a time, with common answers to choose from; then a summary that only the Right arrow submits. Enter
 * never does, so a code scanned into a form writes nothing.
 */

import { sanitize } from '../../base/text.js';
import { utcText } from '../../base/wallclock.js';
import { data, laid, type Spoken } from '../../base/words.js';
import type { World } from '../../session/ports.js';
import { findCheck } from '../../unit/graph.js';
import { lastUndoable, wouldReopen } from '../../unit/next.js';
import { timeText } from '../../unit/timers.js';
import { send, takeInstrument } from '../answers.js';
import { marking, worded } from '../keys/table.js';
import { emptied, goBack, say, stay, withoutNote } from '../navigate.js';
import { BLANK, crop, type Line, line, lineWidth, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import { type BenchState, TOP } from '../state.js';
import { answerText } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import { currentField, type FormScreen, formAction, givenFields } from './fields.js';
import { causeSaid, reasonSaid } from './reasons.js';
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
  const top = [
    line(laid` ${told(world)(`form-${screen.form.id}`)}`, 'strong'),
    ...aboutLines(screen, world, width),
    BLANK,
  ];
  const speak = told(world);
  const asked = field ? askedLines(field, width, speak) : summaryLines(state, world, width);
  const list = Math.min(field?.choices.length ?? 0, LIST_ROWS);
  const given = givenFields(screen, state, world).map((each) => givenLine(each.ask, each.given, width));
  return [...top, ...lastOf(given, Math.max(1, height - top.length - asked.length - list), speak), ...asked];
}

/** Rows that a list to choose from has at least. */
const LIST_ROWS = 8;

function askedLines({ ask, words, choices }: Field, width: number, speak: BenchSay): readonly Line[] {
  return [
    ...wrapLine(laid` ${ask}`, width, 'strong', ' '),
    ...(words && choices.length > 0 ? wrapLine(laid` ${speak('form-own-words')}`, width) : []),
  ];
}

function summaryLines({ person }: BenchState, world: World, width: number): readonly Line[] {
  const speak = told(world);
  const name = world.rules.people.find(({ id }) => id === person)?.name ?? speak('form-nobody');
  return [
    ...wrapLine(laid` ${speak('form-name', { name })}`, width),
    ...wrapLine(laid` ${speak('form-end')}`, width, 'strong', ' '),
  ];
}

function lastOf(lines: readonly Line[], rows: number, speak: BenchSay): readonly Line[] {
  if (lines.length <= rows) return lines;
  const left = lines.length - rows + 1;
  return [line(laid`   ${speak('form-before', { n: left })}`), ...lines.slice(left)];
}

/** Crops a long question but not its answer; crops both if both are long. */
function givenLine(ask: Spoken, given: Spoken, width: number): Line {
  const room = Math.max(Math.floor(width / 3), width - lineWidth(line(given)) - 5);
  return crop([...crop(line(laid`   ${ask}`), room), { text: laid` ${given}` }], width);
}

/** What the form is about; for a rework, what it will re-open and why, before it starts. */
function aboutLines(screen: FormScreen, world: World, width: number): readonly Line[] {
  const { form } = screen;
  if (form.id === 'setup') return setupLines(form.setup, world, width);
  const unit = world.open?.state;
  const speak = told(world);
  if (!unit) return [];
  switch (form.id) {
    case 'rework': {
      const title = data(unit.steps.get(form.step)?.step.title ?? form.step);
      const reopened = wouldReopen(unit, form.step);
      return [
        ...wrapLine(laid` ${title}`, width, 'strong'),
        ...(reopened.length === 0
          ? wrapLine(laid` ${speak('form-rests-nothing')}`, width)
          : [
              line(laid` ${speak('form-reopens', { n: reopened.length })}`, 'ask'),
              ...reopened.slice(0, 6).map(({ why }) => crop(line(laid`   ${sanitize(why)}`), width)),
              ...(reopened.length > 6
                ? [line(laid`   ${speak('form-more', { n: reopened.length - 6 })}`)]
                : []),
            ]),
      ];
    }
    case 'put-right': {
      const last = lastUndoable(unit.derived.marks)?.last;
      if (!last) return [];
      const check = last.kind === 'released' ? undefined : findCheck(unit.route, last.check)?.check;
      const given =
        last.kind === 'answered'
          ? answerText(speak, last, undefined, check)
          : last.kind === 'read'
            ? last.reading.raw
            : speak('hold-released');
      const what = check ? `${sanitize(check.ask)} ${sanitize(given)}` : given;
      const by = world.rules.people.find(({ id }) => id === last.by)?.initials ?? last.by;
      return wrapLine(
        laid` ${speak('form-entry', { n: last.n, time: utcText(last.at).slice(11), who: by, what })}`,
        width,
        'plain',
        ' ',
      );
    }
    case 'snag':
      return form.step === undefined
        ? []
        : wrapLine(
            laid` ${speak('form-at', { step: unit.steps.get(form.step)?.step.title ?? form.step })}`,
            width,
          );
    case 'decide':
    case 'close': {
      const snag = unit.snags.find(({ n }) => n === form.snag);
      return snag
        ? wrapLine(
            laid` #${snag.n} ${speak(`severity-${snag.raised.severity}`)}: ${data(causeSaid(snag.raised.cause, speak))}, ${data(reasonSaid(snag.raised.text, speak))}`,
            width,
            'plain',
            ' ',
          )
        : [];
    }
    case 'override':
      return wrapLine(laid` ${data(form.problem)}`, width);
    case 'take-over':
      return keptLines(world, width);
    case 'unsigned':
      return wrapLine(laid` ${told(world)('form-unsigned-why')}`, width, 'ask', ' ');
    default:
      return [];
  }
}

function setupLines(setup: string, world: World, width: number): readonly Line[] {
  const row = world.more?.setups().find(({ standing }) => standing.rule.id === setup);
  return row ? wrapLine(laid` ${told(world).retell(row.standing.because)}`, width, 'plain', ' ') : [];
}

/** Who holds the unit, since when, and what they wrote last: all there is to judge by. */
function keptLines(world: World, width: number): readonly Line[] {
  const { open, now } = world;
  if (!open?.keptBy) return [];
  const say = told(world);
  const { who, since } = open.keptBy;
  const last = open.state.events.at(-1);
  return [
    ...wrapLine(
      laid` ${say('kept-by', { who, unit: open.id, since: timeText(since, now) })}`,
      width,
      'strong',
      ' ',
    ),
    ...wrapLine(
      last
        ? laid` ${say('kept-last', { by: last.by, at: timeText(last.at, now) })}`
        : laid` ${say('kept-nothing')}`,
      width,
    ),
    ...wrapLine(laid` ${say('kept-make-sure')}`, width, 'ask', ' '),
  ];
}

export function fieldGiven(state: BenchState, screen: FormScreen, value: string, world: World): Update {
  const field = currentField(screen, state, world);
  if (!field) return stay(state);
  const given = { ...screen.given, [field.id]: value };
  const tool = field.id.startsWith(WITH) ? world.instruments.find(({ id }) => id === value) : undefined;
  // What waits for the form to be done waits on.
  const waiting = state.waiting ? { waiting: state.waiting } : {};
  const held = tool ? { ...takeInstrument(state, tool, told(world)), ...waiting } : state;
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
    return stay(say(state, 'ask', told(world)('form-no-arrow'), told(world)('form-release-key')));
  if (!field) return send(state, formAction(screen), world);
  const item = field.choices[screen.cursor.at];
  if (!item) return stay(say(state, 'ask', told(world)('form-typed-only')));
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
      // It may be a PIN: it is not shown.
      say(empty, 'ask', told(world)('form-changes-nothing'), told(world)('form-ends-with')),
    );
  if (field.hidden) return fieldGiven(empty, screen, text, world);
  const choice = field.choices.find(({ id }) => id.toLowerCase() === text.toLowerCase());
  if (choice) return fieldGiven(empty, screen, choice.id, world);
  if (field.takes ? field.takes.test(text) : field.words && /\p{L}{2}/u.test(text))
    return fieldGiven(empty, screen, text, world);
  const speak = told(world);
  const wanted = speak(field.words ? 'form-say-or-choose' : 'form-choose');
  return stay(say(empty, 'bad', speak('form-no-answer', { text: sanitize(text) }), field.hint ?? wanted));
}

export const formScreen: ScreenDefinition<'form'> = {
  modal: true,
  list: (state, world) =>
    state.screen.name === 'form' ? (currentField(state.screen, state, world)?.choices ?? []) : [],
  lines: (state, screen, world, width, _theme, height) => formLines(state, screen, world, width, height),
  keys(state, screen, world) {
    const field = currentField(screen, state, world);
    const speak = told(world);
    const back = worded('no', speak('foot-one-back'));
    if (!field) return [worded('yes', speak('foot-do-it')), back];
    return field.choices.length > 0
      ? [...marking(speak), worded('yes', speak('foot-take-it')), back]
      : [worded('act', speak('foot-takes-typed')), back];
  },
  hides: (state, screen, world) => currentField(screen, state, world)?.hidden === true,
  choose: (state, item, world) =>
    state.screen.name === 'form' ? fieldGiven(state, state.screen, item.id, world) : stay(state),
  right: formRight,
  left: formLeft,
  typed: typedInForm,
};
