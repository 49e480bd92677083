/**
 * Whether conditions can come true together, for any values that their names may have. Names of the same facts, such as
 * counts that add up, are given as worlds; all others are free within their range. Comparisons of one free number are solved
 * exactly, of several by their least and greatest difference. What cannot be decided so is unknown, never guessed.
 */
import type { ASTNode } from '@marcbachmann/cel-js';
import { childrenOf } from './celtree.js';

export type Possible = 'can' | 'never' | 'unknown';

type Value = boolean | number | string;
export type PossibleWorld = Readonly<Record<string, Value>>;

/** What a name may be that no world gives. */
export type Range =
  | { readonly is: 'bool'; readonly known?: readonly boolean[] }
  | { readonly is: 'text'; readonly known?: readonly string[] }
  | { readonly is: 'number'; readonly from: number; readonly to: number; readonly whole?: boolean };

export interface PossibleFacts {
  /** Of a dotted name, of an entry (`figure["lap"]`), of a membership (`"lap" in figure`), of a size (`size(keeps)`). */
  rangeOf(name: string): Range | undefined;
  /** Values of the names that hang together; `whole` where no others could make a difference. */
  worldsOf(
    names: ReadonlySet<string>,
    figures: readonly number[],
  ): { readonly worlds: Iterable<PossibleWorld>; readonly whole: boolean };
}

/** More combinations than this are not tried. */
const MOST = 50_000;

export function possible(conditions: readonly ASTNode[], asked: PossibleFacts): Possible {
  const names = new Set<string>();
  const figures: number[] = [];
  const compared: ASTNode[] = [];
  const texts = new Set<string>();
  for (const root of conditions) walk(root);
  const { worlds, whole: all } = asked.worldsOf(names, figures);
  let whole = all;
  let tried = 0;
  for (const world of worlds) {
    const free = [...names].filter((name) => !(name in world));
    const ranges = new Map(free.map((name) => [name, asked.rangeOf(name)]));
    const numbers = free.filter((name) => ranges.get(name)?.is === 'number');
    const points = new Map<string, Set<Value>>();
    for (const [name, range] of ranges) points.set(name, new Set(startOf(range, texts)));
    for (const node of compared) if (!criticals(node, world, numbers, ranges, points)) whole = false;
    for (const values of combined([...points].map(([name, set]) => [name, [...set]] as const))) {
      if (++tried > MOST) return 'unknown';
      const given = { ...world, ...values };
      const found = conditions.map((root) => evaluate(root, given));
      if (found.every((value) => value === true)) return 'can';
      if (found.every((value) => value !== false)) whole = false;
    }
  }
  return whole ? 'never' : 'unknown';

  function walk(node: ASTNode): void {
    const name = nameOf(node);
    if (name !== undefined) {
      names.add(name);
      return;
    }
    if (node.op === 'value') {
      if (typeof node.args === 'string') texts.add(node.args);
      else if (typeof node.args !== 'boolean') figures.push(Number(node.args));
      return;
    }
    if (ORDER.has(node.op)) compared.push(node);
    for (const child of childrenOf(node)) walk(child);
  }
}

const ORDER: ReadonlySet<string> = new Set(['<', '<=', '>', '>=', '==', '!=']);

/** Values that a name is tried with before its comparisons are looked at. */
function startOf(range: Range | undefined, texts: ReadonlySet<string>): Value[] {
  switch (range?.is) {
    case 'bool':
      return [...(range.known ?? [false, true])];
    case 'text':
      return range.known ? [...range.known] : [...texts, 'neither of these'];
    case 'number':
      return [...new Set([range.from, range.to])];
    default:
      return [];
  }
}

/**
 * Adds the values at which a comparison changes to those that its one free number is tried with.
 * @returns false where it cannot be solved
 */
function criticals(
  node: ASTNode,
  world: PossibleWorld,
  numbers: readonly string[],
  ranges: ReadonlyMap<string, Range | undefined>,
  points: Map<string, Set<Value>>,
): boolean {
  const own = new Set<string>();
  namesIn(node, own);
  const free = numbers.filter((name) => own.has(name));
  if (free.length === 0) return true;
  const [left, right] = node.args as [ASTNode, ASTNode];
  const difference = (values: PossibleWorld): number | undefined => {
    const [a, b] = [evaluate(left, values), evaluate(right, values)];
    return typeof a === 'number' && typeof b === 'number' ? a - b : undefined;
  };
  const range = (name: string) => ranges.get(name) as Extract<Range, { is: 'number' }>;
  const [first, ...others] = free as [string, ...string[]];
  if (others.length > 0) return alwaysOne(node, free, range, (values) => difference({ ...world, ...values }));
  const at = (x: number) => difference({ ...world, [first]: x });
  const { from, to, whole } = range(first);
  const [d0, d1, dm] = [at(from), at(to), at((from + to) / 2)];
  if (d0 === undefined || d1 === undefined || dm === undefined) return false;
  const scale = Math.max(1, Math.abs(d0), Math.abs(d1));
  if (Math.abs((d0 + d1) / 2 - dm) > 1e-6 * scale) return false;
  if (Math.abs(d1 - d0) < 1e-12) return true;
  const root = from + ((to - from) * -d0) / (d1 - d0);
  const near = whole
    ? [Math.floor(root) - 1, Math.floor(root), Math.ceil(root), Math.ceil(root) + 1]
    : [root, root - 1e-6 * Math.max(1, Math.abs(root)), root + 1e-6 * Math.max(1, Math.abs(root))];
  for (const x of near) if (x >= from && x <= to) points.get(first)!.add(x);
  return true;
}

