/**
 * Reads a procedure file: shape, ids, references to features, holds and stages, and formulas type-checked against the
 * names of a set-out. Legal but unwise content is left to lint.ts.
 */
import { type Formula, type FormulaSpace, type FormulaType, isProblem } from '../base/formula.js';
import { nearest } from '../base/knownkeys.js';
import { err, ok, type Place, type Problem, type Result, type SourceText } from '../base/problem.js';
import { type Located, readYaml } from '../base/yaml.js';
import { UNITS_OF } from '../measure/units.js';
import { procedureProblem } from './messages.js';
import {
  type Check,
  EVERYTHING,
  type Hold,
  type Procedure,
  type Stage,
  type Step,
  stepsOf,
} from './model.js';
import { type Path, type Placer, placer } from './placer.js';
import type { Rhythm } from './rhythm.js';
import { type CheckFile, type ProcedureFile, procedureSchema, type StepFile } from './schema.js';
import { stageProblems } from './stageorder.js';
import { compileTemplate, familyOf, spaceFor, type Template } from './template.js';
import { quantityOf } from './wanted.js';

export function parseProcedure(source: SourceText): Result<Procedure> {
  const read = readYaml(source, procedureSchema);
  if (!read.ok) return read;
  const { procedure, problems } = new Reader(source, read.value).read();
  const all = [
    ...problems,
    ...stageProblems(procedure),
    ...idProblems(procedure),
    ...nameProblems(procedure),
  ];
  return all.length > 0 ? err(...all) : ok(procedure);
}

class Reader {
  readonly #file: Located<ProcedureFile>;
  readonly #places: Placer;
  readonly #problems: Problem[] = [];

  constructor(source: SourceText, file: Located<ProcedureFile>) {
    this.#file = file;
    this.#places = placer(source, (path) => file.at(path));
  }

