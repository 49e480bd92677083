/**
 * Places movable marks with the least total shift, exactly. Marks that can meet form groups, and each group is searched
 * by branch and bound. A node ignores what is still open (which of two marks comes first, on which side of a standing
 * mark one lies) and solves the rest exactly, giving a lower bound. If that solution breaks nothing ignored, it is the
 * best of its branch; otherwise the node branches on one broken rule.
 */
import {
  HAIR,
  type LineProblem,
  type Movable,
  type Placed,
  type Slope,
  STEP,
  type Stuck,
  slopesOf,
} from './model.js';

/** Default node limit per group before the result is called unproven. Buildable windows take a few dozen. */
const NODES = 5000;

export function solveLine(problem: LineProblem): Placed | Stuck {
  const { movables } = problem;
  const domains = movables.map((movable) => standingDomain(movable, problem));
  const shifts = movables.map(() => 0);
  const stuck: number[] = [];
  let cost = 0;
  let proven = true;
  for (const group of groups(problem, domains)) {
    const search = new Search(
      problem,
      group,
      group.map((i) => domains[i]!),
    );
    const found = search.run();
    proven &&= !search.exhausted;
    if (!found) stuck.push(...group);
    else {
      group.forEach((i, g) => {
        shifts[i] = found.shifts[g]!;
      });
      cost += found.cost;
    }
  }
  if (stuck.length > 0) {
    const pinned = movables.some(({ low, high }, i) => low === high && isEmpty(domains[i]!));
    return { ok: false, among: stuck, pinned, proven };
  }
  return { ok: true, shifts, cost, proven, total: shifts.reduce((sum, k) => sum + Math.abs(k) * STEP, 0) };
}

/** Steps a movable may take, given its own range and the standing marks. */
function standingDomain(movable: Movable, { standing, apart }: LineProblem): Domain {
  const low = Math.ceil((movable.low - movable.nominal) / STEP - HAIR);
  const high = Math.floor((movable.high - movable.nominal) / STEP + HAIR);
  let domain: Domain = low <= high ? [[low, high]] : [];
  for (const fixed of standing) {
    const least = apart(movable, fixed);
    if (least > 0) domain = keepApart(domain, movable.nominal, fixed.at, fixed.at, least);
  }
  return domain;
}

/** Removes every step closer than `least` to every position from `from` to `to`. */
function keepApart(domain: Domain, nominal: number, from: number, to: number, least: number): Domain {
  const low = Math.floor((to - least - nominal) / STEP + HAIR) + 1;
  const high = Math.ceil((from + least - nominal) / STEP - HAIR) - 1;
  return without(domain, low, high);
}

/** Groups of movables that may interact; those that are fine where they stand are in none. */
function groups({ movables, links, apart }: LineProblem, domains: readonly Domain[]): number[][] {
  const parent = movables.map((_, i) => i);
  const root = (i: number): number => (parent[i] === i ? i : root(parent[i]!));
  const join = (a: number, b: number) => {
    parent[root(a)] = root(b);
  };
  const restless = new Set<number>();
  movables.forEach((_, i) => {
    if (!domains[i]!.some(([a, b]) => a <= 0 && b >= 0)) restless.add(i);
  });
  for (const { first, second, least, most } of links) {
    join(first, second);
    const gap = movables[second]!.nominal - movables[first]!.nominal;
    if (gap < least - HAIR || gap > most + HAIR) restless.add(first);
  }
  for (let i = 0; i < movables.length; i++)
    for (let j = i + 1; j < movables.length; j++) {
      const [a, b] = [movables[i]!, movables[j]!];
      const least = apart(a, b);
      if (least <= 0) continue;
      if (isEmpty(domains[i]!) || isEmpty(domains[j]!)) join(i, j);
      else if (
        a.nominal + lowest(domains[i]!) * STEP < b.nominal + highest(domains[j]!) * STEP + least &&
        b.nominal + lowest(domains[j]!) * STEP < a.nominal + highest(domains[i]!) * STEP + least
      )
        join(i, j);
      if (Math.abs(a.nominal - b.nominal) < least - HAIR) restless.add(i);
    }
  const gathered = new Map<number, number[]>();
  movables.forEach((_, i) => {
    const r = root(i);
    gathered.set(r, [...(gathered.get(r) ?? []), i]);
  });
  return [...gathered.values()].filter((group) => group.some((i) => restless.has(i)));
}

