/**
 * Spaced repetition of questions from the steps: five minutes at the start of a shift. The schedule is FSRS's
 * (ts-fsrs), computed only from the answers, so the same answers always give the same days.
 */
import { type Card, createEmptyCard, fsrs, type Grade, Rating } from 'ts-fsrs';
import { type Procedure, type Step, stepsOf } from '../procedure/model.js';
import type { Route, RouteStep } from '../procedure/types.js';
import { canonicalText, sha256 } from '../unit/chain.js';
import { Chance } from './chance.js';
import { trainSays } from './words.js';

export interface MemoryCard {
  /** `casement/frame.square/watch` */
  readonly id: string;
  readonly stage: string;
  readonly ask: string;
  readonly right: string;
  /** Wrong answers: from other steps, or the procedure's own. */
  readonly wrong: readonly string[];
  /** Shown after answering. */
  readonly because: string;
  /** Hash of question and right answer as the procedure has them; if either changes, the question counts as new. */
  readonly print: string;
}

export interface Reviewed {
  readonly card: string;
  readonly print: string;
  readonly right: boolean;
  readonly seconds: number;
  /** UTC, ISO 8601. */
  readonly at: string;
}

/** A right answer slower than this counts as hard. */
const SLOW_SECONDS = 20;
const SHIFT_MINUTES = 5;
/** Roughly the time for one question, its answer and the remark. */
const SECONDS_A_CARD = 20;
const NEW_A_DAY = 5;

const scheduler = fsrs({ enable_fuzz: false, request_retention: 0.9, maximum_interval: 365 });

const KINDS = ['question', 'watch', 'why'] as const;
type Kind = (typeof KINDS)[number];

interface Source {
  readonly route: Route;
  readonly written: ReadonlyMap<string, Step>;
}

/** All questions from a unit's route: the procedure's own, what goes wrong at a step, and why a step is done. */
export function memoryDeck(route: Route, procedure: Procedure): MemoryCard[] {
  const steps = [...new Map(route.steps.map((step) => [step.base, step])).values()];
  const source = { route, written: new Map(stepsOf(procedure).map((step) => [step.id, step])) };
  const cards = steps.flatMap((step) => [...own(source, step), ...fromTexts(source, step, steps)]);
  // The remark after one question can give away the step's next one, so ask all questions of one kind first.
  return KINDS.flatMap((kind) => cards.filter((each) => each.id.endsWith(`/${kind}`)));
}

function own(route: Source, step: RouteStep): MemoryCard[] {
  const { question } = step;
  if (!question) return [];
  const right = question.answers[question.right];
  if (right === undefined) return [];
  const wrong = question.answers.filter((_, i) => i !== question.right);
  return [card(route, step, 'question', question.ask, right, wrong, step.why)];
}

function fromTexts(route: Source, step: RouteStep, steps: readonly RouteStep[]): MemoryCard[] {
  const out: MemoryCard[] = [];
  const others = (of: (step: RouteStep) => string) => {
    const texts = steps
      .filter((other) => other !== step && of(other) !== '' && of(other) !== of(step))
      .map(of);
    return Chance.seeded(seedOf(`${step.base}`))
      .shuffled([...new Set(texts)])
      .slice(0, 2);
  };
  const watch = others((each) => each.watch);
  if (step.watch !== '' && watch.length === 2)
    out.push(
      card(
        route,
        step,
        'watch',
        trainSays('what-goes-wrong', { step: step.title }),
        step.watch,
        watch,
        step.why,
      ),
    );
  const why = others((each) => each.why);
  if (step.why !== '' && why.length === 2)
    out.push(
      card(
        route,
        step,
        'why',
        trainSays('why-done', { step: step.title }),
        step.why,
        why,
        trainSays('watch', { watch: step.watch }),
      ),
    );
  return out;
}

function card(
  { route, written }: Source,
  step: RouteStep,
  kind: Kind,
  ask: string,
  right: string,
  wrong: readonly string[],
  because: string,
): MemoryCard {
  return {
    id: `${route.procedure.name}/${step.base}/${kind}`,
    stage: step.stage,
    ask,
    right,
    wrong,
    because,
    print: sha256(canonicalText(asWritten(written.get(step.base), kind) ?? [ask, right])).slice(0, 16),
  };
}

