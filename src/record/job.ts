/** The record of a whole job, or of all units in a period: the units' records in order under one seal. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { isSettled } from './afterblocks.js';
import { type Block, type BlockLine, type Document, tableOr } from './blocks.js';
import { sealOver, shortCode } from './codes.js';
import { exceptionsOf } from './exceptions.js';
import { collectionProofOf, proofText } from './proof.js';
import { registerBlocks } from './registerblocks.js';
import type { CollectionView, JobFilter, RecordView } from './schema.js';
import {
  type DocumentSay,
  finishedSays,
  joined,
  listed,
  massOf,
  printedAt,
  sealSays,
  sizeOf,
  tellingOf,
  wordsSay,
} from './telling.js';
import { countsLine, shortBlocks, takenBackTexts, unitBlocks } from './unitblocks.js';
import { madeBy, type RecordContext } from './view.js';

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
  const { say } = tellingOf(madeBy(context));
  const { kind, title, words } = described(chosen.asked, say);
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
    verdict: collectionVerdict(records, notBegun.length, say),
    missing: [
      ...(notBegun.length > 0
        ? [say('doc-units-not-begun', { n: notBegun.length, units: listed(say, notBegun) })]
        : []),
      ...records.flatMap(({ unit, missing, after }) =>
        missing.length === 0
          ? after && after.tone !== 'good'
            ? [say('doc-unit-after', { unit: unit.id, says: after.says })]
            : []
          : [
              missing.length > 1
                ? say('doc-unit-missing-more', { unit: unit.id, first: missing[0]!, n: missing.length - 1 })
                : say('doc-unit-missing', { unit: unit.id, first: missing[0]! }),
            ],
      ),
    ],
    remarks: [
      ...new Set(records.flatMap(({ remarks }) => remarks.filter((text) => ofAll(say).includes(text)))),
    ],
    seal: { hash, code: data(shortCode(hash)), closed, units: records.length },
    records: [...records],
  };
}

/** What is remarked on every record of a job is remarked once. */
const ofAll = (say: DocumentSay): Spoken[] => [
  say('doc-remark-invented'),
  say('doc-remark-invented-product'),
  say('doc-remark-initials'),
];

/** Title ("job pier-house", "units from 2026-03-01 to 2026-03-31"), and the filter in words, "" if there is none. */
function described({ job, since, until, snagged }: JobFilter, say: DocumentSay) {
  const period = periodOf({ since, until }, say);
  const snags = snagged ? say('doc-only-snagged') : data('');
  const worked = period && snagged ? say('doc-only-snagged-also', { only: period.only }) : period?.only;
  const words = worked ?? snags;
  return job === undefined
    ? { kind: 'period' as const, title: period?.title ?? say('doc-all-units'), words }
    : { kind: 'job' as const, title: say('doc-job', { job }), words };
}

function periodOf(
  { since, until }: Pick<JobFilter, 'since' | 'until'>,
  say: DocumentSay,
): { readonly title: Spoken; readonly only: Spoken } | undefined {
  if (since !== undefined && until !== undefined) {
    const both = { since, until };
    return { title: say('doc-units-between', both), only: say('doc-only-between', both) };
  }
  if (since !== undefined)
    return { title: say('doc-units-since', { since }), only: say('doc-only-since', { since }) };
  if (until !== undefined)
    return { title: say('doc-units-until', { until }), only: say('doc-only-until', { until }) };
  return undefined;
}

function collectionVerdict(
  records: readonly RecordView[],
  notBegun: number,
  say: DocumentSay,
): CollectionView['verdict'] {
  const all = records.length + notBegun;
  const finished = records.filter(({ verdict }) => verdict.finished).length;
  const scrapped = records.filter(({ verdict }) => verdict.standing === 'scrapped').length;
  const unsettled = records.filter((record) => !isSettled(record));
  const conceded = records.reduce((sum, { counts }) => sum + counts.conceded, 0);
  if (all === 0) return { line: say('doc-none-answers'), finished: false, tone: 'open' };
  if (finished + scrapped === all && finished > 0) {
    const also = [
      ...(scrapped > 0 ? [say('doc-units-scrapped', { n: scrapped })] : []),
      ...(conceded > 0 ? [say('doc-concessions', { n: conceded })] : []),
      ...(unsettled.length > 0 ? [say('doc-units-unsettled', { units: idsOf(unsettled, say) })] : []),
    ];
    const line = say('doc-all-released', { n: finished });
    return {
      line:
        also.length > 0 ? say('doc-all-released-also', { verdict: line, also: joined(also, '; ') }) : line,
      finished: true,
      tone: unsettled.length > 0 ? 'open' : 'good',
    };
  }
  const bad = records.some(({ verdict }) => verdict.tone === 'bad');
  return {
    line: say('doc-units-finished', { finished, of: all }),
    finished: false,
    tone: bad ? 'bad' : 'open',
  };
}

const idsOf = (records: readonly RecordView[], say: DocumentSay): Spoken =>
  listed(
    say,
    records.map(({ unit }) => unit.id),
  );

// A job's or period's record as blocks: the overall summary, one line per unit, then each unit's own record.

export function collectionDocument(view: CollectionView): Document {
  const { say } = tellingOf(view.made);
  return {
    title: say('doc-collection-title', { title: view.title }),
    subject: view.verdict.line,
    foot: footOf(view),
    say,
    author: view.workshop,
    at: view.made.at,
    proof: proofText(collectionProofOf(view)),
    layered: view.made.annex !== undefined,
    paper: view.made.paper,
    blocks: [
      ...frontBlocks(view),
      ...registerBlocks(view.made),
      ...(isShort(view)
        ? [
            { kind: 'text' as const, text: say('doc-period-short'), look: 'quiet' as const },
            ...view.records.filter(isToldOf).flatMap(shortBlocks),
          ]
        : view.records.flatMap((record) => unitBlocks(record, true))),
    ],
  };
}

