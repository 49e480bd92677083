/** Texts of `pinchrod VERB --help` in German. */
import type { HELP, Helps } from './help.js';

export const HELP_GERMAN: Record<keyof typeof HELP, string> = {
  bench: `pinchrod [bench] [UNIT]

Öffnet die Werkbank: ein Fenster wählen oder scannen, dann arbeiten und antworten, wie sie fragt. Mit UNIT ist dieses Fenster
sofort offen.

Beispiel: pinchrod bench P02-1`,

  board: `pinchrod board [JOB] [--by unit|stage] [--hand-over [--since TIME]] [--json]

Zeigt die Fenster und ihren Stand, jeden mit einem Zeichen und einem Wort. Fenster, zu denen noch nichts geschrieben ist, sind
„nicht begonnen“. Stammen Auftrag, Profilsatz, Arbeitsanweisung oder Grenzwerte eines Fensters nicht mehr aus den jetzigen
Dateien der Werkstatt, steht das dabei; „pinchrod revise“ übernimmt diese.

--by stage   stattdessen eine Zeile für jeden Schritt, mit den Fenstern, an denen er offen oder angehalten ist, und denen, die
             dort beginnen: zum Beispiel alle Rahmen, die in den Winkel zu bringen sind
--hand-over  eine Seite für die nächste Schicht: was halb getan ist, angehalten ist, aushärtet oder bald abläuft, Mängel,
             Zurückgestelltes und die Notizen seit TIME (ISO 8601, nach der Uhr der Werkstatt, wenn kein Abstand zu UTC
             dabeisteht; ohne Angabe die der letzten zwölf Stunden)

Beispiel: pinchrod board pier-house --json`,

  setout: `pinchrod setout JOB [UNIT] [--json | --cut | --marks] [--csv] [--why NAME] [--svg FILE]

JOB ist ein Auftrag der Werkstatt oder eine Auftragsdatei. UNIT ist ein Fenster (P05-1) oder eine Position (P05: jedes
Fenster dieser Position).

  --json         alles, für Skripte
  --cut          die Zuschnittliste, nach Profil, die längsten zuerst; mit --csv oder --json in dieser Form
  --marks        jeder Anriss jedes Teils; mit --csv oder --json in dieser Form
  --why NAME     die Rechnung, aus der eine Zahl kommt, als Baum; „--why ?“ zeigt die Namen
  --all          mit --why: der ganze Baum, auch wenn er lang ist
  --svg FILE     die Ansicht eines Fensters, von außen gesehen
  --spot SPOT    mit --svg: was darauf gezeigt wird (keeps, drains, addon-fixings, ...)
  --item ITEM    mit --spot: von welchem Feld, Pfosten oder Riegel (L2, D1)
  --triangle AT  mit --svg: hinge oder handle; dort haben die Öffnungsdreiecke ihre Spitze
  --ascii        keine Linienzeichen

Rückgabewert 1: Ein Fenster ist abgelehnt. Was daran nicht stimmt, steht mit Zahl, Grenzwert und Quelle da.

Beispiel: pinchrod setout pier-house P05-1 --why glass.L2.width`,

  lint: `pinchrod lint [FILE ...] [--json] | pinchrod lint --coverage JOB | pinchrod lint --words LANGUAGE

Prüft Profilsätze, Aufträge, Grenzwerte, Messgeräte, Personen und Arbeitsanweisungen: ihre Form, Namen und Typen in jeder
Formel, und ob alles für jedes Fenster jedes Auftrags zusammenpasst. Mit FILE wird nur gesagt, was in diesen Dateien nicht
stimmt. --coverage zeigt, welche Schritte und Prüfungen jedes Fenster eines Auftrags bekommt. --words zählt, wie viele der
eigenen Texte des Programms übersetzt, geprüft und seither geändert sind.

Beispiel: pinchrod lint procedures/casement.yaml
Rückgabewerte: 0 alles stimmt, 1 die Auftragsprüfung lehnt ein Fenster ab oder eine Datei ist bedenklich, 2 eine Datei ist
nicht zu gebrauchen.`,

  record: `pinchrod record [UNIT | JOB] [--format text|html|json|csv|pdf] [--out FILE] [--annex] [--initials]
       [--declaration | --credential] [--since DATE] [--until DATE] [--job JOB] [--snagged] [--paper a4|letter]
       [--language en|de] [--schema]

Das Qualitätsprotokoll eines Fensters oder eines ganzen Auftrags: auf der ersten Seite, ob es in Ordnung ist, wer es freigegeben
hat und was nicht gleich in Ordnung war; dann die Ausnahmen mit Gründen, die Messwerte, Zeichnungen, was bestand, Material und
Personen. --annex fügt jede Antwort mit ihrer Zeile im Journal an; JSON hat sie immer. Ohne Namen jedes Fenster, an dem von
--since bis --until gearbeitet wurde (beide Tage eingeschlossen). --snagged nimmt nur Fenster mit einem Mangel. --initials setzt
Kürzel an die Stelle der Namen. --declaration gibt stattdessen das Blatt mit den Angaben nach EN 14351-1 (Text, HTML oder PDF).
--credential unterschreibt das Protokoll eines freigegebenen Fensters mit dem Schlüssel dieser Werkbank als W3C Verifiable
Credential: Wer das did:key des Schlüssels hat, prüft es ohne dieses Programm und ohne diese Dateien (logs/README.md).
--language macht es in einer anderen Sprache, auch die Schritte, wo die Arbeitsanweisung übersetzt ist; eine CSV bleibt, wie sie
ist. --schema zeigt das Schema des JSON-Formats. Ohne --format gilt die Endung von --out; sonst Text.

Beispiele:
  pinchrod record P02-1
  pinchrod record pier-house --format pdf --out pier-house.pdf --initials
  pinchrod record --since 2026-03-01 --until 2026-03-31 --snagged --format csv --out march.csv
Rückgabewerte: 0 geschrieben (fertig oder nicht), 1 ein Journal oder das, wonach ein Fenster gebaut wurde, ist nicht in
Ordnung, 2 falsch aufgerufen, 3 die Festplatte hat versagt.`,

  label: `pinchrod label UNIT|JOB [--parts] [--stock NAME] [--format svg|png|pdf] [--out FILE] [--skip N] [--dpi N]
       [--language en|de] [--json]

Etiketten mit dem Code des Fensters als QR-Code, Code 128 und Schrift (mit Prüfzeichen), mit Anschlag, Skizze, Gewicht und Hinweis
zum Heben. Mit --parts ein Etikett für jedes zugeschnittene Teil. Ein Scan öffnet in beiden Fällen das Fenster an der Werkbank.
--skip lässt Plätze am Anfang eines Bogens frei. PNG gibt eine Datei je Etikett, für Drucker mit --dpi Punkten je Zoll (203,
300, 600). Mit --json nur, was auf jedem Etikett steht. Größen:
  roll-100x60  Rolle, 100 x 60 mm
  a4-8         A4-Bogen mit 8, 99,1 x 67,7 mm
  a4-14        A4-Bogen mit 14, 99,1 x 38,1 mm
  a4-21        A4-Bogen mit 21, 63,5 x 38,1 mm

Beispiele:
  pinchrod label P02-1 --out P02-1.svg
  pinchrod label pier-house --stock a4-8 --out labels.pdf
  pinchrod label P02-1 --parts --stock a4-21 --skip 3 --out parts.pdf
Rückgabewerte: 0 getan, 1 ein Journal ist nicht in Ordnung, 2 falsch aufgerufen, 3 die Festplatte hat versagt.`,

  verify: `pinchrod verify [JOB | UNIT | JOB UNIT | FILE] [--trust FINGERPRINT] [--shop] [--json]

Liest die Journale, das, wonach die Fenster gebaut wurden, die Belege und die Siegel und sagt, was nicht stimmt, jeweils mit
Datei und Zeile. Geändert wird nichts. Ohne Namen alles unter logs/. FILE ist ein vorgelegtes Dokument: zu einem Fenster, einem
Auftrag oder einem Zeitraum, oder ein Blatt mit den Angaben, in jedem Format (Text als .txt). Es wird aus den Journalen neu
erstellt und muss dasselbe sagen. Oder FILE ist das Archiv eines Auftrags (ZIP). logs/README.md erklärt die IDs, und wie sich
ein Journal ohne dieses Programm prüfen lässt.

--trust  einmal für jeden Schlüssel der Werkstatt: sein Fingerabdruck, wie pinchrod key show ihn zeigt, vom Papier. Dann gilt kein
         anderer. Ohne --trust gilt jeder unter shared/keys, und wer dort schreiben darf, kann einen dazulegen.
--shop   vergleicht zuerst den Server des Betriebs mit diesem Ordner, Zeile für Zeile und Datei für Datei; übergeben wird nichts

Beispiele:
  pinchrod verify
  pinchrod verify pier-house P02-1 --json
  pinchrod verify pier-house.zip
Rückgabewerte: 0 alles stimmt, 1 etwas nicht, 2 falsch aufgerufen oder nichts mit diesem Namen, 3 eine Datei war nicht zu lesen.`,

  key: `pinchrod key new [--anew] | show | replace | accept FINGERPRINT [--bench NAME] | withdraw KEY --why lost|exposed
       (FINGERPRINT: 64 Hex-Ziffern; KEY: die ersten 16 davon)

Ein Schlüssel gilt nur, wenn das Register ihn einführt. Der erste Schlüssel der Werkstatt führt sich selbst ein: seinen
Fingerabdruck auf Papier schreiben. Jeden weiteren führt einer ein, der schon gilt.

new       macht einen Ed25519-Schlüssel für diese Werkbank. Sobald er gilt, wird jedes Fenster signiert, das hier fertig wird.
          Der private Teil liegt in keys/, nur für das eigene Konto lesbar: Er wird nie gezeigt, archiviert oder verschickt.
          Eine Kopie dort verwahren, wo sonst niemand hinkommt. Der öffentliche Teil liegt in shared/keys/ und darf an jeden
          gehen. --anew: wenn nirgends mehr ein privater Schlüssel ist, der gilt; das Register der Schlüssel beginnt mit
          diesem neu, und wer Dokumente liest, muss davon erfahren.
show      der Schlüssel dieser Werkbank, die anderen, die gelten, und die, die auf Annahme warten.
replace   macht einen neuen Schlüssel für diese Werkbank, den der alte einführt; der alte wird zurückgezogen.
accept    an einer Werkbank, deren Schlüssel gilt: lässt den Schlüssel einer anderen Werkbank gelten. Den Fingerabdruck
          tippen, den deren Bildschirm zeigt; mit --bench, wenn der Schlüssel schon in shared/keys liegt.
withdraw  was dieser Schlüssel bis jetzt signiert hat, gilt weiter; was er von jetzt an signiert, gilt nicht.

Wer diesem Ordner nicht traut, bekommt den Fingerabdruck auf Papier: pinchrod verify --trust FINGERPRINT.

Beispiel: pinchrod key new
Rückgabewerte: 0 getan, 2 falsch aufgerufen, oder den Schlüssel gibt es schon oder er ist nicht zu gebrauchen, 3 die Platte
hat versagt.`,

  shop: `pinchrod shop init|join|status|publish|take|resume|leave|copy|remove [WORD] [--by PERSON] [--reason TEXT] [--bench NAME]
       [--service NAME] [--moved] [--drop] [--json]

Mehrere Werkbänke, die sich einen PostgreSQL-Server teilen (13 oder neuer). Jede arbeitet auf ihrer eigenen Platte und übergibt,
was dort eingegeben wurde; ist die Leitung aus, arbeitet sie weiter. Wo der Server ist, sagen PGHOST, PGPORT, PGDATABASE, PGUSER
und PGPASSWORD, oder PGSERVICE (oder --service) mit einer Service-Datei. Zu einem anderen Rechner ist die Leitung verschlüsselt
und das Zertifikat des Servers wird geprüft, wenn PGSSLMODE nichts anderes sagt.

  init     legt den Betrieb in der Datenbank an, veröffentlicht die Dateien dieser Werkstatt und nimmt teil; noch einmal
           aufgerufen, bringt es ihn auf den neuen Stand
  join     nimmt mit diesem Ordner teil, der leer sein darf, unter --bench oder dem Namen, den die Werkstatt für die Werkbank
           hat; hinein kommt, wer das Passwort des Servers hat. --moved: Es ist der eigene Ordner der Werkbank, er ist
           umgezogen oder wurde aus einer Kopie wiederhergestellt
  status   wie es um Leitung, Server und diesen Ordner steht
  publish  gibt die Dateien der Werkstatt, wie sie hier sind, an jede Werkbank, mit --by und --reason; wer veröffentlicht, tippt
           die eigene PIN, falls vorhanden. --drop nimmt stattdessen das Veröffentlichte; das Eigene kommt nach shop/dropped
  take     nimmt UNIT der Werkbank ab, die es hat, mit einem Grund; was dort inzwischen eingegeben wird, bleibt als Zweig
  resume   nachdem der Server wiederhergestellt wurde: macht ohne die Werkbänke weiter, die sich nicht gemeldet haben
  leave    übergibt alles und macht den Ordner zu einer Werkstatt für sich
  remove   der Eigentümer nimmt JOB endgültig vom Server; dass der Auftrag da war und wie weit er kam, bleibt stehen
  copy     schreibt den ganzen Betrieb in den leeren Ordner DIR, als Werkstatt für sich; lesen zu dürfen genügt

Beispiele:
  PGHOST=shopserver PGDATABASE=shop pinchrod shop init --by ot
  pinchrod shop take P02-1 --by ot --reason "bench-2 is out of order"
Rückgabewerte: 0 getan, 1 etwas stimmt nicht, 2 falsch aufgerufen oder abgelehnt, 3 der Server oder die Festplatte hat versagt.`,

  register: `pinchrod register [--json] | pinchrod register accept --by PERSON --reason TEXT

Wie weit das Register jeder Werkbank ist, und der Schlüssel, durch den alle anderen gelten. Eine Werkbank trägt die letzte Zeile
jedes Journals ein, das sie öffnet, anhält, verlässt, schließt oder versiegelt, und nach jeder Minute Arbeit; pinchrod verify
vergleicht die Journale damit und nennt, was abgeschnitten, geleert, zurückgesetzt, entfernt oder neu geschrieben wurde.

accept   nachdem die Werkstatt aus einer Kopie wiederhergestellt wurde: Wer freigeben darf (und die eigene PIN tippt, falls
         vorhanden), erkennt an, was da ist. Vorher wird gesagt, was das ist. Der Eintrag bleibt, und verify nennt ihn von da an.

Beispiel: pinchrod register accept --by ot --reason "disk failed, copy of Monday night"
Rückgabewerte: 0 getan, 1 nichts anzuerkennen, oder es geht nicht, 2 falsch aufgerufen, 3 die Festplatte hat versagt.`,

  seal: `pinchrod seal JOB

Versiegelt einen Auftrag, in dem jedes Fenster fertig oder verschrottet ist: ein Hash über die Journale der Fenster der Reihe
nach, signiert mit dem Schlüssel dieser Werkbank, wenn sie einen hat, in logs/JOB/job.seal.json. Ein geschlossenes Fenster, das
noch nicht signiert ist (geschlossen, bevor es einen Schlüssel gab), wird zuerst signiert. pinchrod verify prüft das Siegel von
da an; auch Zeilen, die am Ende eines Journals abgeschnitten wurden, fallen auf.

Beispiel: pinchrod seal pier-house
Rückgabewerte: 0 versiegelt, 1 Fenster sind offen oder ein Journal ist nicht in Ordnung, 2 falsch aufgerufen, 3 die Platte hat
versagt.`,

  archive: `pinchrod archive JOB [--out FILE] [--remove]

Packt einen Auftrag in eine ZIP-Datei: Journale, Siegel, Belege, das, wonach die Fenster gebaut wurden, öffentliche Schlüssel,
die Beschreibung des Formats, das Protokoll jedes Fensters und des Auftrags als Text, HTML, JSON, CSV und PDF, und MANIFEST,
eine Liste von Hashes (auspacken, dann: sha256sum -c MANIFEST). Die Datei wird zurückgelesen und geprüft. Ohne --out ist es
JOB.zip im aktuellen Ordner. Aus der Werkstatt wird nichts entfernt, außer mit --remove; dann nur ein Auftrag, in dem jedes
Fenster geschlossen ist, und erst, wenn das Archiv geprüft ist.

Beispiel: pinchrod archive pier-house --out pier-house-2026.zip
Rückgabewerte: 0 archiviert und geprüft, 1 etwas stimmt nicht, 2 falsch aufgerufen, 3 die Festplatte hat versagt.`,

  feed: `pinchrod feed UNIT [--person ID]

Liest von der Standardeingabe in jeder Zeile eine Aktion als JSON und antwortet auf jede mit einer Zeile JSON. Eine Antwort hat
"ok"; dazu "events" (was geschrieben wurde, nach Nummer und Art), "verdict" (einer Antwort: pass, fail oder not-proven) und
"next" (die Prüfung, die jetzt gefragt wird, bei einer Reihe auch der Messwert), oder "refused" (id, text, todo), oder "ask"
(wohl falsch abgelesen: dieselbe Aktion noch einmal mit "confirmed": true senden, wenn sie stimmt).

Der letzte Messwert einer Reihe schließt sie ab. Ein Messgerät bleibt in der Hand, bis ein anderes genannt wird; eines, das
nicht misst, was gefragt ist, wird abgelehnt. Ein zweiter Name bestätigt sich selbst, einmal je Abschnitt ("confirm": mit
eigener "pin", oder mit eigenem "code", wo es keine gibt).

Auch Einrichtungen werden hier geprüft und beendet ("first-off", "end-setup", "snag-setup"), und ein Fenster, das eine Werkbank
gesperrt zurückließ, wird übernommen ("take-over"), wie an der Werkbank. Ein Beleg wird mit seinem Pfad genannt, oder mit
"newest" die neueste Datei im Ordner „inbox“.

Beispiel:
  printf '%s\\n' '{"do":"person","person":"jb"}' '{"do":"answer","check":"order.papers/revision","value":"yes"}' | pinchrod feed P02-1

Das JSON-Schema der Aktionen ist shared/schemas/action.json.
Rückgabewerte: 0 jede Zeile wurde genommen, 1 eine Zeile wurde abgelehnt oder es wurde zurückgefragt, 2 falsch aufgerufen oder
eine Zeile ist keine Aktion, 3 die Festplatte hat versagt.`,

  setup: `pinchrod setup [list | first-off SETUP | end SETUP REASON] [--json]
       first-off: --person ID [--instrument ID ...] --value CHECK=VALUE ... [--confirmed] [--note TEXT] [--snag]
       end:       --person ID [--note TEXT]; REASON: shift-end, blade-changed, tool-changed, knock, moved, other

Ohne Wort oder mit „list“: wie es um jede Einrichtung aus shared/setups.yaml steht und was ihr Erststück verlangt. Ein Erststück
sind alle seine Prüfungen auf einmal; besteht eine nicht, werden die Fenster genannt, die seit dem letzten guten gemacht wurden,
und --snag meldet an jedem einen Mangel.

Beispiel: pinchrod setup first-off drill --person jb --instrument C1 --value jig=yes --value bushes=yes --value hole=100
Rückgabewerte: 0 getan, 1 das Erststück wurde nicht bestanden oder abgelehnt, oder es wurde zurückgefragt, 2 falsch aufgerufen,
3 die Festplatte hat versagt.`,

  revise: `pinchrod revise UNIT [--person ID --reason TEXT --yes] [--json]

Zeigt, was die jetzigen Dateien der Werkstatt an einem begonnenen Fenster wieder öffnen würden und warum. Mit --yes gelten diese
Dateien für das Fenster: Schritte, die getan sind und jetzt anders beurteilt werden (ein Wert, ein Grenzwert, die Art des
verlangten Messgeräts, die Regel der Beurteilung, die Reihenfolge der Arbeit), sind noch einmal zu machen, mit allem, was darauf
beruht; das Übrige bleibt getan. Hat sich der Auftrag geändert, sind die Auftragsprüfung und was einmal für den Auftrag gefragt
wird neu zu beantworten und freizugeben. Andere Worte öffnen nichts. Nötig ist das Recht zur Freigabe, und die PIN, wo es eine
gibt: ohne Terminal als Zeile der Eingabe.
„pinchrod board“ sagt, welche Fenster nach anderen Dateien als den jetzigen gebaut werden.

Beispiel: pinchrod revise P02-1 --person ot --reason "revision C: height 704" --yes
Rückgabewerte: 0 gezeigt oder getan, 1 abgelehnt, 2 falsch aufgerufen, 3 die Festplatte hat versagt.`,

  person: `pinchrod person pin ID [--by WHO] | pinchrod person erase ID --by WHO | pinchrod person move-pins

pin        setzt eine PIN, zweimal getippt; wer schon eine hat, tippt sie zuerst, oder WHO die eigene. PINs stehen, als Hash, in
           keys/pins.json
erase      löscht Namen und Kürzel einer Person, die gegangen ist, aus allem, was Fenster festhalten: Die Protokolle zeigen von
           da an die ID und „Name gelöscht“. Kein Journal ändert sich. Erst die Person aus shared/people.yaml herausnehmen
move-pins  holt die PINs einer älteren Werkstatt aus shared/people.yaml heraus

WHO braucht Stufe 5 (darf abnehmen) und tippt die eigene PIN, falls vorhanden. Ohne Terminal sind PINs Zeilen der Eingabe.

Beispiel: pinchrod person erase tf --by ot
Rückgabewerte: 0 getan, 1 abgelehnt, 2 falsch aufgerufen, 3 die Festplatte hat versagt.`,

  daybook: `pinchrod daybook [received|sent|agreed|action|limits|chart|strike ...] --by PERSON [--on TAG] [--json]
  received --supplier NAME --note NUMMER --lot CHARGE [--lot ...] [--certificate TEXT]  Ware kam herein
  sent FENSTER|AUFTRAG ... --customer NAME --note NUMMER                                Fenster gingen hinaus
  agreed FENSTER --snag NUMMER --customer NAME --how TEXT [--refused]                   was der Kunde zu einem Mangel sagt
  action --against URSACHE|PRÜFUNG --what TEXT         was getan wird, damit es nicht wieder vorkommt
  limits --reason TEXT                                 PERSON steht für shared/limits.yaml ein, wie es ist, und sagt warum
  chart PRÜFUNG --reason TEXT                         Grenzen einer Karte, wie ihre Messwerte sie jetzt geben
  strike EINTRAG --reason TEXT                         ein Eintrag war falsch

Ohne ein Wort zeigt es das Buch. Einträge sind verkettet wie ein Journal, und keiner ändert sich je; Verzeichnisse nennen sie neben
dem, was die Fenster sagen (pinchrod ledger --help). Wer die Arbeit allein tun darf, schreibt received und sent, wer freigeben darf,
alles andere, mit der eigenen PIN, falls vorhanden; ohne Terminal ist sie eine Zeile der Eingabe.

Beispiel: pinchrod daybook received --supplier "Harbour Extrusions" --note 4711 --lot B-12 --certificate "3.1, 88213" --by mv
Rückgabewerte: 0 gezeigt oder geschrieben, 1 abgelehnt, oder das Buch ist nicht in Ordnung, 2 falsch aufgerufen, 3 die Festplatte hat
versagt.`,

  ledger: `pinchrod ledger VERZEICHNIS [--from TAG] [--to TAG] [--job AUFTRAG] [--initials] [--paper a4|letter]
       [--language en|de] [--format text|html|pdf|csv|json] [--out DATEI] [--separator comma|semicolon|tab] [--decimal .|,] [--bom]

Ein Verzeichnis über alle Fenster, oder die eines Auftrags, nach Tagen (beide eingeschlossen). VERZEICHNIS ist:
  nonconformities  was nicht bestand, Sonderfreigaben, noch einmal Gemachtes, mit Grund, Ursache, wessen Wiederholung es ist
                   und was der Kunde sagte
  actions          Korrekturmaßnahmen, und wie oft es davor und seither vorkam
  instruments      jede Kalibrierung, unter der ein Messgerät benutzt wurde, von wann bis wann, und jedes Fenster darunter;
                   Kalibrierungen der heutigen Liste, unter denen nichts gemessen wurde
  lots             jede Charge, wo sie angenommen wurde, Lieferant und Zeugnis, und die Fenster darin
  deliveries       was hereinkam und was hinausging, nach Lieferschein
  set-ups          jedes Erststück mit seinen Messwerten, und die Fenster, die darauf beruhen
  people           wer wie viel auf welcher Stufe tat, und an welchen Fenstern
  limits           was sich in shared/limits.yaml änderte, wer dafür einsteht, warum, und die Fenster danach
  complaints       was nach dem Abschluss eines Protokolls geschrieben wurde
  releases         jede Freigabe mit der Nummer ihres Protokolls, Typprüfung, Lieferschein, und wie lange es aufzubewahren ist
Für eine Tabellenkalkulation ändern --bom, --separator und --decimal die CSV.

Beispiel: pinchrod ledger nonconformities --from 2026-03-01 --to 2026-03-31 --out maerz.pdf
Rückgabewerte: 0 geschrieben, 1 ein Journal ist nicht in Ordnung, 2 falsch aufgerufen, 3 die Festplatte hat versagt.`,

  trace: `pinchrod trace [--lot L] [--instrument I] [--person P] [--set-up S] [--procedure-version V] [--json]

Nennt jedes Fenster, das damit zu tun hatte, und die Schritte. Ist mehreres angegeben, muss alles zutreffen.

Beispiel: pinchrod trace --lot S-2611
Rückgabewerte: 0 etwas wurde gefunden, 1 nichts, 2 falsch aufgerufen oder ein Journal ist beschädigt.`,

  figures: `pinchrod figures [PRÜFUNG] [--job AUFTRAG] [--from TAG] [--to TAG] [--set SATZ] [--instrument ID] [--lot CHARGE]
       [--setup ID] [--chart ART] [--rules R1,R2,R3,R4|all] [--first N] [--low N] [--high N]
       [--format text|html|pdf|csv|json] [--out DATEI] [--paper a4|letter] [--language en|de] [--json]
       pinchrod figures --csv DATEI --value SPALTE [--subgroup SPALTE] [--of SPALTE] [--low N] [--high N] [...]

Was die Messwerte vieler Fenster zusammen sagen: eine Karte mit ihren Grenzen, die Punkte, die auffallen, und die Fähigkeit. Ohne
PRÜFUNG zeigt es, was gemessen wird, wie viel auf Anhieb gelingt und was am häufigsten misslingt. Mit --csv liest es eine fremde
Tabelle: eine Zeile mit Namen, dann eine Zeile je Messwert, in der Reihenfolge des Messens.

--subgroup  über Fenster: day, job, unit, setup, instrument; bei einer Tabelle: die Spalte, die die Gruppe nennt
--chart     individuals (mit gleitenden Spannweiten), für Gruppen mean mit range oder sd; p, laney für Anteile: Zeilen mit 0
            und 1 in --subgroup, oder Anzahlen mit --of, wie viele es waren
--rules     R1 einer jenseits von drei Standardabweichungen (gilt immer); R2 zwei von drei jenseits von zwei, R3 vier von fünf
            jenseits von einer, R4 acht hintereinander, je auf einer Seite. Jede bringt falschen Alarm: shared/figures.md
--first     aus den ersten N Punkten kommen die Grenzen; sie gelten für die übrigen
--low, --high  die Grenzwerte eines Messwerts, für die Fähigkeit

Beispiel: pinchrod figures --csv messwerte.csv --value diagonale --low -2 --high 2
Endet mit: 0 gezeigt, 2 falsch aufgerufen oder schlechte Tabelle, 3 Fehler beim Datenträger.`,

  study: `pinchrod study --csv DATEI --part SPALTE --person SPALTE --value SPALTE [--format text|html|pdf|json] [--out DATEI] [--json]
       pinchrod study plan --person ID --person ID ... [--parts N] [--trials N] --out DATEI; pinchrod study take DATEI --by ID
       pinchrod study --csv DATEI --value SPALTE --reference ZAHL|SPALTE [...]
       pinchrod study --csv DATEI --part SPALTE --person SPALTE --judgement SPALTE [--right SPALTE] [--paper a4|letter] [...]

Wie viel von dem, was man sieht, vom Messen kommt. Jede von mindestens zwei Personen misst jedes von mindestens zwei Teilen
mindestens zweimal: Wiederholbarkeit und Vergleichbarkeit durch Varianzanalyse und aus Spannweiten. Mit --reference die Abweichung
eines Messmittels von einem Bezugswert oder über mehrere. Mit --judgement, wie weit Urteile über Zufall hinaus übereinstimmen, und
mit --right, wie weit mit dem, was richtig ist. --language en|de. plan lost die Reihenfolge aus (ohne Angabe 10 Teile, 3
Durchgänge); take fragt die Messwerte einer Person ab, ohne frühere zu zeigen, und legt jeden ab, bevor es nach dem nächsten
fragt; eine leere Zeile unterbricht.

Beispiel: pinchrod study --csv lehre.csv --part teil --person person --value wert
Endet mit: 0 gezeigt, 2 falsch aufgerufen oder schlechte Tabelle, 3 Fehler beim Datenträger.`,

  square: `pinchrod square [--top L] [--bottom L] [--left L] [--right L] --bl-tr L --br-tl L

Was Seiten und Diagonalen eines Rahmens über seine Form sagen. Links und rechts von außen gesehen; Längen in mm mit Punkt oder
Komma. Zwei Diagonalen genügen für ihren Unterschied, zwei Seiten dazu dafür, wie weit er aus dem Winkel ist; alle sechs prüfen einander.
Wiederholung: dieselbe Option noch einmal. Grenzwerte, Messgeräte, Entscheidungsregel und Einheit sind die der Werkstatt, in der
der Befehl läuft.

  --instrument ID     Messgerät aus shared/instruments.yaml: Sein Korrekturwert kommt hinzu, seine Unsicherheit wird benutzt
  --nominal WxH       Sollmaß, für Maßfehler
  --limits A,B        IDs aus shared/limits.yaml (ohne Angabe: die des Rahmens)
  --rule RULE         simple, guarded (w = U) oder guarded:0.83 (w = 0,83 U), anstelle der Regel der Werkstatt
  --unit UNIT         mm oder inch (dezimal und Brüche: --top '39 3/8'), anstelle der Einheit der Werkstatt
  --cured             die Ecken sind ausgehärtet: Es darf nichts mit Gewalt gerichtet werden
  --confirmed         die Messwerte wurden noch einmal genommen und stimmen
  --ascii             mit einfachen Zeichen zeichnen
  --json              Zahlen als JSON

Beispiel:
  pinchrod square --top 1201 --bottom 1200 --left 1499.5 --right 1500.5 --bl-tr 1922 --br-tl 1919 --nominal 1200x1500

Rückgabewerte: 0 bestanden, 1 nicht bestanden oder nicht sicher, 2 falsch aufgerufen oder Eingabe nicht zu gebrauchen.`,

  train: `pinchrod train WHAT ...

Übung und Abnahme, getrennt von den Qualitätsprotokollen: aufbewahrt unter practice/, in eigenen, verketteten Journalen.

  squaring [--level 1|2|3] [--size WxH]    ein gedachter Rahmen mit versteckten Fehlern: messen und richten
  setout UNIT LIGHT                        ein Feld von Hand ausrechnen; gezeigt wird die erste falsche Zeile mit ihrer Rechnung
  faults UNIT [--faults N]                 Fehler an einem gedachten fertigen Fenster finden, indem man Prüfungen wählt
  memory UNIT --person ID [--minutes N]    Fragen zu den Schritten, in wachsenden Abständen
  walk UNIT --person ID [--stage STAGE]    ein Übungsdurchgang: Grund, häufige Fehler und Vorsicht offen, vor Haltepunkten Fragen
  signoff observe PERSON STAGE --by ID --text NOTE [--unit UNIT] [--set SET]
  signoff give PERSON STAGE LEVEL --by ID --set SET [--text NOTE] [--waive REASON]
  signoff withdraw PERSON STAGE --by ID --text REASON [--set SET]
  page PERSON [--html]                     was jemand darf, nach welchen Belegen, und was als Nächstes kommt
  verify                                   ob die Journale der Übungen und Abnahmen in Ordnung sind

  --seed N        dieselbe Übung noch einmal
  --person ID     das Geübte im Übungsjournal dieser Person festhalten
  --set SET       der Profilsatz, um den es geht; give braucht ihn, wo es mehrere gibt, die anderen meinen ohne ihn jeden
  --procedure P   für signoff und page, wo es mehrere gibt
  --json          in jeder Zeile ein JSON-Objekt
  --ascii         mit einfachen Zeichen zeichnen
  --plain         zeilenweise, auch in einem Terminal, das einen ganzen Bildschirm zeigen könnte

Eine Übung liest von der Standardeingabe in jeder Zeile eine Aktion; „help“ zeigt, was geht. Wer abnimmt und eine PIN hat,
tippt sie in der ersten Zeile.

Beispiel:
  printf '%s\\n' 'read bl-tr' 'read br-tl' 'flat' 'done' | pinchrod train squaring --seed 7 --level 1
Rückgabewerte: 0 getan oder bestanden, 1 nicht bestanden, abgelehnt oder nicht in Ordnung, 2 falsch aufgerufen oder Eingabe
nicht zu gebrauchen, 3 die Festplatte hat versagt.`,

  compare: `pinchrod compare OLD NEW [--json]

Was zwischen zwei Fassungen anders ist: in einer Arbeitsanweisung (Abschnitte, Schritte, Prüfungen, Haltepunkte: hinzugekommen,
entfallen, geändert oder verschoben) oder in den Grenzwerten (hinzugekommen, entfallen, mit anderem Wert, mit anderer Quelle).
Eine Fassung, die ein Protokoll festgehalten hat, ist eine Datei unter logs/sources.

Beispiel: pinchrod compare old/casement.yaml procedures/casement.yaml`,

  init: `pinchrod init DIR [--name NAME] [--place ADRESSE] [--person "ID NAME"]... [--instrument WORT]... [--language en|de] [--json]
       pinchrod init DIR --demonstration [--json]

Legt in DIR eine eigene Werkstatt an. Im Terminal wird gefragt, wie sie heißt und wo sie ist, wer dort arbeitet, welche Messgeräte
in der Schublade liegen und welche Sprache die Werkbank spricht; jede Antwort kann statt dessen als Option stehen. Die erste Person
leitet die Werkstatt, und jeder setzt seine PIN selbst. Profilsätze, Arbeitsanweisungen, Grenzwerte, Einrichtungen und ein kleiner
Auftrag sind dabei; die Zahlen der Sätze sind erfunden.

--instrument     eines aus der Liste, die gefragt wird (tape, rule, calliper ...), oder all; auch mehrmals
--demonstration  die erfundene Werkstatt mit Personen, Messgeräten und Aufträgen, wie "pinchrod demo" sie öffnet

Nichts, was da ist, wird überschrieben.

Beispiel: pinchrod init my-workshop --name "Fenster am Kai" --person "jb Joan Bexley" --instrument all
Rückgabewerte: 0 angelegt, 2 falsch aufgerufen oder der Ordner ist nicht frei, 3 die Festplatte hat versagt.`,

  new: `pinchrod new set|job|procedure|instrument NAME [--set SATZ] [--procedure ANWEISUNG] [--json]
       pinchrod new set NAME [--face N] [--floor N] [--edge N] [--cover N] [--bead N] [--window BxH] [--json]

Schreibt eine Datei zum Anfangen, Zeile für Zeile erklärt, die so schon läuft: die erfundenen Zahlen durch die eigenen ersetzen.
Für einen Satz fragt es in einem Terminal nach fünf Maßen eines Festfelds und einem Fenster zum Ausprobieren, und fängt dafür
auch einen Auftrag und eine Arbeitsanweisung an; jede Antwort kann stattdessen eine Option sein. Ein Auftrag nimmt den genannten
Satz und die genannte Arbeitsanweisung; sonst die, die heißen wie er; sonst die des ersten Auftrags der Werkstatt. Ein Messgerät
kommt ans Ende von shared/instruments.yaml. Nichts, was da ist, wird überschrieben.

Beispiel: pinchrod new set own --face 54 --floor 22 --edge 4 --cover 18 --bead 20 --window 900x1200`,

  demo: `pinchrod demo [--unattended [UNIT | JOB]]

Kopiert die Vorführwerkstatt in einen vorübergehenden Ordner und öffnet dort die Werkbank. Mit --unattended baut das Programm
selbst ein Fenster (P02-1, wenn keines genannt ist) oder alle Fenster eines Auftrags als Serie, von der ersten Prüfung bis zum
geschlossenen Protokoll, mit denselben Tasten, Regeln und Journalen wie an der Werkbank. Es zeigt, was geschieht, prüft das
Journal und schreibt das Protokoll. Das Fenster und jeder Messwert sind erfunden.

Beispiel: pinchrod demo --unattended P03-1`,

  messages: `pinchrod messages [ID] [--json]

Jede Meldung mit ihrer ID: was im Allgemeinen nicht stimmt, und was zu tun ist.

Beispiel: pinchrod messages file.schema`,
};

