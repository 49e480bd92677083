/**
 * Arithmetic formulas as plain functions. A set's formulas run a hundred times for each window, and nearly all of them
 * are sums; the expression library would look at the kind of every name each time, though all kinds were checked when
 * the set was read. Anything that is no plain sum is left to the library, and a test holds that both give the same.
 */
import { type ASTNode, parse } from '@marcbachmann/cel-js';

export type Lookup = ReadonlyMap<string, unknown>;
type Run = (names: Lookup) => number | boolean;
interface Part {
  readonly run: Run;
  /** Whole numbers divide without a rest, as in the library. */
  readonly whole: boolean;
}

/** The formula as a function; undefined where it holds anything but sums, comparisons, choices and our functions. */
export function quickly(text: string): Run | undefined {
  try {
    return part(parse(text).ast)?.run;
  } catch {
    return undefined;
  }
}

const BINARY: Readonly<Record<string, (a: number, b: number) => number>> = {
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => a / b,
  '%': (a, b) => a % b,
};
const COMPARED: Readonly<Record<string, (a: number, b: number) => boolean>> = {
  '<': (a, b) => a < b,
  '<=': (a, b) => a <= b,
  '>': (a, b) => a > b,
  '>=': (a, b) => a >= b,
};
const FUNCTIONS: Readonly<Record<string, (...numbers: number[]) => number>> = {
  max: Math.max,
  min: Math.min,
  hypot: Math.hypot,
  ceil: Math.ceil,
  floor: Math.floor,
  round: Math.round,
  abs: Math.abs,
  sqrt: Math.sqrt,
};

function part(node: ASTNode): Part | undefined {
  const { op, args } = node as unknown as { op: string; args: unknown };
  const two = (): [Part, Part] | undefined => {
    const [a, b] = (args as ASTNode[]).map(part);
    return a && b ? [a, b] : undefined;
  };
  switch (op) {
    case 'value': {
      if (typeof args !== 'number' && typeof args !== 'bigint' && typeof args !== 'boolean') return undefined;
      const value = typeof args === 'bigint' ? Number(args) : args;
      return { run: () => value, whole: typeof args === 'bigint' };
    }
    case 'id': {
      const name = args as string;
      return { run: (names) => known(names.get(name)), whole: false };
    }
    case '.': {
      const [object, field] = args as [ASTNode, string];
      const { op: inner, args: group } = object as unknown as { op: string; args: unknown };
      if (inner !== 'id') return undefined;
      return {
        run: (names) => known((names.get(group as string) as Record<string, unknown> | undefined)?.[field]),
        whole: false,
      };
    }
    case '-_': {
      const inner = part(args as ASTNode);
      return inner && { run: (names) => -(inner.run(names) as number), whole: inner.whole };
    }
    case '!_': {
      const inner = part(args as ASTNode);
      return inner && { run: (names) => !inner.run(names), whole: false };
    }
    case '&&':
    case '||': {
      const sides = two();
      if (!sides) return undefined;
      const [a, b] = sides;
      return op === '&&'
        ? { run: (names) => a.run(names) && b.run(names), whole: false }
        : { run: (names) => a.run(names) || b.run(names), whole: false };
    }
    case '?:': {
      const [test, yes, no] = (args as ASTNode[]).map(part);
      if (!test || !yes || !no) return undefined;
      return { run: (names) => (test.run(names) ? yes : no).run(names), whole: yes.whole && no.whole };
    }
    case 'call': {
      const [name, list] = args as [string, ASTNode[]];
      const call = Object.hasOwn(FUNCTIONS, name) ? FUNCTIONS[name] : undefined;
      const inner = list.map(part);
      if (!call || inner.some((each) => each === undefined)) return undefined;
      const [a, b] = inner;
      if (inner.length === 1) return { run: (names) => call(a!.run(names) as number), whole: false };
      if (inner.length !== 2) return undefined;
      return { run: (names) => call(a!.run(names) as number, b!.run(names) as number), whole: false };
    }
    default:
      return binary(op, two);
  }
}

function binary(op: string, two: () => [Part, Part] | undefined): Part | undefined {
  const compare = Object.hasOwn(COMPARED, op) ? COMPARED[op] : undefined;
  const sum = Object.hasOwn(BINARY, op) ? BINARY[op] : undefined;
  if (!compare && !sum) return undefined;
  const sides = two();
  if (!sides) return undefined;
  const [a, b] = sides;
  // Whole numbers follow rules of their own (no rest, no overflow): those few are left to the library.
  if (a.whole && b.whole) return undefined;
  if (compare)
    return { run: (names) => compare(a.run(names) as number, b.run(names) as number), whole: false };
  return { run: (names) => sum!(a.run(names) as number, b.run(names) as number), whole: false };
}

function known(value: unknown): number | boolean {
  if (typeof value === 'number' || typeof value === 'boolean') return value;
  throw new Error('a name has no value yet');
}
