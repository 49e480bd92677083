/**
 * Splits what a terminal sends into single keys. Pure: the state between chunks goes in and comes out, so that any way of
 * cutting the same bytes into chunks gives the same keys. Nothing here guesses by time: a lone Esc waits until its owner
 * says by `flush` that the line has gone quiet.
 */

/** One key. `text` is set for `char` alone: one visible character. */
export interface Key {
  readonly name: KeyName;
  readonly text?: string;
}

export type KeyName =
  | 'char'
  | 'enter'
  | 'tab'
  | 'backtab'
  | 'backspace'
  | 'delete'
  | 'insert'
  | 'escape'
  | 'up'
  | 'down'
  | 'left'
  | 'right'
  | 'home'
  | 'end'
  | 'page-up'
  | 'page-down'
  | `f${number}`
  | `ctrl+${string}`;

export interface SplitState {
  /** An escape sequence of which more may come, from its Esc on. */
  readonly pending: string;
  /** The last character was CR, so an LF now is the same key. */
  readonly afterReturn: boolean;
  /** Inside a bracketed paste: line ends and controls are text, not keys. */
  readonly pasting: boolean;
  /** An Esc was flushed as a key; a `[` now is the rest of a sequence torn by a slow line, not text. */
  readonly afterEscape: boolean;
  /** First bytes of a UTF-8 character of which the rest is to come. */
  readonly bytes: readonly number[];
}

export const SPLIT_START: SplitState = {
  pending: '',
  afterReturn: false,
  pasting: false,
  afterEscape: false,
  bytes: [],
};

export interface Split {
  readonly state: SplitState;
  readonly keys: readonly Key[];
}

/** Splits one chunk. Bytes are UTF-8; a character torn between chunks is put together. */
export function split(state: SplitState, chunk: string | Uint8Array): Split {
  const { text, bytes } = typeof chunk === 'string' ? { text: chunk, bytes: [] } : decode(state.bytes, chunk);
  const keys: Key[] = [];
  let now: SplitState = { ...state, bytes };
  for (const character of text) now = step(now, character, keys);
  return { state: now, keys };
}

/** The line has gone quiet: what was waiting is ended. A lone Esc becomes the Escape key; a torn sequence is dropped. */
export function flush(state: SplitState): Split {
  const { pending } = state;
  if (pending === '') return { state, keys: [] };
  const ended = { ...state, pending: '' };
  if (pending === ESC)
    return state.pasting
      ? { state: ended, keys: [] }
      : { state: { ...ended, afterEscape: true }, keys: [{ name: 'escape' }] };
  if (pending === `${ESC}O`) return { state: ended, keys: [{ name: 'escape' }, { name: 'char', text: 'O' }] };
  return { state: ended, keys: [] };
}

const ESC = '\u001b';
/** A sequence longer than any key's is noise. */
const LONGEST = 32;
/** Sequence resumed after its Esc had been flushed: it is swallowed, since its Escape has already been acted on. */
const RESUMED = '\u0000';

const FINALS: Readonly<Record<string, KeyName>> = {
  A: 'up',
  B: 'down',
  C: 'right',
  D: 'left',
  H: 'home',
  F: 'end',
  P: 'f1',
  Q: 'f2',
  R: 'f3',
  S: 'f4',
};
const TILDES: Readonly<Record<string, KeyName>> = {
  1: 'home',
  2: 'insert',
  3: 'delete',
  4: 'end',
  5: 'page-up',
  6: 'page-down',
  7: 'home',
  8: 'end',
  11: 'f1',
  12: 'f2',
  13: 'f3',
  14: 'f4',
  15: 'f5',
  17: 'f6',
  18: 'f7',
  19: 'f8',
  20: 'f9',
  21: 'f10',
  23: 'f11',
  24: 'f12',
};
/** The Linux console's own F1 to F5: Esc [ [ A to E. */
const CONSOLE: Readonly<Record<string, KeyName>> = { A: 'f1', B: 'f2', C: 'f3', D: 'f4', E: 'f5' };

function step(state: SplitState, character: string, keys: Key[]): SplitState {
  if (state.pending !== '') return inSequence(state, character, keys);
  const clear = { ...state, afterReturn: false, afterEscape: false };
  if (character === ESC) return { ...clear, pending: ESC };
  if (state.afterEscape && character === '[') return { ...clear, pending: `${RESUMED}[` };
  if (state.pasting) return pasted(clear, character, keys);
  return single(state, clear, character, keys);
}

