/** German of all rooms. */
import type { Translations } from '../base/words.js';
import { RECORD_GERMAN } from '../record/german.js';
import { DOCUMENT_DE } from '../record/words/de.js';
import { GERMAN } from '../session/german.js';
import { DE } from '../tui/words/de.js';
import { COMMAND_GERMAN } from './catalogue.german.js';
import { SAYS_DE } from './words/de.js';

export const ALL_GERMAN: Translations = {
  ...GERMAN,
  ...RECORD_GERMAN,
  ...DOCUMENT_DE,
  ...COMMAND_GERMAN,
  ...SAYS_DE,
  ...DE,
};
