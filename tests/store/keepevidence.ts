/** Finds a file and keeps it as evidence, as an answer does that names it. */
import { err, ok, type Result } from '../../src/base/problem.js';
import { type Disk, StoreError } from '../../src/store/disk.js';
import { findEvidence, keepFound } from '../../src/store/hashed.js';
import type { Evidence } from '../../src/unit/events.js';

export function keepEvidence(disk: Disk, root: string, job: string, path: string): Result<Evidence> {
  const found = findEvidence(disk, job, path);
  if (!found.ok) return found;
  try {
    keepFound(disk, root, job, found.value);
  } catch (error) {
    if (error instanceof StoreError) return err(error.problem);
    throw error;
  }
  return ok(found.value.evidence);
}
