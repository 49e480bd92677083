/** The note, the entry line and the keys: the bottom of every screen. */

import { plain } from '../../ground/plain.js';
import { currentField, wantsPin } from '../forms/fields.js';
import { footerOf, keyText } from '../keys/table.js';
import type { World } from '../ports.js';
import type { BenchState } from '../state.js';
import type { Theme } from '../theme.js';
import { crop, type Line, line, lineWidth, widthOf } from './line.js';

export function noteLines({ note }: BenchState, width: number): readonly Line[] {
  if (!note) return [[], []];
  return [
    crop([{ text: ` ${plain(note.text)}`, tone: note.tone }], width),
    note.todo === undefined ? [] : crop([{ text: ` ${plain(note.todo)}` }], width),
  ];
}

/** The entry line, with the place of the cursor on it. The end of a long entry is what is seen. */
export function entryLine(
  state: BenchState,
  world: World,
  width: number,
): { readonly line: Line; readonly cursor: number } {
  const shown = isHidden(state, world) ? '*'.repeat([...state.entry].length) : plain(state.entry);
  const room = width - 4;
  let tail = shown;
  while (widthOf(tail) > room) tail = [...tail].slice(1).join('');
  return { line: [{ text: ' > ' }, { text: tail, tone: 'strong' }], cursor: 3 + widthOf(tail) };
}

export function footerLine(state: BenchState, width: number, theme: Theme): Line {
  const arrows: Record<string, string> = theme.ascii ? {} : { right: '→', left: '←' };
  const out: Line = footerOf(state.screen.name).reduce<Line>((spans, { id, keys, short }) => {
    const key = keys[0]!;
    const words = id === 'act' && state.screen.name !== 'step' ? 'choose' : short;
    const next: Line = [
      ...spans,
      { text: '  ' },
      { text: arrows[key] ?? keyText(key), tone: 'strong' },
      { text: ` ${words}` },
    ];
    return lineWidth(next) > width ? spans : next;
  }, []);
  return out.length === 0 ? line('') : out.slice(1).length > 0 ? [{ text: ' ' }, ...out.slice(1)] : out;
}

/** PINs are not shown: on a form's hidden question, and on a hold where the person has one. */
function isHidden(state: BenchState, world: World): boolean {
  if (state.screen.name === 'form') return currentField(state.screen, state, world)?.hidden === true;
  return state.screen.name === 'release' && wantsPin(state, world);
}
