/** Reads a begun unit's journal for the board. This is what loads the set-out, the procedure and the rules. */
import { digestOf } from '../../build/digest.js';
import { fold } from '../../build/fold.js';
import { frozenIn } from '../../build/frozen.js';
import { bad, good, type Result, raiser } from '../../ground/problem.js';
import type { Disk } from '../../store/disk.js';
import { readEvents } from '../../store/journal.js';
import { BENCH_MESSAGES } from '../messages.js';
import type { ReadUnit } from './board.js';
import type { KeptUnit } from './index.js';
import { printOf } from './jobline.js';
import { builtFromFrozen, planOf } from './plan.js';

const raise = raiser(BENCH_MESSAGES);

export const unitReader =
  (disk: Disk, root: string): ReadUnit =>
  (job, unit, now): Result<Omit<KeptUnit, 'mark'>> => {
    const events = readEvents(disk, root, job, unit);
    if (!events.ok) return events;
    const frozen = frozenIn(events.value);
    if (!frozen) return bad(raise('bench.not-frozen', `${unit} does not say from what it is built.`));
    const from = builtFromFrozen(disk, root, frozen);
    const plan = from.ok ? planOf(from.value, unit) : from;
    if (!plan.ok) return plan;
    const { route, setOut } = plan.value;
    const state = fold(route, events.value, { problems: setOut.problems, now });
    return good({
      print: printOf(plan.value.unit),
      sources: frozen.sources,
      digest: digestOf(state, now),
    });
  };
