/** Words of documents and labels in German. */
import type { Translation } from '../../base/words.js';
import { CHECK_DE } from './de/checks.js';
import { DIFFER_DE } from './de/differs.js';
import { FIGURES_DE } from './de/figures.js';
import { HISTORY_DE } from './de/history.js';
import { LAYER_DE } from './de/layers.js';
import { LEDGER_DE } from './de/ledger.js';
import { MATERIAL_DE } from './de/material.js';
import { PAGE_DE } from './de/page.js';
import { SHEET_DE } from './de/sheets.js';
import type { DOCUMENT_WORDS } from './en.js';

export const DOCUMENT_DE: Translation<typeof DOCUMENT_WORDS> = {
  ...PAGE_DE,
  ...CHECK_DE,
  ...HISTORY_DE,
  ...MATERIAL_DE,
  ...LEDGER_DE,
  ...FIGURES_DE,
  ...LAYER_DE,
  ...SHEET_DE,
  ...DIFFER_DE,
};
