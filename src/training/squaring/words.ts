/** The squaring drill in words: the input it accepts, the state of the bench, and the result. */
import type { Problem } from '../../base/problem.js';
import { figure } from '../../measure/decision.js';
import type { Corner } from '../../measure/quadrilateral.js';
import { SQUARE_KEYS, type SquareKey } from '../../measure/types.js';
import { parseReading } from '../../measure/units.js';
import { trainingProblem } from '../messages.js';
import { trainSays } from '../words.js';
import {
  type Diagonal,
  type Drill,
  FAULTS,
  type FaultKind,
  type FrameMember,
  MEMBERS,
  OPEN_MINUTES,
  type Remark,
  type SquaringAction,
  TAPE,
} from './model.js';
import type { SquaringScore } from './remarks.js';

export const SQUARING_HELP: readonly string[] = [
  trainSays('read-top-bottom'),
  trainSays('bar-hold-tape'),
  trainSays('start-hook-measure'),
  trainSays('flat-feeler-under'),
  trainSays('say-racked-tapered'),
  trainSays('push-bl-tr'),
  trainSays('press-bl-br'),
  trainSays('recut-top-bottom'),
  trainSays('hint-what-calculator'),
  trainSays('snag-stop-cannot'),
  trainSays('done-pass-frame'),
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
  const typed = { line: line.trim() };
  const no = (problem: Problem) => ({ problem });
  if (more.length > 0) return no(trainingProblem('train.action/squaring-one', typed));
  const key = KEYS[first];
  switch (verb) {
    case 'read':
      return key ? { action: { do: 'read', key } } : no(trainingProblem('train.action/squaring-read', typed));
    case 'bar':
    case 'flat':
    case 'hint':
    case 'done':
    case 'snag':
      return first === ''
        ? { action: { do: verb } }
        : no(trainingProblem('train.action/squaring-alone', { ...typed, verb }));
    case 'start':
      return first === 'hook' || first === '100'
        ? { action: { do: 'start', from: first } }
        : no(trainingProblem('train.action/squaring-start', typed));
    case 'say': {
      const fault = FAULTS.find((each) => each === first);
      if (!fault) return no(trainingProblem('train.action/squaring-fault', { ...typed, faults: FAULTS }));
      const at = KEYS[second];
      if (second !== '' && !at) return no(trainingProblem('train.action/squaring-where', typed));
      if ((fault === 'short' || fault === 'slip') && !at)
        return no(trainingProblem('train.action/squaring-where-fault', { ...typed, fault }));
      return { action: { do: 'say', fault: fault satisfies FaultKind, ...(at ? { at } : {}) } };
    }
    case 'push':
    case 'press':
    case 'recut': {
      const mm = parseReading(second, { unit: 'mm' });
      if (!mm.ok)
        return no(
          trainingProblem('train.action/squaring-far', {
            ...typed,
            example: `${verb} ${first || (verb === 'press' ? 'tr' : verb === 'push' ? 'bl-tr' : 'top')}`,
          }),
        );
      if (mm.value <= 0) return no(trainingProblem('train.action/squaring-zero', typed));
      if (verb === 'push')
        return key === 'bl_tr' || key === 'br_tl'
          ? { action: { do: 'push', diagonal: key satisfies Diagonal, mm: mm.value } }
          : no(trainingProblem('train.action/squaring-push', typed));
      if (verb === 'press')
        return CORNERS.includes(first)
          ? { action: { do: 'press', corner: first as Corner, mm: mm.value } }
          : no(trainingProblem('train.action/squaring-press', typed));
      return MEMBERS.some((each) => each === first)
        ? { action: { do: 'recut', member: first as FrameMember, mm: mm.value } }
        : no(trainingProblem('train.action/squaring-recut', typed));
    }
    default:
      return no(trainingProblem('train.action/squaring-help', typed));
  }
}

export function squaringTask(drill: Drill): string[] {
  const { nominal, limits } = drill;
  return [
    trainSays('squaring-drill-level', {
      seed: drill.seed,
      level: drill.level,
      w: figure(nominal.w),
      h: figure(nominal.h),
    }),
    trainSays('diagonal-drawing-sealant', {
      w: figure(Math.hypot(nominal.w, nominal.h)),
      openMinutes: OPEN_MINUTES,
    }),
    trainSays('must-every-side', {
      limits: limits.size,
      sides: limits.sides,
      diagonals: limits.diagonals,
      flat: limits.flat,
    }),
    trainSays('you-have-feelers', { tape: TAPE.title, pieces: drill.pieces }),
    trainSays('find-out-what'),
  ];
}

export const squaringStanding = (drill: Drill): string =>
  trainSays(drill.start === 'hook' ? 'squaring-standing-hook' : 'squaring-standing-mark', {
    minute: String(drill.minute),
    of: String(OPEN_MINUTES),
    pieces: String(drill.pieces),
  });

export function scoreText(score: SquaringScore): string[] {
  return [
    trainSays(score.passed ? 'points-passed' : 'points-not-passed', { points: String(score.points) }),
    trainSays('what-hidden'),
    ...score.faults.map(
      (fault) => `  ${trainSays(fault.found ? 'fault-named' : 'fault-not-named', { fault: fault.text })}`,
    ),
    trainSays('tolerance-reached'),
    ...score.reached.map(
      ({ title, reached, limit }) =>
        `  ${trainSays(reached > limit + 1e-9 ? 'reached-outside' : 'reached-within', {
          title,
          reached: figure(reached),
          limit: figure(limit),
        })}`,
    ),
    trainSays('decisions', { decisions: score.decisions }),
    ...score.remarks
      .filter((remark) => remark.about !== 'reading')
      .map((remark) => `  ${remark.good ? '+' : '-'} ${remarkText(remark)}`),
    trainSays('drill-readings'),
    ...score.remarks
      .filter((remark) => remark.about === 'reading')
      .map((remark) => `  ${remarkText(remark)}`),
  ];
}

const remarkText = ({ text, points }: Remark): string =>
  points < 0 ? trainSays('remark-points', { remark: text, points: String(points) }) : text;
