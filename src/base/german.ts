/** What can be wrong with a file or a formula, in German. */
import type { Translation } from '../base/words.js';
import type { FORMULA_MESSAGES } from './formula.js';
import type { YAML_MESSAGES } from './positionedyaml.js';

export const BASE_GERMAN: Translation<typeof YAML_MESSAGES & typeof FORMULA_MESSAGES> = {
  'file.yaml': '{ $fault }',
  'file.yaml.todo': 'Die genannte Zeile berichtigen; nur mit Leerzeichen einrücken.',
  'file.yaml/key': 'Vor einem Doppelpunkt steht eine Liste oder eine Tabelle statt eines Namens.',
  'file.too-large': 'Die Datei hat { $count } Zeichen; erlaubt sind { $largest }.',
  'file.too-large.todo': 'Die Datei aufteilen oder herausnehmen, was nicht hineingehört.',
  'file.alias': 'Die Datei enthält einen Anker oder einen Alias.',
  'file.alias.todo': 'Den Wert ausschreiben; Anker und Aliase werden nicht angenommen.',
  'file.deep': 'Die Datei ist mehr als { $deepest } Ebenen tief verschachtelt.',
  'file.deep.todo': 'Höchstens 40 Ebenen verschachteln.',
  'file.deep/brackets': 'In Klammern werden immer neue Klammern geöffnet.',
  'file.schema': '{ $path }: { $fault }',
  'file.schema.todo': 'Welche Angaben die Datei kennt, steht im Handbuch dieses Dateiformats.',
  'file.schema/key': '{ $path }: Diese Angabe ist hier unbekannt',
  'file.control': '{ $path }: { $fault }',
  'file.control.todo': 'Den Text neu tippen; nur sichtbare Zeichen werden angenommen.',
  'formula.syntax': '„{ $formula }“: { $fault }',
  'formula.syntax.todo': 'Die Formel berichtigen; was sie enthalten darf, steht im Handbuch.',
  'formula.type': '„{ $formula }“: { $fault }',
  'formula.type.todo': 'Die Namen nehmen, die das Handbuch für diese Stelle nennt.',
  'formula.result': '„{ $formula }“ ergibt { $given }; hier ist { $wanted } verlangt.',
  'formula.result.todo': 'Die Formel so schreiben, dass sie die verlangte Art ergibt.',
};
