/** Figures that a procedure asks of the profile set. */
import type { Formula } from '../../ground/formula.js';
import type { Place, Problem } from '../../ground/problem.js';
import { raise } from '../messages.js';
import { type Procedure, type Step, stepsOf } from '../model.js';
import { formulasIn } from '../template.js';
import { textsOf } from './texts.js';

export function figureProblems(procedure: Procedure, known: ReadonlySet<string>): Problem[] {
  return [...figuresAsked(procedure)]
    .filter(([name, { optional }]) => !optional && !known.has(name))
    .map(([name, { step, place }]) =>
      raise('procedure.figure-unknown', `Step "${step}" asks for figure "${name}".`, place),
    );
}

export interface FigureAsked {
  /** First step that asks for it. */
  readonly step: string;
  readonly place: Place;
  /** The procedure asks whether the set has it (`"name" in figure`), so it need not. */
  readonly optional: boolean;
}

/** Every `figure["name"]` of the procedure, in order of appearance. */
export function figuresAsked(procedure: Procedure): Map<string, FigureAsked> {
  const asked = new Map<string, FigureAsked>();
  for (const step of stepsOf(procedure))
    for (const { text } of formulasOf(step)) {
      const optional = new Set([...text.matchAll(/"([^"]+)"\s+in\s+figure\b/g)].map((m) => m[1]!));
      for (const [, name] of text.matchAll(/\bfigure\["([^"]+)"\]/g))
        if (!asked.has(name!))
          asked.set(name!, { step: step.id, place: step.place, optional: optional.has(name!) });
    }
  return asked;
}

function formulasOf(step: Step): Formula[] {
  const maybe = (...formulas: (Formula | undefined)[]) =>
    formulas.filter((formula): formula is Formula => formula !== undefined);
  return [
    ...maybe(step.when, step.notBefore?.minutes, step.notAfter?.minutes),
    ...textsOf(step).flatMap(formulasIn),
    ...step.checks.flatMap((check) => [
      ...maybe(check.when, check.expect, check.nominal?.w, check.nominal?.h, check.plausible, check.size),
      ...(check.explains ? formulasIn(check.explains) : []),
    ]),
  ];
}
