/** One unit's record, in the order an outsider asks: finished? what is missing? what is it? who checked it? */
import { zoneText } from '../base/wallclock.js';
import { data, type Spoken } from '../base/words.js';
import { afterBlocks, afterLink, isSettled, standsNow } from './afterblocks.js';
import { type Block, type BlockLine, type Cell, type Document, type Look, tableOr } from './blocks.js';
import { checkTables } from './checkblocks.js';
import { coarseOf } from './checkview.js';
import { exceptionsOf } from './exceptions.js';
import { historyBlocks } from './historyblocks.js';
import { exceptionBlocks, glanceBlock, layerBlocks } from './layers.js';
import { materialBlocks } from './materialblocks.js';
import { proofOf, proofText } from './proof.js';
import { registerBlocks } from './registerblocks.js';
import type { RecordView } from './schema.js';
import { sealBlocks } from './sealblocks.js';
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
    layered: view.made.annex !== undefined,
    paper: view.made.paper,
    blocks: [...unitBlocks(view, false), ...registerBlocks(view.made)],
  };
}

/** Of one unit among those of a period: its verdict, what is missing, and its exceptions; its own record has the rest. */
export const shortBlocks = (view: RecordView): Block[] => [
  titleBlock(view, false),
  verdictBlock(view),
  ...afterLink(view),
  ...missingBlocks(view),
  ...(exceptionsOf(view).length === 0 ? [] : [glanceBlock(view), ...exceptionBlocks(view)]),
  ...(view.after ? afterBlocks(view) : []),
];

export function unitBlocks(view: RecordView, newPage: boolean): Block[] {
  const { say } = tellingOf(view.made);
  const layered = view.made.annex !== undefined;
  return [
    titleBlock(view, newPage),
    verdictBlock(view),
    ...afterLink(view),
    ...missingBlocks(view),
    ...(layered ? [glanceBlock(view)] : []),
    ...(view.remarks.length > 0
      ? [{ kind: 'list' as const, items: view.remarks, tone: 'open' as const }]
      : []),
    ...(layered ? [] : coarseLink(view)),
    {
      kind: 'front',
      caption: say(view.unit.product === undefined ? 'doc-window' : 'doc-product'),
      rows: frontRows(view),
      figure: view.drawing ? { ...view.drawing, facts: [] } : undefined,
    },
    { kind: 'text', text: howToRead(view), look: 'quiet' },
    ...(layered ? layerBlocks(view) : formerBlocks(view)),
  ];
}

function titleBlock(view: RecordView, newPage: boolean): Block {
  const { say } = tellingOf(view.made);
  return {
    kind: 'title',
    over: view.workshop,
    text:
      view.unit.product === undefined
        ? say('doc-heading', { unit: view.unit.id })
        : say('doc-heading-product', { product: view.unit.product, unit: view.unit.id }),
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
  };
}

/** As documents were arranged before there were layers. */
const formerBlocks = (view: RecordView): Block[] => [
  ...measuredBlocks(view),
  ...historyBlocks(view),
  ...coarseBlocks(view),
  ...checkTables(view),
  ...materialBlocks(view),
  ...sealBlocks(view),
  ...afterBlocks(view),
];

/** What was said at the release stays; where it does not hold any more, that is said as loudly. */
function verdictBlock(view: RecordView): Block {
  const { verdict, after } = view;
  const tone = isSettled(view) ? verdict.tone : after!.tone;
  return { kind: 'verdict', text: standsNow(view), under: underVerdict(view), tone };
}

/** By whom it was released, where the record is in layers; then the counts. Who closed it is told below. */
function underVerdict(view: RecordView): Spoken {
  const { verdict, made } = view;
  const last = made.annex === undefined || !verdict.finished ? undefined : lastRelease(view);
  if (!last) return countsLine(view);
  const { say, when } = tellingOf(made);
  return joined([say('doc-released-by', { name: last.by, time: when(last.at) }), countsLine(view)], '. ');
}

/** The last hold that a person released; undefined where none did. */
export function lastRelease({ holds }: RecordView): { readonly by: Spoken; readonly at: string } | undefined {
  const [last] = holds
    .flatMap(({ released, byChecks, by, at }) =>
      released && !byChecks && by !== undefined && at !== undefined ? [{ by, at }] : [],
    )
    .sort((a, b) => (a.at > b.at ? -1 : 1));
  return last;
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

function frontRows({ unit, seal, papers, made }: RecordView): (readonly [Spoken, Cell])[] {
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
    ...row(say(unit.product === undefined ? 'doc-window-label' : 'doc-product-label'), unit.sentence),
    ...row(
      say('doc-glass'),
      unit.lights.flatMap(({ id, glass, glassSize }) =>
        glass !== undefined && glassSize !== undefined ? [ofLight(id, joined([glass, glassSize], ', '))] : [],
      ),
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
    ...(papers === undefined
      ? []
      : [
          ...row(say('doc-number'), [
            { text: papers.number, look: 'strong' },
            { text: papers.supersedes, look: 'quiet' },
          ]),
          ...row(say('doc-type-test'), papers.testReport || say('doc-not-stated')),
          ...row(say('doc-keep'), papers.keepUntil || say('doc-not-stated')),
        ]),
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
