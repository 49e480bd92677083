/**
 * What the squareness calculator takes from the workshop it runs in: limits, instruments, decision rule and units. In a
 * folder that is no workshop it goes on without them.
 */
import { good, type Problem, type Result } from '../ground/problem.js';
import type { SourceText } from '../ground/sourcetext.js';
import { publishedLimits } from '../measure/calculator.js';
import { parseInstruments } from '../measure/instrumentsfile.js';
import type { LimitsFile } from '../measure/limits.js';
import { parseLimits } from '../measure/limitsfile.js';
import type { DecisionRule, Instrument } from '../measure/types.js';
import { realDisk } from '../store/disk.js';
import { parseHouse } from '../store/house.js';
import { readWorkshopFile } from '../store/readfile.js';

export interface SquareWorkshop {
  readonly limits: LimitsFile;
  /** The folder has no limits file, so that only the published ones bind. */
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

/** What the files that are there say; the problems of all that cannot be used. */
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
  return good({
    limits: limits ?? publishedLimits(),
    published: limits === undefined,
    instruments: instruments ?? [],
    rule: house?.rules.decisionRule ?? { kind: 'simple' },
    units: house?.rules.units ?? 'mm',
  });
}
