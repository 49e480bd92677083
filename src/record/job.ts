/** The record of a whole job, or of all units in a period: the units' records in order under one seal. */
import { sanitize } from '../base/text.js';
import { isSettled } from './afterblocks.js';
import { type Block, type BlockLine, type Document, tableOr } from './blocks.js';
import { sealOver, shortCode } from './codes.js';
import { collectionProofOf, proofText } from './proof.js';
import { registerBlocks } from './registerblocks.js';
import type { CollectionView, JobFilter, RecordView } from './schema.js';
import { countsLine, takenBackTexts, unitBlocks } from './unitblocks.js';
import { madeBy, type RecordContext } from './view.js';
import { kilograms, listed, plural, printedAt, size } from './words.js';

export interface Chosen {
  readonly asked: JobFilter;
  /** Units the job lists that have no journal yet, in order. */
  readonly notBegun?: readonly string[];
}

export function collectionView(
  records: readonly RecordView[],
  chosen: Chosen,
  context: RecordContext,
): CollectionView {
  const { kind, title, words } = described(chosen.asked);
  const notBegun = (words === '' ? (chosen.notBegun ?? []) : []).map(sanitize);
  const hash = sealOver(records.map(({ seal }) => seal.hash));
  const closed = records.length > 0 && notBegun.length === 0 && records.every(({ seal }) => seal.closed);
  return {
    format: 'pinchrod-records 1',
    kind,
    title: sanitize(title),
    made: madeBy(context),
    workshop: records.at(-1)?.workshop ?? sanitize(context.maker.name),
    customer: sanitize(context.customer),
    asked: chosen.asked,
    chosen: sanitize(words),
    notBegun,
    verdict: collectionVerdict(records, notBegun.length),
    missing: [
      ...(notBegun.length > 0
        ? [`${notBegun.length === 1 ? 'Unit' : 'Units'} not begun: ${listed(notBegun)}.`]
        : []),
      ...records.flatMap(({ unit, missing, after }) =>
        missing.length === 0
          ? after && after.tone !== 'good'
            ? [`${unit.id}, after release: ${after.says}.`]
            : []
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

/** Title ("job pier-house", "units from 2026-03-01 to 2026-03-31"), and the filter in words, "" if there is none. */
function described({ job, since, until, snagged }: JobFilter) {
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
  const unsettled = records.filter((record) => !isSettled(record));
  const conceded = records.reduce((sum, { counts }) => sum + counts.conceded, 0);
  if (all === 0) return { line: 'No unit answers to what was asked for', finished: false, tone: 'open' };
  if (finished + scrapped === all && finished > 0) {
    const also = [
      ...(scrapped > 0 ? [`${plural(scrapped, 'unit')} scrapped`] : []),
      ...(conceded > 0 ? [plural(conceded, 'concession')] : []),
      ...(unsettled.length > 0
        ? [`after release, NOT SETTLED: ${listed(unsettled.map(({ unit }) => unit.id))}`]
        : []),
    ];
    const line = `${finished === 1 ? 'The unit is' : `All ${finished} units are`} finished and released`;
    return {
      line: also.length > 0 ? `${line}; ${also.join('; ')}` : line,
      finished: true,
      tone: unsettled.length > 0 ? 'open' : 'good',
    };
  }
  const bad = records.some(({ verdict }) => verdict.tone === 'bad');
  return {
    line: `NOT FINISHED: ${finished} of ${plural(all, 'unit')} finished`,
    finished: false,
    tone: bad ? 'bad' : 'open',
  };
}

// A job's or period's record as blocks: the overall summary, one line per unit, then each unit's own record.

export function collectionDocument(view: CollectionView): Document {
  return {
    title: `Quality record, ${view.title}`,
    subject: view.verdict.line,
    foot: `${view.workshop}: ${view.title}. ${footOf(view)}`,
    author: view.workshop,
    at: view.made.at,
    proof: proofText(collectionProofOf(view)),
    blocks: [
      ...frontBlocks(view),
      ...registerBlocks(view.made),
      ...view.records.flatMap((record) => unitBlocks(record, true)),
    ],
  };
}

function frontBlocks(view: CollectionView): Block[] {
  const under = [view.customer, view.chosen, `printed ${printedAt(view.made)}`]
    .filter((part) => part !== '')
    .join(', ');
  return [
    { kind: 'title', over: view.workshop, text: `Quality record: ${view.title}`, under, newPage: false },
    { kind: 'verdict', text: view.verdict.line, under: totals(view.records), tone: view.verdict.tone },
    ...(view.missing.length > 0
      ? [
          { kind: 'heading' as const, level: 2 as const, text: 'What is missing' },
          { kind: 'list' as const, items: view.missing, tone: 'bad' as const },
        ]
      : view.verdict.finished
        ? [{ kind: 'text' as const, text: 'Nothing is missing.', look: 'strong' as const }]
        : []),
    ...(view.remarks.length > 0
      ? [{ kind: 'list' as const, items: view.remarks, tone: 'open' as const }]
      : []),
    ...tableOr(
      'Units',
      'There are none.',
      ['Unit', 'Window', 'Verdict', 'In figures', 'Short code'],
      [1, 3.2, 2.6, 3.6, 1.8],
      view.records.map((record) => [
        [
          { text: record.unit.id, look: 'strong' as const },
          { text: view.kind === 'period' ? record.unit.job : '', look: 'quiet' as const },
          { text: record.unit.room, look: 'quiet' as const },
        ].filter(({ text }) => text !== ''),
        [
          ...(record.unit.width === undefined
            ? []
            : [{ text: size(record.unit.width, record.unit.height ?? 0) }]),
          { text: record.unit.sentence },
          ...(record.unit.mass === undefined
            ? []
            : [{ text: kilograms(record.unit.mass), look: 'quiet' as const }]),
        ] satisfies BlockLine[],
        [
          { text: record.verdict.line, look: record.verdict.tone },
          ...(record.after ? [{ text: `After release: ${record.after.says}`, look: record.after.tone }] : []),
        ],
        countsLine(record),
        [{ text: record.seal.code || 'none', look: 'code' as const }],
      ]),
    ),
    ...(view.records.length === 0 ? [] : sealBlocks(view)),
  ];
}

function sealBlocks(view: CollectionView): Block[] {
  return [
    {
      kind: 'heading',
      level: 2,
      text: view.seal.closed ? 'Seal of all units' : 'State of all units (not sealed)',
    },
    {
      kind: 'facts',
      caption: 'Seal of all units',
      rows: [
        ['Short code', [{ text: view.seal.code, look: 'strong' }]],
        ['Hash', [{ text: view.seal.hash, look: 'code' }]],
        [
          'Covers',
          `the last hashes of ${plural(view.seal.units, 'unit')}, in the order above, each followed by a line feed`,
        ],
      ],
    },
  ];
}

const footOf = ({ verdict, seal, records }: CollectionView): string =>
  records.length === 0
    ? 'No unit.'
    : `${verdict.finished ? 'Finished' : 'NOT FINISHED'}. ${seal.closed ? 'Seal' : 'State'} ${seal.code}`;

function totals(records: readonly RecordView[]): string {
  const known = records.flatMap(({ counts }) => counts.again ?? []);
  const again = known.length === 0 ? undefined : known.reduce((total, n) => total + n, 0);
  const sum = (key: 'checks' | 'passed' | 'failed' | 'conceded' | 'snags' | 'snagsOpen' | 'corrections') =>
    records.reduce((total, { counts }) => total + counts[key], 0);
  const later = records.reduce((total, { after }) => total + (after?.snags ?? 0), 0);
  return [
    plural(records.length, 'unit'),
    `${sum('passed')} of ${plural(sum('checks'), 'check')} passed`,
    ...(sum('failed') > 0 ? [`${sum('failed')} failed`] : []),
    ...(sum('conceded') > 0 ? [`${sum('conceded')} conceded`] : []),
    sum('snags') === 0 ? 'no snags' : `${plural(sum('snags'), 'snag')}, ${sum('snagsOpen')} open`,
    ...(later > 0 ? [`${plural(later, 'snag')} after release`] : []),
    ...takenBackTexts(sum('corrections'), again),
  ].join('; ');
}
