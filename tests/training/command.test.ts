/** The training command on a workshop in a folder of its own, played through typed lines. */
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TrainingShop } from '../../src/commands/train/shop.js';
import { rulesWithSignoffs } from '../../src/session/practicejournals.js';
import { realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { workedAt, workFrom, workOf } from '../../src/training/evidence.js';
import { memoryDeck } from '../../src/training/memory.js';
import { beginWalk, checkAt, questionAt, stepAt } from '../../src/training/walk.js';
import { checkLine, verifyChain } from '../../src/unit/chain.js';
import { levelOf } from '../../src/unit/people.js';
import { demonstration, planFor, removeWorkshop, tempWorkshop, train, tree } from './shop.js';

let root: string;
beforeAll(() => {
  root = tempWorkshop();
});
afterAll(() => removeWorkshop(root));
const journal = (name: string): string => readFileSync(join(root, 'practice', name), 'utf8');
const events = (name: string) =>
  journal(name)
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as Record<string, unknown>);

describe('drills', () => {
  it('squaring: the same lines and seed are the same drill, kept in the practice journal', async () => {
    const lines = ['read bl-tr', 'read br-tl', 'read bl-tr', 'flat', 'bar', 'done'];
    const one = await train(root, ['squaring', '--seed', '7', '--level', '1', '--person', 'TF'], lines);
    const two = await train(root, ['squaring', '--seed', '7', '--level', '1'], lines);
    expect(one.code).toBe(1);
    expect(one.out).toBe(two.out);
    expect(two.err).toContain('Not kept');
    expect(one.out).toContain('What was hidden:');
    expect(events('people/tf.jsonl').map((event) => event.kind)).toEqual(['practice-opened', 'drilled']);
    expect(events('people/tf.jsonl')[1]).toMatchObject({
      drill: 'squaring',
      seed: 7,
      by: 'tf',
      passed: false,
    });
  });
  it('squaring works without a workshop', async () => {
    const { code, out } = await train(
      '/nowhere',
      ['squaring', '--seed', '1', '--json'],
      ['read top', 'nonsense', 'snag'],
    );
    const lines = out.split('\n').map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(lines.map((line) => Object.keys(line)[0])).toEqual(['task', 'ok', 'ok', 'ok', 'score']);
    expect(lines[2]).toMatchObject({ ok: false, refused: { id: 'train.action' } });
    expect(code).toBe(1);
  });
  it('setting out: worked right it passes, one wrong line is shown with its sum', async () => {
    const { setOut } = planFor('P01-1');
    const names = [...setOut.numbers.values()].filter(
      (trace) => trace.formula && /^[a-z_]+\.L1\.(w|h|diagonal)$/.test(trace.name),
    );
    const right = names.map((trace) => `${trace.name} ${trace.value}`);
    const good = await train(root, ['setout', 'P01-1', 'L1', '--person', 'tf'], [...right, 'done']);
    expect(good.code, good.out + good.err).toBe(0);
    expect(good.out).toContain('100 of 100 points');
    const bad = await train(
      root,
      ['setout', 'P01-1', 'L1'],
      [...right.slice(0, -1), `${names.at(-1)!.name} 1`, 'done'],
    );
    expect(bad.code).toBe(1);
    expect(bad.out).toContain(`First wrong line: ${names.at(-1)!.name}`);
  });
  it('fault finding: giving up is not passing', async () => {
    const { code, out } = await train(
      root,
      ['faults', 'P02-1', '--seed', '3', '--person', 'tf'],
      ['list', 'give up'],
    );
    expect(code).toBe(1);
    expect(out).toContain('0 of 100 points');
  });
});

describe('memory', () => {
  it('keeps each answer as it is given, and asks less the second time', async () => {
    const first = await train(root, ['memory', 'P02-1', '--person', 'jb'], ['1', '1', '1', '1', '1']);
    expect(first.code).toBe(0);
    expect(events('people/jb.jsonl').filter((event) => event.kind === 'reviewed')).toHaveLength(5);
    const second = await train(root, ['memory', 'P02-1', '--person', 'jb'], [], '2026-03-02T07:00:30.000Z');
    expect(second.out).toContain('Nothing is due for Joan Bexley.');
    const nextDay = await train(
      root,
      ['memory', 'P02-1', '--person', 'jb'],
      ['1'],
      '2026-03-03T07:00:00.000Z',
    );
    expect(nextDay.out).toContain('5 due, 5 new');
  });
});

