/** Practice and sign-off journals under practice/, and people's levels after sign-offs. */
import { join } from 'node:path';
import { ok, type Result } from '../base/problem.js';
import type { Procedure } from '../procedure/model.js';
import {
  ownJournal,
  practiceJournals,
  practisedAt,
  readMerged,
  tried,
  workshopJournals,
} from '../store/benchjournals.js';
import { appendChainLog } from '../store/chainlog.js';
import type { Disk } from '../store/disk.js';
import { listJournals } from '../store/journals.js';
import { logsFolder, SIGNOFF_JOURNAL } from '../store/paths.js';
import { enter } from '../store/register/enter.js';
import { storeWords } from '../store/words.js';
import {
  type PracticeBody,
  type PracticeEvent,
  practiceSchema,
  type SignoffBody,
  type SignoffEvent,
  signoffSchema,
} from '../training/events.js';
import { levelsFrom, type StandingOptions } from '../training/standing.js';
import type { Envelope } from '../unit/events.js';
import type { WorkshopRules } from '../unit/types.js';

const version = (): string => (typeof PINCHROD_VERSION === 'string' ? PINCHROD_VERSION : 'from source');

/** The file in which this bench writes sign-offs. */
export const signoffFile = (place: Place): string => `${signoffPath(place).join('/')}.jsonl`;

const signoffPath = ({ disk, root, bench }: Place): readonly string[] =>
  ownJournal(disk, root, bench, ['practice', 'signoff'], ['signoff']);
const practicePath = ({ disk, root, bench }: Place, person: string): readonly string[] =>
  ownJournal(disk, root, bench, ['practice', 'people', person], ['practice', person]);

const READ = storeWords('while-journal-read');
const WRITTEN = storeWords('while-written-journal');

/** Oldest first; empty if there is none. */
export const readPractice = (disk: Disk, root: string, person: string): Result<readonly PracticeEvent[]> =>
  tried(`practice/people/${person}.jsonl`, READ, () =>
    readMerged<PracticeEvent>(disk, root, practiceJournals(disk, root, person), practiceWrong(person)),
  );

/** All sign-offs of the workshop, oldest first; empty if there are none. */
export const readSignoffs = (disk: Disk, root: string): Result<readonly SignoffEvent[]> =>
  tried(SIGNOFF_JOURNAL, READ, () =>
    readMerged<SignoffEvent>(disk, root, workshopJournals(disk, root, 'signoff'), signoffWrong),
  );

/** Ids of people who have a practice journal. */
export function practised(disk: Disk, root: string): string[] {
  const folder = `${root}/practice/people`;
  const alone =
    disk.stat(folder)?.kind === 'folder'
      ? disk.list(folder).flatMap((file) => /^(.+)\.jsonl$/.exec(file)?.[1] ?? [])
      : [];
  return [...new Set([...alone, ...practisedAt(disk, root)])].sort();
}

interface Place {
  readonly disk: Disk;
  readonly root: string;
  readonly bench: string;
}

export function keepPractice(
  { disk, root, bench }: Place,
  person: string,
  bodies: readonly PracticeBody[],
  at: string,
): Result<readonly PracticeEvent[]> {
  return tried(`practice/people/${person}.jsonl`, WRITTEN, () => {
    const path = practicePath({ disk, root, bench }, person);
    const kept = appendChainLog<PracticeEvent>(
      disk,
      root,
      { path, wrongWith: practiceWrong(person) },
      { at, by: person, bench },
      (events) => [
        ...(events.length === 0
          ? [{ kind: 'practice-opened', of: person, program: version() } as const]
          : []),
        ...bodies,
      ],
    );
    return entered({ disk, root, bench }, kept, path, 'practice');
  });
}

/** With a warning where the register could not be written: what was kept is kept. */
function entered<E extends Envelope>(
  { disk, root, bench }: Place,
  kept: Result<readonly E[]>,
  path: readonly string[],
  on: 'practice' | 'signed-off',
): Result<readonly E[]> {
  const last = kept.ok ? kept.value.at(-1) : undefined;
  if (!kept.ok || !last) return kept;
  const { n: events, hash, by, at } = last;
  const head = { file: `${path.join('/')}.jsonl`, events, hash };
  const wrote = enter(disk, root, { by, at, bench }, [{ kind: 'heads', on, heads: [head] }]);
  return wrote.ok ? kept : ok(kept.value, wrote.problems);
}

