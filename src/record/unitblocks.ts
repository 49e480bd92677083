/** One unit's record, in the order an outsider asks: finished? what is missing? what is it? who checked it? */

import { zoneText } from '../base/wallclock.js';
import { afterBlocks, afterLink, isSettled, standsNow } from './afterblocks.js';
import { type Block, type BlockLine, type Cell, type Document, type Look, tableOr } from './blocks.js';
import { coarseOf } from './checkview.js';
import { historyBlocks } from './historyblocks.js';
import { proofOf, proofText } from './proof.js';
import { registerBlocks } from './registerblocks.js';
import type { AnswerView, CheckView, RecordView, StageView } from './schema.js';
import {
  kilograms,
  listed,
  OUTCOME_WORDS,
  plural,
  printedAt,
  size,
  sourceWords,
  type When,
  whenIn,
  withUnit,
} from './words.js';

export function unitDocument(view: RecordView): Document {
  return {
    title: `Quality record ${view.unit.id}, job ${view.unit.job}`,
    subject: standsNow(view),
    foot: footOf(view),
    author: view.workshop,
    at: view.made.at,
    proof: proofText(proofOf(view)),
    blocks: [...unitBlocks(view, false), ...registerBlocks(view.made)],
  };
}

export function unitBlocks(view: RecordView, newPage: boolean): Block[] {
  return [
    {
      kind: 'title',
      over: view.workshop,
      text: `Quality record of window ${view.unit.id}`,
      under: [`job ${view.unit.job}`, view.unit.order ?? '', view.unit.customer, view.unit.room]
        .filter((part) => part !== '')
        .join(', '),
      newPage,
    },
    verdictBlock(view),
    ...afterLink(view),
    ...missingBlocks(view),
    ...(view.remarks.length > 0
      ? [{ kind: 'list' as const, items: view.remarks, tone: 'open' as const }]
      : []),
    ...coarseLink(view),
    {
      kind: 'front',
      caption: 'The window',
      rows: frontRows(view),
      figure: view.drawing ? { ...view.drawing, facts: [] } : undefined,
    },
    { kind: 'text', text: howToRead(view), look: 'quiet' },
    ...measuredBlocks(view),
    ...historyBlocks(view),
    ...coarseBlocks(view),
    ...checkTables(view),
    ...materialBlocks(view),
    ...sealBlocks(view),
    ...afterBlocks(view),
  ];
}

/** What was said at the release stays; where it does not hold any more, that is said as loudly. */
function verdictBlock(view: RecordView): Block {
  const { verdict, after } = view;
  const tone = isSettled(view) ? verdict.tone : after!.tone;
  return { kind: 'verdict', text: standsNow(view), under: countsLine(view), tone };
}

const COARSE = 'Passes that say little';

/** On page one, as a count of its own: these are no passes among others. */
function coarseLink({ counts: { coarse = 0 } }: RecordView): Block[] {
  if (coarse === 0) return [];
  const text = `${plural(coarse, 'check')} passed with an instrument too coarse for the limit: see "${COARSE}".`;
  return [{ kind: 'link', text, to: COARSE }];
}

function coarseBlocks(view: RecordView): Block[] {
  if (!view.counts.coarse) return [];
  return [
    ...tableOr(
      COARSE,
      '',
      ['Check', 'Judged', 'Uncertainty (k = 2)', 'Limit', 'Instrument'],
      [3.4, 1.6, 1.8, 3.6, 1.6],
      coarseOf(view.stages).map(({ asks, answer }) => [
        asks,
        withUnit(answer!.judged.value ?? 0, answer!.judged.unit),
        withUnit(answer!.judged.uncertainty!, answer!.judged.unit),
        answer!.rules.map(({ says }) => says).join('; '),
        listed([...new Set(answer!.readings.flatMap(({ instrument }) => instrument ?? []))]),
      ]),
    ),
  ];
}

const howToRead = ({ made: { zone } }: RecordView): string =>
  `How to read this: left and right are as seen from outside; lengths are in millimetres, times ${zone ? `by the clock of ${zoneText(zone)}` : 'in UTC'}. Every check shows ` +
  'what was read, the limit it was held against and where that limit comes from. "NOT PROVEN" means that the instrument ' +
  'used could not settle it. Nothing was erased: what was put right is listed with its old value.';

const footOf = (view: RecordView): string =>
  `${view.workshop}: ${view.unit.job}, ${view.unit.id}. ${view.verdict.finished ? 'Finished' : 'NOT FINISHED'}. ${view.seal.closed ? 'Seal' : 'State'} ${view.seal.code || 'none'}`;

