/** The practice screen's state: what was said, what stands in the entry line, and how far back it is scrolled. Pure. */
import type { Key } from '../keys/split.js';

export interface TalkState {
  /** Everything said so far, one line each; typed lines begin with "> ". */
  readonly said: readonly string[];
  readonly entry: string;
  /** Lines scrolled back from the end. */
  readonly back: number;
  readonly over: boolean;
  /** Esc was pressed once: the second one leaves. */
  readonly leaving: boolean;
  readonly left: boolean;
}

export const talkStart = (opening: readonly string[], over = false): TalkState => ({
  said: opening.flatMap((text) => text.split('\n')),
  entry: '',
  back: 0,
  over,
  leaving: false,
  left: false,
});

const LONGEST = 200;

/** One key. A typed line, when Enter ends it, comes back beside the state; nothing is decided here. */
export function talkKey(
  state: TalkState,
  key: Key,
  page: number,
): { readonly state: TalkState; readonly typed?: string } {
  const calm = { ...state, leaving: false };
  switch (key.name) {
    case 'char':
      return state.over || state.entry.length >= LONGEST
        ? { state: calm }
        : { state: { ...calm, entry: state.entry + (key.text ?? ''), back: 0 } };
    case 'backspace':
    case 'delete':
      return { state: { ...calm, entry: [...state.entry].slice(0, -1).join('') } };
    case 'enter': {
      if (state.over) return { state: { ...calm, left: true } };
      const typed = state.entry.trim();
      if (typed === '') return { state: calm };
      return { state: { ...calm, entry: '', back: 0, said: [...state.said, `> ${typed}`] }, typed };
    }
    case 'page-up':
      return { state: { ...calm, back: Math.min(Math.max(0, state.said.length - 1), state.back + page) } };
    case 'page-down':
      return { state: { ...calm, back: Math.max(0, state.back - page) } };
    case 'escape':
      if (state.entry !== '') return { state: { ...calm, entry: '' } };
      return state.leaving || state.over
        ? { state: { ...state, left: true } }
        : { state: { ...state, leaving: true } };
    case 'ctrl+c':
    case 'ctrl+d':
      return { state: { ...state, left: true } };
    default:
      return { state: calm };
  }
}

/** What came back for a typed line. */
export const talkSaid = (state: TalkState, says: readonly string[], over: boolean): TalkState => ({
  ...state,
  said: [...state.said, ...says.flatMap((text) => text.split('\n'))],
  over,
});
