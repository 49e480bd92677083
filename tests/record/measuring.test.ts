/** What the record says of measuring, the same in every format: limits with sources, confirmed misreads, overdue instruments. */
import { describe, expect, it } from 'vitest';
import { recordCsv } from '../../src/record/csv.js';
import { htmlOf } from '../../src/record/html.js';
import { recordJson } from '../../src/record/schema.js';
import { textOf } from '../../src/record/text.js';
import { unitDocument } from '../../src/record/unitblocks.js';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, FINISHED, SETOUT } from './states.js';

const view = recordView(FINISHED, SETOUT, CONTEXT);
const answers = view.stages
  .flatMap(({ steps }) => steps)
  .flatMap(({ checks }) => checks)
  .flatMap(({ answer }) => (answer ? [answer] : []));

/** Words alone: line ends, indents and markup are the formats' own. */
const bare = (text: string): string =>
  text
    .replace(/<[^>]*>/g, ' ')
    .replace(/&amp;/g, '&')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;|&#34;/g, '"')
    .replace(/[\s-]+/g, ' ');

/** The text record with each column of its tables read downwards, so that a cell stands in one piece. */
function readDown(text: string): string {
  let columns: { from: number; to: number; words: string }[] = [];
  const out: string[] = [];
  for (const row of text.split('\n')) {
    if (/^-+( {2}-+)+$/.test(row)) {
      out.push(...columns.map(({ words }) => words));
      columns = [...row.matchAll(/-+/g)].map(({ 0: dashes, index }) => ({
        from: index,
        to: index + dashes.length,
        words: '',
      }));
    } else for (const column of columns) column.words += ` ${row.slice(column.from, column.to)}`;
    out.push(row);
  }
  return [...out, ...columns.map(({ words }) => words)].join('\n');
}

const FORMATS = {
  text: readDown(textOf(unitDocument(view))),
  html: htmlOf(unitDocument(view)),
  json: recordJson(view),
  csv: recordCsv([view]),
};

describe.each(Object.entries(FORMATS))('the record as %s', (_, document) => {
  const said = bare(document);

  it('names the limit and the source of every verdict', () => {
    const rules = answers.flatMap((answer) => answer.rules);
    expect(rules.length).toBeGreaterThan(1);
    for (const rule of rules) {
      expect(said).toContain(bare(rule.title));
      expect(said).toContain(bare(rule.says));
      expect(said).toContain(bare(rule.source));
    }
  });

  it('says which reading was asked about and confirmed', () => {
    expect(answers.filter(({ readings }) => readings.some(({ confirmed }) => confirmed)).length).toBe(1);
    expect(said).toMatch(/asked again, confirmed|"confirmed": ?true/);
  });

  it('says who allowed an instrument whose calibration was overdue', () => {
    expect(answers.some(({ overdueAllowedBy }) => overdueAllowedBy !== undefined)).toBe(true);
    expect(said).toMatch(/overdue/i);
    expect(said).toContain('Orla Tench');
  });
});
