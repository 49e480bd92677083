/** Every check of the route as blocks, one table a stage: question, reading, limit with source, verdict, by whom and with what. */
import { data, type Spoken } from '../base/words.js';
import type { Block, BlockLine, Cell, Look } from './blocks.js';
import type { AnswerView, CheckView, RecordView, StageView } from './schema.js';
import {
  type DocumentSay,
  listed,
  outcomeWords,
  sourceWords,
  type Telling,
  tellingOf,
  withUnit,
} from './telling.js';

const COLUMNS = [
  { title: 'doc-col-check', share: 3.2 },
  { title: 'doc-col-reading', share: 2.5 },
  { title: 'doc-col-limit', share: 3.2 },
  { title: 'doc-col-verdict', share: 1.5 },
  { title: 'doc-col-who', share: 2.6 },
] as const;

export function checkTables(view: RecordView): Block[] {
  const telling = tellingOf(view.made);
  return [
    { kind: 'heading', level: 2, text: telling.say('doc-every-check') },
    ...view.stages.filter(({ steps }) => steps.length > 0).flatMap((stage) => stageBlocks(stage, telling)),
  ];
}

function stageBlocks(stage: StageView, telling: Telling): Block[] {
  const { say } = telling;
  const title = say('doc-stage', { title: stage.title, done: stage.done, of: stage.of });
  return [
    { kind: 'heading', level: 3, text: title },
    {
      kind: 'table',
      caption: title,
      columns: COLUMNS.map(({ title, share }) => ({ title: say(title), share })),
      rows: stage.steps.flatMap((step) => {
        const state: BlockLine[] =
          step.status === 'done'
            ? []
            : [{ text: say(STATUS[step.status]), look: step.status === 'failed' ? 'bad' : 'open' }];
        return step.checks.map((check, i): readonly Cell[] => [
          [
            ...(i === 0 ? [{ text: step.title, look: 'strong' as const }, ...state] : []),
            { text: check.asks },
            ...(check.safety ? [quiet(say('doc-safety'))] : []),
          ],
          readingCell(check, telling),
          limitCell(check, say),
          verdictCell(check, say),
          personCell(check, telling),
        ]);
      }),
    },
  ];
}

const STATUS = {
  waiting: 'doc-step-waiting',
  ready: 'doc-step-waiting',
  begun: 'doc-step-begun',
  failed: 'doc-step-failed',
  held: 'doc-step-held',
  stale: 'doc-step-stale',
} as const;

const quiet = (text: Spoken): BlockLine => ({ text, look: 'quiet' });

function readingCell(check: CheckView, { say, when }: Telling): Cell {
  const { answer } = check;
  const now: BlockLine[] = answer ? saidLines(answer) : [];
  return [
    ...now,
    ...(check.expect === undefined ? [] : [quiet(say('doc-expected', { value: check.expect }))]),
    ...(answer && answer.judged.value !== undefined && check.kind !== 'count'
      ? [quiet(judgedSays(say, answer.judged.value, answer.judged))]
      : []),
    ...(answer?.lot
      ? [
          quiet(
            answer.lot.expires
              ? say('doc-lot-of-until', { material: answer.lot.material, day: answer.lot.expires })
              : say('doc-lot-of', { material: answer.lot.material }),
          ),
        ]
      : []),
    ...(answer?.evidence ?? []).map(({ name }) => quiet(say('doc-evidence', { name }))),
    ...check.earlier.map(({ says, outcome, by, at, why }) =>
      quiet(say('doc-before', { says, outcome, name: by, time: when(at), why })),
    ),
  ];
}

function judgedSays(say: DocumentSay, of: number, { unit, uncertainty }: AnswerView['judged']): Spoken {
  const value = withUnit(of, unit);
  return uncertainty === undefined
    ? say('doc-judged', { value })
    : say('doc-judged-uncertain', { value, uncertainty: withUnit(uncertainty, unit) });
}

/** A squareness set is easier to read with one length per line. */
const saidLines = (answer: AnswerView): BlockLine[] =>
  (answer.readings.length > 2 ? answer.says.split('; ') : [answer.says]).map((text) => ({
    text: data(text),
    look: 'strong',
  }));

function limitCell(check: CheckView, say: DocumentSay): Cell {
  const rules = check.answer?.rules ?? [];
  return [
    ...rules.flatMap((rule): BlockLine[] => [
      {
        text:
          rules.length > 1
            ? say('doc-rule-outcome', { says: rule.says, outcome: outcomeWords(say, rule.outcome) })
            : rule.says,
      },
      quiet(ruleSource(say, rule)),
    ]),
    ...(check.answer?.notes ?? []).map(quiet),
  ];
}

function ruleSource(say: DocumentSay, { title, sourceKind, source }: AnswerView['rules'][number]): Spoken {
  const kind = sourceWords(say, sourceKind);
  return source === ''
    ? say('doc-rule-kind', { title, kind })
    : say('doc-rule-source', { title, kind, source });
}

export const LOOKS: Record<CheckView['verdict'], Look> = {
  pass: 'good',
  fail: 'bad',
  'not-proven': 'open',
  conceded: 'open',
  open: 'open',
};

function verdictCell(check: CheckView, say: DocumentSay): Cell {
  return [
    { text: outcomeWords(say, check.verdict), look: LOOKS[check.verdict] },
    ...(check.remark === undefined ? [] : [quiet(check.remark)]),
    ...(check.answer?.burst ? [quiet(say('doc-fast'))] : []),
  ];
}

function personCell({ answer }: CheckView, { say, when }: Telling): Cell {
  if (!answer) return data('');
  const instruments = [...new Set(answer.readings.flatMap(({ instrument }) => instrument ?? []))];
  return [
    { text: answer.by },
    ...(answer.second === undefined ? [] : [{ text: say('doc-second', { name: answer.second }) }]),
    quiet(say('doc-at-line', { time: when(answer.at), n: answer.line })),
    ...(instruments.length === 0 ? [] : [{ text: say('doc-with', { tools: listed(say, instruments) }) }]),
    ...(answer.setup === undefined ? [] : [quiet(say('doc-setup', { id: answer.setup }))]),
    ...(answer.cited === undefined ? [] : [quiet(answer.cited)]),
    ...(answer.overdueAllowedBy === undefined
      ? []
      : [{ text: say('doc-overdue-allowed', { name: answer.overdueAllowedBy }), look: 'open' as const }]),
  ];
}
