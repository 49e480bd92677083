/**
 * What of a unit was not as it should be, or not at once: failed, conceded, overridden, made again, taken back, measured
 * with too coarse an instrument. Rows of one table, each with a code by which the first page leads to it.
 */
import { data, type Spoken } from '../base/words.js';
import type { BlockLine } from './blocks.js';
import { coarseOf } from './checkview.js';
import { checksOf } from './materialview.js';
import type { CheckView, RecordView } from './schema.js';
import { joined, listed, outcomeWords, tellingOf, withUnit } from './telling.js';

/** In the order in which page one names them. */
export const EXCEPTION_KINDS = [
  'failed',
  'not-proven',
  'conceded',
  'overridden',
  'snag',
  'rework',
  'again',
  'taken-back',
  'overdue',
  'coarse',
  'fast',
  'alone',
  'released-before',
  'revision',
] as const;
type ExceptionKind = (typeof EXCEPTION_KINDS)[number];

export interface Exception {
  readonly kind: ExceptionKind;
  /** E1, E2 … */
  readonly row: string;
  /** In a few words, for page one. */
  readonly what: Spoken;
  /** The same, with what was read or said. */
  readonly lines: readonly BlockLine[];
  readonly why: readonly BlockLine[];
  readonly by: Spoken;
  /** UTC, ISO 8601; empty where it has no time of its own. */
  readonly at: string;
  /** Line of the journal. */
  readonly line?: number;
  /** The check that it is about. */
  readonly check?: string;
  /** Where it has one: of a snag, its cause and the step that it was raised on. */
  readonly cause?: Spoken;
  readonly step?: Spoken;
  /** Number of the snag that it is, or that conceded it. */
  readonly snag?: number;
}

type Found = Omit<Exception, 'row'>;

export function exceptionsOf(view: RecordView): Exception[] {
  const checks = checksOf(view.stages);
  const found = [
    ...checks.flatMap((check) => unsettled(check, view)),
    ...overrides(view),
    ...view.snags.map((snag) => snagFound(snag, view)),
    ...reworks(view),
    ...checks.flatMap((check) => again(check, view)),
    ...takenBack(view),
    ...checks.flatMap((check) => overdue(check, view)),
    ...coarseOf(view.stages).map((check) => coarse(check, view)),
    ...checks.flatMap((check) => fast(check, view)),
    ...holds(view),
    ...revisions(view),
  ];
  const order = (kind: ExceptionKind) => EXCEPTION_KINDS.indexOf(kind);
  return found
    .sort((a, b) => order(a.kind) - order(b.kind))
    .map((each, i) => ({ ...each, row: `E${i + 1}` }));
}

const quiet = (text: Spoken): BlockLine => ({ text, look: 'quiet' });

const ofAnswer = ({ id, answer }: CheckView): Pick<Found, 'by' | 'at' | 'line' | 'check'> => ({
  by: answer?.by ?? data(''),
  at: answer?.at ?? '',
  ...(answer ? { line: answer.line } : {}),
  check: id,
});

function unsettled(check: CheckView, view: RecordView): Found[] {
  const { say } = tellingOf(view.made);
  const { verdict, answer, remark, concession } = check;
  if (!answer || !(verdict === 'fail' || verdict === 'not-proven' || verdict === 'conceded')) return [];
  const snag = view.snags.find(({ number }) => number === concession);
  return [
    {
      kind: verdict === 'fail' ? 'failed' : verdict,
      what: check.asks,
      lines: [{ text: check.asks, look: 'strong' }, { text: answer.says }],
      why: [
        ...answer.rules
          .filter(({ outcome }) => outcome !== 'pass')
          .map(({ says, title }) => ({ text: joined([title, says], ': ') })),
        ...(snag?.decided
          ? [
              { text: joined([snag.decided.disposition, snag.decided.reason], ': ') },
              ...(snag.decided.limit === undefined
                ? []
                : [{ text: say('doc-snag-limit', { limit: snag.decided.limit }) }]),
            ]
          : []),
        ...(remark === undefined ? [] : [quiet(remark)]),
      ],
      ...ofAnswer(check),
      ...(snag ? { snag: snag.number } : {}),
      ...(snag?.decided ? { by: snag.decided.by, at: snag.decided.at, line: snag.decided.line } : {}),
    },
  ];
}

