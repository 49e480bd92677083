/**
 * Journals that belong to no unit, one to a bench where several share a shop: benches/<bench>/setups.jsonl, signoff.jsonl and
 * practice/<person>.jsonl. A bench by itself keeps them as logs/setups.jsonl, practice/signoff.jsonl and
 * practice/people/<person>.jsonl; what stands there from before a bench joined is read with the rest.
 */
import { join } from 'node:path';
import type { Disk } from './disk.js';
import { isFileName } from './paths.js';

const FOLDER = 'benches';

/** Paths of all of them under the workshop, with `/`. */
export function benchJournals(disk: Disk, root: string): string[] {
  return list(disk, root, [FOLDER]).flatMap((bench) => {
    if (!isFileName(bench)) return [];
    const own = list(disk, root, [FOLDER, bench]).map((name) => `${FOLDER}/${bench}/${name}`);
    const practice = list(disk, root, [FOLDER, bench, 'practice']).map(
      (name) => `${FOLDER}/${bench}/practice/${name}`,
    );
    return [...own, ...practice].filter((path) => path.endsWith('.jsonl'));
  });
}

function list(disk: Disk, root: string, path: readonly string[]): readonly string[] {
  const folder = join(root, ...path);
  return disk.stat(folder)?.kind === 'folder' ? disk.list(folder) : [];
}
