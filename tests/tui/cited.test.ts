/** What one key takes over stands on a small screen, all of it: each step, who gave it when, every lot and figure. */
import { expect, it } from 'vitest';
import { citeLines } from '../../src/tui/cited.js';
import type { SharedShown } from '../../src/unit/types.js';
import { rig } from './support.js';

const fact = (step: string, more: Partial<SharedShown> = {}): SharedShown => ({
  step,
  ask: `Ask ${step}?`,
  unit: 'P01-1',
  at: '2026-03-02T07:12:00.000Z',
  by: 'ilse',
  answered: { answer: { kind: 'go-no-go', go: true } },
  ...more,
});
const text = (shown: readonly SharedShown[], width: number) =>
  citeLines(shown, rig().core.world(), width).map((row) => row.map((span) => span.text).join(''));

it('a row for each step, with its lots and figures, under whoever gave it', () => {
  const lot = (code: string) =>
    ({ answered: { answer: { kind: 'text', text: code }, lot: { code } } }) as const;
  const lines = text(
    [
      fact('papers'),
      fact('papers'),
      fact('profile', lot('PR-77')),
      fact('profile'),
      fact('sealant', lot('SE-9')),
      fact('freeze', { by: 'tom', released: true }),
    ],
    52,
  );
  expect(lines.join('\n')).toMatch(/P01-1, Ilse Varga, .*07:12/);
  expect(lines).toContain(' · papers: right');
  expect(lines).toContain(' · profile: PR-77');
  expect(lines).toContain(' · sealant: SE-9');
  expect(lines).toContain(' · freeze: released');
  expect(lines.join('\n')).toContain('Tom Okafor');
});

it('eight steps of two people fit the rows of a small screen', () => {
  const shown = Array.from({ length: 8 }, (_, i) => [fact(`step-${i}`), fact(`step-${i}`)]).flat();
  const lines = text([...shown, fact('step-1', { by: 'tom', released: true })], 52);
  expect(lines.length).toBeLessThanOrEqual(15);
  for (let i = 0; i < 8; i += 1) expect(lines.join('\n')).toContain(`step-${i}`);
});
