/** Sets of whole steps, kept as sorted intervals that do not touch. */
export type Domain = readonly (readonly [number, number])[];

export const isEmpty = (domain: Domain): boolean => domain.length === 0;
export const lowest = (domain: Domain): number => domain[0]![0];
export const highest = (domain: Domain): number => domain[domain.length - 1]![1];

export function within(domain: Domain, low: number, high: number): Domain {
  if (domain.length === 0 || (domain[0]![0] >= low && highest(domain) <= high)) return domain;
  const out: [number, number][] = [];
  for (const [a, b] of domain) {
    const from = Math.max(a, low);
    const to = Math.min(b, high);
    if (from <= to) out.push([from, to]);
  }
  return out;
}

/** Without the steps from `low` to `high`, both taken out. */
export function without(domain: Domain, low: number, high: number): Domain {
  if (low > high || !domain.some(([a, b]) => a <= high && b >= low)) return domain;
  const out: [number, number][] = [];
  for (const [a, b] of domain) {
    if (b < low || a > high) out.push([a, b]);
    else {
      if (a < low) out.push([a, low - 1]);
      if (b > high) out.push([high + 1, b]);
    }
  }
  return out;
}

/** The step nearest to zero, the positive (times `tie`) of two as near. */
export function nearestToZero(domain: Domain, tie: 1 | -1): number {
  let best = Number.POSITIVE_INFINITY;
  for (const [a, b] of domain) {
    const near = Math.min(Math.max(0, a), b);
    if (Math.abs(near) < Math.abs(best) || (Math.abs(near) === Math.abs(best) && near * tie > best * tie))
      best = near;
  }
  return best;
}
