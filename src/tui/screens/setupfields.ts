/** The form of a set-up: its first-off asked check by check with the instrument of each reading, or how it ended. */

import { data, laid } from '../../base/words.js';
import { wouldDo } from '../../measure/fitness.js';
import type { RouteCheck } from '../../procedure/types.js';
import { wantedBy } from '../../procedure/wanted.js';
import type { SetupRow, World } from '../../session/ports.js';
import type { WorkshopAction } from '../../unit/actions.js';
import { dayNow } from '../../unit/day.js';
import { setupEnds } from '../../unit/events.js';
import { toBeSnagged } from '../../unit/setups.js';
import type { BenchState } from '../state.js';
import { type BenchSay, told } from '../words/told.js';
import type { Field, Item } from './screen.js';

/** Prefix, before the check id, for the id of a field that asks for the instrument. */
export const WITH = 'with:';

const END = 'end:';

export function setupFields(
  setup: string,
  given: Readonly<Record<string, string>>,
  state: BenchState,
  world: World,
): readonly Field[] {
  const row = world.more?.setups().find(({ standing }) => standing.rule.id === setup);
  if (!row) return [];
  const what: Field = {
    id: 'what',
    ask: told(world)('setup-what'),
    choices: whatItems(row, told(world)),
    words: false,
  };
  if (given.what !== 'first-off') return [what];
  return [
    what,
    ...row.standing.rule.checks.flatMap((check) => [
      ...instrumentField(check, state, world),
      checkField(check, told(world)),
    ]),
  ];
}

export function setupAction(setup: string, given: Readonly<Record<string, string>>): WorkshopAction {
  const { what = '' } = given;
  if (what.startsWith(END))
    return { do: 'end-setup', setup, why: what.slice(END.length) as (typeof setupEnds)[number] };
  if (what === 'snag') return { do: 'snag-setup', setup };
  const values = Object.entries(given).filter(([id]) => id !== 'what' && !id.startsWith(WITH));
  const tools = Object.entries(given).flatMap(([id, tool]) =>
    id.startsWith(WITH) ? [[id.slice(WITH.length), tool] as const] : [],
  );
  return { do: 'first-off', setup, values: Object.fromEntries(values), with: Object.fromEntries(tools) };
}

function whatItems({ standing, inDoubt }: SetupRow, say: BenchSay): readonly Item[] {
  const doubt = inDoubt ? toBeSnagged(inDoubt) : [];
  return [
    ...(doubt.length > 0
      ? [
          {
            id: 'snag',
            text: say('setup-raise', { since: String(inDoubt?.lastGood), units: doubt.join(', ') }),
          },
        ]
      : []),
    { id: 'first-off', text: say('setup-prove') },
    // A set-up that is not proven need not be ended.
    ...(standing.valid ? setupEnds.map((why) => ({ id: END + why, text: say(`setup-${why}`) })) : []),
  ];
}

/** Each reading of a first-off says with what it was taken; the one in hand, or used last for it, comes first. */
function instrumentField(check: RouteCheck, state: BenchState, world: World): readonly Field[] {
  const { instruments } = world;
  const wanted = wantedBy(check);
  if (wanted === undefined) return [];
  const able = wouldDo(instruments, wanted, dayNow(world), check.expect);
  const first = (id: string) => (id === state.inHand ? 0 : id === state.lastFor[wanted.quantity] ? 1 : 2);
  return [
    {
      id: WITH + check.id,
      ask: told(world)('setup-with-which', { ask: check.ask }),
      choices: able
        .toSorted((a, b) => first(a.id) - first(b.id))
        .map((each) => ({ id: each.id, text: data(`${each.id.padEnd(6)} ${each.title}`) })),
      words: false,
    },
  ];
}

function checkField(check: RouteCheck, say: BenchSay): Field {
  const ask = data(check.how === undefined ? check.ask : `${check.ask} ${check.how}`);
  if (check.kind === 'go-no-go')
    return {
      id: check.id,
      ask,
      choices: [
        { id: 'yes', text: say('key-yes') },
        { id: 'no', text: say('key-no') },
      ],
      words: false,
    };
  if (check.kind === 'tick')
    return { id: check.id, ask, choices: [{ id: 'yes', text: say('status-done') }], words: false };
  return {
    id: check.id,
    ask: check.kind === 'count' ? ask : laid`${ask} (${data(check.unit ?? 'mm')})`,
    choices: [],
    words: true,
    takes: check.kind === 'count' ? /^\d{1,6}$/ : /^[-+]?[\d.,/ ]*\d[\d.,/ ]*("|[a-z]{1,3})?$/i,
    hint: say('setup-figure'),
  };
}
