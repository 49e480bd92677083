/** The questions of each form, and the action that its answers make. */

import { sanitize } from '../../base/text.js';
import { utcText } from '../../base/wallclock.js';
import { data, type Spoken } from '../../base/words.js';
import { limitsOf } from '../../procedure/wanted.js';
import type { World } from '../../session/ports.js';
import type { Action, BenchAction } from '../../unit/actions.js';
import { dayNow } from '../../unit/day.js';
import { dispositions } from '../../unit/events.js';
import { findCheck, lastStage } from '../../unit/graph.js';
import { ALONE, isValid, levelOf, RELEASES } from '../../unit/people.js';
import { replacementOf } from '../../unit/replacement.js';
import type { Level, Person } from '../../unit/types.js';
import type { BenchState, FormRequest, Screen } from '../state.js';
import { type BenchSay, told } from '../words/told.js';
import { causeItems, reasonItems } from './reasons.js';
import type { Field, Item } from './screen.js';
import { setupAction, setupFields } from './setupfields.js';

export type FormScreen = Extract<Screen, { readonly name: 'form' }>;

/** The current question; undefined when all are answered and the summary is shown. */
export function currentField(screen: FormScreen, state: BenchState, world: World): Field | undefined {
  return fieldsOf(screen.form, screen.given, state, world).find(({ id }) => screen.given[id] === undefined);
}

/** The form's questions, which may depend on earlier answers. */
function fieldsOf(
  form: FormRequest,
  given: Readonly<Record<string, string>>,
  state: BenchState,
  world: World,
): readonly Field[] {
  const say = told(world);
  const reason = (of: string): Field => ({
    id: 'reason',
    ask: say('ask-why'),
    choices: reasonItems(of, say),
    words: true,
  });
  switch (form.id) {
    case 'put-right':
    case 'rework':
    case 'park':
      return [reason(form.id)];
    case 'snag':
      return [
        { id: 'cause', ask: say('ask-cause'), choices: causeItems(say), words: true },
        {
          id: 'severity',
          ask: say('ask-severity'),
          choices: SEVERITIES.map((id) => ({ id, text: say(`severity-${id}`) })),
          words: false,
        },
        ...touchesField(world),
        { id: 'text', ask: say('ask-seen'), choices: reasonItems('snag', say), words: true },
        ...(given.severity === 'minor' || given.severity === undefined ? [] : [containmentField(say)]),
        {
          id: 'park',
          ask: say('ask-and-unit'),
          choices: PARK.map((id) => ({ id, text: say(`park-${id}`) })),
          words: false,
        },
      ];
    case 'decide':
      return [
        {
          id: 'disposition',
          ask: say('ask-disposition'),
          choices: dispositions.map((id) => ({ id, text: say(`disposition-${id}`) })),
          words: false,
        },
        ...(given.disposition === 'concession' ? [limitField(form.snag, world)] : []),
        ...(given.disposition === 'scrap' ? replacementField(world) : []),
        reason('decide'),
        ...pinField(state, world),
      ];
    case 'close':
      return [{ id: 'note', ask: say('ask-proved'), choices: reasonItems('close', say), words: true }];
    case 'note':
      return [{ id: 'text', ask: say('ask-note'), choices: [], words: true }];
    case 'override':
      return [reason('override'), ...pinField(state, world)];
    case 'setup':
      return setupFields(form.setup, given, state, world);
    case 'take-over':
      return [reason('take-over')];
    case 'second':
      return secondFields(form.action, given, state, world);
    case 'accept':
    case 'overdue':
    case 'unsigned':
      return [
        {
          id: 'person',
          ask: say('ask-allows'),
          choices: able(
            form.id === 'unsigned' && world.open
              ? lastStage(world.open.state.route)
              : stageOf(form.action, world.open),
            RELEASES,
            state,
            world,
            true,
          ),
          words: false,
        },
        ...(world.rules.people.find(({ id }) => id === given.person)?.pin === undefined ? [] : [pinOf(say)]),
      ];
    case 'evidence':
      return [fileField(world)];
  }
}

