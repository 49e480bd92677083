/** The procedure room's words in German. */
import type { Translation } from '../base/words.js';
import type { PROCEDURE_MESSAGES } from './messages.js';
import type { PROCEDURE_WORDS } from './words.js';

export const PROCEDURE_GERMAN: Translation<typeof PROCEDURE_MESSAGES & typeof PROCEDURE_WORDS> = {
  'procedure.twice': 'Abschnitt „{ $id }“ steht schon in Zeile { $line }.',
  'procedure.twice.todo':
    'Jedem eine eigene ID geben; die Aufzeichnungen beziehen sich noch nach Jahren darauf.',
  'procedure.stage-unknown': 'Abschnitt „{ $stage }“ kommt nach „{ $before }“, und den gibt es nicht.',
  'procedure.stage-unknown.todo':
    'Einen Abschnitt dieser Arbeitsanweisung nennen oder den Namen aus „after“ herausnehmen.',
  'procedure.stage-cycle': 'Die Abschnitte „{ $stage }“ und „{ $before }“ warten aufeinander.',
  'procedure.stage-cycle.todo': 'Einen der genannten Abschnitte aus „after“ des anderen herausnehmen.',
  'procedure.stage-order': 'Abschnitt „{ $stage }“ steht vor „{ $before }“, kommt aber erst danach.',
  'procedure.stage-order.todo':
    'Die Abschnitte in einer Reihenfolge schreiben, in der sie sich machen lassen.',
  'procedure.feature-unknown': 'Schritt „{ $step }“: Es gibt kein Merkmal „{ $feature }“.',
  'procedure.feature-unknown/near': 'Schritt „{ $step }“: Es gibt kein Merkmal „{ $feature }“.',
  'procedure.feature-unknown/near.todo': '„{ $near }“ schreiben oder das Merkmal unter „features“ ergänzen.',
  'procedure.limit-unknown/near': 'Prüfung „{ $id }“ nennt den Grenzwert „{ $name }“, und den gibt es nicht.',
  'procedure.limit-unknown/near.todo':
    '„{ $near }“ schreiben oder den Grenzwert mit seiner Quelle in shared/limits.yaml ergänzen.',
  'procedure.value/near': 'Schritt „{ $step }“, „{ $text }“: { $why }.',
  'procedure.value/near.todo': '„{ $near }“ schreiben oder im Profilsatz ergänzen, was gefragt ist.',
  'procedure.feature-unknown.todo': 'Das Merkmal unter „features“ ergänzen oder seinen Namen berichtigen.',
  'procedure.two-makers': '„{ $feature }“ entsteht in „{ $first }“ und in „{ $other }“.',
  'procedure.two-makers.todo':
    'Es nur in einem Schritt entstehen lassen; dem anderen Schritt ein eigenes Merkmal geben.',
  'procedure.two-makers/made': '„{ $feature }“ entsteht in „{ $steps }“ und in „{ $step }“.',
  'procedure.feature-cycle': 'Im Kreis: { $ring }.',
  'procedure.feature-cycle.todo': 'Eines der Merkmale aus „rests“ eines dieser Schritte herausnehmen.',
  'procedure.rests-ahead': '„{ $step }“ beruht auf „{ $feature }“, und das entsteht erst in „{ $steps }“.',
  'procedure.rests-ahead.todo':
    'Den Schritt hinter den stellen, in dem das Merkmal entsteht, oder ihn auf etwas beruhen lassen, das vorher entsteht.',
  'procedure.rests-aside':
    'Schritt „{ $step }“ beruht auf „{ $feature }“ aus Abschnitt „{ $stage }“, aber Abschnitt „{ $stage2 }“ kommt nicht nach diesem.',
  'procedure.rests-aside.todo':
    'Jenen Abschnitt in „after“ beim Abschnitt des Schritts nennen, damit die Reihenfolge für alle dieselbe ist.',
  'procedure.hold-unknown': 'Schritt „{ $step }“: Es gibt keinen Haltepunkt „{ $hold }“.',
  'procedure.hold-unknown.todo': 'Den Haltepunkt unter „holds“ ergänzen oder seinen Namen berichtigen.',
  'procedure.brace': '„{ $text }“: Die schließende geschweifte Klammer fehlt.',
  'procedure.brace.todo':
    'Die Formel mit „{ "}" }“ schließen; für eine Klammer, die als solche gemeint ist, „{ "{" }{ "{" }“ schreiben.',
  'procedure.brace/closing': '„{ $text }“: Zur schließenden geschweiften Klammer fehlt die öffnende.',
  'procedure.check-keys': 'Prüfung „{ $check }“ der Art { $kind } braucht „{ $key }“.',
  'procedure.check-keys.todo': 'Die Tabelle der Prüfungsarten steht in procedures/README.md.',
  'procedure.check-keys/check': 'Prüfung „{ $check }“ der Art { $kind } kennt „{ $key }“ nicht.',
  'procedure.check-keys/check-held': 'Prüfung „{ $check }“ beurteilt eine Abweichung und braucht „expect“.',
  'procedure.check-keys/check-nth': 'Prüfung „{ $check }“: „nth“ und „rhythm: nth“ gehören zusammen.',
  'procedure.check-keys/check-none': 'Prüfung „{ $check }“: Keine ihrer Antworten gilt als bestanden.',
  'procedure.check-keys/check-two': 'Prüfung „{ $id }“ hat zwei Messpunkte „{ $twice }“.',
  'procedure.check-keys/check-point': 'Prüfung „{ $id }“ hat keinen Messpunkt „{ $unknown }“.',
  'procedure.check-keys/unit':
    'Prüfung „{ $check }“: { $quantity } wird in { $units } gemessen, nicht in { $unit }.',
  'procedure.value': 'Schritt „{ $step }“, „{ $text }“: { $why }.',
  'procedure.value.todo':
    'Den Wert im Profilsatz ergänzen oder dem Schritt ein „when“ geben, damit dieses Fenster ihn nicht bekommt.',
  'procedure.empty': '„{ $procedure }“ hat für dieses Fenster keinen Schritt.',
  'procedure.empty.todo':
    'Die Bedingungen bei „when“ prüfen; jedes Fenster hat mindestens eine Auftragsprüfung und eine Endprüfung.',
  'procedure.no-why': 'Schritt „{ $step }“ hat kein „{ $key }“.',
  'procedure.no-why.todo':
    'In einem Satz sagen, warum er gemacht wird, und was oft schiefgeht und woran man das sieht.',
  'procedure.no-caution': 'Schritt „{ $step }“ ({ $hazards }) hat keinen Warnhinweis.',
  'procedure.no-caution.todo':
    'Unter „caution“ einen Warnhinweis schreiben und unter „deferral“ den Satz, dass Gefährdungsbeurteilung und örtliche Vorschriften vorgehen.',
  'procedure.no-caution/step': 'Schritt „{ $step }“ hat einen Warnhinweis, aber „deferral“ fehlt.',
  'procedure.no-limit': 'Prüfung „{ $id }“ beurteilt eine Zahl ohne Grenzwert.',
  'procedure.no-limit.todo':
    'Grenzwerte aus shared/limits.yaml nennen oder abhaken lassen, statt nach einer Zahl zu fragen.',
  'procedure.limit-unknown': 'Prüfung „{ $id }“ nennt den Grenzwert „{ $name }“, und den gibt es nicht.',
  'procedure.limit-unknown.todo':
    'Den Grenzwert mit seiner Quelle in shared/limits.yaml ergänzen oder den Namen berichtigen.',
  'procedure.setup-unknown':
    'Schritt „{ $step }“ braucht die Einrichtung „{ $setup }“, und die gibt es nicht.',
  'procedure.setup-unknown.todo':
    'Sie in shared/setups.yaml ergänzen oder eine vorhandene nennen: { $known }.',
  'procedure.setup-unknown/none':
    'Schritt „{ $step }“ braucht die Einrichtung „{ $setup }“, und die gibt es nicht.',
  'procedure.setup-unknown/none.todo': 'Sie in shared/setups.yaml ergänzen: Dort steht noch keine.',
  'procedure.limit-unsourced': 'Der Grenzwert „{ $name }“ der Prüfung „{ $id }“ hat keine Quelle.',
  'procedure.limit-unsourced.todo':
    'Ihm in shared/limits.yaml eine Quelle geben: veröffentlicht (published), Hausregel (house-rule), im Handwerk üblich (common-practice) oder aus dem Gedächtnis (memory).',
  'procedure.limit-kind': 'Prüfung „{ $id }“, Grenzwert „{ $name }“: { $why }.',
  'procedure.limit-kind.todo':
    'Zu einer Prüfung „number“ passen Grenzwerte von „deviation“ (mit „expect“) oder von „value“, zu einer Prüfung „square“ alle außer „value“; die Einheiten müssen gleich sein.',
  'procedure.number-typed': 'Schritt „{ $step }“: In „{ $text }“ ist „{ $typed }“ als Zahl getippt.',
  'procedure.number-typed.todo':
    'Die Zahl in geschweiften Klammern aus den Maßen des Fensters, den Werten des Profilsatzes oder den Grenzwerten nehmen.',
  'procedure.number-bare': 'Schritt „{ $step }“: { "{" }{ $piece }{ "}" } in „{ $text }“ hat keine Einheit.',
  'procedure.number-bare.todo':
    'Entweder { "{" }mm(…){ "}" } oder { "{" }kg(…){ "}" } schreiben oder die Einheit direkt hinter die Klammer setzen.',
  'procedure.figure-unknown':
    'Schritt „{ $step }“ verlangt den Wert „{ $name }“, und den hat der Profilsatz nicht.',
  'procedure.figure-unknown.todo': 'Ihn im Profilsatz unter „figures“ ergänzen oder den Namen berichtigen.',
  'procedure.sentence': 'In { $where } hat ein Satz { $sentence } Wörter: „{ $sentence2 }“.',
  'procedure.sentence.todo': 'Zwei Sätze daraus machen.',
  'procedure.unreachable': 'Schritt „{ $step }“ kommt bei nichts vor, was sich bestellen lässt.',
  'procedure.unreachable.todo': 'Das „when“ berichtigen oder den Eintrag herausnehmen.',
  'procedure.unreachable/kind':
    'Prüfung „{ $step }/{ $check }“ kommt bei nichts vor, was sich bestellen lässt.',
  'procedure.reach-unknown': 'Nicht entschieden: ob Schritt „{ $step }“ überhaupt vorkommt.',
  'procedure.reach-unknown.todo':
    'Ein Fenster bestellen, bei dem er vorkommt, oder das „when“ mit einfachen Summen und Vergleichen schreiben.',
  'procedure.reach-unknown/check': 'Nicht entschieden: ob Prüfung „{ $step }/{ $check }“ überhaupt vorkommt.',
  'procedure.feature-unused': 'Nichts beruht auf „{ $feature }“ ({ $title }).',
  'procedure.feature-unused.todo':
    'Die Schritte, die davon abhängen, darauf beruhen lassen, oder das Merkmal herausnehmen.',
  'procedure.feature-unmade': '„{ $feature }“ ({ $title }) entsteht in keinem Schritt.',
  'procedure.feature-unmade.todo':
    'Es bei dem Schritt, in dem es entsteht, unter „makes“ nennen oder das Merkmal herausnehmen.',
  'procedure.hold-unreleasable':
    'Niemand hat Stufe { $mayRelease } für Abschnitt „{ $stage }“: Haltepunkt „{ $hold }“ des Schritts „{ $step }“ würde nie freigegeben.',
  'procedure.hold-unreleasable.todo':
    'In shared/people.yaml einer Person Stufe 4 für den Abschnitt geben; darf nicht freigeben, wer den Schritt macht, auch einer zweiten, oder die Freigabe bei Alleinarbeit regeln (soloRelease).',
  'procedure.hold-unreleasable/one':
    'Schritt „{ $step }“ macht nur eine Person, und die darf seinen Haltepunkt „{ $hold }“ nicht freigeben.',
  'procedure.hold-unused': 'Kein Schritt hält an Haltepunkt „{ $hold }“.',
  'procedure.hold-unused.todo': 'Ihn bei dem Schritt nennen, der warten muss, oder herausnehmen.',
  'procedure.translation-of': 'Das übersetzt „{ $procedure }“, nicht „{ $procedure2 }“.',
  'procedure.translation-of.todo':
    'Die Übersetzung auf den Stand der Arbeitsanweisung bringen, dann ihr „procedure“ und „version“ berichtigen.',
  'procedure.translation-of/translates':
    'Das übersetzt Version { $version }; die Arbeitsanweisung hat Version { $version2 }.',
  'procedure.translation-lacks': 'Es fehlt: { $what }.',
  'procedure.translation-lacks.todo': 'Übersetzen; bis dahin zeigt die Werkbank dort die erste Sprache.',
  'procedure.translation-number': '{ $where }: { "{" }{ $text }{ "}" } fehlt im übersetzten Text.',
  'procedure.translation-number.todo': 'Dieselbe { "{" }Formel{ "}" } in die übersetzten Sätze setzen.',
  'procedure.translation-stray': 'In { $where }: Die Arbeitsanweisung hat kein „{ $id }“.',
  'procedure.translation-stray.todo': 'Die ID berichtigen oder den Text herausnehmen.',
  'procedure.no-quantity': 'Prüfung „{ $step }/{ $check }“ sagt nicht, welche Größe gemessen wird.',
  'procedure.no-quantity.todo':
    '„quantity“ ergänzen: length, gap, depth, angle, mass, force, torque, temperature, humidity, time, illuminance, pressure oder coating.',
  'procedure.lot-unaccepted':
    'Prüfung „{ $step }/{ $check }“ verlangt eine Charge ({ $lot }), die keine Prüfung annimmt.',
  'procedure.lot-unaccepted.todo':
    'Bei der Prüfung im Wareneingang, die die Charge zuerst nennt, „accepts: true“ ergänzen.',
  'procedure.twice/step': 'Schritt „{ $id }“ steht schon in Zeile { $line }.',
  'procedure.twice/check': 'Prüfung „{ $id }“ des Schritts „{ $step }“ steht schon in Zeile { $line }.',
  'lint-limit-suits-only': 'ein Grenzwert der Art „{ $of }“ passt nur zu einer Prüfung der Rechtwinkligkeit',
  'lint-limit-held-against': 'der Grenzwert gilt der Abweichung, und ein Punkt hat kein „expect“',
  'lint-check-names-no': 'die Prüfung nennt keine „pairs“',
  'lint-limit-suits-only-check':
    'ein Grenzwert der Art „{ $of }“ passt nur zu einer Prüfung mit mehreren Punkten',
  'lint-limit-value-itself':
    'ein Grenzwert für den Wert selbst passt nicht zu einer Prüfung der Rechtwinkligkeit',
  'lint-limit-held-against-deviation': 'der Grenzwert gilt der Abweichung, und die Prüfung hat kein „expect“',
  'lint-check-limit-3': 'die Prüfung ist in { $unit } und der Grenzwert in { $unit2 }',
  'part-phrase': 'die Wendung „{ $phrase }“',
  'part-deferral': 'der Vorbehalt',
  'part-hold': 'der Titel des Haltepunkts „{ $id }“',
  'part-stage': 'der Titel des Abschnitts „{ $id }“',
  'part-step': 'Schritt „{ $step }“',
  'part-step-first': 'Schritt „{ $step }“',
  'part-tool': 'ein Werkzeug von Schritt „{ $step }“',
  'part-checks': 'Prüfungen von Schritt „{ $step }“',
  'part-caution': 'der Warnhinweis von Schritt „{ $step }“',
  'part-caution-first': 'Der Warnhinweis von Schritt „{ $step }“',
  'part-question': 'die Frage von Schritt „{ $step }“ oder eine ihrer Antworten',
  'part-check': 'Prüfung „{ $check }“',
  'part-check-first': 'Prüfung „{ $check }“',
  'part-how': 'das „how“ von Prüfung „{ $check }“',
  'part-choices': 'Antworten von Prüfung „{ $check }“',
  'part-points': 'Punkte von Prüfung „{ $check }“',
  'part-choice': 'Antwort „{ $choice }“ von Prüfung „{ $check }“',
  'part-point': 'Punkt „{ $point }“ von Prüfung „{ $check }“',
  'part-phrases': 'Wendungen',
  'part-holds': 'Haltepunkte',
  'part-stages': 'Abschnitte',
  'part-steps': 'Schritte',
  'procedure.translation-unreviewed': '{ $n } von { $of } Schritten hat niemand geprüft: { $steps }.',
  'procedure.translation-unreviewed.todo':
    'Jemand, der in der Sprache arbeitet, liest sie neben dem Original; dann eintragen: reviewed: { "{" } by: NAME, version: "1.2" { "}" }.',
  'procedure.translation-changed':
    '{ $n } von { $of } Schritten wurden neben einer anderen Version geprüft: { $steps }.',
  'procedure.translation-changed.todo':
    'Lesen, was sich in beiden geändert hat; dann unter „reviewed“ die Version der Arbeitsanweisung eintragen.',
  'gives-nothing':
    'sie gibt für dieses Fenster keine Zahl; ein Schritt oder eine Prüfung, die eine braucht, sagt mit „when“, welche Fenster sie haben',
};
