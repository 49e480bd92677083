/** The seal of a record, or the state of one that is not closed, as blocks. */
import { data, type Spoken } from '../base/words.js';
import type { Block, Cell } from './blocks.js';
import type { RecordView } from './schema.js';
import { type DocumentSay, tellingOf } from './telling.js';

/** A shop may let a unit be released while its server lacks some of it. */
const unseenText = (say: DocumentSay, n: number): Spoken =>
  n === 0 ? say('doc-unseen-evidence') : say('doc-unseen-lines', { n });

const noSignature = (say: DocumentSay, { unsigned }: RecordView['seal']): Spoken =>
  unsigned ? say('doc-unsigned-by', { name: unsigned.by, why: unsigned.why }) : say('doc-unsigned');

export function sealBlocks({ seal, unit, made }: RecordView): Block[] {
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