/** A line for each verb. */
const VERB_SAYS_GERMAN: Readonly<Record<string, string>> = {
  bench: 'die Werkbank öffnen (wie ganz ohne Verb)',
  board: 'die Fenster und wie sie stehen',
  setout: 'jedes Maß und jeder Anriss eines Auftrags, und warum',
  lint: 'die Dateien der Werkstatt prüfen',
  record: 'Qualitätsprotokoll eines Fensters oder Auftrags',
  label: 'Etiketten für Fenster und Teile',
  verify: 'prüfen, ob die Journale vollständig und unverändert sind',
  key: 'der Schlüssel dieser Werkbank',
  register: 'wie weit die Journale gekommen waren; eine Wiederherstellung anerkennen',
  shop: 'mehrere Werkbänke an einem Server: anlegen, beitreten, Stand, veröffentlichen, übernehmen',
  person: 'PINs, und einen Namen löschen',
  seal: 'einen fertigen Auftrag unterschreiben und versiegeln',
  archive: 'ein Auftrag mit allen Protokollen in einer Datei',
  feed: 'aus einem Skript handeln: eine JSON-Aktion je Zeile',
  setup: 'Einrichtungen: wie sie stehen, Erststücke, was sie beendet',
  revise: 'ein begonnenes Fenster auf die heutigen Dateien umstellen',
  daybook: 'Lieferungen, Wort des Kunden, Korrekturmaßnahmen, warum ein Grenzwert sich änderte',
  ledger: 'Verzeichnisse über Fenster: Abweichungen, Messgeräte, Chargen ...',
  trace: 'welche Fenster eine Charge, ein Messgerät oder eine Person betraf',
  figures: 'Karten, Fähigkeit und Ausbeute über viele Fenster oder eine Tabelle',
  study: 'was das Messen zu dem beiträgt, was man sieht: Messmittel und Urteile',
  square: 'Rechner für die Rechtwinkligkeit eines Rahmens',
  train: 'Übungen, Merkfragen, Übungsdurchgang und Abnahme',
  compare: 'was sich zwischen zwei Arbeitsanweisungen oder Grenzwertdateien geändert hat',
  init: 'einen neuen Werkstattordner anlegen',
  new: 'einen Profilsatz, Auftrag, eine Arbeitsanweisung, ein Messgerät anfangen',
  demo: 'die Werkbank mit einer Kopie der Vorführwerkstatt öffnen',
  messages: 'die Tabelle aller Meldungen und was zu tun ist',
};

export const GERMAN_HELPS: Helps = {
  help: HELP_GERMAN,
  says: VERB_SAYS_GERMAN,
  frame: {
    start: 'Ohne Verb öffnet sich die Werkbank in diesem Terminal.',
    more: 'pinchrod VERB --help sagt mehr. Beispiel: pinchrod setout pier-house P02-1',
    codes:
      'Rückgabewerte: 0 getan, 1 Prüfung nicht bestanden, 2 falsche Benutzung oder Eingabe, 3 die Festplatte oder ein anderes Betriebsmittel hat versagt.',
  },
};
