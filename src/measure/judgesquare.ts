import { type AdviceOptions, squareAdvice, squareSays, UNSEEN } from './advice.js';
import { assess, decisionText, figure, NO_LIMIT, signed, worst } from './decision.js';
import type { Wanted } from './fitness.js';
import { bandFor, type Limit, type LimitBand, type LimitsFile, saysText } from './limits.js';
import { LENGTH_NAMES, lookForSquareMisread } from './misread.js';
import {
  ASSUMED,
  type Nominal,
  nominalOf,
  type SquareOptions,
  type SquareSolution,
  solveSquare,
  toolsOf,
  valuesOf,
} from './square.js';
import { coverageFactor } from './stats.js';
import {
  type DecisionRule,
  type Instrument,
  type MisreadQuestion,
  type Outcome,
  type Reading,
  type ReadingUnit,
  type RuleUsed,
  SQUARE_KEYS,
  type SquareKey,
  type Verdict,
} from './types.js';
import {
  differenceUncertainty,
  expectedU,
  readingUncertainty,
  type Temperature,
  temperatureCorrection,
} from './uncertainty.js';
import { tidy } from './units.js';
import { bind, coarseNote, confirmedNote, howToResolve, ruleUsed } from './verdict.js';
import { measureSays, measureWords } from './words.js';

export interface SquareQuestion {
  /** Any of the six lengths, each with its repeats; `value` in mm, offset applied. */
  readonly readings: Readonly<
    Partial<Record<SquareKey, readonly Pick<Reading, 'value' | 'instrument' | 'confirmed'>[]>>
  >;
  readonly nominal?: Nominal | undefined;
  readonly limits: readonly string[];
  /** The current instrument; a reading's own `instrument` id takes precedence if it is in `instruments`. */
  readonly instrument?: Instrument | undefined;
  readonly rule: DecisionRule;
  readonly cured?: boolean | undefined;
  /** The person was asked about a likely misread and confirmed the readings (also if any one reading is confirmed). */
  readonly confirmed?: boolean | undefined;
  readonly plausible?: number | undefined;
  readonly read?: ReadingUnit | undefined;
  /** Of the frame when measured: sizes are then corrected to 20 degrees. Differences need no correction. */
  readonly temperature?: Temperature | undefined;
  readonly instruments?: readonly Instrument[] | undefined;
  readonly wanted?: Wanted | undefined;
  readonly now?: string | undefined;
}

export interface SquareJudgement {
  readonly verdict: Verdict;
  readonly adjustment: SquareSolution;
  /** Ask this before the verdict counts, unless the readings are confirmed. */
  readonly question?: MisreadQuestion;
}

/** Beyond this multiple of the 95 % bound (99.9 %), readings are not judged even when confirmed. */
const HOPELESS = 3.29 / 1.96;

/** Total: never throws. Readings that do not close are judged only if confirmed and not hopeless. */
export function judgeSquare(question: SquareQuestion, file: LimitsFile): SquareJudgement {
  const { nominal, rule } = question;
  const confirmed =
    question.confirmed === true ||
    Object.values(question.readings).some((list) => list?.some((r) => r.confirmed));
  const tools: Pick<SquareOptions, 'instrument' | 'instruments'> = {
    ...(question.instrument ? { instrument: question.instrument } : {}),
    ...toolsOf(question.readings, question.instruments),
  };
  const solution = solveSquare(valuesOf(question.readings), { ...(nominal ? { nominal } : {}), ...tools });
  const asked = lookForSquareMisread({
    solution,
    readings: question.readings,
    ...(nominal ? { nominal } : {}),
    ...(question.plausible === undefined ? {} : { plausible: question.plausible }),
    ...(question.instrument ? { instrument: question.instrument } : {}),
    ...(question.read === undefined ? {} : { read: question.read }),
  });
  const judged = question.limits.map((id) =>
    judgeOne(id, question, solution, file, (key) => tools.instruments?.[key] ?? tools.instrument),
  );
  const open =
    solution.kind === 'impossible' ||
    (solution.closes === false && (!confirmed || solution.misclosureRatio! > HOPELESS));
  const rules = judged
    .flatMap((one) => one.rules)
    .map((used) => (open ? { ...used, outcome: 'not-proven' as const } : used));
  const missing = judged.flatMap((one) => one.missing);
  const outcome = worst([
    ...rules.map((used) => used.outcome),
    ...missing.map((): Outcome => 'not-proven'),
    ...(open ? (['not-proven'] as const) : []),
  ]);
  const { difference, differenceU } = solution;
  const U = difference === undefined ? undefined : coverageFactor(solution.differenceDof!) * differenceU!;
  return {
    adjustment: solution,
    verdict: {
      outcome,
      ...(difference === undefined ? {} : { value: Math.abs(difference), unit: 'mm' }),
      ...(U === undefined ? {} : { uncertainty: U }),
      rules,
      notes: [
        ...(open ? [openNote(solution, confirmed)] : []),
        ...squareSays(solution),
        ...(question.temperature
          ? [measureSays('sizes-corrected', { celsius: String(question.temperature.celsius) })]
          : []),
        ...missing,
        ...(question.limits.length === 0 ? [NO_LIMIT] : [decisionText(rule, U, 'mm')]),
        ...confirmedNote(confirmed),
        ...(open ? [] : judged.flatMap((one) => one.coarse ?? [])),
        ...(open || outcome === 'fail' ? [] : judged.flatMap((one) => one.settle)),
        // Readings that cannot all be true are no basis for pushing anything.
        ...(open ? [UNSEEN] : squareAdvice(solution, adviceOptions(question, file, rules))),
      ],
    },
    ...(asked ? { question: asked } : {}),
  };
}

