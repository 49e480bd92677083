/**
 * keys/pins.json: hashes of people's PINs, readable by the owner alone. They are never frozen, archived or logged. Older
 * workshops have them in shared/people.yaml, where they still count until they are moved.
 */
import { randomBytes, scryptSync, timingSafeEqual } from 'node:crypto';
import { join } from 'node:path';
import * as z from 'zod';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import type { Person } from '../unit/types.js';
import { type Disk, diskProblem, storeProblem } from './disk.js';
import { makeFolders, writeWhole } from './files.js';
import { storeWords } from './words.js';

export const PINS_FILE = 'keys/pins.json';
const LARGEST = 1_000_000;

/** A PIN as it is kept: scrypt with a salt per person, as `salt:hash` in hex. */
export const PIN_HASH = /^([0-9a-f]{32}):([0-9a-f]{64})$/;

const pinsSchema = z.strictObject({
  format: z.literal('pinchrod-pins 1'),
  /** By id of the person. */
  pins: z.record(z.string(), z.string().regex(PIN_HASH)),
});

/** Hashes by id of the person; empty if there is no file. A file that others may read is a warning. */
export function readPins(disk: Disk, root: string): Result<Readonly<Record<string, string>>> {
  const unusable = () => err(storeProblem('pins.unusable', {}, { file: PINS_FILE }));
  try {
    const path = join(root, ...PINS_FILE.split('/'));
    const stat = disk.stat(path);
    if (stat === undefined) return ok({});
    if (stat.kind !== 'file' || stat.size > LARGEST) return unusable();
    const read = pinsSchema.safeParse(jsonOf(disk.read(path)));
    if (!read.success) return unusable();
    const open: Problem[] = stat.open ? [storeProblem('pins.open', {}, { file: PINS_FILE })] : [];
    return ok(read.data.pins, open);
  } catch (error) {
    return err(diskProblem(error, PINS_FILE, storeWords('while-pins-read')));
  }
}

function jsonOf(bytes: Buffer): unknown {
  try {
    return JSON.parse(bytes.toString('utf8'));
  } catch {
    return undefined;
  }
}

/** Adds, replaces or removes PINs; durable once it returns ok. @param pins hashes by id; undefined removes one */
export function writePins(
  disk: Disk,
  root: string,
  pins: Readonly<Record<string, string | undefined>>,
): Result<undefined> {
  const before = readPins(disk, root);
  if (!before.ok) return before;
  try {
    const folder = makeFolders(disk, root, ['keys']);
    const all = { format: 'pinchrod-pins 1', pins: { ...before.value, ...pins } };
    writeWhole(disk, join(folder, 'pins.json'), Buffer.from(`${JSON.stringify(all, null, 2)}\n`), 'private');
    return ok(undefined);
  } catch (error) {
    return err(diskProblem(error, PINS_FILE, storeWords('while-pin-kept')));
  }
}

/** Each person with the PIN that counts. Where one still stands in shared/people.yaml, a warning says so. */
export function withPins(
  people: readonly Person[],
  pins: Readonly<Record<string, string>>,
  file: string,
): { readonly people: readonly Person[]; readonly warnings: readonly Problem[] } {
  const old = people.filter(({ pin }) => pin !== undefined).map(({ id }) => id);
  return {
    people: people.map((person) => {
      const pin = Object.hasOwn(pins, person.id) ? pins[person.id] : person.pin;
      return pin === undefined ? person : { ...person, pin };
    }),
    warnings: old.length === 0 ? [] : [storeProblem('pins.in-people', { old: old.join(', ') }, { file })],
  };
}

const PIN_COST = { N: 16384, r: 8, p: 1 } as const;

export function hashPin(pin: string, salt: Uint8Array = randomBytes(16)): string {
  return `${Buffer.from(salt).toString('hex')}:${scryptSync(pin, salt, 32, PIN_COST).toString('hex')}`;
}

/** Always false for a person without a PIN. */
export function pinMatches(person: { readonly pin?: string }, pin: string): boolean {
  const parts = PIN_HASH.exec(person.pin ?? '');
  if (!parts) return false;
  const want = Buffer.from(parts[2]!, 'hex');
  return timingSafeEqual(scryptSync(pin, Buffer.from(parts[1]!, 'hex'), 32, PIN_COST), want);
}
