/** Every refusal of the unit room. `todo` is the general remedy; the place that raises one gives the specific one. */
import { problemFactory } from '../base/problem.js';

export const BUILD_MESSAGES = {
  'build.bad-action': {
    what: 'an action is not one the bench knows, or a field of it is missing or of the wrong kind',
    todo: 'Send an action as the JSON Schema of actions describes it.',
  },
  'build.nobody': {
    what: 'nobody is at the bench, so nothing can be written',
    todo: 'Choose or scan a person first.',
  },
  'build.unknown-person': {
    what: 'a person is not in the list of people',
    todo: 'Scan one of the people in shared/people.yaml, or add the person there.',
  },
  'build.person-expired': {
    what: "a person's sign-off has run out",
    todo: 'Let somebody who may assess renew it in shared/people.yaml.',
  },
  'build.needs-second': {
    what: 'the person may not do this stage alone',
    todo: 'Name a second person who may do this stage alone (level 3 or more).',
  },
  'build.second-not-able': {
    what: 'the second person may not do this stage alone either, or is the same person',
    todo: 'Name another person, with level 3 or more for this stage.',
  },
  'build.no-right': {
    what: 'the person is not authorised to do this',
    todo: 'Ask somebody with the required level to do it.',
  },
  'build.same-person': {
    what: 'the one who did the step may not release or concede it',
    todo: 'Let another person with the right do it.',
  },
  'build.solo-too-soon': {
    what: 'in a one-person workshop the same person may do this only after a pause',
    todo: 'Come back after the time named and look again.',
  },
  'build.pin-needed': { what: 'a PIN is required', todo: 'Type the PIN of the person at the bench.' },
  'build.pin-wrong': { what: 'the PIN is not right', todo: 'Type the PIN again.' },
  'build.pin-locked': {
    what: 'too many wrong PINs were typed',
    todo: 'Wait, or let somebody else with the right do it.',
  },
  'build.unknown-step': {
    what: 'the unit has no such step',
    todo: 'Name a step of this unit; the bench and `board` list them.',
  },
  'build.no-look': {
    what: 'one answer was given to questions that are not asked together now',
    todo: 'Answer the check that is asked.',
  },
  'build.unknown-check': {
    what: 'the unit has no such check',
    todo: 'Name a check of this unit; the bench lists them.',
  },
  'build.waits-for-step': {
    what: 'a step that comes before is not done',
    todo: 'Do the step named first.',
  },
  'build.waits-for-hold': {
    what: 'a hold before this step is not released',
    todo: 'Let somebody with the right release the hold named.',
  },
  'build.waits-for-cure': {
    what: 'something is still curing',
    todo: 'Wait until the time named; do something else meanwhile.',
  },
  'build.open-time-over': {
    what: 'the open time ran out before the step was done',
    todo: 'Rework the step named (clean off, apply anew), or raise a snag.',
  },
  'build.waits-for-snag': {
    what: 'an open snag touches what this rests on',
    todo: 'Decide and close the snag named.',
  },
  'build.check-order': {
    what: 'an earlier check of the step is not answered or has failed',
    todo: 'Answer the check named first; a failed one is measured again, reworked or snagged.',
  },
  'build.already-answered': {
    what: 'the check is answered already and counts',
    todo: 'Undo the answer with a reason if it was the last one, or rework the step.',
  },
  'build.parked': { what: 'the unit is parked', todo: 'Resume the unit first.' },
  'build.not-parked': { what: 'the unit is not parked', todo: 'Go on; nothing needs resuming.' },
  'build.scrapped': {
    what: 'the unit is scrapped',
    todo: 'Build the replacement named; only notes are taken here.',
  },
  'build.finished': {
    what: 'the unit is finished',
    todo: 'Raise a snag or rework a step if something was found; that opens the unit again.',
  },
  'build.not-opened': { what: 'the unit is not opened', todo: 'Open the unit at the bench first.' },
  'build.refused-order': {
    what: 'the order check refused the unit',
    todo: 'Correct the job, or let somebody with the right override the problem named.',
  },
  'build.no-such-problem': {
    what: 'the order check has no such open problem',
    todo: 'Name one of the problems that are open; `setout` lists them.',
  },
  'build.no-setup': {
    what: 'the step needs a set-up with a valid first-off',
    todo: 'Make a first-off for the set-up named and log it.',
  },
  'build.nothing-to-cite': {
    what: 'nothing that units share stands now, so nothing can be cited',
    todo: 'Answer the checks of the step.',
  },
  'build.setup-blocked': {
    what: 'an open snag touches the set-up',
    todo: 'Decide and close the snag, or make a new first-off.',
  },
  'build.answer-kind': {
    what: 'the value is not an answer to this kind of check',
    todo: 'Answer as the check asks.',
  },
  'build.no-instrument': {
    what: 'no suitable instrument is in hand',
    todo: 'Scan or choose one that measures it.',
  },
  'build.unknown-instrument': {
    what: 'an instrument is not in the list of instruments',
    todo: 'Scan one of the instruments in shared/instruments.yaml, or add it there.',
  },
  'build.instrument-overdue': {
    what: "an instrument's calibration is overdue",
    todo: 'Take another instrument, or let somebody who may release this stage allow it by name.',
  },
  'build.unseen': {
    what: "the last step of a unit is released, and the shop's server does not have all of its answers and evidence yet",
    todo: 'Wait until the line is up and the count at the top is gone, then do the same again. A shop may allow it: pinchrod shop status says.',
  },
  'build.unsigned': {
    what: "a unit would be closed, and the bench's key cannot sign it",
    todo: 'Mend the key and do this again, or let one who may release allow it.',
  },
  'build.instrument-quantity': {
    what: 'the instrument in hand does not measure what is asked',
    todo: 'Scan one that does.',
  },
  'build.nothing-to-begin': {
    what: 'a check has no readings that could be taken anew',
    todo: 'Answer the check that is asked.',
  },
  'build.second-unconfirmed': {
    what: 'the second person has not confirmed standing by in this stage',
    todo: 'Let them type their PIN, or scan their own code.',
  },
  'build.lot-code': {
    what: 'a scanned code names no lot, or no number of a piece',
    todo: 'Scan the code that holds it, or type it.',
  },
  'build.lot-needs-date': {
    what: 'the lot of a material that goes off is named without its date',
    todo: 'Type the date after the lot.',
  },
  'build.lot-not-accepted': {
    what: 'a lot, or a piece, was not accepted at goods-in',
    todo: 'Take one that was accepted, or let somebody who may release this stage accept it here.',
  },
  'build.lot-which': {
    what: 'two lots of different dates have one code',
    todo: 'Type the date after the lot.',
  },
  'build.piece-elsewhere': {
    what: 'a piece with its own number belongs to another place',
    todo: 'Look at the label of the piece again. If it is to change places, take back or make again where it was accepted.',
  },
  'build.lot-expired': {
    what: 'the lot has passed its expiry date',
    todo: 'Take a lot that is in date and scan that.',
  },
  'build.lot-expiry-bad': {
    what: 'an expiry date cannot be read',
    todo: 'Type the date as year-month-day, 2027-03-31.',
  },
  'build.lot-snagged': {
    what: 'an open snag touches the lot',
    todo: 'Take another lot, or decide and close the snag.',
  },
  'build.evidence-needed': {
    what: 'a picture or file is asked for',
    todo: 'Name a file, or put one into the inbox folder and take the newest.',
  },
  'build.evidence-missing': {
    what: 'an evidence file was not found or not kept',
    todo: 'Name a file that is there.',
  },
  'build.square-incomplete': {
    what: 'the squareness set is not complete',
    todo: 'Read the missing sides and diagonals; four sides and both diagonals make a set.',
  },
  'build.square-key': {
    what: 'a reading of a set has an unknown key, or the check is no set of readings',
    todo: 'Use the keys of the check: top, bottom, left, right, bl_tr and br_tl, or its points.',
  },
  'build.nothing-to-undo': {
    what: 'there is no last answer that can be taken back',
    todo: 'Rework the step instead; that keeps both readings.',
  },
  'build.nothing-to-rework': {
    what: 'the step has not been begun, so there is nothing to make again',
    todo: 'Just do the step.',
  },
  'build.no-hold': { what: 'the step has no hold', todo: 'Name a step that has one.' },
  'build.not-held': {
    what: 'the hold cannot be released yet',
    todo: 'Answer the checks named until all pass, then release.',
  },
  'build.hold-skipped': {
    what: 'work went on past this hold before it was released',
    todo: 'Raise a snag on the step: open it up, test it or scrap it; a hold is not released late.',
  },
  'build.unknown-snag': {
    what: 'the unit has no such snag, or it is closed',
    todo: 'Name an open snag by its number.',
  },
  'build.concession-no-limit': {
    what: 'a concession must name the limit it waives',
    todo: 'Name the limits, separated by commas.',
  },
  'build.concession-no-failure': {
    what: 'there is no failed check that the concession could let stand',
    todo: 'Raise the snag on the failed check, or choose rework or repair.',
  },
  'build.concession-safety': {
    what: 'safety glass, escape, restrictors and critical snags take no concession',
    todo: 'Rework or scrap.',
  },
  'build.concession-product-limit': {
    what: 'a limit of a published standard takes no concession',
    todo: 'Rework or scrap.',
  },
  'build.snag-not-decided': {
    what: 'the snag has no disposition yet',
    todo: 'Decide it first: rework, repair, concession, scrap or return.',
  },
  'build.snag-needs-rework': {
    what: 'the snag was decided as rework and nothing has been reworked since',
    todo: 'Rework the step and take its readings again.',
  },
  'build.snag-needs-readings': {
    what: 'a snag closes only with readings taken again',
    todo: 'Answer the checks named again, so that they pass.',
  },
} as const;

