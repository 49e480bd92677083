/** Observing, signing off and withdrawing: who may, on what evidence, and the event that says so. */

import type { Problem } from '../base/problem.js';
import { plain } from '../base/text.js';
import { ALONE, findPerson, isValid, LEVEL_WORDS, levelOf } from '../unit/people.js';
import type { Level, Person } from '../unit/types.js';
import type { SignoffBody } from './events.js';
import { evidenceFor, type SignoffWorld, standingOptions } from './evidence.js';
import { raise } from './messages.js';
import { levelsFrom, stagePrint, standingOf } from './standing.js';

export type SignoffDecision = { readonly body: SignoffBody } | { readonly problem: Problem };

const ASSESSES: Level = 5;

/** Somebody who does the stage alone writes down what they saw. */
export function decideObserved(
  wish: {
    readonly person: string;
    readonly stage: string;
    readonly text: string;
    readonly unit?: string;
    readonly profileSet?: string;
  },
  by: string,
  world: SignoffWorld,
): SignoffDecision {
  const who = parties(wish, by, world);
  if ('problem' in who) return who;
  if (levelOf(who.assessor, wish.stage) < ALONE)
    return {
      problem: raise('train.not-trainer', `${who.assessor.name} does not do stage ${wish.stage} alone.`),
    };
  if (wish.text.trim() === '')
    return { problem: raise('train.reason', 'A note says what was seen; it is empty.') };
  return {
    body: {
      kind: 'observed',
      person: who.person.id,
      stage: wish.stage,
      ...about(wish),
      text: plain(wish.text.trim()).slice(0, 2000),
      ...(wish.unit === undefined ? {} : { unit: wish.unit }),
    },
  };
}

/** Signs one level of one stage. Missing evidence refuses, unless a reason is given; then the journal keeps both. */
export function decideSignoff(
  wish: {
    readonly person: string;
    readonly stage: string;
    readonly level: Level;
    readonly profileSet?: string;
    readonly note?: string;
    readonly waive?: string;
  },
  by: string,
  world: SignoffWorld,
): SignoffDecision {
  const who = parties(wish, by, world);
  if ('problem' in who) return who;
  const sets = world.profileSets ?? [];
  if (wish.profileSet === undefined && sets.length > 1)
    return {
      problem: raise(
        'train.set',
        'A level is signed for one profile set, and this workshop has more than one.',
        undefined,
        `Name one with --set: ${sets.join(', ')}.`,
      ),
    };
  const { person, assessor } = who;
  if (levelOf(assessor, wish.stage) < ASSESSES) return { problem: notAssessor(assessor, wish.stage, world) };
  const { evidence, missing } = evidenceFor(person, wish.stage, wish.level, world, {
    assessor: assessor.id,
    profileSet: wish.profileSet,
  });
  const reason = plain(wish.waive?.trim() ?? '').slice(0, 2000);
  if (missing.length > 0 && reason === '')
    return {
      problem: raise(
        'train.evidence',
        `Level ${wish.level} (${LEVEL_WORDS[wish.level]}) of ${person.name} in stage ${wish.stage} lacks: ${missing.join('; ')}.`,
      ),
    };
  const { name, version } = world.procedure;
  return {
    body: {
      kind: 'signed-off',
      person: person.id,
      stage: wish.stage,
      ...about(wish),
      level: wish.level,
      evidence,
      procedure: { name, version },
      stagePrint: stagePrint(world.procedure, wish.stage)!,
      ...(wish.note === undefined ? {} : { note: plain(wish.note).slice(0, 2000) }),
      ...(missing.length > 0 ? { waived: { missing: [...missing], reason } } : {}),
    },
  };
}

export function decideWithdraw(
  wish: {
    readonly person: string;
    readonly stage: string;
    readonly reason: string;
    readonly profileSet?: string;
  },
  by: string,
  world: SignoffWorld,
): SignoffDecision {
  const who = parties(wish, by, world);
  if ('problem' in who) return who;
  if (levelOf(who.assessor, wish.stage) < ASSESSES)
    return { problem: notAssessor(who.assessor, wish.stage, world) };
  if (wish.reason.trim() === '') return { problem: raise('train.reason', 'A withdrawal says why.') };
  const standing = standingOf(who.person, wish.stage, world.events, {
    now: world.now,
    profileSet: wish.profileSet,
  });
  if (standing.from !== 'signed')
    return {
      problem: raise(
        'train.nothing-to-withdraw',
        `Nothing is signed for ${who.person.name} in stage ${wish.stage}.`,
      ),
    };
  return {
    body: {
      kind: 'withdrawn',
      person: who.person.id,
      stage: wish.stage,
      ...about(wish),
      reason: plain(wish.reason.trim()).slice(0, 2000),
    },
  };
}

const about = ({ profileSet }: { readonly profileSet?: string }) =>
  profileSet === undefined ? {} : { profileSet };

interface PartiesWish {
  readonly person: string;
  readonly stage: string;
  readonly profileSet?: string;
}

/** The two people with the levels that count now; nobody assesses themselves. */
function parties(
  { person: code, stage, profileSet }: PartiesWish,
  by: string,
  world: SignoffWorld,
): { readonly person: Person; readonly assessor: Person } | { readonly problem: Problem } {
  const { now, ...options } = standingOptions(world, profileSet);
  const people = levelsFrom(world.events, world.workshop.people, now, world.procedure, options);
  const rules = { ...world.workshop, people };
  const known = people.map((each) => each.id).join(', ');
  const person = findPerson(rules, code);
  const assessor = findPerson(rules, by);
  if (!person || !assessor)
    return {
      problem: raise(
        'train.person',
        `"${person ? by : code}" is nobody in this workshop.`,
        undefined,
        `Known are: ${known}.`,
      ),
    };
  if (!isValid(assessor, now))
    return {
      problem: raise(
        'train.not-assessor',
        `The sign-off of ${assessor.name} ran out on ${assessor.validUntil}.`,
        undefined,
        'Let somebody else do it, or renew validUntil in shared/people.yaml.',
      ),
    };
  if (!world.procedure.stages.some((each) => each.id === stage))
    return {
      problem: raise(
        'train.stage',
        `The procedure ${world.procedure.name} has no stage "${stage}".`,
        undefined,
        `Its stages are: ${world.procedure.stages.map((each) => each.id).join(', ')}.`,
      ),
    };
  if (profileSet !== undefined && world.profileSets?.includes(profileSet) === false)
    return {
      problem: raise(
        'train.set',
        `The workshop has no profile set "${profileSet}".`,
        undefined,
        `It has: ${world.profileSets.join(', ')}.`,
      ),
    };
  if (person.id === assessor.id)
    return { problem: raise('train.self', `${person.name} cannot assess themselves.`) };
  return { person, assessor };
}

function notAssessor(assessor: Person, stage: string, world: SignoffWorld): Problem {
  const { now, ...options } = standingOptions(world);
  const able = levelsFrom(world.events, world.workshop.people, now, world.procedure, options)
    .filter((each) => levelOf(each, stage) >= ASSESSES && isValid(each, now))
    .map((each) => each.initials);
  const level = levelOf(assessor, stage);
  return raise(
    'train.not-assessor',
    `${assessor.name} is at level ${level} (${LEVEL_WORDS[level]}) for stage ${stage} and may not assess it.`,
    undefined,
    able.length > 0
      ? `Let one of these do it: ${able.join(', ')}.`
      : 'Name somebody with level 5 in shared/people.yaml.',
  );
}
