/** Observing, signing off and withdrawing: who may, on what evidence, and the resulting event. */
import type { Problem } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { ALONE, ASSESSES, findPerson, isValid, LEVEL_WORDS, levelOf } from '../unit/people.js';
import type { Level, Person } from '../unit/types.js';
import type { SignoffBody } from './events.js';
import { evidenceFor, type SignoffWorld, standingOptions } from './evidence.js';
import { declined } from './messages.js';
import { levelsFrom, stagePrint, standingOf } from './standing.js';

export type SignoffDecision = { readonly body: SignoffBody } | { readonly problem: Problem };

/** An observation by somebody who does the stage alone. */
export function decideObserved(
  options: PartiesOptions & { readonly text: string; readonly unit?: string },
  by: string,
  world: SignoffWorld,
): SignoffDecision {
  const who = parties(options, by, world);
  if ('problem' in who) return who;
  if (levelOf(who.assessor, options.stage) < ALONE)
    return declined('train.not-trainer', { assessor: who.assessor.name, stage: options.stage });
  if (options.text.trim() === '') return declined('train.reason');
  return {
    body: {
      kind: 'observed',
      person: who.person.id,
      stage: options.stage,
      ...about(options),
      text: sanitize(options.text.trim()).slice(0, 2000),
      ...(options.unit === undefined ? {} : { unit: options.unit }),
    },
  };
}

/** Signs off one level of one stage. Refuses if evidence is missing, unless given a reason; the journal keeps both. */
export function decideSignoff(
  options: PartiesOptions & { readonly level: Level; readonly note?: string; readonly waive?: string },
  by: string,
  world: SignoffWorld,
): SignoffDecision {
  const who = parties(options, by, world);
  if ('problem' in who) return who;
  const sets = world.profileSets ?? [];
  if (options.profileSet === undefined && sets.length > 1)
    return declined('train.set', { sets: sets.join(', ') });
  const { person, assessor } = who;
  if (levelOf(assessor, options.stage) < ASSESSES) return notAssessor(assessor, options.stage, world);
  const { evidence, missing } = evidenceFor(person, options.stage, options.level, world, {
    assessor: assessor.id,
    profileSet: options.profileSet,
  });
  const reason = sanitize(options.waive?.trim() ?? '').slice(0, 2000);
  if (missing.length > 0 && reason === '')
    return declined('train.evidence', {
      level: options.level,
      levelWords: LEVEL_WORDS[options.level],
      person: person.name,
      stage: options.stage,
      missing: missing.join('; '),
    });
  const { name, version } = world.procedure;
  return {
    body: {
      kind: 'signed-off',
      person: person.id,
      stage: options.stage,
      ...about(options),
      level: options.level,
      evidence,
      procedure: { name, version },
      stagePrint: stagePrint(world.procedure, options.stage)!,
      ...(options.note === undefined ? {} : { note: sanitize(options.note).slice(0, 2000) }),
      ...(missing.length > 0 ? { waived: { missing: [...missing], reason } } : {}),
    },
  };
}

export function decideWithdraw(
  options: PartiesOptions & { readonly reason: string },
  by: string,
  world: SignoffWorld,
): SignoffDecision {
  const who = parties(options, by, world);
  if ('problem' in who) return who;
  if (levelOf(who.assessor, options.stage) < ASSESSES) return notAssessor(who.assessor, options.stage, world);
  if (options.reason.trim() === '') return declined('train.reason/withdrawal');
  const standing = standingOf(who.person, options.stage, world.events, {
    now: world.now,
    profileSet: options.profileSet,
  });
  if (standing.from !== 'signed')
    return declined('train.nothing-to-withdraw', { person: who.person.name, stage: options.stage });
  return {
    body: {
      kind: 'withdrawn',
      person: who.person.id,
      stage: options.stage,
      ...about(options),
      reason: sanitize(options.reason.trim()).slice(0, 2000),
    },
  };
}

const about = ({ profileSet }: { readonly profileSet?: string }) =>
  profileSet === undefined ? {} : { profileSet };

interface PartiesOptions {
  readonly person: string;
  readonly stage: string;
  readonly profileSet?: string;
}

/** Both people, with their current levels. Nobody may assess themselves. */
function parties(
  { person: code, stage, profileSet }: PartiesOptions,
  by: string,
  world: SignoffWorld,
): { readonly person: Person; readonly assessor: Person } | { readonly problem: Problem } {
  const { now, ...options } = standingOptions(world, profileSet);
  const people = levelsFrom(world.events, world.workshop.people, now, world.procedure, options);
  const rules = { ...world.workshop, people };
  const known = people.map((each) => each.id).join(', ');
  const person = findPerson(rules, code);
  const assessor = findPerson(rules, by);
  if (!person || !assessor) return declined('train.person/signed', { by: person ? by : code, known });
  if (!isValid(assessor, now))
    return declined('train.not-assessor', { assessor: assessor.name, validUntil: assessor.validUntil! });
  if (!world.procedure.stages.some((each) => each.id === stage))
    return declined('train.stage/signed', {
      procedure: world.procedure.name,
      stage,
      stages: world.procedure.stages.map((each) => each.id).join(', '),
    });
  if (profileSet !== undefined && world.profileSets?.includes(profileSet) === false)
    return declined('train.set/workshop', { profileSet, profileSets: world.profileSets.join(', ') });
  if (person.id === assessor.id) return declined('train.self', { person: person.name });
  return { person, assessor };
}

function notAssessor(assessor: Person, stage: string, world: SignoffWorld) {
  const { now, ...options } = standingOptions(world);
  const able = levelsFrom(world.events, world.workshop.people, now, world.procedure, options)
    .filter((each) => levelOf(each, stage) >= ASSESSES && isValid(each, now))
    .map((each) => each.initials);
  const level = levelOf(assessor, stage);
  const given = { assessor: assessor.name, level, levelWords: LEVEL_WORDS[level], stage };
  return able.length > 0
    ? declined('train.not-assessor/level', { ...given, able })
    : declined('train.not-assessor/nobody', given);
}
