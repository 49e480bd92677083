/**
 * A practice run through a unit's route: same steps, checks and judging as at the bench, but with why, watch and
 * caution always open and a question before each hold. Writes practice events only; the quality record never sees it.
 */
import { err, ok, type Problem, type Result } from '../base/problem.js';
import type { Instrument, Verdict } from '../measure/types.js';
import type { Route, RouteCheck, RouteStep } from '../procedure/types.js';
import { judge, type Value } from '../unit/judge.js';
import { isSet } from '../unit/sets.js';
import type { DecisionContext } from '../unit/types.js';
import { Chance } from './chance.js';
import type { PracticeBody } from './events.js';
import type { MemoryCard } from './memory.js';
import { declined, trainingProblem } from './messages.js';
import { trainSays } from './words.js';

export interface WalkQuestion {
  readonly ask: string;
  readonly answers: readonly string[];
  /** Zero-based index. */
  readonly right: number;
  readonly because: string;
}

export interface Walk {
  readonly route: Route;
  readonly job: string;
  /** Current step, and within it the check or its question; past the last step when finished. */
  readonly at: { readonly step: number; readonly check: number; readonly asking: boolean };
  readonly questions: ReadonlyMap<string, WalkQuestion>;
  readonly tally: {
    readonly steps: number;
    readonly checks: number;
    readonly firstPass: number;
    readonly questions: number;
    readonly questionsRight: number;
  };
  /** Answers given so far to the current check or question. */
  readonly tries: number;
  readonly ended: boolean;
}

export interface WalkTurn {
  readonly walk: Walk;
  /** Events for the person's practice journal. */
  readonly events: readonly PracticeBody[];
  readonly says: readonly string[];
}

/** Starts at the first step, or at a stage's first. A hold without its own question gets one from the deck. */
export function beginWalk(
  route: Route,
  options: { readonly job: string; readonly deck: readonly MemoryCard[]; readonly stage?: string },
): Result<WalkTurn> {
  const steps =
    options.stage === undefined ? route.steps : route.steps.filter((step) => step.stage === options.stage);
  const stages = route.stages.map((stage) => stage.id).join(', ');
  if (steps.length === 0)
    return err(trainingProblem('train.stage', { unit: route.unit, stage: options.stage!, stages }));
  const walked = { ...route, steps: steps.map(asPractised) };
  const questions = new Map(
    steps.flatMap((step) => {
      const question = step.hold ? questionOf(step, options.deck) : undefined;
      return question ? [[step.id, question] as const] : [];
    }),
  );
  const walk: Walk = {
    route: walked,
    job: options.job,
    at: { step: 0, check: 0, asking: false },
    questions,
    tally: { steps: 0, checks: 0, firstPass: 0, questions: 0, questionsRight: 0 },
    tries: 0,
    ended: false,
  };
  const { name, version } = route.procedure;
  return ok({
    walk,
    events: [
      {
        kind: 'walk-began',
        unit: route.unit,
        job: options.job,
        procedure: { name, version },
        steps: steps.length,
      },
    ],
    says: [],
  });
}

/** Whoever learns reads what the program works out, and says so. */
const asPractised = (step: RouteStep): RouteStep => ({
  ...step,
  checks: step.checks.map((check) =>
    check.kind === 'computed' ? { ...check, kind: 'tick' as const } : check,
  ),
});

function questionOf(step: RouteStep, deck: readonly MemoryCard[]): WalkQuestion | undefined {
  if (step.question) return { ...step.question, because: step.why };
  const cards = deck.filter((card) => card.id.split('/')[1] === step.base);
  const card = cards.find((each) => each.id.endsWith('/watch')) ?? cards[0];
  if (!card) return undefined;
  const answers = Chance.seeded(step.id.length).shuffled([card.right, ...card.wrong]);
  return { ask: card.ask, answers, right: answers.indexOf(card.right), because: card.because };
}

export const stepAt = (walk: Walk): RouteStep | undefined =>
  walk.ended ? undefined : walk.route.steps[walk.at.step];
export const checkAt = (walk: Walk): RouteCheck | undefined =>
  walk.at.asking ? undefined : stepAt(walk)?.checks[walk.at.check];
