/** Words of the procedure room besides its refusals. */
import { messagesOf, word } from '../base/words.js';

const LINT = 'filled into what lint says of a procedure or its translation';
export const PROCEDURE_WORDS = {
  'gives-nothing': word(
    'it gives no figure for this unit; a step or a check that needs one says with "when" which units have it',
    'why a formula of a procedure cannot be shown',
  ),
  'lint-limit-suits-only': word('a limit of "{ $of }" suits only a squareness check', LINT, { of: 'of' }),
  'lint-limit-held-against': word('the limit is held against a deviation, and a point has no "expect"', LINT),
  'lint-check-names-no': word('the check names no "pairs"', LINT),
  'lint-limit-suits-only-check': word('a limit of "{ $of }" suits only a check of several points', LINT, {
    of: 'of',
  }),
  'lint-limit-value-itself': word('a limit of the value itself does not suit a squareness check', LINT),
  'lint-limit-held-against-deviation': word(
    'the limit is held against a deviation, and the check has no "expect"',
    LINT,
  ),
  'lint-check-limit-3': word('the check is in { $unit } and the limit in { $unit2 }', LINT, {
    unit: 'P02-1',
    unit2: 'unit2',
  }),
  'part-phrase': word('the phrase "{ $phrase }"', LINT, { phrase: 'hinged left' }),
  'part-deferral': word('the deferral', LINT),
  'part-hold': word('the title of hold "{ $id }"', LINT, { id: 'H3' }),
  'part-stage': word('the title of stage "{ $id }"', LINT, { id: 'frame' }),
  'part-step': word('step "{ $step }"', LINT, { step: 'frame.saw' }),
  'part-step-first': word('Step "{ $step }"', LINT, { step: 'frame.saw' }),
  'part-tool': word('a tool of step "{ $step }"', LINT, { step: 'frame.saw' }),
  'part-checks': word('checks of step "{ $step }"', LINT, { step: 'frame.saw' }),
  'part-caution': word('the caution of step "{ $step }"', LINT, { step: 'frame.saw' }),
  'part-caution-first': word('The caution of step "{ $step }"', LINT, { step: 'frame.saw' }),
  'part-question': word('the question of step "{ $step }", or one of its answers', LINT, {
    step: 'frame.saw',
  }),
  'part-check': word('check "{ $check }"', LINT, { check: 'frame.saw/length' }),
  'part-check-first': word('Check "{ $check }"', LINT, { check: 'frame.saw/length' }),
  'part-how': word('the "how" of check "{ $check }"', LINT, { check: 'frame.saw/length' }),
  'part-choices': word('choices of check "{ $check }"', LINT, { check: 'frame.saw/length' }),
  'part-points': word('points of check "{ $check }"', LINT, { check: 'frame.saw/length' }),
  'part-choice': word('choice "{ $choice }" of check "{ $check }"', LINT, {
    choice: 'a',
    check: 'frame.saw/length',
  }),
  'part-point': word('point "{ $point }" of check "{ $check }"', LINT, {
    point: 'a',
    check: 'frame.saw/length',
  }),
  'part-phrases': word('phrases', LINT),
  'part-holds': word('holds', LINT),
  'part-stages': word('stages', LINT),
  'part-steps': word('steps', LINT),
} as const;

export const procedureWords = messagesOf(PROCEDURE_WORDS);
