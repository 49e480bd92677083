/** The words of the bench in German. */
import type { Translation } from '../../base/words.js';
import { FORM_DE } from './de/forms.js';
import { HOLD_DE } from './de/holds.js';
import { KEY_DE } from './de/keys.js';
import { SETUP_DE } from './de/setups.js';
import { STANDS_DE } from './de/standing.js';
import { STEP_DE } from './de/step.js';
import { TOLD_DE } from './de/told.js';
import type { BENCH_WORDS } from './en.js';

export const DE: Translation<typeof BENCH_WORDS> = {
  ...KEY_DE,
  ...STANDS_DE,
  ...FORM_DE,
  ...SETUP_DE,
  ...HOLD_DE,
  ...STEP_DE,
  ...TOLD_DE,
};
