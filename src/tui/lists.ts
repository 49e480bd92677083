/** What can be chosen on each screen. The reducer chooses from these lists and the screens draw them: one list, not two. */

import { SQUARE_KEYS } from '../measure/types.js';
import type { OpenUnit, World } from '../session/ports.js';
import { timeText } from '../unit/clock.js';
import { toBeSnagged } from '../unit/setups.js';
import type { CheckState, StepState } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import { currentField } from './forms/fields.js';
import { COMMANDS, keyText } from './keys/table.js';
import { asked, SQUARE_WORDS, squareNext, standOf, unitAt } from './stand.js';
import type { BenchState } from './state.js';
import { readText, STANDING, STATUS } from './words.js';

export interface Item {
  readonly id: string;
  readonly text: string;
  /** Shape and word that tell its standing, before the text. */
  readonly sign?: string;
  /** Cannot be chosen now. */
  readonly shut?: boolean;
}

export function listOf(state: BenchState, world: World): readonly Item[] {
  switch (state.screen.name) {
    case 'units':
      return unitItems(world, state.entry);
    case 'stages':
      return stageRows(world);
    case 'unit':
      return world.open
        ? [...keeperItems(world.open), ...problemItems(world.open.state), ...stageItems(world.open.state)]
        : [];
    case 'setups':
      return setupItems(world);
    case 'steps':
      return world.open ? [...world.open.state.steps.values()].map(stepItem) : [];
    case 'people':
      return world.rules.people.map(({ id, initials, name }) => ({
        id,
        text: `${initials.padEnd(6)} ${name}`,
      }));
    case 'instruments':
      return instrumentItems(state, world);
    case 'menu':
      return COMMANDS.filter((each) => each.inMenu && (!each.needsUnit || world.open)).map((each) => ({
        id: each.id,
        text: `${each.short.padEnd(12)} ${each.keys.map(keyText).join(' or ')}`,
      }));
    case 'snags':
      return world.open ? snagItems(world.open.state) : [];
    case 'form':
      return currentField(state.screen, state, world)?.choices ?? [];
    case 'step': {
      const stand = world.open && standOf(world.open.state, state.at);
      return stand?.check ? checkItems(stand.check, stand.step, state, world) : [];
    }
    default:
      return [];
  }
}

/** Those that the check at hand is read with come first. */
function instrumentItems(state: BenchState, world: World): readonly Item[] {
  const wanted = new Set<string>(asked(state, world)?.check?.instruments);
  const fits = world.instruments.filter(({ kind }) => wanted.has(kind));
  const others = world.instruments.filter(({ kind }) => !wanted.has(kind));
  return [...fits, ...others].map(({ id, title, due }) => ({
    id,
    text: `${id.padEnd(6)} ${title}${due ? `, due ${due}` : ''}`,
  }));
}

/** Steps across units: how many are open, how many wait for a release, and how many units begin here. */
function stageRows({ more }: World): readonly Item[] {
  const stages = more?.stages() ?? [];
  const widest = stages.reduce((most, { title }) => Math.max(most, title.length), 0);
  return stages.map(({ base, title, open, held, notStarted = [] }) => ({
    id: base,
    sign: open.length > 0 ? '>' : held.length > 0 ? '#' : '.',
    text: `${title.padEnd(Math.min(50, widest))}  ${[
      ...(open.length > 0 ? [`${open.length} open`] : []),
      ...(held.length > 0 ? [`${held.length} held`] : []),
      ...(notStarted.length > 0 ? [`${notStarted.length} not started`] : []),
    ].join(', ')}  ${[...open, ...held, ...notStarted]
      .map(({ unit }) => unit)
      .slice(0, 8)
      .join(' ')}`,
  }));
}

/** Rows that a page key moves by. */
export const PAGE = 10;

/** Units whose job, id or standing holds what is on the entry line. Kept from key to key: a board may have thousands. */
export function unitItems(world: World, query: string): readonly Item[] {
  const wanted = query.trim().toLowerCase();
  if (lastFound?.board === world.board && lastFound.query === wanted) return lastFound.items;
  const items = boardText(world.board)
    .filter(({ find }) => wanted === '' || find.includes(wanted))
    .map(({ item }) => item);
  lastFound = { board: world.board, query: wanted, items };
  return items;
}

let lastFound: { board: World['board']; query: string; items: readonly Item[] } | undefined;
const boardTexts = new WeakMap<World['board'], readonly { readonly find: string; readonly item: Item }[]>();

function boardText(board: World['board']) {
  const kept = boardTexts.get(board);
  if (kept) return kept;
  const widest = board.reduce((most, { unit }) => Math.max(most, unit.length), 0);
  const made = board.map((row) => {
    const { sign, word } = STANDING[row.standing];
    const done = row.total > 0 ? `${row.done}/${row.total}` : '';
    return {
      find: `${row.job}/${row.unit} ${word}`.toLowerCase(),
      item: {
        id: `${row.job}/${row.unit}`,
        sign,
        text: `${row.unit.padEnd(widest)}  ${row.size.padEnd(11)}  ${word.padEnd(11)}  ${done.padStart(7)}  ${row.where || row.sentence}`,
      },
    };
  });
  boardTexts.set(board, made);
  return made;
}

