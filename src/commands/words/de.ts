/** What the verbs print, in German. */
import type { Translation } from '../../base/words.js';
import type { BOARD_SAYS } from './board.js';
import type { DAYBOOK_SAYS } from './daybook.js';
import type { FIGURES_SAYS } from './figures.js';
import type { FIRST_SAYS } from './first.js';
import type { KEY_SAYS } from './keys.js';
import type { MAKING_SAYS } from './making.js';
import type { SETOUT_SAYS } from './setout.js';
import type { SHOP_SAYS } from './shop.js';
import type { SQUARE_SAYS } from './square.js';
import type { VERIFY_SAYS } from './verify.js';

const FIRST_DE: Translation<typeof FIRST_SAYS> = {
  'first-title': 'eine neue Werkstatt',
  'first-hello':
    'Ein paar Fragen, und es ist Ihre Werkstatt. Zweimal Esc bricht ab, und nichts wird geschrieben; < geht eine Frage zurück.',
  'first-help':
    'Die Antwort eingeben und Enter drücken. - lässt sie leer, < geht eine Frage zurück. Alles lässt sich später in shared/ ändern.',
  'first-of': 'Frage { $n } von { $of }',
  'first-name': 'Wie heißt die Werkstatt? Protokolle und Etiketten drucken den Namen.',
  'first-place': 'Wo ist sie? Etiketten drucken die Adresse. - für nichts.',
  'first-people':
    'Wer arbeitet hier? Ein Kürzel und der Name, eine Person nach der anderen: jb Joan Bexley. Zuerst, wer die Werkstatt leitet.',
  'first-people-more':
    '{ $last } ist jetzt da, bisher { $n } { $n ->\n  [one] Person\n *[other] Personen\n}. Die nächste, oder ein Punkt, wenn alle da sind; < nimmt die letzte zurück.',
  'first-instruments': 'Was liegt in der Schublade? Die Nummern, etwa 1 3 5; all für alles, - für nichts.',
  'first-row': '{ $n }  { $what }',
  'first-tape': 'Bandmaß, Millimeter',
  'first-fine-tape': 'Bandmaß, halbe Millimeter',
  'first-rule': 'Stahllineal 1 m',
  'first-long-rule': 'langes Lineal 3 m mit Anschlag',
  'first-calliper': 'digitaler Messschieber 150 mm',
  'first-feeler': 'Fühlerlehren',
  'first-bevel': 'digitaler Winkelmesser',
  'first-straight-edge': 'Richtlatte 2 m',
  'first-spring-balance': 'Federwaage',
  'first-clock': 'Uhr an der Werkbank',
  'first-thermometer': 'Thermometer',
  'first-gap-gauge': 'Stufenlehre 4 bis 20 mm',
  'first-coating-gauge': 'Schichtdickenmesser',
  'first-language': 'Welche Sprache spricht die Werkbank? { $languages }',
  'first-confirm': 'Das ist alles. ok tippen und Enter drücken.',
  'first-done': 'Alles ist beantwortet.',
  'first-made':
    '{ $name } ist jetzt eine Werkstatt: { $folder }, { $n } { $n ->\n  [one] Datei\n *[other] Dateien\n}.',
  'first-next': 'Jetzt: cd { $folder }',
  'first-pin': 'die PIN von { $name }, die Haltepunkte freigibt',
  'first-bench': 'die Werkbank, mit einem erfundenen Fenster zum Ausprobieren',
  'first-set': 'Ihr erstes Fenster: es fragt nach fünf Maßen',
  'first-levels': '{ $first } und { $second } dürfen freigeben (shared/people.yaml)',
  'first-page': 'Das erste Fenster, Schritt für Schritt (englisch): { $file }',
  'first-nothing': 'Nichts wurde angelegt.',
  'section-title': 'Profilsatz { $name }',
  'section-hello':
    'Fünf Maße aus dem Schnitt eines Festfelds des Herstellers, und ein Fenster zum Ausprobieren. Zweimal Esc verlässt, ohne etwas zu schreiben; < geht zurück.',
  'section-face': 'face, Ansicht: Außenkante bis Lichtkante, mm',
  'section-floor': 'floor, Falztiefe: Lichtkante bis Falzgrund, mm',
  'section-edge': 'edge, Glasluft: Glaskante bis Falzgrund, mm',
  'section-cover': 'cover, Überdeckung: Glas hinter der Lichtkante, mm (floor weniger edge)',
  'section-bead': 'bead, Höhe der Glasleiste, mm',
  'section-window': 'window, Fenster: Breite x Höhe außen, mm, etwa 900 x 1200',
  'section-done': 'Alles ist beantwortet.',
  'section-help': 'Eine Zahl in Millimetern, dann Enter. Alles lässt sich später in der Datei ändern.',
  'section-set': 'Ihre fünf Maße; der Rest ist erfunden',
  'section-procedure': 'wie es gebaut wird: zur eigenen machen',
  'section-job': 'das Fenster zum Ausprobieren',
  'section-made':
    'Glas von { $unit }: { $w } x { $h } mm.\nVon Hand: { $width } - 2 x { $face } + 2 x { $cover } = { $w }. Die Höhe ebenso prüfen.\nJetzt: pinchrod, dann { $unit }, dann das eigene Kürzel.',
  'new-set':
    '{ $file } ist da: ein Satz, der läuft, mit erfundenen Zahlen und wozu jede dient. Die eigenen einsetzen.\nDann: pinchrod new job NAME --set { $name }, und pinchrod setout NAME',
  'new-job':
    '{ $file } ist da: ein Fenster aus Profilsatz { $set } nach Arbeitsanweisung { $procedure }.\nDann: pinchrod setout { $name } { $unit }',
  'new-job-procedure':
    '{ $file } ist da: Keine Arbeitsanweisung hier konnte ein Fenster aus { $set } bauen, also ist eine angefangen. Die eigene daraus machen.',
  'new-procedure':
    '{ $file } ist da: sägen, fügen, winklig stellen, verglasen, freigeben.\nDann: pinchrod new job NAME --procedure { $name }, und pinchrod lint { $file }',
  'new-instrument':
    '{ $name } steht am Ende von { $file } als Bandmaß von 5 m. Dort die eigenen Zahlen eintragen.',
};

