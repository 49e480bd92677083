/** The registers, each read whole. */
import { type ChainedRead, readChained } from '../chained.js';
import type { Disk } from '../disk.js';
import { type BenchEntry, benchEntryWrong, type KeyEntry, keyEntryWrong } from './entries.js';
import { benchPlace, keysPlace, LARGEST_REGISTER } from './place.js';

/** Undefined if the bench has none. */
export function readBench(disk: Disk, root: string, bench: string): ChainedRead<BenchEntry> | undefined {
  const place = benchPlace(root, bench);
  return place.ok ? readChained<BenchEntry>(disk, place.value, benchEntryWrong, LARGEST_REGISTER) : undefined;
}

/** That of the keys; undefined if there is none. */
export const readKeys = (disk: Disk, root: string): ChainedRead<KeyEntry> | undefined =>
  readChained<KeyEntry>(disk, keysPlace(root), keyEntryWrong, LARGEST_REGISTER);
