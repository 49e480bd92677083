/** What a unit was made from: frozen files, lots, instruments, people, evidence. */
import { sanitize } from '../base/text.js';
import { data, type Spoken } from '../base/words.js';
import { figureUnit } from '../measure/units.js';
import type { JournalEvent } from '../unit/events.js';
import { LEVEL_WORDS } from '../unit/people.js';
import type { Level } from '../unit/types.js';
import type { UnitState } from '../unit/unitstate.js';
import type { RecordBasis, UsedInstrument } from './basis.js';
import type { Namer } from './initials.js';
import type { CheckView, RecordView, StageView } from './schema.js';
import {
  type DocumentSay,
  figureText3,
  fileWords,
  joined,
  listed,
  type Telling,
  toldSafely,
} from './telling.js';

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
  { say, when }: Telling,
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
  const named = ({ name, version }: typeof current) => say('doc-name-version', { name, version });
  const names: Record<string, string> = {
    'profile-set': opened.profileSet,
    profileSet: opened.profileSet,
    job: opened.job,
    unit: opened.unit,
    setout: opened.unit,
  };
  const rests = form === 1 ? [] : restsOn(events, say);
  const built = [...texts].flatMap(([what, kept]) =>
    kept.map(({ sha256, from, procedure: by }, i) => {
      const next = kept[i - 1];
      const file = fileWords(say, what);
      const since = kept.length > 1 ? say('doc-file-since', { file, time: when(from) }) : file;
      // Older journals do not say which version a revision brought.
      const procedure = !next ? named(current) : by ? named(by) : current.name;
      return {
        what: sanitize(next ? say('doc-file-until', { file, time: when(next.from) }) : since),
        name: sanitize(what === 'procedure' ? procedure : (names[what] ?? '')),
        sha256,
      };
    }),
  );
  return [...built, ...rests];
}

const BASES = ['instruments', 'team', 'rules', 'maker'] as const;

