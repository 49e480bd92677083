/** Verifies an archive: does it match its manifest, and do its contents hold. */
import { type Problem, problemFactory } from '../base/problem.js';
import { type Files, unpackFiles } from './archive.js';
import type { Disk, Stat } from './disk.js';
import { type VerifyReport, verifyTree } from './verify.js';
import { VERIFY_MESSAGES } from './verifymessages.js';

const raise = problemFactory(VERIFY_MESSAGES);

export interface ArchiveReport extends VerifyReport {
  readonly job: string;
  /** Contents; empty if the archive could not be read. */
  readonly files: Files;
}

/**
 * @param trusted ids of public keys that the verifier already has from elsewhere
 * @param trust fingerprints of the only keys that count; all where undefined
 */
export function verifyArchive(
  bytes: Uint8Array,
  file: string,
  trusted: ReadonlySet<string>,
  trust?: readonly string[],
): ArchiveReport {
  const unpacked = unpackFiles(bytes);
  if (!unpacked.ok)
    return {
      holds: false,
      faults: unpacked.problems.map(({ said }) => raise('verify.archive', { fault: said }, { file })),
      notes: [],
      journals: 0,
      events: 0,
      sources: 0,
      evidence: 0,
      seals: 0,
      entries: 0,
      lost: [],
      job: '',
      files: new Map(),
    };
  const { job, files } = unpacked.value;
  const report = verifyTree(memoryDisk('/archive', files), '/archive', {
    job,
    ...(trust ? { trust } : {}),
  });
  // Every `verifyTree` finding names its file.
  const within = (problem: Problem): Problem => ({
    ...problem,
    place: { ...problem.place, file: `${file}:${job}/${problem.place?.file}` },
  });
  const brought = [...files.keys()].flatMap((name) => {
    const id = /^shared\/keys\/([0-9a-f]{16})\.pem$/.exec(name)?.[1];
    return id !== undefined && trust === undefined && !trusted.has(id)
      ? [raise('verify.key-brought', { id }, { file })]
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

// In-memory files as a read-only disk: an archive is verified like a workshop, without unpacking it to disk.

/** @param files paths with `/`, relative to `root` */
export function memoryDisk(root: string, files: ReadonlyMap<string, Uint8Array>): Disk {
  const folders = new Map<string, Set<string>>([[root, new Set()]]);
  const contents = new Map<string, Uint8Array>();
  for (const [name, bytes] of files) {
    const parts = name.split('/');
    let path = root;
    for (const [i, part] of parts.entries()) {
      folders.get(path)!.add(part);
      path = `${path}/${part}`;
      if (i === parts.length - 1) contents.set(path, bytes);
      else if (!folders.has(path)) folders.set(path, new Set());
    }
  }
  // Paths may be joined with the platform separator.
  const plain = (path: string) => path.replaceAll('\\', '/');
  const none = (path: string): never => {
    throw Object.assign(new Error(`ENOENT: ${path}`), { code: 'ENOENT' });
  };
  const never = (): never => {
    throw Object.assign(new Error('EROFS: only to be read'), { code: 'EROFS' });
  };
  return {
    read: (path) => Buffer.from(contents.get(plain(path)) ?? none(path)),
    list: (path) => [...(folders.get(plain(path)) ?? none(path))].sort(),
    stat: (path): Stat | undefined => {
      const bytes = contents.get(plain(path));
      const kind = bytes ? 'file' : folders.has(plain(path)) ? 'folder' : undefined;
      return kind && { kind, size: bytes?.length ?? 0, id: plain(path), modifiedMs: 0 };
    },
    real: (path) => path,
    open: never,
    write: never,
    flush: never,
    truncate: never,
    size: never,
    identity: never,
    identityAt: never,
    tail: never,
    close: never,
    flushFolder: never,
    rename: never,
    link: never,
    unlink: never,
    mkdir: never,
  };
}
