/**
 * What hands would press: an action of the driver as the keys that ask for it at the bench. The unattended
 * demonstration builds through these, so it goes through the same splitter, reducer, decision and journal as a person.
 */
import type { Action } from '../build/actions.js';
import { SQUARE_ORDER } from './stand.js';

const RIGHT = '\u001b[C';
const LEFT = '\u001b[D';
const ENTER = '\r';
const F8 = '\u001b[19~';

/** Chunks to send, in order; undefined for actions that the driver never asks of a bench. `kind` is the asked check's. */
export function keysFor(action: Action, kind: string | undefined): readonly string[] | undefined {
  switch (action.do) {
    case 'person':
      return [action.person + ENTER];
    case 'instrument':
      return [action.instrument + ENTER];
    case 'release':
      // The first press shows the hold, the second releases it; a file that is asked for is named in between.
      return [
        F8,
        `${action.pin ?? ''}${F8}`,
        ...(action.evidence ?? []).flatMap((file) => [file + ENTER, F8]),
      ];
    case 'answer': {
      const { value, evidence = [] } = action;
      const file = evidence.flatMap((name) => [name + ENTER, RIGHT]);
      if (typeof value !== 'string')
        return [...SQUARE_ORDER.map((key) => `${[value[key]].flat()[0] ?? ''}${ENTER}`), ...file];
      if (kind === 'tick' || kind === 'go-no-go') return [value === 'no' ? LEFT : RIGHT, ...file];
      return [value + ENTER, ...file];
    }
    default:
      return undefined;
  }
}
