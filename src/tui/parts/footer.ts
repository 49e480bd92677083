/** The note, the entry line and the keys: the bottom of every screen. */

import widthOf from 'string-width';
import { plain } from '../../base/text.js';
import type { World } from '../../session/ports.js';
import { type Command, footerOf, keyText, type WordedKey } from '../keys/table.js';
import { answerKeys, hidesEntry } from '../screens/screens.js';
import type { BenchState, Tone } from '../state.js';
import { shape, type Theme } from '../theme.js';
import { crop, type Line, lineWidth, type Span } from './line.js';

export function noteLines({ note }: BenchState, width: number, theme: Theme): readonly Line[] {
  if (!note) return [[], []];
  return [
    crop(
      [
        {
          text: ` ${SIGNS[note.tone] ? `${shape(SIGNS[note.tone]!, theme)} ` : ''}${plain(note.text)}`,
          tone: note.tone,
        },
      ],
      width,
    ),
    note.todo === undefined ? [] : crop([{ text: ` ${plain(note.todo)}` }], width),
  ];
}

/** A shape goes with each colour. */
const SIGNS: Partial<Record<Tone, string>> = { good: 'v', bad: 'X', ask: '!' };

/** The entry line, with the place of the cursor on it. The end of a long entry is what is seen. */
export function entryLine(
  state: BenchState,
  world: World,
  width: number,
): { readonly line: Line; readonly cursor: number } {
  const shown = hidesEntry(state, world) ? '*'.repeat([...state.entry].length) : plain(state.entry);
  const room = width - 4;
  let tail = shown;
  while (widthOf(tail) > room) tail = [...tail].slice(1).join('');
  return { line: [{ text: ' > ' }, { text: tail, tone: 'strong' }], cursor: 3 + widthOf(tail) };
}

export function footerLine(state: BenchState, world: World, width: number, theme: Theme): Line {
  const arrows: Record<string, string> = theme.ascii ? {} : { right: '→', left: '←', up: '↑', down: '↓' };
  const spans: Span[] = [];
  let used = 0;
  const keys = [...answerKeys(state, world), ...footerOf(state.screen.name).map(wordedKey)];
  for (const { key, words } of keys) {
    const next: Line = [
      { text: spans.length === 0 ? ' ' : '  ' },
      { text: arrows[key] ?? keyText(key), tone: 'strong' },
      { text: ` ${words}` },
    ];
    // What does not fit is left off; the help page has it all.
    if (used + lineWidth(next) > width) break;
    spans.push(...next);
    used += lineWidth(next);
  }
  return spans;
}

const wordedKey = ({ id, keys, short }: Command): WordedKey => ({
  key: keys[0]!,
  words: id === 'act' ? 'choose' : short,
});