/** What a check offers by arrows: its choices, or the ways out of a failure. */
function checkItems(check: CheckState, step: StepState, state: BenchState, world: World): readonly Item[] {
  const asked = step.step.checks.find(({ id }) => id === check.id);
  const read = asked ? unitAt(asked, state, world) : 'mm';
  if (check.answered && !check.holds) {
    return [
      {
        id: 'again',
        text: asked?.kind === 'tick' || asked?.kind === 'go-no-go' ? 'check it again' : 'measure again',
      },
      { id: 'rework', text: 'rework now' },
      { id: 'snag', text: 'raise a snag and park the unit' },
    ];
  }
  if (check.partial && squareNext(check) === undefined)
    return SQUARE_KEYS.map((key) => ({
      id: key,
      text: `${SQUARE_WORDS[key]} ${check.partial?.[key]?.map(({ value }) => readText(value, read)).join(', ') ?? ''}`,
    }));
  return asked?.choices?.map(({ id, text }) => ({ id, text })) ?? [];
}

/** A unit that is looked at only, and behind whose lock perhaps nobody is. */
export const TAKE_OVER = 'take-over:';
const keeperItems = ({ keptBy }: OpenUnit): readonly Item[] =>
  keptBy && !keptBy.runs ? [{ id: TAKE_OVER, sign: '!', text: `take it over from ${keptBy.who}` }] : [];

/** The set-ups: valid until when, or why not, and how many units are in doubt. */
function setupItems({ more, now }: World): readonly Item[] {
  const rows = more?.setups() ?? [];
  const widest = rows.reduce((most, { standing }) => Math.max(most, standing.rule.title.length), 0);
  return rows.map(({ standing, inDoubt }) => {
    const { rule, valid, because, until } = standing;
    const state = valid
      ? `proven${until === undefined ? '' : ` until ${timeText(until, now)}`}`
      : `to be proven: ${because.replace(`${rule.title}: `, '')}`;
    const doubt = inDoubt ? toBeSnagged(inDoubt).length : 0;
    return {
      id: rule.id,
      sign: valid ? 'v' : 'X',
      text: `${rule.title.padEnd(widest)}  ${doubt > 0 ? `${doubt} ${doubt === 1 ? 'unit' : 'units'} in doubt; ` : ''}${state}`,
    };
  });
}

/** What the order check holds against the unit: each may be let pass by somebody with the right. */
export const PROBLEM = 'problem:';
function problemItems(unit: UnitState): readonly Item[] {
  return unit.orderProblems.map(({ id, text }) => ({
    id: PROBLEM + id,
    sign: 'X',
    text: `refused: ${text}`,
  }));
}

function stageItems(unit: UnitState): readonly Item[] {
  const widest = unit.route.stages.reduce((most, { title }) => Math.max(most, title.length), 0);
  return unit.route.stages.map((stage) => {
    const steps = stage.steps.map((id) => unit.steps.get(id)).filter((step) => step !== undefined);
    const done = steps.filter(({ status }) => status === 'done').length;
    const word = stageWord(steps);
    return {
      id: stage.id,
      sign: word.sign,
      text: `${stage.title.padEnd(Math.min(36, widest))} ${`${done}/${steps.length}`.padStart(5)} ${word.word}`,
    };
  });
}

/** The standing of a stage: what is worst of its steps. */
function stageWord(steps: readonly StepState[]): { readonly sign: string; readonly word: string } {
  for (const status of ['failed', 'held', 'stale', 'begun', 'ready'] as const)
    if (steps.some((step) => step.status === status)) return STATUS[status];
  return steps.every(({ status }) => status === 'done') ? STATUS.done : STATUS.waiting;
}

function stepItem({ step, status, because, open }: StepState): Item {
  const item = step.item !== undefined && !step.title.includes(step.item) ? ` ${step.item}` : '';
  const why = open ? undefined : because[0];
  return {
    id: step.id,
    sign: STATUS[status].sign,
    text: `${step.title}${item}  ${STATUS[status].word}${why ? `: ${why}` : ''}`,
    shut: !open && status !== 'done' && status !== 'held',
  };
}

function snagItems(unit: UnitState): readonly Item[] {
  return [
    { id: 'new', sign: '+', text: 'raise a new snag' },
    ...unit.snags.map((snag) => ({
      id: String(snag.n),
      sign: snag.open ? '!' : 'v',
      text: `#${snag.n} ${snag.raised.severity}: ${snag.raised.text}  ${
        snag.open ? (snag.decided ? `open, ${snag.decided.disposition}` : 'open, not decided') : 'closed'
      }`,
    })),
  ];
}
