/**
 * Splits terminal input into keys. Pure: state in, state out, so the same bytes give the same keys however chunked. No
 * timing heuristics: a lone Esc waits until the caller reports through `flush` that no more input followed.
 */

/** `text` is set only for `char`: one visible character. */
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
  /** An incomplete escape sequence, starting with its Esc. */
  readonly pending: string;
  /** The last character was CR; an LF right after it is the same key. */
  readonly afterReturn: boolean;
  /** Inside a bracketed paste: line ends and controls are text, not keys. */
  readonly pasting: boolean;
  /** An Esc was flushed as a key; a `[` right after it continues a sequence split by a slow line and is not text. */
  readonly afterEscape: boolean;
  /** First bytes of an incomplete UTF-8 character. */
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

/** Splits one chunk of UTF-8 bytes; a character cut between chunks is reassembled. */
export function split(state: SplitState, chunk: string | Uint8Array): Split {
  const { text, bytes } = typeof chunk === 'string' ? { text: chunk, bytes: [] } : decode(state.bytes, chunk);
  const keys: Key[] = [];
  let now: SplitState = { ...state, bytes };
  for (const character of text) now = step(now, character, keys);
  return { state: now, keys };
}

/** Call when no more input followed: a lone Esc becomes the Escape key, an incomplete sequence is dropped. */
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
/** Longer than the sequence of any key; drop as noise. */
const LONGEST = 32;
/** Marks a sequence resumed after its Esc was flushed. It is swallowed, since that Escape has already been acted on. */
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
/** The Linux console's F1 to F5: Esc [ [ A to E. */
const CONSOLE: Readonly<Record<string, KeyName>> = { A: 'f1', B: 'f2', C: 'f3', D: 'f4', E: 'f5' };

function step(state: SplitState, character: string, keys: Key[]): SplitState {
  if (state.pending !== '') return inSequence(state, character, keys);
  const clear = { ...state, afterReturn: false, afterEscape: false };
  if (character === ESC) return { ...clear, pending: ESC };
  if (state.afterEscape && character === '[') return { ...clear, pending: `${RESUMED}[` };
  if (state.pasting) return pasted(clear, character, keys);
  return single(state, clear, character, keys);
}

/** Handles a character within an escape sequence. One that cannot belong to it ends it and is handled on its own. */
function inSequence(state: SplitState, character: string, keys: Key[]): SplitState {
  const { pending } = state;
  const ended = { ...state, pending: '' };
  if (pending === ESC) {
    if (character === '[' || character === 'O') return { ...state, pending: pending + character };
    // No Alt keys: Esc and the character after it are two keys, so that a scan begun right after Esc loses nothing.
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

/** Sequences with modifiers, reports and replies map to no key. */
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
  else if (isVisible(character) || character === '\u001d') keys.push({ name: 'char', text: character });
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
  // The separator inside a GS1 code: a scanner sends it as Ctrl+].
  else if (code === 0x1d) keys.push({ name: 'char', text: character });
  else if (code >= 1 && code <= 26) keys.push({ name: `ctrl+${String.fromCharCode(96 + code)}` });
  else if (isVisible(character)) keys.push({ name: 'char', text: character });
  return state;
}

/** A character allowed on the entry line: no controls, nothing that hides or reverses text. */
function isVisible(character: string): boolean {
  return character !== '\ufffd' && !/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u.test(character);
}

/** Decodes UTF-8, holding back an incomplete character. Invalid bytes become U+FFFD, which is no key. */
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

/** Number of trailing bytes that begin an incomplete character. */
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

/** Reads keys from one terminal, keeping incomplete input between chunks. */
export class KeyReader {
  #state = SPLIT_START;

  feed(chunk: string | Uint8Array): readonly Key[] {
    return this.#taken(split(this.#state, chunk));
  }

  quiet(): readonly Key[] {
    return this.#taken(flush(this.#state));
  }

  waits(): boolean {
    return this.#state.pending !== '';
  }

  #taken({ state, keys }: Split): readonly Key[] {
    this.#state = state;
    return keys;
  }
}
