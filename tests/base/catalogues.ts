/** All catalogues, by room. */
import { FORMULA_MESSAGES } from '../../src/base/formula.js';
import { YAML_MESSAGES } from '../../src/base/positionedyaml.js';
import type { Catalogue } from '../../src/base/words.js';
import {
  COMMAND_MESSAGES,
  COMMAND_WORDS,
  COMPARE_MESSAGES,
  SETOUT_MESSAGES,
} from '../../src/commands/catalogue.js';
import { MEASURE_MESSAGES } from '../../src/measure/messages.js';
import { MEASURE_WORDS } from '../../src/measure/words.js';
import { PROCEDURE_MESSAGES } from '../../src/procedure/messages.js';
import { PROCEDURE_WORDS } from '../../src/procedure/words.js';
import { RECORD_MESSAGES } from '../../src/record/messages.js';
import { SERVER_MESSAGES } from '../../src/server/messages.js';
import { BENCH_MESSAGES } from '../../src/session/messages.js';
import { SESSION_WORDS } from '../../src/session/words.js';
import { STORE_MESSAGES } from '../../src/store/messages.js';
import { VERIFY_MESSAGES } from '../../src/store/verifymessages.js';
import { STORE_WORDS } from '../../src/store/words.js';
import { TRAIN_MESSAGES } from '../../src/training/messages.js';
import { TRAIN_WORDS } from '../../src/training/words.js';
import { BENCH_WORDS } from '../../src/tui/words/en.js';
import { BUILD_MESSAGES } from '../../src/unit/messages.js';
import { UNIT_WORDS } from '../../src/unit/words.js';
import { WINDOW_MESSAGES } from '../../src/window/messages.js';
import { WINDOW_WORDS } from '../../src/window/words.js';

export const CATALOGUES: readonly { readonly room: string; readonly catalogue: Catalogue }[] = [
  { room: 'base', catalogue: { ...YAML_MESSAGES, ...FORMULA_MESSAGES } },
  { room: 'measure', catalogue: { ...MEASURE_MESSAGES, ...MEASURE_WORDS } },
  { room: 'window', catalogue: { ...WINDOW_MESSAGES, ...WINDOW_WORDS } },
  { room: 'procedure', catalogue: { ...PROCEDURE_MESSAGES, ...PROCEDURE_WORDS } },
  { room: 'unit', catalogue: { ...BUILD_MESSAGES, ...UNIT_WORDS } },
  { room: 'store', catalogue: { ...STORE_MESSAGES, ...VERIFY_MESSAGES, ...STORE_WORDS } },
  { room: 'server', catalogue: SERVER_MESSAGES },
  { room: 'session', catalogue: { ...BENCH_MESSAGES, ...SESSION_WORDS } },
  { room: 'training', catalogue: { ...TRAIN_MESSAGES, ...TRAIN_WORDS } },
  { room: 'record', catalogue: RECORD_MESSAGES },
  { room: 'tui', catalogue: BENCH_WORDS },
  {
    room: 'commands',
    catalogue: { ...COMMAND_MESSAGES, ...COMPARE_MESSAGES, ...SETOUT_MESSAGES, ...COMMAND_WORDS },
  },
];
