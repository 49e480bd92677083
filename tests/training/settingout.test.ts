/** The setting-out drill on the demonstration's own units. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkSetOut,
  likelySlips,
  parseSetOutLine,
  setOutCheckText,
  setOutTask,
  setOutTaskText,
} from '../../src/training/settingout.js';
import type { Trace } from '../../src/window/types.js';
import { planFor } from './shop.js';

const { setOut } = planFor('P02-1');
const made = setOutTask(setOut, 'l1');
if (!made.ok) throw new Error(JSON.stringify(made.problems));
const task = made.value;
const right = () => new Map(task.lines.map((line) => [line.name, line.value]));
const restsOn = (trace: Trace, name: string): boolean =>
  trace.of.some((part) => part.name === name || restsOn(part, name));

describe('the setting-out drill', () => {
  it('asks for the sizes of the light, and gives what they are made from', () => {
    const names = task.lines.map((line) => line.name);
    expect(names).toEqual(expect.arrayContaining(['sight.L1.w', 'sash.L1.h', 'glass.L1.w']));
    expect(names.every((name) => /^[a-z_]+\.L1\.(w|h|diagonal)$/.test(name))).toBe(true);
    // Nothing that is asked for is given away, and every sum can be done from what is given or worked before.
    const known = new Set(task.given.map((trace) => trace.name));
    for (const name of names) expect(known.has(name)).toBe(false);
    for (const line of task.lines)
      for (const part of line.of)
        expect(known.has(part.name) || names.includes(part.name), `${line.name}: ${part.name}`).toBe(true);
    expect(setOutTaskText(task).join('\n')).not.toMatch(/glass\.L1\.w = /);
  });

  it('takes every line that is right to a tenth', () => {
    const check = checkSetOut(task, new Map([...right()].map(([name, value]) => [name, value + 0.05])));
    expect(check.passed).toBe(true);
    expect(check.firstWrong).toBeUndefined();
  });

  it('shows the first wrong line with its trace, and spares what rests on it', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.nat(task.lines.length - 1), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 1, max: 40 }),
        (wrong, off) => {
          const worked = right();
          for (const i of wrong) worked.set(task.lines[i]!.name, task.lines[i]!.value + off);
          const check = checkSetOut(task, worked);
          const first = task.lines[Math.min(...wrong)]!;
          expect(check.firstWrong?.trace.name).toBe(first.name);
          for (const i of wrong) {
            const line = task.lines[i]!;
            const mark = check.lines[i]!.mark;
            if (line === first) expect(mark).toBe('wrong');
            else expect(mark).toBe(restsOn(line, first.name) ? 'rests-on-wrong' : 'wrong');
          }
          const text = setOutCheckText(check).join('\n');
          expect(text).toContain(`First wrong line: ${first.name}`);
          expect(text).toContain(first.filled!);
          expect(check.passed).toBe(false);
        },
      ),
      { seed: 75, numRuns: 100 },
    );
  });

  it('tells a width from a height, and a constant left out on both sides', () => {
    const w = task.lines.find((line) => line.name === 'glass.L1.w')!;
    const h = task.lines.find((line) => line.name === 'glass.L1.h')!;
    expect(likelySlips(task, w, h.value)).toContain('That is glass.L1.h.');
    const constant = w.of.find((part) => part.formula === undefined && part.value !== 0)!;
    expect(likelySlips(task, w, w.value + 2 * constant.value).join(' ')).toContain(constant.name);
  });

  it('reads a name and a number, or the number alone for the next line', () => {
    expect(parseSetOutLine(task, 'GLASS.L1.W = 812,5', undefined)).toEqual({
      name: 'glass.L1.w',
      value: 812.5,
    });
    expect(parseSetOutLine(task, '812', 'glass.L1.w')).toEqual({ name: 'glass.L1.w', value: 812 });
    expect(parseSetOutLine(task, 'glass.L9.w 12', undefined)).toHaveProperty('problem');
  });

  it('names the lights there are', () => {
    const none = setOutTask(setOut, 'L7');
    expect(!none.ok && none.problems[0]).toMatchObject({ id: 'train.no-light', todo: 'Its lights are: L1.' });
  });
});
