/** The chapter "after release" as blocks, and the line of the first page that leads to it. */
import { data, type Spoken } from '../base/words.js';
import { type Block, tableOr } from './blocks.js';
import type { RecordView } from './schema.js';
import { tellingOf } from './telling.js';

/** Version 0.1.0 had neither. */
const has = ({ seal, told }: RecordView): boolean => seal.closed && told !== undefined;

/** Whether what came after the release, if anything did, is settled. */
export const isSettled = ({ after }: RecordView): boolean => (after?.tone ?? 'good') === 'good';

/** The verdict of the release, and how the unit stands now where that is something else. */
export function standsNow(view: RecordView): Spoken {
  const { say } = tellingOf(view.made);
  const verdict = view.verdict.line;
  if (isSettled(view)) return verdict;
  return say(view.after!.tone === 'bad' ? 'doc-since-scrapped' : 'doc-since-open', { verdict });
}

export function afterLink(view: RecordView): Block[] {
  const { say, when } = tellingOf(view.made);
  if (!has(view)) return [];
  const { seal, after } = view;
  const heading = say('doc-after');
  const given = { time: when(seal.at), heading, says: after?.says ?? say('doc-after-nothing') };
  return [
    {
      kind: 'link',
      text:
        seal.by === undefined
          ? say('doc-after-link', given)
          : say('doc-after-link-by', { ...given, name: seal.by }),
      to: heading,
      calm: isSettled(view),
    },
  ];
}

export function afterBlocks(view: RecordView): Block[] {
  const { say, when } = tellingOf(view.made);
  if (!has(view)) return [];
  const { after } = view;
  const heading: Block = { kind: 'heading', level: 2, text: say('doc-after') };
  if (!after) return [heading, { kind: 'text', text: say('doc-after-none') }];
  const [head, ...table] = tableOr(
    say('doc-after'),
    data(''),
    [say('doc-col-what'), say('doc-col-particulars'), say('doc-col-person'), say('doc-col-time')],
    [2.6, 5, 2.4, 2],
    after.entries.map(({ what, says, by, at, line: n }) => [
      what,
      says,
      by,
      [{ text: when(at) }, { text: say('doc-line', { n }), look: 'quiet' as const }],
    ]),
  );
  return [
    head!,
    { kind: 'text', look: 'strong', text: say('doc-after-stands', { says: after.says }) },
    ...(after.remarks.length > 0
      ? [{ kind: 'list' as const, items: after.remarks, tone: 'open' as const }]
      : []),
    ...(after.missing.length > 0
      ? [{ kind: 'list' as const, items: after.missing, tone: 'bad' as const }]
      : []),
    ...(after.entries.length > 0 ? table : []),
    {
      kind: 'facts',
      caption: say('doc-after-state'),
      rows: [
        [say('doc-short-code'), [{ text: after.code, look: 'strong' }]],
        [say('doc-last-hash'), [{ text: data(after.hash), look: 'code' }]],
        [say('doc-journal'), say('doc-after-lines', { n: after.lines, time: when(after.at) })],
      ],
    },
  ];
}
