/** How far judgements of the same pieces agree beyond chance: Cohen's kappa of two, Fleiss' of several. */
import type { Interval } from './capability.js';
import { normalQuantile } from './distributions.js';

export interface Kappa {
  /** null where all judgements are of one kind: chance alone would give the same. */
  readonly kappa: number | null;
  readonly interval: Interval | null;
  /** Share of judgements that agree, from 0 to 1. */
  readonly agreement: number;
}

/**
 * Cohen's kappa with the large-sample standard error of Fleiss, Cohen and Everitt (1969).
 * @param pairs both judgements of each piece
 */
export function cohenKappa(pairs: readonly (readonly [string, string])[], level = 0.95): Kappa {
  const n = pairs.length;
  const kinds = [...new Set(pairs.flat())].sort();
  const share = (test: (pair: readonly [string, string]) => boolean) => pairs.filter(test).length / n;
  const first = kinds.map((kind) => share(([a]) => a === kind));
  const second = kinds.map((kind) => share(([, b]) => b === kind));
  const agreement = share(([a, b]) => a === b);
  const chance = kinds.reduce((sum, _, i) => sum + first[i]! * second[i]!, 0);
  if (chance === 1) return { kappa: null, interval: null, agreement };
  const kappa = (agreement - chance) / (1 - chance);
  let variance = -((kappa - chance * (1 - kappa)) ** 2);
  for (const [i, a] of kinds.entries())
    for (const [k, b] of kinds.entries()) {
      const p = share(([x, y]) => x === a && y === b);
      variance +=
        i === k
          ? p * (1 - (first[i]! + second[i]!) * (1 - kappa)) ** 2
          : (1 - kappa) ** 2 * p * (second[i]! + first[k]!) ** 2;
    }
  const error = Math.sqrt(Math.max(0, variance) / n) / (1 - chance);
  return { kappa, interval: about(kappa, error, level), agreement };
}

/**
 * Fleiss' kappa (1971); its standard error by leaving out each piece in turn (jackknife).
 * @param counts of each piece, how many judgements fell to each kind; as many of every piece, at least two
 */
export function fleissKappa(counts: readonly (readonly number[])[], level = 0.95): Kappa {
  const { kappa, agreement } = fleiss(counts);
  const error = leftOut(counts, (rest) => fleiss(rest).kappa);
  return kappa === null || error === null
    ? { kappa, interval: null, agreement }
    : { kappa, interval: about(kappa, error, level), agreement };
}

/**
 * Cohen's kappa of pieces that were judged more than once: what is judged of one piece belongs together, so each piece is left out in
 * turn as a whole.
 * @param pieces both judgements of each piece, each time
 */
export function repeatedCohen(
  pieces: readonly (readonly (readonly [string, string])[])[],
  level = 0.95,
): Kappa {
  const whole = cohenKappa(pieces.flat(), level);
  const error = leftOut(pieces, (rest) => cohenKappa(rest.flat(), level).kappa);
  return whole.kappa === null || error === null
    ? { ...whole, interval: null }
    : { ...whole, interval: about(whole.kappa, error, level) };
}

/** Standard error by leaving out each piece in turn (jackknife); null where one of the rests has none. */
function leftOut<T>(pieces: readonly T[], kappaOf: (rest: readonly T[]) => number | null): number | null {
  const n = pieces.length;
  const without: number[] = [];
  for (const [i] of pieces.entries()) {
    const kappa = kappaOf(pieces.filter((_, k) => k !== i));
    if (kappa === null) return null;
    without.push(kappa);
  }
  const middle = without.reduce((sum, each) => sum + each, 0) / n;
  return Math.sqrt(((n - 1) / n) * without.reduce((sum, each) => sum + (each - middle) ** 2, 0));
}

function fleiss(counts: readonly (readonly number[])[]): {
  readonly kappa: number | null;
  readonly agreement: number;
} {
  const judges = counts[0]!.reduce((sum, each) => sum + each, 0);
  const total = counts.length * judges;
  const shares = counts[0]!.map((_, kind) => counts.reduce((sum, row) => sum + row[kind]!, 0) / total);
  const chance = shares.reduce((sum, share) => sum + share ** 2, 0);
  const agreement =
    counts.reduce(
      (sum, row) => sum + row.reduce((of, each) => of + each * (each - 1), 0) / (judges * (judges - 1)),
      0,
    ) / counts.length;
  return { kappa: chance === 1 ? null : (agreement - chance) / (1 - chance), agreement };
}

const about = (kappa: number, error: number, level: number): Interval => {
  const half = normalQuantile((1 + level) / 2) * error;
  return [Math.max(-1, kappa - half), Math.min(1, kappa + half)];
};
