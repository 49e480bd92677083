/** What a good fitter would say about each decision, and its cost. Shown to the apprentice at the end. */
import { figure, signed } from '../../measure/decision.js';
import { LENGTH_NAMES } from '../../measure/misread.js';
import { nominalOf } from '../../measure/square.js';
import { SQUARE_KEYS } from '../../measure/types.js';
import { trainSays } from '../words.js';
import {
  DIAGONALS,
  type Drill,
  type Fault,
  type FaultKind,
  type GameEnding,
  HARDEST_PUSH,
  isMember,
  longDiagonal,
  MEMBERS,
  memberOff,
  OPEN_MINUTES,
  outside,
  type Remark,
  type SquaringAction,
  type Tolerance,
  tolerance,
} from './model.js';

/** Remarks on one action, given the truth just before it. */
export function remarksOn(before: Drill, action: SquaringAction, ended: GameEnding | undefined): Remark[] {
  switch (action.do) {
    case 'push':
      return pushRemarks(before, action, ended);
    case 'press':
      return pressRemarks(before, action, ended);
    case 'recut':
      return recutRemarks(before, action, ended);
    case 'say':
      return [sayRemark(before, action)];
    case 'hint':
      return [decision(false, trainSays('hint-asked'), -5)];
    case 'done':
      return doneRemarks(before);
    case 'snag':
      return [snagRemark(before)];
    default:
      return [];
  }
}

const decision = (good: boolean, text: string, points = 0): Remark => ({
  about: 'decision',
  good,
  text,
  points,
});

function pushRemarks(
  before: Drill,
  action: SquaringAction & { do: 'push' },
  ended: GameEnding | undefined,
): Remark[] {
  const { difference } = before.hidden.frame;
  if (ended === 'ruined')
    return [
      decision(
        false,
        action.mm <= HARDEST_PUSH
          ? trainSays('pushed-after-minutes', { openMinutes: OPEN_MINUTES })
          : trainSays('pushed-too-far'),
        -40,
      ),
    ];
  const out: Remark[] = [];
  const read = new Set(now(before));
  if (!DIAGONALS.every((key) => read.has(key)))
    out.push(decision(false, trainSays('pushed-before-both'), -8));
  const short = MEMBERS.some(
    (m) => Math.abs(memberOff(before.hidden.frame, m, before.nominal)) > before.limits.size,
  );
  if (action.diagonal !== longDiagonal(before.hidden.frame))
    out.push(
      decision(
        false,
        trainSays('pushed-which-short', {
          length: LENGTH_NAMES[action.diagonal],
          difference: figure(Math.abs(difference)),
        }),
        -10,
      ),
    );
  else if (Math.abs(difference) <= before.limits.diagonals / 2)
    out.push(
      decision(false, trainSays('diagonals-differed-mm', { difference: figure(Math.abs(difference)) }), -5),
    );
  else
    out.push(decision(true, trainSays('pushed-long-diagonal', { difference: figure(Math.abs(difference)) })));
  if (short) out.push(decision(false, trainSays('member-off-size'), -5));
  return out;
}

function pressRemarks(
  before: Drill,
  action: SquaringAction & { do: 'press' },
  ended: GameEnding | undefined,
): Remark[] {
  if (ended === 'ruined') return [decision(false, trainSays('forced-down-too'), -40)];
  const { twist } = before.hidden.frame;
  const lifted = twist > 0 === (action.corner === 'bl' || action.corner === 'tr');
  if (!before.flats.some((flat) => flat.figure === before.figure))
    return [decision(false, trainSays('pressed-corner-without'), -8)];
  if (!lifted) return [decision(false, trainSays('pressed-corner-lay'), -10)];
  return Math.abs(twist) > before.limits.flat / 2
    ? [decision(true, trainSays('pressed-corner-stood', { twist: figure(Math.abs(twist)) }))]
    : [decision(false, trainSays('corner-stood-off', { twist: figure(Math.abs(twist)) }), -3)];
}