const BOARD_DE: Translation<typeof BOARD_SAYS> = {
  'board-none': 'Keine Fenster: eine Auftragsdatei in shared/jobs legen.',
  'board-differs': '(gebaut nach anderen Dateien als den jetzigen: { $what })',
  'board-file-profileSet': 'Profilsatz',
  'board-file-procedure': 'Arbeitsanweisung',
  'board-file-limits': 'Grenzwerte',
  'board-file-job': 'Auftrag',
  'board-file-unit': 'Auftragszeile',
  'board-open': '> { $n } offen: { $units }',
  'board-held': 'H { $n } am Haltepunkt: { $units }',
  'board-not-started': '. { $n } nicht begonnen: { $units }',
  'board-more': '{ $units } und { $n } weitere',
  'board-no-step': 'An keinem Fenster ist ein Schritt offen oder am Haltepunkt.',
  'board-handover': 'Übergabe um { $at }; Notizen seit { $since }',
  'board-quiet': 'Nichts ist halb fertig, am Haltepunkt, am Aushärten, bemängelt oder zurückgestellt.',
  'no-terminal': 'Dies ist kein Terminal. Um die Werkbank zu öffnen, pinchrod in einem starten.',
  'trace-row': '{ $at }  { $by } { $where }: { $what }',
  'trace-dead': '{ $row } (seither noch einmal gemacht oder berichtigt)',
  'trace-none': 'Nichts gefunden.',
  'trace-count': '{ $units } Fenster, { $rows } { $rows ->\n  [one] Eintrag\n *[other] Einträge\n}.',
};

