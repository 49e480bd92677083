/** An archive handed in: is it what its manifest says, and does what it holds hold. */
import { type Problem, raiser } from '../base/problem.js';
import { type Files, unpackFiles } from './archive.js';
import { memoryDisk } from './memorydisk.js';
import { VERIFY_MESSAGES } from './messages.js';
import { type VerifyReport, verifyTree } from './verify.js';

const raise = raiser(VERIFY_MESSAGES);

export interface ArchiveReport extends VerifyReport {
  readonly job: string;
  /** What it holds; empty where it could not be read. */
  readonly files: Files;
}

/**
 * @param file as problems name it
 * @param trusted ids of public keys that whoever verifies has from elsewhere
 */
export function verifyArchive(bytes: Uint8Array, file: string, trusted: ReadonlySet<string>): ArchiveReport {
  const unpacked = unpackFiles(bytes);
  if (!unpacked.ok)
    return {
      holds: false,
      faults: unpacked.problems.map(({ text }) => raise('verify.archive', text, { file })),
      notes: [],
      journals: 0,
      events: 0,
      sources: 0,
      evidence: 0,
      seals: 0,
      job: '',
      files: new Map(),
    };
  const { job, files } = unpacked.value;
  const report = verifyTree(memoryDisk('/archive', files), '/archive', { job });
  // Every finding of `verifyTree` names its file.
  const within = (problem: Problem): Problem => ({
    ...problem,
    place: { ...problem.place, file: `${file}:${job}/${problem.place?.file}` },
  });
  const brought = [...files.keys()].flatMap((name) => {
    const id = /^shared\/keys\/([0-9a-f]{16})\.pem$/.exec(name)?.[1];
    return id !== undefined && !trusted.has(id)
      ? [raise('verify.key-brought', `Key ${id} came with the archive.`, { file })]
      : [];
  });
  return {
    ...report,
    faults: report.faults.map(within),
    notes: [...report.notes.map(within), ...brought],
    job,
    files,
  };
}
