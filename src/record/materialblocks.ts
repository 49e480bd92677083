/** What a unit was made of and by whom, as blocks: lots, instruments, set-ups, people, evidence, files. */
import { data } from '../base/words.js';
import { type Block, type BlockLine, type Cell, tableOr } from './blocks.js';
import type { RecordView } from './schema.js';
import { joined, tellingOf } from './telling.js';

export function materialBlocks(view: RecordView): Block[] {
  const { say, when } = tellingOf(view.made);
  const { lots, evidence, builtFrom } = view;
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
    ...instrumentBlocks(view),
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
    ...peopleBlocks(view),
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

export function instrumentBlocks(view: RecordView): Block[] {
  const { say } = tellingOf(view.made);
  const layered = view.made.annex !== undefined;
  return [
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
      layered ? [1.6, 5.8, 1.3, 1.6, 1.6, 1.5, 1.8] : [1.5, 3, 1.4, 1.7, 1.7, 2, 2.7],
      view.instruments.map((i) => [
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
  ];
}

/** Who stood by for whom, and everybody with the level that counted then. */
export function peopleBlocks(view: RecordView): Block[] {
  const { say, when } = tellingOf(view.made);
  const { people } = view;
  return [
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
          // Documents of before layers keep their columns.
          view.made.annex === undefined ? [2, 2.2, 3.4] : [2, 3.4, 2.6],
          people.map(({ name, level = say('doc-level-not-kept'), did }) => [name, level, did]),
        )
      : tableOr(
          say('doc-people'),
          say('doc-nobody'),
          [say('doc-col-name'), say('doc-col-did')],
          [1, 2],
          people.map(({ name, did }) => [name, did]),
        )),
  ];
}
