/** What a unit was made of and by whom, in few lines: a lot once, a set-up in a line, hashes on one line each. */
import { data, type Spoken } from '../base/words.js';
import { type Block, type BlockLine, type Cell, tableOr } from './blocks.js';
import { instrumentBlocks, peopleBlocks } from './materialblocks.js';
import type { RecordView } from './schema.js';
import { joined, tellingOf, toMinute } from './telling.js';

export const materialLayer = (view: RecordView): Block[] => [
  ...lotBlocks(view),
  ...instrumentBlocks(view),
  ...setupBlocks(view),
  ...peopleBlocks(view),
  ...evidenceBlocks(view),
  ...sourceBlocks(view),
];

const code = (text: string): BlockLine[] => [{ text: data(text), look: 'code' }];

/** Each lot once, where it was accepted or first asked for; how often it was named after that. */
function lotBlocks({ lots, made }: RecordView): Block[] {
  const { say, when } = tellingOf(made);
  const first = new Map<string, { readonly lot: RecordView['lots'][number]; named: number }>();
  for (const lot of lots) {
    const key = JSON.stringify([lot.material, lot.code, lot.expires ?? '']);
    const known = first.get(key);
    if (known) known.named += 1;
    else first.set(key, { lot, named: 1 });
  }
  return tableOr(
    say('doc-lots'),
    say('doc-no-lots'),
    [
      say('doc-col-material'),
      say('doc-col-lot'),
      say('doc-col-use-by'),
      say('doc-col-accepted'),
      say('doc-col-person-time'),
      say('doc-col-named'),
    ],
    [1.6, 3.2, 1.6, 2.8, 4.2, 1.1],
    [...first.values()].map(({ lot, named }): readonly Cell[] => [
      lot.material,
      code(lot.code),
      lot.expires ?? data(''),
      lot.accepted ?? lot.check,
      say('doc-by-at', { name: lot.by, time: toMinute(when(lot.at)) }),
      data(String(named)),
    ]),
  );
}

/** A first-off in a line: what was read of it; what was only looked at is counted. */
function setupBlocks({ setups = [], made }: RecordView): Block[] {
  if (setups.length === 0) return [];
  const { say, when } = tellingOf(made);
  return tableOr(
    say('doc-setups'),
    data(''),
    [say('doc-col-setup'), say('doc-col-first-off'), say('doc-col-person-time')],
    [1.6, 8.4, 4.2],
    setups.map(({ id, at, by, checks }): readonly Cell[] => [
      id,
      joined(
        checks.map(({ asks, says, outcome }) => {
          const read: Spoken = joined([asks, says], ' ');
          return outcome === say('doc-outcome-pass')
            ? read
            : say('doc-rule-outcome', { says: read, outcome });
        }),
        '; ',
      ),
      say('doc-by-at', { name: by, time: toMinute(when(at)) }),
    ]),
  );
}

function evidenceBlocks({ evidence, made }: RecordView): Block[] {
  if (evidence.length === 0) return [];
  const { say, when } = tellingOf(made);
  const photographs = evidence.flatMap(({ name, sha256, of, small }) =>
    small === undefined
      ? []
      : [
          {
            title: data(sha256.slice(0, 10)),
            alt: say('doc-photograph-of', { name, of }),
            png: small,
          },
        ],
  );
  const table = tableOr(
    say('doc-evidence-title'),
    data(''),
    [say('doc-col-file'), say('doc-col-shows')],
    [7, 5.2],
    evidence.map((each): readonly Cell[] => [
      [
        {
          text:
            each.picture === undefined
              ? say('doc-bytes', { name: each.name, n: each.bytes })
              : say('doc-pixels', { name: each.name, picture: each.picture }),
        },
        { text: data(each.sha256), look: 'code' },
      ],
      joined([each.of, say('doc-by-at', { name: each.by, time: toMinute(when(each.at)) })], ' '),
    ]),
  );
  return photographs.length === 0 ? table : [...table, { kind: 'photographs', photographs }];
}

function sourceBlocks({ builtFrom, made }: RecordView): Block[] {
  const { say } = tellingOf(made);
  return tableOr(
    say('doc-built-from'),
    say('doc-not-built-from'),
    [say('doc-col-what'), say('doc-col-name'), say('doc-col-content')],
    [2.65, 2.05, 6.6],
    builtFrom.map(({ what, name, sha256 }) => [what, name, code(sha256)]),
  );
}
