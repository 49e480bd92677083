/** Actions that are no single unit's: set-ups proven and ended, snags on all that was made under one, a unit taken over. */
import type { WorkshopAction } from '../../build/actions.js';
import type { JournalEvent } from '../../build/events.js';
import { atBench } from '../../build/people.js';
import { toBeSnagged } from '../../build/setups.js';
import { good, raiser } from '../../ground/problem.js';
import { BENCH_MESSAGES } from '../messages.js';
import type { Acted, Hand } from '../ports.js';
import { actOnUnit } from './actonunit.js';
import { type Held, keeperOf } from './held.js';
import { actedOf, setupSnag } from './setupdesk.js';
import type { Shop } from './shop.js';

const raise = raiser(BENCH_MESSAGES);

/** What came of it, and the unit that is on the bench now where that is another one. */
export interface ShopActed {
  readonly acted: Acted;
  readonly held?: Held;
}

/** @param held the unit on the bench */
export function actOnShop(shop: Shop, held: Held | undefined, action: WorkshopAction, hand: Hand): ShopActed {
  const levels = shop.trouble();
  if (levels) return { acted: { kind: 'refused', problem: levels } };
  const around = () => shop.around(hand, undefined);
  switch (action.do) {
    case 'first-off':
      return { acted: actedOf(shop.setups.firstOff(shop.workshop, action, around())) };
    case 'end-setup':
      return { acted: actedOf(shop.setups.end(shop.workshop, action, around())) };
    case 'snag-setup':
      return { acted: snagAll(shop, held, action.setup, hand) };
    case 'take-over':
      return takeOver(shop, held, action.reason, hand);
  }
}

/** A snag on every unit in doubt that has none yet; the open unit stays open. */
function snagAll(shop: Shop, held: Held | undefined, setup: string, hand: Hand): Acted {
  const doubt = shop.setups.inDoubt(setup, shop.look());
  const keys = doubt ? toBeSnagged(doubt) : [];
  if (!doubt || keys.length === 0)
    return {
      kind: 'refused',
      problem: raise('bench.nothing-in-doubt', `Nothing made under "${setup}" waits for a snag.`),
    };
  const events: JournalEvent[] = [];
  const snags = keys.map((key) => {
    const [job = '', unit = ''] = key.split('/');
    const own = held?.id === unit && held.job === job ? held : undefined;
    const taken = own ? good(own) : shop.take(job, unit, hand.person ?? '');
    if (!taken.ok) return { job, unit, problem: taken.problems[0]! };
    try {
      const acted = actOnUnit(shop, taken.value, setupSnag(setup, doubt), hand);
      if (acted.kind === 'done') events.push(...acted.events);
      return 'problem' in acted ? { job, unit, problem: acted.problem } : { job, unit };
    } finally {
      if (!own) taken.value.claim?.release();
    }
  });
  shop.board.forget();
  shop.setups.forget();
  return { kind: 'done', events, snags };
}

/** Takes the open unit from the bench whose lock keeps it; who had it, and why, is written into the journal. */
function takeOver(shop: Shop, held: Held | undefined, reason: string, hand: Hand): ShopActed {
  const refused = (problem: ReturnType<typeof raise>): ShopActed => ({ acted: { kind: 'refused', problem } });
  if (!held) return refused(raise('bench.no-unit', 'No unit is open.'));
  if (!held.readOnly) return refused(raise('bench.not-kept', `${held.id} is open here for writing.`));
  const found = atBench(shop.around(hand, undefined));
  if ('problem' in found) return refused(found.problem);
  const { job, id } = held;
  const before = keeperOf(shop.disk, shop.root, job, id);
  const taken = shop.take(job, id, found.person.id, { takeOver: true });
  if (!taken.ok) return refused(taken.problems[0]!);
  const now = taken.value;
  if (!now.claim) return { acted: { kind: 'refused', problem: now.readOnly! }, held: now };
  const from = before
    ? `${before.who}, who had it since ${before.since}`
    : 'a bench that let it go meanwhile';
  const text = `Taken over from ${from}: ${reason}`;
  return { acted: actOnUnit(shop, now, { do: 'note', text }, hand), held: now };
}
