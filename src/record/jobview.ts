/** The record of a whole job, or of every unit chosen by a period: the units' records in order under one seal. */
import { plain } from '../base/text.js';
import type { RecordContext } from './context.js';
import type { Asked, CollectionView, RecordView } from './schema.js';
import { sealOver, shortCode } from './seal.js';
import { listed, plural } from './words.js';

export interface Chosen {
  readonly asked: Asked;
  /** Ids of units that the job lists but that have no journal yet, in order. */
  readonly notBegun?: readonly string[];
}

export function collectionView(
  records: readonly RecordView[],
  chosen: Chosen,
  context: RecordContext,
): CollectionView {
  const { kind, title, words } = described(chosen.asked);
  const notBegun = (words === '' ? (chosen.notBegun ?? []) : []).map(plain);
  const hash = sealOver(records.map(({ seal }) => seal.hash));
  const closed = records.length > 0 && notBegun.length === 0 && records.every(({ seal }) => seal.closed);
  return {
    format: 'pinchrod-records 1',
    kind,
    title: plain(title),
    made: { at: context.at, program: plain(context.program), initials: context.initials },
    workshop: plain(context.workshop),
    customer: plain(context.customer),
    asked: chosen.asked,
    chosen: plain(words),
    notBegun,
    verdict: collectionVerdict(records, notBegun.length),
    missing: [
      ...(notBegun.length > 0
        ? [`${notBegun.length === 1 ? 'Unit' : 'Units'} not begun: ${listed(notBegun)}.`]
        : []),
      ...records.flatMap(({ unit, missing }) =>
        missing.length === 0
          ? []
          : [
              `${unit.id}: ${missing[0]}${missing.length > 1 ? ` And ${plural(missing.length - 1, 'more thing')}; see its record.` : ''}`,
            ],
      ),
    ],
    remarks: [
      ...new Set(records.flatMap(({ remarks }) => remarks.filter((text) => /invented|initials/.test(text)))),
    ],
    seal: { hash, code: shortCode(hash), closed, units: records.length },
    records: [...records],
  };
}

/** "job pier-house", "units from 2026-03-01 to 2026-03-31", and which of them, in words: "" where all are meant. */
function described({ job, since, until, snagged }: Asked) {
  const period = [
    ...(since === undefined ? [] : [`from ${since}`]),
    ...(until === undefined ? [] : [`to ${until}`]),
  ].join(' ');
  const which = [...(period === '' ? [] : [`worked on ${period}`]), ...(snagged ? ['with a snag'] : [])].join(
    ', ',
  );
  const words = which === '' ? '' : `only units ${which}`;
  return job === undefined
    ? { kind: 'period' as const, title: period === '' ? 'all units' : `units ${period}`, words }
    : { kind: 'job' as const, title: `job ${job}`, words };
}

function collectionVerdict(records: readonly RecordView[], notBegun: number): CollectionView['verdict'] {
  const all = records.length + notBegun;
  const finished = records.filter(({ verdict }) => verdict.finished).length;
  const scrapped = records.filter(({ verdict }) => verdict.standing === 'scrapped').length;
  const conceded = records.reduce((sum, { counts }) => sum + counts.conceded, 0);
  if (all === 0) return { line: 'No unit answers to what was asked for', finished: false, tone: 'open' };
  if (finished + scrapped === all && finished > 0) {
    const also = [
      ...(scrapped > 0 ? [`${plural(scrapped, 'unit')} scrapped`] : []),
      ...(conceded > 0 ? [plural(conceded, 'concession')] : []),
    ];
    const line = `${finished === 1 ? 'The unit is' : `All ${finished} units are`} finished and released`;
    return { line: also.length > 0 ? `${line}; ${also.join('; ')}` : line, finished: true, tone: 'good' };
  }
  const bad = records.some(({ verdict }) => verdict.tone === 'bad');
  return {
    line: `NOT FINISHED: ${finished} of ${plural(all, 'unit')} finished`,
    finished: false,
    tone: bad ? 'bad' : 'open',
  };
}
