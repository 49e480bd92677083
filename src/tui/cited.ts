/** What units share: at a shared step, all that stands and Right takes over; elsewhere, what is cited with the answer. */

import { sanitize } from '../base/text.js';
import { data, laid, type Spoken } from '../base/words.js';
import { isShared } from '../procedure/rhythm.js';
import type { World } from '../session/ports.js';
import { isSharedStep } from '../unit/handlers/cite.js';
import { isLookedAt } from '../unit/looks.js';
import { timeText } from '../unit/timers.js';
import type { SharedShown, StepState } from '../unit/types.js';
import { crop, type Line, line, wrapLine } from './parts/line.js';
import type { BenchState } from './state.js';
import { answerText, withoutStop } from './theme.js';
import { told } from './words/told.js';

/** What one key takes over now; empty where something must be asked first, or is to be asked anew. */
export function citesAt(
  step: StepState | undefined,
  state: BenchState,
  { more }: World,
): readonly SharedShown[] {
  if (!step || !more?.shared || !isSharedStep(step) || state.anew === step.step.id) return [];
  const shown = more.shared.takes(step.step.id);
  return shown.some((each) => each.step === step.step.id) ? shown : [];
}

/** What the program cites with the next answer at a step that is not shared as a whole. */
export function citesWith({ step }: StepState, { more }: World): readonly SharedShown[] {
  return more?.shared && step.checks.some(({ rhythm }) => isShared(rhythm))
    ? more.shared.goesWith(step.id)
    : [];
}

/** A row for each step under whoever gave it, so that all of it stands on a small screen: what one key takes is in sight. */
export function citeLines(shown: readonly SharedShown[], world: World, width: number): readonly Line[] {
  const hasLot = shown.some(({ answered }) => answered?.lot !== undefined);
  const groups = new Map<string, SharedShown[]>();
  for (const each of shown) {
    const key = `${each.unit}/${each.by}`;
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [
    ...wrapLine(laid` ${told(world)('cited-stands')}`, width, 'strong', ' '),
    ...[...groups.values()].flatMap((group) => {
      const { unit, by, at } = group.at(-1)!;
      const head = laid` ${sanitize(unit)}, ${nameOf(by, world)}, ${data(timeText(at, world.now))}`;
      const steps = [...new Set(group.map(({ step }) => step))];
      return [
        crop(line(head), width),
        ...steps.flatMap((step) => wrapLine(laid` · ${stepText(step, group, world)}`, width, 'plain', '   ')),
      ];
    }),
    ...wrapLine(laid` ${told(world)(hasLot ? 'cited-ways-lot' : 'cited-ways')}`, width, 'quiet'),
  ];
}

/** `Accept the profile: PR-77`: lots and figures by name, what was only looked at in one word. */
function stepText(step: string, shown: readonly SharedShown[], world: World): Spoken {
  const { open } = world;
  const [right, released] = [told(world)('cited-right'), told(world)('cited-released')] as const;
  const title = open?.state.steps.get(step)?.step.title ?? step;
  const said = shown
    .filter((each) => each.step === step)
    .map((each) => {
      if (each.released) return released;
      if (!each.answered || isLookedAt(each.answered.answer)) return right;
      return answerSays(each.step, each.answered, world);
    });
  const named = said.filter((each) => each !== right);
  return sanitize(`${title}: ${(named.length > 0 ? named : [right]).join(', ')}`);
}

/** A lot by its code, a choice in words: whoever takes it over signs for it. */
function answerSays(
  step: string,
  { answer, lot }: NonNullable<SharedShown['answered']>,
  world: World,
): Spoken {
  const checks = world.open?.state.steps.get(step)?.step.checks;
  const check = checks?.find(
    ({ choices }) => answer.kind === 'choice' && choices?.some(({ id }) => id === answer.choice),
  );
  return lot ? data(lot.code) : answerText(told(world), { answer }, 'mm', check);
}

const nameOf = (id: string, { rules }: World): Spoken =>
  sanitize(rules.people.find((each) => each.id === id)?.name ?? id);

export function withItLines(shown: readonly SharedShown[], world: World, width: number): readonly Line[] {
  if (shown.length === 0) return [];
  return [
    line(laid` ${told(world)('cited-with')}`, 'quiet'),
    ...shown.flatMap((each) => wrapLine(laid` · ${toldAs(each, world)}`, width, 'quiet', '   ')),
  ];
}

/** `Batch of the profile: PR-2601  (P01-1, 07:12, A. Weaver)`. */
function toldAs({ step, ask, answered, released, by, at, unit }: SharedShown, world: World): Spoken {
  const who = nameOf(by, world);
  const said = answered
    ? `: ${answerSays(step, answered, world)}`
    : released
      ? `: ${told(world)('cited-released')}`
      : '';
  return sanitize(
    `${withoutStop(told(world).retell(ask))}${said}  (${unit}, ${timeText(at, world.now)}, ${who})`,
  );
}
