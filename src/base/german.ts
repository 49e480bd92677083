/** What can be wrong with a file or a formula, in German. */
import type { Translation } from '../base/words.js';
import type { FAULT_WORDS } from './faultwords.js';
import type { FORMULA_MESSAGES } from './formula.js';
import type { YAML_MESSAGES } from './positionedyaml.js';

export const BASE_GERMAN: Translation<typeof YAML_MESSAGES & typeof FORMULA_MESSAGES & typeof FAULT_WORDS> = {
  'file.yaml': '{ $fault }',
  'file.yaml.todo': 'Die genannte Zeile berichtigen; nur mit Leerzeichen einrücken.',
  'file.yaml/quotes': '{ $fault }',
  'file.yaml/quotes.todo':
    'Einen Text oder eine Formel mit Doppelpunkt und Leerzeichen in einfache Anführungszeichen setzen.',
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
  'file.schema/value': '{ $path }: { $fault }',
  'file.schema/value.todo': '„{ $near }“ schreiben, oder eines von diesen: { $known }.',
  'file.schema/key': '{ $path }: Diese Angabe ist hier unbekannt',
  'file.schema/key.todo': 'Bekannt sind hier: { $known }.',
  'file.schema/near': '{ $path }: Diese Angabe ist hier unbekannt; „{ $near }“ gibt es',
  'file.schema/near.todo': '„{ $near }“ schreiben, oder eine andere hier bekannte Angabe: { $known }.',
  'file.control': '{ $path }: { $fault }',
  'file.control.todo': 'Den Text neu tippen; nur sichtbare Zeichen werden angenommen.',
  'formula.syntax': '„{ $formula }“: { $fault }',
  'formula.syntax.todo': 'Die Formel berichtigen; was sie enthalten darf, steht im Handbuch.',
  'formula.type': '„{ $formula }“: { $fault }',
  'formula.type.todo': 'Die Namen nehmen, die das Handbuch für diese Stelle nennt.',
  'formula.type/near': '„{ $formula }“: { $fault }',
  'formula.type/near.todo':
    '„{ $near }“ schreiben, oder einen anderen Namen, den das Handbuch für diese Stelle nennt.',
  'formula.type/whole': '„{ $formula }“: { $fault }',
  'formula.type/whole.todo': 'Die ganze Zahl dort mit Punkt schreiben: 0.0 statt 0.',
  'formula.result': '„{ $formula }“ ergibt { $given }; hier ist { $wanted } verlangt.',
  'formula.result.todo': 'Die Formel so schreiben, dass sie die verlangte Art ergibt.',
  'fault-missing': 'Diese Angabe fehlt; verlangt ist { $wanted }',
  'fault-kind': 'hier ist { $wanted } verlangt',
  'fault-unknown': '„{ $given }“ ist hier unbekannt; bekannt sind { $known }',
  'fault-exactly': 'hier steht „{ $given }“; es muss „{ $wanted }“ sein',
  'fault-few-items':
    '{ $n ->\n  [one] hier muss mindestens ein Eintrag stehen\n *[other] hier müssen mindestens { $n } Einträge stehen\n}',
  'fault-many-items':
    '{ $n ->\n  [one] hier darf höchstens ein Eintrag stehen\n *[other] hier dürfen höchstens { $n } Einträge stehen\n}',
  'fault-short': 'hier müssen mindestens { $n } Zeichen stehen',
  'fault-long': 'hier dürfen höchstens { $n } Zeichen stehen',
  'fault-least': 'es muss mindestens { $least } sein',
  'fault-more': 'es muss mehr als { $least } sein',
  'fault-most': 'es darf höchstens { $most } sein',
  'fault-less': 'es muss weniger als { $most } sein',
  'fault-forms': 'es hat keine der Formen, die hier stehen dürfen',
  'kind-string': 'ein Text',
  'kind-number': 'eine Zahl',
  'kind-int': 'eine ganze Zahl',
  'kind-boolean': 'true oder false',
  'kind-array': 'eine Liste',
  'kind-object': 'eine Gruppe von Angaben',
  'kind-other': 'eine andere Art von Wert',
};
