/** How a document differs from what the journal gives. In German. */
import type { Translation } from '../../../base/words.js';
import type { DIFFER_WORDS } from '../en/differs.js';

export const DIFFER_DE: Translation<typeof DIFFER_WORDS> = {
  'differs-nothing': 'nichts',
  'differs-quoted': '„{ $text }“',
  'differs-line-end': 'Es endet mit Zeile { $n }; das Journal ergibt { $wanted } Zeilen.',
  'differs-line': 'In Zeile { $n } steht { $said }; das Journal ergibt { $wanted }.',
  'differs-checks': 'Es hat { $n } Prüfungen; das Journal ergibt { $wanted }.',
  'differs-cell':
    'Zeile { $n }, { $check }, { $column }: da steht { $said }; das Journal ergibt { $wanted }.',
  'differs-cell-check': 'Prüfung',
  'differs-cell-more': 'eine Zelle mehr',
  'differs-member': 'In { $path } steht { $said }; das Journal ergibt { $wanted }.',
  'differs-pdf': 'Dieses PDF hat nicht dieses Programm geschrieben.',
  'differs-pages': 'Es hat { $n } Seiten; das Journal ergibt { $wanted }.',
  'differs-page': 'Auf Seite { $n } steht { $said }; das Journal ergibt { $wanted }.',
  'differs-drawn':
    'Der Wortlaut ist derselbe, aber gezeichnet ist es nicht wie vom Programm: etwas wurde geändert oder hinzugefügt.',
  'differs-language':
    'Es gibt an, in „{ $language }“ verfasst zu sein; in dieser Sprache verfasst diese Version des Programms kein Dokument.',
  'differs-version':
    '{ $difference } Es stammt von einer anderen Version des Programms, und der Hash seiner Tatsachen passt: vielleicht ist es nur anders gezeichnet.',
  'differs-words':
    '{ $difference } Es ist in Worten verfasst, die diese Version des Programms nicht hat: vielleicht ist nur der Wortlaut ein anderer.',
};
