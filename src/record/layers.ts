/**
 * The record of a unit in layers: page one for five seconds, the exceptions with their reasons, the measured values, drawings,
 * materials and people, one line a step for what passed; then, if asked for, everything as an annex.
 */
import { data, type Spoken } from '../base/words.js';
import { afterBlocks } from './afterblocks.js';
import { type Block, type BlockLine, type Cell, tableOr } from './blocks.js';
import { checkTables } from './checkblocks.js';
import { EXCEPTION_KINDS, type Exception, exceptionsOf } from './exceptions.js';
import { historyBlocks, noteBlocks } from './historyblocks.js';
import { materialLayer } from './materiallayer.js';
import { measuredBlocks, measuredIn } from './measuredblocks.js';
import { passedBlocks } from './passedblocks.js';
import type { RecordView } from './schema.js';
import { sealBlocks } from './sealblocks.js';
import { joined, listed, type Telling, tellingOf, toMinute } from './telling.js';

/** More links of one kind would hide what the kind is. */
const MOST_LINKS = 6;

/** Where rows of tables are led to: once in a document, though it holds several units. */
const anchorsOf =
  ({ unit: { job, id } }: RecordView) =>
  (row: string): string =>
    `${job}/${id}/${row}`;

/** How many there are of what was not right at once, each with links to its rows. */
export function glanceBlock(view: RecordView): Block {
  const { say } = tellingOf(view.made);
  const anchor = anchorsOf(view);
  const exceptions = exceptionsOf(view);
  const rows = EXCEPTION_KINDS.flatMap((kind): [Spoken, Cell][] => {
    const of = exceptions.filter((each) => each.kind === kind);
    if (of.length === 0) return [];
    const links = of.slice(0, MOST_LINKS).map(
      ({ row, what }): BlockLine => ({
        text: say('doc-glance-row', { row: data(row), what }),
        to: anchor(row),
      }),
    );
    const more = of.length - links.length;
    return [
      [
        joined([say(`doc-glance-${kind}`), data(String(of.length))], ': '),
        more > 0
          ? [...links, { text: say('doc-more', { n: more }), to: anchor(of[MOST_LINKS]!.row) }]
          : links,
      ],
    ];
  });
  // What came after the release is a chapter of its own.
  if (view.after) rows.unshift([say('doc-after'), [{ text: view.after.says, look: view.after.tone }]]);
  const none = EXCEPTION_KINDS.filter((kind) => exceptions.every((each) => each.kind !== kind));
  if (none.length > 0)
    rows.push([
      say('doc-glance-none'),
      say('doc-glance-none-of', {
        kinds: joined(
          none.map((kind) => say(`doc-glance-${kind}`)),
          ', ',
        ),
      }),
    ]);
  return { kind: 'facts', caption: say('doc-glance'), rows };
}

/** All that follows page one. */
export function layerBlocks(view: RecordView): Block[] {
  const { say } = tellingOf(view.made);
  return [
    ...exceptionBlocks(view, true),
    ...measuredBlocks(view, anchorsOf(view)),
    ...passedBlocks(view),
    ...drawnBlocks(view),
    ...holdBlocks(view),
    // With the annex they stand there.
    ...(view.made.annex ? [] : noteBlocks(view)),
    ...materialLayer(view),
    ...sealBlocks(view),
    ...afterBlocks(view),
    ...(view.made.annex
      ? [...historyBlocks(view), ...checkTables(view)]
      : [
          {
            kind: 'text' as const,
            text: say('doc-annex-left-out', { unit: view.unit.id }),
            look: 'quiet' as const,
          },
        ]),
  ];
}

/** With the measured value that each is about, where the record shows those. */
export function exceptionBlocks(view: RecordView, withMeasured = false): Block[] {
  const telling = tellingOf(view.made);
  const { say } = telling;
  const anchor = anchorsOf(view);
  const exceptions = exceptionsOf(view);
  const measured = new Map(withMeasured ? measuredIn(view).map(({ id }, i) => [id, `M${i + 1}`]) : []);
  const [head, table] = tableOr(
    say('doc-exceptions'),
    say('doc-no-exceptions'),
    [say('doc-col-row'), say('doc-col-exception'), say('doc-col-reason'), say('doc-col-person-time')],
    [0.9, 5, 5.4, 2.6],
    exceptions.map((each) => exceptionRow(each, measured.get(each.check ?? ''), anchor, telling)),
  );
  if (exceptions.length === 0) return [head!, table!];
  return [
    head!,
    { ...(table as Block & { kind: 'table' }), marks: exceptions.map(({ row }) => anchor(row)) },
  ];
}

function exceptionRow(
  { kind, row, lines, why, by, at, line: n }: Exception,
  measured: string | undefined,
  anchor: (row: string) => string,
  { say, when }: Telling,
): readonly Cell[] {
  return [
    [{ text: data(row), look: 'strong' }],
    [
      { text: say(`doc-glance-${kind}`), look: kind === 'failed' ? 'bad' : 'open' },
      ...lines,
      ...(measured === undefined
        ? []
        : [{ text: say('doc-exception-measured', { row: data(measured) }), to: anchor(measured) }]),
    ],
    why,
    [
      { text: by },
      ...(at === '' || n === undefined
        ? []
        : [{ text: say('doc-at-line', { time: when(at), n }), look: 'quiet' as const }]),
    ],
  ];
}

function drawnBlocks({ asMeasured, made }: RecordView): Block[] {
  if (asMeasured.length === 0) return [];
  return [
    { kind: 'heading', level: 2, text: tellingOf(made).say('doc-as-measured') },
    { kind: 'text', text: tellingOf(made).say('doc-drawn-says'), look: 'quiet' },
    // The readings stand in the table of measured values.
    { kind: 'figures', small: true, figures: asMeasured.map((figure) => ({ ...figure, facts: [] })) },
  ];
}

/** One line a hold; what was out of the ordinary stands among the exceptions. */
function holdBlocks(view: RecordView): Block[] {
  const { say, when } = tellingOf(view.made);
  return tableOr(
    say('doc-holds-short'),
    say('doc-no-holds'),
    [say('doc-col-hold'), say('doc-col-asked-at'), say('doc-col-person-time'), say('doc-col-how')],
    [3.6, 5, 4, 2.1],
    view.holds.map((hold): readonly Cell[] => [
      hold.title,
      hold.step,
      hold.released
        ? say('doc-by-at', {
            name: hold.by ?? data(''),
            time: hold.at === undefined ? data('') : toMinute(when(hold.at)),
          })
        : [{ text: say('doc-hold-open'), look: 'bad' }],
      listed(say, [
        ...(hold.byChecks ? [say('doc-by-checks')] : []),
        ...(hold.pin ? [say('doc-with-pin')] : []),
        ...hold.evidence.map(({ name }) => say('doc-evidence', { name })),
      ]),
    ]),
  );
}
