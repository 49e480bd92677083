/** The window room's words in German. */
import type { Translation } from '../base/words.js';
import type { WINDOW_MESSAGES } from './messages.js';
import type { WINDOW_WORDS } from './words.js';

export const WINDOW_GERMAN: Translation<typeof WINDOW_MESSAGES & typeof WINDOW_WORDS> = {
  'set.missing': 'In sizes.{ $scope } fehlt { $name }.',
  'set.missing.todo': 'Unter diesem Namen ergänzen; welche Namen nötig sind, steht im Handbuch.',
  'set.missing/boxes': 'In boxes.{ $scope } fehlt { $name }.',
  'set.missing/face': 'In layout fehlt { $direction }, und der Satz hat Pfosten oder Riegel.',
  'set.missing/face.todo': 'Dort die Ansichtsbreite angeben oder "joints: []" schreiben, wenn es keine gibt.',
  'set.unhung':
    'Nichts trägt einen Flügel der Art { $kind }: In hardware stehen dafür weder Scheren noch Bänder.',
  'set.unhung.todo': 'Unter "hardware" Scheren oder Bänder dafür angeben oder die Art aus "lights" nehmen.',
  'set.missing/handle': 'In hardware steht ein Getriebe, aber kein Griff.',
  'set.missing/handle.todo': 'Unter "hardware" angeben, wo der Griff sitzt, oder die Getriebe weglassen.',
  'set.missing/each': 'Eine Markierung sitzt an jedem der { $each }, und in hardware steht nichts davon.',
  'set.missing/each.todo':
    'Unter "hardware" Getriebe (für locks) oder Bänder (für hinges) angeben oder die Markierung weglassen.',
  'set.hung-twice': 'Ein Flügel der Art { $kind } hinge an Scheren und an Bändern.',
  'set.hung-twice.todo': 'Nur in einem der beiden stehen lassen.',
  'set.unpacked': 'Das Glas eines Feldes der Art { $kind } liegt auf nichts: In packers fehlt sein Plan.',
  'set.unpacked.todo': 'Seine Klötze angeben oder die Art aus "lights" nehmen.',
  'set.circular': 'Diese brauchen einander im Kreis: { $ring }.',
  'set.circular.todo': 'Eine der Formeln so schreiben, dass sie ohne die anderen auskommt.',
  'set.unknown': '{ $what } steht nicht in dieser Datei.',
  'set.unknown.todo': 'Einen nehmen, den die Datei kennt, oder ihn ergänzen: { $known }.',
  'set.unknown/opening': 'Festfelder haben kein Rechteck „{ $name }“, und dieser Anriss gilt für jedes Feld.',
  'set.unknown/opening.todo': '„per: opening“ schreiben und Festfeldern einen eigenen Anriss geben.',
  'set.range': 'Eine Zeile reicht von { $from } bis { $to }.',
  'set.range.todo': 'Die beiden tauschen: „from“ ist das kleinere.',
  'set.unknown/near': '{ $what } steht nicht in dieser Datei.',
  'set.unknown/near.todo': '„{ $near }“ schreiben, oder einen anderen, den die Datei kennt: { $known }.',
  'order.joint':
    '{ $id } sitzt mit T-Verbindern an { $dividers }: T-Verbinder werden in den Rahmen geschoben, bevor seine Ecken geschlossen sind, und dann ist jener Pfosten oder Riegel noch nicht da.',
  'order.joint.todo':
    'Mit verschraubtem Anschluss bestellen (joint: ported) oder den Pfosten oder Riegel am Rahmen enden lassen.',
  'order.fitting': 'Ein Auflaufbock ist bestellt, aber kein Drehflügel.',
  'order.fitting.todo': 'Aus „fittings“ streichen oder das Feld ändern.',
  'order.fitting/protector': 'Eine Bandseitensicherung ist bestellt, aber kein Feld lässt sich öffnen.',
  'order.fitting/fixing':
    'Maueranker und Löcher für die Wandbefestigung sind zugleich bestellt; ein Rahmen hat nur das eine oder das andere.',
  'set.no-clearance':
    'Für den Abstand in derselben Wandung von { $member } ({ $hung }) fehlt eine Regel: { $what }.',
  'set.no-clearance.todo':
    'Unter „clearances“ eine Regel für das Paar ergänzen; „least: 0“ heißt, dass sie sich berühren dürfen.',
  'set.no-clearance/across':
    'In einer Wandung einer Sprosse mit einem Feld auf jeder Seite können sich treffen: { $what }; eine Regel für den Abstand fehlt.',
  'set.no-clearance/across.todo':
    'Unter „clearances“ eine Regel für das Paar ergänzen; „least: 0“ heißt, dass sie sich berühren dürfen.',
  'set.unused': 'Der Festwert { $name } wird nirgends benutzt.',
  'set.unused.todo': 'Den Eintrag entfernen oder dort benutzen, wo er gemeint war.',
  'set.unused/size': 'Das Maß { $name } in sizes.{ $scope } wird nirgends benutzt.',
  'set.units': '„{ $formula }“ addiert oder vergleicht { $left } und { $right }.',
  'set.units.todo':
    'Einen Namen derselben Einheit verwenden, oder die richtige Einheit dort angeben, wo der Name steht.',
  'set.never': '„{ $when }“ trifft nie zu.',
  'set.never.todo': 'Berichtigen, oder herausnehmen, was daran hängt.',
  'set.twice': 'Die Rolle { $role } steht zweimal unter parts.{ $scope }.',
  'set.twice.todo': 'Eine umbenennen, oder beiden ein „when“ geben, sodass kein Fenster beide hat.',
  'set.beads-overlap': 'Glas von { $from } bis { $to } hält schon die Glasleiste einer früheren Zeile.',
  'set.beads-overlap.todo': 'Jeder Dicke eine Zeile geben, „from“ kleiner als „to“.',
  'set.bead-fixed':
    'Glas von { $from } bis { $to } braucht { $article }, und kein Teil geht nach dieser Tabelle: Teile sind { $parts }, welches Glas es auch ist.',
  'set.bead-fixed.todo':
    'An den Teilen, die nach dem Glas gehen, „profile: {"{"}by_thickness: bead{"}"}“ (oder gasket) schreiben.',
  'set.unused/feature': 'Zu { $kind } in features gibt es keinen Anriss.',
  'set.unused/source': 'Die Quelle { $name } wird nirgends genannt.',
  'set.unused/divider-mark':
    'Der Anriss { $kind } an Pfosten und Riegeln entsteht nie: Seine Regel ist nicht „at“.',
  'set.unused/divider-mark.todo': 'Wo an Pfosten und Riegeln angerissen wird, als Liste unter „at“ angeben.',
  'set.unused/place':
    'Der Anriss { $kind } an { $on } entsteht nie: So eine Stelle haben nur Pfosten und Riegel.',
  'set.unused/place.todo': 'Die Seite nennen: bottom, top, left, right, hinge oder handle.',
  'set.unused/near': 'Klotz { $n } von { $kind } liegt an der Kante { $edge }, die kein Ende { $near } hat.',
  'set.unused/near.todo': 'Ein Ende dieser Kante nennen: left oder right, oder bottom oder top.',
  'set.setting': 'Tragklotz { $n } von { $kind } liegt an der Kante { $edge }.',
  'set.setting.todo': 'An die Kante bottom legen, oder location oder bracing nennen.',
  'set.along':
    'Anrisse „{ $kind }“ an { $on } stehen, wo { $each } sind, und diese zählen entlang des Flügels.',
  'set.along.todo': 'Dem Anriss „along: sash“ geben und sash.x und sash.y aus der Formel lassen.',
  'set.unused/fixed':
    'Der Anriss { $kind } an { $on } entsteht nie: Ein Festfeld hat weder Bandseite noch Griffseite.',
  'set.unused/fixed.todo': 'Die Seite nennen: bottom, top, left oder right.',
  'set.unused/packer':
    'Klotz { $n } der Festfelder wird nie gelegt: Ein Festfeld hat weder Bandseite noch Griffseite.',
  'set.unused/packer.todo': 'Die Seite nennen: bottom, top, left oder right.',
  'set.number': '„{ $formula }“ teilt eine ganze Zahl durch eine ganze Zahl; dabei fällt der Rest weg.',
  'set.number.todo': 'Eine davon mit Punkt schreiben: 1.0 / 2.',
  'set.number/gives': '{ $name } ergibt für { $unit } keine brauchbare Zahl.',
  'set.number/gives.todo':
    'Die Rechnung mit „pinchrod setout JOB UNIT --why NAME“ ansehen und die Formel oder den Auftrag berichtigen.',
  'job.duplicate': 'Die Position { $mark } steht in diesem Auftrag zweimal.',
  'job.duplicate.todo':
    'Jeder Zeile eine eigene Position geben; mehrere gleiche Fenster mit quantity bestellen.',
  'job.duplicate/marks':
    'Die Positionen { $other } und { $mark } ergeben denselben Namen für ein Fenster: { $unit }.',
  'job.layout': 'In der Teilung stehen { $keys } zugleich.',
  'job.layout.todo':
    'Eines davon angeben: at (Mittellinien), sight (Sichtmaße), ratio, equal: sight, equal: glass.',
  'job.layout/centre': 'Bei split: { $split } lassen sich Mittellinien nicht mit from: { $from } messen.',
  'job.layout/from': '„from“ geht nur zusammen mit „at“.',
  'job.layout/from.todo': '„from“ entfernen oder Mittellinien unter „at“ angeben.',
  'job.layout/none': 'Die Teilung sagt nicht, wo ihre Pfosten oder Riegel sitzen.',
  'job.layout/none.todo':
    'Eines davon angeben: at (Mittellinien), sight (Sichtmaße), ratio, equal: sight, equal: glass.',
  'job.layout/deep': 'Teilungen sind mehr als { $deepest } Ebenen tief verschachtelt.',
  'job.handing': 'Ein Festfeld hat ein Band, eine Öffnungsrichtung oder einen Griff.',
  'job.handing.todo': 'Diese Angaben entfernen oder sagen, wie der Flügel angeschlagen ist.',
  'job.handing/top': 'Bei einem Klappflügel steht hinge: { $hinge }.',
  'job.handing/top.todo':
    'hinge: top schreiben oder weglassen; für ein Band an der Seite light: side-hung schreiben.',
  'job.handing/side': 'Ein Drehflügel braucht hinge: left oder hinge: right.',
  'job.handing/side.todo':
    'Drei Angaben machen: hinge (left oder right), viewed_from (outside oder inside), opens (out).',
  'job.handing/hinged': '„hinge: { $hinge }“ sagt nicht, von welcher Seite aus gesehen.',
  'job.handing/hinged.todo':
    'Drei Angaben machen: hinge (left oder right), viewed_from (outside oder inside), opens (out).',
  'job.handing/side-hung': 'Bei einem Drehflügel steht nicht, ob er nach außen oder nach innen öffnet.',
  'job.handing/side-hung.todo':
    'Drei Angaben machen: hinge (left oder right), viewed_from (outside oder inside), opens (out).',
  'job.glass':
    '{ $id }: Das Glas „{ $glass }“ steht weder im Auftrag noch in { $set }, und ein ausgeschriebener Aufbau ist es auch nicht.',
  'job.glass.todo':
    'Ein Glas des Profilsatzes oder des Auftrags nennen, oder Scheiben und Zwischenräume ausschreiben, etwa 4-16-4.',
  'job.glass/near':
    '{ $id }: Das Glas „{ $glass }“ steht weder im Auftrag noch in { $set }, und ein ausgeschriebener Aufbau ist es auch nicht.',
  'job.glass/near.todo': '„{ $near }“ schreiben, oder Scheiben und Zwischenräume wie in 4-16-4.',
  'job.glass/glass': `Das Glas { $name } hat { $count ->
  [one] 1 Scheibe
 *[other] { $count } Scheiben
} und { $count2 ->
  [one] 1 Zwischenraum
 *[other] { $count2 } Zwischenräume
}.`,
  'job.glass/glass.todo': 'Einen Zwischenraum weniger angeben, als es Scheiben sind.',
  'job.glass/light': '{ $id } nennt kein Glas, sein Fenster und der Auftrag auch nicht; { $set } hat Glas.',
  'job.csv': '{ $fault }',
  'job.csv.todo': 'Die Tabelle als CSV speichern, mit den Spalten aus dem Handbuch der Auftragsdateien.',
  'job.csv/column': 'Spalte { $path }: { $issue }',
  'job.csv/table': 'Die Tabelle ist leer.',
  'job.csv/column-known': 'Die Spalte „{ $name }“ ist unbekannt.',
  'job.csv/column-known.todo': 'Bekannte Spalten: { $known }.',
  'job.csv/column-near': 'Die Spalte „{ $name }“ ist unbekannt; „{ $near }“ gibt es.',
  'job.csv/column-near.todo': 'Im Kopf der Tabelle „{ $near }“ schreiben.',
  'job.csv/column-stands': 'Die Spalte „{ $name }“ steht zweimal da.',
  'job.csv/line': `Die Zeile hat { $count ->
  [one] 1 Zelle
 *[other] { $count } Zellen
}, der Kopf hat { $count2 }.`,
  'job.csv/table-units': 'In der Tabelle steht kein Fenster.',
  'job.csv/column-says': 'In Spalte { $key } steht hier „{ $here }“ und in der ersten Zeile „{ $first }“.',
  'job.csv/number': 'Spalte { $column }: „{ $given }“ ist keine Zahl.',
  'job.csv/number.todo': 'Millimeter in Ziffern schreiben, ohne Einheit und ohne Tausenderzeichen.',
  'job.csv/thousands': 'Spalte { $column }: „{ $given }“ ist { $whole } oder { $part }.',
  'job.csv/thousands.todo': '{ $whole } oder { $part } schreiben.',
  'job.csv/yes': 'Spalte { $column }: „{ $given }“ ist weder yes noch no.',
  'job.csv/yes.todo': 'yes oder no schreiben.',
  'job.csv/no-light': 'Die Zeile nennt kein Feld des Fensters (light_1 …).',
  'job.csv/no-light.todo': 'light_1 ausfüllen: fixed, top-hung oder side-hung.',
  'job.csv/no-split': 'Die Zeile hat { $count } Felder und keine Teilung.',
  'job.csv/no-split.todo': 'split ausfüllen: upright oder level.',
  'job.csv/large': 'Die Tabelle hat { $count } Zeichen; erlaubt sind { $largest }.',
  'layout.room': 'Ein Feld wäre zwischen seinen Sichtkanten { $w } x { $h } groß.',
  'layout.room.todo': 'Die Lage der Pfosten oder Riegel oder das Gesamtmaß ändern.',
  'layout.room/divider': 'Pfosten oder Riegel { $ids } bei { $at } liegt außerhalb seiner Öffnung.',
  'layout.room/sight':
    'Die Sichtmaße der Teilung bei { $ids } ergeben zusammen { $used }; Platz ist für { $space }.',
  'layout.room/sight.todo': 'Für eines davon „rest“ schreiben oder die Maße berichtigen.',
  'layout.room/split': 'Die Teilung bei { $ids } lässt von { $width } diese Sichtmaße übrig: { $sizes }.',
  'layout.room/would': '{ $id }: { $name } wäre { $w } x { $h } groß.',
  'layout.count': 'Mittellinien: { $count } nötig, { $count2 } angegeben.',
  'layout.count.todo':
    'Eine Mittellinie weniger angeben, als es Teile sind; ein Maß oder einen Anteil für jedes Teil.',
  'layout.count/parts':
    'Zu { $count } Teilen gehört unter „{ $key }“ die Anzahl { $wanted }, nicht { $found }.',
  'layout.count/rest': '„rest“ steht bei den Sichtmaßen mehr als einmal.',
  'layout.count/rest.todo': '„rest“ nur für ein Teil schreiben.',
  'layout.equal-glass':
    'Ein Teil der Teilung ist selbst in derselben Richtung geteilt; seine Felder sind also nicht so breit wie das Teil.',
  'layout.equal-glass.todo': 'Für diese Teilung gleiche Sichtmaße oder Mittellinien angeben.',
  'layout.equal-glass/lights':
    'Felder, die in einem Teil der Teilung übereinander liegen, haben verschiedene Abzugsmaße.',
  'layout.equal-glass/glass': 'In diesem Profilsatz wächst das Glas nicht mit dem Sichtmaß.',
  'setout.sum':
    'Schnitt ({ $direction }) bei { $at }: Die Maße ergeben zusammen nicht das Rahmenmaß, Abweichung { $error }.',
  'setout.sum.todo': 'Die Formeln unter layout im Profilsatz berichtigen.',
  'setout.glass':
    '{ $id }: Das Glas ist nach der einen Formel { $w } x { $h } groß, nach der anderen { $otherW } x { $otherH }.',
  'setout.glass.todo': 'Ein Festwert des Profilsatzes ist vertippt: mit der Schnittzeichnung vergleichen.',
  'setout.below-none': '{ $what } ist { $value }.',
  'setout.below-none.todo': 'Die Formel im Profilsatz berichtigen; --why zeigt, woraus sie besteht.',
  'setout.below-none/more': '{ $what } ist { $value }; mehr als { $most } hat kein Element.',
  'setout.below-none/more.todo': 'Die Formel im Profilsatz berichtigen.',
  'setout.twice': 'Zwei Teile heißen { $part }.',
  'setout.twice.todo': 'Jede Rolle einmal angeben, oder jede mit einem eigenen „when“.',
  'setout.same-side': '{ $part } und { $other } liegen auf derselben Seite, und darauf sind Anrisse.',
  'setout.same-side.todo': '„box“ und „side“ bei dem weglassen, das keine Anrisse trägt.',
  'setout.no-article': '{ $part }: Die Tabelle der Glasleisten nennt für dieses Glas keinen Artikel.',
  'setout.no-article.todo': 'Die Spalte dieser Zeile in „glass.beads“ des Profilsatzes ausfüllen.',
  'setout.crowded':
    '{ $item }: Bei einem Abstand von { $pitch } stehen mehr als { $most } mal { $mark } in einer Reihe.',
  'setout.crowded.todo': 'Den Abstand (pitch) der Regel berichtigen; er steht in Millimetern.',
  'setout.no-part': '{ $item }: Anrisse „{ $mark }“ liegen auf „{ $on }“, und dieses Teil gibt es nicht.',
  'setout.no-part.todo':
    'Dem Satz dieses Teil geben (box und side), das vorhandene Teil nennen, oder mit „when“ sagen, an welchen Fenstern sie liegen.',
  'setout.part-start':
    '{ $part } ist { $length } lang auf einer Seite von { $fills }, und der Satz sagt nicht, wo es beginnt.',
  'setout.part-start.todo':
    'Dem Teil „start“ geben: wie weit es von links oder unten beginnt, gemessen an dem, worauf es liegt; 0, wo es dort beginnt.',
  'setout.sticks-out':
    '{ $part } beginnt { $from } innerhalb seiner Seite von { $fills } und steht am anderen Ende { $over } über.',
  'setout.sticks-out.todo':
    'Länge oder „start“ berichtigen: Ein Horn steht über, ohne dass das andere Ende zurückweicht.',
  'setout.sticks-out/uneven': '{ $part } endet { $from } von der einen Seite und { $other } von der anderen.',
  'setout.sticks-out/uneven.todo':
    'Länge oder „start“ berichtigen: Ein waagerechtes Teil und eine Sprosse enden an beiden Seiten gleich; minus heißt übergreifend.',
  'setout.beads': '{ $item } hat { $level } waagerechte und { $upright } senkrechte Glasleisten.',
  'setout.beads.todo': 'Beiden „kind: bead“ und die Anzahl 2 geben.',
  'setout.corner':
    '{ $part } ist dort auf { $angle } Grad geschnitten, wo { $other } auf { $otherAngle } geschnitten ist.',
  'setout.corner.todo':
    '„ends“ berichtigen: Das linke oder untere Ende steht zuerst; beide gerade, oder zusammen 90 Grad.',
  'setout.wrong-side': '{ $part } liegt { $side }.',
  'setout.wrong-side.todo': '„side“ oder die Rolle berichtigen.',
  'setout.same-place': '{ $part } hat zwei Anrisse „{ $mark }“ bei { $at }.',
  'setout.same-place.todo':
    'Die Stellen der Regel berichtigen: meist hat eine von zweien das falsche Vorzeichen.',
  'setout.glass-mass':
    '{ $id }: Das Glas wöge { $mass } kg; { $area } m2 mit { $panes } mm Glas wiegen etwa { $usual }.',
  'setout.glass-mass.todo':
    'glass.mass berichtigen: Fläche mal panes.thickness mal 2.5 (kg je Quadratmeter und Millimeter).',
  'setout.glass-mass/area': '{ $id }: Die Glasfläche wäre { $area } m2; Breite mal Höhe sind { $real }.',
  'setout.glass-mass/area.todo': 'glass.area berichtigen: glass.w * glass.h / 1000000.0.',
  'setout.heavy': '{ $part } wöge { $kg } kg je Meter.',
  'setout.heavy.todo': 'kg_per_m berichtigen: Es steht in Kilogramm, nicht in Gramm.',
  'setout.sticks-out/before':
    '{ $part } beginnt { $before } vor seiner Seite von { $fills } und endet { $short } vor dem anderen Ende.',
  'setout.sticks-out/before.todo': 'Länge oder „start“ berichtigen.',
  'setout.sticks-out/divider': '{ $part } ist { $length } lang; zwischen den Falzgründen sind { $span }.',
  'setout.sticks-out/divider.todo':
    'divider.length berichtigen; wo die Sprosse über ihre Nachbarn greift, ihrem Teil ein „start“ unter null geben.',
  'setout.sticks-out/bead': '{ $part } ist { $length } lang; der Falz dort ist { $side }.',
  'setout.sticks-out/bead.todo': 'Die Formel der Glasleiste berichtigen.',
  'setout.box-size':
    '{ $id }: Das Rechteck { $name } ist { $w } x { $h }, und seine Maße sagen { $sizeW } x { $sizeH }.',
  'setout.box-size.todo': 'Breite und Höhe des Rechtecks oder die Maße berichtigen.',
  'setout.box-place': '{ $id }: { $name } läge { $by } neben der Mitte des Feldes.',
  'setout.box-place.todo':
    'Das x des Rechtecks berichtigen: Es zählt von der Sichtkante nach rechts, davor minus. Wo die Seiten wirklich verschieden sind, mit hinge_left schreiben.',
  'setout.box-place/level':
    '{ $id }: { $name } endete { $short } vor der einen Sichtkante und { $past } hinter der anderen.',
  'setout.box-place/level.todo':
    'Das y des Rechtecks berichtigen: Es zählt von der Sichtkante nach oben, darunter minus.',
  'setout.glass-place': '{ $id }: Das Glas läge { $by } neben der Mitte seines Feldes.',
  'setout.glass-place.todo':
    'Das x des Rechtecks „glass“ berichtigen: Es zählt von der Sichtkante nach rechts, also meist 0 weniger die Überdeckung.',
  'setout.glass-place/short': '{ $id }: Das Glas endete { $by } vor der Sichtkante { $side }.',
  'setout.glass-place/short.todo':
    'x und y des Rechtecks „glass“ berichtigen: Sie zählen von der Sichtkante nach rechts und oben.',
  'setout.glass-place/out': '{ $id }: Das Glas stünde { $by } über seinen Flügel hinaus { $side }.',
  'setout.glass-place/out.todo':
    'x und y des Rechtecks „glass“ berichtigen: Sie zählen von der Sichtkante nach rechts und oben.',
  'setout.glass-place/frame': '{ $id }: Das Glas stünde { $by } über den Rahmen hinaus { $side }.',
  'setout.glass-place/frame.todo':
    'Eine Ansichtsbreite oder Tiefe im Profilsatz ist vertippt: mit der Schnittzeichnung vergleichen.',
  'setout.off-part':
    '{ $light }: Ein Klotz ({ $use }), { $length } lang, liegt bei { $at } nicht ganz am Glas, das { $size } lang ist.',
  'setout.off-part.todo':
    'Das Glas ist zu klein für den Klotzungsplan des Profilsatzes, oder der Plan legt den Klotz falsch.',
  'setout.off-part/does': '{ $set } bei { $at } liegt nicht auf { $part } ({ $says }, { $count } lang).',
  'setout.off-part/does.todo':
    'Das Maß, den Griff oder den Beschlag ändern: Das Teil ist dafür zu kurz; oder die Regel eines neuen Satzes berichtigen.',
  'setout.clash':
    'An { $part } ({ $says }, { $count } lang) lassen sich diese Regeln nicht zugleich einhalten: { $stuck }.',
  'setout.clash.todo':
    'Das Maß, den Griff oder die Lage von Pfosten oder Riegel ändern; oder eine benannte Person übergeht das, mit Grund.',
  'setout.clash-unproven':
    'Ob die Anrisse an { $part } so wenig wie möglich verschoben sind, hat die begrenzte Suche nicht ergeben.',
  'setout.clash-unproven.todo':
    'Die Anrisse so nehmen, oder Griff, Pfosten oder Riegel verlegen, damit weniger Anrisse aufeinandertreffen.',
  'setout.clash-unproven/none':
    'Ob sich die Regeln an { $part } wirklich nicht einhalten lassen, hat die begrenzte Suche nicht ergeben.',
  'order.gear':
    '{ $id }: Kein Getriebe von { $set } passt zu einem Flügelteil von { $rail } ({ $gears }; { $source }).',
  'order.gear.todo': 'Das Maß oder die Öffnungsart des Felds ändern.',
  'order.gear/cams':
    '{ $id }: Bei keinem Getriebe von { $set } bleiben die Zapfen { $end } von den Enden eines Flügelteils von { $rail } weg, wenn der Griff bei { $at } sitzt ({ $gears }; { $source }).',
  'order.stay':
    '{ $light }: Keine Schere passt für einen { $kind } von { $w } x { $h } mit { $mass } kg ({ $refused }; { $source }).',
  'order.stay.todo':
    'Einen Pfosten oder Riegel mehr vorsehen oder die Öffnungsart ändern; eine benannte Person darf das übergehen, mit Grund.',
  'order.stay/none':
    '{ $light }: Keine Schere passt für einen { $kind } von { $w } x { $h } mit { $mass } kg (im Anwendungsdiagramm steht keine für { $kind }; { $source }).',
  'order.hinges':
    '{ $light }: Keine Bänder tragen einen Flügel { $w } x { $h } mit { $mass } kg ({ $refused }; { $source }).',
  'order.hinges.todo':
    'Teilen oder anders öffnen lassen; mit Namen und Grund kann jemand es trotzdem zulassen.',
  'order.kind': '{ $id } ist { $kind }; bei { $set } gibt es { $kinds }.',
  'order.kind.todo': 'Eine andere Art bestellen oder einen Profilsatz nehmen, bei dem es sie gibt.',
  'order.no-divider': 'Bei { $set } gibt es weder Pfosten noch Riegel.',
  'order.no-divider.todo': 'Ungeteilt bestellen oder einen Profilsatz nehmen, bei dem es sie gibt.',
  'order.no-glass': '{ $id } nennt { $glass }, und { $set } hat kein Glas.',
  'order.no-glass.todo': 'Das Glas aus dem Auftrag nehmen oder einen verglasten Profilsatz wählen.',
  'order.no-handle': '{ $light } sagt, wo sein Griff sitzt, und { $set } hat keinen.',
  'order.no-handle.todo': '"handle_at" aus dem Auftrag nehmen.',
  'order.near-limit/hinges': '{ $light }: { $hinges } nahe der Grenze: { $uses } ({ $source }).',
  'order.near-limit':
    '{ $light }: Die Schere { $stay } ist nahe an einem Grenzwert: { $uses } ({ $source }).',
  'order.near-limit.todo': 'Vor der Freigabe im Anwendungsdiagramm des Beschlagherstellers nachsehen.',
  'order.glass-thickness':
    '{ $light }: Das Glas { $glass } ist { $thickness } dick; die Glasleisten von { $set } halten { $beads } ({ $source }).',
  'order.glass-thickness.todo': 'Ein Glas wählen, das die Glasleisten des Profilsatzes halten.',
  'order.limit': '{ $id }: Der Griff bei { $at } liegt nicht zwischen { $least } und { $most } ({ $set }).',
  'order.limit.todo': 'Den Auftrag ändern; eine benannte Person darf das übergehen, mit Grund.',
  'order.limit/least':
    '{ $id }, { $check }: { $value }; verlangt sind mindestens { $limit } ({ $name }; { $source }).',
  'order.limit/most':
    '{ $id }, { $check }: { $value }; erlaubt sind höchstens { $limit } ({ $name }; { $source }).',
  'order.limit/joint': 'Pfosten und Riegel von { $set } haben den Anschluss { $joints }, nicht { $joint }.',
  'order.opens-in': '{ $light } öffnet nach innen; das gibt es bei { $set } nicht.',
  'order.opens-in.todo':
    'Die Öffnungsrichtung im Auftrag ändern oder einen Profilsatz nehmen, bei dem es sie gibt.',
  'order.opens-in/out': '{ $light } öffnet nach außen; das gibt es bei { $set } nicht.',
  'order.safety-glass':
    '{ $light }: Sicherheitsglas ist verlangt; { $glass } ist nicht als Sicherheitsglas eingetragen.',
  'order.safety-glass.todo': 'Ein Glas wählen, bei dem safety: true steht.',
  'order.escape': 'Eine Fluchtöffnung ist verlangt, und kein Feld des Fensters lässt sich öffnen.',
  'order.escape.todo': 'Ein Feld größer machen oder anders anschlagen; örtliche Vorschriften gehen vor.',
  'order.escape/clear':
    'Freie Öffnung: { $found }; verlangt sind mindestens { $leastSide } in jeder Richtung und { $leastAreaM2 } m2 ({ $source }).',
  'order.escape-unknown':
    'Eine Fluchtöffnung ist verlangt; { $set } sagt nicht, wie weit die Scheren öffnen, und so ist die freie Öffnung unbekannt.',
  'order.escape-unknown.todo':
    'Die freie Öffnung in den Unterlagen des Beschlagherstellers suchen; damit als Grund darf eine benannte Person das übergehen.',
  'why.unknown': 'Keine Zahl von { $unit } heißt „{ $name }“.',
  'why.unknown.todo': 'Einen der Namen nehmen, die setout --why aufzählt.',
  'why.unknown/near': 'Keine Zahl von { $unit } heißt „{ $name }“.',
  'why.unknown/near.todo':
    'Vielleicht gemeint: { $near }. „setout JOB { $unit } --why ?“ zählt alle Namen auf.',
  width: 'Breite',
  height: 'Höhe',
  fixed: 'Festfeld',
  'top-hung': 'Klappflügel',
  'side-hung': 'Drehflügel',
  'stay-under': '{ $side } unter { $limit }',
  'stay-over': '{ $side } über { $limit }',
  'stay-mass': 'Masse über { $limit } kg',
  'stay-refused': '{ $stay }: { $why }',
  'stay-uses': '{ $side } { $size } von { $limit }',
  'stay-uses-mass': 'Masse { $mass } von { $limit } kg',
  'phrase fixed light': 'Festfeld',
  'phrase hinged at the top': 'oben angeschlagen',
  'phrase hinged left': 'links angeschlagen',
  'phrase hinged right': 'rechts angeschlagen',
  'phrase seen from outside': 'von außen gesehen',
  'phrase opens out': 'öffnet nach außen',
  'phrase opens in': 'öffnet nach innen',
  'phrase one person': 'eine Person',
  'phrase one or two people': 'eine oder zwei Personen',
  'phrase two people': 'zwei Personen',
  'phrase lifting aid': 'Hebehilfe',
  'phrase setting': 'Tragklotz',
  'phrase location': 'Distanzklotz',
  'phrase bracing': 'Spannklotz',
  'phrase bottom edge': 'Unterkante',
  'phrase top edge': 'Oberkante',
  'phrase left edge': 'linke Kante',
  'phrase right edge': 'rechte Kante',
  'phrase centre': 'Mitte',
  'phrase from the left corner of the glass': 'von der linken Ecke des Glases',
  'phrase from the bottom corner of the glass': 'von der unteren Ecke des Glases',
  'phrase mullion': 'Pfosten',
  'phrase transom': 'Riegel',
  'phrase frame head': 'Rahmen oben',
  'phrase frame sill': 'Rahmen unten',
  'phrase frame left jamb': 'Rahmen links',
  'phrase frame right jamb': 'Rahmen rechts',
  'phrase add-on head': 'Aufsatz oben',
  'phrase add-on sill': 'Aufsatz unten',
  'phrase add-on left jamb': 'Aufsatz links',
  'phrase add-on right jamb': 'Aufsatz rechts',
  'phrase sash top rail': 'Flügel oben',
  'phrase sash bottom rail': 'Flügel unten',
  'phrase sash left stile': 'Flügel links',
  'phrase sash right stile': 'Flügel rechts',
  'phrase upper side': 'Oberseite',
  'phrase under side': 'Unterseite',
  'phrase left side': 'linke Seite',
  'phrase right side': 'rechte Seite',
  'phrase inner side': 'Innenseite',
  'phrase along the divider': 'am Profil entlang',
  'phrase outside': 'außen',
  'phrase through': 'durchgehend',
  'phrase divider centre line': 'Mittellinie',
  'phrase divider screw': 'Schraubloch',
  'phrase cleat screw': 'Verbinderloch',
  'phrase inner drain slot': 'innerer Entwässerungsschlitz',
  'phrase outer drain slot': 'äußerer Entwässerungsschlitz',
  'phrase pressure slot': 'Druckausgleichsschlitz',
  'phrase inner drain hole': 'innere Entwässerungsbohrung',
  'phrase outer drain hole': 'äußere Entwässerungsbohrung',
  'phrase middle drain slot': 'mittlerer Entwässerungsschlitz',
  'phrase pressure hole': 'Druckausgleichsbohrung',
  'phrase add-on screw': 'Schraubloch des Aufsatzes',
  'phrase gearbox slot': 'Getriebeschlitz',
  'phrase gearbox centre': 'Getriebemitte',
  'phrase keep centre': 'Mitte des Schließstücks',
  'phrase first hole of the stay': 'erstes Loch der Schere',
  'phrase first hole of the stay bracket': 'erstes Loch der Flügelschiene',
  'phrase from the left end': 'vom linken Ende',
  'phrase from the bottom end': 'vom unteren Ende',
  'phrase moved by the set-out:': 'von der Maßrechnung verschoben:',
  'phrase left end': 'linkes Ende',
  'phrase bottom end': 'unteres Ende',
  'phrase left frame': 'Rahmen links',
  'phrase right frame': 'Rahmen rechts',
  'phrase bottom frame': 'Rahmen unten',
  'phrase top frame': 'Rahmen oben',
  'packer-centre-left': 'Mitte { $at } mm von der linken Ecke des Glases',
  'packer-centre-bottom': 'Mitte { $at } mm von der unteren Ecke des Glases',
  'light-top-hung': 'Klappflügel, oben angeschlagen, von außen gesehen, öffnet nach außen',
  'light-top-hung-in': 'Klappflügel, oben angeschlagen, von außen gesehen, öffnet nach innen',
  'lift-one':
    '{ $mass } kg: eine Person, dicht am Körper gehalten (Richtwert für das Heben nach HSE INDG143; keine gesetzliche Grenze; weniger mit gestreckten Armen, über Kopf oder mit verdrehtem Oberkörper).',
  'lift-one-or-two':
    '{ $mass } kg: eine Person, dicht am Körper zwischen Ellbogen und hängender Hand gehalten, nur wenn es innerhalb ihres Richtwerts liegt (Männer { $men } kg, Frauen { $women } kg); sonst zwei Personen (Richtwert für das Heben nach HSE INDG143; keine gesetzliche Grenze; weniger mit gestreckten Armen, über Kopf oder mit verdrehtem Oberkörper).',
  'lift-two':
    '{ $mass } kg: zwei Personen oder eine Hebehilfe (Richtwert für das Heben nach HSE INDG143; keine gesetzliche Grenze; weniger mit gestreckten Armen, über Kopf oder mit verdrehtem Oberkörper).',
  'lift-aid':
    '{ $mass } kg: eine Hebehilfe (Richtwert für das Heben nach HSE INDG143; keine gesetzliche Grenze; weniger mit gestreckten Armen, über Kopf oder mit verdrehtem Oberkörper).',
  'row-glass': '{ $w } × { $h }  { $glass }, { $thickness } dick, { $mass } kg',
  'row-glass-safety': '{ $w } × { $h }  { $glass }, Sicherheitsglas, { $thickness } dick, { $mass } kg',
  'row-stay': 'Schere { $stay }: { $uses }',
  'context-no-glass': 'der Profilsatz hat kein Glas',
  'context-no-addon': 'der Profilsatz hat keinen Aufsatz',
  'row-hinges': 'Bänder, { $count }: { $hinges }, { $uses }',
  'row-keeps-frame': 'Schließteile: { $at } am Blendrahmen',
  'row-handle': 'Griff, { $side }: { $at } am Flügel',
  'row-keeps': 'Schließstücke: { $at } am Aufsatzrahmen',
  'side-left': 'links',
  'side-right': 'rechts',
  'side-bottom': 'unten',
  'side-top': 'oben',
  'thing-source': 'Quelle „{ $name }“',
  'thing-feature': 'Merkmal „{ $name }“',
  'thing-constant': 'Konstante „{ $name }“',
  'thing-box': 'Feld „{ $name }“ der Maße',
  'thing-mark': 'Ein Anriss „{ $name }“ an „{ $on }“ vor diesem',
  'two-marks': 'Zwei Anrisse „{ $mark }“',
  'both-marks': '„{ $mark }“ und „{ $other }“',
  level: 'waagerecht',
  upright: 'senkrecht',
  added: '{ $n } mehr, als der Abstand verlangt, weil Verschieben allein nicht jede Regel einhielt',
  'added-for': '{ $n } mehr, als der Abstand verlangt, eines je { $mark }',
  'moved-right': '{ $by } nach rechts verschoben: { $why }',
  'moved-left': '{ $by } nach links verschoben: { $why }',
  'moved-up': '{ $by } nach oben verschoben: { $why }',
  'moved-down': '{ $by } nach unten verschoben: { $why }',
  'moved-then': '{ $first }, dann { $second }',
  'follows-behind': 'folgt: { $mark } dahinter, verschoben',
  'follows-beside': 'folgt: { $mark } daneben, verschoben',
  meets: '{ $mark } bei { $at }',
  'keeps-distance': 'hält Abstand: { $mark }',
  'keeps-pitch': 'hält den Abstand von höchstens { $pitch } ein',
  'keeps-part': 'auf dem Teil und in seinem Bereich gehalten',
  'rule-pitch': '{ $mark }: Abstand höchstens { $pitch }',
  'rule-ends': 'die Endabstände von { $mark }',
  'rule-part': 'jeder Anriss auf seinem Teil',
  'clear-edges': '{ $mark } mindestens { $least } von { $other }, zwischen den Kanten',
  'clear-centres': '{ $mark } mindestens { $least } von { $other }, zwischen den Mitten',
  'clear-edges-opposite':
    '{ $mark } mindestens { $least } von { $other } auf der Gegenseite, zwischen den Kanten',
  'clear-centres-opposite':
    '{ $mark } mindestens { $least } von { $other } auf der Gegenseite, zwischen den Mitten',
};
