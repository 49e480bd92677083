/** The server room's words in German. */
import type { Translation } from '../base/words.js';
import type { SERVER_MESSAGES } from './messages.js';

export const SERVER_GERMAN: Translation<typeof SERVER_MESSAGES> = {
  'shop.service': 'In keiner Service-Datei steht „{ $service }“: { $files }.',
  'shop.service.todo':
    'In ~/.pg_service.conf einen Abschnitt [NAME] mit host=, port=, dbname=, user= anlegen oder PGSERVICEFILE setzen.',
  'shop.setting': '„{ $mode }“ ist kein Wert für PGSSLMODE.',
  'shop.setting.todo':
    'Die Einstellung berichtigen: PGPORT ist eine Zahl, PGSSLMODE eines von disable, require, verify-ca, verify-full.',
  'shop.setting/cannot': '{ $path } lässt sich nicht lesen ({ $key }).',
  'shop.setting/port': '„{ $port }“ ist kein Port.',
  'shop.unreachable': 'Der Server hat noch nicht geantwortet.',
  'shop.unreachable.todo':
    'Nachsehen, ob der Server läuft und die Leitung steht; PGHOST und PGPORT sagen, wo er ist. Die Werkbank arbeitet solange weiter.',
  'shop.unreachable/server': 'Der Server hat die Verbindung geschlossen.',
  'shop.unreachable/connection': 'Die Verbindung wurde hier geschlossen.',
  'shop.unreachable/nothing': 'Unter { $host }:{ $port } antwortet nichts ({ $code }).',
  'shop.unreachable/fault': '{ $fault }',
  'shop.login': 'Der Server verlangt ein Passwort, und es ist keines angegeben.',
  'shop.login.todo':
    'PGUSER und das Passwort (PGPASSWORD, PGPASSFILE oder ~/.pgpass) prüfen, dann noch einmal versuchen.',
  'shop.login/fault': '{ $fault }',
  'shop.no-database': '{ $fault }',
  'shop.no-database.todo': 'PGDATABASE prüfen oder die Datenbank anlegen lassen: createdb NAME.',
  'shop.no-shop': 'In der Datenbank ist kein Betrieb.',
  'shop.no-shop.todo':
    'PGDATABASE prüfen. Der Eigentümer der Datenbank legt dort einen Betrieb an: pinchrod shop init.',
  'shop.no-shop/fault': '{ $fault }',
  'shop.there-already': 'In der Datenbank ist schon ein Betrieb.',
  'shop.there-already.todo': 'Nichts wurde geändert. Eine Werkbank nimmt daran teil mit: pinchrod shop join.',
  'shop.too-old': 'Auf diesem Server läuft PostgreSQL { $text }.',
  'shop.too-old.todo': 'Den Server auf PostgreSQL 13 oder neuer bringen lassen.',
  'shop.newer':
    'Die Datenbank des Betriebs hat die Fassung { $form }; dieses Programm kennt die Fassung { $newest }.',
  'shop.newer.todo': 'Alles lässt sich ansehen. Um von hier zu übergeben, die neuere Version installieren.',
  'shop.older':
    'Die Datenbank des Betriebs hat die Fassung { $form }; dieses Programm braucht die Fassung { $newest }.',
  'shop.older.todo': 'Der Eigentümer der Datenbank bringt sie auf den neuen Stand: pinchrod shop init.',
  'shop.certificate': '{ $fault }',
  'shop.certificate.todo':
    'PGSSLROOTCERT auf die Datei der Stelle setzen, die das Zertifikat signiert hat, und PGHOST auf den Namen, für den es gilt. Wer den Server betreut, schaltet ssl ein.',
  'shop.no-right': '{ $fault }',
  'shop.no-right.todo':
    'Das dem Eigentümer der Datenbank überlassen, oder den Benutzer in die Rolle aufnehmen lassen, die es darf: pinchrod_bench, pinchrod_office oder pinchrod_auditor.',
  'shop.refused': 'Der Austausch brach ab: { $error }.',
  'shop.refused.todo':
    'Nichts ist verloren: Es steht auf dieser Platte. Die Meldung an die Person weitergeben, die den Server betreut.',
  'shop.refused/fault': '{ $fault }',
  'shop.server-full': '{ $fault }',
  'shop.server-full.todo':
    'Hier geht die Arbeit weiter; übergeben wird, wenn dort wieder Platz ist. Der Person Bescheid geben, die den Server betreut.',
  'shop.not-joined': 'Dieser Ordner nimmt an keinem Betrieb teil.',
  'shop.not-joined.todo': 'Teilnehmen mit: pinchrod shop join --by ID.',
  'shop.not-joined/shop':
    'Der Betrieb „{ $card }“ kennt diesen Ordner nicht, oder der Ordner hat ihn verlassen.',
  'shop.joined-already': 'Dieser Ordner nimmt schon am Betrieb „{ $before }“ teil, als { $bench }.',
  'shop.joined-already.todo': 'pinchrod shop status zeigt, wie es steht; pinchrod shop leave beendet es.',
  'shop.other-shop': 'Auf dem Server ist der Betrieb „{ $shop }“.',
  'shop.other-shop.todo': 'Nichts wurde übergeben. PGHOST, PGDATABASE und PGSERVICE prüfen.',
  'shop.other-shop/server':
    'Auf dem Server ist der Betrieb „{ $shop }“; dieser Ordner nimmt an „{ $card }“ teil.',
  'shop.bench-taken': 'Unter dem Namen „{ $bench }“ nimmt schon ein anderer Ordner teil, oder er tat es.',
  'shop.bench-taken.todo': 'Dieser Werkbank einen eigenen Namen geben: pinchrod shop join --bench NAME.',
  'shop.bench-taken/takes': 'Unter dem Namen „{ $bench }“ nimmt schon ein anderer Ordner teil.',
  'shop.bench-name': 'Der Ordner ist noch keine Werkstatt; die Werkbank hat hier noch keinen Namen.',
  'shop.bench-name.todo': 'Den Namen angeben: --bench NAME.',
  'shop.bench-name/cannot': '„{ $bench }“ kann nicht der Name einer Werkbank sein.',
  'shop.bench-name/cannot.todo':
    'Buchstaben, Ziffern, „.“, „-“ und „_“ verwenden, am Anfang einen Buchstaben oder eine Ziffer.',
  'shop.journal-differs':
    'Das Journal ist nicht das, das der Betrieb hat, und lässt sich nicht als Zweig aufbewahren.',
  'shop.journal-differs.todo':
    'Davon wurde nichts übergeben. Hier und an einer anderen Werkbank pinchrod verify ausführen; es zählt das Journal, das unbeschädigt ist.',
  'shop.journal-differs/other': '{ $shown } hat hier andere Zeilen als im Betrieb.',
  'shop.journal-differs/other-lines': '{ $file } hat hier andere Zeilen als im Betrieb.',
  'shop.journal-differs/journal': 'Das Journal ist nicht das, das der Betrieb hat.',
  'shop.journal-damaged': 'Das Journal ist hinter den Zeilen beschädigt, die der Server hat.',
  'shop.journal-damaged.todo':
    'pinchrod verify ausführen und das Journal aus einer Kopie dieses Ordners wiederherstellen; der Rest wird trotzdem übergeben.',
  'shop.copied': 'Dieser Ordner liegt nicht dort, wo { $bench } zu Beginn der Teilnahme lag.',
  'shop.copied.todo':
    'Ist er eine Kopie: unter eigenem Namen teilnehmen, pinchrod shop join --bench NAME. Wurde der Ordner verschoben: pinchrod shop join --moved.',
  'shop.branched': 'Inzwischen hat eine andere Werkbank an { $unit } gearbeitet.',
  'shop.branched.todo':
    'Von dem, was hier eingegeben wurde, gilt nichts, bis die Werkbank, die das Fenster hat, über den Mangel dazu entscheidet. pinchrod record JOB/UNIT~1 zeigt es.',
  'shop.branched/another':
    'Inzwischen hat eine andere Werkbank an dem Fenster gearbeitet: Was hier eingegeben wurde, steht jetzt in { $units }.',
  'shop.line-broken': 'Auf dem Server hält die Kette von { $shown } nicht.',
  'shop.line-broken.todo':
    'Es wurde nicht übernommen. pinchrod verify --shop ausführen. Den Server aus einer Sicherung wiederherstellen, oder wer ihn betreut, löscht die Datensätze dieses Journals: Die Werkbänke übergeben sie dann noch einmal.',
  'shop.line-broken/line': 'In { $place } passt eine Zeile nicht hinter Zeile { $cursor }.',
  'shop.content-changed': '{ $path } passt nicht zu seinem Hash.',
  'shop.content-changed.todo':
    'Es wurde nicht übernommen. pinchrod verify --shop ausführen und den Server aus einer Sicherung wiederherstellen.',
  'shop.content-changed/file': 'Die Datei { $sha256 } passt nicht zu ihrem Hash.',
  'shop.content-changed/path': '„{ $path }“ ist kein Pfad einer aufbewahrten Datei.',
  'shop.content-changed/file-what': 'Die Datei { $path } ist nicht, was ihr Name sagt.',
  'shop.content-changed/path-workshop': '„{ $wrong }“ ist kein Pfad einer Datei der Werkstatt.',
  'shop.lines-lost': 'Der Server hatte von { $journal } { $known } Zeilen, jetzt hat er { $tips }.',
  'shop.lines-lost.todo':
    'Die Werkbänke haben sie: Die nächste, die sich verbindet, übergibt sie wieder. Bei der Person nachfragen, die den Server betreut, was dort geschehen ist.',
  'shop.not-empty': '{ $root } ist nicht leer.',
  'shop.not-empty.todo': 'Einen Ordner nennen, der leer ist oder den es noch nicht gibt.',
  'shop.leased': '{ $bench } hat { $unit }.',
  'shop.leased.todo': 'Das Fenster dort schließen (F2) oder übernehmen: pinchrod shop take UNIT.',
  'shop.leased/other': 'Eine andere Werkbank hat { $unit }.',
  'shop.leased/no-line': '{ $bench } hat { $unit }.',
  'shop.leased/no-line.todo':
    'Die Leitung ist aus: Zu sehen ist der Stand von zuletzt. Zu haben ist das Fenster, wenn die Leitung wieder da ist.',
  'shop.leased/asked': '{ $unit } ging an eine andere Werkbank, die danach gefragt hat.',
  'shop.not-held': 'Keine andere Werkbank hat { $unit }.',
  'shop.not-held.todo': 'Einfach öffnen; zu übernehmen ist nichts.',
  'shop.no-job': '„{ $job }“ kann nicht der Name eines Auftrags sein.',
  'shop.no-job.todo': 'pinchrod board zeigt die Aufträge.',
  'shop.no-job/server': 'Der Server hat kein Journal von „{ $job }“.',
  'shop.no-unit': 'Es gibt kein Fenster „{ $unit }“.',
  'shop.no-unit.todo':
    'pinchrod board zeigt die Fenster; gibt es den Namen in mehreren Aufträgen: als JOB/UNIT angeben.',
  'shop.setback':
    'Der Server wurde auf einen früheren Stand zurückgesetzt; seither haben sich noch nicht gemeldet: { $benches }.',
  'shop.setback.todo':
    'Jede Werkbank einmal verbinden, oder der Eigentümer der Datenbank macht ohne sie weiter: pinchrod shop resume --reason TEXT.',
  'shop.files-changed': 'Hier geändert und nicht veröffentlicht: { $files }.',
  'shop.files-changed.todo':
    'pinchrod shop publish gibt sie an alle weiter; pinchrod shop publish --drop nimmt die veröffentlichten und legt die eigenen beiseite.',
  'shop.files-changed/more': 'Hier geändert und nicht veröffentlicht: { $files } und { $more } weitere.',
  'shop.edition-passed': 'Inzwischen wurde Ausgabe { $n } veröffentlicht.',
  'shop.edition-passed.todo':
    'Die veröffentlichten Dateien nehmen, pinchrod shop publish --drop; die eigenen bleiben unter shop/dropped. Die Änderung noch einmal machen und veröffentlichen.',
};
