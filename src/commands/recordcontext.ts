/** What a unit's record needs of the workshop as it is now: names, instruments, particulars. */
import type { RecordContext } from '../record/context.js';
import type { Workshop } from '../store/workshop.js';
import type { LoadedUnit } from './unitload.js';

declare const PINCHROD_VERSION: string;

/** @param made when the document is made (UTC ISO 8601), by which program where it is not this one, and how names stand in it */
export function recordContextOf(
  workshop: Workshop,
  unit: LoadedUnit | undefined,
  made: { readonly at: string; readonly initials: boolean; readonly program?: string },
): RecordContext {
  return {
    workshop: workshop.particulars.maker || workshop.rules.name,
    customer: unit?.plan.from.job.customer ?? '',
    people: workshop.rules.people,
    instruments: workshop.instruments,
    at: made.at,
    program: made.program ?? programName(),
    initials: made.initials,
    triangle: workshop.rules.openingTriangle,
    ...(unit && !unit.sameSetOut
      ? {
          remarks: [
            'The set-out worked out by this version of the program is not the one that was frozen when the unit was begun.',
          ],
        }
      : {}),
  };
}

export const programName = (): string =>
  `pinchrod ${typeof PINCHROD_VERSION === 'undefined' ? 'from source' : PINCHROD_VERSION}`;
