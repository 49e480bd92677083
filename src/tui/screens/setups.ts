/** The list of set-ups, opening a first-off from a step that needs one, and reporting its result. */

import { data, laid, type Spoken } from '../../base/words.js';
import type { Acted, World } from '../../session/ports.js';
import type { BenchAction, WorkshopAction } from '../../unit/actions.js';
import type { JournalEvent } from '../../unit/events.js';
import { firstOffId } from '../../unit/firstoff.js';
import type { SetupRule } from '../../unit/setups.js';
import { toBeSnagged } from '../../unit/setups.js';
import { timeText } from '../../unit/timers.js';
import { backOnLine } from '../answers.js';
import { goBack, say, showForm, showPlain, stay, toStep } from '../navigate.js';
import type { Update } from '../protocol.js';
import { type BenchState, type Note, TOP } from '../state.js';
import { answerText } from '../theme.js';
import { told } from '../words/told.js';
import type { Item, ScreenDefinition } from './screen.js';

/** The set-ups: valid until when, or why not, and how many units are in doubt. */
function setupItems(world: World): readonly Item[] {
  const { more, now } = world;
  const words = told(world);
  const rows = more?.setups() ?? [];
  const widest = rows.reduce((most, { standing }) => Math.max(most, standing.rule.title.length), 0);
  return rows.map(({ standing, inDoubt }) => {
    const { rule, valid, because, until } = standing;
    const state = valid
      ? until === undefined
        ? words('setup-proven')
        : words('setup-proven-until', { time: timeText(until, now) })
      : words('setup-to-prove', { why: words.retell(because).replace(`${rule.title}: `, '') });
    const doubt = inDoubt ? toBeSnagged(inDoubt).length : 0;
    return {
      id: rule.id,
      sign: valid ? 'v' : 'X',
      text: laid`${data(rule.title.padEnd(widest))}  ${doubt > 0 ? laid`${words('setup-doubt', { n: doubt })}; ` : data('')}${state}`,
    };
  });
}

export function showSetups(state: BenchState, world: World): Update {
  const none = (world.more?.setups() ?? []).length === 0;
  return none
    ? stay(say(state, 'plain', told(world)('setup-none'), told(world)('setup-add')))
    : stay(showPlain(state, 'setups'), { kind: 'refresh' });
}

/** When a step was refused because its set-up is not proven, goes straight to the first-off's first check. */
export function toFirstOff(state: BenchState, action: BenchAction, world: World): BenchState {
  if (action.do !== 'answer' && action.do !== 'look' && action.do !== 'read') return state;
  const steps = [...(world.open?.state.steps.values() ?? [])];
  const setup = steps.find(({ step, checks }) =>
    action.do === 'look' ? step.id === action.step : checks.some(({ id }) => id === action.check),
  )?.step.setup;
  if (setup === undefined) return state;
  const shown = showForm(state.screen.name === 'question' ? goBack(state) : state, { id: 'setup', setup });
  const first = { ...shown.screen, given: { what: 'first-off' }, cursor: TOP } as BenchState['screen'];
  return {
    ...shown,
    screen: first,
    note: { ...state.note!, todo: told(world)('setup-prove-now') },
  };
}

/** @param world the world after the action */
export function doneAtShop(
  state: BenchState,
  action: WorkshopAction,
  acted: Extract<Acted, { readonly kind: 'done' }>,
  world: World,
): Update {
  if (action.do === 'take-over')
    return stay(
      say(
        toStep(state),
        'good',
        told(world)('yours', { unit: world.open?.id ?? '' }),
        told(world)('took-over'),
      ),
    );
  return stay(backOnLine({ ...outOfForms(state), note: noteOf(action, acted, world) }, world));
}

/** Back to where the form was opened: the list of set-ups, or the step that needed one. */
function outOfForms(state: BenchState): BenchState {
  let out = state;
  while (out.screen.name === 'form' || out.screen.name === 'question') out = goBack(out);
  return out;
}

function noteOf(
  action: Exclude<WorkshopAction, { do: 'take-over' }>,
  acted: Extract<Acted, { readonly kind: 'done' }>,
  world: World,
): Note {
  const row = world.more?.setups().find(({ standing }) => standing.rule.id === action.setup);
  const title = row?.standing.rule.title ?? action.setup;
  if (action.do === 'snag-setup') {
    const not = acted.snags?.filter(({ problem }) => problem) ?? [];
    const raised = (acted.snags?.length ?? 0) - not.length;
    return {
      tone: not.length > 0 ? 'bad' : 'ask',
      text: told(world)('setup-snags', { n: raised }),
      ...(not[0]?.problem
        ? {
            todo: told(world)('setup-not-on', {
              units: not.map(({ unit }) => unit).join(', '),
              why: not[0].problem.text,
            }),
          }
        : {}),
    };
  }
  const event = acted.events[0];
  if (event?.kind !== 'first-off') return { tone: 'ask', text: told(world)('setup-ended', { title }) };
  if (event.passed)
    return {
      tone: 'good',
      text: laid`${told(world)('outcome-pass')}  ${told(world)('setup-passed', { title, id: firstOffId(event) })}`,
    };
  const doubt = row?.inDoubt ? toBeSnagged(row.inDoubt) : [];
  return {
    tone: 'bad',
    text: laid`${told(world)('outcome-fail')}  ${told(world)('setup-failed', { title, by: failedBy(event, row?.standing.rule, world) })}`,
    todo:
      doubt.length > 0
        ? told(world)('setup-in-doubt', {
            since: String(row?.inDoubt?.lastGood),
            units: doubt.join(', '),
          })
        : told(world)('setup-no-doubt'),
  };
}

/** What did not pass, each with what was found. */
const failedBy = (
  { checks }: Extract<JournalEvent, { readonly kind: 'first-off' }>,
  rule: SetupRule | undefined,
  world: World,
): readonly Spoken[] =>
  checks
    .filter(({ verdict }) => verdict.outcome !== 'pass')
    .map(({ check: id, answer }) => {
      const check = rule?.checks.find((each) => each.id === id);
      return laid`${data(check?.ask ?? id)} ${answerText(told(world), { answer }, 'mm', check)}`;
    });

export const setupsScreen: ScreenDefinition<'setups'> = {
  title: 'title-setups',
  long: true,
  list: (_state, world) => setupItems(world),
  choose: (state, item) => stay(showForm(state, { id: 'setup', setup: item.id })),
};
