/** An action on a unit: decided by the build room, and on disk before it is answered. */
import type { Action } from '../../build/actions.js';
import { jump } from '../../build/acts/deed.js';
import { asIfWritten, decide } from '../../build/decide.js';
import type { EventBody, JournalEvent } from '../../build/events.js';
import { apply } from '../../build/fold.js';
import { sealedBody } from '../../build/sealing.js';
import type { Surroundings } from '../../build/types.js';
import { type Result, raiser } from '../../ground/problem.js';
import type { Claim } from '../../store/claim.js';
import { keepFound } from '../../store/evidence.js';
import { benchKey } from '../../store/key.js';
import { freezeSources } from '../../store/sources.js';
import { BENCH_MESSAGES } from '../messages.js';
import type { Acted, Hand } from '../ports.js';
import type { Found } from './around.js';
import type { Held } from './held.js';
import { findNamed } from './inbox.js';
import { frozenTexts, openedBody } from './opened.js';
import type { Shop } from './shop.js';

const raise = raiser(BENCH_MESSAGES);

/** Throws StoreError where the disk fails; then nothing was written. */
export function actOnUnit(shop: Shop, held: Held, action: Action, hand: Hand): Acted {
  const { claim } = held;
  if (!claim)
    return {
      kind: 'refused',
      problem: held.readOnly ?? raise('bench.read-only', `${held.id} is written by somebody else.`),
    };
  const evidence = findNamed(shop.disk, shop.root, held.job, action);
  if (!evidence.ok) return { kind: 'refused', problem: evidence.problems[0]! };
  const begun = claim.journal.events.length > 0;
  const noted = timeNoted(shop, held, claim, hand, evidence.value);
  if (!noted.ok) return { kind: 'refused', problem: noted.problems[0]! };
  const around = noted.value;
  const first = begun ? undefined : openedBody(held.plan, {});
  const before = first
    ? apply(held.state, ...asIfWritten(held.state, [first], hand.person ?? 'nobody', around))
    : held.state;
  const decision = decide(before, action, around);
  if (decision.kind === 'refused') {
    shop.tries.note(decision.problem, action, hand.person, shop.clock());
    return { kind: 'refused', problem: decision.problem };
  }
  if (decision.kind === 'ask') return decision;
  if (decision.events.length === 0) return { kind: 'done', events: [] };
  for (const found of Object.values(evidence.value)) keepFound(shop.disk, shop.root, held.job, found);
  const events = write(shop, held, claim, decision, around.now);
  shop.tries.right(action, hand.person);
  return { kind: 'done', events: begun ? events : events.slice(1) };
}

function write(
  shop: Shop,
  held: Held,
  claim: Claim,
  decision: { readonly events: readonly EventBody[]; readonly by: string },
  at: string,
): readonly JournalEvent[] {
  // What the unit is built from is frozen before its first event says so.
  const first = () => openedBody(held.plan, freezeSources(shop.disk, shop.root, frozenTexts(held.plan)));
  const bodies = claim.journal.events.length > 0 ? decision.events : [first(), ...decision.events];
  const events = claim.journal.append(bodies, { by: decision.by, at, bench: shop.bench }, (last) =>
    sealAfter(shop, last),
  );
  held.state = apply(held.state, ...events);
  held.seen = 0;
  shop.steady.noted(shop.clock());
  shop.setups.forget();
  // The unit that replaces a scrapped one is another row.
  if (held.state.scrapped) shop.board.forget();
  else shop.board.update(held.job, held.id, held.state);
  return events;
}

/** A jump of the clock is in the journal before anything is decided by the time, and also where that is then refused. */
function timeNoted(shop: Shop, held: Held, claim: Claim, hand: Hand, found: Found): Result<Surroundings> {
  const around = shop.aroundSure(hand, held.plan.from, found);
  const { state } = held;
  if (!around.ok || state.events.length === 0 || state.finished || state.scrapped) return around;
  const { events } = jump(state, around.value);
  if (events.length === 0) return around;
  write(shop, held, claim, { events, by: 'nobody' }, around.value.now);
  return shop.aroundSure(hand, held.plan.from, found);
}

/** The seal that follows a finished or scrapped unit. A key that cannot be used keeps no unit from being finished: it is warned of. */
function sealAfter(shop: Shop, last: JournalEvent): EventBody | undefined {
  if (last.kind !== 'finished' && last.kind !== 'scrapped') return undefined;
  const key = benchKey(shop.disk, shop.root, shop.bench);
  if (!key.ok) shop.warnings = [...shop.warnings, ...key.problems];
  return sealedBody(last, key.ok ? key.value : undefined);
}
