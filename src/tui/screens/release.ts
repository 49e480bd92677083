/** A hold: what it depends on, whether the person at the bench may release it, and the key that does. */
import widthOf from 'string-width';
import type { Problem } from '../../base/problem.js';
import { sanitize } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import { decide } from '../../unit/decide.js';
import type { Answer } from '../../unit/events.js';
import { emptied, say, stay } from '../navigate.js';
import { BLANK, crop, type Line, line, wrapLine } from '../parts/line.js';
import type { Update } from '../protocol.js';
import type { BenchState, Screen } from '../state.js';
import { answerText } from '../theme.js';
import { wantsPin } from './fields.js';
import type { ScreenDefinition } from './screen.js';

export function releaseLines(
  state: BenchState,
  screen: Extract<Screen, { name: 'release' }>,
  world: World,
  width: number,
): readonly Line[] {
  const at = world.open?.state.steps.get(screen.step);
  const hold = at?.step.hold;
  if (!at || !hold) return wrapLine(' This step has no hold.', width);
  const person = world.rules.people.find(({ id }) => id === state.person);
  const who = person ? person.name : 'nobody';
  const refusal = whyNotReleased(state, world, screen.step);
  return [
    line(` HOLD  ${sanitize(hold.title)}`, 'strong'),
    ...wrapLine(` at "${at.step.title}"`, width),
    BLANK,
    ...at.checks.flatMap((check) => {
      const asked = at.step.checks.find(({ id }) => id === check.id);
      const { answered } = check;
      const said = answered
        ? `${answered.verdict.outcome}  ${sanitize(answerText(answered, 'mm', asked?.points))}`
        : 'not answered';
      const by = answered ? `, by ${answered.by}${withTools(answered.answer)}` : '';
      const ask = `   ${sanitize(asked?.ask ?? check.id).replace(/\.$/, '')}: `;
      const told = `${said}${by}`;
      // A question that fills the row has its answer on the next.
      return widthOf(ask + told) <= width
        ? [line(ask + told)]
        : [crop(line(ask), width), crop(line(`      ${told}`), width)];
    }),
    BLANK,
    ...(hold.notSamePerson ? wrapLine(' Not by the one who did the step.', width) : []),
    ...(refusal
      ? [
          ...wrapLine(` ${refusal.text}`, width, 'ask', ' '),
          ...wrapLine(` ${refusal.todo}`, width, 'plain', ' '),
        ]
      : [
          ...wrapLine(` It will be released in the name of ${who}.`, width, 'strong'),
          ...(wantsPin(state, world)
            ? wrapLine(' Type your PIN, then press F8.', width, 'ask')
            : wrapLine(' Press F8 once more to release it. Enter never does.', width, 'ask')),
        ]),
  ];
}

/** ` with R2`: every instrument of a reading or a set. */
function withTools(answer: Answer): string {
  if (!('readings' in answer)) return '';
  const readings = Array.isArray(answer.readings) ? answer.readings : Object.values(answer.readings).flat();
  const tools = new Set(readings.flatMap(({ instrument }) => instrument ?? []));
  return tools.size === 0 ? '' : ` with ${[...tools].join(', ')}`;
}

/** The refusal that a release would meet; undefined if only a PIN or a picture is missing. */
function whyNotReleased(state: BenchState, world: World, step: string): Problem | undefined {
  if (!world.open) return undefined;
  const { now, bench, rules, instruments } = world;
  const context = { now, bench, person: state.person, workshop: rules, instruments };
  const decision = decide(world.open.state, { do: 'release', step }, context);
  if (decision.kind !== 'refused' || GIVEN_WITH_IT.has(decision.problem.id)) return undefined;
  return decision.problem;
}

const GIVEN_WITH_IT: ReadonlySet<string> = new Set(['build.pin-needed', 'build.evidence-needed']);

export const releaseScreen: ScreenDefinition<'release'> = {
  lines: (state, screen, world, width) => releaseLines(state, screen, world, width),
  hides: (state, _screen, world) => wantsPin(state, world),
  right: neverByArrow,
  left: neverByArrow,
  // A PIN stays on the line, hidden, until the release key takes it; anything else is cleared. Enter never releases.
  typed: (state, _screen, text) =>
    stay(
      say(
        /^\d{1,12}$/.test(text) ? state : emptied(state),
        'ask',
        'Enter never releases a hold.',
        'F8 releases it; Esc leaves it.',
      ),
    ),
};

function neverByArrow(state: BenchState): Update {
  return stay(say(state, 'ask', 'Arrows never release a hold.', 'F8 releases it; Esc leaves it.'));
}