const overrides = (view: RecordView): Found[] =>
  view.overrides.map(({ text, reason, by, at, line }) => ({
    kind: 'overridden',
    what: text,
    lines: [{ text }],
    why: [{ text: reason }],
    by,
    at,
    line,
  }));

function snagFound(snag: RecordView['snags'][number], view: RecordView): Found {
  const { say, when } = tellingOf(view.made);
  const { decided, closed } = snag;
  const name = say('doc-snag', { n: snag.number });
  return {
    kind: 'snag',
    what: joined([name, snag.text], ': '),
    lines: [
      { text: joined([name, snag.severity], ', '), look: 'strong' },
      { text: snag.text },
      ...(snag.step === undefined ? [] : [quiet(say('doc-snag-at', { step: snag.step }))]),
      quiet(
        say('doc-snag-cause', {
          cause: snag.cause,
          touches: listed(say, snag.touches) || say('doc-nothing-else'),
        }),
      ),
    ],
    why: [
      ...(snag.containment === undefined
        ? []
        : [quiet(say('doc-snag-at-once', { containment: snag.containment }))]),
      decided
        ? { text: joined([decided.disposition, decided.reason], ': ') }
        : { text: say('doc-not-decided'), look: 'bad' as const },
      ...(decided
        ? [
            quiet(
              say(decided.pin ? 'doc-by-at-pin' : 'doc-by-at', { name: decided.by, time: when(decided.at) }),
            ),
          ]
        : []),
      closed
        ? quiet(
            joined(
              [
                say('doc-snag-closed'),
                closed.note,
                say('doc-by-at', { name: closed.by, time: when(closed.at) }),
              ],
              ', ',
            ),
          )
        : { text: say('doc-snag-open'), look: 'bad' as const },
    ],
    by: snag.by,
    at: snag.at,
    line: snag.number,
    cause: snag.cause,
    snag: snag.number,
    ...(snag.step === undefined ? {} : { step: snag.step }),
  };
}

function reworks(view: RecordView): Found[] {
  const { say } = tellingOf(view.made);
  return view.reworks.map(({ step, reason, reopened, snag, by, at, line }) => ({
    kind: 'rework',
    what: step,
    lines: [{ text: step, look: 'strong' }, ...(reopened.length > 0 ? [quiet(listed(say, reopened))] : [])],
    why: [{ text: snag === undefined ? reason : say('doc-reason-snag', { reason, n: snag }) }],
    by,
    at,
    line,
  }));
}

/** What failed or was not proven at first, however it ended. Answers that were right and re-opened stand with what re-opened them. */
function again(check: CheckView, view: RecordView): Found[] {
  const { say, when } = tellingOf(view.made);
  const pass = outcomeWords(say, 'pass');
  // What was taken back stands in a row of its own.
  const back = new Set(view.corrections.map(({ reason }) => say('doc-put-right-why', { reason })));
  const bad = check.earlier.filter(({ outcome, why }) => outcome !== pass && !back.has(why));
  const last = bad.at(-1);
  if (!last) return [];
  return [
    {
      kind: 'again',
      what: check.asks,
      lines: [
        { text: check.asks, look: 'strong' },
        ...bad.map(({ says, outcome }) => ({ text: say('doc-exception-was', { was: says, outcome }) })),
        ...(check.answer
          ? [
              {
                text: say('doc-exception-now', {
                  now: check.answer.says,
                  outcome: outcomeWords(say, check.answer.outcome),
                }),
              },
            ]
          : []),
      ],
      why: bad.map(({ why, by, at }) => ({
        text: joined([why, say('doc-by-at', { name: by, time: when(at) })], ', '),
      })),
      by: check.answer?.by ?? last.by,
      at: check.answer?.at ?? last.at,
      line: check.answer?.line ?? last.line,
      check: check.id,
    },
  ];
}

