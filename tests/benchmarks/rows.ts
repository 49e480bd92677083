/** One line of the timings' table. */
export interface Row {
  readonly what: string;
  readonly figure: string;
  readonly bar?: string;
  readonly holds?: boolean;
}

export interface Setting {
  /** The repository. */
  readonly root: string;
  /** A folder that is removed afterwards. */
  readonly scratch: string;
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);

export function quantile(values: readonly number[], q: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
}

/** A row whose figure must not exceed a bar. */
export const atMost = (what: string, value: number, bar: number, unit: string, extra = ''): Row => ({
  what,
  figure: `${value.toFixed(2)} ${unit}${extra}`,
  bar: `at most ${bar} ${unit}`,
  holds: value <= bar,
});

export const ms = (value: number): string => `${value.toFixed(value < 10 ? 2 : 0)} ms`;
