/**
 * What a folder remembers of its shop while the line is down, in shop/memory.json: leases, clocks, and how far the server had
 * come with every journal, so that it is noticed where it lost some of that. All else can be asked of it again.
 */
import { join } from 'node:path';
import type { Disk } from '../store/disk.js';
import { attempt, makeFolders, writeSpare } from '../store/files.js';

/** Checked by hand: with twenty thousand units a schema takes longer than all the rest. */
interface Remembered {
  readonly format: 'pinchrod-memory 1';
  /** Lines that the server had of each journal. */
  readonly tips: Readonly<Record<string, number>>;
  /** How far the news of each folder had been read by then. */
  readonly read: Readonly<Record<string, number>>;
  /** The bench that has it, by journal. */
  readonly leases: Readonly<Record<string, string>>;
  /** Lines that the server has, by journal that has more here. */
  readonly behind: Readonly<Record<string, number>>;
  /** How much each bench's clock was ahead of the server's, ms. */
  readonly clocks: Readonly<Record<string, number>>;
}

const isRemembered = (data: unknown): data is Remembered => {
  const { format, tips, read, leases, behind, clocks } = (data ?? {}) as Partial<
    Record<keyof Remembered, unknown>
  >;
  return (
    format === 'pinchrod-memory 1' &&
    [tips, read, behind, clocks].every((each) => holds(each, 'number')) &&
    holds(leases, 'string')
  );
};

function holds(data: unknown, type: 'number' | 'string'): boolean {
  if (data === null || typeof data !== 'object' || Array.isArray(data)) return false;
  for (const key in data) if (typeof (data as Record<string, unknown>)[key] !== type) return false;
  return true;
}

const FILE = 'memory.json';

export class Memory {
  tips: ReadonlyMap<string, number>;
  read: ReadonlyMap<string, number>;
  leases: Map<string, string>;
  readonly behind: Map<string, number>;
  clocks: ReadonlyMap<string, number>;
  /** Whether what is on disk is older than this. */
  private isOld = false;

  constructor(
    private readonly disk: Disk,
    private readonly root: string,
  ) {
    const read = this.#read();
    this.tips = new Map(Object.entries(read?.tips ?? {}));
    this.read = new Map(Object.entries(read?.read ?? {}));
    this.leases = new Map(Object.entries(read?.leases ?? {}));
    this.behind = new Map(Object.entries(read?.behind ?? {}));
    this.clocks = new Map(Object.entries(read?.clocks ?? {}));
  }

  keepTips(tips: ReadonlyMap<string, number>, read: ReadonlyMap<string, number>): void {
    this.tips = tips;
    this.read = new Map(read);
    this.isOld = true;
  }

  /** The server has so many lines of a journal that has more here. */
  setBehind(journal: string, n: number): void {
    this.behind.set(journal, n);
    this.isOld = true;
  }

  noLongerBehind(journal: string): void {
    if (this.behind.delete(journal)) this.isOld = true;
  }

  keepLeases(leases: ReadonlyMap<string, string>): void {
    this.leases = new Map(leases);
    this.isOld = true;
  }

  /** Without waiting for the disk: a power cut may lose it, and the server then says it again. */
  save(): void {
    if (!this.isOld) return;
    const text = JSON.stringify({
      format: 'pinchrod-memory 1',
      tips: Object.fromEntries(this.tips),
      read: Object.fromEntries(this.read),
      leases: Object.fromEntries(this.leases),
      behind: Object.fromEntries(this.behind),
      clocks: Object.fromEntries(this.clocks),
    });
    if (
      attempt(() =>
        writeSpare(
          this.disk,
          join(makeFolders(this.disk, this.root, ['shop']), FILE),
          Buffer.from(`${text}\n`),
        ),
      )
    )
      this.isOld = false;
  }

  #read(): Remembered | undefined {
    try {
      const data: unknown = JSON.parse(this.disk.read(join(this.root, 'shop', FILE)).toString('utf8'));
      return isRemembered(data) ? data : undefined;
    } catch {
      return undefined;
    }
  }
}
