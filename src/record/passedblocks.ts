/** What passed without a figure: one line a step. What did not pass stands among the exceptions or as missing on page one. */
import { data, type Spoken } from '../base/words.js';
import { type Block, type BlockLine, type Cell, tableOr } from './blocks.js';
import { isMeasured } from './measuredblocks.js';
import type { RecordView, StageView } from './schema.js';
import { listed, type Telling, tellingOf, toMinute } from './telling.js';

export function passedBlocks(view: RecordView): Block[] {
  const telling = tellingOf(view.made);
  const { say } = telling;
  const step = say('doc-col-passed');
  const [head, ...table] = tableOr(
    say('doc-passed'),
    say('doc-none'),
    [say('doc-col-stage'), step, step, say('doc-col-person-time')],
    [2, 4.4, 4.4, 3.2],
    view.stages.flatMap((stage) => stageRow(stage, telling)),
  );
  return [head!, { kind: 'text', text: say('doc-passed-says'), look: 'quiet' }, ...table];
}

/** One line a step, in two columns from top to bottom; who answered, from when to when, stands once for the stage. */
function stageRow({ title, steps }: StageView, { say, when }: Telling): (readonly Cell[])[] {
  const asked = steps.map((step) => ({
    title: step.title,
    checks: step.checks.filter((check) => !isMeasured(check) && check.answer),
  }));
  const answers = asked.flatMap(({ checks }) => checks.flatMap(({ answer }) => answer ?? []));
  if (answers.length === 0) return [];
  const lines = asked.flatMap((step): BlockLine[] => {
    const of = step.checks.length;
    const n = step.checks.filter(({ verdict }) => verdict === 'pass').length;
    if (of === 0) return [];
    const cited = step.checks.filter(({ answer }) => answer?.cited !== undefined).length;
    if (n === of && cited > 0) return [{ text: say('doc-passed-cited', { step: step.title, n, cited }) }];
    return n === of
      ? [{ text: say('doc-passed-step', { step: step.title, n }) }]
      : [{ text: say('doc-passed-some', { step: step.title, n, of }), look: 'open' }];
  });
  // What was asked of another unit has the time of that unit.
  const own = answers.filter(({ cited }) => cited === undefined);
  const times = (own.length > 0 ? own : answers).map(({ at }) => at).sort();
  const [from, last] = [times[0]!, times.at(-1)!].map((at) => toMinute(when(at))) as [Spoken, Spoken];
  // Of the same day, the hour is enough.
  const to = last.slice(0, 10) === from.slice(0, 10) ? data(last.slice(11)) : last;
  const half = Math.ceil(lines.length / 2);
  return [
    [
      [{ text: title, look: 'strong' }],
      lines.slice(0, half),
      lines.slice(half),
      [
        { text: listed(say, [...new Set(answers.map(({ by }) => by))]) },
        { text: from === last ? from : say('doc-passed-between', { from, to }), look: 'quiet' },
      ],
    ],
  ];
}
