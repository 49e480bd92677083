/** Sets of whole steps, kept as sorted intervals that do not touch. */
export type Domain = readonly (readonly [number, number])[];

export const isEmpty = (domain: Domain): boolean => domain.length === 0;
export const lowest = (domain: Domain): number => domain[0]![0];
export const highest = (domain: Domain): number => domain[domain.length - 1]![1];

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
