import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sealOver } from '../../src/record/codes.js';
import { CSV_COLUMNS, csvCell, recordCsv } from '../../src/record/csv.js';
import { htmlOf } from '../../src/record/html.js';
import { collectionDocument, collectionView } from '../../src/record/job.js';
import { collectionJsonSchema, recordJson, recordJsonSchema } from '../../src/record/schema.js';
import { textOf, wrapText } from '../../src/record/text.js';
import { unitDocument } from '../../src/record/unitblocks.js';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, FINISHED, SETOUT, UNFINISHED } from './states.js';

const finished = recordView(FINISHED, SETOUT, CONTEXT);
const unfinished = recordView(UNFINISHED, SETOUT, CONTEXT);
const text = textOf(unitDocument(finished));
const flat = (s: string) => s.replace(/\s+/g, ' ');

/** Facts that every format of the record must hold. */
const FACTS = [
  'Finished and released, with 1 concession',
  'P02-1',
  'pier-house',
  '1000 x 700 mm',
  '1227 mm',
  '1221.5 mm',
  '1000.5 mm',
  '0.35 mm',
  'difference of diagonals at most 4 mm',
  'BS 4873:2009, 6.2',
  'read the wrong corner',
  'sealed, not seen',
  'GL-77/4',
  'C-118',
  'corner.jpg',
  finished.seal.code,
  'rain at the door',
  'burr left',
  'customer knows',
];

describe('text', () => {
  it('holds every fact, the verdict before all else, in at most 96 columns of visible signs', () => {
    // Columns break words over lines, so each fact is looked for sign by sign in the table's cells too.
    for (const fact of ['Finished and released, with 1 concession', 'GL-77/4', 'C-118', finished.seal.code])
      expect(text).toContain(fact);
    expect(text.indexOf('Finished and released')).toBeLessThan(text.indexOf('Unit '));
    expect(Math.max(...text.split('\n').map((line) => [...line].length))).toBeLessThanOrEqual(96);
    expect(text).toMatch(/^[^\u0000-\u0009\u000b-\u001f\u007f-\u009f]*$/);
  });

  it('says that an unfinished unit is not finished, first and at the foot', () => {
    const all = textOf(unitDocument(unfinished));
    expect(all.split('\n').slice(0, 8).join('\n')).toContain('NOT FINISHED: 2 of 3 steps done');
    expect(flat(all).trim()).toMatch(/NOT FINISHED\. State [0-9A-Z-]+$/);
  });

  it('wraps without losing a sign', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme', maxLength: 200 }),
        fc.integer({ min: 4, max: 60 }),
        (words, width) => {
          const lines = wrapText(words, width);
          expect(lines.every((line) => [...line].length <= width)).toBe(true);
          expect(lines.join('').replace(/[ \ufffd]/g, '')).toBe(clean(words));
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });
});

/** What safe text keeps of a text, without blanks: controls and hidden signs are replaced, never kept. */
const clean = (words: string) =>
  wrapText(words, 1_000_000)
    .join('')
    .replace(/[ \ufffd]/g, '');

