import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { JournalEvent } from '../../src/unit/events.js';
import { rig } from './support.js';

const bare = (events: readonly JournalEvent[]) => events.map(({ at: _at, ...rest }) => rest);

/** What terminals, scanners and callipers send, mixed with what they should not. */
const sent = fc.constantFrom(
  'P01-1\r',
  'p02-1\r',
  'IV\r',
  'TO\r',
  'NP\r',
  'T2\r',
  'C1\r',
  '1000\r',
  '1000,5\t',
  '1221\r',
  '12.3',
  '4\r',
  'LOT-9\r',
  '4711',
  '\r',
  '\r\n',
  '\t',
  ' ',
  'x',
  '\x7f',
  '\x1b',
  '\x1b[A',
  '\x1b[B',
  '\x1b[C',
  '\x1b[D',
  '\x1bOP',
  '\x1bOQ',
  '\x1bOR',
  '\x1b[15~',
  '\x1b[17~',
  '\x1b[18~',
  '\x1b[19~',
  '\x1b[20~',
  '\x1b[21~',
  '\x02',
  '\x05',
  '\x19',
  '\x1a',
  '\x1b[5~',
  '\x1b[6~',
  '\x1b[200~P02-2\r\n\x1b[201~',
);

describe('any keys', () => {
  it('leave the same state and the same journal however they are cut into chunks', () => {
    fc.assert(
      fc.property(fc.array(sent, { maxLength: 60 }), fc.array(fc.nat(), { maxLength: 20 }), (parts, cuts) => {
        const bytes = Buffer.from(`P01-1\rIV\rT2\r${parts.join('')}`);
        const whole = rig();
        whole.core.feed(bytes);
        const single = rig();
        for (const byte of bytes) single.core.feed(Uint8Array.of(byte));
        const cut = rig();
        const places = [...new Set(cuts.map((each) => each % bytes.length))].sort((a, b) => a - b);
        for (const [index, from] of [0, ...places].entries())
          cut.core.feed(bytes.subarray(from, places[index] ?? bytes.length));
        for (const other of [single, cut]) {
          expect(other.core.state()).toEqual(whole.core.state());
          for (const unit of ['P01-1', 'P02-1', 'P02-2'])
            expect(bare(other.events(unit))).toEqual(bare(whole.events(unit)));
        }
      }),
      { seed: 31, numRuns: 150 },
    );
  });

  it('never write what was not asked, seen and signed', () => {
    fc.assert(
      fc.property(fc.array(sent, { minLength: 20, maxLength: 120 }), (parts) => {
        const bench = rig();
        bench.core.feed('P01-1\rIV\rT2\r');
        for (const part of parts) {
          const before = ['P01-1', 'P02-1', 'P02-2'].map((unit) => bench.events(unit).length);
          const { person, entry, screen } = bench.core.state();
          bench.core.feed(part);
          for (const [index, unit] of ['P01-1', 'P02-1', 'P02-2'].entries()) {
            for (const event of bench.events(unit).slice(before[index])) {
              // A person signs everything: the one at the bench, unless this very chunk signed somebody in.
              expect(event.by).toBe(person);
              // A hold is released by its own key alone.
              if (event.kind === 'released') expect(part).toBe('\x1b[19~');
              // Forms are carried out by the Right arrow alone, holds and answers aside.
              if (
                [
                  'corrected',
                  'reworked',
                  'snag-raised',
                  'parked',
                  'snag-decided',
                  'snag-closed',
                  'noted',
                ].includes(event.kind)
              )
                expect(part).toBe('\x1b[C');
              // Every reading is one that stood on the entry line.
              if (event.kind === 'read' && screen.name !== 'question')
                expect(`${entry}${part}`.replace(/[\r\t].*/s, '').trim()).toBe(event.reading.raw);
            }
          }
        }
        bench.core.feed('\x1b');
        bench.core.quiet();
      }),
      { seed: 47, numRuns: 300 },
    );
  });
});