const FIGURES_DE: Translation<typeof FIGURES_SAYS> = {
  'study-planned': '{ $file }: { $n } Messungen in ausgeloster Reihenfolge.',
  'study-planned-next':
    'Die Teile dort nummerieren, wo es beim Messen niemand sieht. Dann: pinchrod study take { $file } --by { $person }',
  'study-part': 'Teil { $part } ({ $n } von { $of }):',
  'study-taken':
    '{ $n ->\n  [one] { $n } Messwert\n *[other] { $n } Messwerte\n } abgelegt; { $left } sind offen, von allen Personen.',
  'study-taken-all': '{ $person } hat keine Messung mehr offen.',
  'study-taken-done': 'Ergebnis: pinchrod study --csv { $file } --part part --person person --value value',
};

const DAYBOOK_DE: Translation<typeof DAYBOOK_SAYS> = {
  'daybook-none': 'Das Tagebuch ist leer.',
  'daybook-entry': '{ $mark }  { $day }  { $by }  { $says }',
  'daybook-struck-out': '(gestrichen) { $line }',
  'daybook-received':
    'eingegangen { $on } von { $supplier }, Lieferschein { $note }: { $lots }; Zeugnis { $certificate }',
  'daybook-sent': 'versandt { $on } an { $customer }, Lieferschein { $note }: { $units }',
  'daybook-agreed': 'Mangel { $snag } von { $unit }: { $customer } stimmte zu, { $how }, { $on }',
  'daybook-refused': 'Mangel { $snag } von { $unit }: { $customer } stimmte nicht zu, { $how }, { $on }',
  'daybook-action': 'Korrekturmaßnahme vom { $on } gegen { $against }: { $what }',
  'daybook-chart':
    'legt die Karte von { $check } fest: Mitte { $centre }, Abweichung { $sd }, aus { $n } Messwerten: { $reason }',
  'daybook-limits': 'steht für die Grenzwerte ein, wie sie sind: { $reason }',
  'daybook-struck': 'streicht { $mark }: { $reason }',
};

