/** The simulated tape: what it shows, and the error that it states. The drill never shows a reading outside that error. */
import type { Instrument } from '../../measure/types.js';
import { tapeError } from '../../measure/uncertainty.js';
import type { Chance } from '../chance.js';
import type { Tape } from './model.js';

/** The tape on the practice bench. Its class is the published one; step and placing are of this simulation. */
export const TAPE: Instrument = {
  id: 'practice-tape',
  kind: 'tape',
  title: 'practice tape, class II, read to 0.5 mm',
  resolution: 0.5,
  class: 'II',
  offset: 0,
  hook: true,
  repeatability: 0.15,
};
/** Farthest that placing and looking go wrong in one reading, mm. */
const PLACING = 0.25;
/** Farthest that a feeler reading goes wrong, mm. */
export const FEELER = 0.1;

/** Half-width of everything that one reading may be off by, slips and a worn hook apart, mm. */
export const statedError = (length: number, start: 'hook' | '100'): number =>
  tapeError('II', length, start === 'hook') + PLACING + TAPE.resolution / 2;

/** A tape inside its class. A worn hook is a fault of its own and comes on top. */
export function newTape(chance: Chance, worn: number): Tape {
  return {
    zero: chance.between(-0.25, 0.25),
    perMetre: chance.between(-0.18, 0.18),
    hook: chance.between(-0.15, 0.15) + worn,
  };
}

/** One reading of a true length, mm to the tape's step. `slip` is what went wrong beside. */
export function show(tape: Tape, length: number, start: 'hook' | '100', chance: Chance, slip = 0): number {
  const own = tape.zero + (tape.perMetre * length) / 1000 + (start === 'hook' ? tape.hook : 0);
  const seen = length + own + chance.between(-PLACING, PLACING) + slip;
  return Math.round(seen / TAPE.resolution) * TAPE.resolution;
}

/** One feeler reading, to 0.1 mm; a gap under 0.05 lets no feeler in. */
export function feel(gap: number, chance: Chance): number {
  if (gap < 0.05) return 0;
  const off = chance.between(-FEELER / 2, FEELER / 2);
  return Math.max(0, Math.round((gap + off) * 10) / 10);
}
