/** The bench's keys as data: source of the footer, help page, command menu and README, which therefore always agree. */
import type { ScreenName } from '../state.js';
import type { KeyName } from './split.js';

export type CommandId =
  | 'help'
  | 'units'
  | 'stages'
  | 'steps'
  | 'lists'
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
  /** Label in the footer and the menu. */
  readonly short: string;
  /** Text on the help page. */
  readonly words: string;
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
  'help',
];

/** Footer and menu label, and help page text, of each command. */
const COMMAND_WORDS: Readonly<Record<CommandId, readonly [short: string, words: string]>> = {
  yes: [
    'yes',
    'Yes, done, go; in a form: take what is marked, and at its end do it. On an empty entry line.',
  ],
  no: ['no', 'No-go; in a form: one question back. On an empty entry line.'],
  act: [
    'act',
    'Acts on what stands on the entry line: a number is a reading, a code is a scan, anything else is asked about. On an empty line Enter does nothing but choose in a list that was moved with the arrows.',
  ],
  up: ['up', 'One up in a list.'],
  down: ['down', 'One down in a list.'],
  'page-up': ['page up', 'A page up.'],
  'page-down': ['page down', 'A page down.'],
  back: ['back', 'Empties the entry line; on an empty one goes back. Never writes anything.'],
  help: ['keys', 'This page of keys.'],
  units: ['units', 'All units and where they stand; choose another one.'],
  stages: [
    'by stage',
    'Steps open across all units, where choosing one takes that step over its units in turn; again for the hand-over page, and back to the units.',
  ],
  steps: ['steps', 'The steps of this unit, found as one types; jump to any that is open.'],
  person: ['person', 'Who is at the bench. A scan of a person does the same.'],
  lists: [
    'lists',
    'What this unit is made from: cutting, machining, kit, glass, packers and hardware, with what is done; Right and Left turn to the next list, this key again to the lists of the batch and of the job.',
  ],
  why: [
    'why',
    'The sum behind the number on the screen, and where its constants are from; with the caution, the limits and the instructions whole, where the screen had to crop them.',
  ],
  measured: [
    'as measured',
    'The frame or sash squared last: drawn as it was measured, with its verdict and what to do next.',
  ],
  anew: ['all anew', 'Begin a set of readings anew, from the first one.'],
  snags: ['snag', 'Raise a snag; decide or close one that is open.'],
  setups: [
    'set-ups',
    'The saw, punches and jigs: which are proven on first-offs, and until when. Choosing one proves it or ends it.',
  ],
  rework: ['rework', 'Make a step again. Shows first what that re-opens, and why.'],
  release: [
    'release',
    'Release the hold at hand: this key shows it, this key again releases it. Enter never does.',
  ],
  unit: ['overview', 'The stages of this unit and where it stands.'],
  menu: ['menu', 'All commands as a list.'],
  instrument: ['instrument', 'The instrument in hand. A scan of an instrument does the same.'],
  park: ['park', 'Park this unit, or take it up again.'],
  note: ['note', "Write a note into this unit's journal."],
  'put-right': [
    'put right',
    'Take back the last answer or reading, with a reason. It stays in the journal and stops counting.',
  ],
  language: [
    'language',
    "The steps of this unit in the next language that the procedure was translated into; in each person's own at first.",
  ],
  leave: [
    'leave',
    'Leave the bench. All that was acknowledged is on disk; the unit is taken up at the same check.',
  ],
};

type Row = Pick<Command, 'id' | 'keys' | 'on'> & Partial<Pick<Command, 'needsUnit' | 'inMenu'>>;
const ROWS: readonly Row[] = [
  { id: 'yes', keys: ['right'], on: ['step', 'form', 'question', 'measured', 'lists', 'leave'] },
  { id: 'no', keys: ['left'], on: ['step', 'form', 'question', 'lists', 'leave'] },
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

export const COMMANDS: readonly Command[] = ROWS.map((row) => {
  const [short, words] = COMMAND_WORDS[row.id];
  return { needsUnit: false, inMenu: false, ...row, short, words };
});

export function commandOf(name: KeyName): Command | undefined {
  return BY_KEY.get(name);
}

export const command = (id: CommandId): Command => COMMANDS.find((each) => each.id === id)!;

export interface WordedKey {
  readonly key: KeyName;
  readonly words: string;
}

export const worded = (id: CommandId, words: string): WordedKey => ({ key: command(id).keys[0]!, words });
export const MARKING: readonly WordedKey[] = [worded('up', 'up'), worded('down', 'down')];

/** A key as displayed: `F5`, `^W`, `Right`. */
export function keyText(name: KeyName): string {
  if (name.startsWith('ctrl+')) return `^${name.slice(5).toUpperCase()}`;
  if (/^f\d+$/.test(name)) return name.toUpperCase();
  const words: Record<string, string> = { escape: 'Esc', 'page-up': 'PgUp', 'page-down': 'PgDn' };
  return words[name] ?? name[0]!.toUpperCase() + name.slice(1);
}

/** The commands in a screen's footer, most important first. */
export function footerOf(screen: ScreenName): readonly Command[] {
  return (FOOTERS[screen] ?? ['back', 'help', 'menu']).map(command);
}

/** The table as Markdown, for the README. */
export function keysMarkdown(): string {
  const rows = COMMANDS.map(({ keys, words }) => `| ${keys.map(keyText).join(', ')} | ${words} |`);
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