type Guarded = Extract<DecisionRule, { readonly kind: 'guarded' }>;

interface Judged {
  readonly rules: readonly RuleUsed[];
  readonly missing: readonly string[];
  readonly settle: readonly string[];
  /** Of a pass by too coarse an instrument. */
  readonly coarse?: readonly string[];
}

function judgeOne(
  id: string,
  question: SquareQuestion,
  solution: SquareSolution,
  file: LimitsFile,
  toolOf: (key: SquareKey) => Instrument | undefined,
): Judged {
  const limit = file.byId.get(id);
  if (!limit) return { rules: [], missing: bind([id], file, undefined).missing, settle: [] };
  const figures = figuresFor(limit, { ...question, toolOf }, solution);
  if (figures.length === 0)
    return {
      rules: [],
      missing: [
        measureSays('limit-not-these-why', {
          id,
          title: limit.title,
          why: measureWords(`wanting-${limit.of}`),
        }),
      ],
      settle: [],
    };
  const held = figures.map((one) => {
    const { found, missing } = bind([id], file, one.size);
    const band = found[0]?.band;
    return {
      one,
      band,
      missing,
      outcome: band ? assess(one.value, one.U, band, question.rule) : ('not-proven' as const),
    };
  });
  const missing = held.flatMap((x) => x.missing);
  const banded = held.filter((x): x is typeof x & { band: LimitBand } => x.band !== undefined);
  if (banded.length === 0) return { rules: [], missing, settle: [] };
  // With several figures (four sides), the rule shows the worst: a fail before a not-proven, then the farthest out.
  const rank: readonly Outcome[] = ['pass', 'not-proven', 'fail'];
  const shown = [...banded].sort(
    (a, b) =>
      rank.indexOf(b.outcome) - rank.indexOf(a.outcome) || Math.abs(b.one.value) - Math.abs(a.one.value),
  )[0]!;
  return {
    missing,
    rules: [ruleUsed(limit, shown.band, shown.outcome, saysText(shown.one.says, shown.band, limit.unit))],
    settle:
      shown.outcome === 'not-proven' && question.rule.kind === 'guarded'
        ? settle(question, question.rule, limit, shown.one, shown.band)
        : [],
    coarse:
      shown.outcome === 'pass' && !solution.assumed
        ? coarseNote(
            shown.one.U,
            limit.unit,
            [{ limit, band: shown.band }],
            question.rule,
            question,
            (other) => shown.one.expected(other, 1),
          ).map((note) => measureSays('of-limit', { limit: limit.title, note }))
        : [],
  };
}

function settle(
  question: SquareQuestion,
  rule: Guarded,
  limit: Limit,
  one: Figure,
  band: LimitBand,
): string[] {
  const { instrument } = question;
  const unnamed = measureSays('unnamed-guess');
  const notes = howToResolve({
    value: one.value,
    band,
    rule,
    unit: limit.unit,
    u: one.u,
    taken: Math.min(...Object.values(question.readings).map((list) => list?.length || 1)),
    instrument: instrument ?? ASSUMED,
    expected: one.expected,
    workshop: question.instruments ?? [],
    ...(question.wanted === undefined ? {} : { wanted: question.wanted }),
    ...(question.now === undefined ? {} : { now: question.now }),
  }).map((note) => measureSays('of-limit', { limit: limit.title, note }));
  return instrument ? notes : [unnamed, ...notes];
}

function openNote(solution: SquareSolution, confirmed: boolean): string {
  if (solution.kind === 'impossible') return measureSays('open-impossible');
  if (solution.kind === 'sizes') return measureSays('open-sizes');
  return confirmed ? measureSays('open-confirmed') : measureSays('open');
}

