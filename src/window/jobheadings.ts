/** Headings and words of job tables as spreadsheets in other languages have them, beside the format's own. */
import type { Language } from '../base/languages.js';

interface TableWords {
  /** By heading, in small letters with `_` for blanks; those of lights without their number. */
  readonly headings: Readonly<Record<string, string>>;
  /** By word of a cell, in small letters. */
  readonly cells: Readonly<Record<string, string>>;
}

const IN: Readonly<Record<Language, TableWords>> = {
  de: {
    headings: {
      auftrag: 'job',
      titel: 'title',
      kunde: 'customer',
      profilsatz: 'profile_set',
      arbeitsanweisung: 'procedure',
      stand: 'revision',
      position: 'mark',
      pos: 'mark',
      'pos.': 'mark',
      anzahl: 'quantity',
      menge: 'quantity',
      stück: 'quantity',
      breite: 'width',
      höhe: 'height',
      raum: 'room',
      bemerkung: 'note',
      farbe: 'colour',
      farbe_außen: 'outside_colour',
      farbe_innen: 'inside_colour',
      glas: 'glass',
      fluchtweg: 'escape',
      öffnungsbegrenzer: 'restrictor',
      sicherheitsglas: 'safety_glass',
      zubehör: 'fittings',
      teilung: 'split',
      verbindung: 'joint',
      bei: 'at',
      von: 'from',
      licht: 'sight',
      verhältnis: 'ratio',
      gleich: 'equal',
      feld: 'light',
      angeschlagen: 'hinge',
      gesehen_von: 'viewed_from',
      öffnet: 'opens',
      griff_bei: 'handle_at',
      glas_von: 'glass_of',
    },
    cells: {
      ja: 'yes',
      nein: 'no',
      fest: 'fixed',
      festfeld: 'fixed',
      klapp: 'top-hung',
      klappflügel: 'top-hung',
      dreh: 'side-hung',
      drehflügel: 'side-hung',
      links: 'left',
      rechts: 'right',
      oben: 'top',
      unten: 'bottom',
      außen: 'outside',
      innen: 'inside',
      nach_außen: 'out',
      nach_innen: 'in',
      senkrecht: 'upright',
      waagerecht: 'level',
    },
  },
};
const ALL = Object.values(IN);

/** The format's own heading; the heading itself where it is none of another language. */
export function headingOf(text: string): string {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');
  const [, stem = plain, number = ''] = /^(.*?)(_\d+)?$/.exec(plain) ?? [];
  // With a number it is a light; without one the sizes between sight lines.
  if (stem === 'licht' && number !== '') return `light${number}`;
  for (const { headings } of ALL) if (Object.hasOwn(headings, stem)) return `${headings[stem]}${number}`;
  return plain;
}

/** The format's own word for a cell that holds one of its words. */
export function cellWord(text: string): string {
  const plain = text.trim().toLowerCase();
  const key = plain.replace(/\s+/g, '_');
  for (const { cells } of ALL) if (Object.hasOwn(cells, key)) return cells[key]!;
  return plain;
}