/** Whether a comparison of several free numbers goes one way over all their ranges. Only sums are looked at. */
function alwaysOne(
  node: ASTNode,
  free: readonly string[],
  range: (name: string) => { readonly from: number; readonly to: number },
  difference: (values: PossibleWorld) => number | undefined,
): boolean {
  const middle = Object.fromEntries(free.map((name) => [name, (range(name).from + range(name).to) / 2]));
  const base = difference(middle);
  if (base === undefined) return false;
  let [least, most] = [base, base];
  for (const name of free) {
    const { from, to } = range(name);
    const [low, high] = [difference({ ...middle, [name]: from }), difference({ ...middle, [name]: to })];
    if (low === undefined || high === undefined) return false;
    if (Math.abs((low + high) / 2 - base) > 1e-6 * Math.max(1, Math.abs(low), Math.abs(high))) return false;
    least += Math.min(low, high) - base;
    most += Math.max(low, high) - base;
  }
  // A product of two names is straight along each and not along both.
  const corner = Object.fromEntries(free.map((name) => [name, range(name).to]));
  const straight = free.reduce(
    (sum, name) => sum + difference({ ...middle, [name]: range(name).to })! - base,
    base,
  );
  const found = difference(corner);
  if (found === undefined || Math.abs(found - straight) > 1e-6 * Math.max(1, Math.abs(found))) return false;
  switch (node.op) {
    case '<':
    case '>=':
      return most < 0 || least >= 0;
    case '>':
    case '<=':
      return most <= 0 || least > 0;
    default:
      return most < 0 || least > 0;
  }
}

function* combined(lists: readonly (readonly [string, readonly Value[]])[]): Iterable<PossibleWorld> {
  if (lists.some(([, values]) => values.length === 0)) {
    // Of a name that nothing is known of there is no value; its comparisons are unknown.
    yield* combined(lists.filter(([, values]) => values.length > 0));
    return;
  }
  const [first, ...others] = lists;
  if (!first) {
    yield {};
    return;
  }
  for (const rest of combined(others)) for (const value of first[1]) yield { ...rest, [first[0]]: value };
}

/** The value of a node, undefined where it cannot be told. */
function evaluate(node: ASTNode, given: PossibleWorld): Value | undefined {
  const name = nameOf(node);
  if (name !== undefined) return given[name];
  const at = (i: number) => evaluate((node.args as ASTNode[])[i]!, given);
  const number = (run: (a: number, b: number) => Value): Value | undefined => {
    const [a, b] = [at(0), at(1)];
    return typeof a === 'number' && typeof b === 'number' ? run(a, b) : undefined;
  };
  switch (node.op) {
    case 'value':
      return typeof node.args === 'bigint' ? Number(node.args) : (node.args as Value);
    case '&&': {
      const [a, b] = [at(0), at(1)];
      return a === false || b === false ? false : a === true && b === true ? true : undefined;
    }
    case '||': {
      const [a, b] = [at(0), at(1)];
      return a === true || b === true ? true : a === false && b === false ? false : undefined;
    }
    case '!_': {
      const inner = evaluate(node.args as ASTNode, given);
      return typeof inner === 'boolean' ? !inner : undefined;
    }
    case '-_': {
      const inner = evaluate(node.args as ASTNode, given);
      return typeof inner === 'number' ? -inner : undefined;
    }
    case '?:': {
      const asked = at(0);
      return asked === undefined ? undefined : asked === true ? at(1) : at(2);
    }
    case '==':
    case '!=': {
      const [a, b] = [at(0), at(1)];
      if (a === undefined || b === undefined) return undefined;
      return (a === b) === (node.op === '==');
    }
    case '<':
      return number((a, b) => a < b);
    case '<=':
      return number((a, b) => a <= b);
    case '>':
      return number((a, b) => a > b);
    case '>=':
      return number((a, b) => a >= b);
    case '+':
      return number((a, b) => a + b);
    case '-':
      return number((a, b) => a - b);
    case '*':
      return number((a, b) => a * b);
    case '/':
      return number((a, b) => a / b);
    default:
      return undefined;
  }
}

/** What stands for one value: a dotted name, an entry, a membership or a size. */
function nameOf(node: ASTNode): string | undefined {
  const args = node.args as unknown;
  switch (node.op) {
    case 'id':
      return args as string;
    case '.': {
      const [object, field] = args as [ASTNode, string];
      const left = nameOf(object);
      return left === undefined ? undefined : `${left}.${field}`;
    }
    case '[]': {
      const [object, key] = args as [ASTNode, ASTNode];
      const left = nameOf(object);
      return left !== undefined && key.op === 'value' ? `${left}["${String(key.args)}"]` : undefined;
    }
    case 'in': {
      const [key, object] = args as [ASTNode, ASTNode];
      const of = nameOf(object);
      return of !== undefined && key.op === 'value' ? `"${String(key.args)}" in ${of}` : undefined;
    }
    case 'call': {
      const [name, given] = args as [string, ASTNode[]];
      const of = name === 'size' && given.length === 1 ? nameOf(given[0]!) : undefined;
      return of === undefined ? undefined : `size(${of})`;
    }
    default:
      return undefined;
  }
}

function namesIn(node: ASTNode, found: Set<string>): void {
  const name = nameOf(node);
  if (name !== undefined) found.add(name);
  else for (const child of childrenOf(node)) namesIn(child, found);
}