const KEY_DE: Translation<typeof KEY_SAYS> = {
  'key-introduced': 'Der Schlüssel { $key }, dessen privater Teil auch hier liegt, hat ihn eingeführt.',
  'key-waits':
    '{ $bench } hat einen Schlüssel, der noch nicht gilt: was hier fertig wird, ist nicht damit signiert.',
  'key-waits-how': 'An einer Werkbank, deren Schlüssel gilt, mit diesem Fingerabdruck, hier abgelesen:',
  'key-accept': 'pinchrod key accept { $fingerprint }',
  'key-private': 'privat:     { $file } (für niemanden sonst; eine Kopie sicher verwahren)',
  'key-public': 'öffentlich: { $file }',
  'key-begin-anew': 'Falls nirgends mehr ein privater Schlüssel liegt, der gilt: pinchrod key new --anew.',
  'key-signs': '{ $bench } signiert von jetzt an mit dem Schlüssel { $key }.',
  'key-fingerprint': 'Fingerabdruck: { $fingerprint }',
  'key-on-paper': '(auf Papier schreiben: pinchrod verify --trust fragt danach)',
  'key-first-here': 'Dieses Konto nimmt von jetzt an { $fingerprint } für einen ersten Schlüssel.',
  'key-counts':
    'Der Schlüssel { $key } von { $bench } gilt von jetzt an; das hat der Schlüssel { $signer } signiert.',
  'key-replaced': 'Der Schlüssel { $key } ist zurückgezogen: was er bis jetzt signiert hat, gilt weiter.',
  'key-withdrawn':
    'Der Schlüssel { $key } ist zurückgezogen: was er nach dem Wissen der Register signiert hat, gilt weiter, sonst nichts.',
  'key-has': '{ $bench } hat den Schlüssel { $key }.',
  'key-has-withdrawn': '{ $bench } hat den Schlüssel { $key }, der zurückgezogen ist.',
  'key-not-yet': 'Er gilt noch nicht: pinchrod key accept an einer Werkbank, deren Schlüssel gilt.',
  'key-not-there': 'Sein öffentlicher Teil liegt nicht unter { $file }: den Text oben dort speichern.',
  'key-none':
    '{ $bench } hat keinen Schlüssel: was hier fertig wird, ist nicht signiert. pinchrod key new macht einen.',
  'key-row-counts': 'Gilt: Schlüssel { $key }',
  'key-row-counts-of': 'Gilt: Schlüssel { $key } von { $bench }',
  'key-row-withdrawn': 'Zurückgezogen: Schlüssel { $key }',
  'key-row-withdrawn-of': 'Zurückgezogen: Schlüssel { $key } von { $bench }',
  'key-others': 'Andere Schlüssel, die diese Werkstatt kennt: { $keys }.',
  'key-asks':
    '{ $bench } bittet darum, dass der eigene Schlüssel gilt. Wenn dort am Bildschirm dasselbe steht:',

  'register-none': 'Noch gibt es kein Register: die erste Werkbank, die ein Fenster öffnet, legt eines an.',
  'register-head': '{ $bench }: Eintrag { $n }',
  'register-unread': '{ $bench }: nicht lesbar; pinchrod verify sagt, warum.',
  'register-no-key': 'Kein Schlüssel gilt: nichts ist signiert.',
  'register-first-key': 'Fingerabdruck des ersten Schlüssels, durch den alle anderen gelten:',
  'register-accepted':
    'Anerkannt von { $name }: Eintrag { $n } von { $bench }. Er bleibt im Register, und verify nennt ihn.',

  'seal-made': '{ $file }: { $n } Fenster versiegelt, Code { $code }',
  'seal-there': '{ $file }: { $n } Fenster, schon versiegelt, Code { $code }',
  'seal-signed': 'Signiert mit dem Schlüssel { $key } von { $bench }.',
  'seal-unsigned': 'Nicht signiert: diese Werkbank hat keinen Schlüssel. pinchrod key new macht einen.',
  'seal-late': '{ $unit }: signiert, wie es jetzt ist.',

  'archive-made':
    '{ $file }: { $journals } { $journals ->\n  [one] Journal\n *[other] Journale\n}, { $events } { $events ->\n  [one] Eintrag\n *[other] Einträge\n}, { $files } { $files ->\n  [one] Datei\n *[other] Dateien\n}, geprüft.',
  'archive-removed': '{ $n } { $n ->\n  [one] Datei\n *[other] Dateien\n} von { $job } aus logs/ entfernt.',
  'archive-then':
    'Auch die Auftragsdatei aus shared/jobs entfernen, sonst erscheinen die Fenster als nicht begonnen.',

  'pin-new': 'Neue PIN von { $name }, vier Ziffern oder mehr:',
  'pin-again': 'Dasselbe noch einmal:',
  'pin-set': 'Die PIN von { $name } ist gesetzt, in { $file }.',
  'pin-now': 'Jetzige PIN von { $name }:',
  'pin-of': 'PIN von { $name }:',
  'name-erased':
    'Der Name von { $id } ist gelöscht: Protokolle zeigen von jetzt an „{ $id } (Name gelöscht)“.',
  'name-elsewhere':
    'Kein Journal wurde geändert. In Archiven, gedruckten Protokollen und getippten Notizen kann der Name noch stehen.',
  'pins-none': 'In shared/people.yaml steht keine PIN.',
  'pins-moved':
    '{ $n ->\n  [one] { $n } PIN steht\n *[other] { $n } PINs stehen\n} jetzt in { $file } und nicht mehr in shared/people.yaml. In Kopien dieser Datei stehen sie noch: wem sie gehören, soll eine neue wählen.',
};

