/** shared/setups.yaml: set-ups as rules, and every way in which the file is not right, at its place. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';
import { parseLimits } from '../../src/measure/limits.js';
import { parseSetups } from '../../src/store/setups.js';

const SHARED = resolve(import.meta.dirname, '../../shared');
const read = parseLimits({ file: 'limits.yaml', text: readFileSync(join(SHARED, 'limits.yaml'), 'utf8') });
if (!read.ok) throw new Error(read.problems[0]!.text);
const limits = read.value;
const parse = (text: string) => parseSetups({ file: 'setups.yaml', text }, limits);

const GAP = '{id: gap, kind: number, ask: Gap, unit: mm, against: value, limits: [saw.mitre-gap]}';
/** The first check stands in line 6, the second in line 7. */
const setup = (id: string, ...checks: string[]) =>
  `  - id: ${id}\n    title: Saw\n    checks:\n${checks.map((check) => `      - ${check}\n`).join('')}`;
const file = (...setups: string[]) => `format: pinchrod-setups 1\nsetups:\n${setups.join('')}`;

it('gives a check all that it says, and nothing that it does not', () => {
  const full =
    '{id: len, kind: number, ask: Length, how: Long point, expect: 500, plausible: 20, unit: mm, limits: [saw.first-off-length], instruments: [rule]}';
  expect(parse(file(setup('saw', full, '{id: ok, kind: go-no-go, ask: Sharp?}')))).toEqual({
    ok: true,
    warnings: [],
    value: [
      {
        id: 'saw',
        title: 'Saw',
        checks: [
          {
            ...{ id: 'setup.saw/len', kind: 'number', ask: 'Length', how: 'Long point', unit: 'mm' },
            ...{ expect: 500, plausible: 20, against: 'deviation', limits: ['saw.first-off-length'] },
            ...{ quantity: 'length', instruments: ['rule'], rests: [], evidence: false, safety: false },
          },
          {
            ...{ id: 'setup.saw/ok', kind: 'go-no-go', ask: 'Sharp?', against: 'deviation' },
            ...{ limits: [], instruments: [], rests: [], evidence: false, safety: false },
          },
        ],
      },
    ],
  });
});

it('gives a set-up its stage and how long a first-off holds, where it says so', () => {
  const text = file(
    setup('saw', GAP).replace('    checks', '    stage: saw\n    minutes: 600\n    uses: 4\n    checks'),
  );
  expect(parse(text)).toMatchObject({ value: [{ stage: 'saw', minutes: 600, uses: 4 }] });
});

it.each<[string, string, object[]]>([
  ['no set-ups file', 'format: x\nsetups: []\n', [{ id: 'file.schema' }]],
  [
    'a set-up twice',
    file(setup('saw', GAP), setup('saw', GAP)),
    [{ id: 'setups.twice', place: { line: 7 } }],
  ],
  ['a check twice', file(setup('saw', GAP, GAP)), [{ id: 'setups.twice', place: { line: 7 } }]],
  [
    'a limit that there is not',
    file(setup('saw', GAP.replace('mitre-gap', 'none'))),
    [{ id: 'setups.limit', text: 'There is no limit "saw.none".', place: { line: 6 } }],
  ],
  [
    'a number without a limit',
    file(setup('saw', '{id: gap, kind: number, ask: Gap, against: value}')),
    [{ id: 'setups.limit', text: 'The number "gap" names no limit.', place: { line: 6 } }],
  ],
  [
    'a deviation from nothing',
    file(setup('saw', GAP.replace(', against: value', ''))),
    [{ id: 'setups.expect', place: { line: 6 } }],
  ],
  [
    'a count of nothing in particular',
    file(setup('saw', '{id: holes, kind: count, ask: Holes}')),
    [{ id: 'setups.expect', text: '"holes" does not say what is expected.', place: { line: 6 } }],
  ],
  [
    'all at once',
    file(setup('saw', GAP, '{id: gap, kind: number, ask: Gap}')),
    [{ id: 'setups.twice' }, { id: 'setups.limit' }, { id: 'setups.expect' }],
  ],
])('refuses %s', (_, text, problems) => {
  const made = parse(text);
  expect(made).toMatchObject({ ok: false, problems });
  if (!made.ok) expect(made.problems.length).toBe(problems.length);
});
