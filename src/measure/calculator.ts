/** Squareness calculator: any frame's readings in; figures and verdict out. Pure; the command prints it. */
import { judgeSquare, type SquareJudgement, type SquareQuestion } from './judgesquare.js';
import { type LimitsFile, parseLimits } from './limits.js';
import type { Outcome, SourceKindOfRule, SquareKey } from './types.js';

/** Null for figures the readings do not give. Lengths in mm, angles in degrees. */
interface SquareJson {
  /** Measured br_tl minus the br_tl implied by the other five. */
  readonly misclosure: number | null;
  readonly misclosure_sd: number | null;
  readonly closes: boolean | null;
  readonly adjusted: Readonly<Record<SquareKey, number>> | null;
  /** Adjusted minus measured. */
  readonly residuals: Readonly<Record<SquareKey, number>> | null;
  readonly angles: Readonly<Record<'tl' | 'tr' | 'br' | 'bl', number>> | null;
  /** How far the top is offset to the right over the height. */
  readonly racking_mm: number | null;
  /** Measured bl_tr minus br_tl. */
  readonly diagonal_difference: number | null;
  readonly u_difference: number | null;
  readonly verdict: Outcome;
  /** What is asked before the verdict counts: readings that are likely to be read wrongly. */
  readonly question: string | null;
  readonly limits: readonly {
    readonly id: string;
    readonly title: string;
    readonly says: string;
    readonly low?: number;
    readonly high?: number;
    readonly source_kind: SourceKindOfRule;
    readonly source: string;
    readonly outcome: Outcome;
  }[];
}

export interface SquareReport {
  readonly json: SquareJson;
  readonly judgement: SquareJudgement;
}

export type SquareReportInput = SquareQuestion & { readonly file: LimitsFile };

/** Limits used for a frame if none are given. */
const DEFAULT_LIMITS = [
  'frame.diagonals.product',
  'frame.diagonals.house',
  'frame.sides-equal',
  'frame.size',
] as const;

/** The published limits only, for a folder without a limits file. */
export function publishedLimits(): LimitsFile {
  const parsed = parseLimits({ file: 'built in', text: PUBLISHED });
  /* v8 ignore next -- the text stands below, and a test parses it */
  if (!parsed.ok) throw new Error('the built-in limits do not parse');
  return parsed.value;
}

const PUBLISHED = `
format: pinchrod-limits 1
limits:
  frame.diagonals.product:
    title: Frame, difference of diagonals (product standard)
    of: diagonals
    most: 4
    source: {kind: published, text: "BS 4873:2009, 6.2"}
  frame.size:
    title: Frame, overall size
    of: deviation
    within: 1.5
    source: {kind: published, text: "BS 4873:2009, 6.1"}
`;

export function squareReport(input: SquareReportInput): SquareReport {
  const { file, ...question } = input;
  const judgement = judgeSquare(question, file);
  return { judgement, json: jsonOf(judgement) };
}

/** The DEFAULT_LIMITS that the workshop defines and the readings support. */
export function applicableLimits({
  file,
  readings,
  nominal,
}: Pick<SquareReportInput, 'file' | 'readings' | 'nominal'>): string[] {
  const read = (key: SquareKey) => (readings[key]?.length ?? 0) > 0;
  const sides = (['top', 'bottom', 'left', 'right'] as const).filter(read);
  const pair = (read('top') && read('bottom')) || (read('left') && read('right'));
  return DEFAULT_LIMITS.filter((id) => {
    const limit = file.byId.get(id);
    if (!limit) return false;
    if (limit.of === 'opposite-sides') return pair;
    return limit.of === 'deviation' ? nominal !== undefined && sides.length > 0 : true;
  });
}

function jsonOf({ adjustment: a, verdict, question }: SquareJudgement): SquareJson {
  const six = a.kind === 'six';
  const each = <K extends string>(record: Readonly<Partial<Record<K, number>>> | undefined) =>
    record === undefined
      ? null
      : (Object.fromEntries(
          Object.entries(record).map(([key, value]) => [key, rounded(value as number)]),
        ) as Record<K, number>);
  return {
    misclosure: six ? rounded(a.misclosure) : null,
    misclosure_sd: six ? rounded(a.misclosureSd) : null,
    closes: six || a.kind === 'impossible' ? (a.closes ?? false) : null,
    adjusted: each(a.adjusted),
    residuals: each(a.residuals),
    angles: each(a.angles),
    racking_mm: rounded(a.racking),
    diagonal_difference: rounded(a.difference),
    u_difference: rounded(a.differenceU),
    verdict: verdict.outcome,
    question: question ? String(question.text) : null,
    limits: verdict.rules.map((used) => ({
      id: used.limit,
      title: used.title,
      says: used.says,
      ...(used.low === undefined ? {} : { low: used.low }),
      ...(used.high === undefined ? {} : { high: used.high }),
      source_kind: used.sourceKind,
      source: used.source,
      outcome: used.outcome,
    })),
  };
}

/** Nine decimals, only to drop floating-point noise. */
function rounded(value: number): number;
function rounded(value: number | undefined): number | null;
function rounded(value: number | undefined): number | null {
  return value === undefined || !Number.isFinite(value) ? null : Math.round(value * 1e9) / 1e9 + 0;
}