export const questionAt = (walk: Walk): WalkQuestion | undefined =>
  walk.at.asking ? walk.questions.get(stepAt(walk)?.id ?? '') : undefined;

/** Answers the current check. A failing value is explained, and the check can be answered again. */
export function answerWalk(
  walk: Walk,
  value: Value,
  options: {
    readonly context: DecisionContext;
    readonly instrument?: Instrument;
    readonly confirmed?: boolean;
  },
): WalkTurn | { readonly problem: Problem } {
  const step = stepAt(walk);
  const check = checkAt(walk);
  if (!step || !check) return declined('train.action/check');
  const judged = judge({
    check,
    value,
    confirmed: options.confirmed ?? false,
    instrument: options.instrument,
    context: options.context,
  });
  if (judged.kind === 'refused') return { problem: judged.problem };
  if (judged.kind === 'ask')
    return {
      walk,
      events: [],
      says: [
        String(judged.question.text),
        ...judged.question.details.map(String),
        trainSays('type-again-behind'),
      ],
    };
  const { verdict } = judged;
  const passes = verdict.outcome === 'pass';
  const event: PracticeBody = {
    kind: 'walk-answered',
    step: step.id,
    check: check.id,
    value: typeof value === 'string' ? value : JSON.stringify(value),
    outcome: verdict.outcome,
  };
  const says = verdictSays(verdict, step);
  if (!passes) return { walk: { ...walk, tries: walk.tries + 1 }, events: [event], says };
  const next = onward({
    ...walk,
    tally: {
      ...walk.tally,
      checks: walk.tally.checks + 1,
      firstPass: walk.tally.firstPass + (walk.tries === 0 ? 1 : 0),
    },
  });
  return { walk: next.walk, events: [event, ...next.events], says: [...says, ...next.says] };
}

/** Answers the question before a hold; `choice` counts from 1. Repeats until it is right. */
export function answerQuestion(walk: Walk, choice: number): WalkTurn | { readonly problem: Problem } {
  const step = stepAt(walk);
  const question = questionAt(walk);
  if (!step || !question) return declined('train.action/question');
  if (question.answers[choice - 1] === undefined)
    return declined('train.action/answer', { choice, count: question.answers.length });
  const right = choice - 1 === question.right;
  const event: PracticeBody = { kind: 'walk-asked', step: step.id, answer: choice, right };
  if (!right)
    return { walk: { ...walk, tries: walk.tries + 1 }, events: [event], says: [trainSays('no-think-again')] };
  const first = walk.tries === 0;
  const next = onward({
    ...walk,
    tally: {
      ...walk.tally,
      questions: walk.tally.questions + 1,
      questionsRight: walk.tally.questionsRight + (first ? 1 : 0),
    },
  });
  return {
    walk: next.walk,
    events: [event, ...next.events],
    says: [
      trainSays('answer-right-because', { because: question.because }),
      trainSays('bench-somebody-who', { hold: step.hold?.title ?? '' }),
      ...next.says,
    ],
  };
}

/** Skips the current check or question unscored and moves on. */
export function skipWalk(walk: Walk): WalkTurn {
  return onward(walk);
}

export function endWalk(walk: Walk): WalkTurn {
  if (walk.ended) return { walk, events: [], says: [] };
  const ended = { ...walk, ended: true };
  return { walk: ended, events: [endEvent(ended)], says: walkScoreText(ended) };
}

function onward(walk: Walk): WalkTurn {
  const step = stepAt(walk);
  if (!step) return { walk, events: [], says: [] };
  const { at } = walk;
  const fresh = { ...walk, tries: 0 };
  if (!at.asking && at.check + 1 < step.checks.length)
    return { walk: { ...fresh, at: { ...at, check: at.check + 1 } }, events: [], says: [] };
  if (!at.asking && walk.questions.has(step.id))
    return { walk: { ...fresh, at: { ...at, asking: true } }, events: [], says: [] };
  const tally = { ...walk.tally, steps: walk.tally.steps + 1 };
  const moved: Walk = { ...fresh, tally, at: { step: at.step + 1, check: 0, asking: false } };
  if (moved.at.step < walk.route.steps.length) return { walk: moved, events: [], says: [] };
  const ended = { ...moved, ended: true };
  return { walk: ended, events: [endEvent(ended)], says: walkScoreText(ended) };
}

