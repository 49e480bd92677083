/** A unit under way goes over to the workshop's files as they are now: its sources are frozen anew. */
import type { EventBody } from '../../build/events.js';
import { frozenIn } from '../../build/frozen.js';
import { decideRevision } from '../../build/revision.js';
import type { Surroundings } from '../../build/types.js';
import type { UnitState } from '../../build/unitstate.js';
import { raiser } from '../../ground/problem.js';
import type { Claim } from '../../store/claim.js';
import type { Disk } from '../../store/disk.js';
import { StoreError } from '../../store/diskproblem.js';
import { freezeSources } from '../../store/sources.js';
import type { Workshop } from '../../store/workshop.js';
import { BENCH_MESSAGES } from '../messages.js';
import type { Acted } from '../ports.js';
import { frozenTexts } from './opened.js';
import { builtFromNow, planOf } from './plan.js';

const raise = raiser(BENCH_MESSAGES);

/** Writes `revised`, or says why not. The unit is opened again afterwards: its route is another one. */
export function reviseUnit(
  { disk, root }: { readonly disk: Disk; readonly root: string },
  workshop: Workshop,
  unit: { readonly id: string; readonly job: string; readonly state: UnitState },
  reason: string,
  around: Surroundings,
  claim: Claim,
): Acted {
  const frozen = frozenIn(claim.journal.events);
  if (!frozen)
    return { kind: 'refused', problem: raise('bench.not-begun', `Nothing of ${unit.id} is logged yet.`) };
  const from = builtFromNow(workshop, unit.job);
  const plan = from.ok ? planOf(from.value, unit.id) : from;
  if (!plan.ok) return { kind: 'refused', problem: plan.problems[0]! };
  // Decided before anything is frozen, so that a refusal leaves no file behind.
  const trial = decideRevision(unit.state, plan.value.route, {}, reason, around);
  if (trial.kind !== 'events') return trial;
  try {
    const sources = freezeSources(disk, root, frozenTexts(plan.value));
    if (Object.entries(sources).every(([kind, hash]) => frozen.sources[kind] === hash))
      return {
        kind: 'refused',
        problem: raise('bench.same-sources', `${unit.id} is built from the files as they are now.`),
      };
    const bodies = trial.events.map(
      (body): EventBody => (body.kind === 'revised' ? { ...body, sources } : body),
    );
    const events = claim.journal.append(bodies, { by: trial.by, at: around.now, bench: around.bench });
    return { kind: 'done', events };
  } catch (error) {
    if (error instanceof StoreError) return { kind: 'failed', problem: error.problem };
    throw error;
  }
}
