/** What a unit was made from: frozen files, lots, instruments, people, evidence. */
import { sanitize } from '../base/text.js';
import { figureUnit } from '../measure/units.js';
import type { JournalEvent } from '../unit/events.js';
import { LEVEL_WORDS } from '../unit/people.js';
import type { Level } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { RecordBasis, UsedInstrument } from './basis.js';
import type { Namer } from './initials.js';
import type { CheckView, RecordView, StageView } from './schema.js';
import { figureText3, listed, plural, type When } from './words.js';

const SOURCE_TITLES: Record<string, string> = {
  job: 'Job',
  unit: 'Job line',
  'profile-set': 'Profile set',
  profileSet: 'Profile set',
  procedure: 'Procedure',
  limits: 'Limits',
  instruments: 'Instruments',
  people: 'People',
  workshop: 'Workshop rules',
  setout: 'Set-out',
};

interface Text {
  readonly sha256: string;
  /** When it was frozen for the unit. */
  readonly from: string;
  readonly procedure: { readonly name: string; readonly version: string } | undefined;
}

/**
 * The files the unit is built from: the current ones, each followed by those that revisions replaced, newest first.
 * @param current the procedure whose steps the unit has now
 */
export function builtFrom(
  events: readonly JournalEvent[],
  current: { readonly name: string; readonly version: string },
  form: 1 | 2,
  when: When,
): RecordView['builtFrom'] {
  const opened = events.find((event) => event.kind === 'opened');
  if (opened?.kind !== 'opened') return [];
  const texts = new Map(
    Object.entries(opened.sources).map(([what, sha256]): [string, Text[]] => [
      what,
      [{ sha256, from: opened.at, procedure: opened.procedure }],
    ]),
  );
  for (const event of events)
    if (event.kind === 'revised')
      for (const [what, sha256] of Object.entries(event.sources)) {
        const kept = texts.get(what) ?? [];
        // A revision names all its sources, including unchanged ones.
        if (kept[0]?.sha256 !== sha256)
          texts.set(what, [{ sha256, from: event.at, procedure: event.procedure }, ...kept]);
      }
  const named = ({ name, version }: typeof current) => `${name}, version ${version}`;
  const names: Record<string, string> = {
    'profile-set': opened.profileSet,
    profileSet: opened.profileSet,
    job: opened.job,
    unit: opened.unit,
    setout: opened.unit,
  };
  const rests = form === 1 ? [] : restsOn(events);
  const built = [...texts].flatMap(([what, kept]) =>
    kept.map(({ sha256, from, procedure: by }, i) => {
      const next = kept[i - 1];
      const told = next ? `, until ${when(next.from)}` : kept.length > 1 ? `, since ${when(from)}` : '';
      // Older journals do not say which version a revision brought.
      const procedure = !next ? named(current) : by ? named(by) : current.name;
      return {
        what: sanitize((SOURCE_TITLES[what] ?? what) + told),
        name: sanitize(what === 'procedure' ? procedure : (names[what] ?? '')),
        sha256,
      };
    }),
  );
  return [...built, ...rests];
}

const BASIS_TITLES = {
  instruments: 'Instruments',
  team: 'People and levels',
  rules: 'Rules of judging',
  maker: 'The maker',
} as const;

/** The texts that verdicts rest on, each with the line from which it counts. */
function restsOn(events: readonly JournalEvent[]): RecordView['builtFrom'] {
  return (Object.keys(BASIS_TITLES) as (keyof typeof BASIS_TITLES)[]).flatMap((kind) =>
    events.flatMap(({ n, basis }) => {
      const sha256 = basis?.[kind];
      return sha256 === undefined
        ? []
        : [{ what: `${BASIS_TITLES[kind]}, from line ${n}`, name: '', sha256 }];
    }),
  );
}

const answersOf = (stages: readonly StageView[]) =>
  stages.flatMap(({ steps }) =>
    steps.flatMap(({ checks }) =>
      checks.flatMap((check) => (check.answer ? [{ check, answer: check.answer }] : [])),
    ),
  );

export const lotsUsed = (stages: readonly StageView[]): RecordView['lots'] =>
  answersOf(stages).flatMap(({ check, answer }) =>
    answer.lot ? [{ ...answer.lot, at: answer.at, by: answer.by, check: check.asks }] : [],
  );

/**
 * Instruments in order of first use, as they were when they were used; one that was calibrated anew meanwhile has a row for
 * each calibration.
 * @param form of the record: 1 as version 0.1.0 wrote it
 */
export function instrumentsUsed(
  stages: readonly StageView[],
  events: readonly JournalEvent[],
  basis: RecordBasis,
  { form, units, when }: { readonly form: 1 | 2; readonly units: boolean; readonly when: When },
): RecordView['instruments'] {
  const used = new Map<string, UsedInstrument & { readonly id: string; readonly overdue: string[] }>();
  for (const { check, answer } of answersOf(stages))
    for (const id of new Set(answer.readings.flatMap(({ instrument }) => instrument ?? []))) {
      const found = basis.instrument(id, events[answer.line - 1]!);
      const key = `${id} ${found.version}`;
      const row = used.get(key) ?? { id, ...found, overdue: [] };
      if (answer.overdueAllowedBy !== undefined)
        row.overdue.push(
          `${when(answer.at).slice(0, 10)}, "${check.asks}", allowed by ${answer.overdueAllowedBy}`,
        );
      used.set(key, row);
    }
  return [...used.values()].map(({ id, instrument: known, today, overdue }) => ({
    id,
    title: sanitize(known?.title ?? 'no longer listed'),
    kind: known?.kind ?? '',
    class: known?.class ?? '',
    resolution: known
      ? `${figureText3(known.resolution)} ${units ? figureUnit(known.unit) : known.kind === 'spring-balance' ? 'N' : 'mm'}`
      : '',
    calibrated: sanitize(known?.calibrated ?? ''),
    due: sanitize(known?.due ?? ''),
    certificate: sanitize(known?.certificate ?? ''),
    overdue,
    ...(form === 2 && known
      ? {
          measures: [...known.measures],
          ...(known.maxError === undefined
            ? {}
            : { error: `${figureText3(known.maxError)} ${figureUnit(known.unit)}` }),
          ...(known.serial === undefined ? {} : { serial: sanitize(known.serial) }),
        }
      : {}),
    ...(form === 2 && today ? { today: true as const } : {}),
  }));
}

