/** The real bench over a real folder: it honours what is signed, for which profile set, and when that has run out. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { realPorts } from '../../src/session/workshopports.js';
import { levelOf } from '../../src/unit/people.js';
import { removeWorkshop, tempWorkshop, train } from './shop.js';

const START = '2026-03-02T07:00:00.000Z';
const days = (n: number): number => Date.parse(START) + n * 86_400_000;
const roots: string[] = [];
afterEach(() => {
  for (const root of roots.splice(0)) removeWorkshop(root);
});

/** Teo, level 2 by the people file, is signed to level 3 of `order` for one profile set. */
async function signed(set = 'w52'): Promise<string> {
  const root = tempWorkshop();
  roots.push(root);
  await train(root, ['signoff', 'observe', 'tf', 'order', '--by', 'jb', '--text', 'Read it aloud']);
  const given = await train(
    root,
    ['signoff', 'give', 'tf', 'order', '3', '--by', 'ot', '--set', set, '--waive', 'Came as a fitter'],
    ['2705'],
  );
  expect(given, given.err).toMatchObject({ code: 0 });
  return root;
}

interface At {
  readonly level: number;
  readonly ticks: () => string;
}

/** Teo's level in `order` with P01-1 on the bench so many days on, and what a tick of his alone gives. */
function bench<T>(root: string, day: number, use: (at: At) => T, unit = 'P01-1'): T {
  let now = days(day);
  const made = realPorts({ workshop: root, clock: () => (now += 1000) });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  try {
    expect(made.value.open(unit).kind).toBe('open');
    const tf = made.value.world().rules.people.find(({ id }) => id === 'tf')!;
    return use({
      level: levelOf(tf, 'order'),
      ticks: () => {
        const acted = made.value.act(
          { do: 'answer', check: 'order.papers/revision', value: 'yes' },
          { person: 'tf' },
        );
        return 'problem' in acted ? acted.problem.id : acted.kind;
      },
    });
  } finally {
    made.value.close();
  }
}
const levelAt = (root: string, day: number, unit?: string) => bench(root, day, ({ level }) => level, unit);

describe('the bench', () => {
  it('lets somebody alone once it is signed, and not before', async () => {
    const root = await signed();
    expect(bench(root, 1, ({ ticks }) => ticks())).toBe('done');
    const before = tempWorkshop();
    roots.push(before);
    expect(bench(before, 1, ({ ticks }) => ticks())).toBe('build.needs-second');
  });

  it('counts a sign-off for its own profile set alone', async () => {
    const root = await signed('k70');
    expect(levelAt(root, 1)).toBe(2);
    expect(bench(root, 1, ({ ticks }) => ticks())).toBe('build.needs-second');
    expect(levelAt(await signed('w52'), 1)).toBe(3);
  });

  it('lets it run out after absence; work in between keeps it, and work after does not bring it back', async () => {
    const root = await signed();
    expect(levelAt(root, 271)).toBe(2);
    expect(levelAt(root, 270)).toBe(3);
    expect(bench(root, 200, ({ ticks }) => ticks())).toBe('done');
    expect(levelAt(root, 460)).toBe(3);
    expect(levelAt(root, 472)).toBe(2);
    const late = await signed();
    const second = {
      do: 'answer',
      check: 'order.papers/revision',
      value: 'yes',
      second: 'jb',
      confirm: { code: 'jb' },
    } as const;
    let now = days(300);
    const made = realPorts({ workshop: late, clock: () => (now += 1000) });
    if (!made.ok) throw new Error('not open');
    made.value.open('P01-1');
    expect(made.value.act(second, { person: 'tf' }).kind).toBe('done');
    made.value.close();
    expect(levelAt(late, 302)).toBe(2);
  });

  it('lets it run out when the procedure changes in that stage, and in no other', async () => {
    const root = await signed();
    const file = join(root, 'procedures/casement.yaml');
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace('Film goes on over wet glass', 'Film goes on over damp glass'));
    expect(levelAt(root, 1)).toBe(3);
    writeFileSync(
      file,
      text.replace('Read mark and revision on each.', 'Read mark, revision and date on each.'),
    );
    expect(levelAt(root, 1)).toBe(2);
    expect(bench(root, 1, ({ ticks }) => ticks())).toBe('build.needs-second');
    const page = await train(root, ['page', 'tf'], [], '2026-03-03T07:00:00.000Z');
    expect(page.out).toMatch(/Order check, with w52: level 2, supervised \(run out\)/);
    expect(page.out).toContain('The procedure changed in this stage since it was signed');
  });

  it('a withdrawal counts at once, also at a bench that is running', async () => {
    const root = await signed();
    let now = days(1);
    const made = realPorts({ workshop: root, clock: () => (now += 1000) });
    if (!made.ok) throw new Error('not open');
    made.value.open('P01-1');
    const level = () => levelOf(made.value.world().rules.people.find(({ id }) => id === 'tf')!, 'order');
    expect(level()).toBe(3);
    const out = await train(
      root,
      ['signoff', 'withdraw', 'tf', 'order', '--by', 'ot', '--text', 'Skipped a hold'],
      ['2705'],
      '2026-03-03T07:00:00.000Z',
    );
    expect(out.code, out.err).toBe(0);
    expect(level()).toBe(2);
    made.value.close();
  });
});

describe('sign-off for a profile set', () => {
  it('is asked for where there is more than one, and takes none that the workshop lacks', async () => {
    const root = tempWorkshop();
    roots.push(root);
    const give = ['signoff', 'give', 'tf', 'order', '3', '--by', 'ot', '--waive', 'x'];
    const without = await train(root, give, ['2705']);
    expect(without.code).toBe(1);
    expect(without.err).toContain('[train.set]');
    expect(without.err).toContain('f25, k70, t56, w52');
    const strange = await train(root, [...give, '--set', 'w99'], ['2705']);
    expect(strange.err).toContain('The workshop has no profile set "w99".');
  });

  it('is told of each set where they differ, in the page and in the document', async () => {
    const root = await signed();
    const text = (await train(root, ['page', 'tf'])).out;
    expect(text).toContain('Order check, with w52: level 3, alone (signed)');
    expect(text).toContain('Order check, with k70: level 2, supervised (by the people file)');
    expect(text).toContain('nothing is signed for this stage with k70');
    expect(text).toMatch(/\nGlazing: level 1/);
    const html = (await train(root, ['page', 'tf', '--html'])).out;
    expect(html).toContain('<th scope="row">Order check, with w52</th><td>3, alone</td>');
  });
});
