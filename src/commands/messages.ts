/** `messages`: every message the program can give, collected from the rooms' catalogues. */

import { FORMULA_MESSAGES } from '../base/formula.js';
import { YAML_MESSAGES } from '../base/positionedyaml.js';
import { problemFactory, tabled } from '../base/problem.js';
import { type Catalogue, data } from '../base/words.js';
import { FIGURES_MESSAGES } from '../figures/messages.js';
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
import { COMMAND_MESSAGES, COMPARE_MESSAGES, SETOUT_MESSAGES } from './catalogue.js';
import { HELP } from './help.js';
import { asJson, EXIT, fail, type Io, readOptions } from './io.js';

export function allMessages(): ReturnType<typeof tabled> {
  const all: Catalogue = {
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
    ...FIGURES_MESSAGES,
    ...TRAIN_MESSAGES,
    ...RECORD_MESSAGES,
    ...COMPARE_MESSAGES,
    ...SETOUT_MESSAGES,
    ...COMMAND_MESSAGES,
  };
  return tabled(all).sort(([a], [b]) => (a < b ? -1 : 1));
}

export async function run(args: string[], io: Io): Promise<number> {
  const read = readOptions(args, io, HELP.messages, { json: { type: 'boolean' } }, { most: 1 });
  if (typeof read === 'number') return read;
  const id = read.positionals[0];
  const rows = allMessages().filter(([each]) => id === undefined || each === id);
  if (rows.length === 0) {
    return fail(io, [problemFactory(COMMAND_MESSAGES)('messages.unknown', { id: id! })], EXIT.badInput);
  }
  if (read.values.json) io.out(asJson(rows.map(([each, { what, todo }]) => ({ id: each, what, todo }))));
  else for (const [each, { what, todo }] of rows) io.out(data(`${each}\n  ${what}\n  ${todo}`));
  return EXIT.done;
}
