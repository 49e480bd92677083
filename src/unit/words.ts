/** Words of the unit room besides its refusals. */
import { type Message, messagesOf, quoted, word, writtenOf } from '../base/words.js';

const ACT = 'what takes a level, before "takes level 3 (alone)"';
const DECIDED = 'what was decided about a snag';
const BECAUSE = 'why a step waits, or is to be done again';
const TIMER = 'a time that runs, on the board and at the bench';
const SETUP = 'how a set-up stands';
const SETUP_END = 'why a set-up is to be proven again, before "since the first-off"';
const BOARD = 'where a unit stands, in a few words';
const STANDING = 'how a unit stands, in a word';
const HANDOVER = 'a line of the page for the next shift';
const HANDOVER_TITLE = 'heading on the page for the next shift';
const NOTE = 'kept in a journal, in English';
const PICTURE = 'asks whether a picture that is kept already is meant here too';
const REVISED = 'why a revision opens a step again';
const GRADE = 'how bad a snag is';
const LEVEL = 'what somebody at this level may do';
const LINE = 'what is wrong with a line of a journal';
/** What links an entry to a recall. */
const TRACE = 'trace: what links an entry to what was asked for';

export const UNIT_WORDS = {
  'trace-version': word('procedure version { $version }', TRACE, { version: '3.1' }),
  'trace-lot': word('lot { $lot } ({ $material })', TRACE, { lot: 'S-2601', material: 'sealant' }),
  'trace-snag-lot': word('snag on lot { $lot }', TRACE, { lot: 'S-2601' }),
  'trace-instrument': word('instrument { $instrument }', TRACE, { instrument: 'T2' }),
  'trace-by': word('by { $by }', TRACE, { by: 'jb' }),
  'trace-cited': word('asked of { $unit }, by { $by }', TRACE, { unit: 'P01-1', by: 'jb' }),
  'trace-second': word('second name { $by }', TRACE, { by: 'ot' }),
  'trace-overdue': word('overdue instrument allowed by { $by }', TRACE, { by: 'ot' }),
  'trace-unsigned': word('closing unsigned allowed by { $by }', TRACE, { by: 'ot' }),
  'trace-setup': word('set-up { $setup }', TRACE, { setup: 'saw-2' }),
  'trace-snag-setup': word('snag on set-up { $setup }', TRACE, { setup: 'saw-2' }),
  'act-unsigned': word('closing a unit without a signature', ACT),
  'act-overdue': word('allowing an overdue instrument', ACT),
  'act-lot': word('accepting a lot', ACT),
  'act-override': word('overriding the order check', ACT),
  'act-undo': word("taking back another person's entry", ACT),
  'act-close': word('closing a snag', ACT),
  'act-release': word('releasing "{ $hold }"', ACT, { hold: 'Frame closed' }),
  'act-decide': word('deciding "{ $disposition }"', ACT, { disposition: 'rework' }),
  'act-revise': word('revising a unit', ACT),
  'act-prove': word('proving { $setup }', ACT, { setup: 'Mitre saw' }),
  'decided-rework': word('rework', DECIDED),
  'decided-repair': word('repair', DECIDED),
  'decided-concession': word('concession', DECIDED),
  'decided-scrap': word('scrap', DECIDED),
  'decided-return': word('return', DECIDED),
  'level-0': word('inducted', LEVEL),
  'level-1': word('observed', LEVEL),
  'level-2': word('supervised', LEVEL),
  'level-3': word('alone', LEVEL),
  'level-4': word('may release', LEVEL),
  'level-5': word('may assess', LEVEL),
  'line-json': word('The line is not an event: it cannot be read.', LINE),
  'line-hash': word('The line was changed: its content does not give its hash.', LINE),
  'line-spelling': word('The line was written again in another spelling; its content is the same.', LINE),
  'line-broken': word(
    'Event { $n } does not follow from the line before it: that line, or this one, was written anew.',
    LINE,
    { n: 12 },
  ),
  'line-again': word('Event { $n } stands here a second time.', LINE, { n: 12 }),
  'line-elsewhere': word(
    'Event { $n } stands where event { $want } belongs; that one is in line { $line }.',
    LINE,
    { n: 12, want: 11, line: 14 },
  ),
  'line-misplaced': word('Event { $n } stands where event { $want } belongs.', LINE, { n: 12, want: 11 }),
  'line-missing': word('Event { $n } is missing before this line.', LINE, { n: 12 }),
  'lines-missing': word('Events { $from } to { $to } are missing before this line.', LINE, {
    from: 12,
    to: 14,
  }),
  'made-again': word('{ $feature } was made again at { $step }; do this step again.', BECAUSE, {
    feature: 'frame.corners',
    step: 'Seal the corners',
  }),
  'not-done-first': word('{ $step } ({ $id }) is not done; it must be done first.', BECAUSE, {
    step: 'Seal the corners',
    id: 'frame.seal',
  }),
  'check-made-again': word('{ $check } rests on something that was made again; answer it again.', BECAUSE, {
    check: 'frame.diagonals',
  }),
  'rests-on': word('{ $step }: rests on what is made at "{ $maker }".', BECAUSE, {
    step: 'Glaze',
    maker: 'Seal the corners',
  }),
  'timer-stands': word('{ $step } stands until { $when }', TIMER, {
    step: 'Seal the corners',
    when: '10:42 UTC',
  }),
  'timer-had': word('{ $step } had to be done by { $when }', TIMER, {
    step: 'Press the corners',
    when: '10:42 UTC',
  }),
  'timer-must': word('{ $step } must be done by { $when }', TIMER, {
    step: 'Press the corners',
    when: '10:42 UTC',
  }),
  'first-off-none': word('{ $setup }: no first-off yet.', SETUP, { setup: 'Mitre saw' }),
  'first-off-proven': word('{ $setup }: proven at { $at } by { $by }.', SETUP, {
    setup: 'Mitre saw',
    at: '2026-11-24 08:00 UTC',
    by: 'ot',
  }),
  'first-off-ended': word('{ $setup }: { $why } since the first-off { $id }; prove it again.', SETUP, {
    setup: 'Mitre saw',
    why: 'the blade was changed',
    id: 'saw-3',
  }),
  'ended-failed': word('its last first-off did not pass', SETUP_END),
  'ended-minutes': word('{ $minutes } minutes have passed', SETUP_END, { minutes: '240' }),
  'ended-uses': word('it was used { $uses } times', SETUP_END, { uses: '50' }),
  'ended-shift-end': word('the shift ended', SETUP_END),
  'ended-blade-changed': word('the blade was changed', SETUP_END),
  'ended-tool-changed': word('the tool was changed', SETUP_END),
  'ended-knock': word('it was knocked', SETUP_END),
  'ended-moved': word('it was moved', SETUP_END),
  'ended-other': word('it was ended', SETUP_END),
  'where-finished': word('finished', BOARD),
  'where-scrapped': word('scrapped; { $unit } replaces it', BOARD, { unit: 'P02-1R1' }),
  'where-parked': word('parked: { $reason }', BOARD, { reason: 'glass is late' }),
  'where-snag': word('snag { $n }: { $text }, not decided', BOARD, { n: '2', text: 'scratch on the sill' }),
  'where-snag-decided': word('snag { $n }: { $text } ({ $disposition })', BOARD, {
    n: '2',
    text: 'scratch on the sill',
    disposition: 'rework',
  }),
  'where-held': word('{ $hold }: waits for release', BOARD, { hold: 'Frame closed' }),
  'where-nothing': word('nothing is open', BOARD),
  'stands-not-started': word('not started', STANDING),
  'stands-refused': word('refused', STANDING),
  'stands-under-way': word('under way', STANDING),
  'stands-held': word('held', STANDING),
  'stands-curing': word('curing', STANDING),
  'stands-snagged': word('snagged', STANDING),
  'stands-parked': word('parked', STANDING),
  'stands-finished': word('finished', STANDING),
  'stands-scrapped': word('scrapped', STANDING),
  'handover-half': word('{ $step }: half done, { $open } of { $of } checks open', HANDOVER, {
    step: 'Square the frame',
    open: '2',
    of: '6',
  }),
  'handover-failed': word('{ $step }: a check failed, { $open } of { $of } checks open', HANDOVER, {
    step: 'Square the frame',
    open: '2',
    of: '6',
  }),
  'handover-stale': word('{ $step }: to be done again, { $open } of { $of } checks open', HANDOVER, {
    step: 'Square the frame',
    open: '2',
    of: '6',
  }),
  'handover-held': word('{ $step }: { $hold } waits for release', HANDOVER, {
    step: 'Square the frame',
    hold: 'Frame closed',
  }),
  'handover-snag': word('snag { $n } ({ $severity }): { $text }; not decided', HANDOVER, {
    n: '2',
    severity: 'minor',
    text: 'scratch on the sill',
  }),
  'handover-snag-decided': word('snag { $n } ({ $severity }): { $text }; to { $disposition }', HANDOVER, {
    n: '2',
    severity: 'minor',
    text: 'scratch on the sill',
    disposition: 'rework',
  }),
  'handover-note': word('{ $by }: { $text }', HANDOVER, { by: 'ot', text: 'glass came at noon' }),
  'handover-title-halfDone': word('Half done', HANDOVER_TITLE),
  'handover-title-held': word('Held, waits for release', HANDOVER_TITLE),
  'handover-title-curing': word('Curing', HANDOVER_TITLE),
  'handover-title-running': word('About to run out', HANDOVER_TITLE),
  'handover-title-snags': word('Open snags', HANDOVER_TITLE),
  'handover-title-parked': word('Parked', HANDOVER_TITLE),
  'handover-title-notes': word('Notes', HANDOVER_TITLE),
  counted: word('{ $count } counted, { $wanted } wanted.', NOTE, { count: '3', wanted: '4' }),
  'choice-fails': word('"{ $choice }" does not pass.', NOTE, { choice: 'Scratched' }),
  'place-again': word('{ $place }, again', NOTE, { place: 'top' }),
  'solo-rule': word('one-person workshop: { $minutes } minutes after the work', NOTE, { minutes: '30' }),
  'solo-rule-evidence': word(
    'one-person workshop: { $minutes } minutes after the work, with evidence',
    NOTE,
    { minutes: '30' },
  ),
  'late-setup': word('Set-up { $id } had been ended by { $by } at { $at }', NOTE, {
    id: 'saw-3',
    by: 'ot',
    at: '2026-11-24 08:00 UTC',
  }),
  'late-instrument': word('Instrument { $id } had been ended by { $by } at { $at }', NOTE, {
    id: 'tape-3',
    by: 'ot',
    at: '2026-11-24 08:00 UTC',
  }),
  'after-repair': word('a check of what was put right', NOTE),
  'same-picture': word('This picture ({ $name }) is kept already.', PICTURE, { name: 'corner.jpg' }),
  'same-picture-of': word('It was taken for { $where }.', PICTURE, { where: 'a hold of this unit' }),
  'same-picture-here': word('Is it meant here too?', PICTURE),
  'picture-hold': word('a hold of this unit', PICTURE),
  'picture-other': word('a check of another unit', PICTURE),
  'picture-check': word('"{ $ask }" ({ $step })', PICTURE, {
    ask: 'Is the corner closed?',
    step: 'Seal the corners',
  }),
  revised: word('Revised: { $reasons }.', REVISED, { reasons: 'its times are others' }),
  'says-too': word('it says { $now } too', REVISED, { now: '45' }),
  'says-no-more': word('it does not say { $gone } any more', REVISED, { gone: '45' }),
  'says-now': word('it says { $now }, and said { $gone }', REVISED, { now: '45', gone: '47' }),
  'asks-now': word('it asks now: { $ask }', REVISED, { ask: 'Is the corner closed?' }),
  'asks-no-more': word('it does not ask any more: { $ask }', REVISED, { ask: 'Is the corner closed?' }),
  'asks-other': word('{ $ask }: something else is asked', REVISED, { ask: 'Diagonal' }),
  'asks-figure': word('{ $ask }: { $now }, was { $was }', REVISED, {
    ask: 'Diagonal',
    now: '1920',
    was: '1922',
  }),
  'no-figure': word('no figure', REVISED),
  'another-instrument': word('{ $ask }: measured with another kind of instrument', REVISED, { ask: 'Gap' }),
  'limit-new': word('{ $ask }: { $now }, without a limit before ({ $limit })', REVISED, {
    ask: 'Gap',
    now: 'at most 4 mm',
    limit: 'Gap',
  }),
  'limit-gone': word('{ $ask }: no limit any more, was { $was } ({ $limit })', REVISED, {
    ask: 'Gap',
    was: 'at most 4 mm',
    limit: 'Gap',
  }),
  'limit-other': word('{ $ask }: { $now }, was { $was } ({ $limit })', REVISED, {
    ask: 'Gap',
    now: 'at most 3 mm',
    was: 'at most 4 mm',
    limit: 'Gap',
  }),
  'limit-missing': word('a limit that is not there', REVISED),
  'another-rule': word('{ $ask }: judged by another rule', REVISED, { ask: 'Gap' }),
  'another-hold': word('its hold is another', REVISED),
  'makes-other': word('it makes something else', REVISED),
  'rests-other': word('it rests on other work', REVISED),
  'times-other': word('its times are others', REVISED),
  'another-setup': word('it needs another set-up', REVISED),
  'after-now': word('comes after "{ $step }" now', REVISED, { step: 'Seal the corners' }),
  'order-other': word('the order: another { $key }', REVISED, { key: 'glass' }),
  'order-now': word('the order: { $key } { $now }, was { $was }', REVISED, {
    key: 'glass',
    now: 'triple',
    was: 'double',
  }),
  'order-empty': word('(empty)', REVISED),
  'graded-minor': word('minor', GRADE),
  'graded-major': word('major', GRADE),
  'graded-critical': word('critical', GRADE),
} as const;

export const unitWords = messagesOf(UNIT_WORDS);
/** As a journal or the board keeps them: in English. */
export const unitSays = writtenOf(UNIT_WORDS);

/** What the procedure says, in the words of its translation where the reader has one. */
export const stepTitle = ({ id, title }: { readonly id: string; readonly title: string }): Message =>
  quoted(`step ${id}`, title);
export const holdTitle = ({ id, title }: { readonly id: string; readonly title: string }): Message =>
  quoted(`hold ${id}`, title);
