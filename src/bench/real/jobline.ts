/** A job's units as the board shows them. */
import { replacedBy } from '../../build/replacement.js';
import { hashBytes } from '../../store/files.js';
import { sentenceOf } from '../../window/handing.js';
import type { Job } from '../../window/job.js';
import type { Layout, Unit } from '../../window/types.js';
import type { JobLine } from './index.js';

export const jobLines = (job: Job): readonly JobLine[] => job.units.map(lineOf);

function lineOf(unit: Unit): JobLine {
  return {
    id: unit.id,
    size: `${unit.width} x ${unit.height}`,
    sentence: lightsOf(unit.layout).join('; '),
    print: printOf(unit),
  };
}

/**
 * Changes when anything changes that the job says of this unit; another unit's line or the job's title does not. A unit
 * built in place of a scrapped one has the print of that.
 */
export const printOf = (unit: Unit): string =>
  hashBytes(Buffer.from(JSON.stringify({ ...unit, id: replacedBy(unit.id)?.listed ?? unit.id })));

function lightsOf(layout: Layout): readonly string[] {
  return layout.type === 'light' ? [sentenceOf(layout.kind, layout.hinge)] : layout.parts.flatMap(lightsOf);
}
