/** What the squareness calculator found, as lines to read. */
import { commaWithin, hasComma } from '../base/figures.js';
import { data, laid, type Spoken } from '../base/words.js';
import { asMeasured, asMeasuredText, wrapHanging } from '../measure/asmeasured.js';
import { figure } from '../measure/decision.js';
import type { SquareJudgement } from '../measure/judgesquare.js';
import { LENGTH_NAMES } from '../measure/misread.js';
import type { Nominal } from '../measure/square.js';
import { SQUARE_KEYS } from '../measure/types.js';
import { sourceMessage } from '../measure/verdict.js';
import { STANDS_WORDS } from '../tui/words/en/standing.js';
import { type Io, retold, saying, tellOf } from './io.js';
import { SQUARE_SAYS } from './words/square.js';

const COLUMNS = 78;

export function squareText(
  { verdict, adjustment: a, question }: SquareJudgement,
  { nominal, ascii }: { readonly nominal?: Nominal; readonly ascii: boolean },
  io: Pick<Io, 'reader'>,
): Spoken[] {
  const say = saying(io, SQUARE_SAYS);
  const tell = tellOf(io);
  /** Verdicts as the bench says them. */
  const speak = saying(io, STANDS_WORDS);
  const comma = hasComma(io.reader?.language ?? 'en');
  const number = (text: string): Spoken => data(comma ? text.replace('.', ',') : text);
  const told = (text: string): Spoken => data(comma ? commaWithin(retold(io, text)) : retold(io, text));
  const fold = (text: Spoken): Spoken[] => wrapHanging(text, COLUMNS, '  ').map(data);
  const frame = asMeasured(a, nominal);
  const named = Math.max(26, ...SQUARE_KEYS.map((key) => tell(LENGTH_NAMES[key]).length + 2));
  const row = (name: Spoken, cells: readonly string[]): Spoken => {
    const [measured = '', adjusted = '', change = ''] = cells;
    const text = laid`  ${data(name.padEnd(named))}${data(measured.padStart(9) + adjusted.padStart(10) + change.padStart(8))}`;
    return data(text.trimEnd());
  };
  return [
    question ? say('square-asks') : speak(`outcome-${verdict.outcome}`),
    ...verdict.rules.flatMap((used) =>
      fold(
        say('square-rule', {
          verdict: speak(`outcome-${used.outcome}`),
          title: used.title,
          says: told(used.says),
          source: tell(sourceMessage(used)),
        }),
      ),
    ),
    data(''),
    row(data('mm'), [
      say('square-measured'),
      ...(a.adjusted ? [say('square-adjusted'), say('square-change')] : []),
    ]),
    ...SQUARE_KEYS.filter((key) => a.measured[key] !== undefined || a.adjusted !== undefined).map((key) =>
      row(tell(LENGTH_NAMES[key]), [
        a.measured[key] === undefined ? '-' : number(figure(a.measured[key])),
        a.adjusted ? number(a.adjusted[key].toFixed(2)) : '',
        a.residuals?.[key] === undefined ? '' : number(a.residuals[key].toFixed(2)),
      ]),
    ),
    ...(a.kind === 'six'
      ? [
          say(a.closes ? 'square-closes' : 'square-open', {
            misclosure: number(a.misclosure!.toFixed(2)),
            sd: number(a.misclosureSd!.toFixed(2)),
          }),
        ]
      : []),
    ...(a.angles && a.anglesU
      ? [
          say('square-corners', {
            corners: (['tl', 'tr', 'br', 'bl'] as const).map(
              (corner) => `${corner} ${number(a.angles![corner].toFixed(3))}`,
            ),
            u: number((2 * Math.max(...Object.values(a.anglesU))).toFixed(3)),
          }),
        ]
      : []),
    ...(question
      ? [
          data(''),
          ...fold(say('square-ask', { question: tell(question.text) })),
          ...question.details.flatMap((detail) => fold(laid`- ${tell(detail)}`)),
        ]
      : []),
    data(''),
    ...verdict.notes.flatMap((note) => fold(told(note))),
    ...(frame
      ? [
          data(''),
          ...asMeasuredText(frame, { columns: COLUMNS, rows: 18, ...(ascii ? { ascii } : {}) }).map(told),
        ]
      : []),
  ];
}
