/** The keys by which an action is done at the bench: for the unattended demonstration, and for tests in a real terminal. */
import type { SquareKey } from '../measure/types.js';
import type { CheckKind } from '../procedure/types.js';
import type { Action } from '../unit/actions.js';
import { SQUARE_ORDER } from './currenttask.js';

const ENTER = '\r';
/** Backspace on the empty line first: without another key between them, two arrows at once count as one held down. */
const RIGHT = '\u007f\u001b[C';
const LEFT = '\u007f\u001b[D';
const UP = '\u001b[A';
const F8 = '\u001b[19~';
const RELEASE = `\u007f${F8}`;
const OVERVIEW = '\u000f';
const PARK = '\u0002';
const PUT_RIGHT = '\u007f\u001a';

/**
 * What to send, one chunk after the other; `kind` is that of the check an answer is for. Undefined where the bench has no
 * such short way (forms with lists, which are filled by hand).
 */
export function keysFor(action: Action, kind?: CheckKind): readonly string[] | undefined {
  switch (action.do) {
    case 'person':
      return [action.person + ENTER];
    case 'instrument':
      return [action.instrument + ENTER];
    case 'answer':
      return [...answerKeys(action.value, kind), ...fileKeys(action.evidence, RIGHT)];
    case 'read':
      return [action.value + ENTER];
    case 'release':
      return [RELEASE, `\u007f${action.pin ?? ''}${F8}`, ...fileKeys(action.evidence, RELEASE)];
    case 'override':
      // The order check's problems stand first in the overview's list.
      return [
        OVERVIEW,
        UP + ENTER,
        action.reason + ENTER,
        ...(action.pin === undefined ? [] : [action.pin + ENTER]),
        RIGHT,
      ];
    case 'undo':
      return [PUT_RIGHT, action.reason + ENTER, RIGHT];
    case 'resume':
      return [PARK];
    case 'park':
      return [PARK, action.reason + ENTER, RIGHT];
    default:
      return undefined;
  }
}

function answerKeys(
  value: Extract<Action, { do: 'answer' }>['value'],
  kind: CheckKind | undefined,
): readonly string[] {
  if (typeof value !== 'string')
    return SQUARE_ORDER.map((key: SquareKey) => [value[key] ?? ''].flat()[0] + ENTER);
  if (kind === 'tick' || kind === 'go-no-go') return [value === 'no' ? LEFT : RIGHT];
  return [value + ENTER];
}

/** A file asked for after the answer: its path, then the key that writes. */
const fileKeys = (files: readonly string[] | undefined, then: string): readonly string[] =>
  files?.[0] === undefined ? [] : [files[0] + ENTER, then];
