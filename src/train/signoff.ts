/** Observing, signing off and withdrawing: who may, on what evidence, and the event that says so. */
import { ALONE, findPerson, isValid, LEVEL_WORDS, levelOf } from '../build/people.js';
import type { Level, Person, WorkshopRules } from '../build/workshop.js';
import { plain } from '../ground/plain.js';
import type { Problem } from '../ground/problem.js';
import type { Procedure } from '../procedure/model.js';
import type { Evidence, PracticeEvent, SignoffBody, SignoffEvent } from './events.js';
import { raise } from './messages.js';
import { stagePrint } from './stageprint.js';
import { isAbout, levelsFrom, SIGNOFF_RULES, type SignoffRules, standingOf } from './standing.js';
import { type Work, workedAt, workOf } from './work.js';

/** What a sign-off is decided on. */
export interface SignoffWorld {
  readonly workshop: WorkshopRules;
  readonly procedure: Procedure;
  /** Names of the workshop's profile sets; where there is more than one, a level is signed for one of them. */
  readonly profileSets?: readonly string[];
  readonly events: readonly SignoffEvent[];
  readonly work: Work;
  /** A person's practice, by id. */
  readonly practice: (person: string) => readonly PracticeEvent[];
  readonly now: string;
  readonly rules?: SignoffRules;
}

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

/** The evidence that there is, and what is missing of it for a level, in words. */
export function evidenceFor(
  person: Person,
  stage: string,
  level: Level,
  world: SignoffWorld,
  { assessor, profileSet }: { readonly assessor?: string; readonly profileSet?: string | undefined } = {},
): { readonly evidence: Evidence; readonly missing: readonly string[] } {
  const rules = world.rules ?? SIGNOFF_RULES;
  const now = standingOf(person, stage, world.events, standingOptions(world, profileSet));
  const supervised = workOf(world.work, person.id, stage).filter(
    (one) => one.supervised && isAbout(one, profileSet),
  );
  const notes = world.events.filter(
    (event) =>
      event.kind === 'observed' &&
      event.person === person.id &&
      event.stage === stage &&
      isAbout(event, profileSet),
  );
  const drills = world
    .practice(person.id)
    .flatMap((event) =>
      event.kind === 'drilled' && event.passed
        ? [{ drill: event.drill, seed: event.seed, points: event.points, at: event.at }]
        : [],
    );
  const checks = supervised.reduce((n, one) => n + one.checks, 0);
  const passed = supervised.reduce((n, one) => n + one.firstPass, 0);
  const rate = checks === 0 ? 0 : passed / checks;
  const missing: string[] = [];
  // Renewing what has run out is no skipping: the level was reached once.
  const reached = Math.max(now.level, now.from === 'expired' ? (now.signed?.level ?? 0) : 0);
  if (level > reached + 1) missing.push(`level ${level - 1} (${LEVEL_WORDS[(level - 1) as Level]}) first`);
  if (level >= 1 && notes.length === 0) missing.push('a note of somebody who saw it');
  const units = level >= 3 ? rules.unitsForAlone : level === 2 ? rules.unitsForSupervised : 0;
  if (supervised.length < units)
    missing.push(`${units} units under supervision in this stage (there are ${supervised.length})`);
  if (level >= 3) {
    if (checks > 0 && rate < rules.firstPassForAlone)
      missing.push(
        `${Math.round(rules.firstPassForAlone * 100)} % of checks passed at the first answer (it is ${Math.round(rate * 100)} %)`,
      );
    if (drills.length < rules.drillsForAlone) missing.push('a drill that was passed');
    const second = signer(person.id, stage, 2, world.events, profileSet);
    if (level === 3 && assessor !== undefined && second === assessor)
      missing.push('an assessor other than the one who signed level 2');
  }
  return {
    evidence: {
      units: supervised.map(({ unit, checks: n, firstPass, last }) => ({ unit, checks: n, firstPass, last })),
      drills,
      notes: notes.map((event) => event.n),
    },
    missing,
  };
}

export const standingOptions = (world: SignoffWorld, profileSet?: string) => ({
  now: world.now,
  procedure: world.procedure,
  profileSet,
  workedAt: (person: string, stage: string) => workedAt(world.work, person, stage, profileSet),
  ...(world.rules ? { rules: world.rules } : {}),
});

const signer = (
  person: string,
  stage: string,
  level: number,
  events: readonly SignoffEvent[],
  profileSet: string | undefined,
): string | undefined =>
  events.findLast(
    (event) =>
      event.kind === 'signed-off' &&
      event.person === person &&
      event.stage === stage &&
      event.level === level &&
      isAbout(event, profileSet),
  )?.by;

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
