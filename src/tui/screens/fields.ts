/** The questions of each form, and the action that its answers make. */

import { sanitize } from '../../base/text.js';
import { utcText } from '../../base/wallclock.js';
import { limitsOf } from '../../procedure/wanted.js';
import type { World } from '../../session/ports.js';
import type { Action, BenchAction } from '../../unit/actions.js';
import { findCheck, lastStage } from '../../unit/graph.js';
import { ALONE, isValid, levelOf, RELEASES } from '../../unit/people.js';
import { replacementOf } from '../../unit/replacement.js';
import type { Level, Person } from '../../unit/types.js';
import type { BenchState, FormRequest, Screen } from '../state.js';
import { causeItems, reasonItems } from './reasons.js';
import type { Field, Item } from './screen.js';
import { setupAction, setupFields } from './setupfields.js';

export type FormScreen = Extract<Screen, { readonly name: 'form' }>;

/** The current question; undefined when all are answered and the summary is shown. */
export function currentField(screen: FormScreen, state: BenchState, world: World): Field | undefined {
  return fieldsOf(screen.form, screen.given, state, world).find(({ id }) => screen.given[id] === undefined);
}

export function formTitle(form: FormRequest): string {
  return TITLES[form.id];
}

const TITLES: Readonly<Record<FormRequest['id'], string>> = {
  'put-right': 'Put right: take back the last answer',
  rework: 'Make this step again',
  snag: 'Raise a snag',
  decide: 'Decide a snag',
  close: 'Close a snag',
  park: 'Park this unit',
  note: 'Write a note',
  override: 'Let a refused unit pass',
  setup: 'A set-up',
  'take-over': 'Take this unit over',
  second: 'A second name is needed',
  evidence: 'A picture or file is needed',
  overdue: 'The calibration of this instrument is overdue',
  accept: 'This lot was not accepted at goods-in',
  unsigned: 'The key of this bench cannot sign',
};

