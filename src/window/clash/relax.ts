/**
 * The part of the problem that is easy exactly: whole steps within bounds, differences between them at least so much,
 * and for each a cost that grows evenly on either side of zero. The cost is convex and the differences make a lattice,
 * so raising, from the lowest solution, the set that gains most, until nothing gains, ends at the least cost.
 */

/** `to` less `from` is at least `gap`, in steps. */
export interface Arc {
  readonly from: number;
  readonly to: number;
  readonly gap: number;
}
/** Cost of a step below and above zero. */
export interface Slope {
  readonly down: number;
  readonly up: number;
}
export interface Bounds {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

export const costOf = ({ down, up }: Slope, k: number): number => (k < 0 ? -k * down : k * up);

/** Bounds drawn in as far as the differences ask; undefined where nothing satisfies them. */
export function tighten({ low, high }: Bounds, arcs: readonly Arc[]): Bounds | undefined {
  const lo = [...low];
  const hi = [...high];
  // As many rounds as there are marks settle every chain; if the next still changes something, the arcs go in a ring.
  for (let round = 0; ; round++) {
    let changed = false;
    for (const { from, to, gap } of arcs) {
      if (lo[to]! < lo[from]! + gap) {
        lo[to] = lo[from]! + gap;
        changed = true;
      }
      if (hi[from]! > hi[to]! - gap) {
        hi[from] = hi[to]! - gap;
        changed = true;
      }
    }
    for (let i = 0; i < lo.length; i++) if (lo[i]! > hi[i]!) return undefined;
    if (!changed) return { low: lo, high: hi };
    if (round > lo.length) return undefined;
  }
}

/** The cheapest steps within bounds that were tightened by the same arcs. */
export function cheapest({ low, high }: Bounds, arcs: readonly Arc[], slopes: readonly Slope[]): number[] {
  const k = low.map((lo, i) => Math.min(Math.max(0, lo), high[i]!));
  if (arcs.every(({ from, to, gap }) => k[to]! - k[from]! >= gap)) return k;
  const at = [...low];
  for (;;) {
    const raised = mostGaining(at, high, arcs, slopes);
    if (!raised.includes(true)) return at;
    let step = Number.POSITIVE_INFINITY;
    at.forEach((value, i) => {
      if (!raised[i]) return;
      step = Math.min(step, high[i]! - value);
      if (value < 0) step = Math.min(step, -value);
    });
    for (const { from, to, gap } of arcs)
      if (raised[from] && !raised[to]) step = Math.min(step, at[to]! - at[from]! - gap);
    raised.forEach((is, i) => {
      if (is) at[i] = at[i]! + step;
    });
  }
}

/**
 * The smallest set of marks that gains most by one step up, with those that must be pushed along. A maximum closure,
 * found as the least cut of a network.
 */
function mostGaining(
  at: readonly number[],
  high: readonly number[],
  arcs: readonly Arc[],
  slopes: readonly Slope[],
): boolean[] {
  const n = at.length;
  const [source, sink, size] = [n, n + 1, n + 2];
  const room = new Float64Array(size * size);
  at.forEach((value, i) => {
    if (value >= high[i]!) room[i * size + sink] = Number.POSITIVE_INFINITY;
    else if (value < 0) room[source * size + i] = slopes[i]!.down;
    else room[i * size + sink] = slopes[i]!.up;
  });
  for (const { from, to, gap } of arcs)
    if (at[to]! - at[from]! === gap) room[from * size + to] = Number.POSITIVE_INFINITY;
  for (;;) {
    const before = new Int32Array(size).fill(-1);
    before[source] = source;
    const queue = [source];
    for (const here of queue)
      for (let next = 0; next < size; next++)
        if (before[next] === -1 && room[here * size + next]! > 0) {
          before[next] = here;
          queue.push(next);
        }
    if (before[sink] === -1) return Array.from({ length: n }, (_, i) => before[i] !== -1);
    let flow = Number.POSITIVE_INFINITY;
    for (let v = sink; v !== source; v = before[v]!) flow = Math.min(flow, room[before[v]! * size + v]!);
    for (let v = sink; v !== source; v = before[v]!) {
      const u = before[v]!;
      room[u * size + v] = room[u * size + v]! - flow;
      room[v * size + u] = room[v * size + u]! + flow;
    }
  }
}
