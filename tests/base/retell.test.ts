/** Sentences that were kept in English, told in another language by the patterns of their catalogue. */
import { describe, expect, it } from 'vitest';
import { reteller } from '../../src/base/retell.js';
import { ENGLISH, Message, type Translations, teller, word } from '../../src/base/words.js';
import { CATALOGUES } from './catalogues.js';

const KEPT = {
  waits: word('{ $step } ({ $id }) comes first and is not done.', 'A note.', {
    step: 'Saw',
    id: 'frame.saw',
  }),
  over: word('mass over { $limit } kg', 'A note.', { limit: '20' }),
  why: word('{ $stay }: { $why }', 'A note.', { stay: 'ST-10', why: 'x' }),
  lines: word('{ $n } { $n ->\n  [one] line\n *[other] lines\n} are missing', 'A note.', { n: 2 }),
  none: word('Nothing is open.', 'A note.'),
  any: word('{ $fault }', 'A note.', { fault: 'x' }),
} as const;
const DE: Translations = {
  waits: 'Zuerst kommt { $step } ({ $id }); das ist nicht getan.',
  over: 'Masse über { $limit } kg',
  why: '{ $stay }: { $why }',
  lines: 'Es { $n ->\n  [one] fehlt eine Zeile\n *[other] fehlen { $n } Zeilen\n}',
  none: 'Nichts ist offen.',
  any: '{ $fault }',
};
const retell = reteller(
  KEPT,
  teller('de', (id) => DE[id]),
  (text) => (text === 'Saw the frame' ? 'Den Rahmen sägen' : undefined),
);

describe('what was written down in English', () => {
  it('is told in the language of the reader, with what it quotes', () => {
    expect(retell('Nothing is open.')).toBe('Nichts ist offen.');
    expect(retell('Saw the frame (frame.saw) comes first and is not done.')).toBe(
      'Zuerst kommt Den Rahmen sägen (frame.saw); das ist nicht getan.',
    );
    expect(retell('ST-10: mass over 20 kg; ST-12: mass over 24 kg')).toBe(
      'ST-10: Masse über 20 kg; ST-12: Masse über 24 kg',
    );
  });

  it('has its number', () => {
    expect(retell('1 line are missing')).toBe('Es fehlt eine Zeile');
    expect(retell('3 lines are missing')).toBe('Es fehlen 3 Zeilen');
  });

  it('stays as it was, where no catalogue knows it', () => {
    for (const text of ['', 'scratch on the sill', '{ $n }', 'a\nb', 'Saw', ', , ;'])
      expect(retell(text)).toBe(text);
  });
});

/** Every entry of every catalogue, with its example: told again in English it reads the same. */
describe.each(CATALOGUES)('$room', ({ catalogue }) => {
  const same = reteller(catalogue, ENGLISH);
  it.each(Object.keys(catalogue))('%s', (id) => {
    const said = ENGLISH(new Message(id, catalogue[id]!, catalogue[id]!.example));
    expect(same(said)).toBe(said);
  });
});
