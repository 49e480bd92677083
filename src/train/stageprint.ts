/** A fingerprint of one stage of a procedure: it changes when anything of the stage that a person does, reads or is held to changes. */
import { canonicalText, sha256 } from '../build/chain.js';
import type { Procedure } from '../procedure/model.js';

/** SHA-256 in hex; undefined where the procedure has no such stage. Places in the file and compiled formulas do not count. */
export function stagePrint(procedure: Procedure, stageId: string): string | undefined {
  const stage = procedure.stages.find((each) => each.id === stageId);
  if (!stage) return undefined;
  const holds = stage.steps.flatMap((step) =>
    step.hold === undefined ? [] : [procedure.holds.get(step.hold)],
  );
  return sha256(canonicalText(written({ stage, holds })));
}

/** The data as it was written: a formula or text with formulas stands for its text, the place in the file for nothing. */
function written(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(written);
  if (value === null || typeof value !== 'object') return value ?? null;
  const { text } = value as { text?: unknown };
  if (typeof text === 'string' && ('pieces' in value || 'run' in value)) return text;
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, inner]) =>
      key === 'place' || inner === undefined || typeof inner === 'function' ? [] : [[key, written(inner)]],
    ),
  );
}
