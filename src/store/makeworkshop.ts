/** Creates a workshop folder from the one shipped with the program. Never overwrites anything. */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { err, ok, type Problem, type Result } from '../base/problem.js';
import { type Disk, diskProblem, storeProblem } from './disk.js';
import { writeWhole } from './files.js';
import { writePins } from './pins.js';
import { forgetHere } from './register/account.js';
import { storeWords } from './words.js';

/** Contents of a new workshop; `shared/pictures` is for the README only. */
const COPIED = ['procedures', 'shared', 'logs/README.md'] as const;
const LEFT_OUT = new Set(['shared/pictures', 'shared/beginnings']);

/** Of the demonstration alone. */
const DEMONSTRATION = /^shared\/jobs\/.*\.(yaml|csv)$/;

/** PINs of the invented people: 2705 and 4168, as shared/people.yaml says. */
const INVENTED_PINS = {
  ot: '5f4981cce74599132e0adcbe8c43a947:50ba1add41fc53401b5cab778ac9453741513359890780a16533f74f9ce85929',
  mv: '0e3b9a1e3f760e2b1b7f7baf44ccd6a6:9d4b945509604c34f828264c5051c81daa9c6ed544d808083c224bf386314c2f',
};

/**
 * Copies procedures, reference data and the record format manual from `from` to `to`, creating `to` if needed (its
 * parent must exist). Returns the files created, relative to `to`. If anything exists there, refuses before writing.
 * @param own files of a shop's own, in place of the demonstration's people, jobs and PINs
 */
export function makeWorkshop(
  disk: Disk,
  from: string,
  to: string,
  own?: ReadonlyMap<string, string>,
): Result<readonly string[]> {
  try {
    const shipped = COPIED.flatMap((each) => filesUnder(disk, from, each));
    const files = own
      ? [...shipped.filter((file) => !own.has(file) && !DEMONSTRATION.test(file)), ...own.keys()]
      : shipped;
    if (shipped.length === 0) return err(storeProblem('init.no-source', {}, { file: from }));
    const taken = takenFolder(disk, to);
    if (taken) return err(taken);
    const there = disk.stat(to);
    if (there === undefined) disk.mkdir(to);
    // Where a camera or a phone drops its pictures.
    disk.mkdir(join(to, 'inbox'));
    const made = new Set<string>();
    for (const file of files) {
      const parts = file.split('/');
      for (let depth = 1; depth < parts.length; depth++) {
        const folder = parts.slice(0, depth).join('/');
        if (!made.has(folder)) disk.mkdir(join(to, folder));
        made.add(folder);
      }
      const text = own?.get(file);
      writeWhole(disk, join(to, file), text === undefined ? disk.read(join(from, file)) : Buffer.from(text));
    }
    if (!made.has('logs')) disk.mkdir(join(to, 'logs'));
    // Another workshop may have stood here.
    forgetHere(disk, to);
    const pins = own ? undefined : writePins(disk, to, INVENTED_PINS);
    if (pins && !pins.ok) return pins;
    for (const folder of ['', ...made]) disk.flushFolder(join(to, folder));
    return ok(files);
  } catch (error) {
    return err(diskProblem(error, to, storeWords('while-workshop-made')));
  }
}

/** Why a workshop cannot be made there: a file, or a workshop, is there already. */
export function takenFolder(disk: Disk, to: string): Problem | undefined {
  const there = disk.stat(to);
  if (there !== undefined && there.kind !== 'folder') return storeProblem('init.there', {}, { file: to });
  const taken = ['procedures', 'shared', 'logs', 'keys', 'register'].find(
    (name) => disk.stat(join(to, name)) !== undefined,
  );
  return taken === undefined
    ? undefined
    : storeProblem('init.there/folder', { taken }, { file: join(to, taken) });
}

function filesUnder(disk: Disk, root: string, name: string): string[] {
  const stat = disk.stat(join(root, name));
  if (stat?.kind === 'file') return [name];
  if (stat?.kind !== 'folder' || LEFT_OUT.has(name)) return [];
  return disk
    .list(join(root, name))
    .filter((entry) => !entry.startsWith('.'))
    .flatMap((entry) => filesUnder(disk, root, `${name}/${entry}`));
}

// Locating the shipped workshop: the package's own folder.

/** The package folder, whether running bundled from dist/ or from src/. */
export function shippedFolder(from: string = dirname(fileURLToPath(import.meta.url))): Result<string> {
  for (let folder = from; ; folder = dirname(folder)) {
    if (packageName(folder) === 'pinchrod') return ok(folder);
    if (dirname(folder) === folder) return err(storeProblem('init.no-source/folder'));
  }
}

function packageName(folder: string): unknown {
  try {
    return (JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as { name?: unknown }).name;
  } catch {
    return undefined;
  }
}
