/** One action at the practice bench: the simulation responds, but keeps its verdict on the decision to itself. */
import { squareAdvice, squareSays } from '../../measure/advice.js';
import { asMeasured, asMeasuredText } from '../../measure/asmeasured.js';
import { figure } from '../../measure/decision.js';
import { LENGTH_NAMES } from '../../measure/misread.js';
import { solveSquare } from '../../measure/square.js';
import type { SQUARE_KEYS } from '../../measure/types.js';
import { Chance } from '../chance.js';
import {
  BAR,
  type Drill,
  feel,
  type GameEnding,
  gapsOf,
  HARDEST_PUSH,
  MINUTES,
  OPEN_MINUTES,
  outside,
  pressed,
  pushed,
  type SquaringAction,
  TAPE,
  type Taken,
  tapeReading,
  trueLengths,
} from './model.js';
import { remarksOn } from './remarks.js';

/** Total function; an ended drill stays unchanged. */
export function actSquaring(drill: Drill, action: SquaringAction): Drill {
  if (drill.ended) return drill;
  const chance = Chance.from(drill.chance);
  const minute = drill.minute + MINUTES[action.do];
  const { says, ...changes } = done({ ...drill, minute }, action, chance);
  const after = { ...drill, minute, ...changes };
  const remarks = remarksOn(drill, action, after.ended);
  return {
    ...after,
    chance: chance.state,
    log: [...drill.log, { action, says, remarks, minute: drill.minute }],
  };
}

const isSet = (drill: Drill): boolean => drill.minute > OPEN_MINUTES;

/** Readings of the frame in its current state, by length: the basis for any judgement. */
function readingsNow(drill: Drill): Partial<Record<(typeof SQUARE_KEYS)[number], number[]>> {
  const out: Partial<Record<(typeof SQUARE_KEYS)[number], number[]>> = {};
  for (const { what, value, figure: of } of drill.taken)
    if (what !== 'bar' && of === drill.figure) out[what] = [...(out[what] ?? []), value];
  return out;
}

type Outcome = { readonly says: readonly string[] } & Partial<Drill>;

function done(drill: Drill, action: SquaringAction, chance: Chance): Outcome {
  switch (action.do) {
    case 'read': {
      const slipping = drill.hidden.faults.find((fault) => fault.kind === 'slip' && fault.at === action.key);
      const first = !drill.taken.some((taken) => taken.what === action.key);
      const length = trueLengths(drill.hidden.frame)[action.key];
      return taken(drill, action.key, length, slipping && first ? slipping.mm : 0, chance);
    }
    case 'bar':
      return taken(drill, 'bar', BAR, 0, chance);
    case 'start':
      return {
        start: action.from,
        says: [
          action.from === 'hook'
            ? 'You measure from the hook.'
            : 'You start at the 100 mm mark; 100 is taken off each reading for you.',
        ],
      };
    case 'flat': {
      const gaps = gapsOf(drill.hidden.frame);
      const felt = {
        bl: feel(gaps.bl, chance),
        br: feel(gaps.br, chance),
        tr: feel(gaps.tr, chance),
        tl: feel(gaps.tl, chance),
      };
      return {
        flats: [...drill.flats, { figure: drill.figure, gaps: felt }],
        says: [
          `Feeler under each corner, the other three held down: bottom left ${felt.bl}, bottom right ${felt.br}, top right ${felt.tr}, top left ${felt.tl}.`,
        ],
      };
    }
    case 'say':
      return {
        said: [...drill.said, { fault: action.fault, ...(action.at ? { at: action.at } : {}) }],
        says: ['Noted. What it was is told at the end.'],
      };
    case 'push': {
      if (isSet(drill))
        return ruin('The sealant had set. The corner gave with a crack, and its seal is broken inside.');
      if (action.mm > HARDEST_PUSH)
        return ruin(`${figure(action.mm)} mm in one go opened two mitres and tore the sealant.`);
      const kept = action.mm * (1 - drill.hidden.spring);
      return changed(drill, pushed(drill.hidden.frame, action.diagonal, kept), [
        `Pushed in by ${figure(action.mm)} at ${LENGTH_NAMES[action.diagonal]}, and let go: some of it sprang back. Measure again.`,
      ]);
    }
    case 'press': {
      if (isSet(drill)) return ruin('The sealant had set. The mitre opened when the corner was forced down.');
      if (action.mm > HARDEST_PUSH) return ruin(`${figure(action.mm)} mm in one go bent the member.`);
      const kept = action.mm * (1 - drill.hidden.spring);
      return changed(drill, pressed(drill.hidden.frame, action.corner, kept), [
        `Pressed down by ${figure(action.mm)}, and let go: some of it sprang back. Feel again.`,
      ]);
    }
    case 'recut':
      return recut(drill, action, chance);
    case 'hint':
      return { says: hint(drill) };
    case 'done': {
      const wrong = outside(drill.hidden.frame, drill.nominal, drill.limits);
      const ended: GameEnding = wrong.length === 0 ? 'right' : 'passed-wrong';
      return {
        ended,
        says: [
          wrong.length === 0
            ? 'Passed on, and it is right.'
            : `Passed on, but it is wrong: ${wrong.join('; ')}.`,
        ],
      };
    }
    case 'snag':
      return { ended: 'snagged', says: ['Work stopped and a snag raised.'] };
  }
}

