/** A job's or a period's record as blocks: what stands first for all, one line a unit, then each unit's own record. */
import { type Block, type Document, type Line, tableOr } from './blocks.js';
import { collectionProofOf, proofText } from './proof.js';
import type { CollectionView, RecordView } from './schema.js';
import { countsLine, unitBlocks } from './unitblocks.js';
import { kilograms, plural, size, when } from './words.js';

export function collectionDocument(view: CollectionView): Document {
  return {
    title: `Quality record, ${view.title}`,
    subject: view.verdict.line,
    foot: `${view.workshop}: ${view.title}. ${footOf(view)}`,
    author: view.workshop,
    at: view.made.at,
    proof: proofText(collectionProofOf(view)),
    blocks: [...frontBlocks(view), ...view.records.flatMap((record) => unitBlocks(record, true))],
  };
}

function frontBlocks(view: CollectionView): Block[] {
  const under = [view.customer, view.chosen, `printed ${when(view.made.at)} UTC`]
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
        ] satisfies Line[],
        [{ text: record.verdict.line, look: record.verdict.tone }],
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
  const sum = (key: 'checks' | 'passed' | 'failed' | 'conceded' | 'snags' | 'snagsOpen' | 'corrections') =>
    records.reduce((total, { counts }) => total + counts[key], 0);
  return [
    plural(records.length, 'unit'),
    `${sum('passed')} of ${plural(sum('checks'), 'check')} passed`,
    ...(sum('failed') > 0 ? [`${sum('failed')} failed`] : []),
    ...(sum('conceded') > 0 ? [`${sum('conceded')} conceded`] : []),
    sum('snags') === 0 ? 'no snags' : `${plural(sum('snags'), 'snag')}, ${sum('snagsOpen')} open`,
    sum('corrections') === 0 ? 'nothing corrected' : plural(sum('corrections'), 'correction'),
  ].join('; ');
}
