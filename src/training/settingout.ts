/**
 * Setting-out drill: one light worked out by hand from the profile set. The program checks line by line and shows the
 * first wrong one with its calculation; later lines that depend on it are not counted as errors.
 */
import { mmText } from '../base/formula.js';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { parseReading } from '../measure/units.js';
import type { SetOut, Trace } from '../window/types.js';
import { declined, trainingProblem } from './messages.js';
import { trainSays } from './words.js';

export interface SetOutTask {
  readonly unit: string;
  readonly light: string;
  readonly sentence: string;
  /** Lines to work out, in an order that works. */
  readonly lines: readonly Trace[];
  /** Job numbers and profile set constants that the calculations need; given to the apprentice. */
  readonly given: readonly Trace[];
  /** All other numbers of the unit, for recognising a mixed-up answer. */
  readonly others: readonly Trace[];
}

/** Sizes of a light only; marks and positions belong to the machining stage. */
const SIZES = /^[a-z_]+\.[LD]\d+\.(w|h|diagonal)$/;
const TENTH = 0.05 + 1e-6;

export function setOutTask(setOut: SetOut, lightId: string): Result<SetOutTask> {
  const light = setOut.lights.find((each) => each.id.toLowerCase() === lightId.toLowerCase());
  const known = setOut.lights.map((each) => each.id).join(', ');
  if (!light) return err(trainingProblem('train.no-light', { unit: setOut.unit.id, lightId, known }));
  const all = [...setOut.numbers.values()];
  const lines = all.filter(
    (trace) => trace.formula !== undefined && SIZES.test(trace.name) && trace.name.split('.')[1] === light.id,
  );
  if (lines.length === 0)
    return err(trainingProblem('train.nothing-to-ask/size', { unit: setOut.unit.id, light: light.id }));
  const asked = new Set(lines.map((line) => line.name));
  const given = new Map<string, Trace>();
  const collect = (trace: Trace): void => {
    for (const part of trace.of) {
      if (asked.has(part.name) || given.has(part.name)) continue;
      given.set(part.name, part);
    }
  };
  lines.forEach(collect);
  return ok({
    unit: setOut.unit.id,
    light: light.id,
    sentence: light.sentence,
    lines,
    given: [...given.values()],
    others: all.filter((trace) => !asked.has(trace.name)),
  });
}

type LineMark = 'right' | 'wrong' | 'rests-on-wrong' | 'missing';

export interface SetOutCheck {
  readonly lines: readonly { readonly name: string; readonly mark: LineMark; readonly given?: number }[];
  readonly right: number;
  /** The first wrong line, its calculation, and the likely slips. */
  readonly firstWrong?: { readonly trace: Trace; readonly given: number; readonly slips: readonly string[] };
  readonly passed: boolean;
}

/** Compares worked lines (mm, by name) with the set-out, to a tenth of a millimetre. */
export function checkSetOut(task: SetOutTask, worked: ReadonlyMap<string, number>): SetOutCheck {
  let firstWrong: SetOutCheck['firstWrong'];
  const lines = task.lines.map((trace): SetOutCheck['lines'][number] => {
    const { name } = trace;
    const given = worked.get(name);
    if (given === undefined) return { name, mark: 'missing' };
    if (Math.abs(given - trace.value) <= TENTH) return { name, mark: 'right', given };
    if (firstWrong && restsOn(trace, firstWrong.trace.name)) return { name, mark: 'rests-on-wrong', given };
    firstWrong ??= { trace, given, slips: likelySlips(task, trace, given) };
    return { name, mark: 'wrong', given };
  });
  const right = lines.filter((line) => line.mark === 'right').length;
  return { lines, right, ...(firstWrong ? { firstWrong } : {}), passed: right === lines.length };
}

