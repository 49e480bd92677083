/** The bench's keys as data: source of the footer, help page, command menu and README, which therefore always agree. */
import { data, type Spoken } from '../../base/words.js';
import type { ScreenName } from '../state.js';
import { BENCH_WORDS } from '../words/en.js';
import { type BenchSay, told } from '../words/told.js';
import type { KeyName } from './split.js';

export type CommandId =
  | 'help'
  | 'units'
  | 'stages'
  | 'steps'
  | 'lists'
  | 'figures'
  | 'person'
  | 'why'
  | 'measured'
  | 'anew'
  | 'snags'
  | 'setups'
  | 'rework'
  | 'release'
  | 'unit'
  | 'menu'
  | 'instrument'
  | 'park'
  | 'note'
  | 'put-right'
  | 'language'
  | 'leave'
  | 'yes'
  | 'no'
  | 'up'
  | 'down'
  | 'page-up'
  | 'page-down'
  | 'act'
  | 'back';

export interface Command {
  readonly id: CommandId;
  readonly keys: readonly KeyName[];
  /** Screens on which the command works. */
  readonly on: 'any' | readonly ScreenName[];
  readonly needsUnit: boolean;
  readonly inMenu: boolean;
}

const WORK: readonly ScreenName[] = ['step', 'unit', 'steps', 'why', 'measured'];
const LISTS: readonly ScreenName[] = [
  'units',
  'stages',
  'unit',
  'steps',
  'people',
  'instruments',
  'menu',
  'snags',
  'setups',
  'form',
  'step',
  'why',
  'measured',
  'handover',
  'lists',
  'figures',
  'help',
];

type Row = Pick<Command, 'id' | 'keys' | 'on'> & Partial<Pick<Command, 'needsUnit' | 'inMenu'>>;
const ROWS: readonly Row[] = [
  { id: 'yes', keys: ['right'], on: ['step', 'form', 'question', 'measured', 'lists', 'figures', 'leave'] },
  { id: 'no', keys: ['left'], on: ['step', 'form', 'question', 'lists', 'figures', 'leave'] },
  { id: 'act', keys: ['enter', 'tab'], on: 'any' },
  { id: 'up', keys: ['up'], on: LISTS },
  { id: 'down', keys: ['down'], on: LISTS },
  { id: 'page-up', keys: ['page-up'], on: LISTS },
  { id: 'page-down', keys: ['page-down'], on: LISTS },
  { id: 'back', keys: ['escape'], on: 'any' },
  { id: 'help', keys: ['f1', 'ctrl+g'], on: 'any', inMenu: true },
  { id: 'units', keys: ['f2', 'ctrl+u'], on: 'any', inMenu: true },
  { id: 'stages', keys: ['ctrl+f'], on: 'any', inMenu: true },
  { id: 'steps', keys: ['f3', 'ctrl+t'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'lists', keys: ['insert'], on: [...WORK, 'lists'], needsUnit: true, inMenu: true },
  { id: 'figures', keys: ['backtab'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'person', keys: ['f4', 'ctrl+p'], on: 'any', inMenu: true },
  { id: 'why', keys: ['f5', 'ctrl+w'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'measured', keys: ['end'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'anew', keys: ['home'], on: ['step', 'question', 'measured'], needsUnit: true, inMenu: true },
  { id: 'snags', keys: ['f6', 'ctrl+n'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'setups', keys: ['f11', 'ctrl+d'], on: 'any', inMenu: true },
  { id: 'rework', keys: ['f7', 'ctrl+r'], on: WORK, needsUnit: true, inMenu: true },
  {
    id: 'release',
    keys: ['f8', 'ctrl+l'],
    on: ['step', 'unit', 'steps', 'release'],
    needsUnit: true,
    inMenu: true,
  },
  { id: 'unit', keys: ['f9', 'ctrl+o'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'menu', keys: ['f10', 'ctrl+k'], on: 'any' },
  { id: 'instrument', keys: ['ctrl+e'], on: 'any', inMenu: true },
  { id: 'park', keys: ['ctrl+b'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'note', keys: ['ctrl+y'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'put-right', keys: ['ctrl+z', 'f12'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'language', keys: ['ctrl+a'], on: WORK, needsUnit: true, inMenu: true },
  { id: 'leave', keys: ['ctrl+x', 'ctrl+c'], on: 'any', inMenu: true },
];

export const COMMANDS: readonly Command[] = ROWS.map((row) => ({ needsUnit: false, inMenu: false, ...row }));

export function commandOf(name: KeyName): Command | undefined {
  return BY_KEY.get(name);
}

export const command = (id: CommandId): Command => COMMANDS.find((each) => each.id === id)!;

/** A key in the footer, with what it does there. */
export interface WordedKey {
  readonly key: KeyName;
  readonly words: Spoken;
}

export const worded = (id: CommandId, words: Spoken): WordedKey => ({ key: command(id).keys[0]!, words });
/** The arrows that mark in a list. */
export const marking = (say: BenchSay): readonly WordedKey[] => [
  worded('up', say('key-up')),
  worded('down', say('key-down')),
];

/** A key as displayed: `F5`, `^W`, `Right`. */
export function keyText(name: KeyName, say: BenchSay): Spoken {
  if (name.startsWith('ctrl+')) return data(`^${name.slice(5).toUpperCase()}`);
  const id = `name-${name}`;
  return id in BENCH_WORDS ? say(id as 'name-right') : data(name.toUpperCase());
}

/** The commands in a screen's footer, most important first. */
export function footerOf(screen: ScreenName): readonly Command[] {
  return (FOOTERS[screen] ?? ['back', 'help', 'menu']).map(command);
}

/** The table as Markdown, for the README. */
export function keysMarkdown(): string {
  const say = told({});
  const rows = COMMANDS.map(
    ({ id, keys }) => `| ${keys.map((key) => keyText(key, say)).join(', ')} | ${say(`key-${id}-help`)} |`,
  );
  return ['| key | what it does |', '|---|---|', ...rows].join('\n');
}

const FOOTERS: Partial<Record<ScreenName, readonly CommandId[]>> = {
  units: ['act', 'stages', 'person', 'help', 'menu', 'leave'],
  stages: ['act', 'stages', 'back', 'help'],
  handover: ['stages', 'back', 'help'],
  unit: ['steps', 'rework', 'snags', 'units', 'help', 'menu'],
  measured: ['yes', 'anew', 'snags', 'rework', 'put-right', 'why', 'help'],
  step: ['why', 'put-right', 'snags', 'units', 'help', 'rework', 'menu'],
  steps: ['act', 'back', 'unit', 'units', 'help'],
  lists: ['lists', 'back', 'units', 'help'],
  figures: ['back', 'units', 'help'],
  setups: ['act', 'back', 'person', 'instrument', 'help'],
  people: ['act', 'back', 'help', 'menu'],
  instruments: ['act', 'back', 'help', 'menu'],
  snags: ['act', 'back', 'help', 'menu'],
  menu: ['act', 'back', 'help'],
  release: ['release', 'back', 'person', 'help'],
  form: ['back', 'help'],
  question: ['yes', 'no', 'anew', 'back'],
  leave: ['yes', 'no'],
};

const BY_KEY = new Map(COMMANDS.flatMap((each) => each.keys.map((name) => [name, each] as const)));
