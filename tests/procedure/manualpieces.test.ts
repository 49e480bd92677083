/** The pieces of a procedure file that its manual shows, put together as it says, are a procedure; every formula in it compiles. */
import { describe, expect, it } from 'vitest';
import { parse, stringify as written } from 'yaml';
import { parseProcedure } from '../../src/procedure/parse.js';
import { translateProcedure } from '../../src/procedure/translation.js';
import { casement, idsOf, must, sourceOf } from './samples.js';

const { text: manual } = sourceOf('procedures/README.md');
const blocks = [...manual.matchAll(/^```yaml\n([\s\S]*?)^```/gm)].map(([, block]) => block!);
/** A block as data; what it leaves open is filled. */
const read = (begins: string) => {
  const block = blocks.find((each) => each.trimStart().startsWith(begins));
  if (block === undefined) throw new Error(`no block begins with ${begins}`);
  return parse(block.replaceAll('[ … ]', '[one, two]').replaceAll('…', 'a text'));
};
const stringify = (file: unknown): string => written(file, { aliasDuplicateObjects: false });
const checks = [
  { id: 'done', kind: 'tick', ask: 'Is it square?' },
  {
    id: 'frame',
    kind: 'square',
    ask: 'Sides and diagonals',
    nominal: { w: 'frame.w', h: 'frame.h' },
    limits: ['a'],
  },
];
const tick = [{ id: 'done', kind: 'tick', ask: 'Is it done?' }];

function together(): string {
  const file = read('format: pinchrod-procedure 1');
  const [step] = read('- id: square.frame');
  const plain = (id: string, makes: string[]) => ({
    id,
    each: 'unit',
    title: 'Before',
    do: ['Do it.'],
    makes,
    checks: tick,
  });
  return stringify({
    ...file,
    features: { ...file.features, 'frame.corners': 'corners joined', 'frame.sealed': 'corners sealed' },
    stages: [
      {
        id: 'frame',
        title: 'Frame',
        steps: [plain('join', ['frame.corners']), plain('seal', ['frame.sealed'])],
      },
      ...file.stages.map((stage: object) => ({ ...stage, steps: [{ ...step, checks }] })),
    ],
  });
}

describe('the manual of procedures', () => {
  it('shows a head, a stage and a step that are a procedure', () => {
    const made = must(parseProcedure({ file: 'shown.yaml', text: together() }));
    expect(made.stages.map(({ id }) => id)).toEqual(['frame', 'frame-square']);
    expect(made.stages[1]!.steps[0]).toMatchObject({
      id: 'square.frame',
      hold: 'H5',
      makes: ['frame.geometry'],
    });
  });
  it('would not, were one of its keys another', () => {
    const shown = together();
    for (const [key, other] of [
      ['rests:', 'rest:'],
      ['notAfter:', 'not_after:'],
      ['features:', 'feature:'],
      ['deferral:', 'defer:'],
    ] as const)
      expect(
        idsOf(parseProcedure({ file: 'shown.yaml', text: shown.replace(key, other) })),
        other,
      ).not.toEqual([]);
  });
  it('shows a translation that is one', () => {
    const text = stringify(read('format: pinchrod-procedure-text 1'));
    const made = translateProcedure({ file: 'casement.de.yaml', text }, casement);
    expect(made.ok ? [] : made.problems.map((problem) => problem.text)).toEqual([]);
  });
  it('lists the kinds of checks that there are', () => {
    const table = manual.slice(manual.indexOf('## A check'), manual.indexOf('All kinds take'));
    const kinds = [...table.matchAll(/^\| `([a-z-]+)` \|/gm)].map(([, kind]) => kind!);
    expect(kinds.length).toBeGreaterThan(5);
    for (const kind of [...kinds, 'no-such-kind']) {
      const text = together().replace('kind: tick', `kind: ${kind}`);
      const faults = faultsOf(text).filter((fault) => /kind: .* is not known here/.test(fault));
      expect(faults.length > 0, `${kind}: ${faultsOf(text).join('; ')}`).toBe(kind === 'no-such-kind');
    }
  });
  it.each(
    [...manual.matchAll(/`((?:unit|light|frame|divider|set|figure|marks)[.[][^`*/]+)`/g)].map(
      ([, text]) => text!,
    ),
  )('writes a formula that a step knows: %s', (text) => {
    const each = /\blight\b/.test(text) ? 'sash' : /\bdivider\b/.test(text) ? 'divider' : 'unit';
    const step = { id: 'own', each, title: 'Own', do: [`Look at {${sized(text)}}.`], checks: tick };
    const file = read('format: pinchrod-procedure 1');
    const made = parseProcedure({
      file: 'own.yaml',
      text: stringify({ ...file, features: {}, stages: [{ id: 'own', title: 'Own', steps: [step] }] }),
    });
    expect(idsOf(made)).toEqual([]);
  });
});

/** A number in a text has its unit behind it; a condition is turned into a text. */
const sized = (text: string): string =>
  /[=<>?]/.test(text) ? `${text} ? "a" : "b"` : text === 'light.packers' ? `${text}.join("; ")` : text;
const faultsOf = (text: string): string[] => {
  const made = parseProcedure({ file: 'shown.yaml', text });
  return made.ok ? [] : made.problems.map((problem) => problem.text);
};
