/** The keystrokes that perform an action, for the unattended demonstration and for tests in a real terminal. */
import type { CheckKind } from '../procedure/types.js';
import type { Action } from '../unit/actions.js';
import { SQUARE_ORDER } from '../unit/sets.js';

const ENTER = '\r';
/** Starts with Backspace on the empty line: two arrows with no key between them count as one held down. */
const RIGHT = '\u007f\u001b[C';
const LEFT = '\u007f\u001b[D';
const UP = '\u001b[A';
const F8 = '\u001b[19~';
const RELEASE = `\u007f${F8}`;
const OVERVIEW = '\u000f';
const PARK = '\u0002';
const PUT_RIGHT = '\u007f\u001a';

/** The chunks to send; `kind` is the check's, `hold`: its readings are on the screen already. Undefined for forms with lists, which are filled in by hand. */
export function keysFor(
  action: Action,
  kind?: CheckKind,
  at: { readonly hold?: boolean } = {},
): readonly string[] | undefined {
  switch (action.do) {
    case 'person':
      return [action.person + ENTER];
    case 'instrument':
      return [action.instrument + ENTER];
    case 'answer':
      return [...answerKeys(action.value, kind), ...pictureKeys(action.evidence)];
    case 'look':
      return [RIGHT, ...pictureKeys(action.evidence)];
    case 'cite':
      return [RIGHT];
    case 'read':
      return [action.value + ENTER];
    case 'release':
      return [
        ...(at.hold ? [] : [RELEASE]),
        `\u007f${action.pin ?? ''}${F8}`,
        ...(action.evidence?.[0] === undefined ? [] : [action.evidence[0] + ENTER, RELEASE]),
      ];
    case 'override':
      // The order check's problems come first in the overview's list.
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
    return (kind === 'square' ? SQUARE_ORDER : Object.keys(value)).map(
      (key) => [value[key] ?? ''].flat()[0] + ENTER,
    );
  if (kind === 'tick' || kind === 'go-no-go') return [value === 'no' ? LEFT : RIGHT];
  return [value + ENTER];
}

/** The newest picture of the inbox is offered, and one key takes it; another is named by its path. */
const pictureKeys = (files: readonly string[] | undefined): readonly string[] => {
  const file = files?.[0];
  if (file === undefined) return [];
  return /(^|\/)inbox\/[^/]+$/.test(file) ? [RIGHT] : [file + ENTER];
};
