import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { flush, type Key, SPLIT_START, split } from '../../src/tui/keys/split.js';

function keysOf(...chunks: (string | Uint8Array)[]): Key[] {
  let state = SPLIT_START;
  const keys: Key[] = [];
  for (const chunk of chunks) {
    const result = split(state, chunk);
    state = result.state;
    keys.push(...result.keys);
  }
  return keys;
}

const said = (keys: readonly Key[]): string => keys.map(({ name, text }) => text ?? `<${name}>`).join('');

describe('split', () => {
  it.each([
    ['a scan ended by Return', 'P02-1\r', 'P02-1<enter>'],
    ['Return and line feed are one key', 'A\r\nB\r\n', 'A<enter>B<enter>'],
    ['a line feed alone is Return', 'A\nB', 'A<enter>B'],
    ['two Returns', '\r\r', '<enter><enter>'],
    ['a held backspace', '\x7f\x7f\x7f', '<backspace><backspace><backspace>'],
    ['Ctrl+C inside a chunk', 'ab\x03cd', 'ab<ctrl+c>cd'],
    ['arrows', '\x1b[A\x1b[B\x1b[C\x1b[D', '<up><down><right><left>'],
    ['arrows of application mode', '\x1bOA\x1bOD', '<up><left>'],
    ['function keys', '\x1bOP\x1bOS\x1b[15~\x1b[24~', '<f1><f4><f5><f12>'],
    ["the Linux console's function keys", '\x1b[[A\x1b[[E', '<f1><f5>'],
    [
      'page, home, end, delete',
      '\x1b[5~\x1b[6~\x1b[H\x1b[F\x1b[1~\x1b[4~\x1b[3~',
      '<page-up><page-down><home><end><home><end><delete>',
    ],
    ['a key with a modifier is none of ours', '\x1b[1;5C', ''],
    ['a report is none of ours', '\x1b[<0;12;7M\x1b[?62;4c', ''],
    ['a scan begun right after Esc loses nothing', '\x1bP02-1\r', '<escape>P02-1<enter>'],
    ['Esc and an arrow', '\x1b\x1b[A', '<escape><up>'],
    ['a pasted text is text', '\x1b[200~P02\r\nx\x03\x1b[A\x1b[201~\r', 'P02  x<enter>'],
    ['letters outside ASCII', 'ąé', 'ąé'],
    ['nothing that hides or turns text round', 'a\u202eb\u200bc\u0085d', 'abcd'],
    ['a Tab', '12\t', '12<tab>'],
  ])('%s', (_what, sent, wanted) => {
    expect(said(keysOf(sent))).toBe(wanted);
    expect(said(keysOf(Buffer.from(sent)))).toBe(wanted);
  });

  it('gives a lone Esc only when the line has gone quiet', () => {
    const first = split(SPLIT_START, '\x1b');
    expect(first.keys).toEqual([]);
    const quiet = flush(first.state);
    expect(said(quiet.keys)).toBe('<escape>');
    expect(flush(quiet.state).keys).toEqual([]);
  });

  it('swallows the rest of a sequence whose Esc was flushed, instead of typing it', () => {
    const quiet = flush(split(SPLIT_START, '\x1b').state);
    expect(said(split(quiet.state, '[C12\r').keys)).toBe('12<enter>');
    expect(said(split(quiet.state, '12\r').keys)).toBe('12<enter>');
  });

  it('drops a torn sequence that never ended, and takes what follows as it is', () => {
    const quiet = flush(split(SPLIT_START, '\x1b[1;').state);
    expect(said(split(quiet.state, '1221.5\r').keys)).toBe('1221.5<enter>');
  });

  const pieces = fc.constantFrom(
    '\x1b',
    '[',
    'O',
    'A',
    'C',
    '~',
    '1',
    '5',
    ';',
    '2',
    '0',
    '\x1b[200~',
    '\x1b[201~',
    '\r',
    '\n',
    '\t',
    '\x7f',
    '\x03',
    'ą',
    '€',
    '🙂',
    'P',
    '.',
    ' ',
  );

  it('gives the same keys however the bytes are cut', () => {
    fc.assert(
      fc.property(
        fc.array(pieces, { maxLength: 40 }),
        fc.array(fc.nat(), { maxLength: 12 }),
        (parts, cuts) => {
          const bytes = Buffer.from(parts.join(''));
          const places = [...new Set(cuts.map((cut) => (bytes.length === 0 ? 0 : cut % bytes.length)))].sort(
            (a, b) => a - b,
          );
          const chunks = [0, ...places].map((from, index) =>
            bytes.subarray(from, places[index] ?? bytes.length),
          );
          expect(keysOf(...chunks)).toEqual(keysOf(bytes));
          expect(keysOf(...[...bytes].map((byte) => Uint8Array.of(byte)))).toEqual(keysOf(bytes));
        },
      ),
      { seed: 20261125, numRuns: 2000 },
    );
  });

  it('never gives a key that is more than one character, whatever bytes come', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        for (const { name, text } of keysOf(bytes)) {
          if (name === 'char') expect([...text!].length).toBe(1);
          else expect(text).toBeUndefined();
        }
      }),
      { seed: 7, numRuns: 1000 },
    );
  });
});
