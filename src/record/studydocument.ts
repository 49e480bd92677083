/** A study of an instrument, or of people who judge, as a document. */
import { data, type Spoken } from '../base/words.js';
import type { Kappa } from '../figures/agreement.js';
import type { Bias, Linearity } from '../figures/bias.js';
import type { GaugeBlock, GaugeStudy } from '../figures/gauge.js';
import type { AgreementStudy } from '../figures/study.js';
import { type Block, type Document, tableOr } from './blocks.js';
import { plainFigure } from './chartpicture.js';
import { figuresPage } from './figurespage.js';
import type { RecordView } from './schema.js';
import { type DocumentSay, joined, printedAt, tellingOf } from './telling.js';

export type StudyResult =
  | {
      readonly kind: 'gauge';
      readonly study: GaugeStudy;
      readonly parts: number;
      readonly people: number;
      readonly trials: number;
    }
  | { readonly kind: 'bias'; readonly bias: Bias }
  | { readonly kind: 'linearity'; readonly linearity: Linearity }
  | {
      readonly kind: 'agreement';
      readonly agreement: AgreementStudy;
      readonly parts: number;
      readonly people: number;
    };

export interface StudyFacts {
  readonly made: RecordView['made'];
  readonly over: Spoken;
  readonly what: Spoken;
}

export function studyDocument(result: StudyResult, { made, over, what }: StudyFacts): Document {
  const { say } = tellingOf(made);
  const title = say('doc-study-title', { what });
  const time = printedAt(made);
  const [under, subject, blocks] = parts(result, say, time);
  return figuresPage({ title, under, subject, foot: title, blocks }, made, over);
}

function parts(result: StudyResult, say: DocumentSay, time: Spoken): [Spoken, Spoken, Block[]] {
  switch (result.kind) {
    case 'gauge': {
      const { study, parts, people, trials } = result;
      const percent = study[study.used].grr.studyVariation.toFixed(1);
      return [
        say('doc-study-under', { parts, people, trials, time }),
        say('doc-study-subject', { percent }),
        gaugeBlocks(study, percent, say),
      ];
    }
    case 'bias': {
      const line = biasLine(result.bias, say);
      return [time, line, biasBlocks(result.bias, say)];
    }
    case 'linearity': {
      const { linearity } = result;
      const [low, high] = linearity.slopeInterval;
      const line = say('doc-study-slope', {
        slope: plainFigure(linearity.slope),
        low: plainFigure(low),
        high: plainFigure(high),
        p: linearity.p.toFixed(4),
      });
      return [
        time,
        line,
        [
          { kind: 'heading', level: 2, text: say('doc-study-linearity') },
          { kind: 'text', text: line },
          { kind: 'heading', level: 2, text: say('doc-study-bias') },
          { kind: 'list', items: linearity.at.map((bias) => biasLine(bias, say)) },
        ],
      ];
    }
    case 'agreement': {
      const { agreement, parts, people } = result;
      return [
        say('doc-study-judged', { parts, people, time }),
        kappaText(agreement.fleiss, say),
        agreementBlocks(agreement, say),
      ];
    }
  }
}

const SOURCES = ['repeatability', 'reproducibility', 'grr', 'part', 'total'] as const;

function gaugeBlocks(study: GaugeStudy, percent: string, say: DocumentSay): Block[] {
  const { used, interaction } = study;
  const table = (title: Spoken, components: GaugeBlock): Block[] =>
    tableOr(
      title,
      data(''),
      [
        say('doc-study-col-source'),
        say('doc-study-col-variance'),
        say('doc-study-col-sd'),
        say('doc-study-col-contribution'),
        say('doc-study-col-variation'),
      ],
      [3, 2, 2, 2, 2],
      SOURCES.map((source) => [
        say(`doc-study-${source}`),
        data(plainFigure(components[source].variance)),
        data(plainFigure(components[source].sd)),
        data(components[source].contribution.toFixed(2)),
        data(components[source].studyVariation.toFixed(2)),
      ]),
    );
  return [
    {
      kind: 'text',
      look: 'strong',
      text: joined(
        [
          say('doc-study-verdict', { percent }),
          say(`doc-study-${worthOf(study[used])}`),
          kindsTold(study[used], say),
        ],
        ' ',
      ),
    },
    { kind: 'text', look: 'quiet', text: say('doc-study-advice') },
    {
      kind: 'text',
      text: joined(
        [
          say('doc-study-interaction', { f: interaction.F?.toFixed(4) ?? '-', p: interaction.p.toFixed(4) }),
          say(`doc-study-used-${used}`),
        ],
        ' ',
      ),
    },
    ...table(say(`doc-study-${used}`), study[used]),
    ...table(
      say(used === 'pooled' ? 'doc-study-unpooled' : 'doc-study-pooled'),
      study[used === 'pooled' ? 'unpooled' : 'pooled'],
    ),
    ...table(say('doc-study-by-ranges'), study.byRanges),
  ];
}

/** Common practice. */
const worthOf = ({ grr }: GaugeBlock): 'good' | 'some' | 'unfit' =>
  grr.studyVariation < 10 ? 'good' : grr.studyVariation <= 30 ? 'some' : 'unfit';

function kindsTold({ ndc: { truncated } }: GaugeBlock, say: DocumentSay): Spoken {
  if (truncated === null) return say('doc-study-kinds-all');
  if (truncated < 2) return say('doc-study-kinds-none');
  return say(truncated < 5 ? 'doc-study-kinds-few' : 'doc-study-kinds', { ndc: truncated });
}

const biasLine = ({ reference, n, mean, bias, interval, p }: Bias, say: DocumentSay): Spoken =>
  say('doc-study-bias-line', {
    reference: plainFigure(reference),
    n,
    mean: plainFigure(mean),
    bias: plainFigure(bias),
    low: plainFigure(interval[0]),
    high: plainFigure(interval[1]),
    p: p.toFixed(4),
  });

const biasBlocks = (bias: Bias, say: DocumentSay): Block[] => [
  { kind: 'heading', level: 2, text: say('doc-study-bias') },
  { kind: 'text', text: biasLine(bias, say) },
  {
    kind: 'text',
    look: 'strong',
    text: say(bias.interval[0] > 0 || bias.interval[1] < 0 ? 'doc-study-bias-real' : 'doc-study-bias-none'),
  },
];

function kappaText({ kappa, interval }: Kappa, say: DocumentSay): Spoken {
  if (kappa === null) return say('doc-study-kappa-none');
  if (interval === null) return data(kappa.toFixed(3));
  const [low, high] = interval;
  return say('doc-fig-index', { value: kappa.toFixed(3), low: low.toFixed(3), high: high.toFixed(3) });
}

const shareText = ({ agreement }: Kappa): Spoken => data(`${(100 * agreement).toFixed(1)} %`);

function agreementBlocks({ pairs, fleiss, themselves }: AgreementStudy, say: DocumentSay): Block[] {
  return tableOr(
    say('doc-study-agreement'),
    data(''),
    [say('doc-study-col-who'), say('doc-study-col-kappa'), say('doc-study-col-agree')],
    [4, 3, 2],
    [
      [say('doc-study-all'), kappaText(fleiss, say), shareText(fleiss)],
      ...pairs.map((pair) => [
        say('doc-study-pair', { first: pair.first, second: pair.second }),
        kappaText(pair, say),
        shareText(pair),
      ]),
      ...themselves.map(({ person, agree, of }) => [
        say('doc-study-self', { person }),
        data(''),
        say('doc-study-share', { agree, of }),
      ]),
    ],
  );
}
