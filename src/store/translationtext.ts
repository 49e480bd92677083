/** The text of a procedure's translation, for callers that only compare it with what they know. */
import type { SourceText } from '../base/problem.js';
import type { Disk } from './disk.js';
import { readWorkshopFile } from './filecollection.js';

/** Undefined if there is none, or it cannot be read. */
export function translationText(
  disk: Disk,
  root: string,
  procedure: string,
  language: string,
): SourceText | undefined {
  for (const ending of ['.yaml', '.yml']) {
    const read = readWorkshopFile(disk, root, `procedures/${procedure}.${language}${ending}`);
    if (read.ok) return read.value;
  }
  return undefined;
}
