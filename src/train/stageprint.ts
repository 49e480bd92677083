/** A fingerprint of one stage of a procedure: it changes when anything of the stage that a person does, reads or is held to changes. */
import { canonicalText, sha256 } from '../build/chain.js';
import { asWritten } from '../procedure/aswritten.js';
import type { Procedure } from '../procedure/model.js';

/** SHA-256 in hex; undefined where the procedure has no such stage. Places in the file and compiled formulas do not count. */
export function stagePrint(procedure: Procedure, stageId: string): string | undefined {
  const stage = procedure.stages.find((each) => each.id === stageId);
  if (!stage) return undefined;
  const holds = stage.steps.flatMap((step) =>
    step.hold === undefined ? [] : [procedure.holds.get(step.hold)],
  );
  return sha256(canonicalText(asWritten({ stage, holds })));
}
