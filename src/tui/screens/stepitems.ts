import { utcText } from '../../base/wallclock.js';
import { data, laid, type Spoken } from '../../base/words.js';
import type { RouteCheck } from '../../procedure/types.js';
import type { World } from '../../session/ports.js';
import { lookAt } from '../../unit/looks.js';
import { isSet, placesOf } from '../../unit/sets.js';
import type { CheckState, LotUsed, StepState } from '../../unit/types.js';
import { send, takeLot } from '../answers.js';
import { citesAt } from '../cited.js';
import { asked, offersOf, unitAt } from '../currenttask.js';
import { say, showForm, stay } from '../navigate.js';
import type { Update } from '../protocol.js';
import { type BenchState, TOP } from '../state.js';
import { placeSaid, readText } from '../theme.js';
import { type BenchSay, told } from '../words/told.js';
import type { Item } from './screen.js';
import { snagHere } from './snags.js';

/** What the arrows offer at a check: the readings of a set, its choices, lots in use, and the ways out of a failure. */
export function checkItems(
  check: CheckState,
  step: StepState,
  state: BenchState,
  world: World,
): readonly Item[] {
  const asked = step.step.checks.find(({ id }) => id === check.id);
  if (!asked || citesAt(step, state, world).length > 0) return [];
  const together = lookAt(step);
  if (together.length > 0) return together.map(({ id, ask }) => ({ id, text: data(ask) }));
  const failed = check.answered !== undefined && !check.holds;
  return [
    ...(isSet(asked) && check.partial ? readingItems(asked, check, state, world) : []),
    ...(failed ? waysOut(asked, step, world) : []),
    ...(failed
      ? []
      : (asked.choices ?? []).map(({ id, text }, i) => ({ id, text: laid`${i + 1}  ${data(text)}` }))),
    ...(failed
      ? []
      : offersOf(asked, world).map((lot, i) => ({ id: `${i}`, text: lotText(lot, i, told(world)) }))),
  ];
}

const branchOf = (stage: string, open: World['open']): string | undefined =>
  open?.state.route.stages.find(({ id }) => id === stage)?.branch;

/** Measure again, make again the part that was made wrong, or this step, or raise a snag. */
function waysOut({ kind }: RouteCheck, { step }: StepState, world: World): readonly Item[] {
  const { open } = world;
  const say = told(world);
  const makers = (open?.state.derived.marks.graph.nodes.get(step.id)?.restsOn ?? [])
    .map((link) => open!.state.steps.get(link.step))
    .filter((maker) => maker?.madeAt !== undefined)
    // An order that was agreed, or goods that were taken in, are not what failed here.
    .filter((maker) => maker!.step.stage === step.stage || branchOf(maker!.step.stage, open) !== 'all')
    .slice(-3)
    .reverse();
  const again = say(AGAIN.find((each) => each === `again-${kind}`) ?? 'again-check');
  return [
    ...(kind === 'square' || kind === 'points' ? [] : [{ id: 'again', text: again }]),
    ...[...new Map(makers.map((maker) => [maker!.step.id, maker!.step.title]))].map(([id, title]) => ({
      id: `${MAKE}${id}`,
      text: say('make-again', { step: title }),
    })),
    { id: `${MAKE}${step.id}`, text: say('do-again', { step: step.title }) },
    { id: 'snag', text: say('snag-and-park') },
  ];
}

const AGAIN = ['again-number', 'again-count', 'again-choice', 'again-text'] as const;

/** Before the id of a step to be made again. */
const MAKE = 'make:';

/** The readings of the set at hand. */
export function setItems(state: BenchState, world: World): readonly Item[] {
  const at = asked(state, world);
  return at?.check && at.task.check && isSet(at.check)
    ? readingItems(at.check, at.task.check, state, world)
    : [];
}

function readingItems(
  check: RouteCheck,
  { partial }: CheckState,
  state: BenchState,
  world: World,
): readonly Item[] {
  const unit = unitAt(check, state, world);
  return placesOf(check).map(({ key, time, text }) => {
    const reading = partial?.[key]?.[time - 1];
    return {
      id: `${key} ${time}`,
      text: laid`${placeSaid(text, told(world))}  ${reading ? withTool(told(world).figure(readText(reading.value, unit)), reading.instrument, told(world)) : data('...')}`,
    };
  });
}

const withTool = (reading: Spoken, tool: string | undefined, say: BenchSay): Spoken =>
  tool === undefined ? reading : say('reading-with', { reading, tool });

function lotText({ code, expires, at }: LotUsed, i: number, say: BenchSay): Spoken {
  const lot = expires === undefined ? code : say('done-until', { lot: code, date: expires });
  const offered = say('lot-offered', { lot, day: utcText(at) });
  return i === 0 ? laid`${offered} ${say('right-takes')}` : offered;
}

export function chooseAtCheck(state: BenchState, item: Item, world: World): Update {
  const at = asked(state, world);
  if (!at?.task.check || !at.check) return stay(state);
  const { check } = at;
  if (lookAt(at.task.step).length > 0) return stay(say(state, 'ask', told(world)('left-says')));
  const staying = { ...state, screen: { ...state.screen, cursor: TOP } };
  if (item.id.startsWith(MAKE))
    return stay(showForm(staying, { id: 'rework', step: item.id.slice(MAKE.length) }));
  if (item.id === 'snag') return stay(showForm(staying, snagHere(state, world)));
  if (isSet(check))
    return stay(
      say(state, 'ask', told(world)('take-again', { what: item.text }), told(world)('new-reading')),
    );
  const lot = check.kind === 'text' ? offersOf(check, world)[Number(item.id)] : undefined;
  if (lot) return takeLot(state, check, lot, world);
  const failed = at.task.check.answered !== undefined && !at.task.check.holds;
  if (!failed) return send(state, { do: 'answer', check: check.id, value: item.id }, world);
  return stay(
    say(
      staying,
      'ask',
      told(world)('check-again'),
      told(world)(check.kind === 'number' ? 'new-reading' : 'then-answer'),
    ),
  );
}
