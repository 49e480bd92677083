/**
 * CEL formulas in workshop files: integers and decimals mix freely, plus a few functions of our own. Each is compiled
 * and type-checked once and run many times.
 */

import { type ASTNode, Environment } from '@marcbachmann/cel-js';
import { childrenOf, dividesWhole } from './celtree.js';
import { type Mixed, mixedIn } from './dimensions.js';
import { nearest } from './knownkeys.js';
import { type Place, type Problem, problemFactory } from './problem.js';
import { wayOut, word } from './words.js';

export const FORMULA_MESSAGES = {
  'formula.syntax': word('"{ $formula }": { $fault }', 'a formula cannot be read', {
    formula: 'w + ',
    fault: 'Unexpected end of input',
  }),
  'formula.syntax.todo': wayOut('Mend the formula; the manual lists what it may hold.'),
  'formula.type': word(
    '"{ $formula }": { $fault }',
    'a formula uses an unknown name, or combines types that do not go together',
    { formula: 'w + x', fault: 'Unknown variable: x' },
  ),
  'formula.type.todo': wayOut('Use the names the manual lists for this place.'),
  'formula.type/near': word('"{ $formula }": { $fault }', 'as formula.type', {
    formula: 'face + gapp',
    fault: 'Unknown variable: gapp',
  }),
  'formula.type/near.todo': wayOut(
    'Write "{ $near }", or another name that the manual lists for this place.',
    {
      near: 'gap',
    },
  ),
  'formula.type/whole': word('"{ $formula }": { $fault }', 'as formula.type', {
    formula: 'w > 900.0 ? 0 : w',
    fault: "Ternary branches must have the same type, got 'int' and 'double'",
  }),
  'formula.type/whole.todo': wayOut('Write the whole number with a point there: 0.0 instead of 0.'),
  'formula.result': word(
    '"{ $formula }" gives { $given }; { $wanted } is wanted here.',
    'a formula gives the wrong kind of result',
    { formula: 'w > 1', given: 'bool', wanted: 'double' },
  ),
  'formula.result.todo': wayOut('Make it give the kind named.'),
} as const;
const raise = problemFactory(FORMULA_MESSAGES);

export type FormulaType = 'double' | 'int' | 'bool' | 'string' | 'list<double>' | 'list<string>';

export interface Formula {
  readonly text: string;
  readonly type: string;
  /** Dotted names the formula reads, in order of appearance: `frame.width`. */
  readonly names: readonly string[];
  readonly tree: ASTNode;
  /** Whether a whole number is divided by a whole number, which discards the remainder. */
  readonly dividesWhole: boolean;
  /** Integer results come back as numbers. Throws only on a programming error or a missing list item. */
  run(values: Record<string, unknown>): unknown;
  /** Where quantities of two units are added or compared; see `mixedIn`. */
  mixed(unitOf: (name: string) => string | undefined, wanted?: string): Mixed | undefined;
  /** The formula with each name replaced by `show(name)`: the middle line of a trace. */
  filled(show: (name: string) => string | undefined): string;
}

/** Nested names to CEL types; `{unit: {width: 'double'}}` defines `unit.width`. */
export type Names = { readonly [name: string]: string | Names };

/** Created once: registering operators and functions costs more than compiling most files' formulas. */
let base: Environment | undefined;

export class FormulaSpace {
  readonly #env: Environment;
  readonly #cache = new Map<string, Formula | Error>();
  readonly #names: Names;

  constructor(names: Names) {
    base ??= baseEnvironment();
    this.#names = names;
    this.#env = base.clone();
    for (const [name, type] of Object.entries(names)) {
      if (typeof type === 'string') this.#env.registerVariable(name, type);
      else this.#env.registerVariable({ name, schema: type as never });
    }
  }

  /** `want` lists the result types accepted here. */
  compile(text: string, want: readonly FormulaType[], place?: Place): Formula | Problem {
    let made = this.#cache.get(text);
    if (made === undefined) {
      made = this.#make(text);
      this.#cache.set(text, made);
    }
    if (made instanceof Error) {
      const fault = made.message.split('\n')[0]!;
      const at = within(place, made);
      if (made.name === 'ParseError') return raise('formula.syntax', { formula: text, fault }, at);
      if (/'int' and 'double'|'double' and 'int'/.test(fault))
        return raise('formula.type/whole', { formula: text, fault }, at);
      const near = this.#meant(text, fault);
      return near === undefined
        ? raise('formula.type', { formula: text, fault }, at)
        : raise('formula.type/near', { formula: text, fault, near }, at);
    }
    if (made.type !== 'dyn' && !want.includes(made.type as FormulaType))
      return raise('formula.result', { formula: text, given: made.type, wanted: want.join(' / ') }, place);
    return made;
  }

  /** The name that was probably meant where one is not known. */
  #meant(text: string, fault: string): string | undefined {
    const strange = /^(?:Unknown variable|No such key): (\w+)/.exec(fault)?.[1];
    if (strange === undefined) return undefined;
    const before = fault.startsWith('No such key')
      ? new RegExp(`([A-Za-z_][\\w.]*)\\.${strange}\\b`).exec(text)?.[1]
      : '';
    const within = (before ?? '')
      .split('.')
      .filter((key) => key !== '')
      .reduce<Names | string | undefined>(
        (at, key) => (typeof at === 'object' ? at[key] : undefined),
        this.#names,
      );
    const near = typeof within === 'object' ? nearest(strange, Object.keys(within)) : undefined;
    return near && before ? `${before}.${near}` : near;
  }

  #make(text: string): Formula | Error {
    try {
      const run = this.#env.parse(text);
      const checked = run.check();
      if (!checked.valid) return checked.error as Error;
      let found: ReturnType<typeof nameSpans> | undefined;
      // Most formulas are run but never explained.
      const spans = () => {
        found ??= nameSpans(run.ast);
        return found;
      };
      return {
        text,
        type: checked.type ?? 'dyn',
        tree: run.ast,
        get dividesWhole() {
          return text.includes('/') && dividesWhole(run.ast);
        },
        get names() {
          return [...new Set(spans().map((span) => span.name))];
        },
        run: (values) => tidy(run(values)),
        mixed: (unitOf, wanted) => mixedIn(run.ast, dotted, unitOf, wanted),
        filled: (show) => {
          let out = '';
          let last = 0;
          for (const { name, start, end } of spans()) {
            out += text.slice(last, start) + (show(name) ?? name);
            last = end;
          }
          return out + text.slice(last);
        },
      };
    } catch (error) {
      return error as Error;
    }
  }
}