interface Pair {
  readonly a: number;
  readonly b: number;
  /** b minus a, in steps: at least `after`, or at most `before`. */
  readonly after: number;
  readonly before: number;
}
interface Found {
  readonly shifts: readonly number[];
  readonly cost: number;
}
interface Node {
  readonly bounds: Bounds;
  readonly arcs: readonly Arc[];
  readonly k: readonly number[];
  readonly cost: number;
}

class Search {
  readonly #domains: readonly Domain[];
  readonly #slopes: readonly Slope[];
  readonly #arcs: readonly Arc[];
  readonly #pairs: readonly Pair[];
  #nodesLeft: number;
  #best: Found | undefined;
  exhausted = false;

  constructor(problem: LineProblem, group: readonly number[], domains: readonly Domain[]) {
    const movables = group.map((i) => problem.movables[i]!);
    this.#domains = domains;
    this.#nodesLeft = problem.nodes ?? NODES;
    this.#slopes = slopesOf(movables, problem.tie);
    const place = new Map(group.map((i, g) => [i, g]));
    this.#arcs = problem.links.flatMap(({ first, second, least, most }): Arc[] => {
      const [a, b] = [place.get(first), place.get(second)];
      if (a === undefined || b === undefined) return [];
      const lead = movables[b]!.nominal - movables[a]!.nominal;
      return [
        { from: a, to: b, gap: up((least - lead) / STEP) },
        { from: b, to: a, gap: -down((most - lead) / STEP) },
      ];
    });
    const pairs: Pair[] = [];
    for (let a = 0; a < movables.length; a++)
      for (let b = a + 1; b < movables.length; b++) {
        const least = problem.apart(movables[a]!, movables[b]!);
        if (least <= 0) continue;
        const lead = movables[b]!.nominal - movables[a]!.nominal;
        pairs.push({ a, b, after: up((least - lead) / STEP), before: down((-least - lead) / STEP) });
      }
    this.#pairs = pairs;
  }

  run(): Found | undefined {
    if (this.#domains.some(isEmpty)) return undefined;
    const node = this.#node({ low: this.#domains.map(lowest), high: this.#domains.map(highest) }, this.#arcs);
    if (node) this.#visit(node);
    return this.#best;
  }

  #node(bounds: Bounds, given: readonly Arc[]): Node | undefined {
    const first = tighten(bounds, given);
    if (!first) return undefined;
    // Where the bounds leave a pair one order only, that order binds at once.
    const forced = this.#pairs.flatMap(({ a, b, after, before }): Arc[] => {
      if (first.high[b]! - first.low[a]! < after) return [{ from: b, to: a, gap: -before }];
      return first.low[b]! - first.high[a]! > before ? [{ from: a, to: b, gap: after }] : [];
    });
    const arcs = [...given, ...forced];
    const tight = tighten(first, arcs);
    if (!tight) return undefined;
    const k = cheapest(tight, arcs, this.#slopes);
    const cost = k.reduce((sum, each, i) => sum + costOf(this.#slopes[i]!, each), 0);
    return { bounds: tight, arcs: given, k, cost };
  }

  #visit(node: Node): void {
    if (this.#best && node.cost >= this.#best.cost) return;
    if (this.#nodesLeft <= 0) {
      this.exhausted = true;
      return;
    }
    this.#nodesLeft--;
    const children = this.#split(node);
    if (children === undefined) {
      this.#best = { shifts: node.k, cost: node.cost };
      return;
    }
    children.sort((a, b) => a.cost - b.cost);
    for (const child of children) this.#visit(child);
  }

  /** The two ways to settle what the node's solution breaks; undefined if it breaks nothing. */
  #split({ bounds, arcs, k }: Node): Node[] | undefined {
    const made = (low: readonly number[], high: readonly number[], more: readonly Arc[] = []): Node[] => {
      const child = this.#node({ low, high }, more.length === 0 ? arcs : [...arcs, ...more]);
      return child ? [child] : [];
    };
    for (let i = 0; i < k.length; i++) {
      const domain = this.#domains[i]!;
      const hole = domain.findIndex(([low]) => low > k[i]!);
      const before = hole < 0 ? domain.length - 1 : hole - 1;
      if (before >= 0 && domain[before]![1] >= k[i]!) continue;
      // Between two free intervals: on this side of the standing mark, or on the other.
      return [
        ...made(bounds.low, replaced(bounds.high, i, domain[before]![1])),
        ...made(replaced(bounds.low, i, domain[hole]![0]), bounds.high),
      ];
    }
    for (const { a, b, after, before } of this.#pairs) {
      const difference = k[b]! - k[a]!;
      if (difference >= after || difference <= before) continue;
      return [
        ...made(bounds.low, bounds.high, [{ from: a, to: b, gap: after }]),
        ...made(bounds.low, bounds.high, [{ from: b, to: a, gap: -before }]),
      ];
    }
    return undefined;
  }
}

