/** The measure room's words in German. */
import type { Translation } from '../base/words.js';
import type { MEASURE_MESSAGES } from './messages.js';
import type { MEASURE_WORDS } from './words.js';

export const MEASURE_GERMAN: Translation<typeof MEASURE_MESSAGES & typeof MEASURE_WORDS> = {
  'measure.reading-empty': 'Es wurde nichts getippt.',
  'measure.reading-empty.todo': 'Die Zahl tippen, die das Messgerät zeigt.',
  'measure.reading-unclear': '„{ $typed }“ ist keine einzelne Zahl.',
  'measure.reading-unclear.todo':
    'Die Zahl noch einmal tippen: Ziffern, und vor den Nachkommastellen ein Punkt oder Komma.',
  'measure.reading-ambiguous': '„{ $typed }“ lässt sich auf zwei Arten lesen: Es enthält zwei Trennzeichen.',
  'measure.reading-ambiguous.todo':
    'Ohne Tausenderzeichen tippen, mit einer, zwei oder vier Nachkommastellen.',
  'measure.reading-ambiguous/space':
    '„{ $typed }“ lässt sich auf zwei Arten lesen: Es kann eine Zahl sein oder zwei.',
  'measure.reading-ambiguous/thousand':
    '„{ $typed }“ lässt sich auf zwei Arten lesen: als { $whole }{ $part } oder als { $whole } und { $part } Tausendstel.',
  'measure.reading-ambiguous/thousand.todo':
    '{ $whole }{ $part } tippen, oder { $small }, wenn die kleine Zahl gemeint ist.',
  'measure.reading-unit': '„{ $typed }“ ist in { $unit }; hier wird in { $wanted } gemessen.',
  'measure.reading-unit.todo': 'Das Messgerät auf { $wanted } stellen und noch einmal ablesen.',
  'measure.reading-fraction': '„{ $typed }“ ist kein Bruchteil eines Zolls, den ein Maßstab zeigt.',
  'measure.reading-fraction.todo':
    'Ganze Zoll schreiben, ein Leerzeichen, dann den Bruch, von Halben bis zu Vierundsechzigsteln: 48 3/16.',
  'measure.reading-fraction/unit': '„{ $typed }“ ist ein Bruch; nur Zoll lassen sich so angeben.',
  'measure.reading-fraction/unit.todo': 'Den Messwert als Dezimalzahl tippen.',
  'measure.reading-range': '„{ $typed }“ ist zu groß für einen Messwert.',
  'measure.reading-range.todo': 'Noch einmal auf das Messgerät sehen und die Zahl tippen, die es zeigt.',
  'measure.limit-no-source': '{ $id } hat keine Quelle.',
  'measure.limit-no-source.todo':
    'source ergänzen: { "{" }kind: published, manual, house-rule, common-practice oder memory; text: wo es steht{ "}" }.',
  'measure.limit-value': '{ $id } hat Größenbereiche (bands) und dazu einen eigenen Wert.',
  'measure.limit-value.todo':
    'Eines von within, most, least oder between angeben, entweder für den Grenzwert oder für jeden seiner Größenbereiche.',
  'measure.limit-value/does': '{ $id } sagt nicht, was zulässig ist, oder sagt es zweimal.',
  'measure.limit-bands': '{ $id }: Dieser Größenbereich steht nicht an seinem Platz.',
  'measure.limit-bands.todo': 'Die Bereiche von klein nach groß ordnen; nur beim letzten darf upto fehlen.',
  'measure.instrument-twice': '{ $given } steht zweimal da.',
  'measure.instrument-twice.todo':
    'Jedem Messgerät eine eigene id geben; große und kleine Buchstaben gelten als gleich.',
  'measure.instrument-error': '{ $given } hat weder class noch maxError.',
  'measure.instrument-error.todo':
    'class (bei Bandmaßen) oder maxError angeben, wie es auf dem Messgerät oder in seinem Kalibrierschein steht.',
  'measure.instrument-dates': '{ $given } ist am { $due } fällig, und das ist vor der letzten Kalibrierung.',
  'measure.instrument-dates.todo': 'Beide Daten nach dem Kalibrierschein berichtigen.',
  'measure.instrument-overdue': '{ $instrument } ({ $instrument2 }) war am { $due } zur Kalibrierung fällig.',
  'measure.instrument-overdue.todo':
    'Ein anderes Messgerät nehmen, oder jemand, der es darf, lässt dieses zu; das Protokoll zeigt es.',
  'measure.instrument-quantity': '{ $id } sagt nicht, was es misst, oder nicht, von wo bis wo.',
  'measure.instrument-quantity.todo':
    'measures angeben, dazu eine passende unit und range oder steps, wie es oben in shared/instruments.yaml erklärt ist.',
  'measure.instrument-quantity/unit':
    '{ $id } misst { $quantity }; das wird in { $units } abgelesen, nicht in { $unit }.',
  'measure.instrument-quantity/range': 'Der Messbereich (range) von { $id } endet vor seinem Anfang.',
  'measure.instrument-quantity/steps': 'Die Stufen (steps) von { $id } steigen nicht an.',
  'measure.reading-outside': '{ $id } zeigt { $from } bis { $to }; getippt wurde { $raw }.',
  'measure.reading-outside.todo': 'Noch einmal ablesen oder ein Messgerät nehmen, das so weit reicht.',
  'measure.reading-step': '{ $raw } ist keine Stufe von { $id }: Es gibt { $below } und { $above }.',
  'measure.reading-step.todo': 'Die größte Stufe tippen, die hineingeht, oder 0, wenn keine hineingeht.',
  'measure.reading-step/largest': '{ $raw } ist keine Stufe von { $id }: Die größte ist { $below }.',
  'measure.square-too-few': 'Das sind zu wenige Messwerte.',
  'measure.square-too-few.todo':
    'Beide Diagonalen messen; wer mehr wissen will, dazu zwei Maße oder alle vier Seiten.',
  'measure.square-too-few/none': 'Es sind keine Messwerte angegeben.',
  'measure.square-argument': '{ $fault }',
  'measure.square-argument.todo': 'Siehe pinchrod square --help.',
  'measure.square-argument/limits':
    'Keine id eines Grenzwerts dieser Werkstatt ist die eines Rahmens: mit --limits nennen, welche gelten.',
  'measure.square-argument/length': '{ $side } muss größer als null sein.',
  'measure.square-argument/instrument': 'Das Messgerät „{ $id }“ steht nicht in shared/instruments.yaml.',
  'measure.square-argument/unit': '--unit nimmt mm oder inch, nicht „{ $given }“.',
  'measure.square-argument/rule': '--rule nimmt simple, guarded oder guarded:0.83, nicht „{ $given }“.',
  'measure.square-argument/nominal':
    '--nominal nimmt eine Breite und eine Höhe, etwa 1200x1500, nicht „{ $given }“.',
  'unit-mm': 'mm',
  'unit-inch': 'Zoll',
  'unit-N': 'Newton',
  'unit-kg': 'kg',
  'unit-deg': 'Grad',
  'unit-min': 'Minuten',
  'unit-C': 'Grad Celsius',
  'unit-Nm': 'Newtonmeter',
  'unit-%': 'Prozent',
  'unit-lx': 'Lux',
  'unit-Pa': 'Pascal',
  'unit-bar': 'bar',
  'unit-µm': 'Mikrometer',
  wanted: '{ $quantity }, { $unit }',
  'wanted-kind': '{ $quantity } mit { $kinds }, { $unit }',
  'quantity-length': 'Länge',
  'quantity-gap': 'Spalt',
  'quantity-depth': 'Tiefe',
  'quantity-angle': 'Winkel',
  'quantity-mass': 'Masse',
  'quantity-force': 'Kraft',
  'quantity-torque': 'Drehmoment',
  'quantity-temperature': 'Temperatur',
  'quantity-humidity': 'Feuchte',
  'quantity-time': 'Zeit',
  'quantity-illuminance': 'Beleuchtungsstärke',
  'quantity-pressure': 'Druck',
  'quantity-coating': 'Schichtdicke',
  'kind-tape': 'Bandmaß',
  'kind-rule': 'Maßstab',
  'kind-calliper': 'Messschieber',
  'kind-feeler': 'Fühlerlehre',
  'kind-square': 'Anschlagwinkel',
  'kind-straight-edge': 'Haarlineal',
  'kind-trammel': 'Stichmaß',
  'kind-spring-balance': 'Federwaage',
  'kind-timer': 'Uhr',
  'kind-gauge': 'Lehre',
  'length-top': 'oben',
  'length-bottom': 'unten',
  'length-left': 'links',
  'length-right': 'rechts',
  'length-bl_tr': 'unten links nach oben rechts',
  'length-br_tl': 'unten rechts nach oben links',
  'corner-tl': 'oben links',
  'corner-tr': 'oben rechts',
  'corner-br': 'unten rechts',
  'corner-bl': 'unten links',
  'misread-finer':
    '{ $figure }{ $unit } ist feiner, als { $id } anzeigt: Die kleinste Stufe ist { $step }{ $unit }.',
  'misread-other-instrument':
    'Wurde ein anderes Messgerät abgelesen? Dieses scannen und den Messwert noch einmal tippen.',
  'misread-repeat':
    'Beim Wiederholen weichen die Messwerte um { $apart }{ $unit } voneinander ab; üblich ist { $usual }. Beide noch einmal messen.',
  'misread-read': 'Abgelesen: { $figures }.',
  'misread-hook':
    'So sieht es aus, wenn der Haken abgerutscht ist oder an der Ecke eine andere Kante genommen wurde.',
  'misread-far':
    '{ $figure }{ $unit } weicht um { $apart }{ $unit } vom erwarteten Wert { $expected } ab. Noch einmal messen oder bestätigen.',
  'misread-slip': '{ $figure }: { $slip }?',
  'misread-at': '{ $length }: { $what }',
  'misread-impossible':
    'Diese Längen ergeben keinen Rahmen: Mindestens ein Messwert ist falsch. Alle noch einmal messen.',
  'misread-length': '{ $length } { $figure }',
  'misread-sizes':
    'Diagonalen und Maße gehen um { $apart }{ $unit } nicht auf; üblich ist { $usual }: Gegenüberliegende Seiten sind verschieden, oder ein Messwert ist falsch. Die anderen zwei Seiten messen.',
  'misread-six':
    'Die sechs Messwerte können nicht alle stimmen: Sie gehen um { $apart }{ $unit } nicht auf; üblich sind bis zu { $usual }. Die zweifelhaften noch einmal messen.',
  'misread-which': 'Welcher falsch ist, lässt sich aus den Zahlen nicht erkennen.',
  'misread-no-change': '{ $length } { $figure }: Mit diesem allein lässt sich die Figur nicht schließen',
  'misread-change': '{ $length } { $figure }: { $change } auf { $needed }',
  'misread-change-slips': '{ $length } { $figure }: { $change } auf { $needed } ({ $slips }?)',
  'slip-end': 'das Bandmaß wurde am Ende angelegt, nicht an der 100-mm-Marke',
  'slip-start': 'die 100 mm am Anfang wurden nicht abgezogen',
  'slip-of': 'um { $length } verlesen',
  'slip-swapped': 'zwei Ziffern vertauscht: { $figure }',
  'slip-turned': '6 und 9 verwechselt: { $figure }',
  'bounds-within': 'innerhalb ±{ $high } { $unit }',
  'bounds-from': 'von { $low } bis { $high } { $unit }',
  'bounds-most': 'höchstens { $high } { $unit }',
  'bounds-least': 'mindestens { $low } { $unit }',
  'says-within': '{ $figure }, innerhalb ±{ $high } { $unit }',
  'says-between': '{ $figure }, von { $low } bis { $high } { $unit }',
  'says-most': '{ $figure }, höchstens { $high } { $unit }',
  'says-least': '{ $figure }, mindestens { $low } { $unit }',
  'says-deviation': 'Abweichung { $off } { $unit }',
  'says-diagonals': 'Unterschied der Diagonalen { $apart } mm',
  'says-sides': '{ $a } und { $b } unterscheiden sich um { $apart } mm',
  'says-corner': 'Ecke { $corner }: { $off } Grad vom rechten Winkel',
  'says-from': '{ $length } { $off } mm gegenüber { $size }',
  'says-point-from': '{ $point } { $off } { $unit } gegenüber { $size }',
  'says-minus': '{ $more } { $a } minus { $less } { $b }: { $apart } { $unit }',
  'says-area': '{ $w } mal { $h } ergibt { $area } m2',
  'mean-of': 'Mittelwert aus { $n } Messwerten: { $figure } { $unit }.',
  corrected: 'Um { $by } mm berichtigt, von { $celsius } auf 20 Grad.',
  'sizes-corrected': 'Die Maße wurden vor dem Beurteilen von { $celsius } auf 20 Grad berichtigt.',
  'limit-no-size': 'Der Grenzwert { $id } hängt vom Maß ab, und hier ist kein Nennmaß bekannt.',
  'limit-no-band':
    'Der Grenzwert { $id } hat keinen Größenbereich für ein Maß von { $size } mm: in shared/limits.yaml einen ergänzen.',
  'limit-unknown':
    'Der Grenzwert { $id } steht nicht in shared/limits.yaml: dort eintragen, mit seiner Quelle.',
  'limit-not-these': 'Der Grenzwert { $id } ({ $title }) lässt sich auf diese Messwerte nicht anwenden.',
  'limit-not-these-why':
    'Der Grenzwert { $id } ({ $title }) lässt sich auf diese Messwerte nicht anwenden: { $why }.',
  'wanting-diagonals': 'beide Diagonalen sind nötig',
  'wanting-opposite-sides': 'zwei gegenüberliegende Seiten sind nötig',
  'wanting-corner-angle': 'vier Seiten und zwei Diagonalen sind nötig',
  'wanting-deviation': 'ein Nennmaß und mindestens eine Seite sind nötig',
  'wanting-value': 'er gilt für einzelne Zahlen',
  'wanting-spread': 'er gilt für Prüfungen mit mehreren Stellen',
  'wanting-pairs': 'er gilt für Prüfungen mit mehreren Stellen',
  'wanting-rise': 'er gilt für Prüfungen mit mehreren Stellen',
  'wanting-area': 'er gilt für zwei Messwerte',
  confirmed: 'Nachgefragt, ob der Messwert falsch abgelesen ist; er wurde bestätigt.',
  'unnamed-guarded':
    'Es ist kein Messgerät genannt; so lässt sich der Schutzabstand nicht ausrechnen: das Messgerät scannen und noch einmal messen.',
  unnamed: 'Es ist kein Messgerät genannt: Die Unsicherheit dieser Zahl ist nicht bekannt.',
  'unnamed-guess': 'Das Messgerät nennen: Ohne es ist der Schutzabstand geschätzt.',
  'coarse-take':
    'U = { $U } { $unit } ist so breit wie der Grenzwert: Bestanden heißt hier wenig. Besser messen mit { $better }.',
  'coarse-none':
    'U = { $U } { $unit } ist so breit wie der Grenzwert: Bestanden heißt hier wenig. Kein Messgerät hier ist gut genug.',
  'of-limit': '{ $limit }: { $note }',
  'rule-simple': 'Entscheidungsregel: einfache Annahme.',
  'rule-simple-u': 'Entscheidungsregel: einfache Annahme. Unsicherheit U = { $U } { $unit }.',
  'rule-guarded': 'Entscheidungsregel: mit Schutzabstand, w = { $factor }{ $named }.',
  'rule-guarded-u':
    'Entscheidungsregel: mit Schutzabstand, w = { $factor } = { $width } { $unit }{ $named }. Unsicherheit U = { $U } { $unit }.',
  'rule-steps':
    'Entscheidungsregel: nach Stufen; der Wert liegt zwischen der Stufe, die hineingeht, und der nächsten.',
  'no-limit': 'Nur aufgezeichnet: Dafür ist kein Grenzwert gesetzt.',
  'open-impossible': 'Nicht beurteilt: Die Messwerte ergeben keine Figur.',
  'open-sizes': 'Nicht beurteilt: Diagonalen und Maße passen nicht zusammen. Die anderen zwei Seiten messen.',
  'open-confirmed':
    'Nicht beurteilt, obwohl bestätigt: Die Messwerte gehen zu wenig auf, um alle zu stimmen. Alle sechs noch einmal messen.',
  open: 'Nicht beurteilt: Die Messwerte gehen nicht auf.',
  'not-proven-inside':
    'Nicht sicher: { $figure } { $unit } liegt nur { $by } { $unit } innerhalb des Grenzwerts, weniger als der Schutzabstand. Eingehalten ist er mit etwa { $probability } % Wahrscheinlichkeit.',
  'not-proven-outside':
    'Nicht sicher: { $figure } { $unit } liegt nur { $by } { $unit } außerhalb des Grenzwerts, weniger als der Schutzabstand. Eingehalten ist er mit etwa { $probability } % Wahrscheinlichkeit.',
  'settle-repeat':
    'Noch einmal messen kann es klären, wenn der Mittelwert bleibt, wo er ist (Messwerte auf demselben Strich helfen nicht).',
  'settle-mean':
    'Der Mittelwert aus { $n } neuen Messwerten kann es klären, wenn er bleibt, wo er ist (Messwerte auf demselben Strich helfen nicht).',
  'settle-instrument': 'Ein besseres Messgerät kann es klären, wenn die Zahl bleibt: { $instruments }.',
  'settle-none':
    'Kein Messgerät dieser Werkstatt kann es klären: die Arbeit berichtigen oder als nicht bestanden behandeln.',
  unseen:
    'Diagonalen zeigen weder Durchbiegung noch Verwindung noch eine gehobene Ecke: das auf dem ebenen Tisch mit Haarlineal und Fühlerlehre prüfen.',
  'tape-assumed':
    'Es ist kein Messgerät genannt: Angenommen ist ein Bandmaß der Klasse II, auf den Millimeter abgelesen.',
  'shows-diagonals': 'Unterschied der Diagonalen { $apart } mm (U = { $U }).',
  'shows-racking': 'Um { $apart } mm auf die Höhe aus dem Winkel (U = { $U }).',
  'shows-racking-right': 'Um { $apart } mm auf die Höhe aus dem Winkel (U = { $U }), oben nach rechts.',
  'shows-racking-left': 'Um { $apart } mm auf die Höhe aus dem Winkel (U = { $U }), oben nach links.',
  'shows-taper-width': 'Oben minus unten { $off } mm.',
  'shows-taper-height': 'Rechts minus links { $off } mm.',
  'cannot-five':
    'Fünf Messwerte legen die Figur fest und prüfen einander nicht: Ein falsch abgelesener fiele nicht auf. Der sechste zeigt ihn.',
  'cannot-sizes':
    'Bei zwei Maßen gelten gegenüberliegende Seiten als gleich: Ein Trapez fällt nicht auf, und gleiche Diagonalen beweisen keinen rechten Winkel.',
  'cannot-diagonals-alone':
    'Zwei Diagonalen allein zeigen nur ihren Unterschied: keine Maße, kein Trapez, und nicht, wie weit eine Ecke abweicht.',
  'cannot-diagonals':
    'Diagonalen ohne alle vier Seiten zeigen kein Trapez, und ein falsch abgelesener Wert fiele nicht auf.',
  'cannot-too-few': 'Ohne beide Diagonalen lässt sich zur Winkligkeit nichts sagen.',
  'cannot-impossible': 'Diese Messwerte ergeben gar keine Figur.',
  'push-long': 'Die Diagonale von { $diagonal } ist um { $by } mm zu lang.',
  'push-set':
    'Die Ecken sind fest: Eine ausgehärtete Ecke nicht mit Gewalt bewegen, sonst bricht ihre Abdichtung, wo es niemand sieht. Einen Mangel melden; die Ecke wird herausgeschnitten und ersetzt, oder wer es darf, gibt eine Sonderfreigabe.',
  'push-in': 'An ihren beiden Enden zusammendrücken, bevor die Dichtmasse fest wird.',
  'push-in-left':
    'An ihren beiden Enden zusammendrücken, bevor die Dichtmasse fest wird: Bei festgehaltenem unterem Teil geht die Ecke oben rechts etwa { $by } mm nach links.',
  'push-in-right':
    'An ihren beiden Enden zusammendrücken, bevor die Dichtmasse fest wird: Bei festgehaltenem unterem Teil geht die Ecke oben links etwa { $by } mm nach rechts.',
  'push-aim':
    'Ziel ist { $aim } auf beiden Diagonalen; etwas zu weit drücken, denn es federt zurück, loslassen und noch einmal messen.',
  'member-either':
    'Die Seite { $long } ist { $by } mm länger als die Seite { $short }: Entweder ist die Seite { $long } zu lang oder die Seite { $short } zu kurz. Drücken hilft da nicht: beide an beiden Enden messen, dann nach Spänen in der Gehrung, einem nicht ganz eingeschobenen Eckwinkel oder einem falsch geschnittenen Teil suchen.',
  'member-both':
    'Die Seite { $long } ist { $by } mm länger als die Seite { $short }: Beide weichen von ihrem Maß ab, um { $offLong } und { $offShort } mm. Drücken hilft da nicht: beide an beiden Enden messen, dann nach Spänen in der Gehrung, einem nicht ganz eingeschobenen Eckwinkel oder einem falsch geschnittenen Teil suchen.',
  'member-one':
    'Die Seite { $long } ist { $by } mm länger als die Seite { $short }: Von ihrem Maß weicht die Seite { $which } ab. Drücken hilft da nicht: beide an beiden Enden messen, dann nach Spänen in der Gehrung, einem nicht ganz eingeschobenen Eckwinkel oder einem falsch geschnittenen Teil suchen.',
  'sizes-longer':
    'Beide Diagonalen sind um mehr als { $by } mm länger als das errechnete Maß { $size }: Das ist ein Maßfehler, die Seiten ansehen.',
  'sizes-shorter':
    'Beide Diagonalen sind um mehr als { $by } mm kürzer als das errechnete Maß { $size }: Das ist ein Maßfehler, die Seiten ansehen.',
  picture:
    'Wie gemessen, von außen gesehen; die Abweichung { $factor }-fach gezeichnet. Gepunktet: rechtwinklig, mit den mittleren Maßen.',
  'picture-nominal':
    'Wie gemessen, von außen gesehen; die Abweichung { $factor }-fach gezeichnet. Gepunktet: Nennmaß { $w } x { $h }.',
  'picture-diagonals': 'Diagonalen: { $diagonals }.',
  'picture-diagonal': '{ $diagonal } { $label }',
  'picture-diagonal-long': '{ $diagonal } { $label }, die längere',
  'source-published': 'veröffentlicht: { $source }',
  'source-manual': 'Handbuch: { $source }',
  'source-house-rule': 'Hausregel: { $source }',
  'source-common-practice': 'im Handwerk üblich: { $source }',
  'source-invented': 'erfunden: { $source }',
  'source-memory': 'aus dem Gedächtnis: { $source }',
  'steps-between':
    'Entscheidungsregel: nach Stufen; { $low } { $unit } passt hinein, { $high } { $unit } nicht.',
  'steps-none': 'Entscheidungsregel: nach Stufen; keine passt hinein, auch { $high } { $unit } nicht.',
  'steps-all': 'Entscheidungsregel: nach Stufen; { $low } { $unit } passt hinein, und darüber gibt es keine.',
  'steps-nothing': 'Entscheidungsregel: nach Stufen; keine passt hinein, und darüber gibt es keine.',
  'error-at-most': 'Abweichung höchstens { $error } { $unit }',
  'accuracy-class': 'Klasse { $class }',
};
