/** What a unit's record says first: verdict, what is missing, what one must know; the window; the seal. In German. */
import type { Translation } from '../../../base/words.js';
import type { PAGE_WORDS } from '../en/page.js';

export const PAGE_DE: Translation<typeof PAGE_WORDS> = {
  'doc-title': 'Qualitätsprotokoll { $unit }, Auftrag { $job }',
  'doc-heading': 'Qualitätsprotokoll des Fensters { $unit }',
  'doc-heading-product': 'Qualitätsprotokoll: { $product } { $unit }',
  'doc-job': 'Auftrag { $job }',
  'doc-how-to-read':
    'Lesehilfe: links und rechts gelten von außen gesehen; Längen in Millimetern, Zeiten { $clock }. Bei jeder Prüfung steht, was abgelesen wurde, der Grenzwert, an dem sie gemessen wurde, und woher er stammt. „NICHT NACHGEWIESEN“ heißt, dass das Messgerät es nicht entscheiden konnte. Nichts wurde gelöscht: Berichtigtes steht mit seinem alten Wert da.',
  'doc-clock-zone': 'nach der Uhr von { $zone }',
  'doc-clock-utc': 'in UTC',
  'doc-foot': '{ $workshop }: { $job }, { $unit }. { $state }. { $seal }',
  'doc-foot-finished': 'Fertig',
  'doc-foot-open': 'NICHT FERTIG',
  'doc-foot-seal': 'Siegel { $code }',
  'doc-foot-state': 'Stand { $code }',
  'doc-none': 'keiner',

  'doc-scrapped':
    'VERSCHROTTET: nicht ausliefern. { $done } von { $of } { $of ->\n  [one] Schritt\n *[other] Schritten\n} erledigt',
  'doc-released': 'Fertig und freigegeben',
  'doc-released-conceded':
    'Fertig und freigegeben, mit { $n } { $n ->\n  [one] Sonderfreigabe\n *[other] Sonderfreigaben\n}',
  'doc-refused': 'NICHT FERTIG: bei der Auftragsprüfung abgewiesen',
  'doc-not-begun':
    'NICHT FERTIG: nicht begonnen, { $done } von { $of } { $of ->\n  [one] Schritt\n *[other] Schritten\n} erledigt',
  'doc-not-finished':
    'NICHT FERTIG: { $done } von { $of } { $of ->\n  [one] Schritt\n *[other] Schritten\n} erledigt',
  'doc-not-finished-also': '{ $verdict }; { $also }',
  'doc-also-failed': '{ $n } { $n ->\n  [one] Prüfung\n *[other] Prüfungen\n} nicht bestanden',
  'doc-also-snags': '{ $n } { $n ->\n  [one] Mangel\n *[other] Mängel\n} offen',
  'doc-also-aside': 'zurückgestellt',
  'doc-since-scrapped': '{ $verdict }; seither VERSCHROTTET',
  'doc-since-open': '{ $verdict }; seither NICHT GEKLÄRT',

  'doc-count-steps': '{ $done } von { $of } { $of ->\n  [one] Schritt\n *[other] Schritten\n} erledigt',
  'doc-count-passed': '{ $passed } von { $of } { $of ->\n  [one] Prüfung\n *[other] Prüfungen\n} bestanden',
  'doc-count-failed': '{ $n } nicht bestanden',
  'doc-count-not-proven': '{ $n } nicht nachgewiesen',
  'doc-count-conceded': '{ $n } mit Sonderfreigabe',
  'doc-count-holds':
    '{ $released } von { $of } { $of ->\n  [one] Haltepunkt\n *[other] Haltepunkten\n} freigegeben',
  'doc-count-no-snags': 'keine Mängel',
  'doc-count-snags-open': '{ $n } { $n ->\n  [one] Mangel\n *[other] Mängel\n}, { $open } offen',
  'doc-count-snags-closed': '{ $n } { $n ->\n  [one] Mangel, erledigt\n *[other] Mängel, alle erledigt\n}',
  'doc-count-no-corrections': 'nichts berichtigt',
  'doc-count-corrections': '{ $n } { $n ->\n  [one] Berichtigung\n *[other] Berichtigungen\n}',
  'doc-count-again': '{ $n } { $n ->\n  [one] Prüfung\n *[other] Prüfungen\n} mehr als einmal beantwortet',
  'doc-count-none-back': 'keine Antwort zurückgenommen',
  'doc-count-back': '{ $n } { $n ->\n  [one] Antwort\n *[other] Antworten\n} zurückgenommen',
  'doc-count-reworks': '{ $n } { $n ->\n  [one] Nacharbeit\n *[other] Nacharbeiten\n}',

  'doc-missing': 'Was fehlt',
  'doc-nothing-missing-then': 'Beim Abschluss fehlte nichts.',
  'doc-nothing-missing': 'Es fehlt nichts.',
  'doc-missing-setout':
    'Die Maße, nach denen dieses Fenster gebaut wurde, lassen sich nicht lesen: Größen und Zeichnung fehlen.',
  'doc-missing-order': 'Bei der Auftragsprüfung abgewiesen: { $why }',
  'doc-missing-failed': 'Nicht bestanden und nicht geklärt: { $check } ({ $says }).',
  'doc-missing-not-proven': 'Nicht nachgewiesen und nicht geklärt: { $check } ({ $says }).',
  'doc-missing-evidence': 'Weder Bild noch Datei liegt vor für: { $check }.',
  'doc-missing-snag': 'Mangel { $n } ist offen, nicht entschieden: { $text }',
  'doc-missing-snag-decided': 'Mangel { $n } ist offen (entschieden: { $disposition }): { $text }',
  'doc-missing-aside': 'Das Fenster ist zurückgestellt.',
  'doc-missing-end': 'Das Protokoll ist nicht abgeschlossen: niemand hat das Fenster fertiggemeldet.',
  'doc-missing-hold': 'Haltepunkt nicht freigegeben: { $title }.',
  'doc-missing-holds': '{ $n } Haltepunkte nicht freigegeben: { $titles }.',
  'doc-times': '{ $title } ({ $n }-mal)',
  'doc-missing-again': '{ $stage }, noch einmal zu machen: { $step }',
  'doc-missing-again-why': '{ $stage }, noch einmal zu machen: { $step } ({ $why }).',
  'doc-missing-stage': '{ $stage }: nicht begonnen ({ $n } { $n ->\n  [one] Schritt\n *[other] Schritte\n}).',
  'doc-missing-steps':
    '{ $stage }: { $n } von { $of } { $of ->\n  [one] Schritt\n *[other] Schritten\n} nicht erledigt ({ $steps }).',
  'doc-more': '{ $n } weitere',

  'doc-remark-invented':
    'Der Profilsatz ist für die Vorführung erfunden: dies ist kein Protokoll eines wirklichen Fensters.',
  'doc-remark-invented-product':
    'Der Profilsatz ist für die Vorführung erfunden: dies ist kein Protokoll eines wirklichen Erzeugnisses.',
  'doc-remark-not-proven':
    '{ $n } { $n ->\n  [one] Prüfung ließ\n *[other] Prüfungen ließen\n} sich mit dem Messgerät nicht nachweisen (als NICHT NACHGEWIESEN bezeichnet).',
  'doc-remark-overrides':
    '{ $n } { $n ->\n  [one] Einwand\n *[other] Einwände\n} der Auftragsprüfung von einer genannten Person übergangen (siehe Übergangen).',
  'doc-remark-overdue':
    '{ $n } { $n ->\n  [one] Prüfung\n *[other] Prüfungen\n} mit einem Messgerät, dessen Kalibrierung abgelaufen war, auf das Wort einer genannten Person.',
  'doc-remark-fast':
    '{ $n } { $n ->\n  [one] Prüfung\n *[other] Prüfungen\n} schneller beantwortet, als die Arbeit zu machen ist (mit „schnell“ bezeichnet).',
  'doc-remark-haste':
    '{ $name }: { $n } von { $of } { $of ->\n  [one] Sichtprüfung\n *[other] Sichtprüfungen\n} ({ $share } %) früher beantwortet, als sich die Fragen lesen lassen.',
  'doc-remark-haste-beside':
    '{ $name }: { $n } von { $of } { $of ->\n  [one] Sichtprüfung\n *[other] Sichtprüfungen\n} ({ $share } %) früher beantwortet, als sich die Fragen lesen lassen; gemessene Antworten brauchten im Median { $seconds } s.',
  'doc-remark-solo':
    '{ $n } { $n ->\n  [one] Haltepunkt\n *[other] Haltepunkte\n} von der Person freigegeben, die die Arbeit gemacht hat, nach der Regel für Ein-Personen-Werkstätten.',
  'doc-remark-clock': 'Die Uhr der Werkbank sprang, während dieses Fenster gebaut wurde (siehe Notizen).',
  'doc-remark-initials':
    'Namen sind in diesem Dokument durch Kürzel ersetzt; das Journal ist unverändert und hält fest, wer gemeint ist.',
  'doc-remark-partly':
    'Dieses Fenster wurde mit einer Version begonnen, die nicht alles aufbewahrte, worauf ihre Urteile beruhen: wo das Journal nichts mehr hat, stehen Namen, Messgeräte, Einrichtungen und Hersteller so da, wie sie am { $day }, dem Tag des Drucks, geführt werden, nicht wie am Tag der Arbeit.',
  'doc-remark-levels':
    'Ab Zeile { $n } galten für { $name } andere Stufen: { $is }; davor { $was } (siehe Personen).',
  'doc-remark-setout':
    'Die Maße, die diese Version des Programms ausrechnet, sind nicht die, die beim Beginn des Fensters festgehalten wurden.',
  'doc-level-not-given': '{ $stage } nicht vergeben',

  'doc-window': 'Das Fenster',
  'doc-product': 'Erzeugnis',
  'doc-product-label': 'Bauart',
  'doc-unit': 'Fenster',
  'doc-order': 'Bestellung',
  'doc-revision': 'Ausgabe { $revision }',
  'doc-job-label': 'Auftrag',
  'doc-room': 'Einbauort',
  'doc-frame': 'Rahmen außen',
  'doc-window-label': 'Bauart',
  'doc-glass': 'Glas',
  'doc-glass-of': '{ $light }: { $glass }',
  'doc-glass-size': '{ $size }, { $thickness } mm dick, { $mass }',
  'doc-sash': 'Flügel',
  'doc-mass': 'Gewicht',
  'doc-lift': 'Zum Heben',
  'doc-colour': 'Farbe',
  'doc-outside': 'außen { $colour }',
  'doc-inside': 'innen { $colour }',
  'doc-must-be': 'Gefordert',
  'doc-need-escape': 'Fluchtfenster',
  'doc-need-restrictor': 'Öffnungsbegrenzer',
  'doc-need-safety': 'Sicherheitsglas',
  'doc-profile-set': 'Profilsatz',
  'doc-invented': '{ $set } (erfunden)',
  'doc-procedure': 'Arbeitsanweisung',
  'doc-version': '{ $title }, Version { $version }',
  'doc-replaces': 'Ersetzt',
  'doc-replaced-by': 'Ersetzt durch',
  'doc-note-on-order': 'Vermerk zum Auftrag',
  'doc-record': 'Protokoll',
  'doc-closed-at': 'abgeschlossen { $time }',
  'doc-open-last': 'offen; letzter Eintrag { $time }',
  'doc-seal-code': 'Siegel { $code }',
  'doc-state-code': 'Stand { $code }',
  'doc-words': 'auf { $language }, Wortlaut { $hash }',
  'doc-language': 'Deutsch',
  'doc-printed': 'gedruckt { $time }',
  'doc-one-light': 'Ein Feld: { $sentence }',
  'doc-product-lights': '{ $product }: { $sentences }',
  'doc-lights': '{ $n } Felder: { $sentences }',
  'doc-seen': 'Von außen gesehen',
  'doc-seen-hinge':
    'Von außen gesehen; schräge Linien treffen sich am Band, gestrichelt, wo es nach innen öffnet',
  'doc-seen-handle':
    'Von außen gesehen; schräge Linien treffen sich am Griff, gestrichelt, wo es nach innen öffnet',
  'doc-drawing-product': '{ $unit } von außen gesehen, { $size }. { $sentence }',
  'doc-drawing': 'Fenster { $unit } von außen gesehen, { $size }. { $sentence }',
  'doc-as-measured': 'Wie gemessen',
  'doc-measured-alt': '{ $title }, wie gemessen: { $facts }',
  'doc-nominal': 'Nennmaß { $size }',
  'doc-pair': '{ $one } { $a } mm, { $other } { $b } mm, Unterschied { $apart } mm',
  'doc-pair-nominal':
    '{ $one } { $a } mm, { $other } { $b } mm (Nennmaß { $nominal }), Unterschied { $apart } mm',

  'doc-coarse': 'Bestanden, aber mit wenig Aussage',
  'doc-coarse-link':
    '{ $n } { $n ->\n  [one] Prüfung\n *[other] Prüfungen\n} mit einem Messgerät bestanden, das für den Grenzwert zu grob ist: siehe „{ $heading }“.',

  'doc-seal': 'Siegel',
  'doc-state': 'Stand (nicht versiegelt)',
  'doc-state-of-journal': 'Stand des Journals',
  'doc-short-code': 'Kurzcode',
  'doc-last-hash': 'Hash der letzten Zeile',
  'doc-journal': 'Journal',
  'doc-journal-lines': '{ $file }, { $n } { $n ->\n  [one] Zeile\n *[other] Zeilen\n}',
  'doc-journal-lines-last':
    '{ $file }, { $n } { $n ->\n  [one] Zeile\n *[other] Zeilen\n}, die letzte { $time }',
  'doc-signed-by': 'Signiert von',
  'doc-key': 'Schlüssel { $key }',
  'doc-over-hash': 'über den Hash { $hash }',
  'doc-signature': 'Signatur',
  'doc-when-closed': 'Beim Abschluss',
  'doc-unsigned': 'keine: die Werkbank hatte keinen Schlüssel, als das Fenster fertig wurde',
  'doc-unsigned-by':
    'keine: { $name } hat das Fenster ohne abgeschlossen, weil die Werkbank nicht signieren konnte ({ $why })',
  'doc-released-early': 'Vorzeitig freigegeben',
  'doc-unseen-evidence': 'der Server des Betriebs hatte noch nicht alle Belege',
  'doc-unseen-lines':
    'dem Server des Betriebs { $n ->\n  [one] fehlte noch { $n } Zeile davon\n *[other] fehlten noch { $n } Zeilen davon\n}',
  'doc-seal-says':
    'Jede Zeile des Journals enthält den SHA-256-Hash der Zeile davor; eine spätere Änderung irgendwo ändert also diesen Hash. Das Journal ist reiner Text; logs/README.md im Ordner der Werkstatt sagt, wie man es ohne dieses Programm prüft.',
  'doc-state-says':
    'Jede Zeile des Journals enthält den SHA-256-Hash der Zeile davor; eine spätere Änderung irgendwo ändert also diesen Hash. Das Journal ist reiner Text; logs/README.md im Ordner der Werkstatt sagt, wie man es ohne dieses Programm prüft. Das Fenster ist nicht fertig: dieser Hash zeigt nur, wie weit das Journal gekommen war.',
  'doc-registers': 'Register',
  'doc-registers-then': 'Wie weit die Register gekommen waren',
  'doc-register-entry': 'Eintrag { $n }',
  'doc-first-key': 'Fingerabdruck des ersten Schlüssels',
  'doc-registers-say':
    'Jede Werkbank trägt ein, wie weit jedes Journal gekommen ist. Eine Werkstatt, deren Register diese Einträge nicht haben, ist eine andere oder eine ältere Kopie als die, die dieses Dokument gemacht hat. Den Fingerabdruck hat die Werkstatt auf Papier.',
};
