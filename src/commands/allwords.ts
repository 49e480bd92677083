/** All catalogues of the program, by room. */

import { FAULT_WORDS } from '../base/faultwords.js';
import { FORMULA_MESSAGES } from '../base/formula.js';
import { YAML_MESSAGES } from '../base/positionedyaml.js';
import type { Catalogue } from '../base/words.js';
import { FIGURES_MESSAGES } from '../figures/messages.js';
import { MEASURE_MESSAGES } from '../measure/messages.js';
import { MEASURE_WORDS } from '../measure/words.js';
import { PROCEDURE_MESSAGES } from '../procedure/messages.js';
import { PROCEDURE_WORDS } from '../procedure/words.js';
import { RECORD_MESSAGES } from '../record/messages.js';
import { DOCUMENT_WORDS } from '../record/words/en.js';
import { SERVER_MESSAGES } from '../server/messages.js';
import { BENCH_MESSAGES } from '../session/messages.js';
import { SESSION_WORDS } from '../session/words.js';
import { STORE_MESSAGES } from '../store/messages.js';
import { VERIFY_MESSAGES } from '../store/verifymessages.js';
import { STORE_WORDS } from '../store/words.js';
import { TRAIN_MESSAGES } from '../training/messages.js';
import { TRAIN_WORDS } from '../training/words.js';
import { BENCH_WORDS } from '../tui/words/en.js';
import { BUILD_MESSAGES } from '../unit/messages.js';
import { UNIT_WORDS } from '../unit/words.js';
import { WINDOW_MESSAGES } from '../window/messages.js';
import { WINDOW_WORDS } from '../window/words.js';
import { COMMAND_MESSAGES, COMMAND_WORDS, COMPARE_MESSAGES, SETOUT_MESSAGES } from './catalogue.js';
import { BOARD_SAYS } from './words/board.js';
import { DAYBOOK_SAYS } from './words/daybook.js';
import { FIGURES_SAYS } from './words/figures.js';
import { FIRST_SAYS } from './words/first.js';
import { KEY_SAYS } from './words/keys.js';
import { MAKING_SAYS } from './words/making.js';
import { SETOUT_SAYS } from './words/setout.js';
import { SHOP_SAYS } from './words/shop.js';
import { SQUARE_SAYS } from './words/square.js';
import { VERIFY_SAYS } from './words/verify.js';

export const CATALOGUES: readonly { readonly room: string; readonly catalogue: Catalogue }[] = [
  { room: 'base', catalogue: { ...YAML_MESSAGES, ...FORMULA_MESSAGES, ...FAULT_WORDS } },
  { room: 'measure', catalogue: { ...MEASURE_MESSAGES, ...MEASURE_WORDS } },
  { room: 'window', catalogue: { ...WINDOW_MESSAGES, ...WINDOW_WORDS } },
  { room: 'procedure', catalogue: { ...PROCEDURE_MESSAGES, ...PROCEDURE_WORDS } },
  { room: 'unit', catalogue: { ...BUILD_MESSAGES, ...UNIT_WORDS } },
  { room: 'figures', catalogue: FIGURES_MESSAGES },
  { room: 'store', catalogue: { ...STORE_MESSAGES, ...VERIFY_MESSAGES, ...STORE_WORDS } },
  { room: 'server', catalogue: SERVER_MESSAGES },
  { room: 'session', catalogue: { ...BENCH_MESSAGES, ...SESSION_WORDS } },
  { room: 'training', catalogue: { ...TRAIN_MESSAGES, ...TRAIN_WORDS } },
  { room: 'record', catalogue: { ...RECORD_MESSAGES, ...DOCUMENT_WORDS } },
  { room: 'tui', catalogue: BENCH_WORDS },
  {
    room: 'commands',
    catalogue: {
      ...COMMAND_MESSAGES,
      ...COMPARE_MESSAGES,
      ...SETOUT_MESSAGES,
      ...COMMAND_WORDS,
      ...BOARD_SAYS,
      ...DAYBOOK_SAYS,
      ...FIGURES_SAYS,
      ...KEY_SAYS,
      ...SHOP_SAYS,
      ...SQUARE_SAYS,
      ...VERIFY_SAYS,
      ...FIRST_SAYS,
      ...MAKING_SAYS,
      ...SETOUT_SAYS,
    },
  },
];
