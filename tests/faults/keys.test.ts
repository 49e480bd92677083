/**
 * Random keys at the bench. Through the reducer: 20,000 key events, PINCHROD_KEYS=1000000 for more. Never a crash, and
 * every reading that is logged stood on the entry line when it was entered. In a real pseudo-terminal only where
 * PINCHROD_PTY_KEYS=2000 (or more) asks for it, since the bench has been seen not to end there; afterwards the bench still answers, and the journal verifies.
 */
import { expect, it } from 'vitest';
import type { JournalEvent } from '../../src/build/events.js';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { rig } from '../bench/support.js';
import { findPty, freshWorkshop, Terminal } from '../bench/terminal.js';

const KEYS = Number(process.env.PINCHROD_KEYS ?? 20_000);
const PTY_KEYS = Number(process.env.PINCHROD_PTY_KEYS ?? 0);
const SEEDS = [3, 1415, 92_653];

/** Keys as terminals send them, without those that leave the bench; whole, so that the number of key events is known. */
const SENT = [
  ...'0123456789abcxyz.,-/ ',
  ...[
    '\r',
    '\r',
    '\r',
    '\t',
    '\x7f',
    '\x1b',
    '\x1b[A',
    '\x1b[B',
    '\x1b[C',
    '\x1b[C',
    '\x1b[D',
    '\x1b[5~',
    '\x1b[6~',
  ],
  ...[
    '\x1bOP',
    '\x1bOQ',
    '\x1bOR',
    '\x1bOS',
    '\x1b[15~',
    '\x1b[17~',
    '\x1b[18~',
    '\x1b[19~',
    '\x1b[20~',
    '\x1b[21~',
  ],
  ...[
    '\x02',
    '\x05',
    '\x07',
    '\x0b',
    '\x0c',
    '\x0e',
    '\x0f',
    '\x10',
    '\x12',
    '\x14',
    '\x15',
    '\x17',
    '\x19',
    '\x1a',
  ],
];
const SCANS = ['P01-1\r', 'P02-1\r', 'IV\r', 'JB\r', 'T2\r', 'C1\r', '1000\r', '1221,5\r'];

it.each(SEEDS)(`${Math.round(KEYS / SEEDS.length)} random keys in the reducer, seed %i`, (seed) => {
  const random = mulberry(seed);
  let bench = rig();
  bench.core.feed('P01-1\rIV\rT2\r');
  let readings = 0;
  let events = 0;
  for (let sent = 0; sent < KEYS / SEEDS.length; ) {
    // A bench of its own now and then, so that the unit does not end scrapped for good.
    if (sent % 1000 < 5) {
      bench = rig();
      bench.core.feed('P01-1\rIV\rT2\r');
    }
    const scan = random() < 0.05;
    const part = scan ? pick(SCANS, random) : pick(SENT, random);
    sent += scan ? part.length : 1;
    for (const key of scan ? part : [part]) {
      const before = ['P01-1', 'P02-1', 'P02-2'].map((unit) => bench.events(unit).length);
      const { entry, screen } = bench.core.state();
      bench.core.feed(key);
      bench.core.quiet();
      for (const [i, unit] of ['P01-1', 'P02-1', 'P02-2'].entries())
        for (const event of bench.events(unit).slice(before[i])) {
          events += 1;
          for (const raw of rawOf(event)) {
            readings += 1;
            // A question shows the reading that it asks about.
            if (screen.name !== 'question') expect(entry.trim(), `seed ${seed}, after ${sent}`).toBe(raw);
          }
        }
    }
  }
  console.log(
    `seed ${seed}: ${events} events logged, ${readings} of them readings, each one that stood on the screen`,
  );
  expect(events).toBeGreaterThan(0);
});

it.skipIf(PTY_KEYS === 0)(
  `${PTY_KEYS} random keys in a terminal: the bench still answers, and the journals verify`,
  async (context) => {
    const found = await findPty();
    if ('skip' in found) {
      console.warn(`passed over: ${found.skip}`);
      return context.skip(found.skip);
    }
    for (const seed of SEEDS) {
      const random = mulberry(seed);
      const { folder, remove } = freshWorkshop();
      const terminal = new Terminal(found.pty, { folder });
      try {
        await terminal.until('P02-1');
        await terminal.say('p02-1\r', 'nobody signs');
        await terminal.say('jb\r', 'signs: JB');
        for (let sent = 0; sent < PTY_KEYS / SEEDS.length; sent += 100) {
          let chunk = '';
          for (let i = 0; i < 100; i++) chunk += pick(SENT, random);
          terminal.send(chunk);
        }
        // What was sent is all taken when the page of keys, asked for after it, is shown and left again.
        terminal.send('\x1b');
        await settled();
        terminal.send('\x1b\x1b');
        await settled();
        await terminal.say('\x1bOQ', 'P07-1');
        terminal.send('\x18');
        const { code } = await terminal.ended();
        expect(code, `seed ${seed}`).toBe(0);
        expect(terminal.raw).not.toMatch(/\[bench\.unexpected\]|\n\s+at .+:\d+:\d+/);
        expect(verifyTree(realDisk, folder).faults, `seed ${seed}`).toEqual([]);
      } finally {
        terminal.close();
        remove();
      }
    }
  },
  600_000,
);

/** What was typed for the reading, or the one number, that an event logs. */
function rawOf(event: JournalEvent): readonly string[] {
  if (event.kind === 'read') return [event.reading.raw];
  if (event.kind === 'answered' && event.answer.kind === 'number')
    return event.answer.readings.map(({ raw }) => raw);
  return [];
}

/** One turn of this process's loop: keys sent apart reach the bench apart. */
const settled = (): Promise<void> => new Promise((done) => setImmediate(done));

const pick = <T>(from: readonly T[], random: () => number): T => from[Math.floor(random() * from.length)]!;

/** A small seeded random (mulberry32). */
function mulberry(seed: number): () => number {
  let a = seed | 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
