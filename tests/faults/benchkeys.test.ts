/**
 * Random keys at the real bench over all units of the demonstration, from a generator that knows the right answers and does
 * much else besides: readers of both languages, second persons, snags, rework on request, running cures, a clock that moves.
 * Everything is drawn after every key. No fault of the program, and every journal whole.
 *
 * 20,000 keys; PINCHROD_BENCH_KEYS=1000000 for more.
 */
import { expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { verifyTree } from '../../src/store/verify.js';
import { drawnText } from '../tui/drawn.js';
import { type KeyedWorkshop, keyedWorkshop } from '../tui/keyedworkshop.js';
import { BLIND } from './blindkeys.js';
import { chance, pick } from './chance.js';
import { written } from './feed.js';

const KEYS = Number(process.env.PINCHROD_BENCH_KEYS ?? 20_000);
const SEED = Number(process.env.PINCHROD_SEED ?? 20_261_130);
/** A workshop of its own after so many keys. */
const SPELL = 10_000;
const UNITS = ['P01-1', 'P02-1', 'P02-2', 'P03-1', 'P04-1', 'P05-1', 'P06-1', 'P07-1'];
const PEOPLE = ['jb', 'lb', 'ot', 'mv', 'tf', 'ek'];
const PIN: Readonly<Record<string, string>> = { ot: '2705', mv: '4168' };
const RIGHT = '\x7f\x1b[C';
const LEFT = '\x7f\x1b[D';
const DOWN = '\x1b[B';
const ESC = '\x1b';
const [F3, F6, F7, F8, F5, F9, END] = [
  '\x1bOR',
  '\x1b[17~',
  '\x1b[18~',
  '\x1b[19~',
  '\x1b[15~',
  '\x1b[20~',
  '\x1b[F',
];
const LANGUAGE = '\x01';
const UNDO = '\x1a';
const SIZES = [
  { columns: 80, rows: 24 },
  { columns: 120, rows: 40 },
  { columns: 200, rows: 60 },
];

it(`${KEYS} random keys at the bench, seed ${SEED}`, () => {
  const random = chance(SEED);
  const kinds = new Map<string, number>();
  let keys = 0;
  let spells = 0;
  for (; keys < KEYS; spells += 1) {
    const shop = keyedWorkshop();
    try {
      const end = Math.min(KEYS, keys + SPELL);
      while (keys < end) {
        const chunk = random() < 0.9 ? intended(shop, random) : pick(BLIND, random);
        shop.clock += pick([300, 800, 5000, 20_000], random);
        if (random() < 0.0005) shop.clock += 3_600_000;
        shop.core.feed(chunk);
        shop.core.quiet();
        if (random() < 0.1) shop.core.tick();
        keys += keysIn(chunk);
        const about = `seed ${SEED}, key ${keys} (${JSON.stringify(chunk)}): ${shop.core.state().note?.text}`;
        if (shop.core.faults() > 0 || shop.core.state().left) throw new Error(about);
        drawnText(shop.core, SIZES[keys % SIZES.length]!);
      }
      for (const unit of UNITS)
        for (const { kind } of written(shop.folder, unit)) kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      shop.ports.close();
      expect(verifyTree(realDisk, shop.folder).faults).toEqual([]);
    } finally {
      shop.close();
    }
  }
  console.log(
    `${keys} keys in ${spells} workshops: ${[...kinds].map(([kind, n]) => `${n} ${kind}`).join(', ')}`,
  );
  expect(kinds.get('released') ?? 0).toBeGreaterThanOrEqual(KEYS / 1000);
  expect(kinds.get('reworked') ?? 0).toBeGreaterThanOrEqual(KEYS / 2000);
  for (const kind of ['answered', 'read', 'corrected', 'snag-raised', 'snag-decided', 'noted', 'parked'])
    expect(kinds.get(kind) ?? 0, kind).toBeGreaterThan(0);
}, 7_200_000);

/** Escape sequences and single characters each count as one key. */
const keysIn = (chunk: string): number => chunk.match(/\x1b(?:O.|\[[\d;]*.)|[\s\S]/g)?.length ?? 0;

/** What somebody would press next who builds windows, and now and then does something else. */
function intended(shop: KeyedWorkshop, random: () => number): string {
  const state = shop.core.state();
  const { open } = shop.core.world();
  const { screen } = state;
  if (screen.name === 'question') return random() < 0.7 ? RIGHT : LEFT;
  if (screen.name === 'release') return `\x7f${PIN[state.person ?? ''] ?? ''}${F8}`;
  if (screen.name === 'form') return random() < 0.5 ? RIGHT : pick(FORM, random);
  if (screen.name === 'leave') return LEFT;
  if (screen.name === 'snags') return pick([DOWN, `${DOWN}\r`, RIGHT, ESC], random);
  if (!open || open.state.finished || open.state.scrapped || random() < 0.003)
    return `${pick(UNITS, random)}\r`;
  if (screen.name === 'steps' || screen.name === 'unit') {
    if (random() < 0.3) return DOWN.repeat(1 + Math.floor(random() * 20));
    return pick(['\r', '\r', ESC, F7, `${open.id}\r`], random);
  }
  if (random() < 0.1) return aside(random);
  const keys = shop.next();
  if (keys === 'wait') return LANGUAGE;
  return keys === 'none' ? `${pick(UNITS, random)}\r` : keys.join('');
}

const FORM = [
  'because it was so\r',
  'it is scratched\r',
  DOWN,
  '2705\r',
  '4168\r',
  'JB\r',
  'MV\r',
  'shot.txt\r',
];

function aside(random: () => number): string {
  const which = random();
  if (which < 0.2) return `${F7}because it was so\r${RIGHT}`;
  if (which < 0.3) return F3;
  if (which < 0.45) return F6;
  if (which < 0.5) return LANGUAGE;
  if (which < 0.6) return `${UNDO}typed wrongly\r${RIGHT}`;
  if (which < 0.75) return `${pick(PEOPLE, random)}\r`;
  if (which < 0.8) return `\x19seen\r${RIGHT}`;
  if (which < 0.83) return `\x02break\r${RIGHT}`;
  return pick([F5, F9, END, '\x06', '\x04', '\x05', '\x1bOP', LEFT], random);
}
