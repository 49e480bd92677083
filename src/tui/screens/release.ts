/** A hold: the readings it rests on with their limits, who releases it, and the key that does. */

import type { Problem } from '../../base/problem.js';
import { sanitize } from '../../base/text.js';
import { data, laid, type Spoken } from '../../base/words.js';
import type { World } from '../../session/ports.js';
import { decide } from '../../unit/decide.js';
import type { Answer } from '../../unit/events.js';
import { isLookedAt } from '../../unit/looks.js';
import { walkOf } from '../../unit/next.js';
import { levelOf, RELEASES } from '../../unit/people.js';
import { timeText } from '../../unit/timers.js';
import type { CheckState, StepState } from '../../unit/types.js';
import { emptied, say as note, show, stay, withoutNote } from '../navigate.js';
import { BLANK, type Line, line, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import { type BenchState, type Screen, TOP } from '../state.js';
import { answerText, withoutStop } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import { wantsPin } from './fields.js';
import type { ScreenDefinition } from './screen.js';
import { limitTexts } from './why.js';

export function releaseLines(
  state: BenchState,
  screen: Extract<Screen, { name: 'release' }>,
  world: World,
  width: number,
): readonly Line[] {
  const say = told(world);
  const unit = world.open?.state;
  const at = unit?.steps.get(screen.step);
  const hold = at?.step.hold;
  if (!unit || !at || !hold) return wrapLine(laid` ${say('hold-none')}`, width);
  const person = world.rules.people.find(({ id }) => id === state.person);
  const name = person ? person.name : say('form-nobody');
  const refusal = whyNotReleased(state, world, screen.step);
  const steps = [at, ...walkOf(unit, screen.step)];
  return [
    line(laid` ${say('hold-title', { title: sanitize(hold.title) })}`, 'strong'),
    ...(refusal
      ? [
          ...wrapLine(laid` ${say.tell(refusal.said)}`, width, 'ask', ' '),
          ...wrapLine(laid` ${say.tell(refusal.wayOut)}`, width, 'plain', ' '),
        ]
      : wantsPin(state, world)
        ? wrapLine(laid` ${say('hold-pin', { name })}`, width, 'ask', ' ')
        : wrapLine(laid` ${say('hold-press', { name })}`, width, 'ask', ' ')),
    ...(hold.notSamePerson && !isAlone(world, at.step.stage)
      ? wrapLine(laid` ${say('hold-other')}`, width)
      : []),
    ...steps.flatMap((step) => [BLANK, ...stepLines(step, world, width)]),
  ];
}

/** Whether one person alone may release, by the rule of the workshop: who did the step is then asked to wait instead. */
const isAlone = ({ rules }: World, stage: string): boolean =>
  rules.soloRelease !== undefined &&
  rules.people.filter((person) => levelOf(person, stage) >= RELEASES).length < 2;

/** What a step's hold rests on: readings one by one with their limits, what was looked at in one line. */
function stepLines({ step, checks }: StepState, world: World, width: number): readonly Line[] {
  const say = told(world);
  const looked: string[] = [];
  const lines = checks.flatMap((check): readonly Line[] => {
    const asked = step.checks.find(({ id }) => id === check.id)!;
    const { answered } = check;
    if (answered && answered.verdict.outcome === 'pass' && isLookedAt(answered.answer) && !answered.cited) {
      const ask = withoutStop(asked.ask);
      looked.push(answered.evidence.length > 0 ? say('hold-picture', { ask }) : ask);
      return [];
    }
    const limits = limitTexts(asked, world);
    return [
      ...wrapLine(
        laid`   ${withoutStop(asked.ask)}: ${answerSaid(check, asked, say)}`,
        width,
        'plain',
        '     ',
      ),
      ...limits.flatMap((text) => wrapLine(laid`     ${text}`, width, 'quiet', '       ')),
    ];
  });
  const by = new Set(checks.flatMap(({ answered }) => answered?.by ?? []));
  const people = [...by].map((id) => world.rules.people.find((each) => each.id === id)?.name ?? id);
  return [
    ...wrapLine(
      laid` ${people.length > 0 ? say('hold-by', { step: step.title, names: people.join(', ') }) : data(step.title)}`,
      width,
      'strong',
      '   ',
    ),
    ...lines,
    ...setupLines(step.setup, world, width),
    ...(looked.length > 0
      ? wrapLine(laid`   ${say('hold-looked', { what: looked.join(' / ') })}`, width, 'plain', '     ')
      : []),
  ];
}

/** The readings of the first-off that a step was done under. */
function setupLines(setup: string | undefined, world: World, width: number): readonly Line[] {
  const say = told(world);
  const row = world.more?.setups().find(({ standing }) => standing.rule.id === setup);
  const { rule, firstOff } = row?.standing ?? {};
  if (!rule || !firstOff) return [];
  return [
    ...wrapLine(
      laid`   ${data(rule.title)}, ${data(timeText(firstOff.at, world.now))}`,
      width,
      'plain',
      '     ',
    ),
    ...firstOff.checks.flatMap(({ check, answer, verdict }) => {
      const asked = rule.checks.find(({ id }) => id === check);
      const said = `${say(`outcome-${verdict.outcome}`)}  ${answerText(say, { answer }, 'mm', asked)}${withTools(answer, say)}`;
      return [
        ...wrapLine(
          laid`     ${withoutStop(asked?.ask ?? check)}: ${sanitize(said)}`,
          width,
          'plain',
          '       ',
        ),
        ...(asked ? limitTexts(asked, world) : []).flatMap((text) =>
          wrapLine(laid`       ${text}`, width, 'quiet', '         '),
        ),
      ];
    }),
  ];
}

function answerSaid(
  { answered }: CheckState,
  check: Parameters<typeof answerText>[3],
  say: BenchSay,
): Spoken {
  if (!answered) return say('hold-computed');
  const said = `${say(`outcome-${answered.verdict.outcome}`)}  ${answerText(say, answered, 'mm', check)}`;
  const { cited } = answered;
  const of = cited ? `, ${say('hold-of', { unit: cited.unit, name: cited.by })}` : '';
  return sanitize(`${said}${withTools(answered.answer, say)}${of}`);
}

/** ` with R2`: every instrument of a reading or a set. */
function withTools(answer: Answer, say: BenchSay): string {
  if (!('readings' in answer)) return '';
  const readings = Array.isArray(answer.readings) ? answer.readings : Object.values(answer.readings).flat();
  const tools = new Set(readings.flatMap(({ instrument }) => instrument ?? []));
  return tools.size === 0 ? '' : ` ${say('hold-with', { tools: [...tools].join(', ') })}`;
}

/** The refusal that a release would meet; undefined if only a PIN or a picture is missing. */
function whyNotReleased(state: BenchState, world: World, step: string): Problem | undefined {
  if (!world.open) return undefined;
  const { now, today, bench, rules, instruments } = world;
  const context = { now, today, bench, person: state.person, workshop: rules, instruments };
  const also = walkOf(world.open.state, step).map((each) => each.step.id);
  const decision = decide(world.open.state, { do: 'release', step, also }, context);
  if (decision.kind !== 'refused' || GIVEN_WITH_IT.has(decision.problem.id)) return undefined;
  return decision.problem;
}

const GIVEN_WITH_IT: ReadonlySet<string> = new Set(['build.pin-needed', 'build.evidence-needed']);

/** The hold as shown to somebody who may release it. */
export const toRelease = (state: BenchState, step: string): BenchState =>
  show(withoutNote({ ...state, entry: '' }), { name: 'release', step, cursor: TOP });

export const releaseScreen: ScreenDefinition<'release'> = {
  scrolls: true,
  lines: (state, screen, world, width) => releaseLines(state, screen, world, width),
  hides: (state, _screen, world) => wantsPin(state, world),
  right: neverByArrow,
  left: neverByArrow,
  // A PIN stays on the line, hidden, until the release key takes it; anything else is cleared. Enter never releases.
  typed: (state, _screen, text, world) =>
    stay(
      note(
        /^\d{1,12}$/.test(text) ? state : emptied(state),
        'ask',
        told(world)('hold-no-enter'),
        told(world)('hold-key'),
      ),
    ),
};

function neverByArrow(state: BenchState, _screen: unknown, world: World): Update {
  return stay(note(state, 'ask', told(world)('form-no-arrow'), told(world)('hold-key')));
}