/** The procedure's raw texts: filled-in numbers differ between units and must not make a question new. */
function asWritten(step: Step | undefined, kind: Kind): readonly string[] | undefined {
  if (!step) return undefined;
  if (kind !== 'question') return [step.title.text, step[kind].text];
  const { question } = step;
  return question && [question.ask.text, question.answers[question.right]?.text ?? ''];
}

const seedOf = (text: string): number => Number.parseInt(sha256(text).slice(0, 8), 16) | 0;

/** Current schedule of every question asked so far; answers to an older wording do not count. */
export function memorySchedule(
  deck: readonly MemoryCard[],
  reviews: readonly Reviewed[],
): ReadonlyMap<string, Card> {
  const known = new Map(deck.map((each) => [each.id, each]));
  const cards = new Map<string, Card>();
  for (const review of reviews) {
    if (known.get(review.card)?.print !== review.print) continue;
    const before: Card = cards.get(review.card) ?? createEmptyCard(new Date(review.at));
    cards.set(review.card, scheduler.next(before, new Date(review.at), gradeOf(review)).card);
  }
  return cards;
}

function gradeOf({ right, seconds }: Pick<Reviewed, 'right' | 'seconds'>): Grade {
  if (!right) return Rating.Again;
  return seconds > SLOW_SECONDS ? Rating.Hard : Rating.Good;
}

export interface MemoryPlan {
  /** To ask now: overdue ones first, longest overdue leading, then new ones. */
  readonly cards: readonly MemoryCard[];
  readonly due: number;
  readonly fresh: number;
  readonly unseen: number;
  /** When the next one is due, if none is due now. */
  readonly nextDue?: string;
}

/** What to ask in one sitting of `minutes`; new questions are capped per day to keep the load light. */
export function memoryPlan(
  deck: readonly MemoryCard[],
  reviews: readonly Reviewed[],
  now: string,
  options: { readonly minutes?: number; readonly newADay?: number } = {},
): MemoryPlan {
  const most = Math.max(1, Math.floor(((options.minutes ?? SHIFT_MINUTES) * 60) / SECONDS_A_CARD));
  const schedule = memorySchedule(deck, reviews);
  const time = Date.parse(now);
  const started = deck.filter((each) => schedule.has(each.id));
  const due = started
    .filter((each) => schedule.get(each.id)!.due.getTime() <= time)
    .sort(
      (a, b) =>
        schedule.get(a.id)!.due.getTime() - schedule.get(b.id)!.due.getTime() || (a.id < b.id ? -1 : 1),
    );
  const firsts = firstDays(reviews);
  const today = [...firsts.values()].filter((day) => day === now.slice(0, 10)).length;
  const room = Math.max(0, Math.min(most - due.length, (options.newADay ?? NEW_A_DAY) - today));
  const unseen = deck.filter((each) => !schedule.has(each.id));
  const cards = [...due.slice(0, most), ...unseen.slice(0, room)];
  const waiting = started.map((each) => schedule.get(each.id)!.due.getTime()).filter((at) => at > time);
  return {
    cards,
    due: due.length,
    fresh: Math.min(room, unseen.length),
    unseen: unseen.length,
    ...(cards.length === 0 && waiting.length > 0
      ? { nextDue: new Date(Math.min(...waiting)).toISOString() }
      : {}),
  };
}

function firstDays(reviews: readonly Reviewed[]): Map<string, string> {
  const firsts = new Map<string, string>();
  for (const { card: id, at } of reviews) if (!firsts.has(id)) firsts.set(id, at.slice(0, 10));
  return firsts;
}

/** Answers in display order, reshuffled each time the question comes up. */
export function shownAnswers(of: MemoryCard, times: number): string[] {
  return Chance.seeded((seedOf(of.id) + times) | 0).shuffled([of.right, ...of.wrong]);
}

export const timesAsked = (reviews: readonly Reviewed[], of: MemoryCard): number =>
  reviews.filter((review) => review.card === of.id).length;