/** `glass.L1.w 812,5` or `glass.L1.w = 812.5`; the number alone stands for the `next` line. */
export function parseSetOutLine(
  task: SetOutTask,
  line: string,
  next: string | undefined,
): { readonly name: string; readonly value: number } | { readonly problem: Problem } {
  const [first = '', ...rest] = line.trim().split(/[\s=]+/);
  const named = task.lines.find((trace) => trace.name.toLowerCase() === first.toLowerCase());
  const name = named?.name ?? (rest.length === 0 ? next : undefined);
  const text = named ? rest.join(' ') : first;
  const value = parseReading(text, { unit: 'mm' });
  if (name === undefined) return declined('train.action/names', { line: line.trim() });
  return value.ok ? { name, value: value.value } : { problem: value.problem };
}

function restsOn(trace: Trace, name: string, deep = 0): boolean {
  return deep < 40 && trace.of.some((part) => part.name === name || restsOn(part, name, deep + 1));
}

/** Likely causes of a wrong number: another number of the unit, a constant left out or doubled, two digits swapped. */
export function likelySlips(task: SetOutTask, trace: Trace, given: number): string[] {
  const near = (a: number, b: number) => Math.abs(a - b) <= TENTH;
  const slips: string[] = [];
  const mixed = [...task.lines, ...task.others].filter(
    (other) => other.name !== trace.name && other.unit === trace.unit && near(other.value, given),
  );
  for (const other of mixed.slice(0, 2)) slips.push(trainSays('card-of-other', { other: other.name }));
  const off = given - trace.value;
  for (const part of trace.of) {
    if (part.formula !== undefined || part.value === 0) continue;
    const size = Math.abs(part.value);
    if (near(Math.abs(off), size))
      slips.push(trainSays('off-left-out', { part: part.name, size: mmText(size) }));
    else if (near(Math.abs(off), 2 * size))
      slips.push(trainSays('off-twice-left', { part: part.name, size: mmText(size) }));
  }
  const digits = mmText(given);
  for (let i = 1; i < digits.length; i++) {
    const swapped = digits.slice(0, i - 1) + digits[i]! + digits[i - 1]! + digits.slice(i + 1);
    if (swapped !== digits && near(Number(swapped), trace.value))
      slips.push(trainSays('two-digits-swapped', { swapped }));
  }
  return [...new Set(slips)];
}

export function setOutTaskText(task: SetOutTask): string[] {
  return [
    trainSays('set-out-light', { light: task.light, unit: task.unit, sentence: task.sentence }),
    trainSays('you-have'),
    ...task.given.map(
      (trace) => `  ${trace.name} = ${mmText(trace.value)}${trace.source ? ` (${trace.source.text})` : ''}`,
    ),
    trainSays('work-out-mm'),
    ...task.lines.map((trace) => `  ${trace.name}`),
  ];
}

/** Result text: the first wrong line with its trace. */
export function setOutCheckText(check: SetOutCheck): string[] {
  const out = [trainSays('lines-right', { right: check.right, count: check.lines.length })];
  if (check.firstWrong) {
    const { trace, given, slips } = check.firstWrong;
    out.push(
      trainSays('first-wrong-line', { trace: trace.name, given: mmText(given), trace2: mmText(trace.value) }),
    );
    out.push(...traceLines(trace), ...slips);
    const spared = check.lines.filter((line) => line.mark === 'rests-on-wrong');
    if (spared.length > 0)
      out.push(trainSays('these-rest-so', { spared: spared.map((line) => line.name).join(', ') }));
  }
  const missing = check.lines.filter((line) => line.mark === 'missing').map((line) => line.name);
  if (missing.length > 0) out.push(trainSays('not-worked', { missing: missing.join(', ') }));
  return out;
}

/** A number's calculation, and below it each of its inputs. */
function traceLines(trace: Trace): string[] {
  return [
    `  ${trace.name} = ${trace.formula ?? ''}`,
    `  ${' '.repeat(trace.name.length)} = ${trace.filled ?? ''} = ${mmText(trace.value)}`,
    ...trace.of.map(
      (part) =>
        `    ${part.name} ${mmText(part.value)}${part.formula === undefined ? ` (${part.source?.text ?? 'given'})` : ` = ${part.filled ?? part.formula}`}`,
    ),
  ];
}
