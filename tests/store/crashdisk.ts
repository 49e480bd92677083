/**
 * A disk that loses power, in memory: the same calls as the real one, and beside what a running program sees, what is
 * surely on the platter. A power cut keeps of each folder any beginning of the name changes since its last flush, and of
 * each file any beginning of the writes since its last flush, the last of them cut at a byte or its rest filled with NUL.
 * Folders are held apart from one another (stricter than ext4, which keeps their order): nothing here rests on luck.
 */
import { dirname } from 'node:path';
import type { Disk, Handle, OpenHow, Stat } from '../../src/store/disk.js';

type Change =
  | { readonly do: 'write'; readonly bytes: Buffer }
  | { readonly do: 'truncate'; readonly to: number };

interface File {
  readonly kind: 'file';
  readonly id: number;
  durable: Buffer;
  pending: Change[];
}
interface Folder {
  readonly kind: 'folder';
  readonly id: number;
  durable: Map<string, Node>;
  /** One entry an operation that is all or nothing: a rename sets one name and clears another. */
  pending: Map<string, Node | undefined>[];
}
type Node = File | Folder;

/** How a power cut goes: for each question one number from 0 to `most`. */
export type Chooser = (most: number) => number;

export class CrashDisk implements Disk {
  #next = 1;
  #root: Folder;
  #open = new Map<Handle, { file: File; how: OpenHow }>();
  /** How many calls were made. */
  calls = 0;

  constructor(root?: Folder) {
    this.#root = root ?? { kind: 'folder', id: 0, durable: new Map(), pending: [] };
  }

