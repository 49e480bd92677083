/** Common causes and reasons, offered by the forms; free text is always taken. */
import type { Item } from './screen.js';

/** Cause codes that cover most snags (common practice). Free text is accepted too. */
const CAUSES = [
  'order-handing',
  'survey-size',
  'list-deduction',
  'wrong-revision',
  'wrong-material',
  'saw-set-up',
  'machining-position',
  'missed-operation',
  'orientation-mirror',
  'cleat-crimp',
  'sealant',
  'squaring',
  'twist-bow',
  'divider-seal',
  'gasket',
  'hardware-position',
  'packer',
  'glass',
  'handling-transport',
  'paperwork-label',
  'measuring-error',
  'design-limit',
] as const;

export const causeItems: readonly Item[] = CAUSES.map((id) => ({ id, text: id.replaceAll('-', ' ') }));

/** Common reasons, so that nobody has to type one with sealant on their gloves. Free text is always accepted. */
const REASONS: Readonly<Record<string, readonly string[]>> = {
  'put-right': [
    'typed wrongly',
    'misread the instrument',
    'answered for the wrong place',
    'not done after all',
  ],
  rework: ['out of limits', 'damaged', 'sealant gone off', 'wrong part fitted'],
  park: ['waiting for material', 'waiting for a decision', 'the bench is needed', 'end of the shift'],
  snag: ['as measured', 'seen by eye', 'found on handling'],
  decide: [
    'can be made again here',
    'agreed with the customer',
    'not worth making good',
    'fault of the supply',
  ],
  containment: ['set aside with a red tag', 'the machine is stopped', 'nothing more is needed'],
  close: ['measured again and passes', 'inspected and in order'],
  'take-over': [
    'that bench is switched off',
    'the program ended there without letting go',
    'agreed with the person there',
  ],
  override: ['agreed with the customer', 'confirmed by the profile maker'],
};

export const reasonItems = (form: string): readonly Item[] =>
  (REASONS[form] ?? []).map((text) => ({ id: text, text }));
