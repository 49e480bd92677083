/** The session's words in German. */
import type { Translation } from '../base/words.js';
import type { BENCH_MESSAGES } from './messages.js';
import type { SESSION_WORDS } from './words.js';

export const SESSION_GERMAN: Translation<typeof BENCH_MESSAGES & typeof SESSION_WORDS> = {
  'bench.no-terminal': 'Hier ist kein Terminal.',
  'bench.no-terminal.todo': 'pinchrod in einem Terminal starten; „pinchrod board“ braucht keines.',
  'bench.no-unit': 'Es ist kein Fenster offen.',
  'bench.no-unit.todo':
    '„pinchrod board“ zeigt die Fenster; gibt es den Namen in mehreren Aufträgen: JOB/UNIT angeben.',
  'bench.no-unit/job': 'Im Auftrag „{ $job }“ gibt es kein Fenster „{ $unitId }“.',
  'bench.no-unit/unit': 'Es gibt kein Fenster „{ $unit }“.',
  'bench.no-setup': 'Es gibt keine Einrichtung „{ $id }“.',
  'bench.no-setup.todo': 'Es gibt: { $known }.',
  'bench.no-setup/none': 'Diese Werkstatt verlangt keine Einrichtungen.',
  'bench.no-setup/none.todo': 'shared/setups.yaml in die Werkstatt legen, damit Erststücke verlangt werden.',
  'bench.same-sources': '{ $unit } wird schon nach den Dateien gebaut, wie sie jetzt sind.',
  'bench.same-sources.todo': 'Zuerst Auftrag, Profilsatz, Arbeitsanweisung oder Grenzwerte ändern.',
  'bench.not-begun': 'Zu { $unit } ist noch nichts eingetragen.',
  'bench.not-begun.todo': 'Das Fenster einfach beginnen: Es nimmt die Dateien, wie sie dann sind.',
  'bench.not-frozen':
    'Das Journal von { $unit } sagt nicht, wonach das Fenster gebaut wird; es fehlt: { $kind }.',
  'bench.not-frozen.todo':
    '„pinchrod verify“ ausführen; das Fenster lässt sich ansehen, aber nicht bearbeiten.',
  'bench.not-frozen/does': 'Das Journal von { $unit } sagt nicht, wonach das Fenster gebaut wird.',
  'bench.read-only': 'An { $held } arbeitet gerade jemand anderes.',
  'bench.read-only.todo': 'Dort schließen, dann hier noch einmal öffnen.',
  'bench.inbox-empty': 'In { $inbox }/ liegt keine Datei.',
  'bench.inbox-empty.todo': 'Das Bild in den Ordner „inbox“ der Werkstatt legen oder eine Datei nennen.',
  'bench.not-kept': '{ $held } ist hier schon zum Schreiben offen.',
  'bench.not-kept.todo': 'Einfach weitermachen; niemand sonst hat das Fenster.',
  'bench.nothing-in-doubt':
    'Zu nichts, was mit der Einrichtung „{ $setup }“ gemacht wurde, ist noch ein Mangel zu melden.',
  'bench.nothing-in-doubt.todo': '„pinchrod setup“ zeigt, wie es um die Einrichtungen steht.',
  'bench.reread': 'Programmfehler: { $fault } [bench.reread]',
  'bench.reread.todo':
    'Das Fenster wurde neu aus seinem Journal gelesen: nachsehen, ob die letzte Antwort da ist, dann weitermachen. Diese Zeile bitte melden.',
  'bench.look-only': 'Programmfehler: { $fault } [bench.look-only]',
  'bench.look-only.todo':
    'Das Fenster lässt sich nur noch ansehen. Die Werkbank verlassen und neu starten, oder ein anderes Fenster öffnen (F2). Diese Zeile bitte melden.',
  'bench.let-go': 'Programmfehler: { $fault } [bench.let-go]',
  'bench.let-go.todo':
    'Das Fenster wurde geschlossen. Nichts Bestätigtes ist verloren: die Werkbank verlassen und neu starten. Diese Zeile bitte melden.',
  'bench.unexpected': 'Programmfehler: { $fault } [bench.unexpected]',
  'bench.unexpected.todo':
    'Nichts Bestätigtes ist verloren; nach dem Neustart geht es an derselben Prüfung weiter.',
  'evidence.no-picture': '„{ $name }“ ist kein Bild, das dieses Programm kennt.',
  'evidence.no-picture.todo':
    'Ein Foto angeben: JPEG, PNG, WebP oder HEIC, wie Kameras und Handys sie schreiben.',
  'evidence.cut-off': '„{ $name }“ bricht mittendrin ab: Die Datei ist nicht vollständig.',
  'evidence.cut-off.todo':
    'Warten, bis die Datei ganz kopiert ist, oder sie noch einmal kopieren; dann noch einmal antworten.',
  'evidence.too-small':
    '„{ $name }“ hat { $width } x { $height } Bildpunkte; verlangt sind mindestens { $least } x { $least2 }.',
  'evidence.too-small.todo':
    'Das Bild noch einmal aufnehmen, größer; leastPicture in shared/workshop.yaml sagt, wie groß.',
  'bench.no-measure':
    'Kein Messgerät mit gültiger Kalibrierung misst „{ $quantity }“ in { $unit }; { $check } verlangt das.',
  'bench.no-measure.todo': 'Eines der Messgeräte kalibrieren lassen, die das messen.',
  'bench.no-measure/none': 'Nichts hier misst „{ $quantity }“ in { $unit }, was { $check } verlangt.',
  'bench.no-measure/none.todo':
    'Eines eintragen, das es misst ({ $kinds }), mit „pinchrod new instrument ID“, oder die Prüfung herausnehmen.',
  'bench.limit-unsupported':
    'Kein Messgerät hier ist genau genug für den Grenzwert „{ $id }“ ({ $limit }), wie { $check } ihn verlangt.',
  'bench.limit-unsupported.todo':
    'Ein Messgerät beschaffen, dessen Unsicherheit kleiner ist als der Grenzwert, oder den Grenzwert weiter fassen; bis dahin sagt eine bestandene Prüfung wenig.',
  'bench.limit-unused': 'Keine Prüfung nutzt den Grenzwert „{ $id }“ ({ $title }).',
  'bench.limit-unused.todo':
    'Ihn einer Prüfung geben oder herausnehmen: Sonst sieht es aus, als würde etwas daran gemessen.',
  'bench.mark-unmade': 'Kein Schritt nennt die Anrisse, die er macht.',
  'bench.mark-unmade.todo':
    'Den Anriss bei dem Schritt, der ihn macht, unter „marks“ eintragen, etwa frame/drain-inner.',
  'bench.mark-unmade/one': 'Diesen Anriss macht kein Schritt: { $mark }, { $part } ({ $id }).',
  'bench.mark-twice': 'Diesen Anriss machen mehrere Schritte ({ $steps }): { $mark }, { $part } ({ $id }).',
  'bench.mark-twice.todo': 'Ihn bei einem davon aus „marks“ herausnehmen.',
  'bench.code-shared': '„{ $code }“ steht für zweierlei: { $kinds }.',
  'bench.code-shared.todo':
    'Einem davon einen anderen Code geben; bis dahin gilt jeder nur mit seinem Buchstaben, etwa I.B1 oder U.B1.',
  'code-unit': 'ein Fenster von { $job }',
  'code-person': 'Person { $id }',
  'code-instrument': 'ein Messgerät',
  'code-setup': 'eine Einrichtung',
  'code-lot': 'eine Charge',
  'code-bench': 'diese Werkbank',
  'nobody-named': 'unbekannt (die Sperre nennt niemanden)',
  'late-snag':
    '{ $head }; { $bench } hat danach damit geantwortet: { $n ->\n  [one] Zeile\n *[other] Zeilen\n} { $lines }.',
  'late-note': '{ $head }; { $bench } hat danach damit geantwortet: { $checks }.',
  'late-lines': '{ $check } ({ $n ->\n  [one] Zeile\n *[other] Zeilen\n} { $lines })',
  'taken-over': 'Übernommen von { $who }, seit { $since } dort: { $reason }',
  'taken-over-free': 'Übernommen von einer Werkbank, die es inzwischen freigab: { $reason }',
  'branch-lines':
    '{ $branch }: { $n } { $n ->\n  [one] Zeile\n *[other] Zeilen\n}, von { $benches } an { $unit } eingegeben, während eine andere Werkbank es schrieb: gelten nicht, bis hier entschieden ist',
  'another-bench': 'einer anderen Werkbank',
  'proven-passed': '{ $setup }: Erststück bestanden, von { $person }.',
  'proven-failed': '{ $setup }: Erststück nicht bestanden. { $why }',
  'nobody-has': 'niemand hat { $unit } mehr.',
  'run-verify': 'Journal beschädigt: pinchrod verify ausführen',
  'made-under': 'gemacht unter { $lastGood }; das Erststück { $failed } von { $setup } ist nicht bestanden',
  'made-under-none': 'ohne Erststück gemacht; das Erststück { $failed } von { $setup } ist nicht bestanden',
};
