/**
 * What is legal in a procedure and still unwise or unfinished. Each rule is a function of its own under lint/; this
 * file only calls them in turn. An empty answer is what a workshop should build to.
 */
import type { Problem } from '../ground/problem.js';
import { featureProblems } from './lint/features.js';
import { figureProblems } from './lint/figures.js';
import { holdProblems, type LintPeople } from './lint/holds.js';
import { type LintLimits, limitProblems } from './lint/limits.js';
import { reachProblems } from './lint/reach.js';
import { setupProblems } from './lint/setups.js';
import { textProblems } from './lint/texts.js';
import type { Procedure } from './model.js';
import type { Route } from './types.js';

export interface LintSurroundings {
  /** shared/limits.yaml; without it, limits' names are not checked. */
  readonly limits?: LintLimits;
  /** shared/people.yaml and the solo rule; without it, holds are not checked. */
  readonly people?: LintPeople;
  /** Ids of shared/setups.yaml; absent where the workshop asks for no first-offs. */
  readonly setups?: readonly string[];
  /** Names of the profile set's figures; without it, figures are not checked. */
  readonly figures?: Iterable<string>;
  /** Routes of the units of the workshop's jobs, besides the kinds that every workshop may meet. */
  readonly routes?: readonly Route[];
}

/** Problems in the order of the file. */
export function lintProcedure(procedure: Procedure, around: LintSurroundings = {}): Problem[] {
  const found = [
    ...textProblems(procedure),
    ...featureProblems(procedure),
    ...reachProblems(procedure, around.routes ?? []),
    ...limitProblems(procedure, around.limits),
    ...setupProblems(procedure, around.setups),
    ...(around.people ? holdProblems(procedure, around.people) : holdProblems(procedure)),
    ...(around.figures ? figureProblems(procedure, new Set(around.figures)) : []),
  ];
  return found
    .map((problem, index) => ({ problem, index }))
    .sort((a, b) => (a.problem.place?.line ?? 0) - (b.problem.place?.line ?? 0) || a.index - b.index)
    .map(({ problem }) => problem);
}
