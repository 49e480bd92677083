/** Checks that judge a number: a limit each, known, sourced, and of the kind that suits the check. */
import type { Problem } from '../../ground/problem.js';
import { raise } from '../messages.js';
import { type Check, type Procedure, stepsOf } from '../model.js';

export interface LintLimits {
  readonly limits: readonly {
    readonly id: string;
    readonly of: string;
    readonly unit: string;
    readonly source?: { readonly text: string };
  }[];
}
type LintLimit = LintLimits['limits'][number];

export function limitProblems(procedure: Procedure, file?: LintLimits): Problem[] {
  const known = file && new Map(file.limits.map((limit) => [limit.id, limit]));
  return stepsOf(procedure).flatMap((step) =>
    step.checks.flatMap((check) => checkProblems(`${step.id}/${check.id}`, check, known)),
  );
}

function checkProblems(
  id: string,
  check: Check,
  known: ReadonlyMap<string, LintLimit> | undefined,
): Problem[] {
  if (check.kind !== 'number' && check.kind !== 'square') return [];
  if (check.limits.length === 0)
    return [raise('procedure.no-limit', `Check "${id}" judges a number by nothing.`, check.place)];
  if (!known) return [];
  return check.limits.flatMap((name) => {
    const limit = known.get(name);
    if (!limit)
      return [raise('procedure.limit-unknown', `Check "${id}" names limit "${name}".`, check.place)];
    const unsourced = (limit.source?.text ?? '').trim() === '';
    return [
      ...(unsourced
        ? [raise('procedure.limit-unsourced', `Limit "${name}" of check "${id}" has no source.`, check.place)]
        : []),
      ...misfit(check, limit).map((why) =>
        raise('procedure.limit-kind', `Check "${id}", limit "${name}": ${why}.`, check.place),
      ),
    ];
  });
}

function misfit(check: Check, limit: LintLimit): string[] {
  const out: string[] = [];
  if (check.kind === 'square') {
    if (limit.of === 'value') out.push('a limit of the value itself does not suit a squareness check');
  } else if (limit.of === 'deviation') {
    if (!check.expect) out.push('the limit is held against a deviation, and the check has no "expect"');
  } else if (limit.of !== 'value') out.push(`a limit of "${limit.of}" suits only a squareness check`);
  if (check.unit !== undefined && check.unit !== limit.unit)
    out.push(`the check is in ${check.unit} and the limit in ${limit.unit}`);
  return out;
}
