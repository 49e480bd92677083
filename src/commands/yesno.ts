/** Yes and no as a person types them in their own language. */
import type { Tell } from '../base/words.js';
import { trainWords } from '../training/words.js';

/** What the rooms read: `yes` or `no`, with the ! behind them that confirms; other text is left as it is. */
export function inEnglish(line: string, tell: Tell): string {
  const [, word = '', sure = ''] = /^(\S+?)(\s*!)?$/.exec(line) ?? [];
  const typed = word.toLowerCase();
  if (typed === tell(trainWords('word-yes'))) return `yes${sure}`;
  return typed === tell(trainWords('word-no')) ? `no${sure}` : line;
}
