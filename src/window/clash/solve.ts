/**
 * Places movable marks with the least total shift, exactly: marks that can meet are gathered into groups, and each
 * group is searched by branch and bound. A branch is cut only where a lower bound shows that nothing in it is better,
 * so what is left at the end is the minimum.
 */
import { type Domain, highest, isEmpty, lowest, nearestToZero, within, without } from './domain.js';
import {
  HAIR,
  type LineProblem,
  type Link,
  type Movable,
  type Placed,
  STEP,
  type Stuck,
  shiftCost,
} from './model.js';

/** Nodes searched in one group before the result is called unproven. */
const MOST_NODES = 20_000;

export function solveLine(problem: LineProblem): Placed | Stuck {
  const { movables } = problem;
  const domains = movables.map((movable) => standingDomain(movable, problem));
  const shifts = movables.map(() => 0);
  const stuck: number[] = [];
  let cost = 0;
  let proven = true;
  for (const group of groups(problem, domains)) {
    const search = new Search(problem, group);
    const found = search.run(group.map((i) => domains[i]!));
    if (!found) stuck.push(...group);
    else {
      group.forEach((i, g) => {
        shifts[i] = found.shifts[g]!;
      });
      cost += found.cost;
      proven &&= !search.exhausted;
    }
  }
  if (stuck.length > 0) return { ok: false, among: stuck };
  return { ok: true, shifts, cost, proven, total: shifts.reduce((sum, k) => sum + Math.abs(k) * STEP, 0) };
}

/** Steps a movable may take as far as its own range and the standing marks go. */
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

/** Takes out every step that is nearer than `least` to all places from `from` to `to`. */
function keepApart(domain: Domain, nominal: number, from: number, to: number, least: number): Domain {
  const low = Math.floor((to - least - nominal) / STEP + HAIR) + 1;
  const high = Math.ceil((from + least - nominal) / STEP - HAIR) - 1;
  return without(domain, low, high);
}

/** Movables that may have to do with one another; those that stand well alone where they are, are in none. */
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
  readonly least: number;
}
interface DearPair {
  readonly a: number;
  readonly b: number;
  readonly cost: number;
}
interface Found {
  readonly shifts: readonly number[];
  readonly cost: number;
}

class Search {
  readonly #movables: readonly Movable[];
  readonly #tie: 1 | -1;
  readonly #links: readonly Link[];
  readonly #pairs: readonly Pair[];
  /** Pairs whose joint cost is known to be more than the sum of each alone. */
  #dear: readonly DearPair[] = [];
  #best: Found | undefined;
  #nodes = 0;

