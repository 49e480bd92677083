/**
 * Each drill, the walk and the memory played in a real terminal with the built program: the keys of somebody who knows the
 * answers, and of somebody who types nonsense, thinks better of it, and pulls the window about. Without a terminal or a
 * build each test says why it was passed over.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeAll, describe, expect, it, type TestContext } from 'vitest';
import { actFaults, beginFaults, offers, openStep } from '../../src/training/faultfinding.js';
import { memoryDeck, memoryPlan, shownAnswers } from '../../src/training/memory.js';
import { setOutTask } from '../../src/training/settingout.js';
import { actSquaring } from '../../src/training/squaring/act.js';
import { beginSquaring } from '../../src/training/squaring/begin.js';
import { OPEN_MINUTES, squaringLimits } from '../../src/training/squaring/model.js';
import { parseSquaring, squaringTask } from '../../src/training/squaring/words.js';
import { findPty, freshWorkshop, Terminal } from '../tui/terminal.js';
import { perfectPlayer } from './perfectplayer.js';
import { demonstration, planFor } from './shop.js';

const ESC = '\x1b';
let found: Awaited<ReturnType<typeof findPty>>;
beforeAll(async () => {
  found = await findPty();
});
const leave: (() => void)[] = [];
afterEach(() => {
  for (const each of leave.splice(0).reverse()) each();
});

interface Played {
  readonly terminal: Terminal;
  readonly folder: string;
  /** Kinds of what stands in the person's practice journal. */
  readonly kept: (person: string) => { kind: string; passed?: boolean; right?: boolean }[];
}

function play(context: TestContext, args: readonly string[], columns = 110, rows = 30): Played {
  if ('skip' in found) {
    console.warn(`passed over: ${found.skip}`);
    context.skip(found.skip);
    throw new Error('skipped');
  }
  const { folder, remove } = freshWorkshop();
  const terminal = new Terminal(found.pty, { folder, columns, rows, args: ['train', ...args] });
  leave.push(remove, () => terminal.close());
  return {
    terminal,
    folder,
    kept: (person) => {
      const file = join(folder, 'practice/people', `${person}.jsonl`);
      if (!existsSync(file)) return [];
      return readFileSync(file, 'utf8')
        .split('\n')
        .filter((line) => line !== '')
        .map((line) => JSON.parse(line) as { kind: string });
    },
  };
}

/** Nonsense, a line taken back, Esc asked about and thought better of, and two other sizes: the drill stands as before. */
async function troubled(terminal: Terminal, nonsense: string, says: string): Promise<void> {
  await terminal.until('PRACTICE');
  await terminal.say(`${nonsense}\r`, says);
  await terminal.say('half a li', '> half a li');
  terminal.send(ESC);
  await terminal.until((text) => !/> half a li *$/m.test(text));
  await terminal.say(ESC, 'Esc again leaves');
  await terminal.say('x', '> x');
  terminal.send('\x7f');
  await terminal.until((text) => !text.includes('Esc again leaves'));
  for (const [columns, rows] of [
    [80, 24],
    [140, 45],
    [110, 30],
  ] as const) {
    terminal.resize(columns, rows);
    await terminal.until((text) => {
      const lines = text.split('\n');
      return (
        lines[1] === '─'.repeat(columns) &&
        lines[rows - 4] === '─'.repeat(columns) &&
        lines[rows - 2]!.includes('Esc leave') &&
        lines[rows - 1] === ''
      );
    });
  }
  await terminal.say('help\r', '> help');
}

/** The drill is over: Enter leaves the screen, the score stands on the ordinary one. */
async function over(terminal: Terminal, code: number, score: string | RegExp): Promise<void> {
  await terminal.until('It is over.');
  expect(terminal.isAlternate()).toBe(true);
  terminal.send('\r');
  expect(await terminal.ended()).toEqual({ code, signal: 0 });
  expect(terminal.isAlternate()).toBe(false);
  await terminal.until(score);
}

