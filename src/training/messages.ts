/** Every message of the training room, with general advice on what to do. */

import { type Problem, problemFactory, type RaiseArgs, type Refusals } from '../base/problem.js';
import { wayOut, word } from '../base/words.js';

export const TRAIN_MESSAGES = {
  'train.action': word(
    '{ $unit } has no check "{ $check }".',
    'a drill was given a line that it does not know',
    { unit: 'P02-1', check: 'frame.diagonals' },
  ),
  'train.action.todo': wayOut('Type list for the checks.'),
  'train.action/step': word('{ $unit } has no step "{ $step }".', 'as train.action', {
    unit: 'P02-1',
    step: 'sash.square',
  }),
  'train.action/step.todo': wayOut('Type list for the steps.'),
  'train.action/nothing': word('Nothing is asked at the moment.', 'as train.action'),
  'train.action/nothing.todo': wayOut('Choose a check, or name a step.'),
  'train.action/answer': word('There is no answer { $choice }.', 'as train.action', { choice: '7' }),
  'train.action/answer.todo': wayOut('Choose 1 to { $count }.', { count: '3' }),
  'train.action/check': word('No check is asked at the moment.', 'as train.action'),
  'train.action/check.todo': wayOut('Answer the question with its number, or type next.'),
  'train.action/question': word('No question is asked at the moment.', 'as train.action'),
  'train.action/names': word('"{ $line }" names no line of this light.', 'as train.action', {
    line: 'read head',
  }),
  'train.action/names.todo': wayOut('Type the name of a line and its number.'),
  'train.action/understood': word('"{ $line }" is not understood.', 'as train.action', { line: 'read head' }),
  'train.action/understood.todo': wayOut('Type help for usage.'),
  'train.action/answer2': word('There is no answer "{ $line }".', 'as train.action', { line: 'read head' }),
  'train.action/answer2.todo': wayOut('Type the number of an answer.'),
  'train.action/squaring-one': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-one.todo': wayOut('Type one action a line.'),
  'train.action/squaring-read': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-read.todo': wayOut('Say what to read: read top, read bl-tr.'),
  'train.action/squaring-alone': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-alone.todo': wayOut('Type { $verb } alone.', { verb: 'done' }),
  'train.action/squaring-start': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-start.todo': wayOut('Type start hook or start 100.'),
  'train.action/squaring-fault': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-fault.todo': wayOut('Say one of: { $faults }.', { faults: 'short, slip' }),
  'train.action/squaring-where': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-where.todo': wayOut(
    'Say where by a length: top, bottom, left, right, bl-tr or br-tl.',
  ),
  'train.action/squaring-where-fault': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-where-fault.todo': wayOut('Say where: say { $fault } top.', { fault: 'short' }),
  'train.action/squaring-far': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-far.todo': wayOut('Say how far in mm: { $example } 3', { example: 'push bl-tr' }),
  'train.action/squaring-zero': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-zero.todo': wayOut('The length must be more than 0.'),
  'train.action/squaring-push': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-push.todo': wayOut('A diagonal is pushed: bl-tr or br-tl.'),
  'train.action/squaring-press': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-press.todo': wayOut('A corner is pressed: bl, br, tr or tl.'),
  'train.action/squaring-recut': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-recut.todo': wayOut('A member is cut: top, bottom, left or right.'),
  'train.action/squaring-help': word('"{ $line }" is not understood.', 'as train.action', {
    line: 'reed top',
  }),
  'train.action/squaring-help.todo': wayOut('Type help for usage.'),
  'train.no-light': word(
    '{ $unit } has no light "{ $lightId }".',
    'a setting-out drill asks for a light that the unit does not have',
    { unit: 'P02-1', lightId: 'north' },
  ),
  'train.no-light.todo': wayOut('Its lights are: { $known }.', { known: 'saw, crimper' }),
  'train.nothing-to-ask': word(
    '{ $unit } has { $count } steps that can go wrong unseen; { $want } faults are wanted.',
    'the unit or procedure holds nothing that this drill could ask',
    { unit: 'P02-1', count: '3', want: 'size' },
  ),
  'train.nothing-to-ask.todo': wayOut(
    'Choose another unit, or write watch texts and questions into the procedure.',
  ),
  'train.nothing-to-ask/stages': word(
    '{ $unit } has { $count } stages in which a step can go wrong unseen; { $want } faults are wanted.',
    'as train.nothing-to-ask',
    { unit: 'P02-1', count: '3', want: 'size' },
  ),
  'train.nothing-to-ask/size': word(
    '{ $unit } has no size of { $light } that follows from a sum.',
    'as train.nothing-to-ask',
    { unit: 'P02-1', light: 'left' },
  ),
  'train.person': word('"{ $code }" is nobody in this workshop.', 'a person is not in the list of people', {
    code: 'mv',
  }),
  'train.person.todo': wayOut('Known are: { $known }.', { known: 'saw, crimper' }),
  'train.person/signed': word('"{ $by }" is nobody in this workshop.', 'as train.person', { by: 'xx' }),
  'train.person/signed.todo': wayOut('Known are: { $known }.', { known: 'ot, mv' }),
  'train.stage': word('{ $unit } has no stage "{ $stage }".', 'a stage is not in the procedure', {
    unit: 'P02-1',
    stage: 'frame',
  }),
  'train.stage.todo': wayOut('Its stages are: { $stages }.', { stages: 'frame, sash, glass' }),
  'train.stage/signed': word('The procedure { $procedure } has no stage "{ $stage }".', 'as train.stage', {
    procedure: 'casement',
    stage: 'frame',
  }),
  'train.stage/signed.todo': wayOut('Its stages are: { $stages }.', { stages: 'frame, sash' }),
  'train.set': word(
    'A level is signed for one profile set, and this workshop has more than one.',
    'a sign-off names no profile set, or one that the workshop does not have',
  ),
  'train.set.todo': wayOut('Name one with --set: { $sets }.', { sets: 'quay-70, mole-60' }),
  'train.set/workshop': word('The workshop has no profile set "{ $profileSet }".', 'as train.set', {
    profileSet: 'quay-70',
  }),
  'train.set/workshop.todo': wayOut('It has: { $profileSets }.', { profileSets: 'quay-70, mole-60' }),
  'train.self': word('{ $person } cannot assess themselves.', 'somebody wants to assess themselves', {
    person: 'Mara Vogt',
  }),
  'train.self.todo': wayOut('Let another person who may assess this stage do it.'),
  'train.not-assessor': word(
    'The sign-off of { $assessor } ran out on { $validUntil }.',
    'the assessor may not assess this stage',
    { assessor: 'Mara Vogt', validUntil: '2026-10-01' },
  ),
  'train.not-assessor.todo': wayOut('Let somebody else do it, or renew validUntil in shared/people.yaml.'),
  'train.not-assessor/level': word(
    '{ $assessor } is at level { $level } ({ $levelWords }) for stage { $stage } and may not assess it.',
    'as train.not-assessor',
    { assessor: 'Mara Vogt', level: '2', levelWords: 'under supervision', stage: 'frame' },
  ),
  'train.not-assessor/level.todo': wayOut('Let one of these do it: { $able }.', { able: 'ot' }),
  'train.not-assessor/nobody': word(
    '{ $assessor } is at level { $level } ({ $levelWords }) for stage { $stage } and may not assess it.',
    'as train.not-assessor',
    { assessor: 'Mara Vogt', level: '2', levelWords: 'under supervision', stage: 'frame' },
  ),
  'train.not-assessor/nobody.todo': wayOut('Name somebody with level 5 in shared/people.yaml.'),
  'train.not-trainer': word(
    '{ $assessor } does not do stage { $stage } alone.',
    'a note is written by somebody who may not do the stage alone',
    { assessor: 'Mara Vogt', stage: 'frame' },
  ),
  'train.not-trainer.todo': wayOut('Let somebody with level 3 or more for the stage write it.'),
  'train.evidence': word(
    'Level { $level } ({ $levelWords }) of { $person } in stage { $stage } lacks: { $missing }.',
    'the evidence for a level is not complete',
    {
      level: '2',
      levelWords: 'under supervision',
      person: 'Mara Vogt',
      stage: 'frame',
      missing: 'two units under supervision',
    },
  ),
  'train.evidence.todo': wayOut(
    'Bring the evidence that is named, or give the reason why it is waived; the journal keeps it.',
  ),
  'train.nothing-to-withdraw': word(
    'Nothing is signed for { $person } in stage { $stage }.',
    'a sign-off is withdrawn that was never given',
    { person: 'Mara Vogt', stage: 'frame' },
  ),
  'train.nothing-to-withdraw.todo': wayOut('Look at the page of the person for what is signed.'),
  'train.reason': word('A note says what was seen; it is empty.', 'a reason is missing'),
  'train.reason.todo': wayOut('Say why in a few words; the journal keeps it.'),
  'train.reason/withdrawal': word('A withdrawal says why.', 'as train.reason'),
  'train.usage': word(
    '"{ $level }" is no level.',
    'the training command was given something that it does not take',
    { level: '2' },
  ),
  'train.usage.todo': wayOut('Levels are 0 to 5: give tf frame 3.'),
  'train.usage/none': word('"{ $verb }" is none of observe, give, withdraw.', 'as train.usage', {
    verb: 'hand',
  }),
  'train.usage/none.todo': wayOut('See pinchrod train --help.'),
  'train.usage/unit': word('No job has a unit "{ $unit }".', 'as train.usage', { unit: 'P02-1' }),
  'train.usage/unit.todo': wayOut('There are: { $units }.', { units: 'P01-1, P02-1' }),
  'train.usage/no-unit': word('No job has a unit "{ $unit }".', 'as train.usage', { unit: 'P02-1' }),
  'train.usage/no-unit.todo': wayOut('No job has a unit yet: add one to shared/jobs.'),
  'train.usage/procedure': word('Which procedure is meant?', 'as train.usage'),
  'train.usage/procedure.todo': wayOut('Name one with --procedure: { $names }.', {
    names: 'casement, screen',
  }),
  'train.usage/no-procedure': word('Which procedure is meant?', 'as train.usage'),
  'train.usage/no-procedure.todo': wayOut('Put a procedure into the folder procedures first.'),
  'train.usage/what': word('Say what to train.', 'as train.usage'),
  'train.usage/what.todo': wayOut('See pinchrod train --help.'),
  'train.usage/seed': word('--seed takes a whole number.', 'as train.usage'),
  'train.usage/seed.todo': wayOut('See pinchrod train --help.'),
  'train.usage/level': word('--level takes 1, 2 or 3.', 'as train.usage'),
  'train.usage/level.todo': wayOut('See pinchrod train --help.'),
  'train.usage/size': word(
    '--size takes a width and a height from 300 to 4000, such as 1000x1200.',
    'as train.usage',
  ),
  'train.usage/size.todo': wayOut('See pinchrod train --help.'),
  'train.usage/setout': word('setout takes a unit and a light.', 'as train.usage'),
  'train.usage/setout.todo': wayOut('See pinchrod train --help.'),
  'train.usage/faults': word('faults takes a unit, and 1 to 6 faults.', 'as train.usage'),
  'train.usage/faults.todo': wayOut('See pinchrod train --help.'),
  'train.usage/memory': word('memory takes a unit and --person ID.', 'as train.usage'),
  'train.usage/memory.todo': wayOut('See pinchrod train --help.'),
  'train.usage/walk': word('walk takes a unit and --person ID.', 'as train.usage'),
  'train.usage/walk.todo': wayOut('See pinchrod train --help.'),
  'train.usage/signoff': word(
    'signoff takes observe, give or withdraw, a person, a stage, and --by ID.',
    'as train.usage',
  ),
  'train.usage/signoff.todo': wayOut('See pinchrod train --help.'),
  'train.usage/page': word('page takes one person.', 'as train.usage'),
  'train.usage/page.todo': wayOut('See pinchrod train --help.'),
  'train.usage/nothing': word('"{ $what }" is nothing to train.', 'as train.usage', { what: 'glaze' }),
  'train.usage/nothing.todo': wayOut('See pinchrod train --help.'),
} as const;

export const trainingProblem = problemFactory(TRAIN_MESSAGES);

/** A decision that says no. */
export const declined = <K extends Refusals<typeof TRAIN_MESSAGES>>(
  key: K,
  ...given: RaiseArgs<typeof TRAIN_MESSAGES, K>
): { readonly problem: Problem } => ({ problem: trainingProblem(key, ...given) });
