/** What keys do, in the footer, the menu and on their page. In German. */
import type { Translation } from '../../../base/words.js';
import type { KEY_WORDS } from '../en/keys.js';

export const KEY_DE: Translation<typeof KEY_WORDS> = {
  'key-yes': 'ja',
  'key-yes-help':
    'Ja, getan, passt; im Formular: das Markierte nehmen, am Ende ausführen. Bei leerer Eingabezeile.',
  'key-no': 'nein',
  'key-no-help': 'Passt nicht; im Formular: eine Frage zurück. Bei leerer Eingabezeile.',
  'key-act': 'ausführen',
  'key-act-help':
    'Führt aus, was in der Eingabezeile steht: Eine Zahl ist ein Messwert, ein Code ist ein Scan, bei allem anderen wird gefragt. Bei leerer Zeile wählt Enter nur in einer Liste, in der mit den Pfeilen markiert wurde.',
  'key-up': 'hoch',
  'key-up-help': 'In der Liste eins hoch.',
  'key-down': 'runter',
  'key-down-help': 'In der Liste eins runter.',
  'key-page-up': 'Seite hoch',
  'key-page-up-help': 'Eine Seite hoch.',
  'key-page-down': 'Seite runter',
  'key-page-down-help': 'Eine Seite runter.',
  'key-back': 'zurück',
  'key-back-help': 'Leert die Eingabezeile; ist sie leer, geht es zurück. Schreibt nie etwas.',
  'key-help': 'Tasten',
  'key-help-help': 'Diese Seite mit den Tasten.',
  'key-units': 'Fenster',
  'key-units-help': 'Alle Fenster und ihr Stand; ein anderes wählen.',
  'key-stages': 'nach Schritten',
  'key-stages-help':
    'Schritte, die an mehreren Fenstern offen sind: Wer einen wählt, macht ihn an allen nacheinander. Noch einmal: die Schichtübergabe, und zurück zu den Fenstern.',
  'key-steps': 'Schritte',
  'key-steps-help': 'Die Schritte dieses Fensters suchen und zu jedem offenen springen.',
  'key-person': 'Person',
  'key-person-help': 'Wer an der Werkbank ist. Ein Scan der Person tut dasselbe.',
  'key-lists': 'Listen',
  'key-lists-help':
    'Woraus dieses Fenster gemacht wird: Zuschnitt, Bearbeitung, Kleinteile, Glas, Klötze und Beschläge, mit dem, was getan ist. Rechts und Links blättern; dieselbe Taste noch einmal zeigt die Listen der Serie und des Auftrags.',
  'key-why': 'warum',
  'key-why-help':
    'Die Rechnung hinter der Zahl auf dem Bildschirm und woher ihre Festwerte kommen; dazu Vorsicht, Grenzen und Anleitung ganz, wo der Bildschirm sie kürzen musste.',
  'key-measured': 'wie gemessen',
  'key-measured-help':
    'Der zuletzt gemessene Rahmen oder Flügel: gezeichnet, wie er gemessen wurde, mit Urteil und nächstem Schritt.',
  'key-anew': 'alles neu',
  'key-anew-help': 'Eine Reihe von Messwerten von vorn beginnen.',
  'key-snags': 'Mangel',
  'key-snags-help': 'Einen Mangel melden; über einen offenen entscheiden oder ihn erledigen.',
  'key-setups': 'Einrichtungen',
  'key-setups-help':
    'Säge, Stanzen und Lehren: welche mit Erststücken geprüft sind und bis wann. Auswählen, um zu prüfen oder die Prüfung aufzuheben.',
  'key-rework': 'Nacharbeit',
  'key-rework-help': 'Einen Schritt noch einmal machen. Zeigt zuerst, was damit wieder offen ist und warum.',
  'key-release': 'freigeben',
  'key-release-help':
    'Den Haltepunkt freigeben, an dem die Arbeit steht: Diese Taste zeigt ihn, noch einmal gedrückt gibt sie ihn frei. Enter tut das nie.',
  'key-unit': 'Überblick',
  'key-unit-help': 'Die Abschnitte dieses Fensters und sein Stand.',
  'key-menu': 'Menü',
  'key-menu-help': 'Alle Befehle als Liste.',
  'key-instrument': 'Messgerät',
  'key-instrument-help': 'Das Messgerät in der Hand. Ein Scan des Messgeräts tut dasselbe.',
  'key-park': 'zurückstellen',
  'key-park-help': 'Dieses Fenster zurückstellen oder wieder aufnehmen.',
  'key-note': 'Notiz',
  'key-note-help': 'Eine Notiz ins Journal dieses Fensters schreiben.',
  'key-put-right': 'zurücknehmen',
  'key-put-right-help':
    'Die letzte Antwort oder den letzten Messwert zurücknehmen, mit Grund. Sie bleibt im Journal und zählt nicht mehr.',
  'key-language': 'Sprache',
  'key-language-help':
    'Die Schritte dieses Fensters in der nächsten Sprache, in die der Ablauf übersetzt ist; anfangs in der Sprache der Person.',
  'key-leave': 'verlassen',
  'key-leave-help':
    'Die Werkbank verlassen. Alles Bestätigte ist auf der Platte; das Fenster geht an derselben Prüfung weiter.',
  'foot-one-back': 'eins zurück',
  'foot-do-it': 'ausführen',
  'foot-take-it': 'nehmen',
  'foot-takes-typed': 'nimmt die Eingabe',
  'foot-logs-typed': 'speichert die Eingabe',
  'foot-choose': 'wählen',
  'foot-all-over': 'übernimmt alles',
  'foot-asks-anew': 'fragt neu',
  'foot-takes-marked': 'nimmt das Markierte',
  'foot-all-right': 'alles in Ordnung',
  'foot-marked-not': 'das Markierte nicht',
  'foot-judge': 'beurteilen',
  'foot-takes-tool': 'nimmt es zur Hand',
  'foot-takes-lot': 'nimmt die Charge',
  'foot-number-typed': 'nimmt eine Nummer',
  'help-typing':
    'Buchstaben, Ziffern und . , - / gehen auf jedem Bildschirm in die Eingabezeile. Enter führt aus, was dort steht.',
  'menu-or': 'oder',
};