const takenBack = (view: RecordView): Found[] =>
  view.corrections.map(({ what, was, now, reason, by, at, line }) => ({
    kind: 'taken-back',
    what,
    lines: [{ text: what, look: 'strong' }, { text: was }, { text: now }].filter(
      ({ text }) => text !== '',
    ) as BlockLine[],
    why: [{ text: reason }],
    by,
    at,
    line,
  }));

function overdue(check: CheckView, view: RecordView): Found[] {
  const { say } = tellingOf(view.made);
  const { answer } = check;
  if (answer?.overdueAllowedBy === undefined) return [];
  return [
    {
      kind: 'overdue',
      what: check.asks,
      lines: [{ text: check.asks, look: 'strong' }, { text: answer.says }],
      why: [
        { text: say('doc-exception-overdue', { name: answer.overdueAllowedBy }) },
        quiet(listed(say, readWith(check))),
      ],
      ...ofAnswer(check),
    },
  ];
}

/** Ids of the instruments with which it was read. */
export const readWith = ({ answer }: CheckView): Spoken[] => [
  ...new Set((answer?.readings ?? []).flatMap(({ instrument }) => instrument ?? [])),
];

function coarse(check: CheckView, view: RecordView): Found {
  const { say } = tellingOf(view.made);
  const { judged, rules } = check.answer!;
  return {
    kind: 'coarse',
    what: check.asks,
    lines: [{ text: check.asks, look: 'strong' }],
    why: rules.map(({ says }) => ({
      text: say('doc-exception-coarse', {
        uncertainty: withUnit(judged.uncertainty!, judged.unit),
        limit: says,
      }),
    })),
    ...ofAnswer(check),
  };
}

function fast(check: CheckView, view: RecordView): Found[] {
  if (!check.answer?.burst) return [];
  const { say } = tellingOf(view.made);
  return [
    {
      kind: 'fast',
      what: check.asks,
      lines: [{ text: check.asks, look: 'strong' }],
      why: [{ text: say('doc-exception-fast') }],
      ...ofAnswer(check),
    },
  ];
}

/** Releases that rest on a rule for one person, were given without a PIN, or no longer count. */
function holds(view: RecordView): Found[] {
  const { say } = tellingOf(view.made);
  return view.holds.flatMap(({ title, step, rule, pin, cited, earlier, by, at, line }): Found[] => {
    const lines: BlockLine[] = [{ text: title, look: 'strong' }, quiet(step)];
    const withoutPin = view.told !== undefined && pin === false && cited === undefined;
    return [
      ...(rule === undefined && !withoutPin
        ? []
        : [
            {
              kind: 'alone' as const,
              what: title,
              lines,
              why: [{ text: rule ?? say('doc-exception-no-pin') }],
              by: by ?? data(''),
              at: at ?? '',
              ...(line === undefined ? {} : { line }),
            },
          ]),
      ...earlier.map((each) => ({
        kind: 'released-before' as const,
        what: title,
        lines,
        why: [{ text: each.why }],
        by: each.by,
        at: each.at,
        line: each.line,
      })),
    ];
  });
}

function revisions(view: RecordView): Found[] {
  const { say } = tellingOf(view.made);
  return view.revisions.map(({ changed, because, reason, by, at, line }) => ({
    kind: 'revision',
    what: reason,
    lines: [
      { text: reason, look: 'strong' },
      ...changed.map((step) =>
        quiet(because?.[step] ? say('doc-step-why', { step, why: joined(because[step], '; ') }) : step),
      ),
    ],
    why: [{ text: reason }],
    by,
    at,
    line,
  }));
}