function taken(drill: Drill, what: Taken['what'], length: number, slip: number, chance: Chance): Outcome {
  const value = tapeReading(drill.hidden.tape, length, drill.start, chance, slip);
  const name = what === 'bar' ? `reference bar of ${BAR.toFixed(1)}` : LENGTH_NAMES[what];
  const raw = drill.start === '100' ? ` (the tape shows ${(value + 100).toFixed(1)})` : '';
  return {
    taken: [...drill.taken, { what, start: drill.start, value, figure: drill.figure }],
    says: [`${name}: ${value.toFixed(1)}${raw}`],
  };
}

/** A new piece means rejoining two corners with fresh sealant: slightly racked again, clock back to 0. */
function recut(drill: Drill, action: SquaringAction & { do: 'recut' }, chance: Chance): Outcome {
  if (isSet(drill)) return ruin('The corners had set. Sawing them open spoiled the members beside as well.');
  if (drill.pieces === 0) return ruin('There is no profile left for another piece.');
  const { frame } = drill.hidden;
  const fresh = {
    sides: { ...frame.sides, [action.member]: action.mm + chance.between(-0.15, 0.15) },
    difference: chance.between(-2, 2) * drill.limits.diagonals,
    twist: chance.between(-0.5, 0.5) * drill.limits.flat,
  };
  return {
    ...changed(drill, fresh, [
      `A new ${action.member} of ${figure(action.mm)} is cut and the frame put together again with fresh sealant. ${drill.pieces - 1} lengths of profile are left.`,
    ]),
    pieces: drill.pieces - 1,
    minute: 0,
  };
}

const changed = (drill: Drill, frame: Drill['hidden']['frame'], says: readonly string[]): Outcome => ({
  says,
  hidden: { ...drill.hidden, frame },
  figure: drill.figure + 1,
});

const ruin = (text: string): Outcome => ({ ended: 'ruined', says: [text, 'The frame is ruined.'] });

/** What the measure room makes of the readings so far: the same sentences as at the real bench. */
function hint(drill: Drill): string[] {
  const readings = readingsNow(drill);
  if (Object.keys(readings).length < 2)
    return ['Too few readings of the frame as it stands to say anything.'];
  const solution = solveSquare(readings, { nominal: drill.nominal, instrument: TAPE });
  const open =
    solution.closes === false ? ['The readings do not close: one of them may be wrong. Repeat them.'] : [];
  return [
    ...open,
    ...squareSays(solution),
    ...squareAdvice(solution, {
      nominal: drill.nominal,
      sidesEqual: drill.limits.sides,
      cured: isSet(drill),
    }),
  ];
}

// The frame as the apprentice's own readings show it: the measure room's drawing, using nothing of the hidden frame.

/** Lines for the given columns and rows; empty until both diagonals of the current frame have been read. */
export function squaringPicture(drill: Drill, columns: number, rows: number, ascii: boolean): string[] {
  const solution = solveSquare(readingsNow(drill), { nominal: drill.nominal, instrument: TAPE });
  const frame = asMeasured(solution, drill.nominal);
  return frame ? asMeasuredText(frame, { columns, rows, ascii }) : [];
}
