/** German of all rooms up to the session, and the words that their journals and the board keep in English. */

import { FAULT_WORDS } from '../base/faultwords.js';
import { FORMULA_MESSAGES } from '../base/formula.js';
import { BASE_GERMAN } from '../base/german.js';
import { YAML_MESSAGES } from '../base/positionedyaml.js';
import type { Catalogue, Translations } from '../base/words.js';
import { FIGURES_GERMAN } from '../figures/german.js';
import { MEASURE_GERMAN } from '../measure/german.js';
import { MEASURE_MESSAGES } from '../measure/messages.js';
import { MEASURE_WORDS } from '../measure/words.js';
import { PROCEDURE_GERMAN } from '../procedure/german.js';
import { PROCEDURE_MESSAGES } from '../procedure/messages.js';
import { PROCEDURE_WORDS } from '../procedure/words.js';
import { SERVER_GERMAN } from '../server/german.js';
import { SERVER_MESSAGES } from '../server/messages.js';
import { STORE_GERMAN } from '../store/german.js';
import { STORE_MESSAGES } from '../store/messages.js';
import { STORE_WORDS } from '../store/words.js';
import { TRAIN_GERMAN } from '../training/german.js';
import { UNIT_GERMAN } from '../unit/german.js';
import { BUILD_MESSAGES } from '../unit/messages.js';
import { UNIT_WORDS } from '../unit/words.js';
import { WINDOW_GERMAN } from '../window/german.js';
import { WINDOW_MESSAGES } from '../window/messages.js';
import { WINDOW_WORDS } from '../window/words.js';
import { BENCH_MESSAGES } from './messages.js';
import { SESSION_GERMAN } from './sessiongerman.js';
import { SESSION_WORDS } from './words.js';

export const GERMAN: Translations = {
  ...BASE_GERMAN,
  ...MEASURE_GERMAN,
  ...WINDOW_GERMAN,
  ...PROCEDURE_GERMAN,
  ...UNIT_GERMAN,
  ...FIGURES_GERMAN,
  ...TRAIN_GERMAN,
  ...STORE_GERMAN,
  ...SERVER_GERMAN,
  ...SESSION_GERMAN,
};

export const KEPT_WORDS: Catalogue = {
  ...YAML_MESSAGES,
  ...FORMULA_MESSAGES,
  ...FAULT_WORDS,
  ...MEASURE_MESSAGES,
  ...MEASURE_WORDS,
  ...WINDOW_MESSAGES,
  ...WINDOW_WORDS,
  ...PROCEDURE_MESSAGES,
  ...PROCEDURE_WORDS,
  ...BUILD_MESSAGES,
  ...UNIT_WORDS,
  ...STORE_MESSAGES,
  ...STORE_WORDS,
  ...SERVER_MESSAGES,
  ...BENCH_MESSAGES,
  ...SESSION_WORDS,
};