  open(path: string, how: OpenHow): Handle {
    this.calls++;
    const there = this.#find(path);
    if (how === 'new' || how === 'private') {
      if (there) throw errno('EEXIST', path);
      const file: File = { kind: 'file', id: this.#next++, durable: Buffer.alloc(0), pending: [] };
      this.#folder(dirname(path)).pending.push(new Map([[base(path), file]]));
      return this.#handle(file, how);
    }
    if (!there) throw errno('ENOENT', path);
    if (there.kind !== 'file') throw errno('EISDIR', path);
    return this.#handle(there, how);
  }

  write(handle: Handle, bytes: Uint8Array, from: number): number {
    this.calls++;
    const { file, how } = this.#file(handle);
    if (how === 'mend') throw errno('EBADF', 'write');
    const piece = Buffer.from(bytes.subarray(from));
    file.pending.push({ do: 'write', bytes: piece });
    return piece.length;
  }

  flush(handle: Handle): void {
    this.calls++;
    const { file } = this.#file(handle);
    file.durable = content(file);
    file.pending = [];
  }

  truncate(handle: Handle, length: number): void {
    this.calls++;
    this.#file(handle).file.pending.push({ do: 'truncate', to: length });
  }

  size(handle: Handle): number {
    this.calls++;
    return content(this.#file(handle).file).length;
  }

  identity(handle: Handle): string {
    this.calls++;
    return String(this.#file(handle).file.id);
  }

  identityAt(path: string): string | undefined {
    this.calls++;
    const node = this.#find(path);
    return node && String(node.id);
  }

  tail(path: string, length: number): Buffer {
    const bytes = this.read(path);
    return bytes.subarray(Math.max(0, bytes.length - length));
  }

  close(handle: Handle): void {
    this.calls++;
    this.#file(handle);
    this.#open.delete(handle);
  }

  flushFolder(path: string): void {
    this.calls++;
    const folder = this.#folder(path);
    folder.durable = names(folder);
    folder.pending = [];
  }

  rename(from: string, to: string): void {
    this.calls++;
    const node = this.#find(from);
    if (!node) throw errno('ENOENT', from);
    if (dirname(from) !== dirname(to)) throw errno('EXDEV', from);
    this.#folder(dirname(from)).pending.push(
      new Map<string, Node | undefined>([
        [base(from), undefined],
        [base(to), node],
      ]),
    );
  }

  link(from: string, to: string): void {
    this.calls++;
    const node = this.#find(from);
    if (!node) throw errno('ENOENT', from);
    if (this.#find(to)) throw errno('EEXIST', to);
    this.#folder(dirname(to)).pending.push(new Map([[base(to), node]]));
  }

  unlink(path: string): void {
    this.calls++;
    if (!this.#find(path)) throw errno('ENOENT', path);
    this.#folder(dirname(path)).pending.push(new Map([[base(path), undefined]]));
  }

  mkdir(path: string): void {
    this.calls++;
    if (this.#find(path)) throw errno('EEXIST', path);
    const made: Folder = { kind: 'folder', id: this.#next++, durable: new Map(), pending: [] };
    this.#folder(dirname(path)).pending.push(new Map([[base(path), made]]));
  }

  read(path: string): Buffer {
    this.calls++;
    const node = this.#find(path);
    if (!node) throw errno('ENOENT', path);
    if (node.kind !== 'file') throw errno('EISDIR', path);
    return content(node);
  }

  list(path: string): string[] {
    this.calls++;
    return [...names(this.#folder(path)).keys()].sort();
  }

  stat(path: string): Stat | undefined {
    this.calls++;
    const node = this.#find(path);
    if (!node) return undefined;
    const size = node.kind === 'file' ? content(node).length : 0;
    return { kind: node.kind, size, id: String(node.id), modifiedMs: 0 };
  }

  real(path: string): string {
    this.calls++;
    if (!this.#find(path)) throw errno('ENOENT', path);
    return path;
  }

  /** Whether a power cut now could take anything back. */
  get unsettled(): number {
    let count = 0;
    const visit = (node: Node): void => {
      count += node.pending.length;
      if (node.kind === 'folder') for (const child of names(node).values()) visit(child);
    };
    visit(this.#root);
    return count;
  }

  /** The disk as it is found after the power came back. This one stays as it is, so that other cuts can be tried. */
  powerCut(choose: Chooser): CrashDisk {
    const made = new Map<Node, Node>();
    const settle = (node: Node): Node => {
      const before = made.get(node);
      if (before) return before;
      if (node.kind === 'file') {
        const file: File = { kind: 'file', id: node.id, durable: settled(node, choose), pending: [] };
        made.set(node, file);
        return file;
      }
      const kept = new Map(node.durable);
      for (const change of node.pending.slice(0, choose(node.pending.length))) apply(kept, change);
      const folder: Folder = { kind: 'folder', id: node.id, durable: new Map(), pending: [] };
      made.set(node, folder);
      for (const [name, child] of kept) folder.durable.set(name, settle(child));
      return folder;
    };
    const disk = new CrashDisk(settle(this.#root) as Folder);
    disk.#next = this.#next + 1000;
    return disk;
  }

  /** Every file by its path, as a running program sees it. */
  files(): Map<string, Buffer> {
    const out = new Map<string, Buffer>();
    const visit = (folder: Folder, path: string): void => {
      for (const [name, node] of names(folder))
        if (node.kind === 'file') out.set(`${path}/${name}`, content(node));
        else visit(node, `${path}/${name}`);
    };
    visit(this.#root, '');
    return out;
  }

  #handle(file: File, how: OpenHow): Handle {
    const handle = 1000 + this.#next++;
    this.#open.set(handle, { file, how });
    return handle;
  }

  #file(handle: Handle): { file: File; how: OpenHow } {
    const open = this.#open.get(handle);
    if (!open) throw errno('EBADF', String(handle));
    return open;
  }

  #folder(path: string): Folder {
    const node = this.#find(path);
    if (!node) throw errno('ENOENT', path);
    if (node.kind !== 'folder') throw errno('ENOTDIR', path);
    return node;
  }

  #find(path: string): Node | undefined {
    let node: Node | undefined = this.#root;
    for (const name of path.split('/').filter((part) => part !== '')) {
      if (node?.kind !== 'folder') return undefined;
      node = names(node).get(name);
    }
    return node;
  }
}

const base = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

function names(folder: Folder): Map<string, Node> {
  const out = new Map(folder.durable);
  for (const change of folder.pending) apply(out, change);
  return out;
}

function apply(to: Map<string, Node>, change: ReadonlyMap<string, Node | undefined>): void {
  for (const [name, node] of change)
    if (node === undefined) to.delete(name);
    else to.set(name, node);
}

const content = (file: File): Buffer => file.pending.reduce(changed, file.durable);

function changed(before: Buffer, change: Change): Buffer {
  if (change.do === 'write') return Buffer.concat([before, change.bytes]);
  const out = Buffer.alloc(change.to);
  before.copy(out, 0, 0, Math.min(before.length, change.to));
  return out;
}

/** A beginning of what was not flushed; the last write of it whole, cut at a byte, or NUL from a byte on. */
function settled(file: File, choose: Chooser): Buffer {
  const count = choose(file.pending.length);
  const kept = file.pending.slice(0, count).reduce(changed, file.durable);
  const next = file.pending[count];
  if (next?.do !== 'write') return kept;
  const cut = choose(next.bytes.length);
  const piece = next.bytes.subarray(0, cut);
  if (choose(1) === 0) return Buffer.concat([kept, piece]);
  return Buffer.concat([kept, piece, Buffer.alloc(next.bytes.length - cut)]);
}

function errno(code: string, path: string): NodeJS.ErrnoException {
  return Object.assign(new Error(`${code}: ${path}`), { code });
}