export function countsLine({ counts: c }: RecordView): string {
  return [
    `${c.stepsDone} of ${plural(c.steps, 'step')} done`,
    `${c.passed} of ${plural(c.checks, 'check')} passed`,
    ...(c.failed > 0 ? [`${c.failed} failed`] : []),
    ...(c.notProven > 0 ? [`${c.notProven} not proven`] : []),
    ...(c.conceded > 0 ? [`${c.conceded} conceded`] : []),
    `${c.holdsReleased} of ${plural(c.holds, 'hold')} released`,
    c.snags === 0
      ? 'no snags'
      : `${plural(c.snags, 'snag')}${c.snagsOpen > 0 ? `, ${c.snagsOpen} open` : ', all closed'}`,
    ...takenBackTexts(c.corrections, c.again),
    ...(c.reworks > 0 ? [plural(c.reworks, 'rework')] : []),
  ].join('; ');
}

/** @param again checks answered more than once; undefined in a record of lines that an earlier version wrote */
export function takenBackTexts(corrections: number, again: number | undefined): string[] {
  if (again === undefined)
    return [corrections === 0 ? 'nothing corrected' : plural(corrections, 'correction')];
  return [
    ...(again > 0 ? [`${plural(again, 'check')} answered more than once`] : []),
    corrections === 0 ? 'no answer taken back' : `${plural(corrections, 'answer')} taken back`,
  ];
}

function missingBlocks(view: RecordView): Block[] {
  if (view.missing.length > 0)
    return [
      { kind: 'heading', level: 2, text: 'What is missing' },
      { kind: 'list', items: view.missing, tone: 'bad' },
    ];
  if (!view.verdict.finished) return [];
  const text = view.told ? 'Nothing was missing when it was closed.' : 'Nothing is missing.';
  return [{ kind: 'text', text, look: 'strong' }];
}

function frontRows({ unit, seal, made }: RecordView): (readonly [string, Cell])[] {
  const when = whenIn(made.zone);
  const row = (label: string, value: Cell): (readonly [string, Cell])[] =>
    value === '' || value.length === 0 ? [] : [[label, value]];
  return [
    ...row('Unit', [{ text: unit.id, look: 'strong' }]),
    ...row('Order', unit.order ?? ''),
    ...row('Job', [unit.job, unit.customer].filter((part) => part !== '').join(', ')),
    ...row('Where it goes', unit.room),
    ...row('Frame, overall', unit.width === undefined ? '' : size(unit.width, unit.height ?? 0)),
    ...row('Window', unit.sentence),
    ...row(
      'Glass',
      unit.lights.map(({ id, glass, glassSize }) => ({
        text: `${unit.lights.length > 1 ? `${id}: ` : ''}${glass}, ${glassSize}`,
      })),
    ),
    ...row(
      'Sash',
      unit.lights.flatMap(({ id, sash }) =>
        sash ? [{ text: `${unit.lights.length > 1 ? `${id}: ` : ''}${sash}` }] : [],
      ),
    ),
    ...row('Mass', unit.mass === undefined ? '' : kilograms(unit.mass)),
    ...row('To lift it', unit.lift),
    ...row('Colour', coloursOf(unit)),
    ...row('Must be', listed(unit.needs)),
    ...row(
      'Profile set',
      `${unit.profileSet}${unit.invented && !/invented/i.test(unit.profileSet) ? ' (invented)' : ''}`,
    ),
    ...row('Built by procedure', unit.procedure),
    ...row('Replaces', unit.replaces ?? ''),
    ...row('Replaced by', unit.replacedBy ?? ''),
    ...row('Note on the order', unit.note),
    ...row('Record', [
      {
        text: seal.closed
          ? `closed ${when(seal.at)}`
          : `open; last entry ${seal.at === '' ? 'none' : when(seal.at)}`,
      },
      { text: `${seal.closed ? 'seal' : 'state'} ${seal.code || 'none'}`, look: 'strong' as Look },
      { text: `printed ${printedAt(made)}`, look: 'quiet' as Look },
    ]),
  ];
}

const coloursOf = ({ outsideColour: out, insideColour: inside }: RecordView['unit']): string =>
  [...(out === '' ? [] : [`outside ${out}`]), ...(inside === '' ? [] : [`inside ${inside}`])].join(', ');

function measuredBlocks({ asMeasured }: RecordView): Block[] {
  if (asMeasured.length === 0) return [];
  return [
    { kind: 'heading', level: 2, text: 'As measured' },
    { kind: 'figures', figures: asMeasured },
  ];
}