/** Within an escape sequence. What cannot belong to it ends it, and is taken as what it is by itself. */
function inSequence(state: SplitState, character: string, keys: Key[]): SplitState {
  const { pending } = state;
  const ended = { ...state, pending: '' };
  if (pending === ESC) {
    if (character === '[' || character === 'O') return { ...state, pending: pending + character };
    // No Alt keys: Esc and whatever follows it are two keys, so that a scan begun right after Esc loses nothing.
    if (!state.pasting) keys.push({ name: 'escape' });
    return step(ended, character, keys);
  }
  if (pending === `${ESC}O`) {
    const name = FINALS[character];
    if (name !== undefined) return emit(ended, name, keys);
    if (!state.pasting) keys.push({ name: 'escape' });
    return step(step(ended, 'O', keys), character, keys);
  }
  const resumed = pending.startsWith(RESUMED);
  const body = pending.slice(2);
  if (body === '[') return emit(ended, resumed ? undefined : CONSOLE[character], keys);
  if (body === '' && character === '[') return { ...state, pending: `${pending}[` };
  if (/^[0-9;:<=>?]$/.test(character) || /^[ -/]$/.test(character))
    return pending.length < LONGEST ? { ...state, pending: pending + character } : ended;
  if (/^[@-~]$/.test(character)) {
    if (character === '~' && body === '200') return { ...ended, pasting: true };
    if (character === '~' && body === '201') return { ...ended, pasting: false };
    return emit(ended, resumed ? undefined : sequenceName(body, character), keys);
  }
  return step(ended, character, keys);
}

/** Sequences with modifiers, reports and replies are none of our keys. */
function sequenceName(body: string, final: string): KeyName | undefined {
  if (final === '~') return TILDES[body];
  if (body !== '') return undefined;
  return final === 'Z' ? 'backtab' : FINALS[final];
}

function emit(state: SplitState, name: KeyName | undefined, keys: Key[]): SplitState {
  if (name !== undefined && !state.pasting) keys.push({ name });
  return state;
}

function pasted(state: SplitState, character: string, keys: Key[]): SplitState {
  if (/[\r\n\t]/.test(character)) keys.push({ name: 'char', text: ' ' });
  else if (isVisible(character)) keys.push({ name: 'char', text: character });
  return state;
}

function single(before: SplitState, state: SplitState, character: string, keys: Key[]): SplitState {
  const code = character.codePointAt(0)!;
  if (character === '\r') {
    keys.push({ name: 'enter' });
    return { ...state, afterReturn: true };
  }
  if (character === '\n') {
    if (!before.afterReturn) keys.push({ name: 'enter' });
  } else if (character === '\t') keys.push({ name: 'tab' });
  else if (code === 0x7f || code === 0x08) keys.push({ name: 'backspace' });
  else if (code >= 1 && code <= 26) keys.push({ name: `ctrl+${String.fromCharCode(96 + code)}` });
  else if (isVisible(character)) keys.push({ name: 'char', text: character });
  return state;
}

/** A character that may stand on the entry line: no controls, nothing that hides or turns text round. */
function isVisible(character: string): boolean {
  return character !== '\ufffd' && !/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u.test(character);
}

/** UTF-8 to text, keeping back a character that is not complete. Broken bytes become U+FFFD, which is no key. */
function decode(
  held: readonly number[],
  chunk: Uint8Array,
): { readonly text: string; readonly bytes: readonly number[] } {
  const all = held.length === 0 ? chunk : Uint8Array.from([...held, ...chunk]);
  const whole = all.length - unfinished(all);
  return {
    text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(all.subarray(0, whole)),
    bytes: [...all.subarray(whole)],
  };
}

/** How many bytes at the end begin a character whose rest has not come. */
function unfinished(bytes: Uint8Array): number {
  for (let back = 1; back <= Math.min(3, bytes.length); back += 1) {
    const byte = bytes[bytes.length - back]!;
    if (byte < 0x80) return 0;
    if (byte >= 0xc0) {
      const needs = byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2;
      return needs > back ? back : 0;
    }
  }
  return 0;
}

/** Keys out of what one terminal sends, with what is unfinished kept between two chunks. */
export class KeyReader {
  #state = SPLIT_START;

  /** What the terminal sent. */
  feed(chunk: string | Uint8Array): readonly Key[] {
    return this.#taken(split(this.#state, chunk));
  }

  /** The line has gone quiet after an unfinished sequence. */
  quiet(): readonly Key[] {
    return this.#taken(flush(this.#state));
  }

  /** Whether `quiet` is wanted. */
  waits(): boolean {
    return this.#state.pending !== '';
  }

  #taken({ state, keys }: Split): readonly Key[] {
    this.#state = state;
    return keys;
  }
}
