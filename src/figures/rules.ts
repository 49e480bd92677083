/** Rules by which points of a chart signal that the process has moved: see `shared/figures.md` for what each costs. */

export const RULES = ['R1', 'R2', 'R3', 'R4'] as const;
export type Rule = (typeof RULES)[number];

export interface Signal {
  /** The last point of the pattern; points count from 1. */
  readonly at: number;
  readonly rule: Rule;
}

/** `of` points in a row, at least `need` of them beyond `sigma` on the same side, the last among them. */
const PATTERNS: Readonly<
  Record<Rule, { readonly of: number; readonly need: number; readonly sigma: number }>
> = {
  R1: { of: 1, need: 1, sigma: 3 },
  R2: { of: 3, need: 2, sigma: 2 },
  R3: { of: 5, need: 4, sigma: 1 },
  R4: { of: 8, need: 8, sigma: 0 },
};

/** A point on a limit is not beyond it; figures that should be equal differ in their last digits. */
const SLACK = 1e-9;

/**
 * @param offsets of each point from the centre, in standard deviations of that point
 * @param anew the point (from 1) before which no pattern reaches back: the first that limits judge and were not found from
 */
export function signalsOf(offsets: readonly number[], rules: readonly Rule[], anew?: number): Signal[] {
  const found: Signal[] = [];
  for (let i = 0; i < offsets.length; i++)
    for (const rule of RULES) {
      if (!rules.includes(rule)) continue;
      const { of, need, sigma } = PATTERNS[rule];
      const side = Math.sign(offsets[i]!);
      const beyond = (offset: number) => side !== 0 && offset * side > sigma + SLACK;
      if (!beyond(offsets[i]!)) continue;
      let count = 0;
      for (let k = i; k >= 0 && k > i - of; k--) {
        if (beyond(offsets[k]!)) count += 1;
        if (k + 1 === anew) break;
      }
      if (count >= need) found.push({ at: i + 1, rule });
    }
  return found;
}