  constructor(problem: LineProblem, group: readonly number[]) {
    this.#movables = group.map((i) => problem.movables[i]!);
    this.#tie = problem.tie;
    const place = new Map(group.map((i, g) => [i, g]));
    this.#links = problem.links.flatMap((link) => {
      const first = place.get(link.first);
      const second = place.get(link.second);
      return first === undefined || second === undefined ? [] : [{ ...link, first, second }];
    });
    const pairs: Pair[] = [];
    for (let a = 0; a < this.#movables.length; a++)
      for (let b = a + 1; b < this.#movables.length; b++) {
        const least = problem.apart(this.#movables[a]!, this.#movables[b]!);
        if (least > 0) pairs.push({ a, b, least });
      }
    this.#pairs = pairs;
  }

  get exhausted(): boolean {
    return this.#nodes >= MOST_NODES;
  }

  run(domains: readonly Domain[]): Found | undefined {
    const start = this.#propagate(domains, this.#links);
    if (!start) return undefined;
    this.#dear = this.#dearPairs(start);
    this.#visit(start, this.#links);
    return this.#best;
  }

  #at(i: number, k: number): number {
    return this.#movables[i]!.nominal + k * STEP;
  }
  #cost(i: number, k: number): number {
    return shiftCost(k, this.#movables[i]!.rank, this.#tie);
  }
  #cheapest(domain: Domain): number {
    return nearestToZero(domain, this.#tie);
  }

  #visit(domains: readonly Domain[], links: readonly Link[]): void {
    if (this.#nodes >= MOST_NODES && this.#best) return;
    this.#nodes++;
    const choice = domains.map((domain) => this.#cheapest(domain));
    const costs = choice.map((k, i) => this.#cost(i, k));
    let bound = costs.reduce((sum, cost) => sum + cost, 0);
    for (const { a, b, cost } of this.#dear) bound += Math.max(0, cost - costs[a]! - costs[b]!);
    if (this.#best && bound >= this.#best.cost) return;
    const split = this.#broken(choice, links);
    if (split === undefined) {
      const cost = costs.reduce((sum, each) => sum + each, 0);
      if (!this.#best || cost < this.#best.cost) this.#best = { shifts: choice, cost };
      return;
    }
    const [a, b, least] = split;
    if (least !== undefined && !links.some((link) => between(link, a, b))) {
      // Too near, and it is open which of the two comes first: once that is said, each bounds the other.
      const ahead = this.#at(a, choice[a]!) <= this.#at(b, choice[b]!);
      for (const [first, second] of ahead
        ? [[a, b] as const, [b, a] as const]
        : [[b, a] as const, [a, b] as const]) {
        const ordered = [...links, { first, second, least, most: Number.POSITIVE_INFINITY }];
        const next = this.#propagate(domains, ordered);
        if (next) this.#visit(next, ordered);
      }
      return;
    }
    // Otherwise one of the two stays at its cheapest, or lies to either side of it.
    const i = this.#dearer(a, b, domains);
    const k = choice[i]!;
    const branches: [number, number][] = [
      [k, k],
      [k + 1, Number.POSITIVE_INFINITY],
      [Number.NEGATIVE_INFINITY, k - 1],
    ];
    for (const [low, high] of branches) {
      const cut = within(domains[i]!, low, high);
      if (isEmpty(cut)) continue;
      const next = this.#propagate(
        domains.map((domain, j) => (j === i ? cut : domain)),
        links,
      );
      if (next) this.#visit(next, links);
    }
  }

  /** Two movables whose choices break a rule, if any. */
  #broken(choice: readonly number[], links: readonly Link[]): readonly [number, number, number?] | undefined {
    for (const { first, second, least, most } of links) {
      const gap = this.#at(second, choice[second]!) - this.#at(first, choice[first]!);
      if (gap < least - HAIR || gap > most + HAIR) return [first, second];
    }
    for (const { a, b, least } of this.#pairs)
      if (Math.abs(this.#at(a, choice[a]!) - this.#at(b, choice[b]!)) < least - HAIR) return [a, b, least];
    return undefined;
  }

  /** The one to settle first: not settled yet, dearest to move, with the fewest places to go. */
  #dearer(a: number, b: number, domains: readonly Domain[]): number {
    const settled = (i: number) => lowest(domains[i]!) === highest(domains[i]!);
    if (settled(a)) return b;
    if (settled(b)) return a;
    const [x, y] = [this.#movables[a]!, this.#movables[b]!];
    if (x.rank !== y.rank) return x.rank > y.rank ? a : b;
    const room = (i: number) => highest(domains[i]!) - lowest(domains[i]!);
    return room(a) <= room(b) ? a : b;
  }

  /** Narrows every domain by the rules until nothing changes; undefined where one is empty. */
  #propagate(given: readonly Domain[], links: readonly Link[]): readonly Domain[] | undefined {
    const domains = [...given];
    if (domains.some(isEmpty)) return undefined;
    for (let changed = true; changed; ) {
      changed = false;
      const put = (i: number, domain: Domain): boolean => {
        if (domain !== domains[i]) {
          changed = true;
          domains[i] = domain;
        }
        return !isEmpty(domain);
      };
      for (const { first, second, least, most } of links) {
        const from = this.#movables[first]!.nominal;
        const to = this.#movables[second]!.nominal;
        const low = this.#at(first, lowest(domains[first]!));
        const high = this.#at(first, highest(domains[first]!));
        if (
          !put(
            second,
            within(domains[second]!, up((low + least - to) / STEP), down((high + most - to) / STEP)),
          )
        )
          return undefined;
        const low2 = this.#at(second, lowest(domains[second]!));
        const high2 = this.#at(second, highest(domains[second]!));
        if (
          !put(
            first,
            within(domains[first]!, up((low2 - most - from) / STEP), down((high2 - least - from) / STEP)),
          )
        )
          return undefined;
      }
      for (const { a, b, least } of this.#pairs) {
        for (const [i, j] of [
          [a, b],
          [b, a],
        ] as const) {
          const low = this.#at(i, lowest(domains[i]!));
          const high = this.#at(i, highest(domains[i]!));
          if (high - low < 2 * least)
            if (!put(j, keepApart(domains[j]!, this.#movables[j]!.nominal, low, high, least)))
              return undefined;
        }
      }
    }
    return domains;
  }

  /** For pairs whose cheapest places collide: the least the two can cost together, pairs chosen so that none shares a mark. */
  #dearPairs(domains: readonly Domain[]): readonly DearPair[] {
    const found: { a: number; b: number; cost: number; extra: number }[] = [];
    for (const { a, b, least } of this.#pairs) {
      const ka = this.#cheapest(domains[a]!);
      const kb = this.#cheapest(domains[b]!);
      if (Math.abs(this.#at(a, ka) - this.#at(b, kb)) >= least - HAIR) continue;
      const alone = this.#cost(a, ka) + this.#cost(b, kb);
      let best = Number.POSITIVE_INFINITY;
      for (const [low, high] of domains[a]!)
        for (let k = low; k <= high; k++) {
          const cost = this.#cost(a, k);
          if (cost >= best) continue;
          const at = this.#at(a, k);
          const left = keepApart(domains[b]!, this.#movables[b]!.nominal, at, at, least);
          if (!isEmpty(left)) best = Math.min(best, cost + this.#cost(b, this.#cheapest(left)));
        }
      if (best > alone) found.push({ a, b, cost: best, extra: best - alone });
    }
    found.sort((x, y) => y.extra - x.extra);
    const used = new Set<number>();
    return found.filter(({ a, b }) => !used.has(a) && !used.has(b) && used.add(a) && used.add(b));
  }
}

/** Whether the order of the two is settled, one ahead of the other. */
const between = ({ first, second, least }: Link, a: number, b: number): boolean =>
  least >= 0 && ((first === a && second === b) || (first === b && second === a));

const up = (steps: number): number => Math.ceil(steps - HAIR);
const down = (steps: number): number => Math.floor(steps + HAIR);