/** The form's questions, which may depend on earlier answers. */
function fieldsOf(
  form: FormRequest,
  given: Readonly<Record<string, string>>,
  state: BenchState,
  world: World,
): readonly Field[] {
  switch (form.id) {
    case 'put-right':
    case 'rework':
    case 'park':
      return [reason(form.id)];
    case 'snag':
      return [
        { id: 'cause', ask: 'What is it?', choices: causeItems, words: true },
        { id: 'severity', ask: 'How bad is it?', choices: SEVERITIES, words: false },
        ...touchesField(world),
        { id: 'text', ask: 'Say what you see, in a few words.', choices: reasonItems('snag'), words: true },
        ...(given.severity === 'minor' || given.severity === undefined ? [] : [CONTAINMENT]),
        { id: 'park', ask: 'And the unit?', choices: PARK, words: false },
      ];
    case 'decide':
      return [
        { id: 'disposition', ask: 'What becomes of it?', choices: DISPOSITIONS, words: false },
        ...(given.disposition === 'concession' ? [limitField(form.snag, world)] : []),
        ...(given.disposition === 'scrap' ? replacementField(world) : []),
        reason('decide'),
        ...pinField(state, world),
      ];
    case 'close':
      return [{ id: 'note', ask: 'How was it proved?', choices: reasonItems('close'), words: true }];
    case 'note':
      return [{ id: 'text', ask: 'The note.', choices: [], words: true }];
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
          ask: 'Who allows it? Scan or choose.',
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
        ...(world.rules.people.find(({ id }) => id === given.person)?.pin === undefined ? [] : [PIN]),
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
  const named = 'second' in action ? action.second : undefined;
  const second = world.rules.people.find(({ id }) => id === (named ?? given.second));
  return [
    ...(named === undefined
      ? [
          {
            id: 'second',
            ask: 'Scan or choose the person who stands by.',
            choices: able(stageOf(action, world.open), ALONE, state, world, false),
            words: false,
          },
        ]
      : []),
    ...(second === undefined || isConfirmed(action, second.id, state, world)
      ? []
      : [
          second.pin === undefined
            ? codeField(second)
            : { ...PIN, ask: `The PIN of ${second.name}, then Enter.` },
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
  { rules, now }: World,
  self: boolean,
): readonly Item[] {
  return rules.people
    .filter(
      (each) => (self || each.id !== person) && levelOf(each, stage ?? 'all') >= least && isValid(each, now),
    )
    .map(({ id, initials, name }) => ({ id, text: `${initials.padEnd(6)} ${name}` }));
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

const codeField = ({ name }: Person): Field => ({
  id: 'code',
  ask: `${name} confirms: scan your own badge, or type your initials.`,
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
): readonly { readonly ask: string; readonly given: string }[] {
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
function fileField({ more }: World): Field {
  const files = more?.inbox().slice(0, MOST_FILES) ?? [];
  return {
    id: 'file',
    ask:
      files.length === 0
        ? 'Type the path of the picture or file; what lies in the folder "inbox" is offered here.'
        : 'Choose from the inbox, the newest first, or type the path of the picture or file.',
    choices: files.map(({ name, size, at }) => ({
      id: name,
      text: `${utcText(at)}  ${sizeText(size).padStart(7)}  ${name}`,
    })),
    words: true,
  };
}

const MOST_FILES = 8;

/** `2026-11-30 14:32 UTC`, which the screen shows as the clock on the wall does. */

/** `640 kB`, `2.1 MB` */
const sizeText = (bytes: number): string =>
  bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;

const reason = (form: string): Field => ({
  id: 'reason',
  ask: 'Why?',
  choices: reasonItems(form),
  words: true,
});

function pinField(state: BenchState, world: World): readonly Field[] {
  return wantsPin(state, world) ? [PIN] : [];
}

const PIN: Field = { id: 'pin', ask: 'The PIN, then Enter.', choices: [], words: true, hidden: true };

/** A concession names the limit that is waived, one of those on the snag's check. */
function limitField(n: number, world: World): Field {
  const snag = world.open?.state.snags.find((each) => each.n === n);
  const step = snag?.raised.step ? world.open?.state.steps.get(snag.raised.step) : undefined;
  const check = step?.step.checks.find(({ id }) => id === snag?.raised.check);
  return {
    id: 'limit',
    ask: 'Which limit is waived?',
    choices: (check ? limitsOf(check) : []).map((id) => ({ id, text: id })),
    words: true,
  };
}

/** What else besides this unit: a lot it was made from, or a set-up it was made under. Asked only if there is one. */
function touchesField({ open }: World): readonly Field[] {
  const answers = [...(open?.state.steps.values() ?? [])].flatMap(({ checks }) =>
    checks.flatMap(({ answered }) => answered ?? []),
  );
  const lots = new Map(answers.flatMap(({ lot }) => (lot ? [[lot.code, lot.material] as const] : [])));
  const setups = new Set(answers.flatMap(({ setup }) => setup ?? []));
  if (lots.size === 0 && setups.size === 0) return [];
  return [
    {
      id: 'touches',
      ask: 'What does it affect?',
      choices: [
        { id: 'unit', text: 'this unit only' },
        ...[...lots].map(([code, material]) => ({
          id: `lot:${code}`,
          text: `the lot ${code} (${material})`,
        })),
        ...[...setups].map((id) => ({ id: `setup:${id}`, text: `the set-up ${id}` })),
      ],
      words: false,
    },
  ];
}

function replacementField({ open, board }: World): readonly Field[] {
  if (!open) return [];
  const again = replacementOf(open.id);
  return [
    {
      id: 'replacement',
      ask: 'What takes its place?',
      choices: [
        { id: again, text: `one more, ${again}` },
        ...board
          .filter(({ job, standing }) => job === open.job && standing === 'not-started')
          .map(({ unit }) => ({ id: unit, text: `${unit}, which the job lists` })),
      ],
      words: false,
    },
  ];
}

const CONTAINMENT: Field = {
  id: 'containment',
  ask: 'What was done so that it does no harm meanwhile?',
  choices: reasonItems('containment'),
  words: true,
};

const SEVERITIES: readonly Item[] = [
  { id: 'minor', text: 'minor: can be put right here' },
  { id: 'major', text: 'major: the unit cannot be used as it is' },
  { id: 'critical', text: 'critical: somebody could be hurt' },
];

const PARK: readonly Item[] = [
  { id: 'yes', text: 'park it' },
  { id: 'no', text: 'go on with what the snag does not touch' },
];

const DISPOSITIONS: readonly Item[] = [
  { id: 'rework', text: 'rework: make it again to the drawing' },
  { id: 'repair', text: 'repair: make it fit for use' },
  { id: 'concession', text: 'concession: accept it as it is' },
  { id: 'scrap', text: 'scrap: the unit ends here' },
  { id: 'return', text: 'return it to the supplier' },
];

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