const replaced = (list: readonly number[], i: number, value: number): number[] =>
  list.map((each, j) => (j === i ? value : each));
const up = (steps: number): number => Math.ceil(steps - HAIR);
const down = (steps: number): number => Math.floor(steps + HAIR);

/** A set of whole steps, as sorted intervals that do not touch. */
type Domain = readonly (readonly [number, number])[];

const isEmpty = (domain: Domain): boolean => domain.length === 0;
const lowest = (domain: Domain): number => domain[0]![0];
const highest = (domain: Domain): number => domain[domain.length - 1]![1];

function without(domain: Domain, low: number, high: number): Domain {
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

// The exactly solvable part: whole steps within bounds, minimum differences between them, and for each a cost that
// grows linearly on either side of zero. The cost is convex and the differences form a lattice. So starting from the
// lowest solution and repeatedly raising the set that gains most, until nothing gains, ends at the minimum.

/** `to` minus `from` is at least `gap`, in steps. */
interface Arc {
  readonly from: number;
  readonly to: number;
  readonly gap: number;
}

interface Bounds {
  readonly low: readonly number[];
  readonly high: readonly number[];
}

const costOf = ({ down, up }: Slope, k: number): number => (k < 0 ? -k * down : k * up);

/** Bounds tightened by the differences; undefined if infeasible. */
function tighten({ low, high }: Bounds, arcs: readonly Arc[]): Bounds | undefined {
  const lo = [...low];
  const hi = [...high];
  // As many rounds as there are marks settle every chain; a change after that means the arcs form a cycle.
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

/** The cheapest steps within bounds already tightened by the same arcs. */
function cheapest({ low, high }: Bounds, arcs: readonly Arc[], slopes: readonly Slope[]): number[] {
  const k = low.map((lo, i) => Math.min(Math.max(0, lo), high[i]!));
  if (arcs.every(({ from, to, gap }) => k[to]! - k[from]! >= gap)) return k;
  // No solution is better for lying below one that itself lies at or below zero, so the climb begins at the highest of those.
  const zero = low.map((lo, i) => Math.max(lo, Math.min(0, high[i]!)));
  const at = [...(tighten({ low, high: zero }, arcs)?.high ?? low)];
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

/** Smallest set of marks, pushed ones included, that gains most from one step up: maximum closure, by minimum cut. */
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
