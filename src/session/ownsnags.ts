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
import { lateHead, lateUses, type UseEnded } from '../unit/lateuse.js';
import type { OpenedUnit } from './openunit.js';

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

/** Likewise a snag for each thing that had been ended when this bench used it on the unit. */
export function raiseLate(
  shop: SnagPlace,
  held: OpenedUnit,
  ended: readonly UseEnded[],
): readonly JournalEvent[] {
  const { state, claim } = held;
  if (!claim || state.events.length === 0) return [];
  const bodies = ended.flatMap((each): EventBody[] => {
    const head = lateHead(each);
    const uses = lateUses(state.events, shop.bench, each);
    if (uses.length === 0 || isSaid(state.events, head)) return [];
    const text = `${head}; ${shop.bench} used it afterwards, before it heard of that: ${uses.length === 1 ? 'line' : 'lines'} ${uses.join(', ')}.`;
    if (state.finished || state.scrapped) return [{ kind: 'noted', text }];
    const touches = { unit: true, ...(each.kind === 'setup' ? { setup: each.id } : {}) };
    return [
      {
        kind: 'snag-raised',
        severity: 'major',
        cause: each.kind === 'setup' ? 'set-up' : 'instrument',
        text,
        touches,
      },
    ];
  });
  return bodies.length === 0 ? [] : append(shop, held, bodies);
}

const isSaid = (events: readonly JournalEvent[], head: string): boolean =>
  events.some(
    (event) =>
      (event.kind === 'snag-raised' || event.kind === 'noted') &&
      event.by === 'nobody' &&
      event.text.startsWith(head),
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
  const benches = [...new Set(lines.map(({ bench }) => bench))].join(', ') || 'another bench';
  const text = `${name}: ${lines.length} ${lines.length === 1 ? 'line' : 'lines'} that ${benches} gave on ${id} while another bench wrote it count for nothing until this is decided`;
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
