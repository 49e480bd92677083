/** Turns what was typed, scanned or pressed into an answer of the check's kind, with a verdict. */
import type { Problem } from '../base/problem.js';
import { worst } from '../measure/decision.js';
import { judgePoints } from '../measure/judgepoints.js';
import { judgeSquare } from '../measure/judgesquare.js';
import { lookForMisread } from '../measure/misread.js';
import type { Instrument, MisreadQuestion, Reading, ReadingUnit, Verdict } from '../measure/types.js';
import { readingOf, unitRead } from '../measure/units.js';
import { judgeNumber } from '../measure/verdict.js';
import type { RouteCheck } from '../procedure/types.js';
import { wantedBy } from '../procedure/wanted.js';
import { dayNow } from './day.js';
import type { Answer } from './events.js';
import { type BuildRaise, type BuildRefusal, unitProblem } from './messages.js';
import { isSet, placesOf, setKeys } from './sets.js';
import type { CheckState, DecisionContext, Question } from './types.js';
import { unitSays } from './words.js';

export type Judgement =
  | { readonly kind: 'answer'; readonly answer: Answer; readonly verdict: Verdict }
  | { readonly kind: 'ask'; readonly question: Question }
  | { readonly kind: 'refused'; readonly problem: Problem };

export type Value = string | Readonly<Record<string, string | readonly string[]>>;

export interface Judging {
  readonly check: RouteCheck;
  readonly value: Value;
  /** Readings of a set that were logged one by one. */
  readonly partial?: CheckState['partial'] | undefined;
  readonly confirmed: boolean;
  readonly instrument: Instrument | undefined;
  /** square: the corners have cured, so the advice is not to push them. */
  readonly cured?: boolean | undefined;
  readonly context: DecisionContext;
}

const YES = /^(y|yes|done|ok|go|true|1)$/i;
const NO = /^(n|no|nogo|no-go|false|0)$/i;

/** Turns a value into an answer and its verdict. Never throws. */
export function judge(judging: Judging): Judgement {
  const { check, value } = judging;
  if (isSet(check)) return set(judging);
  if (typeof value !== 'string') return notAn('build.answer-kind', { check: check.id, kind: check.kind });
  const typed = value.trim();
  switch (check.kind) {
    case 'tick':
      if (!YES.test(typed)) return notAn('build.answer-kind/tick', { check: check.id, kind: check.kind });
      return { kind: 'answer', answer: { kind: 'tick', done: true }, verdict: plainly(true, []) };
    case 'go-no-go': {
      if (!YES.test(typed) && !NO.test(typed))
        return notAn('build.answer-kind/yes', { check: check.id, kind: check.kind });
      const go = YES.test(typed);
      return { kind: 'answer', answer: { kind: 'go-no-go', go }, verdict: plainly(go, []) };
    }
    case 'count': {
      if (!/^\d{1,6}$/.test(typed))
        return notAn('build.answer-kind/count', { check: check.id, kind: check.kind });
      const count = Number(typed);
      const right = check.expect === undefined || count === check.expect;
      const notes = right
        ? []
        : [unitSays('counted', { count: String(count), wanted: String(check.expect) })];
      return { kind: 'answer', answer: { kind: 'count', count }, verdict: plainly(right, notes, count) };
    }
    case 'choice': {
      const choices = check.choices ?? [];
      const choice = choices.find(({ id }) => id.toLowerCase() === typed.toLowerCase());
      if (!choice)
        return notAn('build.answer-kind/choice', {
          check: check.id,
          kind: check.kind,
          choices: choices.map(({ id }) => id),
        });
      return {
        kind: 'answer',
        answer: { kind: 'choice', choice: choice.id },
        verdict: plainly(choice.pass, choice.pass ? [] : [unitSays('choice-fails', { choice: choice.text })]),
      };
    }
    case 'text':
      if (typed === '' || typed.length > 200)
        return notAn('build.answer-kind/text', { check: check.id, kind: check.kind });
      return { kind: 'answer', answer: { kind: 'text', text: typed }, verdict: plainly(true, []) };
    // Only numbers are left; sets were judged above.
    default:
      return number(judging, typed);
  }
}

