/** German of all rooms, and the words that are kept in English. */
import type { Catalogue, Translations } from '../base/words.js';
import { RECORD_GERMAN } from '../record/german.js';
import { DOCUMENT_DE } from '../record/words/de.js';
import { GERMAN, KEPT_WORDS } from '../session/german.js';
import { TRAIN_MESSAGES } from '../training/messages.js';
import { TRAIN_WORDS } from '../training/words.js';
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
export const ALL_KEPT: Catalogue = { ...KEPT_WORDS, ...TRAIN_MESSAGES, ...TRAIN_WORDS };
