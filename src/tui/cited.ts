/** What units share: at a shared step, all that stands and Right takes over; elsewhere, what is cited with the answer. */
import { sanitize } from '../base/text.js';
import { isShared } from '../procedure/rhythm.js';
import type { World } from '../session/ports.js';
import { isSharedStep } from '../unit/handlers/cite.js';
import { timeText } from '../unit/timers.js';
import type { SharedShown, StepState } from '../unit/types.js';
import { type Line, line, wrapLine } from './parts/line.js';
import type { BenchState } from './state.js';
import { answerText, withoutStop } from './theme.js';

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

const STANDS = 'This stands already for the order, the lots and the shift:';

export function citeLines(shown: readonly SharedShown[], world: World, width: number): readonly Line[] {
  return [
    ...wrapLine(` ${STANDS}`, width, 'strong', ' '),
    ...shown.flatMap((each) => wrapLine(` · ${toldAs(each, world)}`, width, 'plain', '   ')),
    ...wrapLine(' Another lot is scanned or typed. Left asks this step anew.', width, 'quiet', ' '),
  ];
}

export function withItLines(shown: readonly SharedShown[], world: World, width: number): readonly Line[] {
  if (shown.length === 0) return [];
  return [
    line(' Cited with your answer:', 'quiet'),
    ...shown.flatMap((each) => wrapLine(` · ${toldAs(each, world)}`, width, 'quiet', '   ')),
  ];
}

/** `Batch of the profile: PR-2601  (P01-1, 07:12, A. Weaver)`. */
function toldAs({ ask, answered, released, by, at, unit }: SharedShown, { rules, now }: World): string {
  const who = rules.people.find(({ id }) => id === by)?.name ?? by;
  const said = answered ? `: ${answered.lot?.code ?? answerText(answered)}` : released ? ': released' : '';
  return sanitize(`${withoutStop(ask)}${said}  (${unit}, ${timeText(at, now)}, ${who})`);
}
