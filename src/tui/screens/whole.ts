/** What the work screen may have had to crop, told whole: the caution, what the check asks, every limit, and each instruction. */
import { plain } from '../../base/text.js';
import { bandFor, boundsText, type Limit } from '../../measure/limits.js';
import type { RouteCheck, RouteStep } from '../../procedure/types.js';
import type { World } from '../../session/ports.js';
import { BLANK, type Line, wrap } from '../parts/line.js';

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