/** Everybody named on a line of the journal, and what they did. */
export function peopleInvolved(
  { events, route }: Pick<UnitState, 'events' | 'route'>,
  named: Namer,
  {
    since2,
    ids,
    basis,
  }: { readonly since2: boolean; readonly ids: boolean; readonly basis: RecordBasis | undefined },
): RecordView['people'] {
  const levels = new Map<string, Map<number, Set<string>>>();
  const stages = new Map(
    route.stages.flatMap(({ title, id, steps }) => steps.map((step) => [step, { id, title }])),
  );
  const worked = (id: string, event: JournalEvent) => {
    const stage = 'step' in event && event.step !== undefined ? stages.get(event.step) : undefined;
    const level = stage && basis?.levelAt(id, stage.id, event);
    if (!stage || level === undefined) return;
    const mine = levels.get(id) ?? new Map<number, Set<string>>();
    mine.set(level, (mine.get(level) ?? new Set()).add(sanitize(stage.title)));
    levels.set(id, mine);
  };
  const tally = new Map<string, Map<string, number>>();
  const add = (id: string, what: string, event: JournalEvent) => {
    const mine = tally.get(id) ?? new Map<string, number>();
    mine.set(what, (mine.get(what) ?? 0) + 1);
    tally.set(id, mine);
    worked(id, event);
  };
  const WORK_DONE: Partial<Record<JournalEvent['kind'], string>> = {
    answered: 'answer',
    released: 'hold release',
    corrected: 'correction',
    reworked: 'rework',
    'snag-raised': 'snag raised',
    'snag-decided': 'snag decision',
    'snag-closed': 'snag closed',
    overridden: 'override',
    noted: 'note',
  };
  for (const event of events) {
    const done = WORK_DONE[event.kind];
    const cited = 'cited' in event ? event.cited : undefined;
    if (cited) {
      add(cited.by, `cited ${done}`, event);
      if (cited.second) add(cited.second, 'cited second name', event);
      continue;
    }
    if (event.by !== 'nobody' && done) add(event.by, done, event);
    if ('second' in event && event.second && (event.kind === 'answered' || !since2))
      add(event.second, 'second name', event);
    if (event.kind === 'answered' && event.lot?.acceptedBy) add(event.lot.acceptedBy, 'lot accepted', event);
    if (event.kind === 'answered' && event.overdueAllowedBy)
      add(event.overdueAllowedBy, 'overdue instrument allowed', event);
    if ('unsigned' in event && event.unsigned)
      add(event.unsigned.by, 'closure without signature allowed', event);
  }
  return [...tally].map(([id, deeds]) => ({
    name: named(id),
    did: listed([...deeds].map(([what, count]) => deedWords(what, count))),
    ...(basis && ids ? { id: sanitize(id) } : {}),
    ...(basis ? levelOf(levels.get(id)) : {}),
  }));
}

/** "3 (alone)", or where it was not one level everywhere: "3 (alone); 4 (may release) in Order and Saw". */
function levelOf(levels: ReadonlyMap<number, ReadonlySet<string>> | undefined): { level?: string } {
  if (!levels) return {};
  const [most, ...rest] = [...levels].sort(([, a], [, b]) => b.size - a.size);
  const words = (level: number) => `${level} (${String(LEVEL_WORDS[level as Level])})`;
  return {
    level: [
      words(most![0]),
      ...rest.sort(([a], [b]) => a - b).map(([level, stages]) => `${words(level)} in ${listed([...stages])}`),
    ].join('; '),
  };
}

function deedWords(what: string, count: number): string {
  const [head, ...tail] = what.split(' ');
  return tail.at(-1) === 'raised' ||
    tail.at(-1) === 'closed' ||
    tail.at(-1) === 'allowed' ||
    tail.at(-1) === 'accepted'
    ? `${count} ${what.replace(head!, count === 1 ? head! : `${head}s`)}`
    : plural(count, what);
}

/** Evidence files of current answers and of holds, with what they show. */
export function evidenceKept(
  stages: readonly StageView[],
  holds: RecordView['holds'],
): RecordView['evidence'] {
  return [
    ...answersOf(stages).flatMap(({ check, answer }) =>
      answer.evidence.map((file) => ({ ...file, at: answer.at, by: answer.by, of: check.asks })),
    ),
    ...holds.flatMap((hold) =>
      hold.evidence.map((file) => ({
        ...file,
        at: hold.at ?? '',
        by: hold.by ?? '',
        of: `Hold: ${hold.title}`,
      })),
    ),
  ];
}

export const checksOf = (stages: readonly StageView[]): CheckView[] =>
  stages.flatMap(({ steps }) => steps.flatMap(({ checks }) => checks));