function adviceOptions(
  question: SquareQuestion,
  file: LimitsFile,
  rules: readonly RuleUsed[],
): AdviceOptions {
  const { nominal } = question;
  // A banded limit may differ between width and height; the tighter one decides when to name a member.
  const sides = question.limits
    .map((id) => file.byId.get(id))
    .filter((limit) => limit?.of === 'opposite-sides')
    .flatMap((limit) => [nominal?.w, nominal?.h].map((size) => bandFor(limit!, size)?.high))
    .filter((x) => x !== undefined);
  const diagonals = rules.filter((used) => file.byId.get(used.limit)?.of === 'diagonals');
  return {
    // Leave a passing difference alone.
    ...(diagonals.length > 0 && diagonals.every((used) => used.outcome === 'pass')
      ? { leave: Infinity }
      : {}),
    ...(nominal ? { nominal } : {}),
    ...(question.cured === undefined ? {} : { cured: question.cured }),
    ...(sides.length > 0 ? { sidesEqual: Math.min(...sides) } : {}),
  };
}

interface FigureOptions {
  readonly readings: Readonly<Partial<Record<SquareKey, readonly Pick<Reading, 'value'>[]>>>;
  readonly nominal?: Nominal | undefined;
  readonly temperature?: Temperature | undefined;
  readonly toolOf: (key: SquareKey) => Instrument | undefined;
}

interface Figure {
  readonly value: number;
  readonly u: number;
  readonly U: number;
  readonly size: number | undefined;
  readonly says: string;
  readonly expected: (instrument: Instrument, n: number) => number;
}

function figuresFor(limit: Limit, options: FigureOptions, solution: SquareSolution): Figure[] {
  const { measured, u, difference, differenceU, differenceDof, angles, anglesU } = solution;
  const { nominal } = options;
  const diagonal = nominal ? Math.hypot(nominal.w, nominal.h) : (measured.bl_tr ?? measured.br_tl);
  // For two lengths read with one instrument, its own error cancels, whatever the lengths are.
  const twice = (instrument: Instrument, n: number) =>
    differenceUncertainty({ instrument, value: 0 }, { instrument, value: 0 }).U / Math.sqrt(n);
  switch (limit.of) {
    case 'diagonals':
      if (difference === undefined) return [];
      return [
        {
          value: Math.abs(difference),
          u: differenceU!,
          U: coverageFactor(differenceDof!) * differenceU!,
          size: diagonal,
          says: measureSays('says-diagonals', { apart: figure(Math.abs(difference)) }),
          expected: twice,
        },
      ];
    case 'opposite-sides':
      return (
        [
          ['top', 'bottom'],
          ['left', 'right'],
        ] as const
      ).flatMap(([a, b]): Figure[] => {
        if (measured[a] === undefined || measured[b] === undefined) return [];
        const both = Math.hypot(u[a]!, u[b]!);
        return [
          {
            value: Math.abs(measured[a] - measured[b]),
            u: both,
            U: 2 * both,
            size: nominal ? nominalOf(a, nominal) : measured[a],
            says: measureSays('says-sides', {
              a: LENGTH_NAMES[a],
              b: LENGTH_NAMES[b],
              apart: figure(Math.abs(measured[a] - measured[b])),
            }),
            expected: twice,
          },
        ];
      });
    case 'corner-angle': {
      if (!angles || !anglesU) return [];
      return (['tl', 'tr', 'br', 'bl'] as const).map((corner) => ({
        value: angles[corner] - 90,
        u: anglesU[corner],
        U: 2 * anglesU[corner],
        size: diagonal,
        says: measureSays('says-corner', {
          corner: measureWords(`corner-${corner}`),
          off: signed(angles[corner] - 90),
        }),
        expected: (instrument: Instrument, n: number) =>
          (2 * anglesU[corner] * twice(instrument, n)) / Math.max(1e-9, 2 * differenceU!),
      }));
    }
    case 'deviation':
      if (!nominal) return [];
      return SQUARE_KEYS.filter((key) => key !== 'bl_tr' && key !== 'br_tl').flatMap((key): Figure[] => {
        const value = measured[key];
        if (value === undefined) return [];
        const tool = options.toolOf(key) ?? ASSUMED;
        const { temperature } = options;
        const repeats = options.readings[key]!.map((r) => r.value);
        const full = readingUncertainty(tool, value, repeats, temperature);
        const correction = temperature ? temperatureCorrection(value, temperature.celsius) : 0;
        const off = tidy(value + correction - nominalOf(key, nominal));
        return [
          {
            value: off,
            u: full.u,
            U: full.U,
            size: nominalOf(key, nominal),
            says: measureSays('says-from', {
              length: LENGTH_NAMES[key],
              off: signed(off),
              size: figure(nominalOf(key, nominal)),
            }),
            expected: (instrument, n) => expectedU(instrument, value, n, temperature),
          },
        ];
      });
    case 'value':
    case 'spread':
    case 'pairs':
    case 'rise':
    case 'area':
      return [];
  }
}
