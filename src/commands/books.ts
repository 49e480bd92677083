/** What registers are made of: every unit of the workshop, and what its day book and files say besides. */
import { err, ok, type Result } from '../base/problem.js';
import { type Limit, parseLimits } from '../measure/limits.js';
import { namer } from '../record/initials.js';
import type { Books, LimitsText } from '../record/ledgercolumns.js';
import { tellingOf } from '../record/telling.js';
import { workshopJournals } from '../store/benchjournals.js';
import { daybookLines, readDaybook } from '../store/daybook.js';
import { realDisk } from '../store/disk.js';
import { findIndex } from '../store/findindex.js';
import { readSource } from '../store/hashed.js';
import { headProblem, knownOf, RegisterTexts } from '../store/register/heads.js';
import type { Workshop } from '../store/workshop.js';
import { type DaybookEntry, stillCounting } from '../unit/daybook.js';
import { pinnedSources } from '../unit/events.js';
import type { Made } from './documents.js';
import { countedFor, type LoadedUnit, loadUnits } from './unitload.js';

/** Every unit of the workshop, or of a job. */
export const unitsOf = (workshop: Workshop, job: string | undefined, at: string): Result<LoadedUnit[]> =>
  loadUnits(
    realDisk,
    workshop,
    findIndex(realDisk, workshop.root).filter((name) => job === undefined || name.job === job),
    at,
  );

/** Fails if it cannot be read, or is not what the registers know of it. */
export function daybookOf(workshop: Workshop): Result<readonly DaybookEntry[]> {
  const { root } = workshop;
  const read = readDaybook(realDisk, root);
  if (!read.ok) return read;
  const registers = new RegisterTexts(realDisk, root);
  const problems = workshopJournals(realDisk, root, 'daybook').flatMap((file) => {
    const expected =
      knownOf(realDisk, root, file, countedFor(realDisk, workshop), registers).expected.get(file) ?? [];
    const of = daybookLines(realDisk, root, file);
    const now =
      of.length > 0 ? { lines: of.length, hashes: new Map(of.map(({ n, hash }) => [n, hash])) } : undefined;
    return headProblem(file, expected, now) ?? [];
  });
  return problems.length > 0 ? err(...problems) : read;
}

/** Fails if the day book, or a text of limits that something rests on, cannot be read. */
export function booksOf(
  workshop: Workshop,
  units: readonly LoadedUnit[],
  made: Made,
  job?: string,
): Result<Books> {
  const read = daybookOf(workshop);
  if (!read.ok) return read;
  const entries = stillCounting(read.value);
  const used = new Map<string, { readonly name: string; readonly at: string }[]>();
  for (const { job, unit, state } of units) {
    const hash = pinnedSources(state.events)?.sources.limits;
    const begun = state.events[0]?.at;
    if (hash === undefined || begun === undefined) continue;
    used.set(hash, [...(used.get(hash) ?? []), { name: `${job}/${unit}`, at: begun }]);
  }
  for (const entry of entries)
    if (entry.kind === 'limits' && !used.has(entry.sources.limits)) used.set(entry.sources.limits, []);
  const limits: LimitsText[] = [];
  for (const [sha256, of] of used) {
    const parsed = limitsKept(workshop, sha256);
    if (!parsed.ok) return parsed;
    limits.push({ sha256, limits: parsed.value, units: of });
  }
  const { say } = tellingOf(made);
  return ok({
    entries,
    job,
    named: namer(workshop.rules.people, made.initials, say),
    instruments: workshop.instruments,
    limits,
  });
}

function limitsKept(workshop: Workshop, sha256: string): Result<readonly Limit[]> {
  const text = readSource(realDisk, workshop.root, sha256);
  if (!text.ok) return text;
  const parsed = parseLimits({ file: `logs/sources/${sha256}`, text: text.value });
  return parsed.ok ? ok(parsed.value.limits) : err(...parsed.problems);
}
