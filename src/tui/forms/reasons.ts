/** The usual reasons, so that nobody has to type one with sealant on their gloves. Words of one's own are always taken. */
import { CAUSES } from '../../unit/causes.js';
import type { Item } from '../lists.js';

export const causeItems: readonly Item[] = CAUSES.map((id) => ({ id, text: id.replaceAll('-', ' ') }));

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
