/** Parts are worked out before masses and stays: a part that asks for one is refused where it is written. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parseProfileSet } from '../../src/window/profileset.js';

it("refuses a part's condition on a mass, with its place", () => {
  const text = readFileSync(new URL('../../shared/profile-sets/w52.yaml', import.meta.url), 'utf8');
  const parts = text.indexOf('\nparts:');
  const opening = text.indexOf('\n  opening:', parts);
  const at = text.indexOf('profile:', opening);
  expect(Math.min(parts, opening, at)).toBeGreaterThan(0);
  const inline = text.lastIndexOf('{', at) > text.lastIndexOf('\n', at);
  const asked = `when: "sash.mass > 10"${inline ? ', ' : `\n${' '.repeat(at - text.lastIndexOf('\n', at) - 1)}`}`;
  const result = parseProfileSet({ file: 'w52.yaml', text: text.slice(0, at) + asked + text.slice(at) });
  expect(result.ok ? [] : result.problems.map(({ id }) => id)).toContain('formula.type');
  expect(result.ok ? undefined : result.problems[0]!.place?.line).toBeGreaterThan(1);
});
