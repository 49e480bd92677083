/** Words of the bench. Each has a note for whoever translates it; what is filled in has an example. */

import { FORM_WORDS } from './en/forms.js';
import { HOLD_WORDS } from './en/holds.js';
import { KEY_WORDS } from './en/keys.js';
import { REASON_WORDS } from './en/reasons.js';
import { SETUP_WORDS } from './en/setups.js';
import { STANDS_WORDS } from './en/standing.js';
import { STEP_WORDS } from './en/step.js';
import { TOLD_WORDS } from './en/told.js';

export const BENCH_WORDS = {
  ...KEY_WORDS,
  ...STANDS_WORDS,
  ...FORM_WORDS,
  ...REASON_WORDS,
  ...SETUP_WORDS,
  ...HOLD_WORDS,
  ...STEP_WORDS,
  ...TOLD_WORDS,
} as const;

export type BenchWord = keyof typeof BENCH_WORDS;