const SQUARE_DE: Translation<typeof SQUARE_SAYS> = {
  'square-asks': 'FRAGE',
  'square-rule': '{ $verdict }: { $title }: { $says } ({ $source })',
  'square-measured': 'gemessen',
  'square-adjusted': 'gemittelt',
  'square-change': 'anders',
  'square-closes':
    'Widerspruch { $misclosure } mm (Standardabweichung { $sd }): Die Messwerte passen zusammen.',
  'square-open':
    'Widerspruch { $misclosure } mm (Standardabweichung { $sd }): Die Messwerte passen nicht zusammen.',
  'square-corners': 'Ecken: { $corners } Grad (U = { $u }).',
  'square-ask': 'FRAGE: { $question }',
};

const SETOUT_DE: Translation<typeof SETOUT_SAYS> = {
  'setout-invented': ' - erfundener Satz, nicht für echte Fenster',
  'setout-until': 'ABGEWIESEN, bis alles behoben ist oder eine genannte Person es mit Begründung übergeht:',
  'setout-row-frame': 'Rahmen',
  'setout-row-mass': 'Masse',
  'setout-row-sight': 'Licht',
  'setout-row-addon': 'Aufsatzrahmen',
  'setout-row-sash': 'Flügel',
  'setout-row-glass': 'Glas',
  'setout-row-beads': 'Glasleisten',
  'setout-row-handle': 'Griff',
  'setout-row-keeps': 'Schließstücke',
  'setout-row-stay': 'Schere',
  'setout-row-hinges': 'Bänder',
  'setout-row-packing': 'Klotzung',
  'setout-row-sums': 'Summen',
  'setout-diagonal': '{ $w } x { $h }, Diagonale { $diagonal }',
  'setout-divider-upright': 'Pfosten, { $joint }, Mitte { $centre } von links, { $length } lang',
  'setout-divider-level': 'Riegel, { $joint }, Mitte { $centre } von unten, { $length } lang',
  'setout-joint-ported': 'in die Schraubkanäle geschraubt',
  'setout-joint-cleated': 'mit T-Verbindern',
  'setout-sight-only': '{ $sight }',
  'setout-sight': '{ $sight }   Falz { $rebate }',
  'setout-sash': '{ $w } x { $h }, Diagonale { $diagonal }, { $mass } kg',
  'setout-glass':
    '{ $w } x { $h }, { $title }, { $area } m2, { $mass } kg, Überdeckung { $cover }, Luft { $clearance }',
  'setout-handle': '{ $sash } am Flügel, { $addon } am Aufsatzrahmen, { $side }',
  'setout-handle-sash': '{ $sash } am Flügel, { $side }',
  'setout-side-left': 'linke Seite',
  'setout-side-right': 'rechte Seite',
  'setout-side-bottom': 'untere Seite',
  'setout-on-addon': 'am Aufsatzrahmen',
  'setout-on-frame': 'am Rahmen',
  'setout-keeps': '{ $keeps } { $where }',
  'setout-keeps-gear': '{ $keeps } { $where } ({ $gear })',
  'setout-keeps-none': 'keine',
  'setout-stay': '{ $stay }: { $uses }',
  'setout-stay-near': '{ $stay }: { $uses } - nahe der Grenze',
  'setout-stay-none': 'keine',
  'setout-sums': '{ $n } Schnitte durch das Ganze schließen auf { $error }',
  'setout-sum-upright': 'senkrecht: { $terms } = { $whole }',
  'setout-sum-level': 'waagerecht: { $terms } = { $whole }',
  'setout-measured-long': 'Spitze',
  'setout-measured-square': 'gerade',
  'setout-measured-run': 'Länge',
  'setout-datum': 'Bezug { $datum }',
  'setout-loose': 'Lose Teile',
  'setout-above': '(wie oben)',
  'setout-more': '({ $n } { $n ->\n  [one] weitere Zeile\n *[other] weitere Zeilen\n})',
  'setout-part': '{ $part }, { $length } lang, Bezug: { $datum }',
};

