/** Every message of the training room, with general advice on what to do. */
import { type Problem, problemFactory } from '../base/problem.js';

export const TRAIN_MESSAGES = {
  'train.action': {
    what: 'a drill was given a line that it does not know',
    todo: 'Type help for usage.',
  },
  'train.no-light': {
    what: 'a setting-out drill asks for a light that the unit does not have',
    todo: 'Name one of the lights listed.',
  },
  'train.nothing-to-ask': {
    what: 'the unit or procedure holds nothing that this drill could ask',
    todo: 'Choose another unit, or write watch texts and questions into the procedure.',
  },
  'train.person': {
    what: 'a person is not in the list of people',
    todo: 'Name one of the people in shared/people.yaml, or add the person there.',
  },
  'train.stage': {
    what: 'a stage is not in the procedure',
    todo: 'Name one of the stages listed.',
  },
  'train.set': {
    what: 'a sign-off names no profile set, or one that the workshop does not have',
    todo: 'Name a profile set of the workshop with --set.',
  },
  'train.self': {
    what: 'somebody wants to assess themselves',
    todo: 'Let another person who may assess this stage do it.',
  },
  'train.not-assessor': {
    what: 'the assessor may not assess this stage',
    todo: 'Let somebody with level 5 for the stage do it.',
  },
  'train.not-trainer': {
    what: 'a note is written by somebody who may not do the stage alone',
    todo: 'Let somebody with level 3 or more for the stage write it.',
  },
  'train.evidence': {
    what: 'the evidence for a level is not complete',
    todo: 'Bring the evidence that is named, or give the reason why it is waived; the journal keeps it.',
  },
  'train.nothing-to-withdraw': {
    what: 'a sign-off is withdrawn that was never given',
    todo: 'Look at the page of the person for what is signed.',
  },
  'train.reason': {
    what: 'a reason is missing',
    todo: 'Say why in a few words; the journal keeps it.',
  },
  'train.usage': {
    what: 'the training command was given something that it does not take',
    todo: 'See pinchrod train --help.',
  },
} as const;

export const trainingProblem = problemFactory(TRAIN_MESSAGES);

/** A decision that says no. @param todo the way out, where it can be more exact than the catalogue's */
export const declined = (
  id: keyof typeof TRAIN_MESSAGES,
  text: string,
  todo?: string,
): { readonly problem: Problem } => ({
  problem: trainingProblem(id, text, undefined, todo),
});
