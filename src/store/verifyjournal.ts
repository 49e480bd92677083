/** Checks one journal and collects its references. Plain data, so that another thread can do it and post it back. */
import { join } from 'node:path';
import { type Place, type Problem, problemFactory } from '../base/problem.js';
import { type Evidence, type JournalEvent, type RegisterHead, textsNamed } from '../unit/events.js';
import type { Disk } from './disk.js';
import { LARGEST_JOURNAL } from './journal.js';
import { logsFolder } from './paths.js';
import { type JournalFault, readJournal } from './readjournal.js';
import type { JournalNow } from './register/heads.js';
import type { Keys } from './register/keys.js';
import type { VerifyFault } from './verifychained.js';
import { type NamedByJournals, readOrdinary, unitSealProblems } from './verifykept.js';
import { VERIFY_MESSAGES } from './verifymessages.js';
import { storeWords } from './words.js';

const raise = problemFactory(VERIFY_MESSAGES);

/** A journal to check, and the numbers of the lines that seals and registers know. */
export interface JournalToExamine {
  readonly job: string;
  readonly unit: string;
  readonly known: readonly number[];
}

export interface JournalReport {
  readonly problems: readonly Problem[];
  /** Absent if the journal cannot be read. */
  readonly whole?: {
    readonly standing: JournalNow;
    /** The chain holds: what is behind a break cannot be told. */
    readonly chained: boolean;
    /** Key and line of each signature. */
    readonly signed: readonly (readonly [key: string, line: number])[];
    /** Bench and line of each closing line that no signature follows, and that names nobody who let it be so. */
    readonly unsigned: readonly (readonly [bench: string, line: number])[];
    /** Heads of registers that its lines name. */
    readonly cites: readonly (readonly [RegisterHead, line: number])[];
    /** Hash of each source and evidence file with the first line that references it. */
    readonly sources: readonly (readonly [string, number])[];
    readonly evidence: readonly (readonly [Evidence, number])[];
  };
}

export function examineJournal(
  disk: Disk,
  root: string,
  request: JournalToExamine,
  keys: Keys,
): JournalReport {
  const { job, unit } = request;
  const file = fileOf(request);
  const problems: Problem[] = [];
  const path = join(logsFolder(root), job, `${unit}.jsonl`);
  const bytes = readOrdinary(disk, path, file, problems, LARGEST_JOURNAL);
  if (bytes === undefined) return { problems };
  const read = readJournal(bytes, { of: { job, unit } });
  for (const fault of read.faults)
    problems.push(raise(FAULT_IDS[fault.kind], { fault: fault.text }, { file, line: fault.line }));
  if (read.tail) {
    const { kind, line, bytes: piece } = read.tail;
    problems.push(
      kind === 'torn'
        ? raise(
            'verify.torn-end',
            { fault: storeWords('line-piece', { line, bytes: piece.length }) },
            { file, line },
          )
        : raise('verify.no-line-end', { line }, { file, line }),
    );
  }
  // A broken chain is reported by line; checking its signatures would be pointless.
  if (read.faults.length === 0) problems.push(...unitSealProblems(read.events, file, keys));
  const { events } = read;
  return {
    problems,
    whole: {
      standing: {
        lines: events.length,
        hashes: new Map(
          request.known.flatMap((line) => {
            const event = events[line - 1];
            return event ? [[line, event.hash] as const] : [];
          }),
        ),
      },
      chained: read.faults.length === 0,
      signed: events.flatMap((event, i) => (event.kind === 'sealed' ? [[event.key, i + 1] as const] : [])),
      unsigned: unsignedEnds(events),
      cites: events.flatMap((event, i) =>
        'register' in event && event.register ? [[event.register, i + 1] as const] : [],
      ),
      ...namedBy(events),
    },
  };
}

/** Whatever stands behind a closing line: a signature may come later, with the seal of its job. */
export function unsignedEnds(events: readonly JournalEvent[]): (readonly [bench: string, line: number])[] {
  const signed = events.findLastIndex(({ kind }) => kind === 'sealed');
  return events.flatMap((event, i) =>
    (event.kind === 'finished' || event.kind === 'scrapped') && !event.unsigned && i > signed
      ? [[event.bench, i + 1] as const]
      : [],
  );
}

const FAULT_IDS: Record<JournalFault['kind'], VerifyFault> = {
  changed: 'verify.changed-line',
  missing: 'verify.missing-line',
  're-ordered': 'verify.re-ordered-line',
  repeated: 'verify.repeated-line',
  broken: 'verify.broken-chain',
  newer: 'verify.newer-format',
  'unknown-event': 'verify.unknown-event',
  'not-first': 'verify.not-opened',
  'wrong-unit': 'verify.wrong-unit',
};

const fileOf = ({ job, unit }: { readonly job: string; readonly unit: string }): string =>
  `logs/${job}/${unit}.jsonl`;

/** Checks each field defensively: a line can be valid in the chain yet lack this version's fields. */
function namedBy(events: readonly JournalEvent[]) {
  const sources = new Map<string, number>();
  const evidence = new Map<string, readonly [Evidence, number]>();
  for (const [i, event] of events.entries()) {
    const of = event as { evidence?: unknown };
    for (const hash of textsNamed(event)) if (!sources.has(hash)) sources.set(hash, i + 1);
    if (Array.isArray(of.evidence))
      for (const each of of.evidence as Evidence[])
        if (typeof each?.sha256 === 'string' && !evidence.has(each.sha256))
          evidence.set(each.sha256, [each, i + 1]);
  }
  return { sources: [...sources], evidence: [...evidence.values()] };
}

/** Merges what a journal references into `named`; the first place wins. */
export function addNamed(
  request: JournalToExamine,
  { sources, evidence }: NonNullable<JournalReport['whole']>,
  named: NamedByJournals,
): void {
  const place = (line: number): Place => ({ file: fileOf(request), line });
  for (const [hash, line] of sources) if (!named.sources.has(hash)) named.sources.set(hash, place(line));
  for (const [each, line] of evidence) {
    const ofJob = named.evidence.get(request.job) ?? new Map();
    named.evidence.set(request.job, ofJob);
    if (!ofJob.has(each.sha256)) ofJob.set(each.sha256, { evidence: each, place: place(line) });
  }
}
