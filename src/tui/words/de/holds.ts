/** Holds, snags, and what was asked of other units. In German. */
import type { Translation } from '../../../base/words.js';
import type { HOLD_WORDS } from '../en/holds.js';

export const HOLD_DE: Translation<typeof HOLD_WORDS> = {
  'hold-none': 'Dieser Schritt hat keinen Haltepunkt.',
  'hold-title': 'HALTEPUNKT  { $title }',
  'hold-pin': '{ $name }: PIN tippen, dann F8.',
  'hold-press': '{ $name }: F8 gibt ihn frei. Enter tut das nie.',
  'hold-other': 'Freigeben darf nicht, wer den Schritt gemacht hat.',
  'hold-picture': '{ $ask } (mit Bild)',
  'hold-by': '{ $step }, von { $names }',
  'hold-looked': 'Mit Ja beantwortet: { $what }',
  'hold-computed': 'vom Programm ausgerechnet',
  'hold-with': 'mit { $tools }',
  'hold-of': 'von { $unit } durch { $name }',
  'hold-no-enter': 'Enter gibt nie einen Haltepunkt frei.',
  'hold-key': 'F8 gibt ihn frei; Esc verlässt.',
  'hold-step': 'HALTEPUNKT: { $title }',
  'hold-waits':
    'Jede Prüfung dieses Schritts ist bestanden. Die Arbeit geht erst weiter, wenn der Haltepunkt freigegeben ist (F8).',
  'snag-new': 'einen neuen Mangel melden',
  'snag-open': 'offen, nicht entschieden',
  'snag-decided': 'offen, { $disposition }',
  'snag-closed': 'erledigt',
  'snag-is-closed': 'Mangel Nr. { $n } ist erledigt.',
  'cited-with': 'Mit der Antwort übernommen:',
  'cited-released': 'freigegeben',
  'snag-waits-decision': 'Mangel Nr. { $n }, „{ $text }“: wartet auf eine Entscheidung. F6.',
  'snag-waits-proof':
    'Mangel Nr. { $n }, „{ $text }“: { $disposition }. Ist er behoben und noch einmal geprüft (F3, der Schritt, F7), erledigt F6 ihn.',
  'cited-stands': 'Rechts übernimmt, was schon feststeht:',
  'cited-ways': 'Oder Links fragt diesen Schritt neu.',
  'cited-ways-lot': 'Oder eine andere Charge scannen, oder Links fragt diesen Schritt neu.',
  'cited-right': 'in Ordnung',
  'snag-row': 'Nr. { $n } { $severity }: { $cause }, { $text }  { $state }',
};
