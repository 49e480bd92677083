/** PINs of the demonstration's invented people, for workshops that a test copied file by file. */
import { realDisk } from '../src/store/disk.js';
import { hashPin, writePins } from '../src/store/pins.js';

const PINS = { ot: hashPin('2705'), mv: hashPin('4168') };

/** Gives the people of a workshop their PINs. */
export function givePins(root: string, pins: Readonly<Record<string, string>> = PINS): void {
  const kept = writePins(realDisk, root, pins);
  if (!kept.ok) throw new Error(JSON.stringify(kept.problems));
}
