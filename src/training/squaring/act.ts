/** One action at the practice bench: the simulation responds, but keeps its verdict on the decision to itself. */
import { squareAdvice, squareSays } from '../../measure/advice.js';
import { asMeasured, asMeasuredText } from '../../measure/asmeasured.js';
import { figure } from '../../measure/decision.js';
import { LENGTH_NAMES } from '../../measure/misread.js';
import { solveSquare } from '../../measure/square.js';
import type { SQUARE_KEYS } from '../../measure/types.js';
import { Chance } from '../chance.js';
import { trainSays } from '../words.js';
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
        says: [action.from === 'hook' ? trainSays('you-measure-from') : trainSays('you-start-mm')],
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
        says: [trainSays('feeler-under-each', { bl: felt.bl, br: felt.br, tr: felt.tr, tl: felt.tl })],
      };
    }
    case 'say':
      return {
        said: [...drill.said, { fault: action.fault, ...(action.at ? { at: action.at } : {}) }],
        says: [trainSays('noted-what-told')],
      };
    case 'push': {
      if (isSet(drill)) return ruin(trainSays('sealant-had-set'));
      if (action.mm > HARDEST_PUSH) return ruin(trainSays('mm-one-go', { mm: figure(action.mm) }));
      const kept = action.mm * (1 - drill.hidden.spring);
      return changed(drill, pushed(drill.hidden.frame, action.diagonal, kept), [
        trainSays('pushed-let-go', { mm: figure(action.mm), length: LENGTH_NAMES[action.diagonal] }),
      ]);
    }
    case 'press': {
      if (isSet(drill)) return ruin(trainSays('sealant-had-set-mitre'));
      if (action.mm > HARDEST_PUSH) return ruin(trainSays('mm-one-go-bent', { mm: figure(action.mm) }));
      const kept = action.mm * (1 - drill.hidden.spring);
      return changed(drill, pressed(drill.hidden.frame, action.corner, kept), [
        trainSays('pressed-down-let', { mm: figure(action.mm) }),
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
            ? trainSays('passed-right')
            : trainSays('passed-but-wrong', { wrong: wrong.join('; ') }),
        ],
      };
    }
    case 'snag':
      return { ended: 'snagged', says: [trainSays('work-stopped-snag')] };
  }
}

function taken(drill: Drill, what: Taken['what'], length: number, slip: number, chance: Chance): Outcome {
  const value = tapeReading(drill.hidden.tape, length, drill.start, chance, slip);
  const name = what === 'bar' ? trainSays('reference-bar', { bar: BAR.toFixed(1) }) : LENGTH_NAMES[what];
  const told = { what: name, value: value.toFixed(1) };
  return {
    taken: [...drill.taken, { what, start: drill.start, value, figure: drill.figure }],
    says: [
      drill.start === '100'
        ? trainSays('tape-reads-mark', { ...told, shown: (value + 100).toFixed(1) })
        : trainSays('tape-reads', told),
    ],
  };
}

/** A new piece means rejoining two corners with fresh sealant: slightly racked again, clock back to 0. */
function recut(drill: Drill, action: SquaringAction & { do: 'recut' }, chance: Chance): Outcome {
  if (isSet(drill)) return ruin(trainSays('corners-had-set'));
  if (drill.pieces === 0) return ruin(trainSays('no-profile-left'));
  const { frame } = drill.hidden;
  const fresh = {
    sides: { ...frame.sides, [action.member]: action.mm + chance.between(-0.15, 0.15) },
    difference: chance.between(-2, 2) * drill.limits.diagonals,
    twist: chance.between(-0.5, 0.5) * drill.limits.flat,
  };
  return {
    ...changed(drill, fresh, [
      trainSays('new-cut-frame', { member: action.member, mm: figure(action.mm), pieces: drill.pieces - 1 }),
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

const ruin = (text: string): Outcome => ({ ended: 'ruined', says: [text, trainSays('frame-ruined')] });

/** What the measure room makes of the readings so far: the same sentences as at the real bench. */
function hint(drill: Drill): string[] {
  const readings = readingsNow(drill);
  if (Object.keys(readings).length < 2) return [trainSays('too-few-readings')];
  const solution = solveSquare(readings, { nominal: drill.nominal, instrument: TAPE });
  const open = solution.closes === false ? [trainSays('readings-do-not')] : [];
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
