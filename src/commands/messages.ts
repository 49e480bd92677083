/** `messages`: every message the program can give, made from the rooms' catalogues. */

import { FORMULA_MESSAGES } from '../base/formula.js';
import { YAML_MESSAGES } from '../base/positionedyaml.js';
import type { Message } from '../base/problem.js';
import { MEASURE_MESSAGES } from '../measure/messages.js';
import { PROCEDURE_MESSAGES } from '../procedure/messages.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { BENCH_MESSAGES } from '../session/messages.js';
import { STORE_MESSAGES, VERIFY_MESSAGES } from '../store/messages.js';
import { TRAIN_MESSAGES } from '../training/messages.js';
import { BUILD_MESSAGES } from '../unit/messages.js';
import { WINDOW_MESSAGES } from '../window/messages.js';
import { COMPARE_MESSAGES } from './compare.js';
import { HELP } from './help.js';
import { EXIT, type Io } from './io.js';
import { COMMAND_MESSAGES } from './messagetable.js';
import { readOptions } from './options.js';
import { SETOUT_MESSAGES } from './setout.js';

/** All catalogues, ids in order. */
export function allMessages(): [string, Message][] {
  const all: Record<string, Message> = {
    ...YAML_MESSAGES,
    ...FORMULA_MESSAGES,
    ...MEASURE_MESSAGES,
    ...WINDOW_MESSAGES,
    ...PROCEDURE_MESSAGES,
    ...BUILD_MESSAGES,
    ...STORE_MESSAGES,
    ...VERIFY_MESSAGES,
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
