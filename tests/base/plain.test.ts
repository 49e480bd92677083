import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isPlain, sanitize } from '../../src/base/text.js';

describe('plain', () => {
  it('shows that something stood where a control character was', () => {
    expect(sanitize('a\u001b[31mred')).toBe('a\ufffd[31mred');
    expect(sanitize('left\u202eright')).toBe('left\ufffdright');
    expect(sanitize('tab\tand\nline')).toBe('tab and line');
    expect(sanitize('\u009b2J')).toBe('\ufffd2J');
  });

  it('keeps the letters of any language', () => {
    for (const text of ['Łukasz Żak', 'Größe 12 µm', '窓枠', 'Ντίνα', 'naïve 45° ½'])
      expect(isPlain(text)).toBe(true);
  });

  it('leaves nothing that drives a terminal, whatever comes in (seed 1)', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        const out = sanitize(text);
        expect(/[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/.test(out)).toBe(false);
        expect(sanitize(out)).toBe(out);
      }),
      { seed: 1, numRuns: 2000 },
    );
  });
});