describe('the practice walk', () => {
  it('walks a whole stage with everything open, questions before holds, and leaves logs/ as it was', async () => {
    mkdirSync(join(root, 'logs/pier-house'));
    writeFileSync(join(root, 'logs/pier-house/P02-1.jsonl'), 'somebody is building this unit\n');
    const before = tree(join(root, 'logs'));
    expect(Object.keys(before)).toHaveLength(2);
    const { route, from } = planFor('P02-1');
    const deck = memoryDeck(route, from.procedure);
    const begun = beginWalk(route, { job: 'pier-house', deck, stage: 'order' });
    if (!begun.ok) throw new Error('no stage');
    const lines: string[] = [];
    for (const step of begun.value.walk.route.steps) {
      for (const check of step.checks)
        lines.push(check.kind === 'choice' ? check.choices!.find((choice) => choice.pass)!.id : 'yes');
      const question = begun.value.walk.questions.get(step.id);
      if (question)
        lines.push(String(((question.right + 1) % question.answers.length) + 1), String(question.right + 1));
    }
    const walked = await train(root, ['walk', 'P02-1', '--person', 'tf', '--stage', 'order'], lines);
    expect(walked.code, walked.err).toBe(0);
    for (const step of begun.value.walk.route.steps) {
      expect(walked.out).toContain(`Why: ${step.why}`);
      expect(walked.out).toContain(`Watch: ${step.watch}`);
    }
    expect(walked.out).toContain('No. Think again.');
    expect(walked.out).toContain('Nothing of this is in the quality record.');
    const last = events('people/tf.jsonl').at(-1)!;
    expect(last).toMatchObject({ kind: 'walk-ended', complete: true, questionsRight: 0 });
    expect(last.questions).toBeGreaterThan(0);
    expect(tree(join(root, 'logs'))).toEqual(before);
    rmSync(join(root, 'logs/pier-house'), { recursive: true });
  });
  it('every hold of every unit has a question before it', () => {
    for (const unit of ['P01-1', 'P02-1', 'P05-1', 'P06-1', 'P07-1']) {
      const { route, from } = planFor(unit);
      const begun = beginWalk(route, { job: 'pier-house', deck: memoryDeck(route, from.procedure) });
      if (!begun.ok) throw new Error('no route');
      for (const step of route.steps.filter((each) => each.hold)) {
        const question = begun.value.walk.questions.get(step.id);
        expect(question, `${unit} ${step.id}`).toBeDefined();
        expect(question!.answers[question!.right]).toBeDefined();
      }
      expect(stepAt(begun.value.walk)?.id).toBe(route.steps[0]!.id);
      expect(checkAt(begun.value.walk)?.id).toBe(route.steps[0]!.checks[0]!.id);
      expect(questionAt(begun.value.walk)).toBeUndefined();
    }
  });
  it('a check that does not pass says so, with what to watch, and may be answered again', async () => {
    const { out } = await train(
      root,
      ['walk', 'P02-1', '--person', 'ek', '--stage', 'order', '--json'],
      ['no', 'yes', 'end'],
    );
    const says = out.split('\n').map((line) => JSON.parse(line) as { says?: string[] });
    expect(says[1]!.says!.join(' ')).toMatch(/It does not pass\..*Watch: /);
    expect(says[2]!.says![0]).toBe('It passes.');
  });
});

describe('in another language', () => {
  it('somebody who reads German walks and is asked in German, and what was learnt counts in both', async () => {
    const own = tempWorkshop();
    const walked = await train(own, ['walk', 'P02-1', '--person', 'lb', '--stage', 'order'], ['end']);
    expect(walked.out).toContain('Unterlagen des Auftrags lesen');
    expect(walked.out).toContain('Warum: Alles Weitere wird nach diesen Unterlagen gemacht.');
    const asked = await train(own, ['memory', 'P02-1', '--person', 'lb', '--json'], ['1']);
    expect(asked.out).toContain('Der Kunde ändert danach den Auftrag. Was nun?');
    const file = join(own, 'shared/people.yaml');
    writeFileSync(file, readFileSync(file, 'utf8').replace('    language: de\n', ''));
    const english = await train(own, ['memory', 'P02-1', '--person', 'lb', '--json'], []);
    expect(english.out).not.toContain('The customer changes the order after this point. What now?');
    expect(english.out).not.toContain('Der Kunde');
    removeWorkshop(own);
  });
});

