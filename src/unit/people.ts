/** Who may do what: levels by stage, PINs, seconds, and the one-person workshop rule. */
import type { Problem } from '../base/problem.js';
import type { Message } from '../base/words.js';
import { dayNow } from './day.js';
import type { EventBody } from './events.js';
import { type BuildRaise, type BuildRefusal, unitProblem } from './messages.js';
import type { DecisionContext, Level, Person, WorkshopRules } from './types.js';
import type { UnitState } from './unitstate.js';
import { unitSays, unitWords } from './words.js';

export const LEVEL_WORDS: Readonly<Record<Level, Message>> = {
  0: unitWords('level-0'),
  1: unitWords('level-1'),
  2: unitWords('level-2'),
  3: unitWords('level-3'),
  4: unitWords('level-4'),
  5: unitWords('level-5'),
};

export const ALONE: Level = 3;
/** May release holds of the stage, decide snags and override. */
export const RELEASES: Level = 4;
/** May say who may do what. */
export const ASSESSES: Level = 5;

export type FoundPerson = { readonly person: Person } | { readonly problem: Problem };

export const levelOf = (person: Pick<Person, 'levels'>, stage: string): Level =>
  person.levels[stage] ?? person.levels.all ?? 0;

/** Finds a person by id or initials, typed or scanned; case-insensitive. */
export function findPerson(rules: WorkshopRules, code: string): Person | undefined {
  const key = code.trim().toLowerCase();
  return (
    rules.people.find((person) => person.id.toLowerCase() === key) ??
    rules.people.find((person) => person.initials.toLowerCase() === key)
  );
}

export const isValid = (person: Person, now: string): boolean =>
  person.validUntil === undefined || now.slice(0, 10) <= person.validUntil.slice(0, 10);

const refusal = <K extends BuildRefusal>(key: K, ...given: BuildRaise<K>) => ({
  problem: unitProblem(key, ...given),
});

/** The person at the bench, known and with a current sign-off. */
export function atBench(context: DecisionContext): FoundPerson {
  if (context.person === undefined) return refusal('build.nobody');
  return known(context, context.person);
}

export function known(context: DecisionContext, code: string): FoundPerson {
  const person = findPerson(context.workshop, code);
  if (!person) return refusal('build.unknown-person', { code });
  if (!isValid(person, dayNow(context)))
    return refusal('build.person-expired', { person: person.name, validUntil: person.validUntil! });
  return { person };
}

/** Somebody whose word is needed: known, of the level that releases, and by their PIN. */
export function allowing(
  word: { readonly person: string; readonly pin?: string | undefined },
  stage: string,
  what: Message,
  context: DecisionContext,
): FoundPerson {
  const found = known(context, word.person);
  if ('problem' in found) return found;
  const problem =
    levelProblem(found.person, stage, RELEASES, what, context) ?? pinProblem(found.person, word.pin, context);
  return problem ? { problem } : found;
}

/** Id of the person standing by, if any. Refuses if the person may not work alone and no one qualified stands by. */
export function standsBy(
  person: Person,
  stage: string,
  second: string | undefined,
  context: DecisionContext,
): { readonly second?: string } | { readonly problem: Problem } {
  const level = levelOf(person, stage);
  if (level >= ALONE && second === undefined) return {};
  if (second === undefined)
    return refusal('build.needs-second', {
      person: person.name,
      level,
      levelWords: LEVEL_WORDS[level],
      stage,
    });
  const found = known(context, second);
  if ('problem' in found) return found;
  const other = levelOf(found.person, stage);
  if (found.person.id === person.id || (level < ALONE && other < ALONE))
    return found.person.id === person.id
      ? refusal('build.second-not-able/self', { person: person.name })
      : refusal('build.second-not-able', {
          person: found.person.name,
          level: other,
          levelWords: LEVEL_WORDS[other],
          stage,
        });
  return { second: found.person.id };
}

