/** Files in memory as a disk that can only be read: an archive is verified like a workshop, without unpacking it anywhere. */
import type { Disk, Stat } from './disk.js';

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
  // Paths are joined by the system's own sign.
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
    close: never,
    flushFolder: never,
    rename: never,
    link: never,
    unlink: never,
    mkdir: never,
  };
}
