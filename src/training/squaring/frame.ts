/** The simulated frame's geometry: the measuring room's own, so that every number of the drill is true. */
import { figure } from '../../measure/decision.js';
import { type Corner, impliedLength } from '../../measure/quadrilateral.js';
import { type Nominal, nominalOf } from '../../measure/square.js';
import type { SquareKey, SquareSet } from '../../measure/types.js';
import { type Diagonal, type Frame, MEMBERS, type Member, type SquaringLimits } from './model.js';

/** The six true lengths from corner to corner. A corner off the bench lengthens its diagonal a little. */
export function trueLengths(frame: Frame): SquareSet {
  const p = diagonalAt(frame);
  const q = p - frame.difference;
  const lifted = (length: number) => Math.hypot(length, frame.twist);
  return { ...frame.sides, bl_tr: frame.twist > 0 ? lifted(p) : p, br_tl: frame.twist < 0 ? lifted(q) : q };
}

/** bl_tr of the figure that these sides make with this difference of diagonals. The gap is all but linear: secant steps. */
function diagonalAt({ sides, difference }: Frame): number {
  const gap = (p: number) => p - impliedLength('br_tl', { ...sides, bl_tr: p })! - difference;
  let before = Math.hypot((sides.top + sides.bottom) / 2, (sides.left + sides.right) / 2);
  let gapBefore = gap(before);
  let at = before + difference / 2 + 0.01;
  for (let i = 0; i < 12; i++) {
    const gapAt = gap(at);
    if (Math.abs(gapAt) < 1e-10 || gapAt === gapBefore) break;
    const next = at - (gapAt * (at - before)) / (gapAt - gapBefore);
    before = at;
    gapBefore = gapAt;
    at = next;
  }
  return at;
}

/** The frame after one diagonal was pushed in so that it stays `mm` shorter. */
export function pushed(frame: Frame, diagonal: Diagonal, mm: number): Frame {
  const flat = { ...frame, twist: 0 };
  const before = trueLengths(flat);
  const other: Diagonal = diagonal === 'bl_tr' ? 'br_tl' : 'bl_tr';
  const length = before[diagonal] - mm;
  const implied = impliedLength(other, { ...frame.sides, [diagonal]: length }) ?? before[other];
  return { ...frame, difference: diagonal === 'bl_tr' ? length - implied : implied - length };
}

/** The frame after a corner was pressed down so that `mm` of it stays. */
export const pressed = (frame: Frame, corner: Corner, mm: number): Frame => ({
  ...frame,
  twist: frame.twist - (corner === 'bl' || corner === 'tr' ? mm : -mm),
});

/** Feeler gap under each corner with the other three held down, mm. */
export const gapsOf = ({ twist }: Frame): Readonly<Record<Corner, number>> => ({
  bl: Math.max(0, twist),
  tr: Math.max(0, twist),
  br: Math.max(0, -twist),
  tl: Math.max(0, -twist),
});

export const longDiagonal = ({ difference }: Frame): Diagonal => (difference >= 0 ? 'bl_tr' : 'br_tl');

export const memberOff = (frame: Frame, member: Member, nominal: Nominal): number =>
  frame.sides[member] - nominalOf(member, nominal);

export const isMember = (key: SquareKey | undefined): key is Member =>
  MEMBERS.some((member) => member === key);

/** What of the frame lies outside the limits, in words with numbers; empty where it is right. */
export function outside(frame: Frame, nominal: Nominal, limits: SquaringLimits): string[] {
  return tolerance(frame, nominal, limits)
    .filter((each) => each.reached > each.limit + 1e-9)
    .map((each) => `${each.title} ${figure(each.reached)} mm, where ${figure(each.limit)} is allowed`);
}

export interface Tolerance {
  readonly title: string;
  /** As the frame really is, mm. */
  readonly reached: number;
  readonly limit: number;
}

/** Every figure of the true frame beside its limit. */
export function tolerance(frame: Frame, nominal: Nominal, limits: SquaringLimits): Tolerance[] {
  const { top, bottom, left, right } = frame.sides;
  const worst = Math.max(...MEMBERS.map((member) => Math.abs(memberOff(frame, member, nominal))));
  const pair = Math.max(Math.abs(top - bottom), Math.abs(left - right));
  return [
    { title: 'side off its size', reached: worst, limit: limits.size },
    { title: 'opposite sides differ by', reached: pair, limit: limits.sides },
    { title: 'difference of diagonals', reached: Math.abs(frame.difference), limit: limits.diagonals },
    { title: 'corner off the bench', reached: Math.abs(frame.twist), limit: limits.flat },
  ];
}
