/** What open snags stand in the way of: starting what rests on what they touch, and releasing it. */

import type { Marks } from './marks.js';
import { restingOn } from './reopen.js';
import { checksTouched } from './stale.js';

export interface SnagBlocks {
  /** Step -> numbers of the snags that keep it from being worked on. */
  readonly work: ReadonlyMap<string, readonly number[]>;
  /** Step -> numbers of the snags that keep its hold from being released. */
  readonly release: ReadonlyMap<string, readonly number[]>;
}

const NONE: SnagBlocks = { work: new Map(), release: new Map() };

export function snagBlocks(marks: Marks): SnagBlocks {
  const open = [...marks.snags.values()].filter((snag) => !snag.closed);
  if (open.length === 0) return NONE;
  const work = new Map<string, number[]>();
  const release = new Map<string, number[]>();
  const add = (map: Map<string, number[]>, step: string, n: number) => {
    const list = map.get(step);
    if (!list) map.set(step, [n]);
    else if (!list.includes(n)) list.push(n);
  };
  for (const { raised, decided } of open) {
    const touched = stepsTouched(marks, raised);
    if (touched.length === 0) {
      // It touches the unit as a whole: nothing goes on until somebody decides, nothing is released until it is closed.
      for (const { id } of marks.route.steps) {
        if (!decided) add(work, id, raised.n);
        add(release, id, raised.n);
      }
      continue;
    }
    for (const step of touched) {
      add(release, step, raised.n);
      for (const { step: above } of restingOn(marks.route, step)) {
        if (touched.includes(above)) continue;
        add(work, above, raised.n);
        add(release, above, raised.n);
      }
    }
  }
  return { work, release };
}

function stepsTouched(marks: Marks, raised: Parameters<typeof checksTouched>[1]): string[] {
  if (raised.step !== undefined && marks.graph.nodes.has(raised.step)) return [raised.step];
  const steps = checksTouched(marks, raised).map((check) => marks.graph.checks.get(check)!.node.step.id);
  return [...new Set(steps)];
}
