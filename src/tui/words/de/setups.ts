/** Set-ups and their first-offs. In German. */
import type { Translation } from '../../../base/words.js';
import type { SETUP_WORDS } from '../en/setups.js';

export const SETUP_DE: Translation<typeof SETUP_WORDS> = {
  'setup-proven': 'geprüft',
  'setup-proven-until': 'geprüft bis { $time }',
  'setup-to-prove': 'nachzuweisen: { $why }',
  'setup-doubt': `{ $n ->
  [one] 1 Fenster im Zweifel
 *[other] { $n } Fenster im Zweifel
}`,
  'setup-none': 'Diese Werkstatt verlangt keine Einrichtungen.',
  'setup-add': 'Mit shared/setups.yaml werden Erststücke verlangt.',
  'setup-prove-now': 'Jetzt prüfen: diese Fragen beantworten; Esc verlässt.',
  'setup-snags': `{ $n ->
  [one] 1 Mangel gemeldet.
 *[other] { $n } Mängel gemeldet.
}`,
  'setup-not-on': 'Nicht an { $units }: { $why }',
  'setup-ended': '{ $title }: vor dem nächsten Gebrauch wieder zu prüfen.',
  'setup-passed': '{ $title } ist geprüft: { $id }.',
  'setup-failed': '{ $by }: { $title } neu einstellen und wieder prüfen.',
  'setup-in-doubt': 'Im Zweifel seit { $since }: { $units }. F11, dann wählen: an jedem ein Mangel.',
  'setup-no-doubt': 'Seit dem letzten guten Erststück ist nichts im Zweifel.',
  'setup-what': 'Was ist zu tun?',
  'setup-raise': 'an jedem Fenster seit { $since } einen Mangel melden: { $units }',
  'setup-prove': 'mit Erststücken prüfen',
  'setup-shift-end': 'die Schicht ist zu Ende: gilt nicht mehr, neu prüfen',
  'setup-knock': 'sie bekam einen Stoß: gilt nicht mehr, neu prüfen',
  'setup-with-which': '{ $ask }: mit welchem Messgerät?',
  'setup-figure': 'Die Zahl tippen oder senden, dann Enter.',
  'setup-blade-changed': 'das Blatt wurde gewechselt: gilt nicht mehr, neu prüfen',
  'setup-tool-changed': 'das Werkzeug wurde gewechselt: gilt nicht mehr, neu prüfen',
  'setup-moved': 'sie wurde verschoben: gilt nicht mehr, neu prüfen',
  'setup-other': 'anderer Grund: gilt nicht mehr, neu prüfen',
};
