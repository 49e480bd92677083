/**
 * Every check and hold point of the trade (shoplist.yaml, common practice) is asked, measured, cited or worked out.
 * Makes the table checks.md: number, step, rhythm and how.
 */
import { readFileSync } from 'node:fs';
import { load } from 'js-yaml';
import { expect, it } from 'vitest';
import { parseLimits } from '../../src/measure/limits.js';
import { type Check, stepsOf } from '../../src/procedure/model.js';
import { isOfTheShop, isShared } from '../../src/procedure/rhythm.js';
import { parseSetups } from '../../src/store/setups.js';
import { casement, must, sourceOf } from './samples.js';

const list = load(readFileSync(new URL('shoplist.yaml', import.meta.url), 'utf8')) as Record<
  string,
  { readonly what: string; readonly by: readonly string[] }
>;
const steps = stepsOf(casement);
const setups = must(
  parseSetups(sourceOf('shared/setups.yaml'), must(parseLimits(sourceOf('shared/limits.yaml')))),
);

const MEASURED: ReadonlySet<string> = new Set(['number', 'square', 'points']);

function how({ kind, evidence, rhythm }: Pick<Check, 'kind' | 'evidence' | 'rhythm'>): string {
  const asked = MEASURED.has(kind)
    ? 'measured'
    : kind === 'computed'
      ? 'worked out by the program'
      : kind === 'text'
        ? 'scanned'
        : evidence
          ? 'asked, with a picture'
          : 'asked';
  return isShared(rhythm) && kind !== 'computed' ? `${asked}; the other units cite it` : asked;
}

/** Rows of the table: what answers it, how often, and how; undefined if the procedure has no such thing. */
function answerOf(by: string): readonly [string, string, string] | undefined {
  const [, feature] = /^wait (.+)$/.exec(by) ?? [];
  if (feature !== undefined) {
    const waits = steps.filter(({ notBefore, notAfter }) =>
      [notBefore, notAfter].some((timer) => timer?.features.includes(feature)),
    );
    return waits.length === 0
      ? undefined
      : [waits.map(({ id }) => id).join(', '), 'unit', 'worked out by the clock'];
  }
  const [step = '', id] = by.split('/');
  if (step.startsWith('setup.')) {
    const check = setups.find((each) => `setup.${each.id}` === step)?.checks.find((each) => each.id === by);
    return check && [by, 'set-up', `${MEASURED.has(check.kind) ? 'measured' : 'asked'}; every unit cites it`];
  }
  const at = steps.find((each) => each.id === step);
  if (id === undefined) {
    const hold = at?.hold === undefined ? undefined : casement.holds.get(at.hold);
    if (!hold) return undefined;
    return [
      step,
      hold.rhythm,
      hold.release === 'person' ? 'released by another person' : 'held by its own checks',
    ];
  }
  const check = at?.checks.find((each) => each.id === id);
  return check && [by, check.rhythm, how(check)];
}

it('every check and every hold point is there, and the table of them is as kept', async () => {
  const lost = Object.entries(list).flatMap(([k, { by }]) =>
    by.filter((each) => answerOf(each) === undefined).map((each) => `${k} ${each}`),
  );
  expect(lost).toEqual([]);
  const rows = Object.entries(list).flatMap(([k, { what, by }]) =>
    by.map((each, i) => {
      const [where, rhythm, told] = answerOf(each)!;
      return `| ${i === 0 ? k : ''} | ${i === 0 ? what : ''} | ${where} | ${rhythm} | ${told} |`;
    }),
  );
  const table = [
    '# What answers each check of the trade',
    '',
    'Made by `tests/procedure/shoplist.test.ts` from the list beside it (common practice) and the shipped procedure.',
    '',
    '| no. | what | answered at | rhythm | how |',
    '|---|---|---|---|---|',
    ...rows,
    '',
  ].join('\n');
  await expect(table).toMatchFileSnapshot('checks.md');
});

it('holds that hide something of a unit for good are released on each unit; the order once, the saw once a set-up', () => {
  const released = [...casement.holds.values()]
    .filter(({ release }) => release === 'person')
    .map(({ id, rhythm }) => `${id} ${rhythm}`);
  expect(released).toEqual([
    'H1 job',
    'H2 first-off',
    'H3 unit',
    'H4 unit',
    'H5 unit',
    'H6 unit',
    'H8 unit',
    'H11 unit',
  ]);
  expect(casement.holds.size).toBe(12);
});

it('nothing that is asked of a unit is answered by a constant, and no figure is counted', () => {
  expect(
    steps.flatMap(({ id, checks }) =>
      checks.filter(({ kind }) => kind === 'count').map((c) => `${id}/${c.id}`),
    ),
  ).toEqual([]);
});

it('what the shop answers is never set before the questions of a step that asks of the unit', () => {
  const early = steps.flatMap(({ id, checks }) => {
    const own = checks.findLastIndex(({ kind, rhythm }) => kind !== 'computed' && !isShared(rhythm));
    return checks
      .slice(0, Math.max(0, own))
      .filter(({ rhythm }) => isOfTheShop(rhythm))
      .map((c) => `${id}/${c.id}`);
  });
  expect(early).toEqual([]);
});
