import { spawnSync } from 'node:child_process';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkCharacter,
  checkHolds,
  readUnitCode,
  sealOver,
  shortCode,
  unitCode,
} from '../../src/record/codes.js';

const hex = fc
  .array(fc.constantFrom(...'0123456789abcdef'), { minLength: 64, maxLength: 64 })
  .map((a) => a.join(''));

describe('ISO 7064 MOD 37-36', () => {
  it('gives the check character of the published example', () => {
    // Example of the GRid standard, which uses ISO 7064 MOD 37-36: A1-2425G-ABC1234002 has the check character M, as the
    // documentation of the public PHP library soundways/iso7064 gives it.
    expect(checkCharacter('A1-2425G-ABC1234002')).toBe('M');
    expect(checkHolds('A1-2425G-ABC1234002-M')).toBe(true);
  });

  it('notices every single wrong sign', () => {
    const signs = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ';
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...signs), { minLength: 1, maxLength: 30 }),
        fc.nat(),
        fc.constantFrom(...signs),
        (text, at, other) => {
          const whole = [...text, checkCharacter(text.join(''))];
          const i = at % whole.length;
          fc.pre(whole[i] !== other);
          whole[i] = other;
          return !checkHolds(whole.join(''));
        },
      ),
      { seed: 7064, numRuns: 500 },
    );
  });
});

describe('short code', () => {
  it('has ten readable signs and a check character, in three groups', () => {
    fc.assert(
      fc.property(hex, (hash) => {
        const code = shortCode(hash);
        expect(code).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{2}[0-9A-Z]$/);
        expect(checkHolds(code)).toBe(true);
      }),
      { seed: 1, numRuns: 200 },
    );
  });

  it('is the first fifty bits of the hash', () => {
    const code = shortCode(`ffffffffffffc${'0'.repeat(51)}`);
    expect(code.replaceAll('-', '').slice(0, 10)).toBe('ZZZZZZZZZZ');
    expect(shortCode('0'.repeat(64)).slice(0, 12)).toBe('0000-0000-00');
    expect(shortCode('')).toBe('');
  });
});

describe('seal over units', () => {
  it('is what sha256sum gives for the seals, one a line', ({ skip }) => {
    const hashes = ['a'.repeat(64), 'b'.repeat(64)];
    const outside = spawnSync('sha256sum', {
      input: hashes.map((hash) => `${hash}\n`).join(''),
      encoding: 'utf8',
    });
    if (outside.error) skip('no sha256sum on this machine');
    expect(sealOver(hashes)).toBe(outside.stdout.slice(0, 64));
  });

  it('changes with the order', () => {
    expect(sealOver(['a', 'b'])).not.toBe(sealOver(['b', 'a']));
  });
});

describe('unit codes', () => {
  const name = fc.stringMatching(/^[A-Za-z0-9][A-Za-z0-9._-]{0,20}$/).filter((s) => !s.includes('..'));

  it('are read back as they were written, in either case', () => {
    fc.assert(
      fc.property(name, name, (job, unit) => {
        expect(readUnitCode(unitCode(job, unit))).toEqual({ kind: 'unit', job, unit });
        expect(readUnitCode(unitCode(job, unit).toLowerCase()).kind).toBe('unit');
      }),
      { seed: 2, numRuns: 300 },
    );
  });

  it('tell a wrong sign from no code at all', () => {
    expect(readUnitCode(unitCode('pier-house', 'P02-1').replace('P02', 'P03'))).toEqual({
      kind: 'wrong-check',
    });
    expect(readUnitCode('P02-1')).toEqual({ kind: 'no-code' });
    expect(readUnitCode('1221.5')).toEqual({ kind: 'no-code' });
  });
});