/** A period is read for what was not right in it; the records of its units have the rest. */
const isShort = ({ kind, made }: CollectionView): boolean => kind === 'period' && made.annex === false;

/** Whether there is more to say of a unit than its row in the table of units. */
const isToldOf = (record: RecordView): boolean =>
  record.missing.length > 0 || record.after !== undefined || exceptionsOf(record).length > 0;

function frontBlocks(view: CollectionView): Block[] {
  const { say } = tellingOf(view.made);
  const printed = say('doc-printed', { time: printedAt(view.made) });
  const under = joined([view.customer, view.chosen, printed, wordsSay(say, view.made)], ', ');
  return [
    {
      kind: 'title',
      over: view.workshop,
      text: say('doc-collection-heading', { title: view.title }),
      under,
      newPage: false,
    },
    { kind: 'verdict', text: view.verdict.line, under: totals(view.records, say), tone: view.verdict.tone },
    ...(view.missing.length > 0
      ? [
          { kind: 'heading' as const, level: 2 as const, text: say('doc-missing') },
          { kind: 'list' as const, items: view.missing, tone: 'bad' as const },
        ]
      : view.verdict.finished
        ? [{ kind: 'text' as const, text: say('doc-nothing-missing'), look: 'strong' as const }]
        : []),
    ...(view.remarks.length > 0
      ? [{ kind: 'list' as const, items: view.remarks, tone: 'open' as const }]
      : []),
    ...tableOr(
      say('doc-units'),
      say('doc-no-units'),
      [
        say('doc-col-unit'),
        say(
          view.records.some(({ unit }) => unit.product !== undefined)
            ? 'doc-product-label'
            : 'doc-col-window',
        ),
        say('doc-col-verdict'),
        say('doc-col-figures'),
        say('doc-col-code'),
      ],
      view.made.annex === undefined ? [1, 3.2, 2.6, 3.6, 1.8] : [1.9, 3.2, 2.2, 3.6, 2],
      view.records.map((record) => [
        [
          { text: record.unit.id, look: 'strong' as const },
          { text: view.kind === 'period' ? record.unit.job : data(''), look: 'quiet' as const },
          { text: record.unit.room, look: 'quiet' as const },
        ].filter(({ text }) => text !== ''),
        [
          ...(record.unit.width === undefined ? [] : [{ text: sizeOf(record.unit) }]),
          { text: record.unit.sentence },
          ...(record.unit.mass === undefined ? [] : [{ text: massOf(record.unit), look: 'quiet' as const }]),
        ] satisfies BlockLine[],
        [
          { text: record.verdict.line, look: record.verdict.tone },
          ...(record.after
            ? [{ text: say('doc-unit-after-says', { says: record.after.says }), look: record.after.tone }]
            : []),
        ],
        countsLine(record),
        [{ text: record.seal.code || say('doc-none'), look: 'code' as const }],
      ]),
    ),
    ...(view.records.length === 0 ? [] : sealOfAll(view)),
  ];
}

function sealOfAll(view: CollectionView): Block[] {
  const { say } = tellingOf(view.made);
  return [
    {
      kind: 'heading',
      level: 2,
      text: say(view.seal.closed ? 'doc-all-sealed' : 'doc-all-state'),
    },
    {
      kind: 'facts',
      caption: say('doc-all-sealed'),
      rows: [
        [say('doc-short-code'), [{ text: view.seal.code, look: 'strong' }]],
        [say('doc-hash'), [{ text: data(view.seal.hash), look: 'code' }]],
        [say('doc-covers'), say('doc-covers-units', { n: view.seal.units })],
      ],
    },
  ];
}

function footOf({ made, workshop, title, verdict, seal, records }: CollectionView): Spoken {
  const { say } = tellingOf(made);
  if (records.length === 0) return say('doc-collection-foot-none', { workshop, title });
  const state = finishedSays(say, verdict);
  return say('doc-collection-foot', { workshop, title, state, seal: sealSays(say, seal) });
}

function totals(records: readonly RecordView[], say: DocumentSay): Spoken {
  const known = records.flatMap(({ counts }) => counts.again ?? []);
  const again = known.length === 0 ? undefined : known.reduce((total, n) => total + n, 0);
  const sum = (key: 'checks' | 'passed' | 'failed' | 'conceded' | 'snags' | 'snagsOpen' | 'corrections') =>
    records.reduce((total, { counts }) => total + counts[key], 0);
  const later = records.reduce((total, { after }) => total + (after?.snags ?? 0), 0);
  return joined(
    [
      say('doc-total-units', { n: records.length }),
      say('doc-count-passed', { passed: sum('passed'), of: sum('checks') }),
      ...(sum('failed') > 0 ? [say('doc-count-failed', { n: sum('failed') })] : []),
      ...(sum('conceded') > 0 ? [say('doc-count-conceded', { n: sum('conceded') })] : []),
      sum('snags') === 0
        ? say('doc-count-no-snags')
        : say('doc-total-snags', { n: sum('snags'), open: sum('snagsOpen') }),
      ...(later > 0 ? [say('doc-total-later', { n: later })] : []),
      ...takenBackTexts(say, sum('corrections'), again),
    ],
    '; ',
  );
}
