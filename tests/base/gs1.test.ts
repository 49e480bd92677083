/** GS1 element strings and dates, against the published rules and against another library's reading. */
import FieldParser from '@zxing/library/esm/core/oned/rss/expanded/decoders/FieldParser.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { looksLikeDate, readDate } from '../../src/base/dates.js';
import { gs1Date, readGs1 } from '../../src/base/gs1.js';

/** Its types name the module, not the class. */
const THEIRS = FieldParser as unknown as { parseFieldsInGeneralPurpose(text: string): string | null };
const GS = '\u001d';
const fields = (text: string) => Object.fromEntries(readGs1(text) ?? []);

describe('element strings', () => {
  it('of a GS1 DataMatrix fill all fields', () => {
    // An example published in the wiki of the DHIS2 rule engine, its separators put back.
    const text = `]d20108470006991541211008199619525${'6'}${GS}10DXB2005${GS}17220228`;
    expect(fields(text)).toEqual({
      '01': '08470006991541',
      '21': '10081996195256',
      '10': 'DXB2005',
      '17': '220228',
    });
  });

  it('written for people read the same', () => {
    expect(fields('(10)PR-77(17)280331')).toEqual({ '10': 'PR-77', '17': '280331' });
    expect(fields('(10)PR-77(17)2803')).toEqual({});
  });

  it('without identifier or separator are taken only behind an item number with a right check digit', () => {
    // GTIN-13 6291041500213 and 7300011000017: worked examples on pages of GS1 Hong Kong and GS1 Sweden.
    expect(fields('010629104150021317280331')).toEqual({ '01': '06291041500213', '17': '280331' });
    expect(fields('010730001100001710LOT')).toEqual({ '01': '07300011000017', '10': 'LOT' });
    expect(readGs1('010629104150021417280331')).toBeUndefined();
    expect(readGs1('10PR-77')).toBeUndefined();
    expect(readGs1('SE-9')).toBeUndefined();
  });

  it('are read as another library reads them (zxing)', () => {
    fc.assert(
      fc.property(
        fc.stringMatching(/^[A-Z0-9]{1,20}$/),
        fc.integer({ min: 0, max: 99 }),
        fc.integer({ min: 1, max: 12 }),
        (lot, year, month) => {
          const two = (n: number) => String(n).padStart(2, '0');
          const text = `010629104150021317${two(year)}${two(month)}0010${lot}`;
          const theirs = THEIRS.parseFieldsInGeneralPurpose(text);
          const ours = Object.entries(fields(text)).map(([ai, data]) => `(${ai})${data}`);
          // Entries of an object come in the order of their numbers, theirs in that of the text.
          expect(ours.toSorted()).toEqual((theirs?.match(/\(\d+\)[^(]+/g) ?? []).toSorted());
        },
      ),
      { seed: 17 },
    );
  });
});

describe('dates', () => {
  it('of AI 17: day 00 is the last of the month (GS1 General Specifications)', () => {
    const now = '2026-11-30';
    // 210331 and 210300 are given as the same expiry in the guidance on medicines' codes.
    expect(gs1Date('210331', now)).toBe('2021-03-31');
    expect(gs1Date('210300', now)).toBe('2021-03-31');
    expect(gs1Date('280200', now)).toBe('2028-02-29');
    expect(gs1Date('281301', now)).toBeUndefined();
    expect(gs1Date('280230', now)).toBeUndefined();
  });

  it('take the century within 49 years before and 50 after (GS1 General Specifications)', () => {
    expect(gs1Date('760101', '2026-01-01')).toBe('2076-01-01');
    expect(gs1Date('770101', '2026-01-01')).toBe('1977-01-01');
    expect(gs1Date('100101', '2070-01-01')).toBe('2110-01-01');
  });

  it.each([
    ['2027-03-31', 'DD.MM.YYYY', '2027-03-31'],
    ['20270331', 'YYYY-MM-DD', '2027-03-31'],
    ['2027-02', 'YYYY-MM-DD', '2027-02-28'],
    ['31.03.2027', 'DD.MM.YYYY', '2027-03-31'],
    ['03.2027', 'DD.MM.YYYY', '2027-03-31'],
    ['03/31/2027', 'MM/DD/YYYY', '2027-03-31'],
    ['31/03/2027', 'DD/MM/YYYY', '2027-03-31'],
    ['31.03.2027', 'YYYY-MM-DD', undefined],
    ['31.02.2027', 'DD.MM.YYYY', undefined],
    ['31/03/2027', 'MM/DD/YYYY', undefined],
  ] as const)('%s in a workshop that writes %s is %s', (text, form, date) => {
    expect(readDate(text, form)).toBe(date);
    expect(looksLikeDate(text) || /^\d{8}$/.test(text)).toBe(true);
  });

  it('codes that are no dates do not look like one', () => {
    for (const code of ['PR-77', '2601', 'SE-9', '12.5', 'A-1-2'])
      expect(looksLikeDate(code), code).toBe(false);
  });
});
