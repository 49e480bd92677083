/** Sign-off and a person's page. */
import { problemTold } from '../../base/problem.js';
import { sanitize } from '../../base/text.js';
import { data } from '../../base/words.js';
import type { Procedure } from '../../procedure/model.js';
import type { PracticeEvent } from '../../training/events.js';
import { type SignoffWorld, workFrom } from '../../training/evidence.js';
import { declined } from '../../training/messages.js';
import { personHtml, personPage, personText } from '../../training/personpage.js';
import {
  decideObserved,
  decideSignoff,
  decideWithdraw,
  type SignoffDecision,
} from '../../training/signoff.js';
import { trainWords } from '../../training/words.js';
import { unitProblem } from '../../unit/messages.js';
import type { Level, Person } from '../../unit/types.js';
import { asJson, EXIT, fail, type Io, saying, tellOf } from '../io.js';
import { MAKING_SAYS } from '../words/making.js';
import { failed, type Session, sayTo, type TrainingShop } from './shop.js';

export interface AssessOptions {
  readonly by: string;
  readonly text: string | undefined;
  readonly unit: string | undefined;
  readonly set: string | undefined;
  readonly waive: string | undefined;
  readonly json: boolean;
}

export async function runAssessment(
  shop: TrainingShop,
  procedure: Procedure,
  words: readonly string[],
  options: AssessOptions,
  session: Session,
  io: Io,
): Promise<number> {
  const [verb = '', person = '', stage = '', level = ''] = words;
  const assessor = shop.person(options.by);
  if (!assessor.ok) return failed(assessor.problems, io);
  const made = worldOf(shop, procedure, session.now(), io);
  if ('code' in made) return made.code;
  const { world } = made;
  const decision = decided(verb, person, stage, level, assessor.value.id, options, world);
  if ('problem' in decision) {
    io.err(problemTold(decision.problem, io.reader?.tell));
    return decision.problem.id === 'train.usage' ? EXIT.badInput : EXIT.doesNotHold;
  }
  const pin = await pinHolds(shop, assessor.value, session, io);
  if (!pin) {
    return fail(io, [unitProblem('build.pin-wrong/assessor')], EXIT.doesNotHold);
  }
  const kept = shop.keepSignoff(decision.body, assessor.value.id, session.now());
  if (!kept.ok) return failed(kept.problems, io);
  const last = kept.value.at(-1)!;
  const say = saying(io, MAKING_SAYS);
  const written = {
    n: last.n,
    file: shop.signoffFile,
    verb,
    person: sanitize(person),
    stage: sanitize(stage),
  };
  if (options.json) io.out(asJson(last));
  else
    io.out(level === '' ? say('train-written', written) : say('train-written-level', { ...written, level }));
  return EXIT.done;
}

function decided(
  verb: string,
  person: string,
  stage: string,
  level: string,
  by: string,
  options: AssessOptions,
  world: SignoffWorld,
): SignoffDecision {
  const { text, unit, waive } = options;
  const about = options.set === undefined ? {} : { profileSet: options.set };
  switch (verb) {
    case 'observe':
      return decideObserved(
        { person, stage, ...about, text: text ?? '', ...(unit === undefined ? {} : { unit }) },
        by,
        world,
      );
    case 'give':
      if (!/^[0-5]$/.test(level)) return declined('train.usage', { level });
      return decideSignoff(
        {
          person,
          stage,
          ...about,
          level: Number(level) as Level,
          ...(text === undefined ? {} : { note: text }),
          ...(waive === undefined ? {} : { waive }),
        },
        by,
        world,
      );
    case 'withdraw':
      return decideWithdraw({ person, stage, ...about, reason: text ?? '' }, by, world);
    default:
      return declined('train.usage/none', { verb });
  }
}

/** People with a PIN type it on the first line; it is never an argument, where others could read it. */
async function pinHolds(shop: TrainingShop, person: Person, session: Session, io: Io): Promise<boolean> {
  if (person.pin === undefined) return true;
  if (session.person) io.err(tellOf(io)(trainWords('drill-pin', { person: sanitize(person.name) })));
  const typed = await session.secret();
  return typed !== undefined && shop.workshop.rules.pinMatches(person, typed.trim());
}

export function page(
  shop: TrainingShop,
  procedure: Procedure,
  code: string,
  as: 'text' | 'html' | 'json',
  session: Session,
  io: Io,
): number {
  const person = shop.person(code);
  if (!person.ok) return failed(person.problems, io);
  const made = worldOf(shop, procedure, session.now(), io);
  if ('code' in made) return made.code;
  const view = personPage(person.value, made.world);
  if (as === 'json') io.out(asJson(view, 2));
  else if (as === 'html') io.out(data(personHtml(view)));
  else sayTo(io, personText(view));
  return EXIT.done;
}

function worldOf(
  shop: TrainingShop,
  procedure: Procedure,
  now: string,
  io: Io,
): { readonly world: SignoffWorld } | { readonly code: number } {
  const signoffs = shop.signoffs();
  if (!signoffs.ok) return { code: failed(signoffs.problems, io) };
  const { states, warnings } = shop.states();
  for (const warning of warnings) io.err(problemTold(warning, io.reader?.tell));
  const practice = new Map<string, readonly PracticeEvent[]>();
  for (const person of shop.practised()) {
    const read = shop.practice(person);
    if (!read.ok) return { code: failed(read.problems, io) };
    practice.set(person, read.value);
  }
  return {
    world: {
      workshop: shop.workshop.rules,
      procedure,
      profileSets: shop.workshop.profileSets.names,
      events: signoffs.value,
      work: workFrom(states),
      practice: (person) => practice.get(person) ?? [],
      now,
    },
  };
}
