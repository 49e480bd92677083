/**
 * The particulars required on a label and a declaration of performance under EN 14351-1, as filled in by the workshop.
 * Empty fields print empty; nothing is computed, and nothing here decides whether a window conforms.
 */
import { sanitize } from '../base/text.js';
import { isSettled, standsNow } from './afterblocks.js';
import type { Block, Cell, Document } from './blocks.js';
import { proofOf, proofText } from './proof.js';
import { registerBlocks } from './registerblocks.js';
import type { RecordView } from './schema.js';
import { kilograms, size, whenIn } from './words.js';

export interface Particulars {
  readonly maker: string;
  readonly address: string;
  readonly contact: string;
  readonly productType: string;
  readonly intendedUse: string;
  readonly declarationNumber: string;
  readonly standard: string;
  readonly system: string;
  readonly laboratory: string;
  readonly yearAffixed: string;
  readonly classes: Readonly<Record<string, string>>;
}

export const FIELDS: readonly (readonly [Exclude<keyof Particulars, 'classes'>, string])[] = [
  ['declarationNumber', 'Number of the declaration'],
  ['productType', 'Product type'],
  ['intendedUse', 'Intended use'],
  ['maker', 'Maker'],
  ['address', 'Registered address'],
  ['contact', 'Contact'],
  ['standard', 'Standard and its date'],
  ['system', 'System of assessment'],
  ['laboratory', 'Laboratory'],
  ['yearAffixed', 'Year in which the mark was first affixed (last two digits)'],
];

/** None stated. */
export const NO_PARTICULARS: Particulars = {
  ...(Object.fromEntries(FIELDS.map(([key]) => [key, ''])) as Omit<Particulars, 'classes'>),
  classes: {},
};

/** Essential characteristics of windows, from memory of EN 14351-1 annex ZA: check the list against the standard. */
export const CHARACTERISTICS = [
  'Resistance to wind load',
  'Resistance to snow and permanent load',
  'Watertightness',
  'Dangerous substances',
  'Impact resistance',
  'Load-bearing capacity of safety devices',
  'Acoustic performance',
  'Thermal transmittance',
  'Radiation properties',
  'Air permeability',
] as const;

/** Names of the empty fields, in sheet order. */
export function emptyFields(particulars: Particulars): string[] {
  return [
    ...FIELDS.filter(([key]) => particulars[key].trim() === '').map(([, title]) => title),
    ...characteristics(particulars)
      .filter(([, value]) => value === '')
      .map(([name]) => name),
  ];
}

export function declarationDocument(particulars: Particulars, view: RecordView): Document {
  const empty = emptyFields(particulars);
  const { unit, seal } = view;
  const facts = (caption: string, rows: readonly (readonly [string, Cell])[]): Block => ({
    kind: 'facts',
    caption,
    rows,
  });
  return {
    title: `Particulars for the declaration, ${unit.id}, job ${unit.job}`,
    subject: 'Particulars under EN 14351-1 as filled in by the workshop',
    foot: `${view.workshop}: particulars for ${unit.job}, ${unit.id}. This sheet does not decide conformity. ${seal.closed ? 'Seal' : 'State'} ${seal.code || 'none'}`,
    author: view.workshop,
    at: view.made.at,
    proof: proofText(proofOf(view, 'particulars')),
    blocks: [
      {
        kind: 'title',
        over: view.workshop,
        text: `Particulars for the declaration: window ${unit.id}`,
        under: `job ${unit.job}`,
        newPage: false,
      },
      {
        kind: 'verdict',
        tone: empty.length === 0 && view.verdict.finished && isSettled(view) ? 'good' : 'open',
        text: empty.length === 0 ? 'All particulars are filled in' : `${empty.length} particulars are empty`,
        under: `${standsNow(view)}. This sheet prints what the workshop filled in; it does not decide conformity.`,
      },
      ...(empty.length > 0
        ? ([
            { kind: 'heading', level: 2, text: 'What is empty' },
            { kind: 'list', items: empty, tone: 'bad' },
          ] as const)
        : []),
      { kind: 'heading', level: 2, text: 'Particulars' },
      facts(
        'Particulars',
        FIELDS.map(([key, title]) => [title, sanitize(particulars[key])] as const),
      ),
      { kind: 'heading', level: 2, text: 'Declared levels and classes' },
      facts('Declared levels and classes', characteristics(particulars)),
      { kind: 'heading', level: 2, text: 'The window' },
      facts('The window', [
        ['Unit', unit.id],
        ['Frame, overall', unit.width === undefined ? '' : size(unit.width, unit.height ?? 0)],
        ['Window', unit.sentence],
        ['Mass', unit.mass === undefined ? '' : kilograms(unit.mass)],
        ['Record closed', seal.closed ? whenIn(view.made.zone)(seal.at) : ''],
        [seal.closed ? 'Seal of the record' : 'State of the record', seal.code],
      ]),
      {
        kind: 'text',
        look: 'quiet',
        text:
          'The program prints these particulars and decides nothing: whether this window is of the tested type, which marking ' +
          'and which declaration the law asks for, and what they must say, is for the maker to settle. That law is changing ' +
          '(Regulation (EU) 2024/3110; the rules for Great Britain): check it before you rely on this sheet.',
      },
      ...registerBlocks(view.made),
    ],
  };
}

/** The known characteristics in order, then any others the workshop declares. */
function characteristics({ classes }: Particulars): (readonly [string, string])[] {
  const same = (a: string, b: string) =>
    a.toLowerCase().replace(/[^a-z]/g, '') === b.toLowerCase().replace(/[^a-z]/g, '');
  const given = Object.entries(classes);
  const others = given.filter(([name]) => !CHARACTERISTICS.some((known) => same(known, name)));
  return [
    ...CHARACTERISTICS.map(
      (name) => [name, sanitize(given.find(([key]) => same(key, name))?.[1] ?? '').trim()] as const,
    ),
    ...others.map(([name, value]) => [sanitize(name), sanitize(value).trim()] as const),
  ];
}