/**
 * Whether the second person has confirmed, for this person and stage, that they stand by: once a stage, by their PIN, or
 * by their own code where they have none. Returns the event of a confirmation given now.
 */
export function confirmation(
  { state, context }: { readonly state: UnitState; readonly context: DecisionContext },
  person: Person,
  second: string | undefined,
  stage: string,
  given: { readonly pin?: string | undefined; readonly code?: string | undefined } | undefined,
): { readonly events: readonly EventBody[] } | { readonly problem: Problem } {
  if (second === undefined) return { events: [] };
  const before = state.events.some(
    (event) =>
      event.kind === 'second-confirmed' &&
      event.by === person.id &&
      event.second === second &&
      event.stage === stage,
  );
  if (before) return { events: [] };
  const found = known(context, second);
  if ('problem' in found) return found;
  const { name, pin } = found.person;
  const code = given?.code === undefined ? undefined : findPerson(context.workshop, given.code);
  if (pin === undefined ? code === undefined : given?.pin === undefined)
    return refusal('build.second-unconfirmed', { name, person: person.name, stage });
  if (pin === undefined && code!.id !== second)
    return refusal('build.second-unconfirmed/code', { code: code!.name, name });
  const wrong = pinProblem(found.person, given?.pin, context);
  return wrong
    ? { problem: wrong }
    : { events: [{ kind: 'second-confirmed', stage, second, pin: pin !== undefined }] };
}

export function levelProblem(
  person: Person,
  stage: string,
  least: Level,
  what: Message,
  context: DecisionContext,
): Problem | undefined {
  const level = levelOf(person, stage);
  if (level >= least) return undefined;
  const able = peopleWith(context, stage, least).map((other) => other.initials);
  const given = {
    person: person.name,
    level,
    levelWords: LEVEL_WORDS[level],
    stage,
    what,
    least,
    leastWords: LEVEL_WORDS[least],
  };
  return able.length > 0
    ? unitProblem('build.no-right', { ...given, able })
    : unitProblem('build.no-right/nobody', given);
}

const peopleWith = (context: DecisionContext, stage: string, least: Level): Person[] =>
  context.workshop.people.filter(
    (person) => levelOf(person, stage) >= least && isValid(person, dayNow(context)),
  );

/** Refuses a missing or wrong PIN. A person without a stored PIN is not asked: the workshop has opted out. */
export function pinProblem(
  person: Person,
  pin: string | undefined,
  context: DecisionContext,
): Problem | undefined {
  if (person.pin === undefined) return undefined;
  if (context.pinLocked?.includes(person.id)) return unitProblem('build.pin-locked', { person: person.name });
  if (pin === undefined) return unitProblem('build.pin-needed', { person: person.name });
  if (!context.workshop.pinMatches(person, pin))
    return unitProblem('build.pin-wrong', { person: person.name });
  return undefined;
}

/**
 * The same person may release (or concede) their own work only in a one-person workshop: nobody else is qualified, the
 * workshop file allows it, and the required time has passed. Returns the rule as the record states it.
 */
export function soloRule(
  person: Person,
  stage: string,
  waitedMinutes: number,
  context: DecisionContext,
): { readonly rule: string; readonly evidence: boolean } | { readonly problem: Problem } {
  const others = peopleWith(context, stage, RELEASES).filter((other) => other.id !== person.id);
  const solo = context.workshop.soloRelease;
  if (others.length > 0 || !solo)
    return others.length > 0
      ? refusal('build.same-person', {
          person: person.name,
          others: others.map((other) => other.initials),
        })
      : refusal('build.same-person/nobody', { person: person.name });
  if (waitedMinutes < solo.minutes)
    return refusal('build.solo-too-soon', {
      minutes: solo.minutes,
      waited: Math.floor(waitedMinutes),
      wait: Math.ceil(solo.minutes - waitedMinutes),
    });
  return {
    rule: unitSays(solo.evidence ? 'solo-rule-evidence' : 'solo-rule', { minutes: String(solo.minutes) }),
    evidence: solo.evidence,
  };
}
