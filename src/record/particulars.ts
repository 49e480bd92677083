/** What a declaration of performance of a window states under EN 14351-1, as a workshop's file gives it. */
import { DOCUMENT_WORDS } from './words/en.js';

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
  /** Number of the report of the type test that the units rest on. */
  readonly testReport?: string | undefined;
  /** How long a unit's record is to be kept after its release. */
  readonly keepYears?: number | undefined;
}

export const FIELDS = [
  'declarationNumber',
  'productType',
  'intendedUse',
  'maker',
  'address',
  'contact',
  'standard',
  'system',
  'laboratory',
  'yearAffixed',
] as const satisfies readonly Exclude<keyof Particulars, 'classes' | 'testReport' | 'keepYears'>[];

/** None stated. */
export const NO_PARTICULARS: Particulars = {
  ...(Object.fromEntries(FIELDS.map((key) => [key, ''])) as Record<(typeof FIELDS)[number], string>),
  classes: {},
};

/** Essential characteristics of windows, from memory of EN 14351-1 annex ZA: check the list against the standard. */
export const CHARACTERISTICS = [
  'wind',
  'snow',
  'water',
  'substances',
  'impact',
  'safety',
  'acoustic',
  'thermal',
  'radiation',
  'air',
] as const;

/** As a workshop's file names it. */
export const inFile = (characteristic: (typeof CHARACTERISTICS)[number]): string =>
  DOCUMENT_WORDS[`doc-class-${characteristic}`].text;
