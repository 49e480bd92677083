/** shared/setups.yaml: set-ups to prove on first-offs before steps may rely on them, and for how long. */
import * as z from 'zod';
import { err, ok, type Problem, type Result, type SourceText } from '../base/problem.js';
import { name, text } from '../base/schemas.js';
import { readYaml } from '../base/yaml.js';
import { instrumentKinds } from '../measure/instruments.js';
import type { LimitsFile } from '../measure/limits.js';
import { QUANTITIES } from '../measure/types.js';
import { FIGURE_UNITS } from '../measure/units.js';
import type { RouteCheck } from '../procedure/types.js';
import { quantityOf } from '../procedure/wanted.js';
import type { Stamp } from '../unit/chain.js';
import type { EventBody, JournalEvent } from '../unit/events.js';
import type { SetupRule } from '../unit/setups.js';
import { isOfShop, ownJournal, readMerged, tried, workshopJournals } from './benchjournals.js';
import { appendChainLog } from './chainlog.js';
import { type Disk, storeProblem } from './disk.js';
import { setupEventWrong } from './readjournal.js';
import { storeWords } from './words.js';

const checkSchema = z.strictObject({
  id: name,
  kind: z.enum(['tick', 'go-no-go', 'number', 'count']),
  ask: text(200).min(1),
  how: text(200).optional(),
  /** number: the expected value; count: the passing count. */
  expect: z.number().optional(),
  /** A reading further than this from `expect` needs confirmation. */
  plausible: z.number().positive().optional(),
  unit: z.enum(FIGURE_UNITS).optional(),
  /** What is measured: an instrument that does not measure it is refused. */
  quantity: z.enum(QUANTITIES).optional(),
  against: z.enum(['deviation', 'value']).default('deviation'),
  limits: z.array(name).default([]),
  instruments: z.array(z.enum(instrumentKinds)).default([]),
});

export const setupsSchema = z.strictObject({
  format: z.literal('pinchrod-setups 1'),
  note: text(600).optional(),
  setups: z.array(
    z.strictObject({
      /** As steps name it: `saw`. */
      id: name.max(30),
      title: text(60).min(1),
      /** Procedure stage whose levels decide who may prove it; level "all" if omitted. */
      stage: name.optional(),
      /** How long a first-off stays valid; if omitted, only an event ends it. */
      minutes: z.number().int().min(1).max(100_000).optional(),
      /** How many steps a first-off stays valid for. */
      uses: z.number().int().min(1).max(1_000_000).optional(),
      checks: z.array(checkSchema).min(1).max(20),
    }),
  ),
});

/** Parses the file. Limits must exist; a number needs one, and a deviation or a count needs an expected value. */
export function parseSetups(source: SourceText, limits: LimitsFile): Result<SetupRule[]> {
  const read = readYaml(source, setupsSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  const problems: Problem[] = [];
  const seen = new Set<string>();
  for (const [i, setup] of value.setups.entries()) {
    if (seen.has(setup.id))
      problems.push(storeProblem('setups.twice', { setup: setup.id }, at(['setups', i, 'id'])));
    seen.add(setup.id);
    const checks = new Set<string>();
    for (const [j, check] of setup.checks.entries()) {
      const place = (key: string) => at(['setups', i, 'checks', j, key]);
      if (checks.has(check.id))
        problems.push(storeProblem('setups.twice/check', { check: check.id, setup: setup.id }, place('id')));
      checks.add(check.id);
      for (const id of check.limits)
        if (!limits.byId.has(id)) problems.push(storeProblem('setups.limit', { id }, place('limits')));
      if (check.kind === 'number' && check.limits.length === 0)
        problems.push(storeProblem('setups.limit/number', { check: check.id }, place('kind')));
      // Without an expected value, any count would pass.
      const expects = check.kind === 'count' || (check.kind === 'number' && check.against === 'deviation');
      if (expects && check.expect === undefined)
        problems.push(storeProblem('setups.expect', { check: check.id }, place('kind')));
    }
  }
  if (problems.length > 0) return err(...problems);
  return ok(
    value.setups.map(({ id, title, stage, minutes, uses, checks }) => ({
      id,
      title,
      checks: checks.map((check) => routeCheck(id, check)),
      ...(stage === undefined ? {} : { stage }),
      ...(minutes === undefined ? {} : { minutes }),
      ...(uses === undefined ? {} : { uses }),
    })),
  );
}

function routeCheck(setup: string, check: z.infer<typeof checkSchema>): RouteCheck {
  const { how, expect, plausible, unit, quantity, instruments } = check;
  const measured = check.kind === 'number' && instruments.length > 0;
  const asked = quantity ?? (measured ? quantityOf(unit ?? 'mm', instruments) : undefined);
  return {
    id: `setup.${setup}/${check.id}`,
    kind: check.kind,
    ask: check.ask,
    limits: check.limits,
    against: check.against,
    instruments: check.instruments,
    rests: [],
    evidence: false,
    safety: false,
    ...(how === undefined ? {} : { how }),
    ...(expect === undefined ? {} : { expect }),
    ...(plausible === undefined ? {} : { plausible }),
    ...(unit === undefined ? {} : { unit }),
    ...(asked === undefined ? {} : { quantity: asked }),
  };
}

// First-offs and what ended them: logs/setups.jsonl, or in a shop one journal a bench. Chained like a unit's.

/** All set-up events of every bench, oldest first; empty if there is no file. */
export const readSetupLog = (disk: Disk, root: string): Result<readonly JournalEvent[]> =>
  tried('logs/setups.jsonl', storeWords('while-journal-read'), () =>
    readMerged<JournalEvent>(disk, root, workshopJournals(disk, root, 'setups'), setupEventWrong),
  );

/** Where a bench writes them, as a path under the workshop. */
export const setupJournalOf = (disk: Disk, root: string, bench: string): string =>
  `${setupLog(disk, root, bench).join('/')}.jsonl`;

const setupLog = (disk: Disk, root: string, bench: string): readonly string[] =>
  ownJournal(disk, root, bench, ['logs', 'setups'], ['setups']);

/** Durable once it returns ok. A first-off in a bench's own journal says whose, and so does its id. */
export function appendSetupLog(
  disk: Disk,
  root: string,
  bodies: readonly EventBody[],
  stamp: Stamp,
): Result<readonly JournalEvent[]> {
  return tried('logs/setups.jsonl', storeWords('while-written-journal'), () => {
    const path = setupLog(disk, root, stamp.bench);
    const own = isOfShop(disk, root) ? { own: stamp.bench } : {};
    return appendChainLog<JournalEvent>(disk, root, { path, wrongWith: setupEventWrong }, stamp, () =>
      bodies.map((body) => (body.kind === 'first-off' ? { ...body, ...own } : body)),
    );
  });
}
