/** The keys that answer what is asked now, for the footer: those and no others stand before the rest. */
import type { RouteCheck } from '../../procedure/types.js';
import type { World } from '../../session/ports.js';
import { currentField, type FormScreen } from '../forms/fields.js';
import type { KeyName } from '../keys/split.js';
import { type CommandId, command } from '../keys/table.js';
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
  if (!check || !stand.check) return stand.step.status === 'held' ? [key('release', 'release')] : [];
  const isWhole = check.kind === 'square' && !squareNext(stand.check);
  return isWhole ? ANSWERS.tick : ANSWERS[check.kind];
}

const key = (id: CommandId, words: string): WordedKey => ({ key: command(id).keys[0]!, words });

const YES = key('yes', 'yes');
const MARK = [key('up', 'up'), key('down', 'down')];
const TYPED = [key('act', 'logs what is typed')];
const ANSWERS: Readonly<Record<RouteCheck['kind'], readonly WordedKey[]>> = {
  tick: [YES],
  'go-no-go': [YES, key('no', 'no')],
  choice: [...MARK, key('act', 'choose')],
  number: TYPED,
  count: TYPED,
  text: TYPED,
  square: TYPED,
};

const BACK_ONE = key('no', 'one back');

function formKeys(screen: FormScreen, state: BenchState, world: World): readonly WordedKey[] {
  const field = currentField(screen, state, world);
  if (!field) return [key('yes', 'do it'), BACK_ONE];
  return field.choices.length > 0
    ? [...MARK, key('yes', 'take it'), BACK_ONE]
    : [key('act', 'takes what is typed'), BACK_ONE];
}
