/** One unit's record, in the order an outsider asks: finished? what is missing? what is it? who checked it? */
import { zoneText } from '../base/wallclock.js';
import { data, type Spoken } from '../base/words.js';
import { afterBlocks, afterLink, isSettled, standsNow } from './afterblocks.js';
import { type Block, type BlockLine, type Cell, type Document, type Look, tableOr } from './blocks.js';
import { coarseOf } from './checkview.js';
import { historyBlocks } from './historyblocks.js';
import { proofOf, proofText } from './proof.js';
import { registerBlocks } from './registerblocks.js';
import type { AnswerView, CheckView, RecordView, StageView } from './schema.js';
import {
  type DocumentSay,
  finishedSays,
  joined,
  listed,
  massOf,
  outcomeWords,
  printedAt,
  sealSays,
  sizeOf,
  sourceWords,
  type Telling,
  tellingOf,
  withUnit,
  wordsSay,
} from './telling.js';

export function unitDocument(view: RecordView): Document {
  const { say } = tellingOf(view.made);
  return {
    title: say('doc-title', { unit: view.unit.id, job: view.unit.job }),
    subject: standsNow(view),
    foot: footOf(view),
    author: view.workshop,
    at: view.made.at,
    say,
    proof: proofText(proofOf(view)),
    blocks: [...unitBlocks(view, false), ...registerBlocks(view.made)],
  };
}