export type BuildMessage = keyof typeof BUILD_MESSAGES;
export const unitProblem = problemFactory(BUILD_MESSAGES);

/** Why a revision re-opens a step. */
export const REVISION_WORDS = {
  figures: (gone: readonly string[], now: readonly string[]) =>
    gone.length === 0
      ? `it says ${now.join(', ')} too`
      : now.length === 0
        ? `it does not say ${gone.join(', ')} any more`
        : `it says ${now.join(', ')}, and said ${gone.join(', ')}`,
  checkNew: (ask: string) => `it asks now: ${ask}`,
  checkGone: (ask: string) => `it does not ask any more: ${ask}`,
  asked: (ask: string, was: string | undefined, now: string | undefined) =>
    was === now
      ? `${ask}: something else is asked`
      : `${ask}: ${now ?? 'no figure'}, was ${was ?? 'no figure'}`,
  instrument: (ask: string) => `${ask}: measured with another kind of instrument`,
  limit: (ask: string, limit: string, was: string | undefined, now: string | undefined) =>
    `${ask}: ${now === undefined ? 'no limit any more' : now === '' ? 'a limit that is not there' : now}, ${was === undefined ? 'without a limit before' : `was ${was}`} (${limit})`,
  rule: (ask: string) => `${ask}: judged by another rule`,
  hold: 'its hold is another',
  makes: 'it makes something else',
  rests: 'it rests on other work',
  times: 'its times are others',
  setup: 'it needs another set-up',
  before: (step: string) => `comes after "${step}" now`,
  because: (reasons: readonly string[]) => `Revised: ${reasons.join('; ')}.`,
  /** A member of the job file, and what it said and says. */
  order: (key: string, was: string | undefined, now: string | undefined) => {
    const name = key.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
    return was === undefined || now === undefined
      ? `the order: another ${name}`
      : `the order: ${name} ${now || '(empty)'}, was ${was || '(empty)'}`;
  },
} as const;