function recutRemarks(
  before: Drill,
  action: SquaringAction & { do: 'recut' },
  ended: GameEnding | undefined,
): Remark[] {
  if (ended === 'ruined') return [decision(false, trainSays('new-piece-begun'), -40)];
  const off = memberOff(before.hidden.frame, action.member, before.nominal);
  const nominal = nominalOf(action.member, before.nominal);
  const out: Remark[] = [];
  if (Math.abs(off) <= before.limits.size) {
    const why = before.hidden.faults.some((fault) => fault.kind === 'hook')
      ? trainSays('worn-hook-made')
      : before.hidden.faults.some((fault) => fault.kind === 'slip' && fault.at === action.member)
        ? trainSays('one-reading-had')
        : trainSays('reading-inside-what');
    out.push(decision(false, trainSays('good-mm', { member: action.member, off: signed(off), why }), -15));
  } else out.push(decision(true, trainSays('mm-off-only', { member: action.member, off: signed(off) })));
  const readings = before.taken.filter((taken) => taken.what === action.member).length;
  if (readings < 2) out.push(decision(false, trainSays(readings === 0 ? 'cut-on-none' : 'cut-on-one'), -5));
  if (Math.abs(action.mm - nominal) > before.limits.size / 2)
    out.push(
      decision(
        false,
        trainSays('cut-drawing-wants', { mm: figure(action.mm), nominal: figure(nominal) }),
        -5,
      ),
    );
  return out;
}

function sayRemark(before: Drill, action: SquaringAction & { do: 'say' }): Remark {
  const { faults } = before.hidden;
  const hit = faults.find((fault) => names(action, fault));
  if (hit)
    return {
      about: 'finding',
      good: true,
      text: trainSays('squaring-found', { hit: faultText(hit) }),
      points: 0,
    };
  const kind = faults.find((fault) => fault.kind === action.fault);
  return {
    about: 'finding',
    good: false,
    text: kind
      ? trainSays('right-but-not', { fault: action.fault, kind: faultText(kind) })
      : trainSays('squaring-not', { fault: FAULT_WORDS[action.fault] }),
    points: kind ? -3 : -5,
  };
}

/** Whether saying this identifies the fault. For a taper, either member of the pair counts, or none. */
function names(said: { readonly fault: FaultKind; readonly at?: string }, fault: Fault): boolean {
  if (said.fault !== fault.kind) return false;
  if (fault.kind === 'tapered') {
    const width = fault.at === 'top' || fault.at === 'bottom';
    return said.at === undefined || (said.at === 'top' || said.at === 'bottom') === width;
  }
  return fault.kind === 'short' || fault.kind === 'slip' ? said.at === fault.at : true;
}

function doneRemarks(before: Drill): Remark[] {
  const out: Remark[] = [];
  const have = now(before);
  const missing = SQUARE_KEYS.filter((key) => !have.includes(key));
  if (missing.length > 0)
    out.push(
      decision(
        false,
        trainSays('passed-without-reading', { missing: missing.map((key) => LENGTH_NAMES[key]).join(', ') }),
        Math.max(-12, -4 * missing.length),
      ),
    );
  if (!DIAGONALS.some((key) => have.filter((each) => each === key).length > 1))
    out.push(decision(false, trainSays('no-diagonal-read'), -4));
  if (!before.flats.some((flat) => flat.figure === before.figure))
    out.push(decision(false, trainSays('passed-without-feeling'), -8));
  if (!before.taken.some((taken) => taken.what === 'bar') && before.start === 'hook')
    out.push(decision(false, trainSays('tape-never-held'), -4));
  if (out.length === 0) out.push(decision(true, trainSays('everything-measured-frame')));
  const wrong = outside(before.hidden.frame, before.nominal, before.limits);
  out.push({
    about: 'result',
    good: wrong.length === 0,
    text:
      wrong.length === 0
        ? trainSays('frame-within-every')
        : trainSays('frame-outside', { wrong: wrong.join('; ') }),
    points: wrong.length === 0 ? 0 : -40,
  });
  return out;
}

function snagRemark(before: Drill): Remark {
  const wrong = outside(before.hidden.frame, before.nominal, before.limits).length > 0;
  const cannot = before.minute > OPEN_MINUTES || before.pieces === 0;
  if (wrong && cannot) return decision(true, trainSays('stopped-where-nothing'), -15);
  return decision(
    false,
    wrong ? trainSays('stopped-though-could') : trainSays('stopped-though-frame'),
    wrong ? -25 : -30,
  );
}