describe('the drills in a terminal', () => {
  it('squaring: played to the end by somebody who sees only what is said', async (context) => {
    const limits = squaringLimits(demonstration().workshop.limits);
    let drill = beginSquaring({ seed: 11, level: 2, limits });
    const lines: string[] = [];
    perfectPlayer({
      task: squaringTask(drill),
      nominal: drill.nominal,
      limits,
      type: (line) => {
        lines.push(line);
        const parsed = parseSquaring(line);
        if ('problem' in parsed) throw new Error(parsed.problem.text);
        drill = actSquaring(drill, parsed.action);
        return drill.log.at(-1)!.says;
      },
      minutesLeft: () => OPEN_MINUTES - drill.minute,
      over: () => drill.ended !== undefined,
    });
    const { terminal, kept } = play(context, ['squaring', '--seed', '11', '--level', '2', '--person', 'tf']);
    await troubled(terminal, 'push it a bit', '[train.action]');
    terminal.send(lines.map((line) => `${line}\r`).join(''));
    await over(terminal, 0, 'of 100 points');
    expect(kept('tf').at(-1)).toMatchObject({ kind: 'drilled', drill: 'squaring', passed: true });
  });

  it('squaring: left by Esc, twice, it is not passed', async (context) => {
    const { terminal, kept } = play(context, ['squaring', '--seed', '11', '--person', 'tf']);
    await terminal.until('PRACTICE');
    await terminal.say('read top\r', '> read top');
    await terminal.say(ESC, 'Esc again leaves');
    terminal.send(ESC);
    expect(await terminal.ended()).toEqual({ code: 1, signal: 0 });
    expect(terminal.isAlternate()).toBe(false);
    expect(kept('tf').at(-1)).toMatchObject({ kind: 'drilled', passed: false });
  });

  it('setting out: a wrong line is shown with its sum, then put right', async (context) => {
    const task = setOutTask(planFor('P01-1').setOut, 'L1');
    if (!task.ok) throw new Error('no task');
    const { terminal, kept } = play(context, ['setout', 'P01-1', 'L1', '--person', 'tf']);
    await troubled(terminal, 'about a metre', '[train.action]');
    const [first, ...rest] = task.value.lines;
    await terminal.say(`${first!.value + 10}\r`, `> ${first!.value + 10}`);
    await terminal.say('check\r', first!.name);
    terminal.send(`${first!.name} ${first!.value}\r`);
    terminal.send(rest.map(({ name, value }) => `${name} ${value}\r`).join(''));
    terminal.send('done\r');
    await over(terminal, 0, '90 of 100 points.');
    expect(kept('tf').at(-1)).toMatchObject({ kind: 'drilled', drill: 'setout', passed: true });
  });

  it('fault finding: each fault is named with its cause', async (context) => {
    const { route } = planFor('P01-1');
    const made = beginFaults(route, { seed: 5, faults: 2 });
    if (!made.ok) throw new Error('no drill');
    let drill = made.value;
    const lines: string[] = [];
    for (const step of drill.hidden) {
      lines.push(`name ${step}`);
      const named = actFaults(drill, { do: 'name', step });
      if ('problem' in named) throw new Error(named.problem.text);
      drill = named.drill;
      const choice = offers(drill, openStep(drill)!).indexOf(openStep(drill)!.watch) + 1;
      lines.push(String(choice));
      const told = actFaults(drill, { do: 'why', choice });
      if (!('problem' in told)) drill = told.drill;
    }
    const { terminal, kept } = play(context, [
      'faults',
      'P01-1',
      '--seed',
      '5',
      '--faults',
      '2',
      '--person',
      'tf',
    ]);
    await troubled(terminal, 'check it all', '[train.action]');
    await terminal.say('list\r', 'dispatch.stillage/picture');
    await terminal.say(`check ${drill.noticed[0]!.check}\r`, /does\s+not\s+hold\./);
    terminal.send(lines.map((line) => `${line}\r`).join(''));
    await over(terminal, 0, '2 of 2 faults found');
    expect(kept('tf').at(-1)).toMatchObject({ kind: 'drilled', drill: 'faults', passed: true });
  });

  it('a walk: why, watch and caution are open, a wrong answer is explained, and it ends where it stands', async (context) => {
    const { route } = planFor('P01-1');
    const step = route.steps.find(({ stage }) => stage === 'saw')!;
    const { terminal, kept } = play(context, ['walk', 'P01-1', '--stage', 'saw', '--person', 'tf']);
    await terminal.until(`Why: ${step.why.slice(0, 30)}`);
    await terminal.until('Watch: ');
    await terminal.until('Caution: ');
    await troubled(terminal, 'perhaps', '[');
    await terminal.say('no\r', 'It does not pass.');
    terminal.send('yes\r');
    await terminal.until('Before the hold:');
    const wrong = step.question!.right === 0 ? 2 : 1;
    await terminal.say(`${wrong}\r`, 'No. Think again.');
    terminal.send(`${step.question!.right + 1}\r`);
    await over(terminal, 0, 'Nothing of this is in the quality record.');
    expect(kept('tf').at(-1)).toMatchObject({ kind: 'walk-ended', steps: 1, complete: true });
  });

  it('the memory: answers are kept one by one, and the sitting goes on another day', async (context) => {
    const { route, from } = planFor('P01-1');
    const deck = memoryDeck(route, from.procedure);
    const { cards } = memoryPlan(deck, [], '2026-11-24T08:00:00.000Z', { minutes: 5 });
    const { terminal, kept } = play(context, ['memory', 'P01-1', '--person', 'tf']);
    await terminal.until(cards[0]!.ask.slice(0, 40));
    await troubled(terminal, '9', 'There is no answer "9".');
    const right = (i: number) => shownAnswers(cards[i]!, 0).indexOf(cards[i]!.right) + 1;
    await terminal.say(`${right(0)}\r`, 'Right.');
    await terminal.say(`${(right(1) % 3) + 1}\r`, 'No: ');
    expect(kept('tf').slice(1)).toMatchObject([
      { kind: 'reviewed', right: true },
      { kind: 'reviewed', right: false },
    ]);
    terminal.send(
      cards
        .slice(2)
        .map((_, i) => `${right(i + 2)}\r`)
        .join(''),
    );
    await over(terminal, 0, `${cards.length - 1} of ${cards.length} right.`);
    expect(kept('tf').length).toBe(cards.length + 1);
  });

  it('a signal gives the terminal back', async (context) => {
    const { terminal } = play(context, ['squaring', '--seed', '3']);
    await terminal.until('PRACTICE');
    terminal.kill('SIGTERM');
    await terminal.ended();
    expect(terminal.isAlternate()).toBe(false);
  });
});
