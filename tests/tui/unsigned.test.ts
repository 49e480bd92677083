/** A bench whose key cannot sign closes no unit, unless a named person goes on without; the record says who, and why. */
import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { realDisk } from '../../src/store/disk.js';
import { newBenchKey } from '../../src/store/key.js';
import { command } from '../errors/museum.js';
import { type Bench, benchOf, PINS, RIGHT, remove, smallWorkshop, startClock, work } from './realbench.js';

let root: string;
let bench: Bench;
const key = () => join(root, 'keys/bench-t.pem');
const kinds = () => bench.core.world().open!.state.events.map(({ kind }) => kind);

beforeEach(() => {
  root = smallWorkshop();
  newBenchKey(realDisk, root, 'bench-t');
  const clock = startClock();
  bench = benchOf(root, clock);
  bench.ports.open('S01-1');
  work(bench.ports, clock, (action) => action.do === 'answer' && action.check === 'show/seen');
  bench.press('JB\r', 'S01-1\r');
  chmodSync(key(), 0o644);
  bench.press(RIGHT);
});
afterEach(() => {
  bench.ports.close();
  remove(root);
});

it('asks for the word of somebody who may release, and keeps it', async () => {
  expect(kinds()).not.toContain('finished');
  expect(bench.core.state().note?.text).toMatch(/bench-t\.pem: .* S01-1 would be closed unsigned/);
  expect(bench.core.state().screen).toMatchObject({ name: 'form', form: { id: 'unsigned' } });
  bench.press('OT\r', `${PINS.ot}\r`, RIGHT);
  expect(bench.core.world().open!.state.events.at(-1)).toMatchObject({
    kind: 'finished',
    by: 'jb',
    unsigned: { by: 'ot', why: expect.stringContaining('may read this private key') },
  });
  bench.ports.close();
  const { out } = await command(root, ['record', 'S01-1']);
  expect(out.replace(/\s+/g, ' ')).toMatch(
    /Signature none: .*closed the unit without, as the bench could not/,
  );
  const verified = await command(root, ['verify']);
  expect(verified.code).toBe(0);
  expect(verified.text.replace(/\s+/g, ' ')).toContain('ot let it be closed without');
});

it('closes and signs it once the key is mended', () => {
  chmodSync(key(), 0o600);
  bench.press('\u001b', RIGHT);
  expect(kinds().slice(-2)).toEqual(['finished', 'sealed']);
});

it('takes no word of somebody who may not release, and none without the PIN', () => {
  const seen = { do: 'answer', check: 'show/seen', value: 'yes' } as const;
  const close = (unsignedBy?: { person: string; pin?: string }) =>
    bench.ports.act(unsignedBy ? { ...seen, unsignedBy } : seen, { person: 'jb' });
  expect(close()).toMatchObject({ kind: 'refused', problem: { id: 'build.unsigned' } });
  expect(close({ person: 'jb' })).toMatchObject({ kind: 'refused', problem: { id: 'build.no-right' } });
  expect(close({ person: 'ot' })).toMatchObject({ kind: 'refused', problem: { id: 'build.pin-needed' } });
  expect(close({ person: 'ot', pin: PINS.ot })).toMatchObject({ kind: 'done' });
});

it('counts a wrong PIN for the person whose word it is, not for whoever is at the bench', () => {
  const seen = { do: 'answer', check: 'show/seen', value: 'yes' } as const;
  const close = (person: string, pin: string) =>
    bench.ports.act({ ...seen, unsignedBy: { person, pin } }, { person: 'jb' });
  for (let i = 0; i < 20; i += 1) close('ot', '0000');
  expect(close('ot', PINS.ot)).toMatchObject({ kind: 'refused', problem: { id: 'build.pin-locked' } });
  expect(close('mv', PINS.mv)).toMatchObject({ kind: 'done' });
});
