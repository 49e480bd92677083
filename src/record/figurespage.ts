/** A document of figures: read on a terminal first, and verified against nothing. */
import type { Spoken } from '../base/words.js';
import type { Block, Document } from './blocks.js';
import { TERMINAL } from './chartpicture.js';
import type { RecordView } from './schema.js';
import { tellingOf } from './telling.js';

export interface FiguresPage {
  readonly title: Spoken;
  readonly under: Spoken;
  /** Said when it is written to a file. */
  readonly subject: Spoken;
  readonly foot: Spoken;
  readonly blocks: readonly Block[];
}

/** @param over the shop, or the file that the readings come from */
export const figuresPage = (
  { title, under, subject, foot, blocks }: FiguresPage,
  made: RecordView['made'],
  over: Spoken,
): Document => ({
  title,
  subject,
  foot,
  author: over,
  at: made.at,
  say: tellingOf(made).say,
  proof: '',
  layered: true,
  line: TERMINAL,
  paper: made.paper,
  blocks: [{ kind: 'title', over, text: title, under, newPage: false }, ...blocks],
});
