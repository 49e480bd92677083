/** Every check of the route as tables, one a stage: asked, read, limit with source, verdict, by whom and with what. */
import type { Block, Cell, Line, Look } from './blocks.js';
import type { AnswerView, CheckView, RecordView, StageView } from './schema.js';
import { listed, OUTCOME_WORDS, sourceWords, when, withUnit } from './words.js';

const COLUMNS = [
  { title: 'Check', share: 3.2 },
  { title: 'Reading', share: 2.5 },
  { title: 'Limit, rule and source', share: 3.2 },
  { title: 'Verdict', share: 1.5 },
  { title: 'Person, time and instrument', share: 2.6 },
] as const;

export function checkTables(view: RecordView): Block[] {
  return [
    { kind: 'heading', level: 2, text: 'Every check, stage by stage' },
    ...view.stages.filter(({ steps }) => steps.length > 0).flatMap(stageBlocks),
  ];
}

function stageBlocks(stage: StageView): Block[] {
  const title = `${stage.title} (${stage.done} of ${stage.of} steps done)`;
  return [
    { kind: 'heading', level: 3, text: title },
    {
      kind: 'table',
      caption: title,
      columns: COLUMNS,
      rows: stage.steps.flatMap((step) => {
        const state: Line[] =
          step.status === 'done'
            ? []
            : [{ text: STATUS_WORDS[step.status], look: step.status === 'failed' ? 'bad' : 'open' }];
        return step.checks.map((check, i): readonly Cell[] => [
          [
            ...(i === 0 ? [{ text: step.title, look: 'strong' as const }, ...state] : []),
            { text: check.asks },
            ...(check.safety ? [{ text: 'safety: no concession', look: 'quiet' as const }] : []),
          ],
          readingCell(check),
          limitCell(check),
          verdictCell(check),
          personCell(check),
        ]);
      }),
    },
  ];
}

const STATUS_WORDS = {
  waiting: 'step not done',
  ready: 'step not done',
  begun: 'step begun, not done',
  failed: 'step failed',
  held: 'step waits for release',
  stale: 'step to be done again',
  done: '',
} as const;

const quiet = (text: string): Line => ({ text, look: 'quiet' });

function readingCell(check: CheckView): Cell {
  const { answer } = check;
  const now: Line[] = answer ? saidLines(answer) : [];
  return [
    ...now,
    ...(check.expect === undefined ? [] : [quiet(`expected ${check.expect}`)]),
    ...(answer && answer.judged.value !== undefined && check.kind !== 'count'
      ? [
          quiet(
            `judged ${withUnit(answer.judged.value, answer.judged.unit)}${answer.judged.uncertainty === undefined ? '' : `, uncertainty ${withUnit(answer.judged.uncertainty, answer.judged.unit)} (k = 2)`}`,
          ),
        ]
      : []),
    ...(answer?.lot
      ? [quiet(`lot of ${answer.lot.material}${answer.lot.expires ? `, use by ${answer.lot.expires}` : ''}`)]
      : []),
    ...(answer?.evidence ?? []).map((file) => quiet(`evidence: ${file.name}`)),
    ...check.earlier.map((old) =>
      quiet(`before: ${old.says} (${old.outcome}), ${old.by}, ${when(old.at)}; ${old.why}`),
    ),
  ];
}

/** A squareness set reads better one length a line. */
const saidLines = (answer: AnswerView): Line[] =>
  (answer.readings.length > 2 ? answer.says.split('; ') : [answer.says]).map((text) => ({
    text,
    look: 'strong',
  }));

function limitCell(check: CheckView): Cell {
  const rules = check.answer?.rules ?? [];
  return [
    ...rules.flatMap((rule): Line[] => [
      { text: `${rule.says}${rules.length > 1 ? `: ${OUTCOME_WORDS[rule.outcome] ?? rule.outcome}` : ''}` },
      quiet(`${rule.title}; ${sourceWords(rule.sourceKind)}${rule.source === '' ? '' : `: ${rule.source}`}`),
    ]),
    ...(check.answer?.notes ?? []).map(quiet),
  ];
}

const LOOKS: Record<CheckView['verdict'], Look> = {
  pass: 'good',
  fail: 'bad',
  'not-proven': 'open',
  conceded: 'open',
  open: 'open',
};

function verdictCell(check: CheckView): Cell {
  return [
    { text: OUTCOME_WORDS[check.verdict] ?? check.verdict, look: LOOKS[check.verdict] },
    ...(check.remark === undefined ? [] : [quiet(check.remark)]),
    ...(check.answer?.burst ? [quiet('fast')] : []),
  ];
}

function personCell({ answer }: CheckView): Cell {
  if (!answer) return '';
  const instruments = [...new Set(answer.readings.flatMap(({ instrument }) => instrument ?? []))];
  return [
    { text: answer.by },
    ...(answer.second === undefined ? [] : [{ text: `second: ${answer.second}` }]),
    quiet(`${when(answer.at)}, line ${answer.line}`),
    ...(instruments.length === 0 ? [] : [{ text: `with ${listed(instruments)}` }]),
    ...(answer.setup === undefined ? [] : [quiet(`set-up ${answer.setup}`)]),
    ...(answer.overdueAllowedBy === undefined
      ? []
      : [{ text: `instrument overdue, allowed by ${answer.overdueAllowedBy}`, look: 'open' as const }]),
  ];
}