/** Appends one sign-off, note or withdrawal in the assessor's name; durable once it returns ok. */
export function keepSignoff(
  { disk, root, bench }: Place,
  workshop: string,
  body: SignoffBody,
  by: string,
  at: string,
): Result<readonly SignoffEvent[]> {
  return tried(SIGNOFF_JOURNAL, WRITTEN, () => {
    const path = signoffPath({ disk, root, bench });
    const kept = appendChainLog<SignoffEvent>(
      disk,
      root,
      { path, wrongWith: signoffWrong },
      { at, by, bench },
      (events) => [
        ...(events.length === 0
          ? [{ kind: 'signoff-opened', of: workshop, program: version() } as const]
          : []),
        body,
      ],
    );
    return entered({ disk, root, bench }, kept, path, 'signed-off');
  });
}

/** The rules with current levels: people file overlaid with sign-offs. Fails if their journal is damaged. */
export function rulesWithSignoffs(
  rules: WorkshopRules,
  disk: Disk,
  root: string,
  now: string,
  procedure?: Procedure,
  options: Omit<StandingOptions, 'now' | 'procedure'> = {},
): Result<WorkshopRules> {
  const signoffs = readSignoffs(disk, root);
  if (!signoffs.ok) return signoffs;
  if (signoffs.value.length === 0) return ok(rules);
  return ok({ ...rules, people: levelsFrom(signoffs.value, rules.people, now, procedure, options) });
}

function practiceWrong(person: string): (event: unknown) => string | undefined {
  return (event) => {
    const parsed = practiceSchema.safeParse(event);
    if (!parsed.success) return issue(parsed.error.issues[0]);
    const opened = parsed.data;
    if (opened.n === 1 && (opened.kind !== 'practice-opened' || opened.of !== person))
      return `the journal is not that of ${person}`;
    return undefined;
  };
}

function signoffWrong(event: unknown): string | undefined {
  const parsed = signoffSchema.safeParse(event);
  if (!parsed.success) return issue(parsed.error.issues[0]);
  return parsed.data.n === 1 && parsed.data.kind !== 'signoff-opened'
    ? 'it does not begin as a sign-off journal'
    : undefined;
}

const issue = (of: { path: PropertyKey[]; message: string } | undefined): string =>
  of ? `${of.path.map(String).join('.') || 'kind'}: ${of.message}` : 'it cannot be read';

// When people worked in each stage, from the units' journals: tells whether a sign-off has lapsed through absence.

/** Times (UTC) of a person's answers in a stage, for units of one profile set or of any. */
export type Workdays = (person: string, stage: string, profileSet: string | undefined) => readonly string[];

/** Reads all journals once, on first use. Skips unreadable lines: opening the unit reports journal damage. */
export function workdays(disk: Disk, root: string, procedure: Procedure): Workdays {
  const stageOf = new Map(procedure.stages.flatMap(({ id, steps }) => steps.map((step) => [step.id, id])));
  let days: Map<string, Set<string>> | undefined;
  const read = (): Map<string, Set<string>> => {
    const found = new Map<string, Set<string>>();
    for (const { job, unit } of listJournals(disk, root, undefined, [])) {
      let set = '';
      for (const line of disk
        .read(join(logsFolder(root), job, `${unit}.jsonl`))
        .toString('utf8')
        .split('\n')) {
        if (!/"kind":"(?:answered|opened|revised)"/.test(line)) continue;
        const event = parsed(line);
        if (typeof event?.profileSet === 'string') set = event.profileSet;
        if (event?.kind !== 'answered' || event.cited || typeof event.step !== 'string') continue;
        const stage = stageOf.get(event.step.split('@')[0]!);
        if (stage === undefined) continue;
        const key = `${event.by} ${stage}`;
        const at = found.get(key) ?? new Set();
        at.add(`${event.at} ${set}`);
        found.set(key, at);
      }
    }
    return found;
  };
  return (person, stage, profileSet) => {
    days ??= read();
    return [...(days.get(`${person} ${stage}`) ?? [])].flatMap((entry) => {
      const [at = '', set] = entry.split(' ');
      return profileSet === undefined || set === profileSet ? [at] : [];
    });
  };
}

interface Line {
  readonly cited?: unknown;
  readonly kind?: unknown;
  readonly by?: unknown;
  readonly at?: unknown;
  readonly step?: unknown;
  readonly profileSet?: unknown;
}

function parsed(line: string): Line | undefined {
  try {
    return JSON.parse(line) as Line;
  } catch {
    return undefined;
  }
}