  read(): { procedure: Procedure; problems: readonly Problem[] } {
    const { value, file } = this.#file;
    const holds = Object.entries(value.holds).map(([id, hold]): [string, Hold] => [
      id,
      { id, ...hold, place: this.#at(['holds', id]) },
    ]);
    const features = Object.entries(value.features).map(
      ([id, title]) => [id, { title, place: this.#at(['features', id]) }] as const,
    );
    const own = value.stages.flatMap((stage, s) =>
      stage.steps.flatMap((step, i) =>
        step.makes.length > 0
          ? []
          : [[step.id, { title: step.title, place: this.#at(['stages', s, 'steps', i]) }] as const],
      ),
    );
    const procedure: Procedure = {
      file,
      name: value.name,
      version: value.version,
      title: value.title,
      language: value.language,
      deferral: this.#text(value.deferral, ['deferral'], spaceFor('unit')),
      features: new Map([...own, ...features]),
      holds: new Map(holds),
      stages: value.stages.map(
        (stage, s): Stage => ({
          id: stage.id,
          title: stage.title,
          branch: stage.branch,
          after: stage.after,
          steps: stage.steps.map((step, i) => this.#step(step, stage.id, ['stages', s, 'steps', i])),
          place: this.#at(['stages', s]),
        }),
      ),
    };
    return { procedure, problems: this.#problems };
  }

  #step(step: StepFile, stage: string, path: Path): Step {
    const space = spaceFor(familyOf(step.each));
    const text = (key: string, value: string) => this.#text(value, [...path, key], space);
    const texts = (key: string, values: readonly string[]) =>
      values.map((value, i) => this.#text(value, [...path, key, i], space));
    const timer = (key: 'notBefore' | 'notAfter') => {
      const value = step[key];
      if (!value) return {};
      const minutes = this.#formula(value.minutes, [...path, key, 'minutes'], space, ['double', 'int']);
      return { [key]: { features: [value.feature].flat(), minutes } };
    };
    const { question } = step;
    return {
      id: step.id,
      stage,
      each: step.each,
      ...(step.when === undefined
        ? {}
        : { when: this.#formula(step.when, [...path, 'when'], space, ['bool']) }),
      title: text('title', step.title),
      do: step.do.map((value, i) => this.#text(value, [...path, 'do', i], space, true)),
      why: text('why', step.why),
      watch: text('watch', step.watch),
      hazards: step.hazards,
      ...(step.caution === undefined ? {} : { caution: text('caution', step.caution) }),
      tools: texts('tools', step.tools),
      spot: step.spot,
      // A step that names no feature is itself something later steps can rest on.
      makes: step.makes.length > 0 ? step.makes : [step.id],
      marks: step.marks,
      list: step.list,
      rests: step.rests,
      ...(step.hold === undefined ? {} : { hold: step.hold }),
      checks: step.checks.map((check, i) => this.#check(check, step.rhythm, [...path, 'checks', i], space)),
      ...(step.leastSeconds === undefined ? {} : { leastSeconds: step.leastSeconds }),
      ...timer('notBefore'),
      ...timer('notAfter'),
      ...(step.setup === undefined ? {} : { setup: step.setup }),
      ...(question === undefined
        ? {}
        : {
            question: {
              ask: this.#text(question.ask, [...path, 'question', 'ask'], space),
              answers: question.answers.map((answer, i) =>
                this.#text(answer, [...path, 'question', 'answers', i], space),
              ),
              right: question.right - 1,
            },
          }),
      place: this.#at(path),
    };
  }

  #check(check: CheckFile, rhythm: Rhythm, path: Path, space: FormulaSpace): Check {
    this.#problems.push(...checkKeys(check, (key) => this.#at([...path, key])));
    const text = (key: string, value: string) => this.#text(value, [...path, key], space);
    const number = (key: string, value: string) =>
      this.#formula(value, [...path, ...key.split('.')], space, ['double', 'int']);
    const { nominal, choices } = check;
    return {
      id: check.id,
      kind: check.kind,
      ask: text('ask', check.ask),
      ...(check.how === undefined ? {} : { how: text('how', check.how) }),
      ...(check.when === undefined
        ? {}
        : { when: this.#formula(check.when, [...path, 'when'], space, ['bool']) }),
      rhythm: check.rhythm ?? rhythm,
      ...(check.nth === undefined ? {} : { nth: check.nth }),
      ...(check.holds === undefined
        ? {}
        : { holds: this.#formula(check.holds, [...path, 'holds'], space, ['bool']) }),
      ...(check.expect === undefined ? {} : { expect: number('expect', check.expect) }),
      ...(nominal === undefined
        ? {}
        : { nominal: { w: number('nominal.w', nominal.w), h: number('nominal.h', nominal.h) } }),
      ...(check.plausible === undefined ? {} : { plausible: number('plausible', check.plausible) }),
      ...(check.size === undefined ? {} : { size: number('size', check.size) }),
      ...(check.kind === 'square'
        ? { unit: 'mm' as const }
        : check.unit === undefined
          ? {}
          : { unit: check.unit }),
      ...measured(check),
      ...(check.points
        ? {
            points: check.points.map(({ id, text: told, expect, spot, limits, explains }, i) => ({
              id,
              text: this.#text(told, [...path, 'points', i, 'text'], space),
              ...(expect === undefined ? {} : { expect: number(`points.${i}.expect`, expect) }),
              ...(spot === undefined ? {} : { spot }),
              ...(limits === undefined ? {} : { limits }),
              ...(explains === undefined
                ? {}
                : { explains: this.#text(explains, [...path, 'points', i, 'explains'], space) }),
            })),
          }
        : {}),
      ...(check.pairs ? { pairs: check.pairs } : {}),
      limits: check.limits,
      against: check.against ?? (check.expect === undefined ? 'value' : 'deviation'),
      ...(choices === undefined
        ? {}
        : {
            choices: choices.map((choice, i) => ({
              ...choice,
              text: this.#text(choice.text, [...path, 'choices', i, 'text'], space),
            })),
          }),
      instruments: check.instruments,
      rests: check.rests,
      ...(check.spot === undefined ? {} : { spot: check.spot }),
      ...(check.lot === undefined ? {} : { lot: check.lot }),
      ...(check.accepts ? { accepts: true } : {}),
      ...(check.serial ? { serial: true } : {}),
      ...(check.dated ? { dated: true } : {}),
      evidence: check.evidence,
      safety: check.safety,
      alone: check.alone,
      ...(check.explains === undefined ? {} : { explains: text('explains', check.explains) }),
      place: this.#at(path),
    };
  }

  #at(path: Path): Place {
    return this.#places.at(path);
  }

  #text(value: string, path: Path, space: FormulaSpace, lists = false): Template {
    const place = this.#at(path);
    const placeOf = (index: number) => this.#places.within(path, value, index);
    const { template, problems } = compileTemplate(value, space, place, placeOf, lists);
    this.#problems.push(...problems);
    return template;
  }

  #formula(text: string, path: Path, space: FormulaSpace, want: readonly FormulaType[]): Formula {
    const made = space.compile(text, want, this.#places.within(path, text, 0));
    if (!isProblem(made)) return made;
    this.#problems.push(made);
    return {
      text,
      type: 'dyn',
      names: [],
      dividesWhole: false,
      tree: NO_TREE,
      run: () => undefined,
      mixed: () => undefined,
      filled: () => text,
    };
  }
}

/** Of a formula that cannot be read. */
const NO_TREE = { op: 'value', args: true } as unknown as Formula['tree'];

const MEASURED: ReadonlySet<string> = new Set(['number', 'square', 'points']);

/** A check that names instruments but no quantity is of a file older than quantities. */
function measured({ kind, quantity, unit, instruments }: CheckFile): Pick<Check, 'quantity'> {
  if (quantity !== undefined) return { quantity };
  if (!MEASURED.has(kind) || instruments.length === 0) return {};
  return { quantity: kind === 'square' ? 'length' : quantityOf(unit ?? 'mm', instruments) };
}

/** Duplicate ids of stages, steps, or checks within a step. */
function idProblems(procedure: Procedure): Problem[] {
  const found: Problem[] = [];
  const once = (
    items: readonly { id: string; place: Place }[],
    twice: (given: { readonly id: string; readonly line: number }, place: Place) => Problem,
  ) => {
    const seen = new Map<string, Place>();
    for (const { id, place } of items) {
      const first = seen.get(id);
      if (first) found.push(twice({ id, line: first.line ?? 0 }, place));
      else seen.set(id, place);
    }
  };
  once(procedure.stages, (given, place) => procedureProblem('procedure.twice', given, place));
  const steps = stepsOf(procedure);
  once(steps, (given, place) => procedureProblem('procedure.twice/step', given, place));
  for (const step of steps)
    once(step.checks, (given, place) =>
      procedureProblem('procedure.twice/check', { ...given, step: step.id }, place),
    );
  return found;
}

/** Features and holds that are used but not listed. */
function nameProblems(procedure: Procedure): Problem[] {
  const found: Problem[] = [];
  for (const step of stepsOf(procedure)) {
    const named = [
      ...step.makes,
      ...[...step.rests, ...step.checks.flatMap((check) => check.rests)].filter((f) => f !== EVERYTHING),
      ...[step.notBefore, step.notAfter].flatMap((timer) => timer?.features ?? []),
    ];
    for (const feature of new Set(named))
      if (!procedure.features.has(feature)) {
        const near = nearest(feature, [...procedure.features.keys()]);
        found.push(
          near === undefined
            ? procedureProblem('procedure.feature-unknown', { step: step.id, feature }, step.place)
            : procedureProblem(
                'procedure.feature-unknown/near',
                { step: step.id, feature, near },
                step.place,
              ),
        );
      }
    if (step.hold !== undefined && !procedure.holds.has(step.hold))
      found.push(procedureProblem('procedure.hold-unknown', { step: step.id, hold: step.hold }, step.place));
  }
  return found;
}

// Keys that each kind of check requires and accepts.

type Key =
  | 'expect'
  | 'nominal'
  | 'plausible'
  | 'unit'
  | 'quantity'
  | 'points'
  | 'pairs'
  | 'limits'
  | 'choices'
  | 'lot'
  | 'accepts'
  | 'serial'
  | 'dated'
  | 'against'
  | 'holds'
  | 'size';
const KEYS: readonly Key[] = [
  'expect',
  'nominal',
  'plausible',
  'unit',
  'quantity',
  'points',
  'pairs',
  'limits',
  'choices',
  'lot',
  'accepts',
  'serial',
  'dated',
  'against',
  'holds',
  'size',
];

const RULES: Record<CheckFile['kind'], { needs: readonly Key[]; takes: readonly Key[] }> = {
  tick: { needs: [], takes: [] },
  'go-no-go': { needs: [], takes: [] },
  number: { needs: ['unit'], takes: ['expect', 'plausible', 'limits', 'against', 'size', 'quantity'] },
  square: { needs: ['nominal'], takes: ['limits', 'plausible', 'quantity'] },
  points: { needs: ['unit', 'points'], takes: ['pairs', 'plausible', 'limits', 'size', 'quantity'] },
  count: { needs: ['expect'], takes: [] },
  choice: { needs: ['choices'], takes: [] },
  text: { needs: [], takes: ['lot', 'accepts', 'serial', 'dated'] },
  computed: { needs: ['holds'], takes: [] },
};

function checkKeys(check: CheckFile, at: (key: string) => Place): Problem[] {
  const { needs, takes } = RULES[check.kind];
  const has = (key: Key) => (key === 'limits' ? check.limits.length > 0 : check[key] !== undefined);
  const found: Problem[] = [];
  for (const key of needs)
    if (!has(key))
      found.push(
        procedureProblem('procedure.check-keys', { check: check.id, kind: check.kind, key }, at(key)),
      );
  for (const key of KEYS)
    if (has(key) && !needs.includes(key) && !takes.includes(key))
      found.push(
        procedureProblem('procedure.check-keys/check', { check: check.id, kind: check.kind, key }, at(key)),
      );
  if (check.kind === 'number' && check.against === 'deviation' && check.expect === undefined)
    found.push(procedureProblem('procedure.check-keys/check-held', { check: check.id }, at('against')));
  if ((check.rhythm === 'nth') !== (check.nth !== undefined))
    found.push(procedureProblem('procedure.check-keys/check-nth', { check: check.id }, at('rhythm')));
  found.push(...pointProblems(check, at));
  if (check.quantity !== undefined && !UNITS_OF[check.quantity].includes(check.unit ?? 'mm'))
    found.push(
      procedureProblem(
        'procedure.check-keys/unit',
        {
          check: check.id,
          quantity: check.quantity,
          units: UNITS_OF[check.quantity].join(', '),
          unit: check.unit ?? 'mm',
        },
        at('quantity'),
      ),
    );
  if (check.choices && !check.choices.some((choice) => choice.pass))
    found.push(procedureProblem('procedure.check-keys/check-none', { check: check.id }, at('choices')));
  return found;
}

/** Points need ids of their own, and pairs must name them. */
function pointProblems({ id, points = [], pairs = [] }: CheckFile, at: (key: string) => Place): Problem[] {
  const ids = points.map((point) => point.id);
  const twice = ids.find((each, i) => ids.indexOf(each) < i);
  const unknown = pairs.flat().find((each) => !ids.includes(each));
  return [
    ...(twice === undefined
      ? []
      : [procedureProblem('procedure.check-keys/check-two', { id, twice }, at('points'))]),
    ...(unknown === undefined
      ? []
      : [procedureProblem('procedure.check-keys/check-point', { id, unknown }, at('pairs'))]),
  ];
}