const SHOP_DE: Translation<typeof SHOP_SAYS> = {
  'shop-brought': '„{ $shop }“ ist auf den neuesten Stand gebracht.',
  'shop-made': '„{ $shop }“ ist jetzt ein Betrieb, auf { $server }.',
  'shop-roles': 'Dieser Benutzer darf keine Rollen anlegen. Wer den Server betreut, führt aus:',
  'shop-first-edition': 'Die Dateien der Werkstatt sind als Ausgabe 1 veröffentlicht.',
  'shop-part': 'Dieser Ordner gehört als { $bench } zu „{ $shop }“.',
  'shop-all-here': 'Alles, was der Betrieb hat, ist hier. Die Werkbank öffnen mit: pinchrod',
  'shop-progress': '{ $what }: { $percent } % von { $of }',
  'shop-what-journals': 'Journale',
  'shop-what-files': 'Dateien',
  'shop-row-shop': 'Betrieb    { $shop }, auf { $server }',
  'shop-row-behind': 'Werkbank   { $bench }; Uhr { $seconds } s hinter dem Server',
  'shop-row-ahead': 'Werkbank   { $bench }; Uhr { $seconds } s vor dem Server',
  'shop-row-benches': 'Werkbänke  { $benches }',
  'shop-left': '{ $bench } (ausgeschieden)',
  'shop-row-handed': 'Übergeben: alles.',
  'shop-row-waiting':
    'Zu übergeben: { $lines } { $lines ->\n  [one] Zeile\n *[other] Zeilen\n}, { $files } { $files ->\n  [one] Datei\n *[other] Dateien\n}.',
  'shop-row-no-files': 'Dateien    noch nichts veröffentlicht',
  'shop-row-files': 'Dateien    Ausgabe { $n } vom { $day } von { $by } ({ $reason })',
  'shop-row-files-other': '{ $row }; hier liegt Ausgabe { $n }',
  'shop-row-changed': '           hier geändert und nicht veröffentlicht: { $files }',
  'shop-row-no-leases': 'Belegungen keine',
  'shop-row-leases': 'Belegungen { $bench }: { $units }',
  'shop-row-leases-also': '           { $bench }: { $units }',
  'shop-row-branches': 'Zweige     { $branches }',
  'shop-as-published': 'Die Dateien sind, wie sie veröffentlicht sind.',
  'shop-as-published-kept':
    'Die Dateien sind, wie sie veröffentlicht sind. Die eigenen liegen unter shop/dropped: { $files }.',
  'shop-nothing-new': 'Nichts ist neu.',
  'shop-edition': 'Als Ausgabe { $n } veröffentlicht.',
  'shop-taken': '{ $unit } gehört jetzt { $bench }.',
  'shop-no-wait': 'Nichts wartet auf Wiederaufnahme.',
  'shop-leases-again': 'Es werden wieder Belegungen vergeben.',
  'shop-copied':
    '{ $journals } { $journals ->\n  [one] Journal\n *[other] Journale\n} und { $files } { $files ->\n  [one] Datei\n *[other] Dateien\n} liegen in { $folder }: eine Werkstatt für sich.',
  'shop-removed':
    '{ $n } { $n ->\n  [one] Journal\n *[other] Journale\n} von { $job } { $n ->\n  [one] ist\n *[other] sind\n} vom Server genommen. Jede Werkbank hat ihre noch: pinchrod archive { $job } --out FILE --remove nimmt sie dort weg.',
  'shop-left-all':
    'Alles ist übergeben. Dieser Ordner ist eine Werkstatt für sich; ihre Werkbank nennt shared/workshop.yaml.',
  'shop-as-last': 'So stand der Betrieb hier, als die Leitung zuletzt offen war. { $problem }',
  'shop-later': 'Es steht hier und wird mit der nächsten Verbindung übergeben. { $problem }',
  'shop-same':
    'Auf dem Server: { $journals } { $journals ->\n  [one] Journal\n *[other] Journale\n}, { $lines } { $lines ->\n  [one] Zeile\n *[other] Zeilen\n}, { $files } { $files ->\n  [one] Datei\n *[other] Dateien\n}, wie sie hier sind.',
  'shop-same-waiting':
    '{ $said } { $n } { $n ->\n  [one] Journal hat\n *[other] Journale haben\n} hier mehr, das noch zu übergeben ist.',
  'shop-differs':
    'Auf dem Server: { $journals } { $journals ->\n  [one] Journal\n *[other] Journale\n}, { $lines } { $lines ->\n  [one] Zeile\n *[other] Zeilen\n}, { $files } { $files ->\n  [one] Datei\n *[other] Dateien\n}; { $n ->\n  [one] { $n } davon stimmt nicht überein.\n *[other] { $n } davon stimmen nicht überein.\n}',
};

