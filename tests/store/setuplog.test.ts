/** The journal of set-ups, a chained log that is no unit's: what it takes, and what is found when it was changed. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { appendChainLog, readChainLog } from '../../src/store/chainlog.js';
import { realDisk } from '../../src/store/disk.js';
import { takeLock, thisProcess } from '../../src/store/lock.js';
import { appendSetupLog, readSetupLog } from '../../src/store/setups.js';
import { verifyTree } from '../../src/store/verify.js';
import { chainEvent, chainHash, chainLine, FIRST_PREV } from '../../src/unit/chain.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { noted, stamp } from './samples.js';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));
const FILE = 'logs/setups.jsonl';
const file = () => join(root, FILE);
const ended = (setup: string): EventBody => ({ kind: 'setup-ended', setup, why: 'tool-changed' });
const append = (...bodies: EventBody[]) => appendSetupLog(realDisk, root, bodies, stamp());
const texts = () => readFileSync(file(), 'utf8').split('\n').slice(0, -1);
const putLines = (lines: readonly string[]): void =>
  writeFileSync(file(), lines.map((each) => `${each}\n`).join(''));
/** A line that is whole in the chain after the last one, of any content. */
const after = (change: object): string => {
  const last = JSON.parse(texts().at(-1)!) as JournalEvent;
  const sealed = chainEvent(ended('x'), stamp(), last);
  const event = { ...sealed, ...change };
  return chainLine({ ...event, hash: chainHash(event) } as JournalEvent);
};

it('gives back what was appended, in one chain; nothing appended is nothing written', () => {
  expect(append()).toMatchObject({ ok: true, value: [] });
  expect(existsSync(file())).toBe(false);
  expect(readSetupLog(realDisk, root)).toMatchObject({ ok: true, value: [] });
  expect(append(ended('saw'), ended('drill'))).toMatchObject({ ok: true, value: [{ n: 1 }, { n: 2 }] });
  expect(append(ended('punch'))).toMatchObject({ ok: true, value: [{ n: 3 }] });
  expect(readSetupLog(realDisk, root)).toMatchObject({
    value: [{ setup: 'saw', prev: FIRST_PREV }, { setup: 'drill' }, { setup: 'punch' }],
  });
  expect(verifyTree(realDisk, root)).toMatchObject({ holds: true, journals: 1, events: 3 });
});