function materialBlocks(view: RecordView): Block[] {
  const when = whenIn(view.made.zone);
  const { lots, instruments, people, evidence, builtFrom } = view;
  const code = (text: string): BlockLine[] => [{ text, look: 'code' }];
  return [
    ...tableOr(
      'Lots used',
      'No lots were recorded.',
      ['Material', 'Lot', 'Use by', 'Asked at', 'Time', 'Person'],
      [2, 2.4, 1.6, 3, 2.2, 2.6],
      lots.map((lot) => [
        lot.material,
        code(lot.code),
        lot.expires ?? '',
        lot.accepted === undefined
          ? lot.check
          : [{ text: lot.check }, { text: `accepted ${lot.accepted}`, look: 'quiet' }],
        when(lot.at),
        lot.by,
      ]),
    ),
    ...tableOr(
      'Instruments',
      'No reading was taken with an instrument.',
      ['Instrument', 'What', 'Reads to', 'Calibrated', 'Due', 'Certificate', 'Used overdue'],
      [1.5, 3, 1.4, 1.7, 1.7, 2, 2.7],
      instruments.map((i) => [
        i.today ? [{ text: i.id }, { text: 'as listed today', look: 'open' }] : i.id,
        [
          i.title,
          i.class === '' ? '' : `class ${i.class}`,
          i.class === '' && i.error !== undefined ? `error at most ${i.error}` : '',
          i.serial === undefined ? '' : `serial ${i.serial}`,
        ]
          .filter((part) => part !== '')
          .join(', '),
        i.resolution,
        i.calibrated,
        i.due,
        i.certificate,
        i.overdue.length === 0 ? 'no' : i.overdue.map((text): BlockLine => ({ text, look: 'bad' })),
      ]),
    ),
    ...(view.setups && view.setups.length > 0
      ? tableOr(
          'Set-ups proven before',
          '',
          ['Set-up', 'First-off', 'Reading', 'Verdict', 'Person, time'],
          [1.8, 3.2, 2.6, 1.2, 2.6],
          view.setups.flatMap(({ id, at, by, checks }) =>
            checks.map((check, i): readonly Cell[] => [
              i === 0 ? id : '',
              check.asks,
              check.says,
              check.outcome,
              i === 0 ? `${by}, ${when(at)}` : '',
            ]),
          ),
        )
      : []),
    ...(view.supervised && view.supervised.length > 0
      ? tableOr(
          'Who stood by',
          '',
          ['Stage', 'For', 'Stood by', 'Confirmed', 'Time'],
          [2.4, 2.2, 2.2, 1.8, 2],
          view.supervised.map((s) => [
            s.stage,
            s.by,
            s.second,
            s.pin ? 'by their PIN' : 'by their own code',
            when(s.at),
          ]),
        )
      : []),
    ...(view.told
      ? tableOr(
          'People',
          'Nobody has worked on this unit.',
          ['Name', 'Level then', 'Did'],
          [2, 2.2, 3.4],
          people.map(({ name, level = 'not kept', did }) => [name, level, did]),
        )
      : tableOr(
          'People',
          'Nobody has worked on this unit.',
          ['Name', 'Did'],
          [1, 2],
          people.map(({ name, did }) => [name, did]),
        )),
    ...(evidence.length === 0
      ? []
      : tableOr(
          'Evidence',
          '',
          ['File', 'Shows', 'Time', 'Person', 'SHA-256'],
          [2, 3, 1.8, 2, 3.4],
          evidence.map((e) => [
            e.picture === undefined ? `${e.name}, ${e.bytes} bytes` : `${e.name}, ${e.picture} pixels`,
            e.of,
            when(e.at),
            e.by,
            code(e.sha256),
          ]),
        )),
    ...tableOr(
      'Built from',
      'The journal does not say what the unit was built from.',
      ['What', 'Name', 'SHA-256 of the content'],
      [1.6, 2, 4],
      builtFrom.map(({ what, name, sha256 }) => [what, name, code(sha256)]),
    ),
  ];
}

/** A shop may let a unit be released while its server lacks some of it. */
const unseenText = (lines: number): string =>
  lines === 0
    ? "the shop's server did not have all of the evidence yet"
    : `the shop's server did not have ${lines} ${lines === 1 ? 'line' : 'lines'} of it yet`;

const noSignature = ({ unsigned }: RecordView['seal']): string =>
  unsigned
    ? `none: ${unsigned.by} closed the unit without, as the bench could not sign (${unsigned.why})`
    : 'none: the bench had no key when the unit was finished';

