/** Words that files keep in English, of all rooms. */
import type { Catalogue } from '../base/words.js';
import { KEPT_WORDS } from '../session/german.js';
import { TRAIN_MESSAGES } from '../training/messages.js';
import { TRAIN_WORDS } from '../training/words.js';
import { REASON_WORDS } from '../tui/words/en/reasons.js';

export const ALL_KEPT: Catalogue = { ...KEPT_WORDS, ...TRAIN_MESSAGES, ...TRAIN_WORDS, ...REASON_WORDS };