describe('sign-off', () => {
  it('takes the PIN on the first line, keeps the chain, and the bench honours it', async () => {
    const give = ['signoff', 'give', 'tf', 'frame-square', '3', '--by', 'ot', '--set', 'w52'];
    const wrong = await train(root, [...give, '--waive', 'Came as a fitter'], ['1111']);
    expect(wrong.code).toBe(1);
    expect(existsSync(join(root, 'practice/signoff.jsonl'))).toBe(false);
    expect(
      await train(root, [
        'signoff',
        'observe',
        'tf',
        'frame-square',
        '--by',
        'jb',
        '--text',
        'Squared P02-1',
      ]),
    ).toMatchObject({ code: 0 });
    expect((await train(root, give, ['2705'])).code).toBe(1);
    expect((await train(root, [...give, '--waive', 'Came as a fitter'], ['2705'])).code).toBe(0);
    const { rules } = demonstration().workshop;
    const now = '2026-03-03T07:00:00.000Z';
    const honoured = rulesWithSignoffs(rules, realDisk, root, now, planFor('P02-1').from.procedure);
    const tf = honoured.ok ? honoured.value.people.find((each) => each.id === 'tf')! : undefined;
    expect(levelOf(tf!, 'frame-square')).toBe(3);
    expect(levelOf(tf!, 'glaze')).toBe(levelOf(rules.people.find((each) => each.id === 'tf')!, 'glaze'));
    const page = await train(root, ['page', 'tf']);
    expect(page.out).toContain('level 3, alone (signed)');
  });
  it('verify finds a changed line, and a damaged journal is not written to', async () => {
    expect((await train(root, ['verify'])).code).toBe(0);
    const path = join(root, 'practice/signoff.jsonl');
    const whole = readFileSync(path, 'utf8');
    expect(verifyChain(whole.trimEnd().split('\n').map(checkLine))).toEqual([]);
    writeFileSync(path, whole.replace('"level":3', '"level":5'));
    const found = await train(root, ['verify']);
    expect(found.code).toBe(1);
    expect(found.out).toMatch(/practice\/signoff\.jsonl:\d+: The line was changed/);
    const refused = await train(root, ['signoff', 'observe', 'tf', 'glaze', '--by', 'jb', '--text', 'x']);
    expect(refused.code).not.toBe(0);
    const honoured = rulesWithSignoffs(
      demonstration().workshop.rules,
      realDisk,
      root,
      '2026-03-03T07:00:00.000Z',
    );
    expect(honoured.ok).toBe(false);
    writeFileSync(path, whole);
    expect((await train(root, ['verify'])).code).toBe(0);
  });
  it('a torn end is set aside and the next line is whole', async () => {
    const path = join(root, 'practice/people/tf.jsonl');
    const whole = readFileSync(path, 'utf8');
    writeFileSync(path, `${whole}{"at":"2026-`);
    await train(root, ['squaring', '--seed', '2', '--person', 'tf'], ['read top', 'snag']);
    expect(readFileSync(path, 'utf8').startsWith(whole)).toBe(true);
    expect(readFileSync(`${path}.torn-1`, 'utf8')).toBe('{"at":"2026-');
    expect((await train(root, ['verify'])).code).toBe(0);
  });
});

describe('work at the bench as evidence', () => {
  it('counts units done with a second name, and what passed at the first answer', () => {
    const own = tempWorkshop();
    const made = realPorts({ workshop: own, clock: () => Date.parse('2026-03-02T07:00:00.000Z') });
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    const ports = made.value;
    expect(ports.open('P02-1').kind).toBe('open');
    const hand = { person: 'tf' };
    const say = (check: string, value: string) =>
      expect(
        ports.act({ do: 'answer', check, value, second: 'jb', confirm: { code: 'jb' } }, hand).kind,
      ).toBe('done');
    say('order.papers/revision', 'no');
    say('order.papers/revision', 'yes');
    say('order.papers/size-basis', 'frame');
    ports.close();
    const shop = TrainingShop.open(own);
    if (!shop.ok) throw new Error(JSON.stringify(shop.problems));
    const { states, warnings } = shop.value.states();
    expect(warnings).toEqual([]);
    const work = workFrom(states);
    expect(workOf(work, 'tf', 'order')).toEqual([
      {
        unit: 'P02-1',
        profileSet: 'w52',
        checks: 2,
        firstPass: 1,
        supervised: true,
        last: '2026-03-02T07:00:00.000Z',
      },
    ]);
    expect(workedAt(work, 'tf', 'glaze')).toEqual([]);
    removeWorkshop(own);
  });
});

describe('used wrongly', () => {
  it.each([
    [[]],
    [['nothing']],
    [['squaring', '--level', '4']],
    [['squaring', '--size', '100x100']],
    [['walk', 'P02-1']],
    [['memory', 'P02-1']],
    [['setout', 'P99-1', 'L1']],
    [['faults', 'P02-1', '--person', 'nobody']],
    [['signoff', 'give', 'tf']],
    [['page', 'zz']],
    [['squaring', '--unknown']],
  ])('%j is 2 with a way out', async (args) => {
    const { code, err } = await train(root, args as string[]);
    expect(code).toBe(2);
    expect(err).toMatch(/\[[a-z]+\.[a-z-]+\]\n {2}\S/);
  });
});
