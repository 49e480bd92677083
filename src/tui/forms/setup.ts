/** The form of a set-up: what is to be done with it, and for a first-off its checks one after the other. */

import type { RouteCheck } from '../../procedure/types.js';
import type { SetupRow, World } from '../../session/ports.js';
import type { WorkshopAction } from '../../unit/actions.js';
import { setupEnds } from '../../unit/events.js';
import { ENDS, toBeSnagged } from '../../unit/setups.js';
import type { Item } from '../lists.js';
import type { BenchState } from '../state.js';
import type { Field } from './fields.js';

/** Before the id of a check in the id of the question with what it is measured. */
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
  const what: Field = { id: 'what', ask: 'What is to be done?', choices: whatItems(row), words: false };
  if (given.what !== 'first-off') return [what];
  return [
    what,
    ...row.standing.rule.checks.flatMap((check) => [
      ...instrumentField(check, given, state, world),
      checkField(check),
    ]),
  ];
}

export function setupAction(setup: string, given: Readonly<Record<string, string>>): WorkshopAction {
  const { what = '' } = given;
  if (what.startsWith(END))
    return { do: 'end-setup', setup, why: what.slice(END.length) as (typeof setupEnds)[number] };
  if (what === 'snag') return { do: 'snag-setup', setup };
  const values = Object.entries(given).filter(([id]) => id !== 'what' && !id.startsWith(WITH));
  return { do: 'first-off', setup, values: Object.fromEntries(values) };
}

function whatItems({ standing, inDoubt }: SetupRow): readonly Item[] {
  const doubt = inDoubt ? toBeSnagged(inDoubt) : [];
  return [
    ...(doubt.length > 0
      ? [
          {
            id: 'snag',
            text: `raise a snag on each unit made since ${inDoubt?.lastGood}: ${doubt.join(', ')}`,
          },
        ]
      : []),
    { id: 'first-off', text: 'prove it on first-off pieces' },
    // What is not proven need not be ended.
    ...(standing.valid
      ? setupEnds.map((why) => ({ id: END + why, text: `${ENDS[why]}: prove it again` }))
      : []),
  ];
}

/** Asked only while none of the kinds is in hand: a scan of one answers it as well. */
function instrumentField(
  check: RouteCheck,
  given: Readonly<Record<string, string>>,
  { inHand }: BenchState,
  { instruments }: World,
): readonly Field[] {
  const id = WITH + check.id;
  const kinds = check.instruments;
  if (kinds.length === 0 || (given[id] === undefined && kinds.some((kind) => inHand[kind] !== undefined)))
    return [];
  return [
    {
      id,
      ask: `With which ${kinds.join(' or ')}?`,
      choices: instruments
        .filter(({ kind }) => kinds.includes(kind))
        .map((each) => ({ id: each.id, text: `${each.id.padEnd(6)} ${each.title}` })),
      words: false,
    },
  ];
}

function checkField(check: RouteCheck): Field {
  const ask = check.how === undefined ? check.ask : `${check.ask} ${check.how}`;
  if (check.kind === 'go-no-go')
    return {
      id: check.id,
      ask,
      choices: [
        { id: 'yes', text: 'yes' },
        { id: 'no', text: 'no' },
      ],
      words: false,
    };
  if (check.kind === 'tick')
    return { id: check.id, ask, choices: [{ id: 'yes', text: 'done' }], words: false };
  return {
    id: check.id,
    ask: check.kind === 'count' ? ask : `${ask} (${check.unit ?? 'mm'})`,
    choices: [],
    words: true,
    takes: check.kind === 'count' ? /^\d{1,6}$/ : /^[-+]?[\d.,/ ]*\d[\d.,/ ]*("|[a-z]{1,3})?$/i,
    hint: 'Type or send the figure, then Enter.',
  };
}
