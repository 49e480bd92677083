/** Lots of material: what is scanned, and when it ran out. */
import type { RouteCheck } from '../../procedure/types.js';
import type { Answer } from '../events.js';
import type { Decision } from '../types.js';
import { type Deed, refused } from './deed.js';

export interface Lot {
  readonly material: string;
  readonly code: string;
  readonly expires?: string;
}

const DATE = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/;

/** The lot that an answer names, where its check asks for one. An expired or snagged lot stops the step. */
export function lotOf(
  check: RouteCheck,
  answer: Answer,
  expires: string | undefined,
  { state, around }: Deed,
): { readonly lot?: Lot } | { readonly refusal: Decision } {
  if (check.lot === undefined || answer.kind !== 'text') return {};
  const material = check.lot;
  const code = answer.text;
  const known = around.lots?.find((lot) => lot.material === material && lot.code === code);
  const until = expires ?? known?.expires;
  if (until !== undefined && !(DATE.test(until) && !Number.isNaN(Date.parse(until))))
    return { refusal: refused('build.lot-expiry-bad', `"${until}" is no date.`) };
  if (until !== undefined && until < around.now.slice(0, 10))
    return { refusal: refused('build.lot-expired', `Lot ${code} (${material}) expired on ${until}.`) };
  const snag = state.snags.find(({ open, raised }) => open && raised.touches.lot === code);
  if (snag || around.snagged?.lots.includes(code))
    return {
      refusal: refused(
        'build.lot-snagged',
        `An open snag${snag ? ` (${snag.n})` : ''} touches lot ${code} (${material}).`,
      ),
    };
  return { lot: { material, code, ...(until === undefined ? {} : { expires: until }) } };
}
