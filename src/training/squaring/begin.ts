/** A new frame on the practice bench: sizes, faults and tape derive from the seed alone. */
import type { Nominal } from '../../measure/square.js';
import { SQUARE_KEYS } from '../../measure/types.js';
import { Chance } from '../chance.js';
import {
  type Drill,
  type Fault,
  type FaultKind,
  type Frame,
  type FrameMember,
  type GameLevel,
  MEMBERS,
  newTape,
  PIECES,
  type SquaringLimits,
  USUAL_LIMITS,
} from './model.js';

export interface SquaringOptions {
  readonly seed: number;
  readonly level?: GameLevel;
  /** Outer size, mm; derived from the seed if absent. */
  readonly nominal?: Nominal;
  readonly limits?: SquaringLimits;
  /** Only these faults, for a lesson on them. */
  readonly faults?: readonly FaultKind[];
}

const PLAIN: readonly FaultKind[] = ['racked', 'short', 'twisted'];
const ONE_OF_ALL: readonly FaultKind[] = ['racked', 'tapered', 'short', 'twisted', 'slip', 'hook'];
/** Pairs that can be told apart with tape, feeler and reference bar. */
const PAIRS: readonly (readonly [FaultKind, FaultKind])[] = [
  ['racked', 'twisted'],
  ['racked', 'short'],
  ['racked', 'slip'],
  ['racked', 'hook'],
  ['tapered', 'slip'],
  ['short', 'hook'],
  ['twisted', 'tapered'],
  ['hook', 'slip'],
];

export function beginSquaring(options: SquaringOptions): Drill {
  const { seed, level = 2, limits = USUAL_LIMITS } = options;
  const chance = Chance.seeded(seed);
  const nominal = options.nominal ?? {
    w: chance.whole(10, 32) * 50,
    h: chance.whole(12, 32) * 50,
  };
  const kinds =
    options.faults ?? (level === 3 ? chance.pick(PAIRS) : [chance.pick(level === 1 ? PLAIN : ONE_OF_ALL)]);
  const faults = kinds.map((kind) => seeded(kind, limits, chance));
  const worn = faults.find((fault) => fault.kind === 'hook')?.mm ?? 0;
  const hidden = {
    faults,
    frame: newFrame(faults, nominal, limits, chance),
    tape: newTape(chance, worn),
    spring: chance.between(0.1, 0.3),
  };
  return {
    seed,
    level,
    nominal,
    limits,
    chance: chance.state,
    hidden,
    start: 'hook',
    taken: [],
    flats: [],
    said: [],
    figure: 0,
    pieces: PIECES,
    minute: 0,
    log: [],
  };
}

/** Fault sizes follow the limits: clearly outside, but never obvious at a glance. */
function seeded(kind: FaultKind, limits: SquaringLimits, chance: Chance): Fault {
  switch (kind) {
    case 'racked':
      return { kind, mm: chance.signed(2 * limits.diagonals, 5 * limits.diagonals) };
    case 'tapered':
      // Each of the two is off by this much: outside the size limit, and twice that apart.
      return { kind, mm: chance.between(1.4 * limits.size, 2 * limits.size), at: chance.pick(MEMBERS) };
    case 'short':
      return { kind, mm: -chance.between(1.7 * limits.size, 3 * limits.size), at: chance.pick(MEMBERS) };
    case 'twisted':
      return { kind, mm: chance.signed(1.8 * limits.flat, 5 * limits.flat) };
    case 'slip':
      return { kind, mm: chance.pick([-10, -6, -5, -4, 4, 5, 6, 10]), at: chance.pick(SQUARE_KEYS) };
    case 'hook':
      return { kind, mm: chance.signed(1.3, 2.3) };
  }
}

const OPPOSITE: Readonly<Record<FrameMember, FrameMember>> = {
  top: 'bottom',
  bottom: 'top',
  left: 'right',
  right: 'left',
};

function newFrame(faults: readonly Fault[], nominal: Nominal, limits: SquaringLimits, chance: Chance): Frame {
  const cut = () => chance.between(-0.2, 0.2) * Math.min(1, limits.size, limits.sides);
  const sides: Record<FrameMember, number> = {
    top: nominal.w + cut(),
    bottom: nominal.w + cut(),
    left: nominal.h + cut(),
    right: nominal.h + cut(),
  };
  let difference = chance.between(-0.3, 0.3) * limits.diagonals;
  let twist = chance.between(-0.3, 0.3) * limits.flat;
  for (const { kind, mm, at } of faults) {
    if (kind === 'racked') difference = mm;
    if (kind === 'twisted') twist = mm;
    if (kind === 'short') sides[at as FrameMember] += mm;
    if (kind === 'tapered') {
      sides[at as FrameMember] += mm;
      sides[OPPOSITE[at as FrameMember]] -= mm;
    }
  }
  return { sides, difference, twist };
}
