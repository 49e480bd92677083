/** shared/setups.yaml: which set-ups are proven on first-off pieces before steps may rely on them, and for how long. */
import * as z from 'zod';
import { err, ok, type Problem, type Result, type SourceText } from '../base/problem.js';
import { name, text } from '../base/schemas.js';
import { readYaml } from '../base/yaml.js';
import { instrumentKinds } from '../measure/instruments.js';
import type { LimitsFile } from '../measure/limits.js';
import type { RouteCheck } from '../procedure/types.js';
import type { Stamp } from '../unit/chain.js';
import type { EventBody, JournalEvent } from '../unit/events.js';
import type { SetupRule } from '../unit/setups.js';
import { appendChainLog, readChainLog } from './chainlog.js';
import { type Disk, storeProblem } from './disk.js';
import { eventWrong } from './readjournal.js';

const checkSchema = z.strictObject({
  id: name,
  kind: z.enum(['tick', 'go-no-go', 'number', 'count']),
  ask: text(200).min(1),
  how: text(200).optional(),
  /** number: what is expected; count: what passes. */
  expect: z.number().optional(),
  /** How far from `expect` a reading may lie before it is asked about. */
  plausible: z.number().positive().optional(),
  unit: z.enum(['mm', 'N', 'kg', 'deg', 'min', 'C']).optional(),
  against: z.enum(['deviation', 'value']).default('deviation'),
  limits: z.array(name).default([]),
  instruments: z.array(z.enum(instrumentKinds)).default([]),
});

export const setupsSchema = z.strictObject({
  format: z.literal('pinchrod-setups 1'),
  note: text(600).optional(),
  setups: z.array(
    z.strictObject({
      /** What steps name: `saw`. */
      id: name.max(30),
      title: text(60).min(1),
      /** Stage of the procedure whose levels say who may prove it; level "all" where it is left out. */
      stage: name.optional(),
      /** A first-off holds so long; left out, only an event ends it. */
      minutes: z.number().int().min(1).max(100_000).optional(),
      /** It holds for so many steps. */
      uses: z.number().int().min(1).max(1_000_000).optional(),
      checks: z.array(checkSchema).min(1).max(20),
    }),
  ),
});

/** Reads the file. Limits that a check names must be in `limits`; a number needs one, and a deviation or a count something expected. */
export function parseSetups(source: SourceText, limits: LimitsFile): Result<SetupRule[]> {
  const read = readYaml(source, setupsSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  const problems: Problem[] = [];
  const seen = new Set<string>();
  for (const [i, setup] of value.setups.entries()) {
    if (seen.has(setup.id))
      problems.push(
        storeProblem('setups.twice', `The set-up "${setup.id}" stands twice.`, at(['setups', i, 'id'])),
      );
    seen.add(setup.id);
    const checks = new Set<string>();
    for (const [j, check] of setup.checks.entries()) {
      const place = (key: string) => at(['setups', i, 'checks', j, key]);
      if (checks.has(check.id))
        problems.push(
          storeProblem('setups.twice', `The check "${check.id}" of ${setup.id} stands twice.`, place('id')),
        );
      checks.add(check.id);
      for (const id of check.limits)
        if (!limits.byId.has(id))
          problems.push(storeProblem('setups.limit', `There is no limit "${id}".`, place('limits')));
      if (check.kind === 'number' && check.limits.length === 0)
        problems.push(
          storeProblem('setups.limit', `The number "${check.id}" names no limit.`, place('kind')),
        );
      // A count of nothing in particular would pass whatever was counted.
      const expects = check.kind === 'count' || (check.kind === 'number' && check.against === 'deviation');
      if (expects && check.expect === undefined)
        problems.push(
          storeProblem('setups.expect', `"${check.id}" does not say what is expected.`, place('kind')),
        );
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
  const { how, expect, plausible, unit } = check;
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
  };
}

// logs/setups.jsonl: first-offs and what ended them. The workshop's own journal, with the chain of a unit's.

const SETUP_LOG = ['logs', 'setups'] as const;
const KINDS: ReadonlySet<string> = new Set(['first-off', 'setup-ended']);

/** Every event of set-ups, oldest first; none where there is no file. */
export const readSetupLog = (disk: Disk, root: string): Result<readonly JournalEvent[]> =>
  readChainLog<JournalEvent>(disk, root, { path: SETUP_LOG, wrongWith: setupEventWrong });

/** Appends what was decided; durable when it returns ok. */
export function appendSetupLog(
  disk: Disk,
  root: string,
  bodies: readonly EventBody[],
  stamp: Stamp,
): Result<readonly JournalEvent[]> {
  return appendChainLog<JournalEvent>(
    disk,
    root,
    { path: SETUP_LOG, wrongWith: setupEventWrong },
    stamp,
    () => bodies,
  );
}

/** Undefined where the value is an event of this journal. */
export function setupEventWrong(event: unknown): string | undefined {
  const wrong = eventWrong(event);
  if (wrong !== undefined) return wrong;
  const { kind } = event as JournalEvent;
  return KINDS.has(kind) ? undefined : `"${kind}" belongs into a unit's journal`;
}
