/** Memory and the practice walk, line by line. */

import type { Problem } from '../../base/problem.js';
import { localTimes, utcText } from '../../base/wallclock.js';
import { wouldDo } from '../../measure/fitness.js';
import type { RouteStep } from '../../procedure/types.js';
import { wantedBy } from '../../procedure/wanted.js';
import type { PracticeBody, PracticeEvent } from '../../training/events.js';
import {
  type MemoryCard,
  memoryDeck,
  memoryPlan,
  type Reviewed,
  shownAnswers,
  timesAsked,
} from '../../training/memory.js';
import { declined } from '../../training/messages.js';
import {
  answerQuestion,
  answerWalk,
  askText,
  beginWalk,
  checkAt,
  endWalk,
  questionAt,
  skipWalk,
  stepAt,
  stepText,
  type Walk,
  type WalkTurn,
  walkScoreText,
  walkValue,
} from '../../training/walk.js';
import { trainSays } from '../../training/words.js';
import type { DecisionContext, Person } from '../../unit/types.js';
import { drawText } from '../../window/draw.js';
import { elevation } from '../../window/elevation.js';
import { asJson, EXIT, type Io } from '../io.js';
import { type Conversation, converse, failed, keep, type Session, sayTo, type TrainingShop } from './shop.js';

export async function memory(
  shop: TrainingShop,
  unit: string,
  options: { readonly person: Person; readonly minutes: number; readonly json: boolean },
  session: Session,
  io: Io,
): Promise<number> {
  const plan = shop.plan(unit);
  if (!plan.ok) return failed(plan.problems, io);
  const before = shop.practice(options.person.id);
  if (!before.ok) return failed(before.problems, io);
  const reviews = reviewsOf(before.value);
  const deck = memoryDeck(shop.told(plan.value, options.person), plan.value.from.procedure);
  const sitting = memoryPlan(deck, reviews, session.now(), { minutes: options.minutes });
  const left = [...sitting.cards];
  let shown = Date.parse(session.now());
  let broken: number | undefined;
  const until = shown + options.minutes * 60_000;
  const tally = { asked: 0, right: 0 };
  const ask = (): string[] => {
    const card = left[0];
    shown = Date.parse(session.now());
    return card ? [card.ask, ...answers(card).map((answer, i) => `  ${i + 1} ${answer}`)] : [];
  };
  const answers = (card: MemoryCard) => shownAnswers(card, timesAsked(reviews, card));
  const talk: Conversation = {
    title: trainSays('drill-memory', { person: options.person.name }),
    get over() {
      return left.length === 0 || broken !== undefined;
    },
    help: [trainSays('drill-choose-answer'), trainSays('drill-quit-stop-what')],
    prompt: '',
    type: (line) => {
      const card = left[0]!;
      const picked = /^\d$/.test(line) ? answers(card)[Number(line) - 1] : undefined;
      if (picked === undefined) return declined('train.action/answer2', { line });
      const now = session.now();
      const right = picked === card.right;
      const body: PracticeBody = {
        kind: 'reviewed',
        card: card.id,
        print: card.print,
        right,
        seconds: Math.max(0, Math.round((Date.parse(now) - shown) / 1000)),
      };
      // Each answer is saved at once, so an interrupted session loses nothing.
      broken = keep(shop, options.person.id, [body], now, io);
      tally.asked++;
      if (right) tally.right++;
      left.shift();
      if (Date.parse(now) > until) left.length = 0;
      return {
        says: [
          right ? trainSays('drill-right') : trainSays('drill-no', { right: card.right }),
          card.because,
          ...ask(),
        ],
      };
    },
  };
  const opening =
    left.length === 0
      ? [
          sitting.nextDue
            ? trainSays('drill-nothing-due-next', {
                person: options.person.name,
                when: localTimes(utcText(sitting.nextDue), shop.workshop.zone, Date.parse(session.now())),
              })
            : trainSays('drill-nothing-due', { person: options.person.name }),
        ]
      : [
          trainSays('drill-due-new-about', {
            due: sitting.due,
            fresh: sitting.fresh,
            minutes: options.minutes,
          }),
          ...ask(),
        ];
  await converse(talk, opening, session, io, options.json);
  if (options.json)
    io.out(asJson({ score: { ...tally, due: sitting.due, fresh: sitting.fresh, unseen: sitting.unseen } }));
  else if (tally.asked > 0) sayTo(io, [trainSays('cards-right', { right: tally.right, asked: tally.asked })]);
  return broken ?? EXIT.done;
}

