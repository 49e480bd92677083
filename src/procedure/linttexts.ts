/** Lints texts: short sentences, a reason and warning per step, cautions where due, no typed figures, units given. */
import type { Formula } from '../base/formula.js';
import type { Problem } from '../base/problem.js';
import { procedureProblem } from './messages.js';
import { type Procedure, type Step, stepsOf } from './model.js';
import type { Template } from './template.js';

const LONGEST_SENTENCE = 20;

export function textProblems(procedure: Procedure): Problem[] {
  return [
    ...sentenceProblems('the deferral', procedure.deferral),
    ...stepsOf(procedure).flatMap((step) => [
      ...reasonProblems(step),
      ...cautionProblems(procedure, step),
      ...textsOf(step).flatMap((text) => [
        ...sentenceProblems(`step "${step.id}"`, text),
        ...numberProblems(step.id, text),
      ]),
    ]),
  ];
}

export function textsOf(step: Step): Template[] {
  const { question } = step;
  return [
    step.title,
    ...step.do,
    step.why,
    step.watch,
    ...(step.caution ? [step.caution] : []),
    ...step.tools,
    ...step.checks.flatMap((check) => [
      check.ask,
      ...(check.how ? [check.how] : []),
      ...(check.choices ?? []).map((choice) => choice.text),
      ...(check.points ?? []).map((point) => point.text),
    ]),
    ...(question ? [question.ask, ...question.answers] : []),
  ];
}

function reasonProblems(step: Step): Problem[] {
  const missing = (['why', 'watch'] as const).filter((key) => step[key].text.trim() === '');
  return missing.map((key) => procedureProblem('procedure.no-why', { step: step.id, key }, step.place));
}

function cautionProblems(procedure: Procedure, step: Step): Problem[] {
  if (step.hazards.length === 0) return [];
  if (!step.caution)
    return [
      procedureProblem(
        'procedure.no-caution',
        { step: step.id, hazards: step.hazards.join(', ') },
        step.place,
      ),
    ];
  if (procedure.deferral.text.trim() === '')
    return [procedureProblem('procedure.no-caution/step', { step: step.id }, step.place)];
  return [];
}

function sentenceProblems(where: string, text: Template): Problem[] {
  return sentences(readable(text))
    .filter((sentence) => words(sentence) > LONGEST_SENTENCE)
    .map((sentence) =>
      procedureProblem(
        'procedure.sentence',
        { where, sentence: words(sentence), sentence2: sentence.trim() },
        text.place,
      ),
    );
}

/** The longest form of the text: a formula's longest wording, or one word for a number. */
function readable(text: Template): string {
  return text.pieces
    .map((piece) => {
      if (typeof piece === 'string') return piece;
      const own = [...piece.text.matchAll(/"([^"]*)"/g)].map((m) => m[1]!).filter((s) => s.includes(' '));
      return own.sort((a, b) => words(b) - words(a))[0] ?? 'x';
    })
    .join('');
}

const sentences = (text: string): string[] => text.split(/[.!?;:]+(?:\s|$)/);
const words = (sentence: string): number =>
  sentence.split(/\s+/).filter((w) => /[\p{L}\p{N}]/u.test(w)).length;

// A digit not preceded by a letter. A lone 0 is allowed: "enter 0 where none enters" states no figure.
const TYPED = /(?<![\p{L}\p{N}.,])(?<![\p{L}\p{N}]-)(?!0(?![\p{N}.,]\p{N}|\p{N}))\p{N}+(?:[.,]\p{N}+)?/u;
const UNIT = /^\s?(?:mm|kg|N|ml|l|min|minutes?|Minuten?|degrees|Grad|°C?|m²|%|hours?|Stunden?)(?![\p{L}])/u;

function numberProblems(step: string, text: Template): Problem[] {
  const found: Problem[] = [];
  text.pieces.forEach((piece, i) => {
    if (typeof piece === 'string') {
      const typed = TYPED.exec(piece);
      if (typed)
        found.push(
          procedureProblem('procedure.number-typed', { step, typed: typed[0], text: text.text }, text.place),
        );
    } else if (isBare(piece, text.pieces[i + 1]))
      found.push(
        procedureProblem('procedure.number-bare', { step, piece: piece.text, text: text.text }, text.place),
      );
  });
  return found;
}

/** Integers are counts; a decimal is a size and needs its unit. */
const isBare = (formula: Formula, next: string | Formula | undefined): boolean =>
  formula.type === 'double' && !(typeof next === 'string' && UNIT.test(next));
