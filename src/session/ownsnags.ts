/**
 * Snags that a bench of a shop raises by itself. A branch that nobody has been told of: what another bench gave meanwhile
 * counts for nothing until a person decides what to make of it. And answers that were given with what had been ended
 * elsewhere, before this bench heard of it.
 */
import { branchesOf } from '../store/branches.js';
import type { Disk } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { branchName } from '../store/paths.js';
import type { EventBody, JournalEvent } from '../unit/events.js';
import { apply } from '../unit/fold.js';
import { type LateUse, lateHead, lateUses, type UseEnded } from '../unit/lateuse.js';
import type { OpenedUnit } from './openunit.js';
import { sessionSays } from './words.js';

interface SnagPlace {
  readonly disk: Disk;
  readonly root: string;
  readonly bench: string;
  now(): string;
}

/**
 * Writes a snag for each such branch of the unit, which is held for writing; a closed unit gets a note. Returns what was
 * written. Throws StoreError.
 */
export function raiseBranches(shop: SnagPlace, held: OpenedUnit): readonly JournalEvent[] {
  const { claim, job, id } = held;
  if (!claim || held.state.events.length === 0) return [];
  const bodies = branchesOf(shop.disk, shop.root, job, id)
    .map((number) => branchName(id, number))
    .filter((name) => !isTold(held.state.events, name))
    .map((name) => told(shop, held, name));
  if (bodies.length === 0) return [];
  return append(shop, held, bodies);
}

/** Likewise a snag on each check that this bench answered with something after it had been ended. */
export function raiseLate(
  shop: SnagPlace,
  held: OpenedUnit,
  ended: readonly UseEnded[],
): readonly JournalEvent[] {
  const { state, claim } = held;
  if (!claim || state.events.length === 0) return [];
  const bodies = ended.flatMap((each) => {
    const uses = lateUses(state.events, shop.bench, each).filter(
      ({ check }) => !isSaid(state.events, each, check),
    );
    if (uses.length === 0) return [];
    return state.finished || state.scrapped
      ? [lateNote(shop.bench, each, uses)]
      : uses.map((use) => lateSnag(shop.bench, each, use));
  });
  return bodies.length === 0 ? [] : append(shop, held, bodies);
}

function lateSnag(bench: string, ended: UseEnded, { step, check, lines }: LateUse): EventBody {
  const isSetup = ended.kind === 'setup';
  return {
    kind: 'snag-raised',
    step,
    check,
    severity: 'major',
    cause: isSetup ? 'set-up' : 'instrument',
    text: sessionSays('late-snag', {
      head: lateHead(ended),
      bench,
      n: lines.length,
      lines: lines.map(String),
    }),
    touches: { unit: true, ...(isSetup ? { setup: ended.id } : {}) },
  };
}

/** On a unit that is closed. */
const lateNote = (bench: string, ended: UseEnded, uses: readonly LateUse[]): EventBody => ({
  kind: 'noted',
  text: sessionSays('late-note', {
    head: lateHead(ended),
    bench,
    checks: uses.map(({ check, lines }) =>
      sessionSays('late-lines', { check, n: lines.length, lines: lines.map(String) }),
    ),
  }),
});

/** On a closed unit it is said of all checks at once. */
const isSaid = (events: readonly JournalEvent[], ended: UseEnded, check: string): boolean =>
  events.some(
    (event) =>
      ((event.kind === 'snag-raised' && event.check === check) || event.kind === 'noted') &&
      event.by === 'nobody' &&
      event.text.startsWith(lateHead(ended)),
  );

function append(shop: SnagPlace, held: OpenedUnit, bodies: readonly EventBody[]): readonly JournalEvent[] {
  const stamp = { by: 'nobody', at: shop.now(), bench: shop.bench };
  const events = held.claim!.journal.append(bodies, stamp);
  held.state = apply(held.state, ...events);
  return events;
}

const isTold = (events: readonly JournalEvent[], name: string): boolean =>
  events.some((event) => (event.kind === 'snag-raised' && event.branch === name) || isNoteOf(event, name));

const isNoteOf = (event: JournalEvent, name: string): boolean =>
  event.kind === 'noted' && event.by === 'nobody' && event.text.startsWith(`${name}: `);

function told(shop: SnagPlace, { job, id, state }: OpenedUnit, name: string): EventBody {
  const own = new Set(state.events.map(({ hash }) => hash));
  const branch = readEvents(shop.disk, shop.root, job, name);
  const lines = branch.ok ? branch.value.filter(({ hash }) => !own.has(hash)) : [];
  const benches = [...new Set(lines.map(({ bench }) => bench))].join(', ') || sessionSays('another-bench');
  const text = sessionSays('branch-lines', { branch: name, n: lines.length, benches, unit: id });
  if (state.finished || state.scrapped) return { kind: 'noted', text };
  return {
    kind: 'snag-raised',
    severity: 'major',
    cause: 'branch',
    text,
    touches: { unit: true },
    branch: name,
  };
}
