/** `messages`: every message the program can give, collected from the rooms' catalogues. */
import { FORMULA_MESSAGES } from '../base/formula.js';
import { YAML_MESSAGES } from '../base/positionedyaml.js';
import type { CatalogueMessage } from '../base/problem.js';
import { MEASURE_MESSAGES } from '../measure/messages.js';
import { PROCEDURE_MESSAGES } from '../procedure/messages.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { SERVER_MESSAGES } from '../server/messages.js';
import { BENCH_MESSAGES } from '../session/messages.js';
import { STORE_MESSAGES } from '../store/messages.js';
import { VERIFY_MESSAGES } from '../store/verifymessages.js';
import { TRAIN_MESSAGES } from '../training/messages.js';
import { BUILD_MESSAGES } from '../unit/messages.js';
import { WINDOW_MESSAGES } from '../window/messages.js';
import { COMPARE_MESSAGES } from './compare.js';
import { HELP } from './help.js';
import { EXIT, type Io, readOptions } from './io.js';
import { SETOUT_MESSAGES } from './setout.js';

export function allMessages(): [string, CatalogueMessage][] {
  const all: Record<string, CatalogueMessage> = {
    ...YAML_MESSAGES,
    ...FORMULA_MESSAGES,
    ...MEASURE_MESSAGES,
    ...WINDOW_MESSAGES,
    ...PROCEDURE_MESSAGES,
    ...BUILD_MESSAGES,
    ...STORE_MESSAGES,
    ...VERIFY_MESSAGES,
    ...SERVER_MESSAGES,
    ...BENCH_MESSAGES,
    ...TRAIN_MESSAGES,
    ...RECORD_MESSAGES,
    ...COMPARE_MESSAGES,
    ...SETOUT_MESSAGES,
    ...COMMAND_MESSAGES,
  };
  return Object.entries(all).sort(([a], [b]) => (a < b ? -1 : 1));
}

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.messages, { json: { type: 'boolean' } }, { most: 1 });
  if (typeof read === 'number') return read;
  const id = read.positionals[0];
  const rows = allMessages().filter(([each]) => id === undefined || each === id);
  if (rows.length === 0) {
    io.err(`There is no message "${id}". [messages.unknown]\n  pinchrod messages lists them all.`);
    return EXIT.badInput;
  }
  if (read.values.json)
    io.out(JSON.stringify(rows.map(([each, { what, todo }]) => ({ id: each, what, todo }))));
  else for (const [each, { what, todo }] of rows) io.out(`${each}\n  ${what}\n  ${todo}`);
  return EXIT.done;
}

/** Messages of the verbs themselves, for bad usage or when they cannot go on. */
export const COMMAND_MESSAGES = {
  'command.usage': {
    what: 'a verb was given a word or option that it does not take, or lacks one',
    todo: 'Run the verb with --help.',
  },
  'board.no-job': { what: 'the job named is not there', todo: 'pinchrod board lists the jobs.' },
  'demo.no-unit': {
    what: 'the demonstration has no unit of that name',
    todo: 'pinchrod board lists the units.',
  },
  'demo.stuck': {
    what: 'the unattended demonstration could not go on',
    todo: 'The journal so far is whole: the bench opens it.',
  },
  'feed.usage': { what: 'feed takes one unit', todo: 'pinchrod board lists the units.' },
  'feed.json': { what: 'a line of the feed is not JSON', todo: 'Send one JSON object a line.' },
  'feed.action': {
    what: 'a line of the feed is no action',
    todo: 'The actions and their fields are in shared/schemas/action.json.',
  },
  'feed.person': { what: 'a person is not in the workshop', todo: 'Name one of shared/people.yaml.' },
  'feed.instrument': {
    what: 'an instrument is not in the workshop',
    todo: 'Name one of shared/instruments.yaml.',
  },
  'init.usage': { what: 'init takes one folder', todo: 'Example: pinchrod init my-workshop' },
  'lint.no-file': {
    what: 'a file to check is not there',
    todo: 'Name files as they stand in the workshop: procedures/casement.yaml.',
  },
  'lint.translation-alone': {
    what: 'a translation stands beside no procedure of that name',
    todo: 'Name the file for the procedure it translates, then a point and the language: procedures/casement.de.yaml.',
  },
  'lint.language-none': {
    what: 'somebody reads a language in which there is no procedure',
    todo: 'Add a translation (procedures/README.md says how), or mend "language" in shared/people.yaml.',
  },
  'messages.unknown': { what: 'there is no message of that id', todo: 'pinchrod messages lists them all.' },
  'person.unknown': {
    what: 'a person is not in the workshop, or no name of theirs is kept',
    todo: 'Name one of shared/people.yaml by id or initials; to erase a name, the id as journals show it.',
  },
  'person.listed': {
    what: 'the name of somebody who works here is not erased: it would be kept again with their next answer',
    todo: 'Take the person out of shared/people.yaml first.',
  },
  'person.right': {
    what: 'somebody may not set PINs or erase names of others',
    todo: 'Let somebody at level 5 do it.',
  },
  'person.pin-wrong': { what: 'the PIN typed is not right', todo: 'Type it again.' },
  'person.pin-form': {
    what: 'a new PIN is too short, or was not typed twice alike',
    todo: 'Type four digits or more, twice.',
  },
  'verify.usage': { what: 'verify was used wrongly', todo: 'Example: pinchrod verify pier-house' },
  'main.usage': { what: 'the program was used wrongly', todo: 'Run pinchrod --help for usage.' },
  'main.resource': {
    what: 'a file or another resource of the machine failed outside the reach of a verb',
    todo: 'See to the file, folder or disk named, then run the command again.',
  },
  'main.unexpected': {
    what: 'the program met something it did not expect',
    todo: 'Nothing that was acknowledged is lost. Report the line and what you were doing.',
  },
  'measure.misread-repeat': {
    what: 'two readings of one thing differ by more than is usual; asked, not refused',
    todo: 'Read both again, or send the reading again as confirmed.',
  },
  'measure.misread-far': {
    what: 'a reading lies far from what is expected; asked, not refused',
    todo: 'Read again, or confirm it.',
  },
  'measure.misread-impossible': {
    what: 'the lengths give no figure; asked, not refused',
    todo: 'At least one reading is wrong: read them again.',
  },
  'measure.misread-open': {
    what: 'the readings cannot all be true; asked, not refused',
    todo: 'Read again the ones you doubt.',
  },
} as const;