it.each<[string, EventBody, RegExp]>([
  ['an event of a unit', noted('x'), /"noted" belongs into a unit's journal/],
  ['no event of this version', { ...ended('saw'), why: 'boredom' } as never, /why: /],
])('does not take %s', (_, body, says) => {
  append(ended('saw'));
  const before = readFileSync(file(), 'utf8');
  expect(append(ended('drill'), body)).toMatchObject({
    ok: false,
    problems: [{ id: 'journal.cannot-hold', text: expect.stringMatching(says), place: { file: FILE } }],
  });
  expect(readFileSync(file(), 'utf8')).toBe(before);
});

it('is written by one bench at a time', () => {
  append(ended('saw'));
  const place = {
    ...{ job: 'logs', unit: 'setups', folder: join(root, 'logs'), file: file(), shown: FILE },
    lock: join(root, 'logs/setups.lock'),
  };
  const other = takeLock(
    realDisk,
    place,
    { ...thisProcess(), host: 'shop-two' },
    { bench: 'two', who: 'ot' },
  );
  expect(append(ended('drill'))).toMatchObject({ ok: false, problems: [{ id: 'lock.other-machine' }] });
  if (other.ok) other.value.release();
  expect(append(ended('drill'))).toMatchObject({ ok: true });
});

/** What is done to a good log of three lines; the line and the id for the bench, and the id for `verify`. */
const BAD: Record<string, { do: () => void; line: number; bench: string; verify: string; says?: RegExp }> = {
  'a line changed': {
    do: () => putLines(texts().with(1, texts()[1]!.replace('drill', 'frill'))),
    line: 2,
    bench: 'journal.damaged',
    verify: 'verify.changed-line',
  },
  'a line taken out': {
    do: () => putLines(texts().toSpliced(1, 1)),
    line: 2,
    bench: 'journal.damaged',
    verify: 'verify.missing-line',
  },
  'an unknown event': {
    do: () => putLines([...texts(), after({ kind: 'sung' })]),
    line: 4,
    bench: 'journal.unknown-event',
    verify: 'verify.unknown-event',
    says: /kind: /,
  },
  'an event of a unit': {
    do: () => {
      const { setup: _, why: __, ...rest } = JSON.parse(after({})) as Record<string, unknown>;
      const event = { ...rest, kind: 'noted', text: 'x' };
      putLines([...texts(), chainLine({ ...event, hash: chainHash(event) } as never)]);
    },
    line: 4,
    bench: 'journal.unknown-event',
    verify: 'verify.unknown-event',
    says: /belongs into a unit/,
  },
};

describe.each(Object.keys(BAD))('%s', (what) => {
  it('stops the bench, which writes nothing, and is found', () => {
    append(ended('saw'), ended('drill'), ended('punch'));
    const bad = BAD[what]!;
    bad.do();
    const before = readFileSync(file(), 'utf8');
    const text = expect.stringMatching(bad.says ?? /./);
    const problem = { id: bad.bench, text, place: { file: FILE, line: bad.line } };
    expect(readSetupLog(realDisk, root)).toMatchObject({ ok: false, problems: [problem] });
    expect(append(ended('saw'))).toMatchObject({ ok: false, problems: [problem] });
    expect(readFileSync(file(), 'utf8')).toBe(before);
    expect(verifyTree(realDisk, root)).toMatchObject({
      holds: false,
      faults: [{ id: bad.verify, text, place: { file: FILE, line: bad.line } }],
    });
  });
});

it('bytes that are no text stop the bench, and are found', () => {
  append(ended('saw'));
  writeFileSync(file(), Buffer.concat([readFileSync(file()), Buffer.from([0xff, 0x0a])]));
  const text = 'The line is not an event: it cannot be read.';
  const place = { file: FILE, line: 2 };
  expect(readSetupLog(realDisk, root)).toMatchObject({ problems: [{ id: 'journal.damaged', text, place }] });
  expect(verifyTree(realDisk, root).faults).toContainEqual(
    expect.objectContaining({ id: 'verify.changed-line', text, place }),
  );
});

it('a piece of a line is passed over by who reads, found by verify, and set aside by who writes', () => {
  append(ended('saw'));
  const whole = readFileSync(file(), 'utf8');
  writeFileSync(file(), `${whole}{"at":`);
  expect(readSetupLog(realDisk, root)).toMatchObject({ ok: true, value: [{ setup: 'saw' }] });
  expect(verifyTree(realDisk, root).faults).toMatchObject([
    { id: 'verify.torn-end', text: expect.stringContaining('6 bytes'), place: { file: FILE, line: 2 } },
  ]);
  expect(append(ended('drill'))).toMatchObject({ ok: true });
  expect(texts().length).toBe(2);
  expect(readFileSync(`${file()}.torn-1`, 'utf8')).toBe('{"at":');
  expect(verifyTree(realDisk, root)).toMatchObject({ holds: true, events: 2 });
});

it('a folder of its name is no journal', () => {
  mkdirSync(file(), { recursive: true });
  expect(readSetupLog(realDisk, root)).toMatchObject({
    ok: false,
    problems: [{ id: 'workshop.not-a-file' }],
  });
  expect(append(ended('saw'))).toMatchObject({ ok: false, problems: [{ id: 'workshop.not-a-file' }] });
  expect(verifyTree(realDisk, root)).toMatchObject({ faults: [{ id: 'verify.not-a-file' }], journals: 0 });
});

it('a log whose name leads elsewhere is neither read nor written', () => {
  for (const name of ['../jb', 'con', 'j b']) {
    const options = { path: ['practice', 'people', name], wrongWith: () => undefined };
    const wrong = { ok: false, problems: [{ id: 'journal.name', text: expect.stringContaining(name) }] };
    expect(readChainLog(realDisk, root, options)).toMatchObject(wrong);
    expect(appendChainLog(realDisk, root, options, stamp(), () => [{}])).toMatchObject(wrong);
  }
  expect(realDisk.list(root)).toEqual([]);
});
