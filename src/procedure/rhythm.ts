/** How often a fact is due. */

/**
 * unit: on each unit. part: on each piece of it, as one set of readings. batch: once for a job's units made in one sitting
 * at one bench under one set-up. first-off: once for each set-up. lot: once for each lot. shift: once a shift at a bench.
 * job: once for the units of an order. nth: on every nth unit of a batch.
 */
export const RHYTHMS = ['part', 'unit', 'batch', 'first-off', 'lot', 'shift', 'job', 'nth'] as const;
export type Rhythm = (typeof RHYTHMS)[number];

/** Asked of one unit; the others cite its answer. */
export type SharedRhythm = Exclude<Rhythm, 'part' | 'unit'>;

const OWN: ReadonlySet<Rhythm> = new Set<Rhythm>(['part', 'unit']);

export const isShared = (rhythm: Rhythm | undefined): rhythm is SharedRhythm =>
  rhythm !== undefined && !OWN.has(rhythm);

/** An act that belongs to no single unit: a batch's belongs to each of its units. */
export const isOfTheShop = (rhythm: Rhythm | undefined): boolean =>
  isShared(rhythm) && rhythm !== 'batch' && rhythm !== 'nth';