/** Who stands by, and their own PIN or code: a name chosen from a list is nobody's word. */
function secondFields(
  action: Action,
  given: Readonly<Record<string, string>>,
  state: BenchState,
  world: World,
): readonly Field[] {
  const say = told(world);
  const named = 'second' in action ? action.second : undefined;
  const second = world.rules.people.find(({ id }) => id === (named ?? given.second));
  return [
    ...(named === undefined
      ? [
          {
            id: 'second',
            ask: say('ask-stands-by'),
            choices: able(stageOf(action, world.open), ALONE, state, world, false),
            words: false,
          },
        ]
      : []),
    ...(second === undefined || isConfirmed(action, second.id, state, world)
      ? []
      : [
          second.pin === undefined
            ? codeField(second, say)
            : { ...pinOf(say), ask: say('ask-pin-of', { name: second.name }) },
        ]),
  ];
}

function stageOf(action: Action, open: World['open']): string | undefined {
  const step =
    action.do === 'rework' || action.do === 'look'
      ? action.step
      : action.do === 'answer' || action.do === 'read'
        ? open && findCheck(open.state.route, action.check)?.step.id
        : undefined;
  return step === undefined ? undefined : open?.state.steps.get(step)?.step.stage;
}

/** Those who may, and whose sign-off has not run out. @param self whether the person at the bench may be named too */
function able(
  stage: string | undefined,
  least: Level,
  { person }: BenchState,
  world: World,
  self: boolean,
): readonly Item[] {
  const today = dayNow(world);
  return world.rules.people
    .filter(
      (each) =>
        (self || each.id !== person) && levelOf(each, stage ?? 'all') >= least && isValid(each, today),
    )
    .map(({ id, initials, name }) => ({ id, text: data(`${initials.padEnd(6)} ${name}`) }));
}

/** Whether they have confirmed standing by in this stage already, for whoever is at the bench. */
function isConfirmed(action: Action, second: string, { person }: BenchState, { open }: World): boolean {
  const stage = stageOf(action, open);
  return (open?.state.events ?? []).some(
    (event) =>
      event.kind === 'second-confirmed' &&
      event.by === person &&
      event.second === second &&
      event.stage === stage,
  );
}

const codeField = ({ name }: Person, say: BenchSay): Field => ({
  id: 'code',
  ask: say('ask-confirms', { name }),
  choices: [],
  words: true,
});

/** Whether the person at the bench has a PIN. */
export function wantsPin(state: BenchState, world: World): boolean {
  return world.rules.people.find(({ id }) => id === state.person)?.pin !== undefined;
}

/** The answers so far, one line per question; a PIN only as its length. */
export function givenFields(
  screen: FormScreen,
  state: BenchState,
  world: World,
): readonly { readonly ask: Spoken; readonly given: Spoken }[] {
  return fieldsOf(screen.form, screen.given, state, world)
    .filter(({ id }) => screen.given[id] !== undefined)
    .map(({ id, ask, choices, hidden }) => {
      const value = screen.given[id]!;
      const shown = hidden
        ? '*'.repeat(value.length)
        : (choices.find((each) => each.id === value)?.text ?? value);
      return { ask, given: sanitize(shown) };
    });
}

/** Offers the files of the inbox folder, the newest first, with what tells them apart: when they came, and their size. */
function fileField(world: World): Field {
  const { more } = world;
  const say = told(world);
  const files = more?.inbox().slice(0, MOST_FILES) ?? [];
  return {
    id: 'file',
    ask: say(files.length === 0 ? 'ask-file-path' : 'ask-file'),
    choices: files.map(({ name, size, at }) => ({
      id: name,
      text: data(`${utcText(at)}  ${sizeText(size).padStart(7)}  ${name}`),
    })),
    words: true,
  };
}

const MOST_FILES = 8;

/** `640 kB`, `2.1 MB` */
const sizeText = (bytes: number): string =>
  bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;

function pinField(state: BenchState, world: World): readonly Field[] {
  return wantsPin(state, world) ? [pinOf(told(world))] : [];
}

const pinOf = (say: BenchSay): Field => ({
  id: 'pin',
  ask: say('ask-pin'),
  choices: [],
  words: true,
  hidden: true,
});

/** A concession names the limit that is waived, one of those on the snag's check. */
function limitField(n: number, world: World): Field {
  const snag = world.open?.state.snags.find((each) => each.n === n);
  const step = snag?.raised.step ? world.open?.state.steps.get(snag.raised.step) : undefined;
  const check = step?.step.checks.find(({ id }) => id === snag?.raised.check);
  return {
    id: 'limit',
    ask: told(world)('ask-limit'),
    choices: (check ? limitsOf(check) : []).map((id) => ({ id, text: data(id) })),
    words: true,
  };
}

