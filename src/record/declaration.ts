/**
 * The particulars required on a label and a declaration of performance under EN 14351-1, as filled in by the workshop.
 * Empty fields print empty; nothing is computed, and nothing here decides whether a window conforms.
 */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { isSettled, standsNow } from './afterblocks.js';
import type { Block, Cell, Document } from './blocks.js';
import { CHARACTERISTICS, FIELDS, inFile, type Particulars } from './particulars.js';
import { proofOf, proofText } from './proof.js';
import { registerBlocks } from './registerblocks.js';
import type { RecordView } from './schema.js';
import { type DocumentSay, massOf, sealSays, sizeOf, tellingOf } from './telling.js';

/** Names of the empty fields, in sheet order. */
export function emptyFields(particulars: Particulars, say: DocumentSay): Spoken[] {
  return [
    ...FIELDS.filter((key) => particulars[key].trim() === '').map((key) => say(`doc-field-${key}`)),
    ...characteristics(particulars, say)
      .filter(([, value]) => value === '')
      .map(([name]) => name),
  ];
}

export function declarationDocument(particulars: Particulars, view: RecordView): Document {
  const { say, when } = tellingOf(view.made);
  const empty = emptyFields(particulars, say);
  const { unit, seal } = view;
  const facts = (caption: Spoken, rows: readonly (readonly [Spoken, Cell])[]): Block => ({
    kind: 'facts',
    caption,
    rows,
  });
  return {
    title: say('doc-sheet-title', { unit: unit.id, job: unit.job }),
    subject: say('doc-sheet-subject'),
    foot: say('doc-sheet-foot', {
      workshop: view.workshop,
      job: unit.job,
      unit: unit.id,
      seal: sealSays(say, seal),
    }),
    author: view.workshop,
    at: view.made.at,
    say,
    proof: proofText(proofOf(view, 'particulars')),
    layered: view.made.annex !== undefined,
    paper: view.made.paper,
    blocks: [
      {
        kind: 'title',
        over: view.workshop,
        text: say('doc-sheet-heading', { unit: unit.id }),
        under: say('doc-job', { job: unit.job }),
        newPage: false,
      },
      {
        kind: 'verdict',
        tone: empty.length === 0 && view.verdict.finished && isSettled(view) ? 'good' : 'open',
        text: empty.length === 0 ? say('doc-sheet-full') : say('doc-sheet-empty', { n: empty.length }),
        under: say('doc-sheet-says', { stands: standsNow(view) }),
      },
      ...(empty.length > 0
        ? ([
            { kind: 'heading', level: 2, text: say('doc-what-is-empty') },
            { kind: 'list', items: empty, tone: 'bad' },
          ] as const)
        : []),
      { kind: 'heading', level: 2, text: say('doc-particulars') },
      facts(
        say('doc-particulars'),
        FIELDS.map((key) => [say(`doc-field-${key}`), sanitize(particulars[key])] as const),
      ),
      { kind: 'heading', level: 2, text: say('doc-classes') },
      facts(say('doc-classes'), characteristics(particulars, say)),
      { kind: 'heading', level: 2, text: say('doc-window') },
      facts(say('doc-window'), [
        [say('doc-unit'), unit.id],
        [say('doc-frame'), sizeOf(unit)],
        [say('doc-window-label'), unit.sentence],
        [say('doc-mass'), massOf(unit)],
        [say('doc-record-closed'), seal.closed ? when(seal.at) : data('')],
        [say(seal.closed ? 'doc-seal-of-record' : 'doc-state-of-record'), seal.code],
      ]),
      { kind: 'text', look: 'quiet', text: say('doc-sheet-decides-nothing') },
      ...registerBlocks(view.made),
    ],
  };
}

/** The known characteristics in order, then any others the workshop declares. */
function characteristics({ classes }: Particulars, say: DocumentSay): (readonly [Spoken, Spoken])[] {
  const same = (a: string, b: string) =>
    a.toLowerCase().replace(/[^a-z]/g, '') === b.toLowerCase().replace(/[^a-z]/g, '');
  const given = Object.entries(classes);
  const others = given.filter(([name]) => !CHARACTERISTICS.some((known) => same(inFile(known), name)));
  const trimmed = (value: string) => data(sanitize(value).trim());
  return [
    ...CHARACTERISTICS.map(
      (known) =>
        [
          say(`doc-class-${known}`),
          trimmed(given.find(([key]) => same(key, inFile(known)))?.[1] ?? ''),
        ] as const,
    ),
    ...others.map(([name, value]) => [sanitize(name), trimmed(value)] as const),
  ];
}
