/**
 * Formulas worked out by a general-purpose numeric library from the registry (mathjs, with 40-digit decimals), which
 * shares nothing with the program's own expression language or its floating-point arithmetic.
 */
import { all, create, type EvalFunction } from 'mathjs';

const math = create(all!, { number: 'BigNumber', precision: 40 });
const compiled = new Map<string, EvalFunction>();

/** A formula as profile sets write them, with values for its names. */
export function evaluated(text: string, names: Readonly<Record<string, unknown>> = {}): number {
  let made = compiled.get(text);
  if (!made) {
    const own = text
      .replace(/&&/g, ' and ')
      .replace(/\|\|/g, ' or ')
      .replace(/!(?!=)/g, ' not ');
    made = math.compile(own);
    if (compiled.size > 20_000) compiled.clear();
    compiled.set(text, made);
  }
  const found: unknown = made.evaluate(big(names) as Record<string, unknown>);
  return Number(String(found));
}

function big(value: unknown): unknown {
  if (typeof value === 'number') return math.bignumber(String(value));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, big(inner)]));
}
