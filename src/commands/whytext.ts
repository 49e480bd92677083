/** The sum behind a number, as a tree of lines. */

import { sanitize } from '../base/text.js';
import type { Spoken } from '../base/words.js';
import { sourceMessage } from '../measure/verdict.js';
import type { Trace } from '../window/types.js';
import { valueText } from '../window/why.js';
import { type Io, retold, saying, tellOf } from './io.js';
import { SETOUT_SAYS } from './words/setout.js';

type Reading = Pick<Io, 'reader'>;

export interface WhyOptions {
  readonly ascii?: boolean;
  /** Maximum lines shown; the rest are counted. */
  readonly most?: number;
}

/** The trace as a small tree: one line for each number, one for its derivation. */
export function whyLines(
  trace: Trace,
  { ascii = false, most = 60 }: WhyOptions = {},
  io: Reading = {},
): string[] {
  const say = saying(io, SETOUT_SAYS);
  const [branch, last, down] = ascii ? ['+- ', '`- ', '|  '] : ['├─ ', '└─ ', '│  '];
  const lines: string[] = [];
  const shown = new Set<string>();
  const visit = (each: Trace, lead: string, lead2: string): void => {
    const again = shown.has(each.name) && each.of.length > 0;
    shown.add(each.name);
    const sum =
      each.formula === undefined
        ? ''
        : each.filled === undefined || each.filled === each.formula
          ? ` = ${each.formula}`
          : ` = ${each.formula} = ${each.filled}`;
    const source = each.source ? `  (${cited(each.source, io)})` : '';
    const reason = each.reason === undefined ? '' : `  (${retold(io, each.reason)})`;
    lines.push(
      `${lead}${each.name} = ${valueText(each)}${again ? ` ${say('setout-above')}` : sum}${source}${reason}`,
    );
    if (again) return;
    each.of.forEach((child, i) => {
      const end = i === each.of.length - 1;
      visit(child, lead2 + (end ? last : branch), lead2 + (end ? '   ' : down));
    });
  };
  visit(trace, '', '');
  return lines.length <= most
    ? lines
    : [...lines.slice(0, most), say('setout-more', { n: lines.length - most })];
}

/** A manual or the job needs no label; any other source is labelled with how it is known. */
const cited = ({ kind, text }: NonNullable<Trace['source']>, io: Reading): Spoken =>
  kind === 'manual' ? sanitize(text) : tellOf(io)(sourceMessage({ sourceKind: kind, source: text }));
