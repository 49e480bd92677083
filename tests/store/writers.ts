/** What the crash laws are held against: our journal, and lowdb's own file adapter over the same model of a disk. */
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { LowSync } from 'lowdb';
import { JSONFileSync } from 'lowdb/node';
import type { Disk } from '../../src/store/disk.js';
import { Journal } from '../../src/store/journal.js';
import { enter, headNow } from '../../src/store/register/enter.js';
import { readBench } from '../../src/store/register/whole.js';
import { verifyTree } from '../../src/store/verify.js';
import { noted, opened, stamp } from './samples.js';

/** A store of texts, one an event. `open` recovers; `append` has acknowledged its texts when it returns. */
interface Writer {
  readonly texts: readonly string[];
  append(texts: readonly string[]): void;
  close(): void;
}
export type OpenWriter = (disk: Disk) => Writer;

export const ROOT = '/w';

/** A fresh workshop folder that is itself durable. */
export function prepare(disk: Disk): void {
  disk.mkdir(ROOT);
  disk.flushFolder('/');
}

export const ours: OpenWriter = (disk) => {
  const made = Journal.open(disk, ROOT, 'pier-house', 'P01-1');
  if (!made.ok) throw new Error(made.problems.map(({ id, text }) => `${id}: ${text}`).join('\n'));
  const journal = made.value;
  return {
    get texts() {
      return journal.events.map((event) => (event.kind === 'noted' ? event.text : event.kind));
    },
    append(texts) {
      journal.append(
        texts.map((text) => (text === 'opened' ? opened() : noted(text))),
        stamp(journal.events.length % 60),
      );
    },
    close: () => journal.close(),
  };
};

/** The register of a bench beside the journal: an entry a text, each after the journal's own line is durable. */
export const registering: OpenWriter = (whole) => {
  const disk = withoutAccount(whole);
  const writer = ours(disk);
  const { faults } = verifyTree(disk, ROOT);
  // The sample names a source that nobody keeps here.
  const worse = faults.filter(({ id }) => !/torn-end|no-line-end|source-missing/.test(id));
  if (worse.length > 0) throw new Error(worse.map(({ id, text }) => `${id}: ${text}`).join('\n'));
  const entries = () =>
    (readBench(disk, ROOT, 'bench-1')?.entries ?? []).flatMap((entry) =>
      entry.kind === 'heads' && entry.on === 'left' ? [entry.by] : [],
    );
  return {
    get texts() {
      return entries();
    },
    append(texts) {
      for (const by of texts) {
        // What a crash left entered alone is there already.
        if (writer.texts.length <= entries().length) writer.append([by]);
        const head = headNow(disk, ROOT, 'logs/pier-house/P01-1.jsonl')!;
        const entered = enter(disk, ROOT, { ...stamp(), by }, [{ kind: 'heads', on: 'left', heads: [head] }]);
        if (!entered.ok) throw new Error(entered.problems[0]!.text);
      }
    },
    close: writer.close,
  };
};

/** What the account keeps by itself is flushed by nobody, and would only multiply the ways a power cut can go. */
const withoutAccount = (disk: Disk): Disk =>
  new Proxy(disk, {
    get: (target, name) => {
      if (name === 'stat') return (path: string) => (path.startsWith(ROOT) ? target.stat(path) : undefined);
      if (name === 'mkdir')
        return (path: string) => {
          if (!path.startsWith(ROOT)) throw Object.assign(new Error('EROFS'), { code: 'EROFS' });
          target.mkdir(path);
        };
      const value = Reflect.get(target, name) as unknown;
      return typeof value === 'function' ? value.bind(target) : value;
    },
  });

/** lowdb's JSONFileSync as it comes; its node:fs calls land on the model while `within` runs. */
export const stock: OpenWriter = (disk) => {
  const db = new LowSync<string[]>(new JSONFileSync<string[]>(`${ROOT}/db.json`), []);
  const within = <T>(run: () => T): T => onModel(disk, run);
  within(() => db.read());
  return {
    get texts() {
      return db.data;
    },
    append: (texts) => within(() => db.update((data) => void data.push(...texts))),
    close: () => undefined,
  };
};

function onModel<T>(disk: Disk, run: () => T): T {
  const { readFileSync, writeFileSync, renameSync } = fs;
  const mutable = fs as unknown as Record<string, unknown>;
  mutable.readFileSync = (path: string) => disk.read(path).toString('utf8');
  mutable.renameSync = (from: string, to: string) => disk.rename(from, to);
  mutable.writeFileSync = (path: string, text: string) => {
    const there = disk.stat(path) !== undefined;
    const handle = disk.open(path, there ? 'append' : 'new');
    if (there) disk.truncate(handle, 0);
    disk.write(handle, Buffer.from(text), 0);
    disk.close(handle);
  };
  syncBuiltinESMExports();
  try {
    return run();
  } finally {
    Object.assign(mutable, { readFileSync, writeFileSync, renameSync });
    syncBuiltinESMExports();
  }
}