const reviewsOf = (events: readonly PracticeEvent[]): Reviewed[] =>
  events.flatMap((event) =>
    event.kind === 'reviewed'
      ? [{ card: event.card, print: event.print, right: event.right, seconds: event.seconds, at: event.at }]
      : [],
  );

export async function walk(
  shop: TrainingShop,
  unit: string,
  options: {
    readonly person: Person;
    readonly stage: string | undefined;
    readonly json: boolean;
    readonly ascii: boolean;
  },
  session: Session,
  io: Io,
): Promise<number> {
  const plan = shop.plan(unit);
  if (!plan.ok) return failed(plan.problems, io);
  const { setOut, from } = plan.value;
  const route = shop.told(plan.value, options.person);
  const begun = beginWalk(route, {
    job: plan.value.unit.job,
    deck: memoryDeck(route, from.procedure),
    ...(options.stage === undefined ? {} : { stage: options.stage }),
  });
  if (!begun.ok) return failed(begun.problems, io);
  let at: Walk = begun.value.walk;
  let broken = keep(shop, options.person.id, begun.value.events, session.now(), io);
  if (broken !== undefined) return broken;
  const view = elevation(setOut);
  const pictureOf = (step: RouteStep, columns: number, rows: number, ascii: boolean): string[] =>
    drawText(view, {
      columns,
      rows,
      ascii,
      spot: step.spot,
      ...(step.item === undefined ? {} : { item: step.item }),
      triangles: shop.workshop.rules.openingTriangle,
    });
  const page = (): string[] => {
    const step = stepAt(at);
    // The full screen shows the picture beside the text.
    return stepText(at, step && !session.fullScreen ? pictureOf(step, 46, 16, options.ascii) : []);
  };
  const talk: Conversation = {
    title: trainSays('drill-walk', { unit: plan.value.unit.id }),
    picture: (columns, rows, ascii) => {
      const step = stepAt(at);
      return step ? pictureOf(step, columns, rows, ascii) : [];
    },
    get over() {
      return at.ended || broken !== undefined;
    },
    help: [
      trainSays('drill-answer-check-asked'),
      trainSays('drill-answer-stands-reading'),
      trainSays('drill-question-before-hold'),
      trainSays('drill-next-leave-unanswered'),
      trainSays('drill-again-show-step'),
      trainSays('drill-end-end-walk'),
    ],
    prompt: '',
    type: (line) => {
      if (/^again$/i.test(line)) return { says: [...page(), ...askText(at)] };
      const turn = turnOf(at, line, shop, options.person.id, session.now());
      if ('problem' in turn) return turn;
      const before = stepAt(at);
      broken = keep(shop, options.person.id, turn.events, session.now(), io);
      if (broken !== undefined) return { says: [] };
      at = turn.walk;
      const fresh = stepAt(at) !== before && !at.ended;
      return { says: [...turn.says, ...(fresh ? ['', ...page()] : []), ...askText(at)] };
    },
  };
  await converse(talk, [...page(), ...askText(at)], session, io, options.json);
  if (broken !== undefined) return broken;
  if (!at.ended) {
    const end = endWalk(at);
    const code = keep(shop, options.person.id, end.events, session.now(), io);
    if (code !== undefined) return code;
    if (!options.json) sayTo(io, end.says);
    at = end.walk;
    // The full screen showed the score, but it vanished with the screen.
  } else if (session.fullScreen && !options.json) sayTo(io, walkScoreText(at));
  if (options.json) io.out(asJson({ score: { ...at.tally, of: at.route.steps.length } }));
  return at.at.step >= at.route.steps.length ? EXIT.done : EXIT.doesNotHold;
}

function turnOf(
  at: Walk,
  line: string,
  shop: TrainingShop,
  person: string,
  now: string,
): WalkTurn | { readonly problem: Problem } {
  if (/^next$/i.test(line)) return skipWalk(at);
  if (/^end$/i.test(line)) return endWalk(at);
  if (questionAt(at)) return answerQuestion(at, /^\d$/.test(line) ? Number(line) : 0);
  const check = checkAt(at);
  if (!check) return skipWalk(at);
  const confirmed = /!\s*$/.test(line);
  const wanted = wantedBy(check);
  const instrument = wanted && wouldDo(shop.workshop.instruments, wanted, now, check.expect)[0];
  const context: DecisionContext = {
    now,
    bench: shop.workshop.bench,
    person,
    workshop: shop.workshop.rules,
    instruments: shop.workshop.instruments,
  };
  return answerWalk(at, walkValue(check, line.replace(/!\s*$/, '')), {
    context,
    confirmed,
    ...(instrument ? { instrument } : {}),
  });
}
