import { problemFactory } from '../base/problem.js';

export const PROCEDURE_MESSAGES = {
  'procedure.twice': {
    what: 'two stages, steps or checks have one id',
    todo: 'Give each its own id; records refer to it for years.',
  },
  'procedure.stage-unknown': {
    what: 'a stage comes after a stage that is not in the procedure',
    todo: 'Name a stage of this procedure, or take the name out of "after".',
  },
  'procedure.stage-cycle': {
    what: 'stages wait for one another in a ring, so none of them can start',
    todo: 'Take one of the stages named out of another\'s "after".',
  },
  'procedure.stage-order': {
    what: 'a stage stands in the file before a stage that it comes after',
    todo: 'Write the stages in an order in which they can be done.',
  },
  'procedure.feature-unknown': {
    what: 'a step makes or rests on a feature that the procedure does not list',
    todo: 'Add the feature under "features", or mend its name.',
  },
  'procedure.two-makers': {
    what: 'two steps make one feature',
    todo: 'Let one step make it; give the other step a feature of its own.',
  },
  'procedure.feature-cycle': {
    what: 'features rest on one another in a ring, so none of them can ever be made',
    todo: 'Take one of the features named out of a step\'s "rests".',
  },
  'procedure.rests-ahead': {
    what: 'a step rests on a feature that is only made later in the walk',
    todo: 'Move the step behind the one that makes the feature, or rest it on something made before.',
  },
  'procedure.rests-aside': {
    what: 'a step rests on a feature made in a stage that its own stage does not come after',
    todo: 'Name that stage in "after" of the step\'s stage, so that the order is the same for everybody.',
  },
  'procedure.hold-unknown': {
    what: 'a step names a hold that the procedure does not list',
    todo: 'Add the hold under "holds", or mend its name.',
  },
  'procedure.brace': {
    what: 'a brace in a text is not closed',
    todo: 'Close the formula with "}"; write "{{" for a brace that is meant as one.',
  },
  'procedure.check-keys': {
    what: 'a check lacks a key that its kind needs, or has one that its kind does not take',
    todo: 'See the table of check kinds in procedures/README.md.',
  },
  'procedure.value': {
    what: 'a formula of the procedure cannot be worked out for this unit',
    todo: 'Add the figure to the profile set, or put a "when" on the step so that this unit does not get it.',
  },
  'procedure.empty': {
    what: 'no step of the procedure applies to the unit',
    todo: 'Check the "when" conditions; every unit has at least an order check and a final inspection.',
  },
  'procedure.no-why': {
    what: 'a step has no "why" or no "watch"',
    todo: 'Say in a sentence why it is done, and what usually goes wrong and how that shows.',
  },
  'procedure.no-caution': {
    what: 'a machine, lifting, glass or chemical step has no caution, or the procedure defers to nobody',
    todo: 'Write a caution, and a "deferral" sentence that puts the employer\'s risk assessment and local rules first.',
  },
  'procedure.no-limit': {
    what: 'a number or squareness check has no limit to be judged by',
    todo: 'Name limits of shared/limits.yaml, or ask for a tick instead of a number.',
  },
  'procedure.limit-unknown': {
    what: 'a check names a limit that the limits file does not have',
    todo: 'Add the limit with its source to shared/limits.yaml, or mend the name.',
  },
  'procedure.setup-unknown': {
    what: 'a step needs a set-up that the workshop does not have, so its first-off can never be made',
    todo: 'Add the set-up to shared/setups.yaml, or mend the name.',
  },
  'procedure.limit-unsourced': {
    what: 'a limit used by a check has no source',
    todo: 'Give the limit a source in shared/limits.yaml: published, house rule, common practice or memory.',
  },
  'procedure.limit-kind': {
    what: 'a limit does not suit the check that names it',
    todo: 'A number check takes limits of "deviation" (with "expect") or of "value"; a squareness check all but "value"; units must agree.',
  },
  'procedure.number-typed': {
    what: 'a figure is typed into a text',
    todo: "Take the figure from the set-out, the profile set's figures or the limits file, in braces.",
  },
  'procedure.number-bare': {
    what: 'a number in a text has no unit',
    todo: 'Write {mm(…)} or {kg(…)}, or put the unit right behind the brace.',
  },
  'procedure.figure-unknown': {
    what: 'a formula asks for a figure that the profile set does not have',
    todo: 'Add it under "figures" of the profile set, or mend the name.',
  },
  'procedure.sentence': {
    what: 'a sentence is longer than 20 words',
    todo: 'Make two sentences of it.',
  },
  'procedure.unreachable': {
    what: 'no kind of unit ever gets the step or check',
    todo: 'Mend its "when", or take it out.',
  },
  'procedure.feature-unused': {
    what: 'a feature is made but nothing rests on it',
    todo: 'Let the steps that depend on it rest on it, or take it out.',
  },
  'procedure.feature-unmade': {
    what: 'a feature is rested on but no step makes it',
    todo: 'Let the step that makes it say so, or take it out.',
  },
  'procedure.hold-unreleasable': {
    what: 'nobody in the workshop could release a hold',
    todo: 'Give a person level 4 for the stage in shared/people.yaml; a second person, or a solo rule, where the maker may not release.',
  },
  'procedure.hold-unused': {
    what: 'a hold is listed but no step stops at it',
    todo: 'Put it on the step that must wait, or take it out.',
  },
  'procedure.translation-of': {
    what: 'a translation belongs to another procedure or version',
    todo: 'Bring the translation up to the procedure, then mend its "procedure" and "version".',
  },
  'procedure.translation-lacks': {
    what: 'a translation lacks a text',
    todo: 'Translate it; until then the bench shows the first language there.',
  },
  'procedure.translation-number': {
    what: 'a translation leaves out a number that the step gives',
    todo: 'Put the same {formula} into the translated sentences.',
  },
  'procedure.translation-stray': {
    what: 'a translation has a text for something that the procedure does not have',
    todo: 'Mend the id, or take the text out.',
  },
  'procedure.no-quantity': {
    what: 'a check takes a reading and does not say of what quantity',
    todo: 'Add quantity: length, gap, depth, angle, mass, force, torque, temperature, humidity, time, illuminance, pressure or coating.',
  },
  'procedure.lot-unaccepted': {
    what: 'a lot is asked for that goods-in never accepts, so that any lot would do',
    todo: 'Add "accepts: true" to the check at goods-in that names the lot first.',
  },
} as const;

export const procedureProblem = problemFactory(PROCEDURE_MESSAGES);
