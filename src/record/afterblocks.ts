/** The chapter "after release" as blocks, and the line of the first page that leads to it. */
import { type Block, tableOr } from './blocks.js';
import type { RecordView } from './schema.js';
import { plural, whenIn } from './words.js';

const AFTER = 'After release';
const NOTHING = 'nothing was recorded';

/** Version 0.1.0 had neither. */
const has = ({ seal, told }: RecordView): boolean => seal.closed && told !== undefined;

/** Whether what came after the release, if anything did, is settled. */
export const isSettled = ({ after }: RecordView): boolean => (after?.tone ?? 'good') === 'good';

/** The verdict of the release, and how the unit stands now where that is something else. */
export const standsNow = (view: RecordView): string =>
  isSettled(view)
    ? view.verdict.line
    : `${view.verdict.line}; since then ${view.after!.tone === 'bad' ? 'SCRAPPED' : 'NOT SETTLED'}`;

export function afterLink(view: RecordView): Block[] {
  const when = whenIn(view.made.zone);
  if (!has(view)) return [];
  return [
    {
      kind: 'link',
      text: `Closed ${when(view.seal.at)}${view.seal.by === undefined ? '' : ` by ${view.seal.by}`}. ${AFTER}: ${view.after?.says ?? NOTHING}.`,
      to: AFTER,
      calm: isSettled(view),
    },
  ];
}

export function afterBlocks(view: RecordView): Block[] {
  const when = whenIn(view.made.zone);
  if (!has(view)) return [];
  const { after } = view;
  const heading: Block = { kind: 'heading', level: 2, text: AFTER };
  if (!after)
    return [
      heading,
      { kind: 'text', text: `Up to when this was printed, ${NOTHING}: all that was done stands above.` },
    ];
  const [head, ...table] = tableOr(
    AFTER,
    '',
    ['What', 'Particulars', 'Person', 'Time'],
    [2.6, 5, 2.4, 2],
    after.entries.map(({ what, says, by, at, line }) => [
      what,
      says,
      by,
      [{ text: when(at) }, { text: `line ${line}`, look: 'quiet' as const }],
    ]),
  );
  return [
    head!,
    {
      kind: 'text',
      look: 'strong',
      text: `${after.says}. What stands above is the record as it was closed; nothing of it was changed.`,
    },
    ...(after.remarks.length > 0
      ? [{ kind: 'list' as const, items: after.remarks, tone: 'open' as const }]
      : []),
    ...(after.missing.length > 0
      ? [{ kind: 'list' as const, items: after.missing, tone: 'bad' as const }]
      : []),
    ...(after.entries.length > 0 ? table : []),
    {
      kind: 'facts',
      caption: 'State of the journal with what came after',
      rows: [
        ['Short code', [{ text: after.code, look: 'strong' }]],
        ['Hash of the last line', [{ text: after.hash, look: 'code' }]],
        ['Journal', `${plural(after.lines, 'line')}, last ${when(after.at)}`],
      ],
    },
  ];
}
