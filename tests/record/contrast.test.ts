/**
 * Lines and letters of drawings against the white of the page: W3C, Web Content Accessibility Guidelines 2.2, 1.4.11 (3:1 for
 * what must be seen to understand a picture) and 1.4.3 (4.5:1 for text); relative luminance as defined there.
 */
import { describe, expect, it } from 'vitest';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, FINISHED, SETOUT } from './states.js';

const view = recordView(FINISHED, SETOUT, CONTEXT);
const drawings = [...(view.drawing ? [view.drawing] : []), ...view.asMeasured].filter(
  ({ svg }) => svg !== '',
);

function luminance(colour: string): number {
  const hex = colour.slice(1);
  const full = hex.length === 3 ? [...hex].map((each) => each + each).join('') : hex;
  const [r = 0, g = 0, b = 0] = [0, 2, 4].map((i) => {
    const value = Number.parseInt(full.slice(i, i + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

const contrast = (colour: string): number => 1.05 / (luminance(colour) + 0.05);

it('luminance is that of the guidelines: the worked figures of black and white', () => {
  expect(contrast('#000')).toBeCloseTo(21, 9);
  expect(contrast('#fff')).toBeCloseTo(1, 9);
});

describe.each(drawings.map(({ title, svg }) => [title, svg]))('%s', (_, svg) => {
  const marks = [...svg.matchAll(/<(\w+)([^>]*)>/g)].map(([, name = '', attributes = '']) => ({
    name,
    attributes,
  }));
  it('every line stands out', () => {
    const strokes = marks.flatMap(
      ({ attributes }) => /stroke="(#[0-9a-f]{3,6})"/i.exec(attributes)?.[1] ?? [],
    );
    expect(strokes.length).toBeGreaterThan(0);
    for (const colour of strokes) expect(contrast(colour), colour).toBeGreaterThanOrEqual(3);
  });
  it('and every letter', () => {
    const letters = marks.filter(({ name }) => name === 'text');
    expect(letters.length).toBeGreaterThan(0);
    for (const { attributes } of letters)
      expect(contrast(/fill="(#[0-9a-f]{3,6})"/i.exec(attributes)?.[1] ?? '#000')).toBeGreaterThanOrEqual(
        4.5,
      );
  });
});
