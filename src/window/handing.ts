/** Handing: three fields in the job, one hinge side seen from outside in the program, one sentence in documents. */
import { type Problem, problemFactory } from '../base/problem.js';
import type { LightInput } from './jobschema.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { HingeSide, LightKind } from './types.js';

const raise = problemFactory(WINDOW_MESSAGES);

export interface Handing {
  readonly hinge?: HingeSide;
  readonly opensIn: boolean;
}

/** The hinge side as seen from outside. "Left from inside" is right from outside; top is top from both. */
export function handingOf(light: LightInput): Handing | Problem {
  const opensIn = light.opens === 'in';
  if (light.light === 'fixed') {
    if (light.hinge ?? light.opens ?? light.handle_at) return raise('job.handing');
    return { opensIn: false };
  }
  if (light.light === 'top-hung') {
    if (light.hinge !== undefined && light.hinge !== 'top')
      return raise('job.handing/top', { hinge: light.hinge });
    return { hinge: 'top', opensIn };
  }
  if (light.hinge === undefined || light.hinge === 'top') return raise('job.handing/side');
  if (light.viewed_from === undefined) return raise('job.handing/hinged', { hinge: light.hinge });
  if (light.opens === undefined) return raise('job.handing/side-hung');
  return { hinge: light.viewed_from === 'outside' ? light.hinge : flip(light.hinge), opensIn };
}

const flip = (hinge: 'left' | 'right'): 'left' | 'right' => (hinge === 'left' ? 'right' : 'left');

/** @param called what the set calls a light, where it is none of a window */
export function sentenceOf(
  kind: LightKind,
  hinge: HingeSide | undefined,
  opensIn = false,
  called = '',
): string {
  if (kind === 'fixed') return called || 'fixed light';
  const way = opensIn ? 'opens in' : 'opens out';
  const hung =
    kind === 'top-hung'
      ? `top-hung, hinged at the top, seen from outside, ${way}`
      : `hinged ${hinge}, seen from outside, ${way}`;
  return called === '' ? hung : `${called}, ${hung}`;
}

/** Seen from outside. */
export const handleSide = (hinge: HingeSide): 'left' | 'right' | 'bottom' =>
  hinge === 'top' ? 'bottom' : flip(hinge);
