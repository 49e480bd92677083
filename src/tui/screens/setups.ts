/** The list of set-ups, opening a first-off from a step that needs one, and reporting its result. */
import type { Acted, World } from '../../session/ports.js';
import type { BenchAction, WorkshopAction } from '../../unit/actions.js';
import { firstOffId } from '../../unit/firstoff.js';
import { toBeSnagged } from '../../unit/setups.js';
import { timeText } from '../../unit/timers.js';
import { backOnLine } from '../answers.js';
import { goBack, say, showForm, showPlain, stay, toStep } from '../navigate.js';
import type { Update } from '../protocol.js';
import { type BenchState, type Note, TOP } from '../state.js';
import type { Item, ScreenDefinition } from './screen.js';

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

export function showSetups(state: BenchState, world: World): Update {
  const none = (world.more?.setups() ?? []).length === 0;
  return none
    ? stay(
        say(
          state,
          'plain',
          'This workshop asks for no set-ups.',
          'Put shared/setups.yaml into it to have first-offs asked for.',
        ),
      )
    : stay(showPlain(state, 'setups'), { kind: 'refresh' });
}

/** When a step was refused because its set-up is not proven, goes straight to the first-off's first check. */
export function toFirstOff(told: BenchState, action: BenchAction, world: World): BenchState {
  if (action.do !== 'answer' && action.do !== 'look' && action.do !== 'read') return told;
  const steps = [...(world.open?.state.steps.values() ?? [])];
  const setup = steps.find(({ step, checks }) =>
    action.do === 'look' ? step.id === action.step : checks.some(({ id }) => id === action.check),
  )?.step.setup;
  if (setup === undefined) return told;
  const shown = showForm(told.screen.name === 'question' ? goBack(told) : told, { id: 'setup', setup });
  const first = { ...shown.screen, given: { what: 'first-off' }, cursor: TOP } as BenchState['screen'];
  return {
    ...shown,
    screen: first,
    note: { ...told.note!, todo: 'Prove it now: answer these; Esc leaves it.' },
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
        `${world.open?.id} is yours to write now.`,
        'Who had it, and why it was taken over, is in its journal.',
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
      text: `${raised} ${raised === 1 ? 'snag' : 'snags'} raised.`,
      ...(not[0]?.problem
        ? { todo: `Not on ${not.map(({ unit }) => unit).join(', ')}: ${not[0].problem.text}` }
        : {}),
    };
  }
  const event = acted.events[0];
  if (event?.kind !== 'first-off')
    return { tone: 'ask', text: `${title}: to be proven again before it is used.` };
  if (event.passed) return { tone: 'good', text: `PASS  ${title} is proven: ${firstOffId(event)}.` };
  const doubt = row?.inDoubt ? toBeSnagged(row.inDoubt) : [];
  return {
    tone: 'bad',
    text: `FAIL  ${title} must be set and proven again.`,
    todo:
      doubt.length > 0
        ? `In doubt since ${row?.inDoubt?.lastGood}: ${doubt.join(', ')}. F11, then choose it: a snag on each.`
        : 'Nothing made since the last good first-off is in doubt.',
  };
}

export const setupsScreen: ScreenDefinition<'setups'> = {
  title: 'title-setups',
  long: true,
  list: (_state, world) => setupItems(world),
  choose: (state, item) => stay(showForm(state, { id: 'setup', setup: item.id })),
};
