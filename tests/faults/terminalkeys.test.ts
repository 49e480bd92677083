/**
 * Keys as a real terminal brings them: random ones, escape sequences torn anywhere, floods, scans into every screen, held
 * keys, two devices at once. Never a crash, never a wrong record, and the bench still answers. How long it may be silent is
 * measured in `npm run benchmarks keys`.
 *
 * 1,500 random keys; PINCHROD_PTY_KEYS=20000 for more.
 */
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeAll, beforeEach, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { findPty, freshWorkshop, Terminal } from '../tui/terminal.js';
import { BLIND } from './blindkeys.js';
import { chance, pick, turn } from './chance.js';
import { JOB, written } from './feed.js';

const KEYS = Number(process.env.PINCHROD_PTY_KEYS ?? 1500);
const SEEDS = [3, 1415, 92_653];
/** Blind keys alone seldom come far: somebody is at the bench, and says yes. */
const INTENDED = ['jb\r', 'P02-1\r', 'P01-1\r', '\x7f\x1b[C', '\x7f\x1b[C', '1000\r', '\x1b\x7f'];
const RIGHT = '\x1b[C';

let found: Awaited<ReturnType<typeof findPty>>;
let terminal: Terminal;
let folder: string;
let remove: (() => void) | undefined;
beforeAll(async () => {
  found = await findPty();
});
beforeEach(async (context) => {
  if ('skip' in found) {
    console.warn(`passed over: ${found.skip}`);
    return context.skip(found.skip);
  }
  ({ folder, remove } = freshWorkshop());
  terminal = new Terminal(found.pty, { folder });
  await terminal.until('P02-1');
  await terminal.say('p02-1\r', 'nobody signs');
  await terminal.say('jb\r', 'signs: JB');
});
afterEach(() => {
  terminal?.close();
  remove?.();
  remove = undefined;
});

it.each(SEEDS)(
  `${Math.round(KEYS / SEEDS.length)} random keys, in pieces cut anywhere, seed %i`,
  async (seed) => {
    const random = chance(seed);
    for (let sent = 0; sent < KEYS / SEEDS.length; sent += 50) {
      let text = '';
      for (let i = 0; i < 50; i++)
        text +=
          random() < 0.1
            ? pick(INTENDED, random)
            : random() < 0.02
              ? String.fromCodePoint(0x80 + Math.floor(random() * 0x2000))
              : pick(BLIND, random);
      // Cut at any byte, also in the middle of a sequence or of a character.
      const bytes = Buffer.from(text);
      for (let from = 0; from < bytes.length; ) {
        const to = Math.min(bytes.length, from + 1 + Math.floor(random() * 40));
        terminal.send(bytes.subarray(from, to));
        from = to;
        await turn(Math.floor(random() * 3));
      }
    }
    await stillAnswers(`seed ${seed}`);
    console.log(`seed ${seed}: ${everything().length} events, each as it must be`);
  },
  600_000,
);

it('10,000 keys at once', async () => {
  const random = chance(7);
  const keys = Array.from({ length: 10_000 }, () =>
    pick(['1', '2', '5', ',', '\x7f', '\x1b[A', '\x1b[B', 'x'], random),
  );
  terminal.send(keys.join(''));
  await stillAnswers('flood');
  expect(everything()).toEqual([]);
});

it('a key held down answers once', async () => {
  const before = everything().length;
  terminal.send(RIGHT.repeat(500));
  await terminal.until(() => everything().some(({ kind }) => kind === 'answered'));
  await stillAnswers('held');
  const answers = everything()
    .slice(before)
    .filter(({ kind }) => kind === 'answered');
  expect(answers.length).toBe(1);
  terminal.send('\x7f'.repeat(500));
  await stillAnswers('held backspace');
});

it('scans into every screen go where they belong, and write nothing', async () => {
  const screens = [
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
    '\x05',
    '\x06',
    '\x0f',
    '\x18',
  ];
  for (const screen of screens) {
    terminal.send(screen);
    for (const scan of ['ZZ-1-8C41', 'T2', '1221,5', 'MV', '4006381333931', 'P02-1'])
      terminal.send(`${scan}\r`);
    await terminal.until((text) => text.includes('signs: MV') && !text.includes('Leave the bench?'));
    await terminal.say('\x1b', (text) => !text.includes('> P02-1'));
    await terminal.say('P02-1\r', 'Read the papers of the order');
    await terminal.say('JB\r', 'signs: JB');
    expect(everything(), JSON.stringify(screen)).toEqual([]);
  }
});

it('a scanner and a calliper that type into one another log nothing that was not on the line', async () => {
  const random = chance(11);
  for (let i = 0; i < 40; i++) {
    const [a, b] = [[...'JB\r'], [...'1221.5\r']];
    while (a.length + b.length > 0)
      terminal.send((random() < a.length / (a.length + b.length) ? a : b).shift()!);
  }
  await stillAnswers('interleaved');
  // A question of yes or no stands here: no number may have answered it.
  expect(everything()).toEqual([]);
});

/** What was sent is all taken when a page that is asked for after it is shown; then the bench is left as a person leaves it. */
async function stillAnswers(about: string): Promise<void> {
  // Out of whatever was begun
  // (a key behind each Esc tells it from the beginning of a sequence, without a time).
  terminal.send('\x1b\x7f'.repeat(12));
  await terminal.say('P02-1\r', (text) => /^ P02-1 /.test(text));
  await terminal.say('\x18', 'Leave the bench?');
  await terminal.say('\x1b[D', (text) => !text.includes('Leave the bench?'));
  expect(terminal.raw, about).not.toMatch(/\[bench\.unexpected\]|\n\s+at .+:\d+:\d+/);
  expect(verifyTree(realDisk, folder).faults, about).toEqual([]);
  for (const event of everything())
    if (event.kind === 'answered' || event.kind === 'read') expect(event.by, about).not.toBe('nobody');
}

function everything(): JournalEvent[] {
  const logs = join(folder, 'logs', JOB);
  if (!existsSync(logs)) return [];
  return readdirSync(logs)
    .filter((name) => name.endsWith('.jsonl'))
    .flatMap((name) => written(folder, name.replace(/\.jsonl$/, '')))
    .filter(({ kind }) => kind !== 'opened');
}
