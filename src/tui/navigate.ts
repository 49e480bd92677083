import type { Spoken } from '../base/words.js';
import type { Effect, Update } from './protocol.js';
import { type BenchState, type FormRequest, type Note, type Screen, type ScreenName, TOP } from './state.js';

export const stay = (state: BenchState, ...effects: readonly Effect[]): Update => ({ state, effects });

export function say(state: BenchState, tone: Note['tone'], text: Spoken, todo?: Spoken): BenchState {
  return { ...state, note: { tone, text, ...(todo === undefined ? {} : { todo }) } };
}

export function withoutNote(state: BenchState): BenchState {
  const { note: _gone, ...rest } = state;
  return rest;
}

/** Opens a screen on top of the current one. If it is already on the stack, goes back to it instead. */
export function show(state: BenchState, screen: Screen): BenchState {
  const without = [...state.back, state.screen];
  const before = without.findIndex(({ name }) => name === screen.name);
  const back = before === -1 ? without : without.slice(0, before);
  return { ...state, screen, back };
}

export type PlainScreen = Exclude<ScreenName, 'form' | 'question' | 'release' | 'lists' | 'figures'>;

export const showPlain = (state: BenchState, name: PlainScreen, at = 0): BenchState =>
  show(state, { name, cursor: { at, moved: false } });

export const showForm = (state: BenchState, form: FormRequest): BenchState =>
  show(withoutNote(state), { name: 'form', form, given: {}, cursor: TOP });

/** Goes back one screen, or to the units if there is none. */
export function goBack(state: BenchState): BenchState {
  const back = state.back.slice(0, -1);
  const screen = state.back.at(-1) ?? { name: 'units', cursor: TOP };
  return { ...state, screen, back };
}

/** The work screen of the open unit, with the units behind it. */
export function toStep(state: BenchState): BenchState {
  return { ...state, screen: { name: 'step', cursor: TOP }, back: [{ name: 'units', cursor: TOP }] };
}

export function withCursor(state: BenchState, at: number): BenchState {
  return { ...state, screen: { ...state.screen, cursor: { at, moved: true } } };
}

export const emptied = (state: BenchState): BenchState => ({ ...state, entry: '' });

/** Keeps an answer on the entry line until it has been written; one refused at once is cleared. */
export const keptOnLine = ({ entry }: BenchState, update: Update): Update =>
  update.effects.length > 0 ? { ...update, state: { ...update.state, entry } } : update;
