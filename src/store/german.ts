/** The store's words in German. */
import type { Translation } from '../base/words.js';
import type { STORE_MESSAGES } from './messages.js';
import type { VERIFY_MESSAGES } from './verifymessages.js';
import type { STORE_WORDS } from './words.js';

export const STORE_GERMAN: Translation<typeof STORE_MESSAGES & typeof VERIFY_MESSAGES & typeof STORE_WORDS> =
  {
    'workshop.shop-card': 'Die Datei ist nicht zu gebrauchen: { $why }.',
    'workshop.shop-card.todo':
      'Die Datei aus einer Kopie dieses Ordners wiederherstellen. Ohne sie ist der Ordner eine Werkstatt für sich.',
    'setups.twice': 'Die Einrichtung „{ $setup }“ steht zweimal da.',
    'setups.twice.todo': 'Jeder eine eigene ID geben; Journale beziehen sich jahrelang darauf.',
    'setups.twice/check': 'Die Prüfung „{ $check }“ von { $setup } steht zweimal da.',
    'setups.limit': 'Es gibt keinen Grenzwert „{ $id }“.',
    'setups.limit.todo': 'Unter „limits“ einen Grenzwert aus shared/limits.yaml nennen.',
    'setups.limit/number': 'Für die Zahl „{ $check }“ ist kein Grenzwert genannt.',
    'setups.expect': 'Bei „{ $check }“ steht nicht, was erwartet wird.',
    'setups.expect.todo':
      '„expect“ angeben; bei einer Zahl, deren Grenzwert für den Messwert selbst gilt, „against: value“.',
    'disk.full': '{ $says } ({ $code }): { $name }, während { $doing }.',
    'disk.full.todo': 'Platz schaffen, dann dasselbe noch einmal tun: Nichts wurde halb geschrieben.',
    'disk.read-only': '{ $says } ({ $code }): { $name }, während { $doing }.',
    'disk.read-only.todo':
      'Die Platte beschreibbar machen (ein Stick kann einen Schreibschutzschalter haben), dann dasselbe noch einmal tun.',
    'disk.no-right': '{ $says } ({ $code }): { $name }, während { $doing }.',
    'disk.no-right.todo': 'Dem Konto das Recht dazu geben, dann noch einmal versuchen.',
    'disk.too-many-open': '{ $says } ({ $code }): { $name }, während { $doing }.',
    'disk.too-many-open.todo': 'Andere Programme schließen, dann dasselbe noch einmal tun.',
    'disk.fault': '{ $says } ({ $code }): { $name }, während { $doing }.',
    'disk.fault.todo':
      'Den Ordner der Werkstatt auf eine andere Platte kopieren und dort weiterarbeiten; auf diese ist kein Verlass.',
    'disk.gone': '{ $says } ({ $code }): { $name }, während { $doing }.',
    'disk.gone.todo':
      'Prüfen, ob die Platte oder das Netzlaufwerk verbunden ist und der Ordner nicht verschoben wurde.',
    'disk.failed': '{ $says } ({ $code }): { $name }, während { $doing }.',
    'disk.failed.todo':
      'Beheben, was genannt ist, dann noch einmal versuchen: Nichts wurde halb geschrieben.',
    'disk.failed/unreadable': '{ $fault }',
    'disk.short': 'Die Platte nahm nur { $from } von { $count } Bytes an.',
    'disk.short.todo':
      'Nachsehen, ob die Platte voll oder der zugeteilte Platz aufgebraucht ist, dann dasselbe noch einmal tun.',
    'disk.does-not-append': 'Was an eine Datei unter logs/ angehängt wurde, war beim Lesen nicht da.',
    'disk.does-not-append.todo': 'Die Werkstatt auf eine gewöhnliche Platte dieses Rechners legen.',
    'journal.damaged': '{ $fault }',
    'journal.damaged.todo':
      '„pinchrod verify“ ausführen und das Journal aus einer Kopie wiederherstellen; das Programm bessert es nie selbst aus.',
    'journal.newer': '{ $fault }',
    'journal.newer.todo': 'Die neuere Version von pinchrod verwenden, die es geschrieben hat.',
    'journal.unknown-event': '{ $fault }',
    'journal.unknown-event.todo': 'Die Version von pinchrod verwenden, die es geschrieben hat.',
    'journal.torn':
      'Zeile { $line } brach beim Schreiben ab; ihre { $count } Bytes sind als { $kept } aufbewahrt.',
    'journal.torn.todo': 'Die letzte Antwort zu diesem Fenster ansehen: Fehlt sie, noch einmal antworten.',
    'journal.changed-beneath':
      'Das Journal ist nicht mehr so, wie diese Werkbank es zuletzt schrieb: Etwas anderes hat hineingeschrieben oder es ersetzt.',
    'journal.changed-beneath.todo':
      'Das Fenster verlassen, nachsehen, wer sonst in diesen Ordner schreibt, „pinchrod verify“ ausführen, dann das Fenster wieder öffnen.',
    'journal.replaced': 'Die Datei unter diesem Namen ist nicht die, in die geschrieben wurde.',
    'journal.replaced.todo':
      'Nachsehen, was sonst in diesem Ordner arbeitet (ein Abgleichprogramm, eine Wiederherstellung, ein Editor), die richtige Datei unter ihren Namen legen, dann noch einmal antworten.',
    'journal.replaced/open':
      'Die Datei unter dem Namen des Journals ist nicht die, die diese Werkbank offen hat.',
    'journal.cannot-hold': 'Die Zeile lässt sich nicht schreiben: { $wrong }.',
    'journal.cannot-hold.todo': 'Den Text noch einmal tippen, ohne das genannte Zeichen oder kürzer.',
    'journal.cannot-hold/cannot': '„{ $kind }“ lässt sich nicht schreiben: { $why }.',
    'journal.cannot-hold/entry': 'Der Eintrag lässt sich nicht schreiben: { $wrong }.',
    'journal.too-large': 'Das Journal hätte dann { $bytes } Bytes.',
    'journal.too-large.todo': 'Etwas hat viel zu viel hineingeschrieben; aus einer Kopie wiederherstellen.',
    'journal.too-large/journal': 'Das Journal hat { $stat } Bytes.',
    'journal.too-large/register': 'Das Register ist voll.',
    'journal.name': '„{ $journal }“ kann nicht der Name eines Journals sein.',
    'journal.name.todo':
      'Nur Buchstaben, Ziffern, „.“, „-“ und „_“ verwenden, am Anfang einen Buchstaben oder eine Ziffer.',
    'journal.name/cannot': '„{ $wrong }“ kann nicht der Name einer Datei sein.',
    'journal.name/cannot-name': '„{ $job }“ kann nicht der Name einer Datei sein.',
    'journal.name/cannot-name-file': '„{ $text }“ kann nicht der Name einer Datei sein.',
    'journal.let-go': 'Das Fenster wurde abgegeben.',
    'journal.let-go.todo': 'Das Fenster noch einmal öffnen.',
    'journal.let-go/lock': 'Die Sperre von { $unit } gehört nicht mehr dieser Werkbank.',
    'journal.let-go/here': '{ $unit } wurde hier abgegeben.',
    'lock.held': '{ $holder } hat { $unit }.',
    'lock.held.todo':
      'Hier nur ansehen, oder das Fenster zuerst dort verlassen. Läuft hinter der Sperre kein Programm mehr, lässt es sich an der Werkbank übernehmen, im Überblick (F9).',
    'lock.other-machine': '{ $holder } hat { $unit }.',
    'lock.other-machine.todo':
      'Das Fenster dort verlassen. Ist jener Rechner aus, das Fenster an der Werkbank übernehmen, im Überblick (F9).',
    'lock.unreadable': '{ $unit } ist gesperrt, und die Sperre sagt nicht, von wem.',
    'lock.unreadable.todo':
      'Sicherstellen, dass keine Werkbank das Fenster offen hat; dann an der Werkbank übernehmen, im Überblick (F9), oder die genannte Sperrdatei löschen.',
    'source.missing': 'Der Name von { $id } ist nicht mehr so da, wie er aufbewahrt wurde.',
    'source.missing.todo': 'Die genannte Datei aus einer Kopie der Werkstatt wiederherstellen.',
    'source.missing/other1': '{ $file } fehlt.',
    'source.changed': 'Die Datei ist nicht, was ihr Name sagt: Ihr Inhalt wurde geändert.',
    'source.changed.todo':
      'Die genannte Datei aus einer Kopie der Werkstatt wiederherstellen; Dateien unter logs/ nie bearbeiten.',
    'evidence.missing': '„{ $evidence }“ fehlt.',
    'evidence.missing.todo': 'Die Datei aus einer Kopie wiederherstellen.',
    'evidence.changed': '„{ $evidence }“ wurde seit dem Ablegen geändert.',
    'evidence.changed.todo': 'Die Datei aus einer Kopie wiederherstellen.',
    'evidence.refused': 'Die Datei hat einen Namen, den keine Datei haben kann.',
    'evidence.refused.todo': 'Eine gewöhnliche Datei (Foto, PDF, Text) von höchstens 50 MB angeben.',
    'key.there': '{ $bench } hat schon den Schlüssel { $before }.',
    'key.there.todo':
      'Damit weiterarbeiten. Für einen neuen zuerst die genannte private Datei an einen sicheren Ort legen; die öffentliche bleibt in shared/keys.',
    'key.open': 'Diesen privaten Schlüssel kann nicht nur sein Besitzer lesen.',
    'key.open.todo':
      'Dieses Recht wegnehmen (chmod 600 und die genannte Datei), oder einen neuen Schlüssel machen, falls andere ihn gelesen haben können.',
    'key.unusable': 'Das ist keine Schlüsseldatei.',
    'key.unusable.todo':
      'Die Datei aus einer Kopie wiederherstellen. Für einen verlorenen privaten Schlüssel einen neuen machen: pinchrod key new.',
    'key.unusable/file': 'Die Datei enthält keinen Ed25519-Schlüssel.',
    'key.unusable/file-does': 'Die Datei enthält nicht den Schlüssel { $id }.',
    'key.bench-name': '„{ $bench }“ kann nicht der Name einer Datei sein.',
    'key.bench-name.todo':
      'Der Werkbank in shared/workshop.yaml oder PINCHROD_BENCH einen Namen aus Buchstaben, Ziffern, „.“, „-“ und „_“ geben.',
    'key.gone': '{ $bench } hat keinen Schlüssel, der sich ersetzen lässt.',
    'key.gone.todo':
      'Die Datei aus einer Kopie wiederherstellen, lesbar nur für ihren Besitzer. Ist sie verloren: pinchrod key withdraw an einer anderen Werkbank, deren Schlüssel gilt, dann hier pinchrod key new; ist nirgends mehr ein privater Schlüssel, pinchrod key new --anew.',
    'key.gone/signs': '{ $bench } signiert mit dem Schlüssel { $key }, dessen privater Teil fehlt.',
    'key.not-introduced': 'Der Schlüssel { $key } von { $bench } gilt noch nicht.',
    'key.not-introduced.todo':
      'An einer Werkbank, deren Schlüssel gilt: pinchrod key accept FINGERPRINT. Fehlt nur der öffentliche Teil: pinchrod key show gibt ihn aus.',
    'key.register-gone': 'Das Register der Schlüssel fehlt.',
    'key.register-gone.todo':
      'register/keys.jsonl aus einer Kopie wiederherstellen. Gibt es keine: pinchrod key new --anew an einer Werkbank, die ihren privaten Schlüssel hat, dann pinchrod key accept FINGERPRINT --bench NAME für jede andere, dann pinchrod register accept. Den Fingerabdruck denen geben, die Protokolle prüfen.',
    'key.register-gone/known': '{ $fault }',
    'key.withdrawn': 'Der Schlüssel { $key } von { $bench } wurde zurückgezogen.',
    'key.withdrawn.todo': 'Die genannte private Datei wegräumen, dann einen neuen machen: pinchrod key new.',
    'key.nobody-signs': 'Hier ist kein privater Schlüssel, der gilt.',
    'key.nobody-signs.todo':
      'Das an einer Werkbank tun, deren Schlüssel gilt. Ist nirgends mehr ein privater Schlüssel, der gilt, oder ist das Register der Schlüssel verloren: pinchrod key new --anew beginnt es neu; wer Protokolle prüft, braucht dann den neuen Fingerabdruck.',
    'key.nobody-signs/key': '{ $bench } hat keinen Schlüssel, aber diese Werkstatt signiert.',
    'key.unknown': '„{ $given }“ ist kein Fingerabdruck; der hat 64 Hex-Ziffern.',
    'key.unknown.todo': 'pinchrod key show zeigt die Schlüssel.',
    'key.unknown/key': 'Kein Schlüssel, der auf Annahme wartet, hat den Fingerabdruck { $fingerprint }.',
    'key.unknown/key-counts': 'Hier gilt kein Schlüssel { $id }.',
    'register.damaged': 'Der letzte Eintrag ist nicht mit einem Schlüssel signiert, der gilt.',
    'register.damaged.todo':
      '„pinchrod verify“ ausführen. Die Datei aus einer Kopie wiederherstellen, oder den jetzigen Stand von jemandem anerkennen lassen, der freigeben darf: pinchrod register accept.',
    'register.damaged/last': 'Die letzte Zeile des Registers ist beschädigt.',
    'register.damaged/chain': '{ $fault }',
    'register.damaged/forged': '{ $fault }',
    'register.damaged/forged.todo': '{ $way }',
    'register.gone': 'Dieses Konto kennt daraus Eintrag { $known }; er fehlt.',
    'register.gone.todo':
      'Den Ordner „register“ aus einer Kopie wiederherstellen. Gibt es keine, den jetzigen Stand von jemandem anerkennen lassen, der freigeben darf: pinchrod register accept.',
    'register.locked': 'Das Register ist gesperrt: { $text }',
    'register.locked.todo':
      'Nie zwei Rechnern denselben Werkbanknamen geben. Gibt es den genannten Rechner nicht mehr, die genannte Sperrdatei löschen.',
    'register.nothing': 'Alles stimmt mit den Registern überein.',
    'register.nothing.todo': 'Es ist nichts zu tun.',
    'register.not-restored': `{ $count ->
  [one] 1 Fehler kommt nicht von einer Wiederherstellung.
 *[other] { $count } Fehler kommen nicht von einer Wiederherstellung.
}`,
    'register.not-restored.todo':
      'Zuerst beheben, was genannt ist: die Dateien aus einer Kopie wiederherstellen.',
    'pins.unusable': 'Die Datei enthält keine PINs.',
    'pins.unusable.todo':
      'Die Datei aus einer Kopie wiederherstellen, oder sie löschen und jede PIN neu setzen: pinchrod person pin.',
    'pins.open': 'Die PINs kann nicht nur ihr Besitzer lesen.',
    'pins.open.todo':
      'Dieses Recht wegnehmen (chmod 600 und die genannte Datei), dann neue PINs wählen, falls andere sie gelesen haben können.',
    'pins.in-people': 'Hier steht die PIN von { $old }.',
    'pins.in-people.todo': 'Die PINs von hier wegholen: pinchrod person move-pins.',
    'pins.in-people/pins': 'Die PINs stehen so da, dass das Programm sie nicht herausnehmen kann.',
    'pins.in-people/pins.todo':
      'Jede Zeile „pin: …“ von Hand herausnehmen, dann die PINs setzen: pinchrod person pin.',
    'seal.open-units': 'Nicht fertig: { $open }.',
    'seal.open-units.todo':
      'Die genannten Fenster fertig machen oder verschrotten, dann den Auftrag versiegeln.',
    'seal.no-units': 'Es gibt keinen Auftrag „{ $job }“, oder er hat keine Fenster.',
    'seal.no-units.todo': 'pinchrod board zeigt die Aufträge.',
    'archive.no-job': 'Es gibt kein Journal eines Auftrags „{ $job }“.',
    'archive.no-job.todo':
      'pinchrod board zeigt die Aufträge; archivieren lässt sich ein Auftrag, sobald ein Fenster daraus begonnen ist.',
    'archive.wanting': 'Die Datei fehlt oder ist keine gewöhnliche Datei.',
    'archive.wanting.todo':
      '„pinchrod verify“ ausführen, die Datei aus einer Kopie wiederherstellen, dann noch einmal archivieren.',
    'archive.too-large': 'Der Auftrag hat mehr als { $largestArchive } MB oder { $mostFiles } Dateien.',
    'archive.too-large.todo': 'Den Ordner „logs“ selbst kopieren und die Kopie mit pinchrod verify prüfen.',
    'archive.damaged': '{ $fault }',
    'archive.damaged.todo': 'Eine andere Kopie des Archivs nehmen.',
    'archive.not-removed': 'Nicht geschlossen: { $open }.',
    'archive.not-removed.todo':
      'Nichts wurde entfernt. Beheben, was genannt ist, dann denselben Befehl noch einmal ausführen.',
    'archive.not-removed/file': 'Die Datei ist nicht so im Archiv, wie sie jetzt ist.',
    'archive.there': '{ $out } gibt es schon.',
    'archive.there.todo':
      'Mit --out einen anderen Namen angeben oder die Datei wegräumen; nichts wird überschrieben.',
    'workshop.missing': 'Es gibt keine Datei und keinen Ordner dieses Namens.',
    'workshop.missing.todo':
      'In den Ordner der Werkstatt gehen, ihn mit --workshop DIR nennen oder mit „pinchrod init DIR“ einen anlegen.',
    'workshop.too-large': 'Die Datei hat { $stat } Bytes; genommen werden höchstens { $largestFile }.',
    'workshop.too-large.todo': 'Die Datei teilen oder herausnehmen, was nicht hineingehört.',
    'workshop.not-a-file': 'Das ist keine gewöhnliche Datei.',
    'workshop.not-a-file.todo': 'Eine gewöhnliche Datei dorthin legen oder entfernen, was dort ist.',
    'workshop.not-a-file/journal': 'Das Journal ist keine gewöhnliche Datei.',
    'workshop.outside': 'Die Datei liegt außerhalb des Werkstattordners.',
    'workshop.outside.todo':
      'Die Datei in die Werkstatt kopieren; Verknüpfungen nach außen werden nicht verfolgt.',
    'workshop.outside/folder': 'Der Ordner ist eine Verknüpfung oder gar kein Ordner.',
    'workshop.not-text': 'Die Datei ist kein Text in UTF-8.',
    'workshop.not-text.todo': 'Die Datei im Editor noch einmal als UTF-8 speichern.',
    'workshop.name': 'Die Datei enthält „{ $loaded }“, heißt aber nach „{ $name }“.',
    'workshop.name.todo': 'Die Datei umbenennen oder den Namen darin ändern, damit beide gleich sind.',
    'workshop.name/file': 'Die Datei enthält „{ $language }“, heißt aber nach „{ $language2 }“.',
    'workshop.unknown': 'In { $folder } gibt es „{ $name }“ nicht.',
    'workshop.unknown.todo': 'Es gibt: { $known }.',
    'workshop.unknown/near': 'In { $folder } gibt es „{ $name }“ nicht.',
    'workshop.unknown/near.todo': '„{ $near }“ schreiben; es gibt: { $known }.',
    'workshop.twice': '„{ $person }“ steht schon für { $people }.',
    'workshop.twice.todo': 'Eines davon ändern: Jeder Name darf nur einmal vorkommen.',
    'workshop.twice/have': '{ $file } und { $other } haben denselben Namen.',
    'init.there': 'Unter diesem Namen gibt es schon etwas, und es ist kein Ordner.',
    'init.there.todo': 'Einen leeren oder neuen Ordner wählen; nichts wird überschrieben.',
    'init.there/folder': 'In dem Ordner gibt es schon „{ $taken }“.',
    'init.no-source': 'Die mitgelieferte Werkstatt fehlt.',
    'init.no-source.todo': 'Das Programm neu installieren.',
    'init.no-source/folder': 'Im Ordner des Programms ist keine Werkstatt.',
    'verify.torn-end': '{ $fault }',
    'verify.torn-end.todo':
      'Das Fenster an der Werkbank öffnen: Sie legt das Stück beiseite und macht weiter. Nichts Bestätigtes ist verloren.',
    'verify.no-line-end': 'Zeile { $line } ist vollständig, aber ihr fehlt das Zeilenende.',
    'verify.no-line-end.todo': 'Das Fenster an der Werkbank öffnen: Sie ergänzt das Zeilenende.',
    'verify.changed-line': '{ $fault }',
    'verify.changed-line.todo':
      'Das Journal aus einer Kopie wiederherstellen und klären, wer es geändert hat.',
    'verify.missing-line': '{ $fault }',
    'verify.missing-line.todo':
      'Das Journal aus einer Kopie wiederherstellen und klären, wer die Zeilen entfernt hat.',
    'verify.re-ordered-line': '{ $fault }',
    'verify.re-ordered-line.todo': 'Das Journal aus einer Kopie wiederherstellen.',
    'verify.repeated-line': '{ $fault }',
    'verify.repeated-line.todo': 'Das Journal aus einer Kopie wiederherstellen.',
    'verify.broken-chain': '{ $fault }',
    'verify.broken-chain.todo':
      'Das Journal aus einer Kopie wiederherstellen und klären, wer diese Zeile geschrieben hat.',
    'verify.not-opened': '{ $fault }',
    'verify.not-opened.todo': 'Das Journal aus einer Kopie wiederherstellen.',
    'verify.not-opened/register': 'Der Anfang ist nicht der des Registers dieser Werkbank.',
    'verify.wrong-unit': '{ $fault }',
    'verify.wrong-unit.todo': 'Die Datei wieder unter ihren eigenen Namen legen.',
    'verify.newer-format': '{ $fault }',
    'verify.newer-format.todo': 'Mit der Version von pinchrod prüfen, die es geschrieben hat.',
    'verify.unknown-event': '{ $fault }',
    'verify.unknown-event.todo': 'Mit der Version von pinchrod prüfen, die es geschrieben hat.',
    'verify.source-missing': '{ $file } fehlt.',
    'verify.source-missing.todo': 'Die Datei aus einer Kopie wiederherstellen.',
    'verify.source-changed': 'Der Inhalt ist nicht, was der Name sagt.',
    'verify.source-changed.todo': 'Die Datei aus einer Kopie wiederherstellen.',
    'verify.setup-gone':
      'Das beruht auf dem Erststück in Zeile { $firstOff } eines Journals der Einrichtungen; dort steht es nicht mehr so.',
    'verify.setup-gone.todo':
      'logs/setups.jsonl aus einer Kopie wiederherstellen und klären, wer es geändert hat. Worauf die Fenster beruhen, ist unter logs/sources aufbewahrt.',
    'verify.name-missing': '{ $file } fehlt.',
    'verify.name-missing.todo':
      'Die Datei aus einer Kopie wiederherstellen. Ein Name wird mit „pinchrod person erase“ gelöscht, nie durch Entfernen seiner Datei.',
    'verify.name-changed': 'Der Inhalt ist nicht, was der Name sagt.',
    'verify.name-changed.todo': 'Die Datei aus einer Kopie wiederherstellen.',
    'verify.evidence-missing': '„{ $evidence }“ ({ $hash }) fehlt.',
    'verify.evidence-missing.todo': 'Die Datei aus einer Kopie wiederherstellen.',
    'verify.evidence-changed': '„{ $evidence }“ ist nicht, was der Name sagt.',
    'verify.evidence-changed.todo': 'Die Datei aus einer Kopie wiederherstellen.',
    'verify.unknown-key': 'Signiert mit dem Schlüssel { $signedBy }, der nicht unter shared/keys liegt.',
    'verify.unknown-key.todo':
      'Den öffentlichen Schlüssel dieser Werkbank dorthin legen, und zwar von der Person, die ihn hat; nie von dem, der das Journal übergeben hat.',
    'verify.unknown-key/signed': 'Signiert mit dem Schlüssel { $key }, der nicht unter shared/keys liegt.',
    'verify.untrusted-key':
      'Signiert mit dem Schlüssel { $key }, zu dem hier kein Fingerabdruck angegeben ist.',
    'verify.untrusted-key.todo':
      'Die Werkstatt auf einem anderen Weg als über diese Dateien fragen, ob der Schlüssel ihr gehört. Wenn nicht, ist gefälscht, was damit signiert ist.',
    'verify.key-missing': 'Das Dokument nennt den Schlüssel { $firstKey }; er gilt hier nicht.',
    'verify.key-missing.todo':
      'Den Fingerabdruck mit dem auf Papier vergleichen. Stimmt er, wurde der Schlüssel entfernt: ihn wieder unter shared/keys legen.',
    'verify.key-missing/trusted': 'Kein Schlüssel hat den Fingerabdruck { $fingerprint }.',
    'verify.key-missing/file': '{ $file } fehlt.',
    'verify.key-not-introduced': 'Kein Register führt den Schlüssel { $id } ein.',
    'verify.key-not-introduced.todo':
      'Ist es der Schlüssel einer Werkbank der Werkstatt: pinchrod key accept FINGERPRINT an einer Werkbank, deren Schlüssel gilt. Wenn nicht, hat ihn jemand dorthin gelegt, und was damit signiert ist, ist gefälscht: den Schlüssel entfernen und die Dateien aus einer Kopie wiederherstellen.',
    'verify.key-not-introduced/signed': 'Signiert mit dem Schlüssel { $key }, den kein Register einführt.',
    'verify.key-entry': 'Eintrag { $entry } ist nicht mit einem Schlüssel signiert, der gilt.',
    'verify.key-entry.todo':
      'register/keys.jsonl aus einer Kopie wiederherstellen und klären, wer den Eintrag geschrieben hat.',
    'verify.key-withdrawn': 'Der Schlüssel { $signedBy } war schon zurückgezogen, als er dies signierte.',
    'verify.key-withdrawn.todo':
      'Klären, wer diesen Schlüssel hat. Was er seither signiert hat, ist gefälscht, oder eine Werkbank wusste es noch nicht: erst ein neues Protokoll darauf stützen, wenn das geklärt ist.',
    'verify.key-withdrawn/key':
      'Der Schlüssel { $key } wurde zurückgezogen, bevor ein Register diese Signatur kannte.',
    'verify.key-begun-anew': 'Eintrag { $entry } beginnt das Register neu, mit dem Schlüssel { $key }.',
    'verify.key-begun-anew.todo':
      'Die Werkstatt auf einem anderen Weg als über diese Dateien fragen, ob das stimmt. Dann beide Fingerabdrücke angeben (--trust OLD --trust NEW); ein Konto der Werkstatt nimmt den neuen auf Dauer an: pinchrod key accept FINGERPRINT.',
    'verify.signature-missing':
      'Zeile { $line } schließt das Fenster an { $bench }. Dort wird signiert, aber es folgt keine Signatur.',
    'verify.signature-missing.todo':
      'Das Journal aus einer Kopie wiederherstellen und klären, wer sein Ende geschrieben hat. Es nicht nachträglich signieren.',
    'verify.register-gone': 'Das Register der Schlüssel fehlt.',
    'verify.register-gone.todo':
      'Den Ordner „register“ aus einer Kopie wiederherstellen und klären, wer ihn entfernt hat. Nach einer Wiederherstellung der ganzen Werkstatt: pinchrod register accept.',
    'verify.register-gone/names': '{ $whence } nennt Eintrag { $head } von { $file }; diese Datei fehlt.',
    'verify.register-cut':
      '{ $whence } nennt Eintrag { $head } von { $file }; die Datei endet mit Eintrag { $lines }: Sie wurde gekürzt oder durch eine ältere Kopie ersetzt.',
    'verify.register-cut.todo':
      'Die Datei aus einer Kopie wiederherstellen und klären, wer sie geändert hat. Nach einer Wiederherstellung der ganzen Werkstatt: pinchrod register accept.',
    'verify.register-anew':
      '{ $whence } nennt Eintrag { $head } von { $file }; dort steht ein anderer: Die Datei wurde neu geschrieben.',
    'verify.register-anew.todo':
      'Die Datei aus einer Kopie wiederherstellen und klären, wer sie geschrieben hat. Nach einer Wiederherstellung der ganzen Werkstatt: pinchrod register accept.',
    'verify.register-unsigned': 'Eintrag { $n } hat keine Signatur, obwohl { $bench } signiert.',
    'verify.register-unsigned.todo':
      'Das Register aus einer Kopie wiederherstellen und klären, wer es geändert hat.',
    'verify.journal-gone': '{ $file } fehlt. { $knows }.',
    'verify.journal-gone.todo':
      'Die Datei aus einer Kopie wiederherstellen und klären, wer sie entfernt hat. Nach einer Wiederherstellung: pinchrod register accept.',
    'verify.journal-emptied': 'Das Journal ist leer. { $knows }.',
    'verify.journal-emptied.todo':
      'Das Journal aus einer Kopie wiederherstellen und klären, wer es geleert hat. Nach einer Wiederherstellung: pinchrod register accept.',
    'verify.journal-cut': `Das Journal hat { $lines } { $lines ->
  [one] Zeile
 *[other] Zeilen
}. { $knows }.`,
    'verify.journal-cut.todo':
      'Das Journal aus einer Kopie wiederherstellen und klären, wer es gekürzt hat. Nach einer Wiederherstellung: pinchrod register accept.',
    'verify.journal-put-back': `Das Journal ist auf dem Stand vom { $when }, mit { $lines } { $lines ->
  [one] Zeile
 *[other] Zeilen
}. { $knows }.`,
    'verify.journal-put-back.todo':
      'Das Journal aus einer neueren Kopie wiederherstellen und klären, wer das alte zurückgelegt hat. Nach einer Wiederherstellung: pinchrod register accept.',
    'verify.journal-anew':
      'Zwischen den Zeilen { $events } und { $events2 } wurde das Journal neu geschrieben: { $place } Zeile { $line } kennt eine andere Zeile { $events2 }.',
    'verify.journal-anew.todo':
      'Das Journal aus einer Kopie wiederherstellen und klären, wer diese Zeilen geschrieben hat.',
    'verify.journal-born-again':
      'Das ist ein anderes Journal: Zeile { $events } ist nicht die, die { $place } Zeile { $line } kennt.',
    'verify.journal-born-again.todo':
      'Das Journal aus einer Kopie wiederherstellen und klären, wer dieses gemacht hat. Nach einer Wiederherstellung: pinchrod register accept.',
    'verify.seal-gone': 'Das Siegel von { $job }, das { $place } Zeile { $line } kennt, fehlt.',
    'verify.seal-gone.todo':
      'Die Datei aus einer Kopie wiederherstellen und klären, wer sie entfernt oder geändert hat.',
    'verify.bad-signature': 'Das Siegel gehört zu einer anderen Zeile als der davor.',
    'verify.bad-signature.todo':
      'Die Datei aus einer Kopie wiederherstellen und klären, wer sie geändert hat.',
    'verify.bad-signature/signature': 'Die Signatur besteht nicht aus 64 Bytes in Base64.',
    'verify.forged-chain': 'Der Schlüssel { $signedBy } hat die Einträge bis zu diesem nicht signiert.',
    'verify.forged-chain.todo':
      'Die Datei aus einer Kopie wiederherstellen und klären, wer sie geschrieben hat. Bis zum letzten guten Siegel sind die Zeilen so, wie sie signiert wurden.',
    'verify.forged-chain/lines':
      'Jede Zeile passt zu der davor, aber der Schlüssel { $key } hat sie nicht signiert: Ab irgendeiner Zeile wurden sie neu geschrieben.',
    'verify.forged-chain/after':
      'Jede Zeile passt zu der davor, aber der Schlüssel { $key } hat sie nicht signiert: Irgendwo hinter Zeile { $good }, dem letzten guten Siegel, wurden sie neu geschrieben.',
    'verify.forged-chain/seal':
      'Der Schlüssel { $key } hat dieses Siegel nicht signiert: Das Siegel oder die Journale, für die es gilt, wurden neu geschrieben.',
    'verify.key-damaged': '{ $fault }',
    'verify.key-damaged.todo': 'Die Datei aus einer Kopie wiederherstellen.',
    'verify.job-seal': 'Die Datei enthält kein Siegel eines Auftrags.',
    'verify.job-seal.todo':
      'Die Journale und das Siegel aus einer Kopie wiederherstellen und klären, wer sie geändert hat.',
    'verify.job-seal/seal': 'Das Siegel gehört zum Auftrag „{ $job }“.',
    'verify.job-seal/seal-one': 'Das Siegel passt nicht zu den Fenstern, die es aufzählt.',
    'verify.job-seal/journal': 'Das Journal von { $unit } fehlt.',
    'verify.job-seal/had':
      'Beim Versiegeln des Auftrags hatte { $unit } { $lines } Zeilen, jetzt { $lines2 }.',
    'verify.job-seal/line': 'Zeile { $lines } von { $unit } ist nicht die, die versiegelt wurde.',
    'verify.document-differs': '{ $difference }',
    'verify.document-differs.todo': 'Dem Journal glauben und das Dokument neu erstellen: pinchrod record.',
    'verify.document-differs/leaves-out':
      'Es fehlt { $unit } aus { $job }, obwohl es zu dem gehört, was verlangt war.',
    'verify.document-differs/shows':
      'Es zeigt { $unit } aus { $job }, obwohl das nicht zu dem gehört, was verlangt war.',
    'verify.document-seal': 'Sein Siegel gehört zu keiner Zeile im Journal von { $unit }.',
    'verify.document-seal.todo':
      'Das Journal prüfen; ist es in Ordnung und signiert, ist das Dokument falsch. Gingen Zeilen verloren, eine Kopie wiederherstellen.',
    'verify.document-seal/lines':
      'Es stützt sich auf { $lines } Zeilen; das Journal von { $unit } hat { $there }.',
    'verify.document-seal/line': 'Sein Siegel gehört nicht zu Zeile { $lines } im Journal von { $unit }.',
    'verify.document-archived': '{ $unit } aus { $job } wurde am { $away } archiviert.',
    'verify.document-archived.todo': 'Das Archiv des Auftrags entpacken und das Dokument dort prüfen.',
    'verify.credential': 'Es ist von { $issuer } ausgestellt; dieser Schlüssel gilt hier nicht.',
    'verify.credential.todo': 'Von dem, der es übergab, eine andere Kopie erbitten.',
    'verify.credential/signature': 'Die Unterschrift passt nicht: darin wurde etwas geändert.',
    'verify.credential/signature.todo': 'Von dem, der es übergab, eine andere Kopie erbitten.',
    'verify.credential/words': 'Es sagt nicht, was sein eigenes Protokoll sagt.',
    'verify.credential/words.todo': 'Von dem, der es übergab, eine andere Kopie erbitten.',
    'verify.document-unknown': 'Das ist kein Protokoll von Fenstern, wie diese Version es schreibt.',
    'verify.document-unknown.todo':
      'Die Datei so angeben, wie pinchrod record sie geschrieben hat. Ein Verzeichnis lässt sich nicht prüfen: neu machen lassen und vergleichen.',
    'verify.archive': '{ $fault }',
    'verify.archive.todo': 'Eine andere Kopie des Archivs nehmen.',
    'verify.not-a-file': 'Das ist eine Verknüpfung; sie wird nicht verfolgt.',
    'verify.not-a-file.todo': 'Die gewöhnliche Datei zurücklegen; Verknüpfungen werden nicht verfolgt.',
    'verify.not-a-file/found': '{ $fault }',
    'verify.unreadable': '{ $fault }',
    'verify.unreadable.todo': 'Beheben, was genannt ist, dann noch einmal prüfen.',
    'verify.not-signed': 'Zeile { $open } schließt das Fenster, und es folgt keine Signatur.',
    'verify.not-signed/allowed':
      'Zeile { $open } schließt das Fenster, und es folgt keine Signatur. { $by } hat das erlaubt, weil die Werkbank nicht signieren konnte ({ $why }).',
    'verify.not-signed.todo':
      'Hat eine Person das erlaubt, sie fragen. Sonst wurde das Fenster geschlossen, bevor es einen Schlüssel gab: mit einem Protokoll vergleichen, das damals gedruckt wurde. Nur wenn beides übereinstimmt, signieren: pinchrod seal JOB.',
    'verify.not-signed/seal': 'Das Siegel des Auftrags hat keine Signatur.',
    'verify.restore-accepted':
      '{ $by } hat am { $day } anerkannt, was eine Wiederherstellung übrig ließ ({ $reason }). Verloren gingen: { $lost }.',
    'verify.restore-accepted.todo':
      'Diese Person fragen, ob das stimmt. In Dokumenten von vor der Wiederherstellung kann mehr stehen als in den Journalen.',
    'verify.branched':
      'Was { $bench } in { $entry } hinter Zeile { $common } geschrieben hatte, wurde am { $at } zu { $branch }: Inzwischen hatte eine andere Werkbank dort geschrieben.',
    'verify.branched.todo':
      'Den Zweig (pinchrod record JOB/UNIT~1) zusammen mit dem Mangel lesen, der am Fenster dazu gemeldet ist: Dort ist entschieden, was die Antworten wert sind.',
    'verify.not-entered': 'Kein Register kennt dieses Journal.',
    'verify.not-entered/behind': 'Kein Register kennt die Zeilen hinter Zeile { $known }.',
    'verify.not-entered.todo':
      'Arbeitet gerade niemand daran, die Personen fragen, die in den Zeilen stehen. Eingetragen werden sie von der nächsten Werkbank, die das Fenster öffnet, oder mit der nächsten Abnahme oder Erststückprüfung.',
    'verify.no-register': 'Es gibt Schlüssel, aber kein Register.',
    'verify.no-register.todo':
      'Die erste Werkbank, die ein Fenster öffnet, beginnt eines. Die Fingerabdrücke der Schlüssel mit denen auf Papier vergleichen (--trust).',
    'verify.grown': `Das Journal von { $unit } hat { $more } { $more ->
  [one] Zeile
 *[other] Zeilen
} mehr als das Dokument.`,
    'verify.grown/sealed': `{ $unit } hat { $lines } { $lines ->
  [one] Zeile
 *[other] Zeilen
} mehr als beim Versiegeln des Auftrags.`,
    'verify.grown/before': `Das Journal von { $unit } hat { $more } { $more ->
  [one] Zeile
 *[other] Zeilen
} mehr als das Dokument. Älter als das Dokument { $known ->
  [one] ist
 *[other] sind
} davon { $known }.`,
    'verify.grown.todo': 'Ansehen, was dazukam; dann den Auftrag versiegeln oder das Dokument neu erstellen.',
    'verify.key-brought': 'Der Schlüssel { $id } kam mit dem Archiv.',
    'verify.key-brought.todo':
      'Die ID des Schlüssels mit der vergleichen, die die Werkstatt auf Papier gegeben hat.',
    'verify.document-told':
      'Was es zu Namen, Messgeräten oder zum Hersteller angibt, ist sonst nirgends mehr aufbewahrt; alles andere stimmt mit dem Journal überein.',
    'verify.document-told.todo':
      'Am Übrigen ist nichts falsch. Ob diese Angaben stimmen, müssen andere Papiere zeigen: ein Kalibrierschein, eine Personenliste.',
    'verify.document-zone': 'Die Zeiten sind nach { $zone } angegeben; dieser Rechner kennt { $here }.',
    'verify.document-zone.todo':
      'Die Zeiten im Journal sind in UTC; die Zone kann seither neu festgelegt worden sein, oder das Dokument soll täuschen.',
    'verify.name-erased': 'Der Name von { $name } wurde am { $erased } gelöscht.',
    'verify.name-erased.todo': 'Daran ist nichts falsch: Die Journale sind, wie sie waren.',
    'verify.name-unknown': 'Nichts nennt diese Datei.',
    'verify.name-unknown.todo': 'Nichts braucht sie; löschen, wenn sie von Hand dorthin kam.',
    'verify.source-unknown': 'Kein Journal nennt diese Datei.',
    'verify.source-unknown.todo': 'Nichts braucht sie; löschen, wenn sie von Hand dorthin kam.',
    'verify.evidence-unknown': 'Kein Journal nennt diese Datei.',
    'verify.evidence-unknown.todo':
      'Sie kann zu einer Antwort gehören, die ein Absturz abgebrochen hat; löschen, wenn niemand sie braucht.',
    'verify.set-aside': 'Das ist ein Stück einer Zeile, nach einem Absturz beiseitegelegt.',
    'verify.set-aside.todo': 'Beim Journal aufbewahren; es zeigt, was gerade geschrieben wurde.',
    'verify.stray-file': '{ $shown } ist kein Auftrag.',
    'verify.stray-file.todo': 'Woandershin legen, wenn es von Hand dorthin kam.',
    'verify.stray-file/none': '{ $file } gehört nicht zum Programm.',
    'while-shop-copied': 'der Betrieb kopiert wurde',
    'while-handed-over': 'die Datei an den Betrieb übergeben wurde',
    'while-taken-over-shop': 'die Datei vom Betrieb übernommen wurde',
    'while-an-edition-taken': 'eine Ausgabe übernommen wurde',
    'while-shop-left': 'der Betrieb verlassen wurde',
    'while-unit-opened': 'das Fenster geöffnet wurde',
    'while-answer-written-journal': 'die Antwort geschrieben wurde; sie steht nicht im Journal',
    'while-verified': 'die Datei geprüft wurde',
    'while-name-person-kept': 'der Name einer Person abgelegt wurde',
    'while-name-erased': 'ein Name gelöscht wurde',
    'while-read': 'die Datei gelesen wurde',
    'while-written': 'die Datei geschrieben wurde',
    'while-pins-read': 'die PINs gelesen wurden',
    'while-pin-kept': 'eine PIN abgelegt wurde',
    'while-journal-read': 'das Journal gelesen wurde',
    'while-written-journal': 'ein Eintrag geschrieben wurde; er steht nicht im Journal',
    'while-logs-folder-tested': 'der Ordner „logs“ getestet wurde',
    'while-restore-accepted': 'die Wiederherstellung anerkannt wurde',
    'while-register-read': 'das Register gelesen wurde',
    'while-key-bench-looked': 'der Schlüssel der Werkbank nachgeschlagen wurde',
    'while-register-written': 'das Register geschrieben wurde',
    'while-unit-built-frozen': 'festgehalten wurde, wonach das Fenster gebaut wird',
    'while-frozen-source-read': 'eine festgehaltene Datei gelesen wurde',
    'while-table-read': 'die Tabelle gelesen wurde',
    'while-evidence-read': 'der Beleg gelesen wurde',
    'while-evidence-kept': 'der Beleg abgelegt wurde',
    'while-workshop-made': 'die Werkstatt angelegt wurde',
    'while-key-bench-read': 'der Schlüssel der Werkbank gelesen wurde',
    'while-key-made': 'der Schlüssel gemacht wurde',
    'while-public-keys-read': 'die öffentlichen Schlüssel gelesen wurden',
    'while-unit-taken': 'das Fenster übernommen wurde',
    'while-job-archived': 'der Auftrag archiviert wurde',
    'while-job-removed': 'der Auftrag entfernt wurde',
    'while-job-sealed': 'der Auftrag versiegelt wurde',
    'while-pins-taken-out': 'die PINs herausgenommen wurden',
    'while-journal-opened': 'das Journal geöffnet wurde',
    'while-files-listed': 'die Dateien darin aufgelistet wurden',
    'while-journals-listed': 'die Journale darin aufgelistet wurden',
    'disk-full': 'Die Platte ist voll',
    'disk-quota': 'Der zugeteilte Platz auf der Platte ist aufgebraucht',
    'disk-larger': 'Die Datei ist größer, als diese Platte annimmt',
    'disk-read-only': 'Die Platte lässt sich nur lesen',
    'disk-no-right': 'Das Programm darf hierauf nicht zugreifen',
    'disk-open': 'Zu viele Dateien sind offen',
    'disk-fault': 'Die Platte meldet einen Fehler',
    'disk-missing': 'Eine Datei oder ein Ordner fehlt',
    'disk-gone': 'Die Platte ist nicht mehr da',
    'disk-failed': 'Der Zugriff auf die Datei ist gescheitert',
    holder: '{ $bench } (Prozess { $pid } auf { $host })',
    'holder-who': '{ $who } an { $bench } (Prozess { $pid } auf { $host })',
    'archive-outside': '„{ $file }“ führt aus dem Archiv hinaus.',
    'archive-twice': '„{ $file }“ ist zweimal darin.',
    'archive-more': 'Es enthält mehr, als ein Archiv eines Auftrags enthalten kann.',
    'archive-no-zip': 'Das ist keine vollständige ZIP-Datei.',
    'archive-no-job': 'Das ist kein Archiv eines einzelnen Auftrags.',
    'archive-lacks': 'Es enthält kein { $file }.',
    'archive-unreadable': '{ $file } lässt sich nicht lesen.',
    'archive-not-there': '{ $file } steht in { $manifest }, fehlt aber.',
    'archive-other': '{ $file } ist nicht, was { $manifest } sagt.',
    'archive-extra': '{ $file } steht nicht in { $manifest }.',
    'no-file': 'Das ist keine gewöhnliche Datei.',
    'file-bytes': 'Die Datei hat { $bytes } Bytes.',
    'line-unknown': 'Die Zeile ist vollständig, aber diese Version kennt sie nicht: { $fault }',
    'line-piece': 'Zeile { $line } ist nur ein Stück eines Eintrags ({ $bytes } Bytes).',
    'not-opened': 'Das Journal beginnt nicht mit „opened“.',
    'wrong-unit':
      'Das Journal gehört zum Fenster „{ $unit }“ des Auftrags „{ $job }“, nicht zu „{ $otherUnit }“ von „{ $otherJob }“.',
    'newer-format': 'Der Eintrag hat das Format { $format }; diese Version liest bis { $newest }.',
    'lost-none': 'keine Einträge',
    'lost-entries': 'Einträge von { $benches }',
    'register-restore':
      'Das Register aus einer Kopie wiederherstellen und klären, wer es geändert hat. Ein abgebrochenes Ende wird mit dem nächsten Eintrag beiseitegelegt.',
    'head-known': `{ $place } Zeile { $line } kennt davon { $n } { $n ->
  [one] Zeile
 *[other] Zeilen
}, Stand { $when }`,
    'known-keys': 'Das Register der Schlüssel',
    'known-account': 'Der Merkstand dieses Kontos',
    'known-line': 'Zeile { $line }',
    'known-document': 'Das Dokument',
    'evidence.refused/gone': 'Die Datei ist nicht da.',
    'evidence.refused/no-file': 'Das ist keine gewöhnliche Datei.',
    'evidence.refused/empty': 'Die Datei ist leer.',
    'evidence.refused/large': 'Die Datei hat { $bytes } Bytes; erlaubt sind { $most }.',
    'workshop.unknown/none': 'In { $folder } gibt es „{ $name }“ nicht.',
    'workshop.unknown/none.todo': 'Der Ordner enthält nichts davon.',
    'workshop.shop-card/no-card': 'Die Datei ist nicht zu gebrauchen: Sie ist keine Karte eines Betriebs.',
    'workshop.shop-card/gone': 'Die Datei ist nicht da, obwohl dieser Ordner an einem Betrieb teilnahm.',
    'workshop.shop-card/json': 'Die Datei ist nicht zu gebrauchen: Sie ist kein JSON.',
    'verify.document-zone/unknown':
      'Die Zeiten sind nach { $zone } angegeben; dieser Rechner kennt diese Zone nicht.',
    'seal.open-units/more': 'Nicht fertig: { $open } und { $more } weitere.',
  };
