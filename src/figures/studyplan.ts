/** In which order a study is measured: drawn by lot, so that neither time nor memory goes with a part. */

export interface PlannedReading {
  readonly part: number;
  readonly person: string;
  readonly trial: number;
}

/**
 * Each person in each round measures every part once; who begins a round, and the order of the parts, are drawn anew.
 * @param draw a whole number from 0 up to `below`, without it
 */
export function plannedOrder(
  parts: number,
  people: readonly string[],
  trials: number,
  draw: (below: number) => number,
): PlannedReading[] {
  const numbers = Array.from({ length: parts }, (_, i) => i + 1);
  return Array.from({ length: trials }, (_, i) => i + 1).flatMap((trial) =>
    shuffled(people, draw).flatMap((person) =>
      shuffled(numbers, draw).map((part) => ({ part, person, trial })),
    ),
  );
}

/** Fisher and Yates: every order is as likely. */
function shuffled<T>(of: readonly T[], draw: (below: number) => number): T[] {
  const out = [...of];
  for (let i = out.length - 1; i > 0; i--) {
    const k = draw(i + 1);
    [out[i], out[k]] = [out[k]!, out[i]!];
  }
  return out;
}