export function judgeReading(
  judging: Omit<Judging, 'value'> & {
    readonly key: string;
    readonly raw: string;
    readonly replaces?: number | undefined;
  },
): { readonly kind: 'reading'; readonly reading: Reading } | Exclude<Judgement, { kind: 'answer' }> {
  const { check, raw, key, confirmed, instrument } = judging;
  const read = reading(judging, raw);
  if ('problem' in read) return { kind: 'refused', problem: read.problem };
  const before = (judging.partial?.[key] ?? []).filter((_, i) => i + 1 !== judging.replaces);
  const asked =
    !confirmed &&
    lookForMisread({
      readings: [...before, read.reading],
      expect: placesOf(check).find((place) => place.key === key)?.expect,
      plausible: check.plausible,
      unit: check.unit ?? 'mm',
      read: unitIn(check, instrument, judging.context),
      instrument,
    });
  if (asked) return ask(asked);
  return { kind: 'reading', reading: read.reading };
}

function number(judging: Judging, typed: string): Judgement {
  const { check, confirmed, instrument } = judging;
  // Repeats of one reading come as one text separated by semicolons: "12.1; 12.3".
  const readings: Reading[] = [];
  for (const raw of typed.split(';')) {
    const read = reading(judging, raw.trim());
    if ('problem' in read) return { kind: 'refused', problem: read.problem };
    readings.push(read.reading);
  }
  const asked =
    !confirmed &&
    lookForMisread({
      readings,
      expect: check.expect,
      plausible: check.plausible,
      unit: check.unit ?? 'mm',
      read: unitIn(check, instrument, judging.context),
      instrument,
    });
  if (asked) return ask(asked);
  const verdict = numberVerdict(judging, readings);
  return { kind: 'answer', answer: { kind: 'number', readings } as Answer, verdict };
}

/** Each limit is judged on what it applies to: the value or the deviation. */
function numberVerdict(
  { check, confirmed, instrument, context }: Judging,
  readings: readonly Reading[],
): Verdict {
  const { limits } = context.workshop;
  const { against } = check;
  const judged = (subject: 'deviation' | 'value', ids: readonly string[]) =>
    judgeNumber(
      {
        value: readings.map((each) => each.value),
        expect: check.expect,
        against: subject,
        limits: ids,
        size: check.size,
        unit: check.unit ?? 'mm',
        instrument,
        instrumentWanted: check.quantity !== undefined,
        rule: context.workshop.decisionRule,
        confirmed,
        instruments: context.instruments,
        wanted: wantedBy(check),
        now: dayNow(context),
      },
      limits,
    );
  const other = against === 'deviation' ? 'value' : 'deviation';
  const others =
    check.expect === undefined ? [] : check.limits.filter((id) => limits.byId.get(id)?.of === other);
  const own = judged(
    against,
    check.limits.filter((id) => !others.includes(id)),
  );
  if (others.length === 0) return own;
  const more = judged(other, others);
  return {
    ...own,
    outcome: worst([own.outcome, more.outcome]),
    rules: [...own.rules, ...more.rules],
    notes: [...new Set([...own.notes, ...more.notes])],
  };
}