export function unitBlocks(view: RecordView, newPage: boolean): Block[] {
  const { say } = tellingOf(view.made);
  return [
    {
      kind: 'title',
      over: view.workshop,
      text: say('doc-heading', { unit: view.unit.id }),
      under: joined(
        [
          say('doc-job', { job: view.unit.job }),
          view.unit.order ?? data(''),
          view.unit.customer,
          view.unit.room,
        ],
        ', ',
      ),
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
      caption: say('doc-window'),
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

/** On page one, as a count of its own: these are no passes among others. */
function coarseLink({ counts: { coarse = 0 }, made }: RecordView): Block[] {
  if (coarse === 0) return [];
  const { say } = tellingOf(made);
  const heading = say('doc-coarse');
  return [{ kind: 'link', text: say('doc-coarse-link', { n: coarse, heading }), to: heading }];
}

function coarseBlocks(view: RecordView): Block[] {
  if (!view.counts.coarse) return [];
  const { say } = tellingOf(view.made);
  return [
    ...tableOr(
      say('doc-coarse'),
      data(''),
      [
        say('doc-col-check'),
        say('doc-col-judged'),
        say('doc-col-uncertainty'),
        say('doc-col-limit-alone'),
        say('doc-col-instrument'),
      ],
      [3.4, 1.6, 1.8, 3.6, 1.6],
      coarseOf(view.stages).map(({ asks, answer }) => [
        asks,
        withUnit(answer!.judged.value ?? 0, answer!.judged.unit),
        withUnit(answer!.judged.uncertainty!, answer!.judged.unit),
        joined(
          answer!.rules.map(({ says }) => says),
          '; ',
        ),
        listed(say, [...new Set(answer!.readings.flatMap(({ instrument }) => instrument ?? []))]),
      ]),
    ),
  ];
}

function howToRead({ made }: RecordView): Spoken {
  const { say } = tellingOf(made);
  const clock = made.zone ? say('doc-clock-zone', { zone: zoneText(made.zone) }) : say('doc-clock-utc');
  return say('doc-how-to-read', { clock });
}

function footOf({ made, workshop, unit: { job, id }, verdict, seal }: RecordView): Spoken {
  const { say } = tellingOf(made);
  const state = finishedSays(say, verdict);
  return say('doc-foot', { workshop, job, unit: id, state, seal: sealSays(say, seal) });
}

export function countsLine({ counts: c, made }: RecordView): Spoken {
  const { say } = tellingOf(made);
  return joined(
    [
      say('doc-count-steps', { done: c.stepsDone, of: c.steps }),
      say('doc-count-passed', { passed: c.passed, of: c.checks }),
      ...(c.failed > 0 ? [say('doc-count-failed', { n: c.failed })] : []),
      ...(c.notProven > 0 ? [say('doc-count-not-proven', { n: c.notProven })] : []),
      ...(c.conceded > 0 ? [say('doc-count-conceded', { n: c.conceded })] : []),
      say('doc-count-holds', { released: c.holdsReleased, of: c.holds }),
      snagsLine(say, c.snags, c.snagsOpen),
      ...takenBackTexts(say, c.corrections, c.again),
      ...(c.reworks > 0 ? [say('doc-count-reworks', { n: c.reworks })] : []),
    ],
    '; ',
  );
}

function snagsLine(say: DocumentSay, n: number, open: number): Spoken {
  if (n === 0) return say('doc-count-no-snags');
  return open > 0 ? say('doc-count-snags-open', { n, open }) : say('doc-count-snags-closed', { n });
}

/** @param again checks answered more than once; undefined in a record of lines that an earlier version wrote */
export function takenBackTexts(say: DocumentSay, n: number, again: number | undefined): Spoken[] {
  if (again === undefined)
    return [n === 0 ? say('doc-count-no-corrections') : say('doc-count-corrections', { n })];
  return [
    ...(again > 0 ? [say('doc-count-again', { n: again })] : []),
    n === 0 ? say('doc-count-none-back') : say('doc-count-back', { n }),
  ];
}

function missingBlocks(view: RecordView): Block[] {
  const { say } = tellingOf(view.made);
  if (view.missing.length > 0)
    return [
      { kind: 'heading', level: 2, text: say('doc-missing') },
      { kind: 'list', items: view.missing, tone: 'bad' },
    ];
  if (!view.verdict.finished) return [];
  const text = say(view.told ? 'doc-nothing-missing-then' : 'doc-nothing-missing');
  return [{ kind: 'text', text, look: 'strong' }];
}

function frontRows({ unit, seal, made }: RecordView): (readonly [Spoken, Cell])[] {
  const { say, when } = tellingOf(made);
  const row = (label: Spoken, value: Cell): (readonly [Spoken, Cell])[] =>
    value === '' || value.length === 0 ? [] : [[label, value]];
  const several = unit.lights.length > 1;
  const ofLight = (light: Spoken, glass: Spoken): BlockLine => ({
    text: several ? say('doc-glass-of', { light, glass }) : glass,
  });
  return [
    ...row(say('doc-unit'), [{ text: unit.id, look: 'strong' }]),
    ...row(say('doc-order'), unit.order ?? data('')),
    ...row(say('doc-job-label'), joined([unit.job, unit.customer], ', ')),
    ...row(say('doc-room'), unit.room),
    ...row(say('doc-frame'), sizeOf(unit)),
    ...row(say('doc-window-label'), unit.sentence),
    ...row(
      say('doc-glass'),
      unit.lights.map(({ id, glass, glassSize }) => ofLight(id, joined([glass, glassSize], ', '))),
    ),
    ...row(
      say('doc-sash'),
      unit.lights.flatMap(({ id, sash }) => (sash ? [ofLight(id, sash)] : [])),
    ),
    ...row(say('doc-mass'), massOf(unit)),
    ...row(say('doc-lift'), unit.lift),
    ...row(say('doc-colour'), coloursOf(unit, say)),
    ...row(say('doc-must-be'), listed(say, unit.needs)),
    ...row(
      say('doc-profile-set'),
      unit.invented && !/invented/i.test(unit.profileSet)
        ? say('doc-invented', { set: unit.profileSet })
        : unit.profileSet,
    ),
    ...row(say('doc-procedure'), unit.procedure),
    ...row(say('doc-replaces'), unit.replaces ?? data('')),
    ...row(say('doc-replaced-by'), unit.replacedBy ?? data('')),
    ...row(say('doc-note-on-order'), unit.note),
    ...row(say('doc-record'), [
      {
        text: seal.closed
          ? say('doc-closed-at', { time: when(seal.at) })
          : say('doc-open-last', { time: seal.at === '' ? say('doc-none') : when(seal.at) }),
      },
      {
        text: say(seal.closed ? 'doc-seal-code' : 'doc-state-code', { code: seal.code || say('doc-none') }),
        look: 'strong' as Look,
      },
      { text: say('doc-printed', { time: printedAt(made) }), look: 'quiet' as Look },
      ...(made.words === undefined ? [] : [{ text: wordsSay(say, made), look: 'quiet' as Look }]),
    ]),
  ];
}

const coloursOf = (
  { outsideColour: out, insideColour: inside }: RecordView['unit'],
  say: DocumentSay,
): Spoken =>
  joined(
    [
      ...(out === '' ? [] : [say('doc-outside', { colour: out })]),
      ...(inside === '' ? [] : [say('doc-inside', { colour: inside })]),
    ],
    ', ',
  );

function measuredBlocks({ asMeasured, made }: RecordView): Block[] {
  if (asMeasured.length === 0) return [];
  return [
    { kind: 'heading', level: 2, text: tellingOf(made).say('doc-as-measured') },
    { kind: 'figures', figures: asMeasured },
  ];
}

function materialBlocks(view: RecordView): Block[] {
  const { say, when } = tellingOf(view.made);
  const { lots, instruments, people, evidence, builtFrom } = view;
  const code = (text: string): BlockLine[] => [{ text: data(text), look: 'code' }];
  return [
    ...tableOr(
      say('doc-lots'),
      say('doc-no-lots'),
      [
        say('doc-col-material'),
        say('doc-col-lot'),
        say('doc-col-use-by'),
        say('doc-col-asked-at'),
        say('doc-col-time'),
        say('doc-col-person'),
      ],
      [2, 2.4, 1.6, 3, 2.2, 2.6],
      lots.map((lot) => [
        lot.material,
        code(lot.code),
        lot.expires ?? data(''),
        lot.accepted === undefined
          ? lot.check
          : [{ text: lot.check }, { text: say('doc-accepted', { how: lot.accepted }), look: 'quiet' }],
        when(lot.at),
        lot.by,
      ]),
    ),
    ...tableOr(
      say('doc-instruments'),
      say('doc-no-instruments'),
      [
        say('doc-col-instrument'),
        say('doc-col-what'),
        say('doc-col-reads-to'),
        say('doc-col-calibrated'),
        say('doc-col-due'),
        say('doc-col-certificate'),
        say('doc-col-overdue'),
      ],
      [1.5, 3, 1.4, 1.7, 1.7, 2, 2.7],
      instruments.map((i) => [
        i.today ? [{ text: i.id }, { text: say('doc-as-today'), look: 'open' }] : i.id,
        joined(
          [
            i.title,
            ...(i.class === '' ? [] : [say('doc-class', { class: i.class })]),
            ...(i.class === '' && i.error !== undefined ? [say('doc-error', { error: i.error })] : []),
            ...(i.serial === undefined ? [] : [say('doc-serial', { serial: i.serial })]),
          ],
          ', ',
        ),
        i.resolution,
        i.calibrated,
        i.due,
        i.certificate,
        i.overdue.length === 0
          ? say('doc-not-overdue')
          : i.overdue.map((text): BlockLine => ({ text, look: 'bad' })),
      ]),
    ),
    ...(view.setups && view.setups.length > 0
      ? tableOr(
          say('doc-setups'),
          data(''),
          [
            say('doc-col-setup'),
            say('doc-col-first-off'),
            say('doc-col-reading'),
            say('doc-col-verdict'),
            say('doc-col-person-time'),
          ],
          [1.8, 3.2, 2.6, 1.2, 2.6],
          view.setups.flatMap(({ id, at, by, checks }) =>
            checks.map((check, i): readonly Cell[] => [
              i === 0 ? id : data(''),
              check.asks,
              check.says,
              check.outcome,
              i === 0 ? say('doc-by-at', { name: by, time: when(at) }) : data(''),
            ]),
          ),
        )
      : []),
    ...(view.supervised && view.supervised.length > 0
      ? tableOr(
          say('doc-stood-by'),
          data(''),
          [
            say('doc-col-stage'),
            say('doc-col-for'),
            say('doc-col-stood-by'),
            say('doc-col-confirmed'),
            say('doc-col-time'),
          ],
          [2.4, 2.2, 2.2, 1.8, 2],
          view.supervised.map((s) => [
            s.stage,
            s.by,
            s.second,
            say(s.pin ? 'doc-by-pin' : 'doc-by-code'),
            when(s.at),
          ]),
        )
      : []),
    ...(view.told
      ? tableOr(
          say('doc-people'),
          say('doc-nobody'),
          [say('doc-col-name'), say('doc-col-level'), say('doc-col-did')],
          [2, 2.2, 3.4],
          people.map(({ name, level = say('doc-level-not-kept'), did }) => [name, level, did]),
        )
      : tableOr(
          say('doc-people'),
          say('doc-nobody'),
          [say('doc-col-name'), say('doc-col-did')],
          [1, 2],
          people.map(({ name, did }) => [name, did]),
        )),
    ...(evidence.length === 0
      ? []
      : tableOr(
          say('doc-evidence-title'),
          data(''),
          [
            say('doc-col-file'),
            say('doc-col-shows'),
            say('doc-col-time'),
            say('doc-col-person'),
            data('SHA-256'),
          ],
          [2, 3, 1.8, 2, 3.4],
          evidence.map((e) => [
            e.picture === undefined
              ? say('doc-bytes', { name: e.name, n: e.bytes })
              : say('doc-pixels', { name: e.name, picture: e.picture }),
            e.of,
            when(e.at),
            e.by,
            code(e.sha256),
          ]),
        )),
    ...tableOr(
      say('doc-built-from'),
      say('doc-not-built-from'),
      [say('doc-col-what'), say('doc-col-name'), say('doc-col-content')],
      [1.6, 2, 4],
      builtFrom.map(({ what, name, sha256 }) => [what, name, code(sha256)]),
    ),
  ];
}

/** A shop may let a unit be released while its server lacks some of it. */
const unseenText = (say: DocumentSay, n: number): Spoken =>
  n === 0 ? say('doc-unseen-evidence') : say('doc-unseen-lines', { n });

const noSignature = (say: DocumentSay, { unsigned }: RecordView['seal']): Spoken =>
  unsigned ? say('doc-unsigned-by', { name: unsigned.by, why: unsigned.why }) : say('doc-unsigned');

function sealBlocks({ seal, unit, made }: RecordView): Block[] {
  const { say, when } = tellingOf(made);
  const none = say('doc-none');
  const journal = { file: `logs/${unit.job}/${unit.id}.jsonl`, n: seal.lines };
  const signature: (readonly [Spoken, Cell])[] = seal.signature
    ? [
        [
          say('doc-signed-by'),
          [
            { text: seal.signature.by },
            { text: say('doc-key', { key: seal.signature.key }), look: 'code' },
            { text: say('doc-over-hash', { hash: seal.signature.head }), look: 'code' },
          ],
        ],
        [say('doc-signature'), [{ text: seal.signature.value, look: 'code' }]],
        ...(seal.unsigned ? [[say('doc-when-closed'), noSignature(say, seal)] as const] : []),
      ]
    : seal.closed
      ? [[say('doc-signature'), noSignature(say, seal)]]
      : [];
  if (seal.unseen !== undefined) signature.push([say('doc-released-early'), unseenText(say, seal.unseen)]);
  return [
    { kind: 'heading', level: 2, text: say(seal.closed ? 'doc-seal' : 'doc-state') },
    {
      kind: 'facts',
      caption: say(seal.closed ? 'doc-seal' : 'doc-state-of-journal'),
      rows: [
        [say('doc-short-code'), [{ text: seal.code || none, look: 'strong' }]],
        [say('doc-last-hash'), [{ text: seal.hash === '' ? none : data(seal.hash), look: 'code' }]],
        [
          say('doc-journal'),
          seal.at === ''
            ? say('doc-journal-lines', journal)
            : say('doc-journal-lines-last', { ...journal, time: when(seal.at) }),
        ],
        ...signature,
      ],
    },
    {
      kind: 'text',
      look: 'quiet',
      text: say(seal.closed ? 'doc-seal-says' : 'doc-state-says'),
    },
  ];
}

// Every check of the route, one table per stage: question, reading, limit with source, verdict, by whom and with what.

const COLUMNS = [
  { title: 'doc-col-check', share: 3.2 },
  { title: 'doc-col-reading', share: 2.5 },
  { title: 'doc-col-limit', share: 3.2 },
  { title: 'doc-col-verdict', share: 1.5 },
  { title: 'doc-col-who', share: 2.6 },
] as const;

function checkTables(view: RecordView): Block[] {
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

const LOOKS: Record<CheckView['verdict'], Look> = {
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
