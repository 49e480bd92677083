/** What `--help` prints, in the reader's language. */
import { HELP, type Helps } from './help.js';

/** A line for each verb. */
const VERB_SAYS: Readonly<Record<string, string>> = {
  bench: 'open the bench (as does no verb at all)',
  board: 'units and where they stand',
  setout: 'every size and mark of a job, and why',
  lint: 'check the workshop files',
  record: 'quality record of a unit or job',
  label: 'labels for units and parts',
  verify: 'check that journals are whole and unaltered',
  key: "this bench's signing key",
  register: 'how far journals had come; accepting a restore',
  shop: 'several benches on one server: make, join, status, publish, take over',
  person: "people's PINs, and erasing a name",
  seal: 'sign and seal a finished job',
  archive: 'a job with all its records in one file',
  feed: 'act on a unit from a script: one JSON action a line',
  setup: 'set-ups: how they stand, first-offs, what ends them',
  revise: 'move a unit in progress to the current files',
  trace: 'which units a lot, instrument or person reached',
  square: 'squareness calculator for any frame',
  train: 'practice drills, memory, walk and sign-off',
  compare: 'what changed between two procedures or limits files',
  init: 'make a new workshop folder',
  demo: 'open the bench on a copy of the demonstration workshop',
  messages: 'the table of every message and what to do',
};

const FRAME: Helps['frame'] = {
  start: 'Without a verb the bench opens in this terminal.',
  more: 'pinchrod VERB --help tells more. Example: pinchrod setout pier-house P02-1',
  codes:
    'Exit codes: 0 done, 1 the thing checked does not hold, 2 bad usage or bad input, 3 the disk or another resource failed.',
};

async function helpsIn(language: string): Promise<Helps> {
  return language === 'de'
    ? (await import('./help.german.js')).GERMAN_HELPS
    : { help: HELP, says: VERB_SAYS, frame: FRAME };
}

export async function usage(verbs: readonly string[], language: string): Promise<string> {
  const { says, frame } = await helpsIn(language);
  const widest = Math.max(...verbs.map((verb) => verb.length));
  return [
    'pinchrod [--workshop DIR] [VERB ...]',
    '',
    frame.start,
    '',
    ...verbs.map((verb) => `  ${verb.padEnd(widest)}  ${says[verb]}`),
    '',
    frame.more,
    frame.codes,
  ].join('\n');
}

export const helpOf = async (verb: string, language: string): Promise<string> =>
  (await helpsIn(language)).help[verb]!;