/** Readings given in the value are used; the rest come from readings logged one by one. */
function set(judging: Judging): Judgement {
  const { check, value, confirmed, instrument, context } = judging;
  const keys = setKeys(check);
  const given = typeof value === 'string' ? {} : value;
  if (typeof value === 'string' && value.trim() !== '')
    return notAn('build.answer-kind/keys', { check: check.id, kind: check.kind, keys });
  const odd = Object.keys(given).find((key) => !keys.includes(key));
  if (odd !== undefined)
    return {
      kind: 'refused',
      problem: unitProblem('build.square-key/reading', { odd, check: check.id }),
    };
  const readings: Record<string, Reading[]> = {};
  let allBefore = true;
  for (const key of keys) {
    const before = judging.partial?.[key] ?? [];
    const raws = given[key] === undefined ? undefined : [given[key]].flat();
    if (raws === undefined) {
      if (before.length > 0) readings[key] = [...before];
      continue;
    }
    readings[key] = [];
    for (const [i, raw] of raws.entries()) {
      // The same text as a logged reading is that reading, with its instrument and confirmation.
      const same = before[i]?.raw === raw ? before[i] : undefined;
      if (!same) allBefore = false;
      const read = same ? { reading: same } : reading(judging, raw);
      if ('problem' in read) return { kind: 'refused', problem: read.problem };
      readings[key].push(read.reading);
    }
  }
  const missing = keys.filter((key) => (readings[key]?.length ?? 0) === 0);
  if (missing.length > 0)
    return {
      kind: 'refused',
      problem: unitProblem('build.square-incomplete', { check: check.id, missing: missing.join(', ') }),
    };
  if (check.kind === 'points') return points(judging, readings, allBefore);
  const { verdict, question } = judgeSquare(
    {
      readings,
      nominal: check.nominal,
      limits: check.limits,
      instrument,
      rule: context.workshop.decisionRule,
      confirmed,
      cured: judging.cured,
      read: unitIn(check, instrument, context),
      plausible: check.plausible,
      instruments: context.instruments,
      wanted: wantedBy(check),
      now: dayNow(context),
    },
    context.workshop.limits,
  );
  // The misread question was already asked when the reading was logged.
  const askedBefore = allBefore && ASKED_ALONE.has(question?.id ?? '');
  if (question && !confirmed && !askedBefore) return ask(question);
  return { kind: 'answer', answer: { kind: 'square', readings } as Answer, verdict };
}

/** Questions about one reading, which are asked as it is taken. */
const ASKED_ALONE: ReadonlySet<string> = new Set(['measure.misread-far', 'measure.misread-finer']);

function points(
  judging: Judging,
  readings: Readonly<Record<string, Reading[]>>,
  allBefore: boolean,
): Judgement {
  const { check, confirmed, instrument, context } = judging;
  for (const { key, expect } of placesOf(check)) {
    const asked =
      !confirmed &&
      !allBefore &&
      lookForMisread({
        readings: readings[key]!,
        expect,
        plausible: check.plausible,
        unit: check.unit ?? 'mm',
        read: unitIn(check, instrument, context),
        instrument,
      });
    if (asked) return ask(asked);
  }
  const verdict = judgePoints(
    {
      points: check.points ?? [],
      readings,
      pairs: check.pairs ?? [],
      limits: check.limits,
      size: check.size,
      unit: check.unit ?? 'mm',
      rule: context.workshop.decisionRule,
      instruments: context.instruments,
      wanted: wantedBy(check),
      now: dayNow(context),
    },
    context.workshop.limits,
  );
  return { kind: 'answer', answer: { kind: 'points', readings } as Answer, verdict };
}

function reading(
  { check, confirmed, instrument, context }: Omit<Judging, 'value'>,
  raw: string,
): { readonly reading: Reading } | { readonly problem: Problem } {
  const read = readingOf(raw, {
    unit: unitIn(check, instrument, context),
    instrument,
    confirmed,
  });
  return read.ok ? { reading: read.reading } : { problem: read.problem };
}

const unitIn = (
  check: RouteCheck,
  instrument: Instrument | undefined,
  context: DecisionContext,
): ReadingUnit => unitRead(check.unit ?? 'mm', instrument, context.workshop.units);

const plainly = (pass: boolean, notes: readonly string[], value?: number): Verdict => ({
  outcome: pass ? 'pass' : 'fail',
  ...(value === undefined ? {} : { value }),
  rules: [],
  notes,
});

const ask = (question: MisreadQuestion): Judgement & { readonly kind: 'ask' } => ({ kind: 'ask', question });

type NoAnswer = Extract<BuildRefusal, `build.answer-kind${string}`>;
const notAn = <K extends NoAnswer>(
  key: K,
  ...given: BuildRaise<K>
): Judgement & { readonly kind: 'refused' } => ({ kind: 'refused', problem: unitProblem(key, ...given) });