/** The texts that verdicts rest on, each with the line from which it counts. */
function restsOn(events: readonly JournalEvent[], say: DocumentSay): RecordView['builtFrom'] {
  return BASES.flatMap((kind) =>
    events.flatMap(({ n, basis }) => {
      const sha256 = basis?.[kind];
      return sha256 === undefined
        ? []
        : [
            {
              what: say('doc-file-from-line', { file: say(`doc-basis-${kind}`), n }),
              name: data(''),
              sha256,
            },
          ];
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
  { form, units, telling }: { readonly form: 1 | 2; readonly units: boolean; readonly telling: Telling },
): RecordView['instruments'] {
  const { say, when } = telling;
  const used = new Map<string, UsedInstrument & { readonly id: Spoken; readonly overdue: Spoken[] }>();
  for (const { check, answer } of answersOf(stages))
    for (const id of new Set(answer.readings.flatMap(({ instrument }) => instrument ?? []))) {
      const found = basis.instrument(id, events[answer.line - 1]!);
      const key = `${id} ${found.version}`;
      const row = used.get(key) ?? { id, ...found, overdue: [] };
      if (answer.overdueAllowedBy !== undefined)
        row.overdue.push(
          say('doc-overdue', {
            day: when(answer.at).slice(0, 10),
            check: check.asks,
            name: answer.overdueAllowedBy,
          }),
        );
      used.set(key, row);
    }
  return [...used.values()].map(({ id, instrument: known, today, overdue }) => ({
    id,
    title: known ? sanitize(known.title) : say('doc-not-listed'),
    kind: known?.kind ?? '',
    class: data(known?.class ?? ''),
    resolution: known
      ? data(
          `${figureText3(known.resolution)} ${units ? figureUnit(known.unit) : known.kind === 'spring-balance' ? 'N' : 'mm'}`,
        )
      : data(''),
    calibrated: sanitize(known?.calibrated ?? ''),
    due: sanitize(known?.due ?? ''),
    certificate: sanitize(known?.certificate ?? ''),
    overdue,
    ...(form === 2 && known
      ? {
          measures: [...known.measures],
          ...(known.maxError === undefined
            ? {}
            : { error: data(`${figureText3(known.maxError)} ${figureUnit(known.unit)}`) }),
          ...(known.serial === undefined ? {} : { serial: sanitize(known.serial) }),
        }
      : {}),
    ...(form === 2 && today ? { today: true as const } : {}),
  }));
}

/** What somebody does to a unit, as it is counted. */
const DEEDS = {
  answered: 'answer',
  released: 'release',
  corrected: 'correction',
  reworked: 'rework',
  'snag-raised': 'raised',
  'snag-decided': 'decision',
  'snag-closed': 'closed',
  overridden: 'override',
  noted: 'note',
} as const;
type Deed =
  | (typeof DEEDS)[keyof typeof DEEDS]
  | 'cited-answer'
  | 'cited-release'
  | 'cited-second'
  | 'second'
  | 'lot'
  | 'overdue'
  | 'unsigned';

/** Everybody named on a line of the journal, and what they did. */
export function peopleInvolved(
  { events, route }: Pick<UnitState, 'events' | 'route'>,
  named: Namer,
  {
    since2,
    ids,
    basis,
    say,
  }: {
    readonly since2: boolean;
    readonly ids: boolean;
    readonly basis: RecordBasis | undefined;
    readonly say: DocumentSay;
  },
): RecordView['people'] {
  const levels = new Map<string, Map<number, Set<Spoken>>>();
  const stages = new Map(
    route.stages.flatMap(({ title, id, steps }) => steps.map((step) => [step, { id, title }])),
  );
  const worked = (id: string, event: JournalEvent) => {
    const stage = 'step' in event && event.step !== undefined ? stages.get(event.step) : undefined;
    const level = stage && basis?.levelAt(id, stage.id, event);
    if (!stage || level === undefined) return;
    const mine = levels.get(id) ?? new Map<number, Set<Spoken>>();
    mine.set(level, (mine.get(level) ?? new Set()).add(sanitize(stage.title)));
    levels.set(id, mine);
  };
  const tally = new Map<string, Map<Deed, number>>();
  const add = (id: string, what: Deed, event: JournalEvent) => {
    const mine = tally.get(id) ?? new Map<Deed, number>();
    mine.set(what, (mine.get(what) ?? 0) + 1);
    tally.set(id, mine);
    worked(id, event);
  };
  for (const event of events) {
    const done = event.kind in DEEDS ? DEEDS[event.kind as keyof typeof DEEDS] : undefined;
    const cited = 'cited' in event ? event.cited : undefined;
    if (cited) {
      add(cited.by, done === 'release' ? 'cited-release' : 'cited-answer', event);
      if (cited.second) add(cited.second, 'cited-second', event);
      continue;
    }
    if (event.by !== 'nobody' && done) add(event.by, done, event);
    if ('second' in event && event.second && (event.kind === 'answered' || !since2))
      add(event.second, 'second', event);
    if (event.kind === 'answered' && event.lot?.acceptedBy) add(event.lot.acceptedBy, 'lot', event);
    if (event.kind === 'answered' && event.overdueAllowedBy) add(event.overdueAllowedBy, 'overdue', event);
    if ('unsigned' in event && event.unsigned) add(event.unsigned.by, 'unsigned', event);
  }
  return [...tally].map(([id, deeds]) => ({
    name: named(id),
    did: listed(
      say,
      [...deeds].map(([what, n]) => say(`doc-deed-${what}`, { n })),
    ),
    ...(basis && ids ? { id: sanitize(id) } : {}),
    ...(basis ? levelOf(levels.get(id), say) : {}),
  }));
}

/** "3 (alone)", or where it was not one level everywhere: "3 (alone); 4 (may release) in Order and Saw". */
function levelOf(
  levels: ReadonlyMap<number, ReadonlySet<Spoken>> | undefined,
  say: DocumentSay,
): { level?: Spoken } {
  if (!levels) return {};
  const [most, ...rest] = [...levels].sort(([, a], [, b]) => b.size - a.size);
  const words = (level: number) => toldSafely(say, LEVEL_WORDS[level as Level]);
  const [level] = most!;
  return {
    level: joined(
      [
        say('doc-level', { level, words: words(level) }),
        ...rest
          .sort(([a], [b]) => a - b)
          .map(([other, stages]) =>
            say('doc-level-in', { level: other, words: words(other), stages: listed(say, [...stages]) }),
          ),
      ],
      '; ',
    ),
  };
}

/** Evidence files of current answers and of holds, with what they show. */
export function evidenceKept(
  stages: readonly StageView[],
  holds: RecordView['holds'],
  say: DocumentSay,
  smallOf: (sha256: string) => string | undefined,
): RecordView['evidence'] {
  const kept = [
    ...answersOf(stages).flatMap(({ check, answer }) =>
      answer.evidence.map((file) => ({ ...file, at: answer.at, by: answer.by, of: check.asks })),
    ),
    ...holds.flatMap((hold) =>
      hold.evidence.map((file) => ({
        ...file,
        at: hold.at ?? '',
        by: hold.by ?? data(''),
        of: say('doc-shows-hold', { title: hold.title }),
      })),
    ),
  ];
  return kept.map((file) => {
    const small = smallOf(file.sha256);
    return small === undefined ? file : { ...file, small };
  });
}

export const checksOf = (stages: readonly StageView[]): CheckView[] =>
  stages.flatMap(({ steps }) => steps.flatMap(({ checks }) => checks));