export const isProblem = (x: Formula | Problem): x is Problem => 'todo' in x;

function within(place: Place | undefined, error: Error): Place | undefined {
  const start = (error as { range?: { start: number } }).range?.start;
  if (!place || place.column === undefined || start === undefined) return place;
  const { file, line, column } = place;
  return { file, ...(line === undefined ? {} : { line }), column: column + start };
}

const tidy = (value: unknown): unknown =>
  typeof value === 'bigint' ? Number(value) : Array.isArray(value) ? value.map(tidy) : value;

/**
 * Every maximal dotted name with its span, including macro-bound names (`xs.map(x, …)`), which `show` does not know.
 */
function nameSpans(root: ASTNode): { name: string; start: number; end: number }[] {
  const found: { name: string; start: number; end: number }[] = [];
  const visit = (node: ASTNode): void => {
    const name = dotted(node);
    if (name !== undefined) {
      found.push({ name, start: spanStart(node), end: node.range.end });
      return;
    }
    for (const child of childrenOf(node)) visit(child);
  };
  visit(root);
  return found.sort((a, b) => a.start - b.start);
}

const spanStart = (node: ASTNode): number =>
  node.op === '.'
    ? Math.min(node.range.start, spanStart((node.args as [ASTNode, string])[0]))
    : node.range.start;

function dotted(node: ASTNode): string | undefined {
  if (node.op === 'id') return node.args as string;
  if (node.op !== '.') return undefined;
  const [object, field] = node.args as [ASTNode, string];
  const left = dotted(object);
  return left === undefined ? undefined : `${left}.${field}`;
}

/** At most one decimal, without a trailing ".0": 837.5, 1000. */
export const mmText = (value: number): string => String(Math.round((value + Number.EPSILON) * 10) / 10);

function baseEnvironment(): Environment {
  const env = new Environment({ limits: { maxAstNodes: 2000, maxDepth: 60, maxListElements: 200 } });
  const mixed: [string, (a: number, b: number) => number][] = [
    ['+', (a, b) => a + b],
    ['-', (a, b) => a - b],
    ['*', (a, b) => a * b],
    ['/', (a, b) => a / b],
    ['%', (a, b) => a % b],
  ];
  for (const [sign, run] of mixed)
    for (const [left, right] of [
      ['double', 'int'],
      ['int', 'double'],
    ])
      env.registerOperator(`${left} ${sign} ${right}: double`, (a: unknown, b: unknown) =>
        run(Number(a), Number(b)),
      );
  env.registerOperator('double % double: double', (a: unknown, b: unknown) => Number(a) % Number(b));
  env.registerOperator('double == int', (a: unknown, b: unknown) => Number(a) === Number(b));

  const number1 = (name: string, run: (a: number) => number, result = 'double') => {
    for (const type of ['double', 'int'])
      env.registerFunction(`${name}(${type}): ${result}`, (a: unknown) =>
        result === 'int' ? BigInt(run(Number(a))) : run(Number(a)),
      );
  };
  number1('ceil', Math.ceil);
  number1('floor', Math.floor);
  number1('round', Math.round);
  number1('abs', Math.abs);
  number1('sqrt', Math.sqrt);
  const number2 = (name: string, run: (a: number, b: number) => number) => {
    for (const left of ['double', 'int'])
      for (const right of ['double', 'int'])
        env.registerFunction(`${name}(${left}, ${right}): double`, (a: unknown, b: unknown) =>
          run(Number(a), Number(b)),
        );
  };
  number2('max', Math.max);
  number2('min', Math.min);
  number2('hypot', Math.hypot);
  /** `spread([a, b, c])`: largest minus smallest. */
  env.registerFunction('spread(list<double>): double', (xs: unknown) => {
    const numbers = (xs as unknown[]).map(Number);
    return numbers.length === 0 ? 0 : Math.max(...numbers) - Math.min(...numbers);
  });
  /** `mm(x)`: "837.5 mm"; for a list: "112, 450, 788 mm". */
  for (const type of ['double', 'int'])
    env.registerFunction(`mm(${type}): string`, (a: unknown) => `${mmText(Number(a))} mm`);
  env.registerFunction(
    'mm(list<double>): string',
    (xs: unknown) => `${(xs as unknown[]).map((x) => mmText(Number(x))).join(', ')} mm`,
  );
  for (const type of ['double', 'int'])
    env.registerFunction(`kg(${type}): string`, (a: unknown) => `${Number(a).toFixed(1)} kg`);
  for (const left of ['double', 'int'])
    for (const right of ['double', 'int'])
      env.registerFunction(
        `wxh(${left}, ${right}): string`,
        (a: unknown, b: unknown) => `${mmText(Number(a))} x ${mmText(Number(b))} mm`,
      );
  return env;
}
