/** `pinchrod square`: the squareness calculator for any frame. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { type Problem, problemText, type Result, raiser } from '../ground/problem.js';
import { publishedLimits, squareReport } from '../measure/calculator.js';
import { findInstrument, instrumentText, overdueProblem, parseInstruments } from '../measure/instruments.js';
import { type LimitsFile, parseLimits } from '../measure/limits.js';
import { MEASURE_MESSAGES } from '../measure/messages.js';
import type { Nominal } from '../measure/square.js';
import {
  type DecisionRule,
  type Instrument,
  type Reading,
  SQUARE_KEYS,
  type SquareKey,
} from '../measure/types.js';
import { readingOf } from '../measure/units.js';
import { EXIT, type Io } from './io.js';

const raise = raiser(MEASURE_MESSAGES);

const HELP = `pinchrod square [--top L] [--bottom L] [--left L] [--right L] --bl-tr L --br-tl L

What a frame's sides and diagonals say of its shape. Left and right as seen from outside; lengths in mm with point or
comma. Two diagonals are enough for their difference, two sizes more for the racking; all six check one another.
Give an option again for a repeat.

  --instrument ID     instrument of shared/instruments.yaml: its offset is added, its uncertainty used
  --nominal WxH       nominal size, for size errors
  --limits A,B        ids in shared/limits.yaml (without it: the frame's)
  --rule RULE         simple (without it), guarded (w = U), or guarded:0.83 (w = 0.83 U)
  --unit inch         inches and fractions: --top '39 3/8'
  --cured             the corners have set: nothing is to be forced
  --confirmed         the readings were taken again and stand
  --ascii             draw with plain characters
  --json              figures as JSON

Example:
  pinchrod square --top 1201 --bottom 1200 --left 1499.5 --right 1500.5 --bl-tr 1922 --br-tl 1919 --nominal 1200x1500

Exit codes: 0 it holds, 1 it does not or is not proven, 2 used wrongly or bad input.`;

const OPTIONS = {
  top: { type: 'string', multiple: true },
  bottom: { type: 'string', multiple: true },
  left: { type: 'string', multiple: true },
  right: { type: 'string', multiple: true },
  'bl-tr': { type: 'string', multiple: true },
  'br-tl': { type: 'string', multiple: true },
  instrument: { type: 'string' },
  nominal: { type: 'string' },
  limits: { type: 'string' },
  rule: { type: 'string' },
  unit: { type: 'string' },
  cured: { type: 'boolean' },
  confirmed: { type: 'boolean' },
  ascii: { type: 'boolean' },
  json: { type: 'boolean' },
  help: { type: 'boolean', short: 'h' },
} as const;

export async function run(args: string[], io: Io): Promise<number> {
  let given: ReturnType<typeof parsed>;
  try {
    given = parsed(args);
  } catch (error) {
    return refuse(io, [argument((error as Error).message.split('\n')[0]!.replace(/\.?$/, '.'))]);
  }
  if (given.help) {
    io.out(HELP);
    return EXIT.done;
  }
  const problems: Problem[] = [];
  const instruments = given.instrument === undefined ? [] : (readInstruments(io, problems) ?? []);
  const instrument =
    given.instrument === undefined ? undefined : pickInstrument(given.instrument, instruments, io, problems);
  const limits = readLimits(io, problems);
  const rule = ruleOf(given.rule, problems);
  const unit = given.unit === undefined || given.unit === 'mm' ? 'mm' : given.unit;
  if (unit !== 'mm' && unit !== 'inch') problems.push(argument(`--unit takes mm or inch, not "${unit}".`));
  const nominal = given.nominal === undefined ? undefined : nominalOf(given.nominal, problems);
  const readings: Partial<Record<SquareKey, Reading[]>> = {};
  for (const key of SQUARE_KEYS)
    for (const raw of given[key.replace('_', '-') as 'top'] ?? []) {
      const read = readingOf(raw, {
        unit: unit === 'inch' ? 'inch' : 'mm',
        ...(instrument ? { instrument } : {}),
      });
      if (!read.ok) problems.push(read.problem);
      else if (read.reading.value <= 0)
        problems.push(argument(`${key.replace('_', '-')} must be more than zero.`));
      else readings[key] = [...(readings[key] ?? []), read.reading];
    }
  const count = Object.keys(readings).length;
  if (problems.length === 0 && count < 5 && !(readings.bl_tr && readings.br_tl))
    problems.push(
      raise('measure.square-too-few', `${count === 0 ? 'No readings were' : 'Too few readings were'} given.`),
    );
  if (problems.length > 0) return refuse(io, problems);

  const report = squareReport({
    readings,
    file: limits!,
    rule: rule!,
    ...(nominal ? { nominal } : {}),
    instruments,
    kinds: ['tape', 'rule', 'trammel', 'calliper'],
    now: new Date().toISOString(),
    ...(instrument ? { instrument } : {}),
    ...(given.limits === undefined ? {} : { limits: given.limits.split(',').map((id) => id.trim()) }),
    ...(given.cured ? { cured: true } : {}),
    ...(given.confirmed ? { confirmed: true } : {}),
    ...(given.ascii ? { ascii: true } : {}),
  });
  if (given.json) io.out(JSON.stringify(report.json, null, 2));
  else
    io.out([...(instrument ? [`Read with ${instrumentText(instrument)}.`] : []), ...report.lines].join('\n'));
  return report.json.verdict === 'pass' ? EXIT.done : EXIT.doesNotHold;
}

const parsed = (args: string[]) =>
  parseArgs({ args, options: OPTIONS, allowPositionals: false, strict: true }).values;

const argument = (text: string): Problem => raise('measure.square-argument', text);

function refuse(io: Io, problems: readonly Problem[]): number {
  for (const problem of problems) io.err(problemText(problem));
  return EXIT.badInput;
}

/** A workshop's file, or undefined where there is none. */
function shared(io: Io, name: string): { file: string; text: string } | undefined {
  try {
    return { file: `shared/${name}`, text: readFileSync(join(io.workshop, 'shared', name), 'utf8') };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}

function readLimits(io: Io, problems: Problem[]): LimitsFile | undefined {
  const source = shared(io, 'limits.yaml');
  if (!source) {
    io.err('There is no shared/limits.yaml here: held against the published limits only.');
    return publishedLimits();
  }
  return taken(parseLimits(source), problems);
}

function readInstruments(io: Io, problems: Problem[]): readonly Instrument[] | undefined {
  const source = shared(io, 'instruments.yaml');
  return source ? taken(parseInstruments(source), problems) : [];
}

function pickInstrument(
  id: string,
  instruments: readonly Instrument[],
  io: Io,
  problems: Problem[],
): Instrument | undefined {
  const found = findInstrument(instruments, id);
  if (!found && problems.length === 0)
    problems.push(argument(`The instrument "${id}" is not in shared/instruments.yaml.`));
  const overdue = found && overdueProblem(found, new Date().toISOString());
  if (overdue) io.err(problemText(overdue));
  return found;
}

function taken<T>(result: Result<T>, problems: Problem[]): T | undefined {
  if (result.ok) return result.value;
  problems.push(...result.problems);
  return undefined;
}

function ruleOf(text: string | undefined, problems: Problem[]): DecisionRule | undefined {
  if (text === undefined || text === 'simple') return { kind: 'simple' };
  const parts = /^guarded(?::(\d(?:\.\d{1,3})?))?$/.exec(text);
  if (parts) return { kind: 'guarded', factor: Number(parts[1] ?? 1) };
  problems.push(argument(`--rule takes simple, guarded or guarded:0.83, not "${text}".`));
  return undefined;
}

function nominalOf(text: string, problems: Problem[]): Nominal | undefined {
  const parts = /^(\d{1,5}(?:[.,]\d{1,2})?)\s*[xX×]\s*(\d{1,5}(?:[.,]\d{1,2})?)$/.exec(text.trim());
  const [w, h] = [parts?.[1], parts?.[2]].map((part) => Number(part?.replace(',', '.')));
  if (parts && w! > 0 && h! > 0) return { w: w!, h: h! };
  problems.push(argument(`--nominal takes a width and a height, such as 1200x1500, not "${text}".`));
  return undefined;
}