const VERIFY_DE: Translation<typeof VERIFY_SAYS> = {
  'verify-note': 'Hinweis: { $problem }',
  'verify-holds': '{ $file }: { $of }: stimmt mit dem Journal überein.',
  'verify-not-checked': '{ $file }: nicht geprüft: das ist kein Protokoll.',
  'verify-differs': '{ $file }: { $of }: stimmt nicht mit dem Journal überein.',
  'verify-of': '{ $unit } aus { $job }, { $n } { $n ->\n  [one] Zeile\n *[other] Zeilen\n}',
  'verify-of-unsure': '{ $unit } aus { $job }',
  'verify-no-record': 'kein Protokoll',
  'verify-journals': '{ $n } { $n ->\n  [one] Journal\n *[other] Journale\n}',
  'verify-events': '{ $n } { $n ->\n  [one] Eintrag\n *[other] Einträge\n}',
  'verify-sources': '{ $n } { $n ->\n  [one] Quelle\n *[other] Quellen\n}',
  'verify-files': '{ $n } { $n ->\n  [one] Beleg\n *[other] Belege\n}',
  'verify-seals': '{ $n } { $n ->\n  [one] Siegel\n *[other] Siegel\n}',
  'verify-entries': '{ $n } { $n ->\n  [one] Registereintrag\n *[other] Registereinträge\n}',
  'verify-whole': '{ $what }: alles vollständig und unverändert.',
  'verify-faults': '{ $what }: { $n } Fehler.',
  'verify-first-key':
    'Signaturen gelten durch den ersten Schlüssel. Fingerabdruck mit dem auf Papier vergleichen:',
};