/** What else besides this unit: a lot it was made from, or a set-up it was made under. Asked only if there is one. */
function touchesField(world: World): readonly Field[] {
  const { open } = world;
  const say = told(world);
  const answers = [...(open?.state.steps.values() ?? [])].flatMap(({ checks }) =>
    checks.flatMap(({ answered }) => answered ?? []),
  );
  const lots = new Map(answers.flatMap(({ lot }) => (lot ? [[lot.code, lot.material] as const] : [])));
  const setups = new Set(answers.flatMap(({ setup }) => setup ?? []));
  if (lots.size === 0 && setups.size === 0) return [];
  return [
    {
      id: 'touches',
      ask: say('ask-affects'),
      choices: [
        { id: 'unit', text: say('affects-unit') },
        ...[...lots].map(([code, material]) => ({
          id: `lot:${code}`,
          text: say('affects-lot', { code, material }),
        })),
        ...[...setups].map((id) => ({ id: `setup:${id}`, text: say('affects-setup', { id }) })),
      ],
      words: false,
    },
  ];
}

function replacementField(world: World): readonly Field[] {
  const { open, board } = world;
  const say = told(world);
  if (!open) return [];
  const again = replacementOf(open.id);
  return [
    {
      id: 'replacement',
      ask: say('ask-replacement'),
      choices: [
        { id: again, text: say('replacement-again', { unit: again }) },
        ...board
          .filter(({ job, standing }) => job === open.job && standing === 'not-started')
          .map(({ unit }) => ({ id: unit, text: say('replacement-listed', { unit }) })),
      ],
      words: false,
    },
  ];
}

const containmentField = (say: BenchSay): Field => ({
  id: 'containment',
  ask: say('ask-containment'),
  choices: reasonItems('containment', say),
  words: true,
});

const SEVERITIES = ['minor', 'major', 'critical'] as const;
const PARK = ['yes', 'no'] as const;

export function formAction({ form, given }: FormScreen): BenchAction {
  const pin = given.pin === undefined ? {} : { pin: given.pin };
  const reason = given.reason ?? '';
  switch (form.id) {
    case 'put-right':
      return { do: 'undo', reason };
    case 'rework':
      return { do: 'rework', step: form.step, reason };
    case 'snag':
      return {
        do: 'snag',
        ...(form.step === undefined ? {} : { step: form.step }),
        ...(form.check === undefined ? {} : { check: form.check }),
        severity: given.severity as 'minor' | 'major' | 'critical',
        cause: given.cause ?? 'other',
        text: given.text ?? '',
        park: given.park === 'yes',
        ...touchesOf(given.touches),
        ...(given.containment === undefined ? {} : { containment: given.containment }),
      };
    case 'decide':
      return {
        do: 'decide',
        snag: form.snag,
        disposition: given.disposition as 'rework' | 'repair' | 'concession' | 'scrap' | 'return',
        reason,
        ...(given.limit === undefined ? {} : { limit: given.limit }),
        ...(given.replacement === undefined ? {} : { replacement: given.replacement }),
        ...pin,
      };
    case 'close':
      return { do: 'close', snag: form.snag, note: given.note ?? '' };
    case 'park':
      return { do: 'park', reason };
    case 'note':
      return { do: 'note', text: given.text ?? '', ...(form.step === undefined ? {} : { step: form.step }) };
    case 'override':
      return { do: 'override', problem: form.problem, reason, ...pin };
    case 'setup':
      return setupAction(form.setup, given);
    case 'take-over':
      return { do: 'take-over', reason };
    case 'second': {
      const code = given.code === undefined ? {} : { code: given.code };
      const second = given.second === undefined ? {} : { second: given.second };
      return { ...form.action, ...second, confirm: { ...pin, ...code } } as Action;
    }
    case 'accept':
      return { ...form.action, acceptedBy: { person: given.person ?? '', ...pin } } as Action;
    case 'unsigned':
      return { ...form.action, unsignedBy: { person: given.person ?? '', ...pin } } as Action;
    case 'overdue':
      return { ...form.action, overdueAllowedBy: { person: given.person ?? '', ...pin } } as Action;
    case 'evidence':
      return { ...form.action, evidence: [given.file ?? ''] } as Action;
  }
}

/** Parses a choice of the form: `lot:PR-77` or `setup:saw-1`. */
function touchesOf(touches = ''): { readonly lot?: string; readonly setup?: string } {
  const [, what, id = ''] = /^(lot|setup):(.*)$/.exec(touches) ?? [];
  if (what === 'lot') return { lot: id };
  return what === 'setup' ? { setup: id } : {};
}
