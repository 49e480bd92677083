/** A unit's journal: what is appended comes back, and what no journal can hold, or none can be, is refused by name. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { quoted } from '../../src/base/words.js';
import { diskProblem, isFileError, realDisk, StoreError } from '../../src/store/disk.js';
import { Journal, readEvents } from '../../src/store/journal.js';
import { lockUnit, unitHolder } from '../../src/store/unitlock.js';
import { chainEvent, chainHash, chainLine } from '../../src/unit/chain.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { HASH, measured, noted, opened, stamp } from './samples.js';

let root: string;
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'pinchrod-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const file = () => join(root, 'logs/pier-house/P01-1.jsonl');
const put = (bytes: string | Buffer): void => {
  mkdirSync(join(root, 'logs/pier-house'), { recursive: true });
  writeFileSync(file(), bytes);
};
const open = () => {
  const made = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value;
};

it('gives back, from the disk, what was appended', () => {
  const first = open();
  expect(first.events).toEqual([]);
  const written = first.append([opened(), noted('one')], stamp());
  first.append([measured(1220.7)], stamp(1));
  first.close();
  const again = open();
  expect(again.events).toEqual(first.events);
  expect(again.events.slice(0, 2)).toEqual(written);
  expect(again.events.map(({ n }) => n)).toEqual([1, 2, 3]);
  again.append([noted('four')], stamp(2));
  again.close();
  const looked = readEvents(realDisk, root, 'pier-house', 'P01-1');
  expect(looked.ok && looked.value.map(({ n }) => n)).toEqual([1, 2, 3, 4]);
  const text = readFileSync(join(root, 'logs/pier-house/P01-1.jsonl'), 'utf8');
  expect(text.split('\n').length).toBe(5);
});

const refused = (run: () => unknown) => {
  try {
    run();
  } catch (error) {
    if (error instanceof StoreError) return error.problem;
    throw error;
  }
  throw new Error('was taken');
};

it('a unit whose name leads elsewhere is neither opened, read, taken nor looked at', () => {
  for (const [job, unit] of [
    ['pier-house', '../P01-1'],
    ['..', 'P01-1'],
  ] as const) {
    const wrong = { ok: false, problems: [{ id: 'journal.name' }] };
    expect(Journal.open(realDisk, root, job, unit)).toMatchObject(wrong);
    expect(readEvents(realDisk, root, job, unit)).toMatchObject(wrong);
    expect(lockUnit(realDisk, root, job, unit, { bench: 'b', who: '' })).toMatchObject(wrong);
    expect(unitHolder(realDisk, root, job, unit)).toBeUndefined();
  }
  expect(realDisk.list(root)).toEqual([]);
});

it('a unit that was let go takes no more events', () => {
  const journal = open();
  journal.append([opened()], stamp());
  journal.close();
  expect(refused(() => journal.append([noted('late')], stamp(1)))).toMatchObject({ id: 'journal.let-go' });
  expect(readEvents(realDisk, root, 'pier-house', 'P01-1')).toMatchObject({ value: [{ kind: 'opened' }] });
});

describe('what an append gives back', () => {
  const wrong = { kind: 'noted', text: 'x', more: 1 } as EventBody;

  it('is what whoever reads the journal again will have', () => {
    const journal = open();
    journal.append([opened(), noted('a'), measured(1220.7)], stamp());
    journal.close();
    expect(readFileSync(file(), 'utf8')).toBe(
      journal.events.map((event) => `${chainLine(event)}\n`).join(''),
    );
    expect(open().events).toStrictEqual(journal.events);
  });

  it('never holds what the journal could not hold', () => {
    const journal = open();
    journal.append([opened()], stamp());
    for (const [body, at] of [
      [wrong, stamp().at],
      [noted('x'.repeat(100_000)), stamp().at],
      [noted('half a sign: \ud83d'), stamp().at],
      [noted('x'), '2026-02-30T10:00:00.000Z'],
      [noted('x'), '2026-02-03'],
      [noted('x'), ''],
      [noted('x'), '"'],
    ] as const)
      expect(refused(() => journal.append([noted('before it'), body], { ...stamp(), at }))).toMatchObject({
        id: 'journal.cannot-hold',
      });
    expect(journal.events.length).toBe(1);
    journal.close();
  });
});

it('a line is no longer than anything that is said at a bench', () => {
  const journal = open();
  journal.append([opened(), noted('x'.repeat(99_000))], stamp());
  const problem = refused(() => journal.append([noted('x'.repeat(100_000))], stamp(1)));
  expect(problem).toMatchObject({ id: 'journal.cannot-hold', text: expect.stringContaining('longer than') });
  expect(journal.events.length).toBe(2);
  journal.close();
});

it('an event of odd names, which only the whole schema can judge, is written and read like any other', () => {
  const sources = JSON.parse(`{"__proto__":"${HASH}","limits":"${HASH}"}`) as Record<string, string>;
  const journal = open();
  const [written] = journal.append([opened('P01-1', 'pier-house', sources)], stamp());
  journal.close();
  const read = readEvents(realDisk, root, 'pier-house', 'P01-1');
  expect(read).toMatchObject({ ok: true, value: [{ hash: written!.hash }] });
});

it.each<[string, object, object]>([
  ['of a newer format', { v: 3 }, { id: 'journal.newer', text: expect.stringContaining('format 3') }],
  [
    'of an unknown kind',
    { kind: 'sung' },
    { id: 'journal.unknown-event', text: expect.stringContaining('know it: kind: ') },
  ],
  [
    'with a member that is none',
    { more: 1 },
    { id: 'journal.unknown-event', text: expect.stringContaining('"more"') },
  ],
  [
    'with a member of another kind',
    { text: 1 },
    { id: 'journal.unknown-event', text: expect.stringContaining('know it: text: ') },
  ],
])('a whole line %s stops the bench at that line', (_, change, problem) => {
  const first = chainEvent(opened(), stamp());
  const second = chainEvent(noted('x') as EventBody, stamp(1), first);
  const other = { ...second, ...change };
  const lines = [first, { ...other, hash: chainHash(other) } as JournalEvent].map(chainLine);
  put(lines.map((line) => `${line}\n`).join(''));
  const place = { file: 'logs/pier-house/P01-1.jsonl', line: 2 };
  const opening = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  expect(opening).toMatchObject({ ok: false, problems: [{ ...problem, place }] });
  expect(readEvents(realDisk, root, 'pier-house', 'P01-1')).toEqual(opening);
});

it('a last line without its end that is whole JSON but no event is set aside, not taken', () => {
  const first = chainEvent(opened(), stamp());
  for (const end of [
    '{"a":1}',
    '{"n":2,"hash":"x"}',
    '{"a":"\\"}"}',
    Buffer.from('{"a":"\xe9"}', 'latin1'),
  ]) {
    put(Buffer.concat([Buffer.from(`${chainLine(first)}\n`), Buffer.from(end as string)]));
    const made = Journal.open(realDisk, root, 'pier-house', 'P01-1');
    expect(made).toMatchObject({ ok: true, warnings: [{ id: 'journal.torn' }] });
    if (made.ok) made.value.close();
    expect(readFileSync(file(), 'utf8')).toBe(`${chainLine(first)}\n`);
  }
  // What a mending that died left half is taken away by the next.
  writeFileSync(`${file()}.torn-9.0123.tmp`, '{');
  put(`${chainLine(first)}\n{"a"`);
  const made = Journal.open(realDisk, root, 'pier-house', 'P01-1');
  if (made.ok) made.value.close();
  // Each piece is kept under a name of its own, the next time as well.
  expect(realDisk.list(join(root, 'logs/pier-house'))).toEqual([
    'P01-1.jsonl',
    ...[1, 2, 3, 4, 5].map((n) => `P01-1.jsonl.torn-${n}`),
  ]);
});

it('a fault of the program is no file error, and is thrown on', () => {
  const fault = new TypeError('x is not a function');
  expect(isFileError(fault)).toBe(false);
  expect(isFileError(undefined)).toBe(false);
  expect(isFileError(Object.assign(new Error('x'), { code: 'ERR_INVALID_ARG_TYPE' }))).toBe(false);
  expect(isFileError(Object.assign(new Error('x'), { code: 'EIO' }))).toBe(true);
  expect(() => diskProblem(fault, 'a', quoted('while', 'it was read'))).toThrow(fault);
});