const MAKING_DE: Translation<typeof MAKING_SAYS> = {
  'init-made': '{ $folder } ist jetzt eine Werkstatt: { $n } { $n ->\n  [one] Datei\n *[other] Dateien\n}.',
  'init-try':
    'Zum Ausprobieren: cd { $folder }, dann pinchrod. Zuerst die eigenen Leute in shared/people.yaml eintragen.',
  'demo-left': 'Die Vorführwerkstatt ist { $folder }; außerhalb davon wurde nichts geändert.',
  'demo-is': 'Die Vorführwerkstatt ist { $folder }.',
  'demo-no-terminal': 'Dies ist kein Terminal. In einem aufrufen: pinchrod --workshop { $folder }',
  'demo-records': 'Protokolle { $files }',
  'demo-journals': 'Journale   { $folder }',
  'demo-workshop': 'Werkstatt  { $folder }',
  'demo-each': 'Bestätigungen je Fenster: { $units }',
  'demo-tally':
    'Bestätigungen: { $confirmations }   Haltepunkte: { $holds }   Tasten: { $keys }   Messwerte: { $readings }   gemeinsam: { $shared }',
  'demo-waits': '(die Uhr der Vorführung geht weiter auf { $time }: etwas härtet aus)',
  'demo-no-keys': 'die Werkbank hat keine Tasten für „{ $action }“',
  'demo-nothing-came': 'aus { $action } wurde nichts',
  'demo-nothing-came-note': 'aus { $action } wurde nichts: { $note }',
  'demo-no-walk': 'aus dem Rundgang „{ $step }“ wird nichts',
  'demo-no-cure': '{ $unit }: nichts ist zu tun, und nichts härtet aus',

  'setups-none': 'Diese Werkstatt verlangt keine Einrichtungen: sie hat kein shared/setups.yaml.',
  'setup-valid': '* gilt  { $setup }  { $because }',
  'setup-valid-until': '* gilt  { $setup }  { $because } Bis { $until }.',
  'setups-to-prove': 'x nachzuweisen  { $setup }  { $because }',
  'setup-check': '{ $check }: { $ask }',
  'setup-check-with': '{ $check }: { $ask } ({ $tools })',
  'setup-or': '{ $some } oder { $last }',
  'setup-confirm': 'Noch einmal messen oder mit --confirmed dabei bleiben.',
  'setup-pass': 'PASS  { $setup } ist nachgewiesen: { $id }.',
  'setup-fail': 'FAIL  { $setup } muss neu eingestellt und nachgewiesen werden.',
  'setup-failed-check': '{ $check }: { $says }',
  'setup-failed-check-why': '{ $check }: { $says } ({ $why })',
  'setups-no-doubt': 'Seit dem letzten guten Erststück wurde nichts damit gemacht.',
  'setups-doubt': 'Betroffen, gefertigt seit { $since }:',
  'setup-doubt-row': '{ $unit }  { $steps }',
  'setup-doubt-snag': '{ $row }  Mangel gemeldet',
  'setup-doubt-no-snag': '{ $row }  kein Mangel: { $why }',
  'setup-snag-how': 'Derselbe Befehl mit --snag meldet an jedem davon einen Mangel.',

  'revise-done': 'Geändert.',
  'revise-not-yet': 'Noch ist nichts geschrieben. Mit --person, --reason und --yes geschieht es.',
  'revise-step': '{ $title } ({ $id })',
  'revise-rests': 'beruht auf einem von diesen',
  'revise-finished': '{ $unit } ist fertig und freigegeben. Eine Änderung öffnet es wieder.',
  'revise-again': 'Noch einmal zu machen:',
  'revise-release': 'Noch einmal zu prüfen und freizugeben, die Arbeit selbst bleibt:',
  'revise-nothing': 'Nichts muss noch einmal gemacht werden.',

  'setout-refused': 'Abgewiesen, nicht fertigen: { $units }',
  'square-published': 'Hier gibt es kein shared/limits.yaml: es gelten nur die veröffentlichten Grenzwerte.',
  'square-with': 'Abgelesen mit { $instrument }.',
  'compare-same': 'Nichts hat sich geändert.',
  'train-unkept': 'Nicht festgehalten: es ist niemand genannt. Mit --person ID wird die Übung aufbewahrt.',
  'train-whole':
    '{ $journals } { $journals ->\n  [one] Journal\n *[other] Journale\n}, { $events } { $events ->\n  [one] Eintrag\n *[other] Einträge\n}: alles vollständig und unverändert.',
  'train-faults':
    '{ $journals } { $journals ->\n  [one] Journal\n *[other] Journale\n}, { $events } { $events ->\n  [one] Eintrag\n *[other] Einträge\n}: { $n ->\n  [one] { $n } davon hält nicht stand.\n *[other] { $n } davon halten nicht stand.\n}',
  'train-written': 'Geschrieben als Zeile { $n } von { $file }: { $verb } { $person }, Abschnitt { $stage }.',
  'train-written-level':
    'Geschrieben als Zeile { $n } von { $file }: { $verb } { $person }, Abschnitt { $stage }, Stufe { $level }.',
};

export const SAYS_DE = {
  ...BOARD_DE,
  ...FIRST_DE,
  ...DAYBOOK_DE,
  ...FIGURES_DE,
  ...KEY_DE,
  ...SHOP_DE,
  ...VERIFY_DE,
  ...MAKING_DE,
  ...SETOUT_DE,
  ...SQUARE_DE,
};
