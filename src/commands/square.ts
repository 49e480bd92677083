/** `pinchrod square`: the squareness calculator for any frame. */
import { parseArgs } from 'node:util';
import {
  ok,
  type Problem,
  problemFactory,
  problemTold,
  type Result,
  type SourceText,
} from '../base/problem.js';
import { applicableLimits, publishedLimits, squareReport } from '../measure/calculator.js';
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
import { parseReading, readingOf } from '../measure/units.js';
import { parseHouse } from '../store/company.js';
import { realDisk } from '../store/disk.js';
import { readWorkshopFile } from '../store/filecollection.js';
import { asJson, asLines, EXIT, fail, type Io, saying } from './io.js';
import { squareText } from './squaretext.js';
import { MAKING_SAYS } from './words/making.js';

const raise = problemFactory(MEASURE_MESSAGES);

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
} as const;

export async function run(args: string[], io: Io): Promise<number> {
  let given: ReturnType<typeof parsed>;
  try {
    given = parsed(args);
  } catch (error) {
    return fail(
      io,
      [
        raise('measure.square-argument', {
          fault: (error as Error).message.split('\n')[0]!.replace(/\.?$/, '.'),
        }),
      ],
      EXIT.badInput,
    );
  }
  const read = squareWorkshop(io.workshop);
  if (!read.ok) return fail(io, read.problems, EXIT.badInput);
  const shop = read.value;
  if (shop.published) io.err(saying(io, MAKING_SAYS)('square-published'));
  const problems: Problem[] = [];
  const instrument =
    given.instrument === undefined ? undefined : pickInstrument(given.instrument, shop, io, problems);
  const rule = given.rule === undefined ? shop.rule : ruleOf(given.rule, problems);
  // Readings from an instrument that shows inches are typed in inches, as at the bench.
  const own = instrument?.unit === 'inch' ? 'inch' : shop.units;
  const unit = given.unit === undefined ? own : unitOf(given.unit, problems);
  const nominal = given.nominal === undefined ? undefined : nominalOf(given.nominal, unit, problems);
  const readings = readingsOf(given, unit, instrument, problems);
  const count = Object.keys(readings).length;
  if (problems.length === 0 && count < 5 && !(readings.bl_tr && readings.br_tl))
    problems.push(raise(count === 0 ? 'measure.square-too-few/none' : 'measure.square-too-few'));
  const set = { file: shop.limits, readings, ...(nominal ? { nominal } : {}) };
  const limits = given.limits?.split(',').map((id) => id.trim()) ?? applicableLimits(set);
  if (problems.length === 0 && limits.length === 0) problems.push(raise('measure.square-argument/limits'));
  if (problems.length > 0) return fail(io, problems, EXIT.badInput);

  const report = squareReport({
    ...set,
    limits,
    rule,
    instruments: shop.instruments,
    wanted: { quantity: 'length', unit: 'mm', kinds: [] },
    now: new Date().toISOString(),
    ...(instrument ? { instrument } : {}),
    ...(given.cured ? { cured: true } : {}),
    ...(given.confirmed ? { confirmed: true } : {}),
  });
  if (given.json) io.out(asJson(report.json, 2));
  else
    io.out(
      asLines([
        ...(instrument
          ? [saying(io, MAKING_SAYS)('square-with', { instrument: instrumentText(instrument) })]
          : []),
        ...squareText(report.judgement, { ...(nominal ? { nominal } : {}), ascii: given.ascii === true }, io),
      ]),
    );
  // A pass by readings that may be read wrongly is none yet.
  const { verdict, question } = report.json;
  return verdict === 'pass' && question === null ? EXIT.done : EXIT.doesNotHold;
}

const parsed = (args: string[]) =>
  parseArgs({ args, options: OPTIONS, allowPositionals: false, strict: true }).values;

