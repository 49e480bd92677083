/** Sentences that the program makes of lights, marks, packers and lifts: every word of them is a phrase that a translation gives. */
import { describe, expect, it } from 'vitest';
import { PHRASES, phrased } from '../../src/procedure/phrases.js';
import { reliefsOf } from '../../src/window/beside.js';
import { markLines } from '../../src/window/claims.js';
import { packerSentence } from '../../src/window/context.js';
import { sentenceOf } from '../../src/window/handing.js';
import { parseJob } from '../../src/window/job.js';
import { liftOf } from '../../src/window/masses.js';
import { setOut } from '../../src/window/setout.js';
import { k70, w52 } from '../window/kit.js';
import { must, sourceOf } from './samples.js';

const { units } = must(parseJob(sourceOf('shared/jobs/pier-house.yaml')));
const setOuts = units.flatMap((unit) => [setOut(unit, w52), setOut(unit, k70)]);

const SENTENCES = [
  ...(['left', 'right'] as const).flatMap((hinge) => [
    sentenceOf('side-hung', hinge),
    sentenceOf('side-hung', hinge, true),
  ]),
  sentenceOf('fixed', undefined),
  sentenceOf('top-hung', 'top'),
  sentenceOf('top-hung', 'top', true),
  ...[10, 20, 40, 90].map(liftOf),
  ...(['setting', 'location', 'bracing'] as const).flatMap((use) =>
    (['bottom', 'top', 'left', 'right'] as const).map((edge) =>
      packerSentence({ use, edge, centre: 150.5, length: 100, thickness: 5 }),
    ),
  ),
  ...setOuts.flatMap((made) => [
    ...markLines(
      made,
      made.parts.flatMap((part) => part.marks.map((mark) => ({ part, mark }))),
    ),
    ...made.lights.flatMap((light) => reliefsOf(made, light)),
  ]),
];

describe('phrases', () => {
  it('leave nothing of a sentence but numbers, their unit and punctuation', () => {
    const none = Object.fromEntries(PHRASES.map((phrase) => [phrase, '']));
    for (const sentence of SENTENCES)
      expect(phrased(sentence, none)).toMatch(/^(?:mm|x|[LD]\d+|[\d.,:() -])*$/);
  });
  it('are each in some sentence', () => {
    for (const phrase of PHRASES)
      expect(
        SENTENCES.some((sentence) => phrased(sentence, { [phrase]: '' }) !== sentence),
        phrase,
      ).toBe(true);
  });
  it('stand for whole words, and what is lacking stays', () => {
    expect(phrased('hinged left, seen from outside, opens out', { 'hinged left': 'links' })).toBe(
      'links, seen from outside, opens out',
    );
    expect(phrased('a resetting, a location', { setting: 'X', location: 'Y' })).toBe('a resetting, a Y');
    expect(phrased('setting', { toString: 'no' } as never)).toBe('setting');
  });
});
