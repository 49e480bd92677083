/** Words of documents and labels. */
import { CHECK_WORDS } from './en/checks.js';
import { DIFFER_WORDS } from './en/differs.js';
import { FIGURES_WORDS } from './en/figures.js';
import { HISTORY_WORDS } from './en/history.js';
import { LAYER_WORDS } from './en/layers.js';
import { LEDGER_WORDS } from './en/ledger.js';
import { MATERIAL_WORDS } from './en/material.js';
import { PAGE_WORDS } from './en/page.js';
import { SHEET_WORDS } from './en/sheets.js';

export const DOCUMENT_WORDS = {
  ...PAGE_WORDS,
  ...CHECK_WORDS,
  ...HISTORY_WORDS,
  ...MATERIAL_WORDS,
  ...LEDGER_WORDS,
  ...FIGURES_WORDS,
  ...LAYER_WORDS,
  ...SHEET_WORDS,
  ...DIFFER_WORDS,
} as const;
