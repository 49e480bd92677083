/**
 * A branch that nobody has been told of becomes a snag of the unit: what another bench gave meanwhile counts for nothing
 * until a person decides what to make of it.
 */
import { branchesOf } from '../store/branches.js';
import type { Disk } from '../store/disk.js';
import { readEvents } from '../store/journal.js';
import { branchName } from '../store/paths.js';
import type { EventBody, JournalEvent } from '../unit/events.js';
import { apply } from '../unit/fold.js';
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
  const events = claim.journal.append(bodies, { by: 'nobody', at: shop.now(), bench: shop.bench });
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
  const text = `${name}: ${lines.length} ${lines.length === 1 ? 'line' : 'lines'} that ${benches} gave on ${id} after it had been taken over. They count for nothing here.`;
  if (state.finished || state.scrapped) return { kind: 'noted', text };
  return {
    kind: 'snag-raised',
    severity: 'major',
    cause: 'taken over',
    text,
    touches: { unit: true },
    branch: name,
  };
}