const endEvent = (walk: Walk): PracticeBody => ({
  kind: 'walk-ended',
  ...walk.tally,
  complete: walk.at.step >= walk.route.steps.length,
});

function verdictSays(verdict: Verdict, step: RouteStep): string[] {
  const word = {
    pass: trainSays('passes'),
    fail: trainSays('does-not-pass'),
    'not-proven': trainSays('not-proven'),
  }[verdict.outcome];
  const rules = verdict.rules.map((rule) => `${rule.says} (${rule.source}): ${rule.outcome}.`);
  if (verdict.outcome === 'pass') return [word, ...rules];
  return [
    word,
    ...rules,
    ...verdict.notes,
    trainSays('watch', { watch: step.watch }),
    trainSays('bench-would-put'),
  ];
}

export function walkScoreText(walk: Walk): string[] {
  const { steps, checks, firstPass, questions, questionsRight } = walk.tally;
  return [
    trainSays('practice-walk-steps', {
      unit: walk.route.unit,
      steps,
      count: walk.route.steps.length,
      checks,
      firstPass,
    }),
    trainSays('questions-before-holds', { questionsRight, questions }),
    trainSays('nothing-quality-record'),
  ];
}

/** The current step with every text open. */
export function stepText(walk: Walk, drawing: readonly string[] = []): string[] {
  const step = stepAt(walk);
  if (!step) return walkScoreText(walk);
  const stage = walk.route.stages.find((each) => each.id === step.stage);
  return [
    trainSays('practice-step', {
      unit: walk.route.unit,
      stage: stage?.title ?? step.stage,
      step: walk.at.step + 1,
      count: walk.route.steps.length,
    }),
    step.title,
    ...step.do.map((sentence) => `  ${sentence}`),
    trainSays('why', { why: step.why }),
    trainSays('watch', { watch: step.watch }),
    ...(step.caution ? [trainSays('caution', { caution: step.caution })] : []),
    ...(step.tools.length > 0 ? [trainSays('tools', { tools: step.tools.join(', ') })] : []),
    ...drawing,
  ];
}

export function askText(walk: Walk): string[] {
  const question = questionAt(walk);
  if (question)
    return [
      trainSays('before-hold'),
      question.ask,
      ...question.answers.map((answer, i) => `  ${i + 1} ${answer}`),
    ];
  const check = checkAt(walk);
  if (!check) return [];
  const kinds: Record<RouteCheck['kind'], string> = {
    tick: trainSays('yes-when-done'),
    'go-no-go': trainSays('yes-or-no'),
    number: numberWanted(check),
    square: trainSays('six-readings-top'),
    points: trainSays('reading-each', { points: (check.points ?? []).map(({ id }) => `${id}=`).join(' ') }),
    count: trainSays('whole-number'),
    choice: (check.choices ?? []).map(({ id, text }) => `${id} (${text})`).join(', '),
    text: trainSays('text-or-code'),
    computed: trainSays('nothing-program-works'),
  };
  return [check.ask, ...(check.how ? [`  ${check.how}`] : []), `  ${kinds[check.kind]}`];
}

/** Parses `top=1000 bottom=1000.5 …` for a set of readings; any other line is taken as it is. */
export function walkValue(check: RouteCheck, line: string): Value {
  if (!isSet(check)) return line.trim();
  const pairs = [...line.matchAll(/([a-z0-9]+(?:[-_][a-z0-9]+)*)\s*=\s*([^\s]+)/gi)].map(
    ([, key = '', value = '']) =>
      [check.kind === 'square' ? key.toLowerCase().replace('-', '_') : key.toLowerCase(), value] as const,
  );
  const out: Record<string, string[]> = {};
  for (const [key, value] of pairs) out[key] = [...(out[key] ?? []), value];
  return out;
}

function numberWanted({ unit, expect }: RouteCheck): string {
  if (unit === undefined)
    return expect === undefined
      ? trainSays('asks-number')
      : trainSays('asks-number-expected', { expect: String(expect) });
  return expect === undefined
    ? trainSays('asks-number-unit', { unit })
    : trainSays('asks-number-unit-expected', { unit, expect: String(expect) });
}
