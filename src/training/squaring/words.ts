/** The squaring drill in words: the input it accepts, the state of the bench, and the result. */
import type { Problem } from '../../base/problem.js';
import { figure } from '../../measure/decision.js';
import type { Corner } from '../../measure/quadrilateral.js';
import { SQUARE_KEYS, type SquareKey } from '../../measure/types.js';
import { parseReading } from '../../measure/units.js';
import { trainingProblem } from '../messages.js';
import {
  type Diagonal,
  type Drill,
  FAULTS,
  type FaultKind,
  type FrameMember,
  MEMBERS,
  OPEN_MINUTES,
  type SquaringAction,
  TAPE,
} from './model.js';
import type { SquaringScore } from './remarks.js';

export const SQUARING_HELP: readonly string[] = [
  'read top|bottom|left|right|bl-tr|br-tl   hold the tape there (from corner to corner)',
  'bar                                      hold the tape against the reference bar of 1000.0',
  'start hook|100                           measure from the hook, or from the 100 mm mark',
  'flat                                     feeler under each corner on the flat bench',
  'say racked|tapered|short|twisted|slip|hook [where]   name what is wrong: say short left, say slip bl-tr',
  'push bl-tr|br-tl MM                      push that diagonal in by so much, and let go',
  'press bl|br|tr|tl MM                     press that corner down by so much, and let go',
  'recut top|bottom|left|right MM           cut that member anew and put the frame together again',
  'hint                                     what the calculator says of the readings (costs points)',
  'snag                                     stop, it cannot be put right',
  'done                                     pass the frame on',
];

const KEYS: Readonly<Record<string, SquareKey>> = Object.fromEntries(
  SQUARE_KEYS.flatMap((key) => [
    [key, key],
    [key.replace('_', '-'), key],
  ]),
);
const CORNERS: readonly string[] = ['bl', 'br', 'tr', 'tl'];

export function parseSquaring(
  line: string,
): { readonly action: SquaringAction } | { readonly problem: Problem } {
  const [verb = '', first = '', second = '', ...more] = line.trim().toLowerCase().split(/\s+/);
  const no = (todo: string) => ({
    problem: trainingProblem('train.action', `"${line.trim()}" is not understood.`, undefined, todo),
  });
  if (more.length > 0) return no('Type one action a line.');
  const key = KEYS[first];
  switch (verb) {
    case 'read':
      return key ? { action: { do: 'read', key } } : no('Say what to read: read top, read bl-tr.');
    case 'bar':
    case 'flat':
    case 'hint':
    case 'done':
    case 'snag':
      return first === '' ? { action: { do: verb } } : no(`Type ${verb} alone.`);
    case 'start':
      return first === 'hook' || first === '100'
        ? { action: { do: 'start', from: first } }
        : no('Type start hook or start 100.');
    case 'say': {
      const fault = FAULTS.find((each) => each === first);
      if (!fault) return no(`Say one of: ${FAULTS.join(', ')}.`);
      const at = KEYS[second];
      if (second !== '' && !at) return no('Say where by a length: top, bottom, left, right, bl-tr or br-tl.');
      if ((fault === 'short' || fault === 'slip') && !at) return no(`Say where: say ${fault} top.`);
      return { action: { do: 'say', fault: fault satisfies FaultKind, ...(at ? { at } : {}) } };
    }
    case 'push':
    case 'press':
    case 'recut': {
      const mm = parseReading(second, { unit: 'mm' });
      if (!mm.ok)
        return no(
          `Say how far in mm: ${verb} ${first || (verb === 'press' ? 'tr' : verb === 'push' ? 'bl-tr' : 'top')} 3`,
        );
      if (mm.value <= 0) return no('The length must be more than 0.');
      if (verb === 'push')
        return key === 'bl_tr' || key === 'br_tl'
          ? { action: { do: 'push', diagonal: key satisfies Diagonal, mm: mm.value } }
          : no('A diagonal is pushed: bl-tr or br-tl.');
      if (verb === 'press')
        return CORNERS.includes(first)
          ? { action: { do: 'press', corner: first as Corner, mm: mm.value } }
          : no('A corner is pressed: bl, br, tr or tl.');
      return MEMBERS.some((each) => each === first)
        ? { action: { do: 'recut', member: first as FrameMember, mm: mm.value } }
        : no('A member is cut: top, bottom, left or right.');
    }
    default:
      return no('Type help for usage.');
  }
}

export function squaringTask(drill: Drill): string[] {
  const { nominal, limits } = drill;
  return [
    `Squaring drill ${drill.seed}, level ${drill.level}. A frame of ${figure(nominal.w)} x ${figure(nominal.h)}, seen from outside, lies on the flat bench.`,
    `Diagonal by the drawing ${figure(Math.hypot(nominal.w, nominal.h))}. The sealant stays open for ${OPEN_MINUTES} minutes.`,
    `It must be: every side within ${limits.size} mm, opposite sides within ${limits.sides}, diagonals within ${limits.diagonals}, each corner within ${limits.flat} of the bench.`,
    `You have: ${TAPE.title}; feelers; a reference bar; ${drill.pieces} spare lengths of profile.`,
    'Find out what is wrong, say so, put it right, and pass it on. Type help for what you can do.',
  ];
}

export const squaringStanding = (drill: Drill): string =>
  `${drill.minute} of ${OPEN_MINUTES} minutes, measuring from the ${drill.start === 'hook' ? 'hook' : '100 mm mark'}, ${drill.pieces} spare lengths`;

export function scoreText(score: SquaringScore): string[] {
  return [
    `${score.points} of 100 points; ${score.passed ? 'passed' : 'not passed'}.`,
    'What was hidden:',
    ...score.faults.map((fault) => `  ${fault.text} (${fault.found ? 'named' : 'not named'})`),
    'Tolerance reached:',
    ...score.reached.map(
      ({ title, reached, limit }) =>
        `  ${title} ${figure(reached)} mm of ${figure(limit)}${reached > limit + 1e-9 ? ', outside' : ''}`,
    ),
    `Decisions (${score.decisions}):`,
    ...score.remarks
      .filter((remark) => remark.about !== 'reading')
      .map(
        (remark) =>
          `  ${remark.good ? '+' : '-'} ${remark.text}${remark.points < 0 ? ` (${remark.points})` : ''}`,
      ),
    'Readings:',
    ...score.remarks
      .filter((remark) => remark.about === 'reading')
      .map((remark) => `  ${remark.text}${remark.points < 0 ? ` (${remark.points})` : ''}`),
  ];
}
