/** The keys that answer what is asked now, for the footer: those and no others stand before the rest. */
import type { RouteCheck } from '../../procedure/types.js';
import { currentField, type FormScreen } from '../forms/fields.js';
import type { KeyName } from '../keys/split.js';
import type { World } from '../ports.js';
import { asked, squareNext } from '../stand.js';
import type { BenchState } from '../state.js';

export interface WordedKey {
  readonly key: KeyName;
  readonly words: string;
}

export function answerKeys(state: BenchState, world: World): readonly WordedKey[] {
  const { screen } = state;
  if (screen.name === 'form') return formKeys(screen, state, world);
  const at = screen.name === 'step' ? asked(state, world) : undefined;
  if (!at) return [];
  const { stand, check } = at;
  if (!check || !stand.check) return stand.step.status === 'held' ? [key('f8', 'release')] : [];
  const isWhole = check.kind === 'square' && !squareNext(stand.check);
  return isWhole ? ANSWERS.tick : ANSWERS[check.kind];
}

const key = (name: KeyName, words: string): WordedKey => ({ key: name, words });

const YES = key('right', 'yes');
const MARK = [key('up', 'up'), key('down', 'down')];
const TYPED = [key('enter', 'logs what is typed')];
const ANSWERS: Readonly<Record<RouteCheck['kind'], readonly WordedKey[]>> = {
  tick: [YES],
  'go-no-go': [YES, key('left', 'no')],
  choice: [...MARK, key('enter', 'choose')],
  number: TYPED,
  count: TYPED,
  text: TYPED,
  square: TYPED,
};

const BACK_ONE = key('left', 'one back');

function formKeys(screen: FormScreen, state: BenchState, world: World): readonly WordedKey[] {
  const field = currentField(screen, state, world);
  if (!field) return [key('right', 'do it'), BACK_ONE];
  return field.choices.length > 0
    ? [...MARK, key('right', 'take it'), BACK_ONE]
    : [key('enter', 'takes what is typed'), BACK_ONE];
}
