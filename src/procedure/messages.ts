import { problemFactory } from '../base/problem.js';
import { wayOut, word } from '../base/words.js';

export const PROCEDURE_MESSAGES = {
  'procedure.twice': word(
    'Stage "{ $id }" is already in line { $line }.',
    'two stages, steps or checks have one id',
    { id: 'frame', line: 12 },
  ),
  'procedure.twice.todo': wayOut('Give each its own id; records refer to it for years.'),
  'procedure.twice/step': word('Step "{ $id }" is already in line { $line }.', 'as procedure.twice', {
    id: 'frame.saw',
    line: 12,
  }),
  'procedure.twice/check': word(
    'Check of step "{ $step }", "{ $id }" is already in line { $line }.',
    'as procedure.twice',
    { step: 'frame.saw', id: 'length', line: 12 },
  ),
  'procedure.stage-unknown': word(
    'Stage "{ $stage }" comes after "{ $before }".',
    'a stage comes after a stage that is not in the procedure',
    { stage: 'frame', before: 'machining' },
  ),
  'procedure.stage-unknown.todo': wayOut('Name a stage of this procedure, or take the name out of "after".'),
  'procedure.stage-cycle': word(
    'Stages "{ $stage }" and "{ $before }" wait for one another.',
    'stages wait for one another in a ring, so none of them can start',
    { stage: 'frame', before: 'machining' },
  ),
  'procedure.stage-cycle.todo': wayOut('Take one of the stages named out of another\'s "after".'),
  'procedure.stage-order': word(
    'Stage "{ $stage }" stands before "{ $before }".',
    'a stage stands in the file before a stage that it comes after',
    { stage: 'frame', before: 'machining' },
  ),
  'procedure.stage-order.todo': wayOut('Write the stages in an order in which they can be done.'),
  'procedure.feature-unknown': word(
    'Step "{ $step }": no feature "{ $feature }".',
    'a step makes or rests on a feature that the procedure does not list',
    { step: 'sash.square', feature: 'frame.corners' },
  ),
  'procedure.feature-unknown.todo': wayOut('Add the feature under "features", or mend its name.'),
  'procedure.feature-unknown/near': word(
    'Step "{ $step }": no feature "{ $feature }".',
    'as procedure.feature-unknown',
    {
      step: 'sash.square',
      feature: 'frame.corner',
    },
  ),
  'procedure.feature-unknown/near.todo': wayOut('Write "{ $near }", or add the feature under "features".', {
    near: 'frame.corners',
  }),
  'procedure.two-makers': word(
    '"{ $feature }" is made by "{ $first }" and by "{ $other }".',
    'two steps make one feature',
    { feature: 'frame.corners', first: 'frame.cut', other: 'glass.packed' },
  ),
  'procedure.two-makers.todo': wayOut('Let one step make it; give the other step a feature of its own.'),
  'procedure.two-makers/made': word(
    '"{ $feature }" is made by "{ $steps }" and by "{ $step }".',
    'as procedure.two-makers',
    { feature: 'frame.corners', steps: 'frame.seal', step: 'sash.square' },
  ),
  'procedure.feature-cycle': word(
    'In a ring: { $ring }.',
    'features rest on one another in a ring, so none of them can ever be made',
    { ring: 'a.b, b.a' },
  ),
  'procedure.feature-cycle.todo': wayOut('Take one of the features named out of a step\'s "rests".'),
  'procedure.rests-ahead': word(
    '"{ $step }" rests on "{ $feature }", made by "{ $steps }".',
    'a step rests on a feature that is only made later in the walk',
    { step: 'sash.square', feature: 'frame.corners', steps: 'frame.seal' },
  ),
  'procedure.rests-ahead.todo': wayOut(
    'Move the step behind the one that makes the feature, or rest it on something made before.',
  ),
  'procedure.rests-aside': word(
    'Step "{ $step }" rests on "{ $feature }" of stage "{ $stage }", which stage "{ $stage2 }" does not come after.',
    'a step rests on a feature made in a stage that its own stage does not come after',
    { step: 'sash.square', feature: 'frame.corners', stage: 'frame', stage2: 'machining' },
  ),
  'procedure.rests-aside.todo': wayOut(
    'Name that stage in "after" of the step\'s stage, so that the order is the same for everybody.',
  ),
  'procedure.hold-unknown': word(
    'Step "{ $step }": no hold "{ $hold }".',
    'a step names a hold that the procedure does not list',
    { step: 'sash.square', hold: 'frame-closed' },
  ),
  'procedure.hold-unknown.todo': wayOut('Add the hold under "holds", or mend its name.'),
  'procedure.brace': word('"{ $text }": no closing brace.', 'a brace in a text is not closed', {
    text: 'saw 45',
  }),
  'procedure.brace.todo': wayOut(
    'Close the formula with "{ "}" }"; write "{ "{" }{ "{" }" for a brace that is meant as one.',
  ),
  'procedure.brace/closing': word(
    '"{ $text }": a closing brace without an opening one.',
    'as procedure.brace',
    { text: 'saw 45' },
  ),
  'procedure.check-keys': word(
    'Check "{ $check }" of kind { $kind } needs "{ $key }".',
    'a check lacks a key that its kind needs, or has one that its kind does not take',
    { check: 'frame.diagonals', kind: 'lot', key: 'k3f9' },
  ),
  'procedure.check-keys.todo': wayOut('See the table of check kinds in procedures/README.md.'),
  'procedure.check-keys/check': word(
    'Check "{ $check }" of kind { $kind } does not take "{ $key }".',
    'as procedure.check-keys',
    { check: 'frame.diagonals', kind: 'lot', key: 'k3f9' },
  ),
  'procedure.check-keys/check-held': word(
    'Check "{ $check }" is held against a deviation and needs "expect".',
    'as procedure.check-keys',
    { check: 'frame.diagonals' },
  ),
  'procedure.check-keys/check-nth': word(
    'Check "{ $check }": "nth" and "rhythm: nth" go together.',
    'as procedure.check-keys',
    { check: 'frame.diagonals' },
  ),
  'procedure.check-keys/check-none': word(
    'Check "{ $check }": none of its choices passes.',
    'as procedure.check-keys',
    { check: 'frame.diagonals' },
  ),
  'procedure.check-keys/check-two': word(
    'Check "{ $id }" has two points "{ $twice }".',
    'as procedure.check-keys',
    { id: 'vent-1.diagonals', twice: 'frame.cut' },
  ),
  'procedure.check-keys/check-point': word(
    'Check "{ $id }" has no point "{ $unknown }".',
    'as procedure.check-keys',
    { id: 'vent-1.diagonals', unknown: 'frame.x' },
  ),
  'procedure.check-keys/unit': word(
    'Check "{ $check }": { $quantity } is read in { $units }, not in { $unit }.',
    'as procedure.check-keys',
    { check: 'frame.diagonals', quantity: 'mass', units: 'kg', unit: 'mm' },
  ),
  'procedure.value': word(
    'Step "{ $step }", "{ $text }": { $why }.',
    'a formula of the procedure cannot be worked out for this unit',
    { step: 'sash.square', text: 'saw 45', why: 'the file was changed' },
  ),
  'procedure.value.todo': wayOut(
    'Add the figure to the profile set, or put a "when" on the step so that this unit does not get it.',
  ),
  'procedure.value/near': word('Step "{ $step }", "{ $text }": { $why }.', 'as procedure.value', {
    step: 'sash.square',
    text: 'figure["lapp"]',
    why: 'No such key: lapp',
  }),
  'procedure.value/near.todo': wayOut('Write "{ $near }", or add what is asked for to the profile set.', {
    near: 'lap',
  }),
  'procedure.empty': word(
    '"{ $procedure }" has no step for this unit.',
    'no step of the procedure applies to the unit',
    { procedure: 'casement' },
  ),
  'procedure.empty.todo': wayOut(
    'Check the "when" conditions; every unit has at least an order check and a final inspection.',
  ),
  'procedure.no-why': word('Step "{ $step }" has no "{ $key }".', 'a step has no "why" or no "watch"', {
    step: 'sash.square',
    key: 'k3f9',
  }),
  'procedure.no-why.todo': wayOut(
    'Say in a sentence why it is done, and what usually goes wrong and how that shows.',
  ),
  'procedure.no-caution': word(
    'Step "{ $step }" ({ $hazards }) has no caution.',
    'a machine, lifting, glass or chemical step has no caution, or the procedure defers to nobody',
    { step: 'sash.square', hazards: 'noise' },
  ),
  'procedure.no-caution.todo': wayOut(
    'Write a caution, and a "deferral" sentence that puts the employer\'s risk assessment and local rules first.',
  ),
  'procedure.no-caution/step': word(
    'Step "{ $step }" cautions, but there is no "deferral".',
    'as procedure.no-caution',
    { step: 'sash.square' },
  ),
  'procedure.no-limit': word(
    'Check "{ $id }" judges a number by nothing.',
    'a number or squareness check has no limit to be judged by',
    { id: 'vent-1.diagonals' },
  ),
  'procedure.no-limit.todo': wayOut(
    'Name limits of shared/limits.yaml, or ask for a tick instead of a number.',
  ),
  'procedure.limit-unknown': word(
    'Check "{ $id }" names limit "{ $name }".',
    'a check names a limit that the limits file does not have',
    { id: 'vent-1.diagonals', name: 'frame-size' },
  ),
  'procedure.limit-unknown.todo': wayOut(
    'Add the limit with its source to shared/limits.yaml, or mend the name.',
  ),
  'procedure.limit-unknown/near': word(
    'Check "{ $id }" names limit "{ $name }".',
    'as procedure.limit-unknown',
    {
      id: 'vent-1.diagonals',
      name: 'frame.siez',
    },
  ),
  'procedure.limit-unknown/near.todo': wayOut(
    'Write "{ $near }", or add the limit with its source to shared/limits.yaml.',
    { near: 'frame.size' },
  ),
  'procedure.setup-unknown': word(
    'Step "{ $step }" needs the set-up "{ $setup }".',
    'a step needs a set-up that the workshop does not have, so its first-off can never be made',
    { step: 'sash.square', setup: 'mitre-saw' },
  ),
  'procedure.setup-unknown.todo': wayOut(
    'Add it to shared/setups.yaml, or name one that is there: { $known }.',
    { known: 'mitre-saw, crimper' },
  ),
  'procedure.setup-unknown/none': word(
    'Step "{ $step }" needs the set-up "{ $setup }".',
    'as procedure.setup-unknown',
    { step: 'sash.square', setup: 'mitre-saw' },
  ),
  'procedure.setup-unknown/none.todo': wayOut('Add it to shared/setups.yaml: none is there.'),
  'procedure.limit-unsourced': word(
    'Limit "{ $name }" of check "{ $id }" has no source.',
    'a limit used by a check has no source',
    { name: 'frame-size', id: 'vent-1.diagonals' },
  ),
  'procedure.limit-unsourced.todo': wayOut(
    'Give the limit a source in shared/limits.yaml: published, house rule, common practice or memory.',
  ),
  'procedure.limit-kind': word(
    'Check "{ $id }", limit "{ $name }": { $why }.',
    'a limit does not suit the check that names it',
    { id: 'vent-1.diagonals', name: 'frame-size', why: 'the file was changed' },
  ),
  'procedure.limit-kind.todo': wayOut(
    'A number check takes limits of "deviation" (with "expect") or of "value"; a squareness check all but "value"; units must agree.',
  ),
  'procedure.number-typed': word(
    'Step "{ $step }": "{ $typed }" in "{ $text }".',
    'a figure is typed into a text',
    { step: 'sash.square', typed: '45', text: 'saw 45' },
  ),
  'procedure.number-typed.todo': wayOut(
    "Take the figure from the set-out, the profile set's figures or the limits file, in braces.",
  ),
  'procedure.number-bare': word(
    'Step "{ $step }": { "{" }{ $piece }{ "}" } in "{ $text }".',
    'a number in a text has no unit',
    { step: 'sash.square', piece: 'width', text: 'saw 45' },
  ),
  'procedure.number-bare.todo': wayOut(
    'Write { "{" }mm(…){ "}" } or { "{" }kg(…){ "}" }, or put the unit right behind the brace.',
  ),
  'procedure.figure-unknown': word(
    'Step "{ $step }" asks for figure "{ $name }".',
    'a formula asks for a figure that the profile set does not have',
    { step: 'sash.square', name: 'frame-size' },
  ),
  'procedure.figure-unknown.todo': wayOut('Add it under "figures" of the profile set, or mend the name.'),
  'procedure.sentence': word(
    'In { $where }, { $sentence } words: "{ $sentence2 }".',
    'a sentence is longer than 20 words',
    { where: 'frame.square: watch', sentence: '31', sentence2: 'Saw the jambs and the head and' },
  ),
  'procedure.sentence.todo': wayOut('Make two sentences of it.'),
  'procedure.unreachable': word(
    'No unit that can be ordered gets step "{ $step }".',
    'no unit that a job file can order ever gets the step or check',
    { step: 'sash.square' },
  ),
  'procedure.unreachable.todo': wayOut('Mend its "when", or take it out.'),
  'procedure.unreachable/kind': word(
    'No unit that can be ordered gets check "{ $step }/{ $check }".',
    'as procedure.unreachable',
    { step: 'sash.square', check: 'frame.diagonals' },
  ),
  'procedure.reach-unknown': word(
    'Not decided: whether any unit gets step "{ $step }".',
    'the condition of a step or check is too involved to say whether it can come true',
    { step: 'sash.square' },
  ),
  'procedure.reach-unknown.todo': wayOut(
    'Order a unit that gets it, or write its "when" in plain sums and comparisons.',
  ),
  'procedure.reach-unknown/check': word(
    'Not decided: whether any unit gets check "{ $step }/{ $check }".',
    'as procedure.reach-unknown',
    { step: 'sash.square', check: 'frame.diagonals' },
  ),
  'procedure.feature-unused': word(
    'Nothing rests on "{ $feature }" ({ $title }).',
    'a feature is made but nothing rests on it',
    { feature: 'frame.corners', title: 'Square the frame' },
  ),
  'procedure.feature-unused.todo': wayOut('Let the steps that depend on it rest on it, or take it out.'),
  'procedure.feature-unmade': word(
    'Nothing makes "{ $feature }" ({ $title }).',
    'a feature is rested on but no step makes it',
    { feature: 'frame.corners', title: 'Square the frame' },
  ),
  'procedure.feature-unmade.todo': wayOut('Let the step that makes it say so, or take it out.'),
  'procedure.hold-unreleasable': word(
    'Nobody has level { $mayRelease } for stage "{ $stage }", so hold "{ $hold }" of step "{ $step }" is never released.',
    'nobody in the workshop could release a hold',
    { mayRelease: '4', stage: 'frame', hold: 'frame-closed', step: 'sash.square' },
  ),
  'procedure.hold-unreleasable.todo': wayOut(
    'Give a person level 4 for the stage in shared/people.yaml; a second person, or a solo rule, where the maker may not release.',
  ),
  'procedure.hold-unreleasable/one': word(
    'One person alone does step "{ $step }" and may not release its hold "{ $hold }".',
    'as procedure.hold-unreleasable',
    { step: 'sash.square', hold: 'frame-closed' },
  ),
  'procedure.hold-unused': word(
    'No step stops at hold "{ $hold }".',
    'a hold is listed but no step stops at it',
    { hold: 'frame-closed' },
  ),
  'procedure.hold-unused.todo': wayOut('Put it on the step that must wait, or take it out.'),
  'procedure.translation-of': word(
    'This translates "{ $procedure }", not "{ $procedure2 }".',
    'a translation belongs to another procedure or version',
    { procedure: 'casement', procedure2: 'casement' },
  ),
  'procedure.translation-of.todo': wayOut(
    'Bring the translation up to the procedure, then mend its "procedure" and "version".',
  ),
  'procedure.translation-of/translates': word(
    'This translates version { $version }; the procedure is version { $version2 }.',
    'as procedure.translation-of',
    { version: '2', version2: '3' },
  ),
  'procedure.translation-lacks': word('It lacks { $what }.', 'a translation lacks a text', {
    what: 'the title',
  }),
  'procedure.translation-lacks.todo': wayOut(
    'Translate it; until then the bench shows the first language there.',
  ),
  'procedure.translation-number': word(
    '{ $where }: { "{" }{ $text }{ "}" } is not in the translated text.',
    'a translation leaves out a number that the step gives',
    { where: 'frame.square: watch', text: 'saw 45' },
  ),
  'procedure.translation-number.todo': wayOut(
    'Put the same { "{" }formula{ "}" } into the translated sentences.',
  ),
  'procedure.translation-stray': word(
    'In { $where }: the procedure has no "{ $id }".',
    'a translation has a text for something that the procedure does not have',
    { where: 'frame.square: watch', id: 'vent-1.diagonals' },
  ),
  'procedure.translation-stray.todo': wayOut('Mend the id, or take the text out.'),
  'procedure.translation-unreviewed': word(
    '{ $n } of { $of } steps were reviewed by nobody: { $steps }.',
    'steps of a translation that nobody has reviewed; their cautions show the original beside them',
    { n: 2, of: 60, steps: 'frame.saw, frame.square' },
  ),
  'procedure.translation-unreviewed.todo': wayOut(
    'Let somebody who works in the language read them beside the original, then write: reviewed: { "{" } by: NAME, version: "1.2" { "}" }.',
  ),
  'procedure.translation-changed': word(
    '{ $n } of { $of } steps were reviewed beside another version: { $steps }.',
    'steps of a translation that were reviewed beside another version of the procedure',
    { n: 2, of: 60, steps: 'frame.saw, frame.square' },
  ),
  'procedure.translation-changed.todo': wayOut(
    'Read what has changed in both, then write the version of the procedure under "reviewed".',
  ),
  'procedure.no-quantity': word(
    'Check "{ $step }/{ $check }" does not say what quantity it asks.',
    'a check takes a reading and does not say of what quantity',
    { step: 'sash.square', check: 'frame.diagonals' },
  ),
  'procedure.no-quantity.todo': wayOut(
    'Add quantity: length, gap, depth, angle, mass, force, torque, temperature, humidity, time, illuminance, pressure or coating.',
  ),
  'procedure.lot-unaccepted': word(
    'Check "{ $step }/{ $check }" asks for a lot of { $lot }, which no check accepts.',
    'a lot is asked for that goods-in never accepts, so that any lot would do',
    { step: 'sash.square', check: 'frame.diagonals', lot: 'glue' },
  ),
  'procedure.lot-unaccepted.todo': wayOut(
    'Add "accepts: true" to the check at goods-in that names the lot first.',
  ),
} as const;

export const procedureProblem = problemFactory(PROCEDURE_MESSAGES);