function sealBlocks({ seal, unit, made }: RecordView): Block[] {
  const when = whenIn(made.zone);
  const signature: (readonly [string, Cell])[] = seal.signature
    ? [
        [
          'Signed by',
          [
            { text: seal.signature.by },
            { text: `key ${seal.signature.key}`, look: 'code' },
            { text: `over hash ${seal.signature.head}`, look: 'code' },
          ],
        ],
        ['Signature', [{ text: seal.signature.value, look: 'code' }]],
        ...(seal.unsigned ? [['When closed', noSignature(seal)] as const] : []),
      ]
    : seal.closed
      ? [['Signature', noSignature(seal)]]
      : [];
  if (seal.unseen !== undefined) signature.push(['Released early', unseenText(seal.unseen)]);
  return [
    { kind: 'heading', level: 2, text: seal.closed ? 'Seal' : 'State (not sealed)' },
    {
      kind: 'facts',
      caption: seal.closed ? 'Seal' : 'State of the journal',
      rows: [
        ['Short code', [{ text: seal.code || 'none', look: 'strong' }]],
        ['Hash of the last line', [{ text: seal.hash || 'none', look: 'code' }]],
        [
          'Journal',
          `logs/${unit.job}/${unit.id}.jsonl, ${plural(seal.lines, 'line')}${seal.at === '' ? '' : `, last ${when(seal.at)}`}`,
        ],
        ...signature,
      ],
    },
    {
      kind: 'text',
      look: 'quiet',
      text:
        'Every line of the journal holds the SHA-256 hash of the line before it, so a later change anywhere changes this hash. ' +
        'The journal is plain text; logs/README.md in the workshop folder tells how to check it without this program.' +
        (seal.closed
          ? ''
          : ' The unit is not finished, so this hash shows how far the journal had come, no more.'),
    },
  ];
}

// Every check of the route, one table per stage: question, reading, limit with source, verdict, by whom and with what.

const COLUMNS = [
  { title: 'Check', share: 3.2 },
  { title: 'Reading', share: 2.5 },
  { title: 'Limit, rule and source', share: 3.2 },
  { title: 'Verdict', share: 1.5 },
  { title: 'Person, time and instrument', share: 2.6 },
] as const;

function checkTables(view: RecordView): Block[] {
  return [
    { kind: 'heading', level: 2, text: 'Every check, stage by stage' },
    ...view.stages
      .filter(({ steps }) => steps.length > 0)
      .flatMap((stage) => stageBlocks(stage, whenIn(view.made.zone))),
  ];
}

function stageBlocks(stage: StageView, when: When): Block[] {
  const title = `${stage.title} (${stage.done} of ${stage.of} steps done)`;
  return [
    { kind: 'heading', level: 3, text: title },
    {
      kind: 'table',
      caption: title,
      columns: COLUMNS,
      rows: stage.steps.flatMap((step) => {
        const state: BlockLine[] =
          step.status === 'done'
            ? []
            : [{ text: STATUS_WORDS[step.status], look: step.status === 'failed' ? 'bad' : 'open' }];
        return step.checks.map((check, i): readonly Cell[] => [
          [
            ...(i === 0 ? [{ text: step.title, look: 'strong' as const }, ...state] : []),
            { text: check.asks },
            ...(check.safety ? [{ text: 'safety: no concession', look: 'quiet' as const }] : []),
          ],
          readingCell(check, when),
          limitCell(check),
          verdictCell(check),
          personCell(check, when),
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

const quiet = (text: string): BlockLine => ({ text, look: 'quiet' });

function readingCell(check: CheckView, when: When): Cell {
  const { answer } = check;
  const now: BlockLine[] = answer ? saidLines(answer) : [];
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

/** A squareness set is easier to read with one length per line. */
const saidLines = (answer: AnswerView): BlockLine[] =>
  (answer.readings.length > 2 ? answer.says.split('; ') : [answer.says]).map((text) => ({
    text,
    look: 'strong',
  }));

function limitCell(check: CheckView): Cell {
  const rules = check.answer?.rules ?? [];
  return [
    ...rules.flatMap((rule): BlockLine[] => [
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

function personCell({ answer }: CheckView, when: When): Cell {
  if (!answer) return '';
  const instruments = [...new Set(answer.readings.flatMap(({ instrument }) => instrument ?? []))];
  return [
    { text: answer.by },
    ...(answer.second === undefined ? [] : [{ text: `second: ${answer.second}` }]),
    quiet(`${when(answer.at)}, line ${answer.line}`),
    ...(instruments.length === 0 ? [] : [{ text: `with ${listed(instruments)}` }]),
    ...(answer.setup === undefined ? [] : [quiet(`set-up ${answer.setup}`)]),
    ...(answer.cited === undefined ? [] : [quiet(answer.cited)]),
    ...(answer.overdueAllowedBy === undefined
      ? []
      : [{ text: `instrument overdue, allowed by ${answer.overdueAllowedBy}`, look: 'open' as const }]),
  ];
}
