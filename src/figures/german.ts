/** Messages of figures over many units in German. */
import type { Translation } from '../base/words.js';
import type { FIGURES_MESSAGES } from './messages.js';

export const FIGURES_GERMAN: Translation<typeof FIGURES_MESSAGES> = {
  'figures.csv': 'Das ist keine CSV-Tabelle.',
  'figures.csv.todo':
    'In der Tabellenkalkulation als CSV speichern: eine Zeile mit Namen, dann eine Zeile je Messwert.',
  'figures.csv/empty': 'Die Tabelle hat unter ihren Namen keine Zeilen.',
  'figures.csv/empty.todo': 'Eine Zeile mit Namen angeben, dann eine Zeile je Messwert.',
  'figures.csv/large': 'Die Tabelle ist größer als 200 MB.',
  'figures.csv/large.todo': 'Die Tabelle teilen.',
  'figures.csv/twice': 'Zwei Spalten heißen „{ $name }“.',
  'figures.csv/twice.todo': 'Eine davon umbenennen.',
  'figures.column': 'Es gibt keine Spalte „{ $name }“: { $columns }.',
  'figures.column.todo': 'Eine der Spalten nennen.',
  'figures.column/near': 'Es gibt keine Spalte „{ $name }“.',
  'figures.column/near.todo': 'Vielleicht ist „{ $near }“ gemeint.',
  'figures.cell': '„{ $cell }“ ist keine Zahl.',
  'figures.cell.todo': 'Die Zelle berichtigen oder die Zeile herausnehmen.',
  'figures.cell/missing': 'Diese Zelle ist leer.',
  'figures.cell/missing.todo': 'Die Zelle ausfüllen oder die Zeile herausnehmen.',
  'figures.cell/share': '„{ $cell }“ ist weder 0 noch 1.',
  'figures.cell/share.todo':
    'Für jedes fehlerhafte Stück 1 schreiben, sonst 0, oder mit --of nennen, wie viele es waren.',
  'figures.cell/count': '{ $failed } von { $of } ist keine Anzahl.',
  'figures.cell/count.todo':
    'Ganze Zahlen angeben: wie viele fehlerhaft waren, und mit --of, wie viele es waren.',
  'figures.few': '{ $n } Messwerte sind für eine Karte zu wenig.',
  'figures.few.todo': 'Es braucht mindestens zwei; Grenzen taugen etwas ab etwa zwanzig.',
  'figures.few/groups': 'Keine Gruppe hat zwei Messwerte.',
  'figures.few/groups.todo': '--subgroup weglassen: Einzelwerte haben eine eigene Karte.',
  'figures.few/first': '--first { $first } lässt von { $n } Punkten zu wenige für Grenzen.',
  'figures.few/first.todo': 'Mindestens zwei Punkte nehmen, und nicht mehr, als es gibt.',
  'figures.option': '--{ $name } { $given } ist unbekannt.',
  'figures.option.todo': 'Eines davon nehmen: { $known }.',
  'figures.option/number': '--{ $name } verlangt eine Zahl, nicht „{ $given }“.',
  'figures.option/number.todo': 'Mit Dezimalpunkt schreiben, etwa -1.5.',
  'figures.option/turned': '--low { $low } liegt nicht unter --high { $high }.',
  'figures.option/turned.todo': 'Beide vertauschen.',
  'figures.option/needs': '--{ $name } braucht --{ $needed }.',
  'figures.option/needs.todo': 'Beide nennen.',
  'figures.option/groups': '--chart { $given } gilt für Einzelwerte.',
  'figures.option/groups.todo': '--subgroup weglassen.',
  'figures.study': 'Es gibt nur ein Teil: { $part }.',
  'figures.study.todo': 'Mindestens zwei Teile messen; zehn sind üblich.',
  'figures.study/person': 'Es gibt nur eine Person: { $person }.',
  'figures.study/person.todo': 'Mindestens zwei müssen messen; drei sind üblich.',
  'figures.study/trials': 'Jedes Teil wurde von jeder Person einmal gemessen.',
  'figures.study/trials.todo': 'Jede Person muss jedes Teil mindestens zweimal messen.',
  'figures.study/unbalanced':
    'Person { $person } hat Teil { $part } { $times ->\n  [0] nie\n  [one] einmal\n *[other] { $times }-mal\n } gemessen, andere { $usual }-mal.',
  'figures.study/unbalanced.todo':
    'Jede Person soll jedes Teil gleich oft messen; sonst das Teil herausnehmen.',
  'figures.study/large': '{ $parts } Teile und { $people } Personen sind mehr, als eine Untersuchung fasst.',
  'figures.study/large.todo': 'Die Spalten von --part und --person prüfen.',
  'figures.study/references': 'Für die Linearität braucht es mindestens zwei Bezugswerte.',
  'figures.study/references.todo': 'Mehrere Bezugswerte über den Messbereich messen.',
};
