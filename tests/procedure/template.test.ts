import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compileTemplate, fill, fillSentences, spaceFor } from '../../src/procedure/template.js';

const space = spaceFor('unit');
const filled = (text: string, values: Record<string, unknown> = {}) => {
  const { template, problems } = compileTemplate(text, space, { file: 'x' });
  expect(problems).toEqual([]);
  return fill(template, values);
};

describe('texts with formulas', () => {
  it('puts numbers in, with their units', () => {
    expect(filled('Cut {mm(frame.w)} and {wxh(frame.w, frame.h)}.', { frame: { w: 837.5, h: 700 } })).toBe(
      'Cut 837.5 mm and 837.5 x 700 mm.',
    );
  });
  it('shows whole numbers of CEL as they are', () => {
    expect(filled('{unit.lights} lights', { unit: { lights: 3n } })).toBe('3 lights');
  });
  it('refuses a figure that is none: an empty list of places, or no number', () => {
    const at = (drains: number[]) => ({ frame: { w: Number.NaN, h: 700, drains_inner: drains } });
    expect(filled('Slots at {mm(frame.drains_inner)}.', at([112, 450]))).toBe('Slots at 112, 450 mm.');
    expect(() => filled('Slots at {mm(frame.drains_inner)}.', at([]))).toThrow(
      /gives no figure for this unit/,
    );
    expect(() => filled('{frame.w}', at([]))).toThrow(/gives no figure/);
    // A note that nobody wrote may be empty.
    expect(filled('Note: {unit.note}', { unit: { note: '' } })).toBe('Note: ');
  });
  it('takes two braces for one', () => {
    expect(filled('a {{b}} c')).toBe('a {b} c');
  });
  it('gives a sentence for each text of a list that stands alone', () => {
    const light = spaceFor('light');
    const { template, problems } = compileTemplate('{light.packers}', light, { file: 'x' }, undefined, true);
    expect(problems).toEqual([]);
    expect(fillSentences(template, { light: { packers: ['setting, left', 'bracing, top.'] } })).toEqual([
      'Setting, left.',
      'Bracing, top.',
    ]);
    for (const [text, lists] of [
      ['Lay {light.packers}', true],
      ['{light.packers}', false],
    ] as const)
      expect(compileTemplate(text, light, { file: 'x' }, undefined, lists).problems[0]?.id).toBe(
        'formula.result',
      );
  });
  it('leaves any text without braces as it is', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const plain = text.replace(/[{}]/g, '');
        expect(filled(plain)).toBe(plain);
      }),
      { seed: 4711 },
    );
  });
  it('gives any text whatever with braces doubled back as it was', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(filled(text.replace(/[{}]/g, '$&$&'))).toBe(text);
      }),
      { seed: 4712 },
    );
  });
});
