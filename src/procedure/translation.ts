/**
 * A second language for a procedure: text keyed by step. The translated procedure has the same steps, checks and ids,
 * so a record does not depend on the language it was made in. Untranslated text stays in the first language.
 */
import * as z from 'zod';
import type { Formula, FormulaSpace } from '../base/formula.js';
import { err, ok, type Place, type Problem, type Result, type SourceText } from '../base/problem.js';
import { language, name, text } from '../base/schemas.js';
import type { Message } from '../base/words.js';
import { type Located, readYaml } from '../base/yaml.js';
import { textsOf } from './linttexts.js';
import { procedureProblem } from './messages.js';
import { type Check, type Procedure, type Step, stepsOf } from './model.js';
import { inPhrases, PHRASES, SENTENCE_NAMES } from './phrases.js';
import { type Path, type Placer, placer } from './placer.js';
import { sentenceSchema } from './schema.js';
import { compileTemplate, familyOf, formulasIn, spaceFor, type Template } from './template.js';
import { procedureWords } from './words.js';

/** Warnings list what the translation lacks; they never block work. */
export function translateProcedure(source: SourceText, procedure: Procedure): Result<Procedure> {
  const read = readYaml(source, translationSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  if (value.procedure !== procedure.name)
    return err(
      procedureProblem(
        'procedure.translation-of',
        { procedure: value.procedure, procedure2: procedure.name },
        at(['procedure']),
      ),
    );
  const translator = new Translator(source, read.value);
  const translated = translator.translate(procedure);
  if (translator.problems.length > 0) return err(...translator.problems);
  return ok(translated, translator.warnings);
}

/** More names help nobody. */
const MOST_NAMED = 5;

type StepText = TranslationFile['steps'][string];

class Translator {
  readonly problems: Problem[] = [];
  readonly warnings: Problem[] = [];
  readonly #file: Located<TranslationFile>;
  readonly #places: Placer;

  constructor(source: SourceText, file: Located<TranslationFile>) {
    this.#file = file;
    this.#places = placer(source, (path) => file.at(path));
  }

  translate(procedure: Procedure): Procedure {
    const { value } = this.#file;
    if (value.version !== procedure.version)
      this.warnings.push(
        procedureProblem(
          'procedure.translation-of/translates',
          { version: value.version, version2: procedure.version },
          this.#at(['version']),
        ),
      );
    const stages = new Set(procedure.stages.map(({ id }) => id));
    const steps = new Set(stepsOf(procedure).map(({ id }) => id));
    this.#strays(procedureWords('part-stages'), value.stages, stages, ['stages']);
    this.#strays(procedureWords('part-holds'), value.holds, new Set(procedure.holds.keys()), ['holds']);
    this.#strays(procedureWords('part-steps'), value.steps, steps, ['steps']);
    this.#strays(procedureWords('part-phrases'), value.phrases, new Set(PHRASES), ['phrases']);
    if (makesSentences(procedure))
      for (const phrase of PHRASES)
        if (value.phrases[phrase] === undefined)
          this.#lacks(procedureWords('part-phrase', { phrase }), ['phrases']);
    if (value.deferral === undefined && procedure.deferral.text !== '')
      this.#lacks(procedureWords('part-deferral'), ['deferral']);
    this.#reviews(procedure);
    return {
      ...procedure,
      title: value.title,
      language: value.language,
      phrases: value.phrases,
      deferral:
        value.deferral === undefined
          ? procedure.deferral
          : this.#reviewed(
              this.#text(value.deferral, ['deferral'], spaceFor('unit')),
              procedure.deferral,
              value.reviewed?.version === procedure.version,
            ),
      holds: new Map(
        [...procedure.holds].map(([id, hold]) => {
          const title = value.holds[id];
          if (title === undefined) this.#lacks(procedureWords('part-hold', { id }), ['holds']);
          return [id, title === undefined ? hold : { ...hold, title }];
        }),
      ),
      stages: procedure.stages.map((stage) => {
        const title = value.stages[stage.id];
        if (title === undefined) this.#lacks(procedureWords('part-stage', { id: stage.id }), ['stages']);
        return {
          ...stage,
          ...(title === undefined ? {} : { title }),
          steps: stage.steps.map((step) => this.#step(step, procedure)),
        };
      }),
    };
  }

  /** Steps that nobody has reviewed, and those that were reviewed beside another version. */
  #reviews(procedure: Procedure): void {
    const { steps, reviewed } = this.#file.value;
    const there = stepsOf(procedure).filter(({ id }) => steps[id] !== undefined);
    const of = (id: string) => steps[id]!.reviewed ?? reviewed;
    const none = there.filter(({ id }) => of(id) === undefined);
    const other = there.filter(({ id }) => {
      const by = of(id);
      return by !== undefined && by.version !== procedure.version;
    });
    for (const [key, found] of [
      ['procedure.translation-unreviewed', none],
      ['procedure.translation-changed', other],
    ] as const)
      if (found.length > 0)
        this.warnings.push(
          procedureProblem(
            key,
            { n: found.length, of: there.length, steps: found.slice(0, MOST_NAMED).map(({ id }) => id) },
            this.#at(['language']),
          ),
        );
  }

  #isReviewed(id: string, procedure: Procedure): boolean {
    const { steps, reviewed } = this.#file.value;
    return (steps[id]?.reviewed ?? reviewed)?.version === procedure.version;
  }

  #step(step: Step, procedure: Procedure): Step {
    const text = this.#file.value.steps[step.id];
    const path = ['steps', step.id];
    if (!text) {
      this.#lacks(procedureWords('part-step', { step: step.id }), ['steps']);
      return step;
    }
    const space = spaceFor(familyOf(step.each));
    const one = (key: string, value: string) => this.#text(value, [...path, key], space);
    const sentences = text.do.map((value, i) => this.#text(value, [...path, 'do', i], space, true));
    this.#numbersKept(procedureWords('part-step-first', { step: step.id }), step.do, sentences, path);
    const tools = text.tools?.map((value, i) => this.#text(value, [...path, 'tools', i], space));
    if ((tools?.length ?? 0) !== step.tools.length)
      this.#lacks(procedureWords('part-tool', { step: step.id }), path);
    const checks = new Set(step.checks.map(({ id }) => id));
    this.#strays(procedureWords('part-checks', { step: step.id }), text.checks, checks, [...path, 'checks']);
    return {
      ...step,
      title: one('title', text.title),
      do: sentences,
      why: one('why', text.why),
      watch: one('watch', text.watch),
      ...this.#caution(step, text, path, space, this.#isReviewed(step.id, procedure)),
      ...(tools?.length === step.tools.length ? { tools } : {}),
      ...this.#question(step, text, path, space),
      checks: step.checks.map((check) =>
        this.#check(step, check, text, [...path, 'checks', check.id], space),
      ),
    };
  }

  /** One that nobody has reviewed stands beside the original: somebody could be hurt by it. */
  #caution(step: Step, text: StepText, path: Path, space: FormulaSpace, isReviewed: boolean): Partial<Step> {
    if (!step.caution) return {};
    if (text.caution === undefined) {
      this.#lacks(procedureWords('part-caution', { step: step.id }), path);
      return {};
    }
    const caution = this.#text(text.caution, [...path, 'caution'], space);
    this.#numbersKept(
      procedureWords('part-caution-first', { step: step.id }),
      [step.caution],
      [caution],
      [...path, 'caution'],
    );
    return { caution: this.#reviewed(caution, step.caution, isReviewed) };
  }

  #reviewed(translated: Template, original: Template, isReviewed: boolean): Template {
    return isReviewed ? translated : beside(translated, original);
  }

  #question(step: Step, text: StepText, path: Path, space: FormulaSpace): Partial<Step> {
    const { question } = step;
    if (!question) return {};
    if (text.question?.answers.length !== question.answers.length) {
      this.#lacks(procedureWords('part-question', { step: step.id }), path);
      return {};
    }
    const at = [...path, 'question'];
    return {
      question: {
        ...question,
        ask: this.#text(text.question.ask, [...at, 'ask'], space),
        answers: text.question.answers.map((value, i) => this.#text(value, [...at, 'answers', i], space)),
      },
    };
  }

  #check(step: Step, check: Check, text: StepText, path: Path, space: FormulaSpace): Check {
    const given = text.checks[check.id];
    const name = { check: `${step.id}/${check.id}` };
    if (given === undefined) {
      this.#lacks(procedureWords('part-check', name), ['steps', step.id, 'checks']);
      return check;
    }
    const { ask, how, choices, points } = typeof given === 'string' ? { ask: given } : given;
    if (check.how && how === undefined) this.#lacks(procedureWords('part-how', name), path);
    const asked = this.#text(ask, typeof given === 'string' ? path : [...path, 'ask'], space);
    this.#numbersKept(procedureWords('part-check-first', name), [check.ask], [asked], path);
    this.#strays(
      procedureWords('part-choices', name),
      choices ?? {},
      new Set(check.choices?.map(({ id }) => id)),
      [...path, 'choices'],
    );
    this.#strays(
      procedureWords('part-points', name),
      points ?? {},
      new Set(check.points?.map(({ id }) => id)),
      [...path, 'points'],
    );
    return {
      ...check,
      ask: asked,
      ...(check.how && how !== undefined ? { how: this.#text(how, [...path, 'how'], space) } : {}),
      ...(check.choices
        ? {
            choices: check.choices.map((choice) => {
              const own = choices?.[choice.id];
              if (own === undefined)
                this.#lacks(procedureWords('part-choice', { ...name, choice: choice.id }), path);
              return own === undefined
                ? choice
                : { ...choice, text: this.#text(own, [...path, 'choices', choice.id], space) };
            }),
          }
        : {}),
      ...(check.points
        ? {
            points: check.points.map((point) => {
              const own = points?.[point.id];
              if (own === undefined)
                this.#lacks(procedureWords('part-point', { ...name, point: point.id }), path);
              return own === undefined
                ? point
                : { ...point, text: this.#text(own, [...path, 'points', point.id], space) };
            }),
          }
        : {}),
    };
  }

  /** Every number in the original must be kept; words that a formula produces are up to the translator. */
  #numbersKept(
    where: Message,
    first: readonly Template[],
    translated: readonly Template[],
    path: Path,
  ): void {
    const kept = new Set(translated.flatMap(formulasIn).map(({ text }) => text));
    for (const { text } of first.flatMap(formulasIn).filter(givesNumber))
      if (!kept.has(text))
        this.warnings.push(procedureProblem('procedure.translation-number', { where, text }, this.#at(path)));
  }

  #strays(
    where: Message,
    given: Readonly<Record<string, unknown>>,
    known: ReadonlySet<string>,
    path: Path,
  ): void {
    for (const id of Object.keys(given))
      if (!known.has(id))
        this.warnings.push(
          procedureProblem('procedure.translation-stray', { where, id }, this.#at([...path, id])),
        );
  }

  #lacks(what: Message, path: Path): void {
    this.warnings.push(procedureProblem('procedure.translation-lacks', { what }, this.#at(path)));
  }

  #at(path: Path): Place {
    return this.#places.at(path);
  }

  #text(value: string, path: Path, space: FormulaSpace, lists = false): Template {
    const place = this.#at(path);
    const made = compileTemplate(
      value,
      space,
      place,
      (index) => this.#places.within(path, value, index),
      lists,
    );
    this.problems.push(...made.problems);
    const { pieces } = made.template;
    const said = (piece: (typeof pieces)[number]) =>
      typeof piece === 'string' ? piece : inPhrases(piece, this.#file.value.phrases);
    return { ...made.template, pieces: pieces.map(said) };
  }
}

/** Whether any text contains a sentence generated by the program. */
const makesSentences = (procedure: Procedure): boolean =>
  stepsOf(procedure)
    .flatMap(textsOf)
    .flatMap(formulasIn)
    .some(({ text }) => SENTENCE_NAMES.has(text.trim()));

const givesNumber = (formula: Formula): boolean =>
  formula.type === 'double' || formula.type === 'int' || /^(?:mm|kg|wxh)\(/.test(formula.text);

/** Who read the translation beside which version of the procedure, and found it right. */
const reviewedSchema = z.strictObject({ by: text(80).min(1), version: text(20).min(1) });

/** The translation file format, `pinchrod-procedure-text 1`, keyed by step; see procedures/README.md. */
export const translationSchema = z.strictObject({
  format: z.literal('pinchrod-procedure-text 1'),
  procedure: name,
  version: text(20).min(1),
  language,
  title: text(100).min(1),
  reviewed: reviewedSchema.optional(),
  deferral: sentenceSchema.optional(),
  /** Translations of the program's phrases for a light, a packer and a lift, keyed by the phrase ("hinged left"). */
  phrases: z.record(z.string().max(60), text(80)).default({}),
  holds: z.record(name, text(100)).default({}),
  stages: z.record(name, text(60)).default({}),
  steps: z.record(
    name,
    z.strictObject({
      title: text(70).min(1),
      /** Of this step, where it is not as of the whole file. */
      reviewed: reviewedSchema.optional(),
      do: z.array(sentenceSchema).min(1),
      why: sentenceSchema,
      watch: sentenceSchema,
      caution: sentenceSchema.optional(),
      tools: z.array(sentenceSchema).optional(),
      question: z.strictObject({ ask: sentenceSchema, answers: z.array(sentenceSchema).min(2) }).optional(),
      checks: z.record(
        name,
        z.union([
          sentenceSchema,
          z.strictObject({
            ask: sentenceSchema,
            how: sentenceSchema.optional(),
            choices: z.record(name, sentenceSchema).optional(),
            points: z.record(name, sentenceSchema).optional(),
          }),
        ]),
      ),
    }),
  ),
});
type TranslationFile = z.output<typeof translationSchema>;

const beside = (translated: Template, original: Template): Template => ({
  ...translated,
  text: `${translated.text} (${original.text})`,
  pieces: [...translated.pieces, ' (', ...original.pieces, ')'],
});