function readingsOf(
  given: ReturnType<typeof parsed>,
  unit: Unit,
  instrument: Instrument | undefined,
  problems: Problem[],
): Partial<Record<SquareKey, Reading[]>> {
  const readings: Partial<Record<SquareKey, Reading[]>> = {};
  for (const key of SQUARE_KEYS)
    for (const raw of given[key.replace('_', '-') as 'top'] ?? []) {
      const read = readingOf(raw, { unit, ...(instrument ? { instrument } : {}) });
      if (!read.ok) problems.push(read.problem);
      else if (read.reading.value <= 0)
        problems.push(raise('measure.square-argument/length', { side: key.replace('_', '-') }));
      else readings[key] = [...(readings[key] ?? []), read.reading];
    }
  return readings;
}

function pickInstrument(
  id: string,
  { instruments }: SquareWorkshop,
  io: Io,
  problems: Problem[],
): Instrument | undefined {
  const found = findInstrument(instruments, id);
  if (!found) problems.push(raise('measure.square-argument/instrument', { id }));
  const overdue = found && overdueProblem(found, new Date().toISOString());
  if (overdue) io.err(problemTold(overdue, io.reader?.tell));
  return found;
}

type Unit = 'mm' | 'inch';

function unitOf(text: string, problems: Problem[]): Unit {
  if (text === 'mm' || text === 'inch') return text;
  problems.push(raise('measure.square-argument/unit', { given: text }));
  return 'mm';
}

function ruleOf(text: string, problems: Problem[]): DecisionRule {
  const parts = /^guarded(?::(\d(?:\.\d{1,3})?))?$/.exec(text);
  if (parts) return { kind: 'guarded', factor: Number(parts[1] ?? 1) };
  if (text !== 'simple') problems.push(raise('measure.square-argument/rule', { given: text }));
  return { kind: 'simple' };
}

/** Width and height, written like readings: `1200x1500`, `39 3/8 x 47 1/4`. */
function nominalOf(text: string, unit: Unit, problems: Problem[]): Nominal | undefined {
  const parts = text.split(/[xX×]/).map((part) => parseReading(part, { unit }));
  const [w, h] = parts.map((part) => (part.ok ? part.value : 0));
  if (parts.length === 2 && w! > 0 && h! > 0) return { w: w!, h: h! };
  problems.push(raise('measure.square-argument/nominal', { given: text }));
  return undefined;
}

// Workshop settings: limits, instruments, decision rule and units. Optional, so any other folder works too.

export interface SquareWorkshop {
  readonly limits: LimitsFile;
  /** The folder has no limits file, so only the published limits apply. */
  readonly published: boolean;
  readonly instruments: readonly Instrument[];
  readonly rule: DecisionRule;
  readonly units: 'mm' | 'inch';
}

const FILES = {
  limits: 'shared/limits.yaml',
  instruments: 'shared/instruments.yaml',
  house: 'shared/workshop.yaml',
} as const;

/** Reads the files that exist; returns the problems of all that cannot be used. */
export function squareWorkshop(root: string): Result<SquareWorkshop> {
  const problems: Problem[] = [];
  const read = <T>(file: string, parse: (source: SourceText) => Result<T>): T | undefined => {
    const source = readWorkshopFile(realDisk, root, file);
    if (!source.ok && source.problems[0]?.id === 'workshop.missing') return undefined;
    const result = source.ok ? parse(source.value) : source;
    if (!result.ok) problems.push(...result.problems);
    return result.ok ? result.value : undefined;
  };
  const limits = read(FILES.limits, parseLimits);
  const instruments = read(FILES.instruments, parseInstruments);
  const house = read(FILES.house, parseHouse);
  if (problems.length > 0) return { ok: false, problems };
  return ok({
    limits: limits ?? publishedLimits(),
    published: limits === undefined,
    instruments: instruments ?? [],
    rule: house?.rules.decisionRule ?? { kind: 'simple' },
    units: house?.rules.units ?? 'mm',
  });
}