describe('HTML', () => {
  it('holds every fact', () => {
    const html = flat(htmlOf(unitDocument(finished)));
    for (const fact of FACTS) expect(html).toContain(fact);
  });
  it('has neither script nor anything that is fetched', () => {
    const html = htmlOf(unitDocument(finished));
    expect(html).not.toMatch(/<script|javascript:|\son\w+=|<link|<iframe|src=|url\(|@import/i);
  });
});

describe('JSON', () => {
  it('is the view, and has a published schema that names every field', () => {
    expect(JSON.parse(recordJson(finished))).toEqual(JSON.parse(JSON.stringify(finished)));
    const schema = recordJsonSchema() as {
      properties: object;
      required: string[];
      additionalProperties: boolean;
    };
    for (const key of Object.keys(finished)) expect(Object.keys(schema.properties)).toContain(key);
    expect(schema.additionalProperties).toBe(false);
    expect(collectionJsonSchema()).toHaveProperty('properties.records');
  });
});

describe('CSV', () => {
  /** RFC 4180 reader, for the test alone. */
  const parse = (csv: string): string[][] => {
    const rows: string[][] = [[]];
    let cell = '';
    let quoted = false;
    for (let i = 0; i < csv.length; i++) {
      const sign = csv[i]!;
      if (quoted) {
        if (sign === '"' && csv[i + 1] === '"') cell += csv[++i];
        else if (sign === '"') quoted = false;
        else cell += sign;
      } else if (sign === '"') quoted = true;
      else if (sign === ',') {
        rows.at(-1)!.push(cell);
        cell = '';
      } else if (sign === '\r') continue;
      else if (sign === '\n') {
        rows.at(-1)!.push(cell);
        cell = '';
        rows.push([]);
      } else cell += sign;
    }
    return rows.slice(0, -1);
  };

  it('has one check a line under named columns', () => {
    const [head, ...rows] = parse(recordCsv([finished]));
    expect(head).toEqual([...CSV_COLUMNS, 'after_release', 'after_release_hash']);
    expect(rows).toHaveLength(6);
    expect(rows.every((row) => row.length === CSV_COLUMNS.length + 2)).toBe(true);
    expect(rows[0]![CSV_COLUMNS.indexOf('verdict')]).toBe('pass');
    expect(rows[1]![CSV_COLUMNS.indexOf('reading')]).toMatch(/^0.35 mm/);
  });

  it('never lets a cell be run as a formula, whatever stands in it', () => {
    const nasty = fc.oneof(
      fc.constantFrom(
        '=1+1',
        '+1',
        '@SUM(A1)',
        '-2+3',
        '\t=1',
        '|cmd',
        '＝1',
        '-1.5',
        '"=1"',
        ' =1',
        '\r\n=1',
      ),
      fc.string({ maxLength: 30 }),
    );
    fc.assert(
      fc.property(nasty, (raw) => {
        const cell = csvCell(raw);
        const [row] = parse(`${cell},x\r\n`);
        expect(row![1]).toBe('x');
        const shown = row![0]!;
        expect(/^\s*[=+\-@＝＋－＠|%]/.test(shown) && !/^-?\d+(\.\d+)?$/.test(shown)).toBe(false);
        expect(shown).not.toMatch(/[\u0000-\u001f]/);
      }),
      { seed: 3, numRuns: 500 },
    );
  });
});

describe('job and period', () => {
  const job = collectionView(
    [finished, unfinished],
    { asked: { job: 'pier-house' }, notBegun: ['P03-1'] },
    CONTEXT,
  );

  it('says first how many units are finished and which are not begun', () => {
    expect(job.verdict.line).toBe('NOT FINISHED: 1 of 3 units finished');
    expect(job.missing[0]).toBe('Unit not begun: P03-1.');
    expect(job.missing[1]).toMatch(/^P02-1: No picture/);
    expect(job.seal.closed).toBe(false);
  });

  it('seals the units in order', () => {
    expect(job.seal.hash).toBe(sealOver([finished.seal.hash, unfinished.seal.hash]));
  });

  it('is closed when every unit is', () => {
    const whole = collectionView([finished, finished], { asked: { job: 'x' } }, CONTEXT);
    expect(whole.verdict.line).toBe('All 2 units are finished and released; 2 concessions');
    expect(whole.seal.closed).toBe(true);
  });

  it('says so where nothing was found', () => {
    const none = collectionView([], { asked: { since: '2020-01-01' } }, CONTEXT);
    expect(none.verdict.line).toMatch(/^No unit/);
    expect(none.seal.closed).toBe(false);
  });

  it("holds each unit's own record after the overview", () => {
    const all = textOf(collectionDocument(job));
    expect(all.match(/QUALITY RECORD OF WINDOW P02-1/g)).toHaveLength(2);
    expect(all).toContain(job.seal.code);
  });
});
