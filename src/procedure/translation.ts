/**
 * A second language for a procedure: text keyed by step. The translated procedure has the same steps, checks and ids,
 * so a record does not depend on the language it was built in. What is not translated stays in the first language.
 */
import type { Formula, FormulaSpace } from '../ground/formula.js';
import { bad, good, type Place, type Problem, type Result } from '../ground/problem.js';
import type { SourceText } from '../ground/sourcetext.js';
import { type Placed, readYaml } from '../ground/yamlfile.js';
import { raise } from './messages.js';
import type { Check, Procedure, Step } from './model.js';
import { type Path, type Placer, placer } from './placer.js';
import { type TranslationFile, translationSchema } from './schema.js';
import { familyOf, spaceFor } from './spaces.js';
import { compileTemplate, formulasIn, type Template } from './template.js';

/** Warnings say what the translation lacks; they never stop a bench. */
export function translateProcedure(source: SourceText, procedure: Procedure): Result<Procedure> {
  const read = readYaml(source, translationSchema);
  if (!read.ok) return read;
  const { value, at } = read.value;
  if (value.procedure !== procedure.name)
    return bad(
      raise(
        'procedure.translation-of',
        `This translates "${value.procedure}", not "${procedure.name}".`,
        at(['procedure']),
      ),
    );
  const translator = new Translator(source, read.value);
  const translated = translator.translate(procedure);
  if (translator.problems.length > 0) return bad(...translator.problems);
  return good(translated, translator.warnings);
}

type StepText = TranslationFile['steps'][string];

class Translator {
  readonly problems: Problem[] = [];
  readonly warnings: Problem[] = [];
  readonly #file: Placed<TranslationFile>;
  readonly #places: Placer;

  constructor(source: SourceText, file: Placed<TranslationFile>) {
    this.#file = file;
    this.#places = placer(source, (path) => file.at(path));
  }

  translate(procedure: Procedure): Procedure {
    const { value } = this.#file;
    if (value.version !== procedure.version)
      this.warnings.push(
        raise(
          'procedure.translation-of',
          `This translates version ${value.version}; the procedure is version ${procedure.version}.`,
          this.#at(['version']),
        ),
      );
    const stages = new Set(procedure.stages.map(({ id }) => id));
    const steps = new Set(procedure.stages.flatMap((stage) => stage.steps.map(({ id }) => id)));
    this.#strays('stages', Object.keys(value.stages), stages);
    this.#strays('holds', Object.keys(value.holds), new Set(procedure.holds.keys()));
    this.#strays('steps', Object.keys(value.steps), steps);
    if (value.deferral === undefined && procedure.deferral.text !== '')
      this.#lacks('the deferral', ['deferral']);
    return {
      ...procedure,
      title: value.title,
      language: value.language,
      deferral:
        value.deferral === undefined
          ? procedure.deferral
          : this.#text(value.deferral, ['deferral'], spaceFor('unit')),
      holds: new Map(
        [...procedure.holds].map(([id, hold]) => {
          const title = value.holds[id];
          if (title === undefined) this.#lacks(`the title of hold "${id}"`, ['holds']);
          return [id, title === undefined ? hold : { ...hold, title }];
        }),
      ),
      stages: procedure.stages.map((stage) => {
        const title = value.stages[stage.id];
        if (title === undefined) this.#lacks(`the title of stage "${stage.id}"`, ['stages']);
        return {
          ...stage,
          ...(title === undefined ? {} : { title }),
          steps: stage.steps.map((step) => this.#step(step)),
        };
      }),
    };
  }

  #step(step: Step): Step {
    const text = this.#file.value.steps[step.id];
    const path = ['steps', step.id];
    if (!text) {
      this.#lacks(`step "${step.id}"`, ['steps']);
      return step;
    }
    const space = spaceFor(familyOf(step.each));
    const one = (key: string, value: string) => this.#text(value, [...path, key], space);
    const sentences = text.do.map((value, i) => this.#text(value, [...path, 'do', i], space, true));
    this.#numbersKept(step, sentences, path);
    if (step.caution && text.caution === undefined) this.#lacks(`the caution of step "${step.id}"`, path);
    this.#strays(
      `checks of step "${step.id}"`,
      Object.keys(text.checks),
      new Set(step.checks.map(({ id }) => id)),
    );
    return {
      ...step,
      title: one('title', text.title),
      do: sentences,
      why: one('why', text.why),
      watch: one('watch', text.watch),
      ...(step.caution && text.caution !== undefined ? { caution: one('caution', text.caution) } : {}),
      ...(text.tools
        ? { tools: text.tools.map((value, i) => this.#text(value, [...path, 'tools', i], space)) }
        : {}),
      ...this.#question(step, text, path, space),
      checks: step.checks.map((check) =>
        this.#check(step, check, text, [...path, 'checks', check.id], space),
      ),
    };
  }

  #question(step: Step, text: StepText, path: Path, space: FormulaSpace): Partial<Step> {
    const { question } = step;
    if (!question) return {};
    if (text.question?.answers.length !== question.answers.length) {
      this.#lacks(`the question of step "${step.id}", or one of its answers`, path);
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
    const name = `check "${step.id}/${check.id}"`;
    if (given === undefined) {
      this.#lacks(name, ['steps', step.id, 'checks']);
      return check;
    }
    if (typeof given === 'string') {
      if (check.how) this.#lacks(`the "how" of ${name}`, path);
      if (check.choices) this.#lacks(`the choices of ${name}`, path);
      return { ...check, ask: this.#text(given, path, space) };
    }
    const { how, choices } = given;
    if (check.how && how === undefined) this.#lacks(`the "how" of ${name}`, path);
    return {
      ...check,
      ask: this.#text(given.ask, [...path, 'ask'], space),
      ...(check.how && how !== undefined ? { how: this.#text(how, [...path, 'how'], space) } : {}),
      ...(check.choices
        ? {
            choices: check.choices.map((choice) => {
              const own = choices?.[choice.id];
              if (own === undefined) this.#lacks(`choice "${choice.id}" of ${name}`, path);
              return own === undefined
                ? choice
                : { ...choice, text: this.#text(own, [...path, 'choices', choice.id], space) };
            }),
          }
        : {}),
    };
  }

  /** A number that the first language gives must not get lost; words of a formula's own are the translator's. */
  #numbersKept(step: Step, sentences: readonly Template[], path: Path): void {
    const kept = new Set(sentences.flatMap(formulasIn).map((formula) => formula.text));
    for (const formula of step.do.flatMap(formulasIn))
      if (givesNumber(formula) && !kept.has(formula.text))
        this.warnings.push(
          raise(
            'procedure.translation-number',
            `Step "${step.id}": {${formula.text}} is not in the translated sentences.`,
            this.#at(path),
          ),
        );
  }

  #strays(where: string, given: readonly string[], known: ReadonlySet<string>): void {
    for (const id of given)
      if (!known.has(id))
        this.warnings.push(
          raise(
            'procedure.translation-stray',
            `In ${where}: the procedure has no "${id}".`,
            this.#at(['steps', id]),
          ),
        );
  }

  #lacks(what: string, path: Path): void {
    this.warnings.push(raise('procedure.translation-lacks', `It lacks ${what}.`, this.#at(path)));
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
    return made.template;
  }
}

const givesNumber = (formula: Formula): boolean =>
  formula.type === 'double' || formula.type === 'int' || /^(?:mm|kg|wxh)\(/.test(formula.text);