/** Lengths read of the current frame. Sides read before a push still count: pushing does not change them. */
function now(drill: Drill): (typeof SQUARE_KEYS)[number][] {
  const lastRecut = drill.log.reduce((n, entry, i) => (entry.action.do === 'recut' ? i : n), -1);
  const sinceRecut = drill.log
    .slice(lastRecut + 1)
    .flatMap(({ action }) => (action.do === 'read' && isMember(action.key) ? [action.key] : []));
  return [
    ...sinceRecut,
    ...drill.taken.flatMap(({ what, figure: of }) =>
      what !== 'bar' && !isMember(what) && of === drill.figure ? [what] : [],
    ),
  ];
}

const FAULT_WORDS: Readonly<Record<FaultKind, string>> = {
  racked: 'racked',
  tapered: 'tapered',
  short: trainSays('one-member-short'),
  twisted: 'twisted',
  slip: trainSays('slipped-reading'),
  hook: trainSays('worn-hook'),
};

/** The seeded fault, worded to fit into a sentence. */
function faultText(fault: Fault): string {
  const { kind, mm } = fault;
  const size = figure(Math.abs(mm));
  const at = fault.at === undefined ? '' : LENGTH_NAMES[fault.at];
  switch (kind) {
    case 'racked':
      return trainSays('fault-racked', { diagonal: LENGTH_NAMES[mm > 0 ? 'bl_tr' : 'br_tl'], size });
    case 'tapered':
      return trainSays('tapered-mm-long', { at, size });
    case 'short':
      return trainSays('cut-mm-short', { at, size });
    case 'twisted':
      return trainSays(mm > 0 ? 'fault-twisted-one' : 'fault-twisted-other', { size });
    case 'slip':
      return trainSays('first-reading-slipped', { at, size });
    case 'hook':
      return trainSays(mm > 0 ? 'fault-hook-long' : 'fault-hook-short', { size });
  }
}

// Drill review: what was hidden, each decision, readings used, and the tolerance reached.

export interface SquaringScore {
  /** 0 to 100. */
  readonly points: number;
  readonly passed: boolean;
  readonly ended: GameEnding | 'open';
  readonly decisions: number;
  readonly readings: number;
  /** Readings that a careful person needs for the work done. */
  readonly par: number;
  /** The hidden faults in words, and whether each was named. */
  readonly faults: readonly { readonly text: string; readonly found: boolean }[];
  readonly reached: readonly Tolerance[];
  readonly remarks: readonly Remark[];
}

/** Points needed for a drill to count as evidence; a house rule of the demonstration. */
const PASS_POINTS = 75;

export function scoreSquaring(drill: Drill): SquaringScore {
  const own = drill.log.flatMap((entry) => entry.remarks);
  const readings = drill.log.filter(({ action }) => action.do === 'read' || action.do === 'bar').length;
  const decided = drill.log.filter(({ action }) =>
    ['push', 'press', 'recut', 'say', 'done', 'snag'].includes(action.do),
  );
  const count = (what: string) => drill.log.filter(({ action }) => action.do === what).length;
  const par = 14 + 4 * count('push') + 12 * count('recut');
  const faults = drill.hidden.faults.map((fault) => ({
    text: faultText(fault),
    found: drill.said.some((said) => names(said, fault)),
  }));
  const remarks: Remark[] = [
    ...own,
    ...faults
      .filter((fault) => !fault.found)
      .map(
        (fault): Remark => ({
          about: 'finding',
          good: false,
          text: trainSays('squaring-not-named', { fault: fault.text }),
          points: -8,
        }),
      ),
    {
      about: 'reading',
      good: readings <= par,
      text:
        readings <= par
          ? trainSays('readings-where-up', { readings, par })
          : trainSays('readings-where-would', { readings, par }),
      points: -Math.min(15, Math.max(0, readings - par)),
    },
  ];
  const points = Math.max(
    0,
    Math.min(
      100,
      remarks.reduce((total, remark) => total + remark.points, 100),
    ),
  );
  return {
    points,
    passed: drill.ended === 'right' && points >= PASS_POINTS,
    ended: drill.ended ?? 'open',
    decisions: decided.length,
    readings,
    par,
    faults,
    reached: tolerance(drill.hidden.frame, drill.nominal, drill.limits),
    remarks,
  };
}
