/** Folders that take part in a shop of the tests: each with its own disk, bench and agent. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Cluster } from '../../scripts/cluster.js';
import { ok } from '../../src/base/problem.js';
import { Agent, type Heard } from '../../src/server/agent.js';
import { makeShop } from '../../src/server/gate.js';
import { joinShop, onServer } from '../../src/server/join.js';
import type { Settings } from '../../src/server/settings.js';
import type { Card } from '../../src/store/card.js';
import { realDisk } from '../../src/store/disk.js';
import { readEvents } from '../../src/store/journal.js';
import { lockSeen, thisProcess } from '../../src/store/lock.js';
import { journalPlace } from '../../src/store/paths.js';
import { lockUnit } from '../../src/store/unitlock.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';

const PROGRAM = join(import.meta.dirname, '../../dist/main.js');

/** Runs the program as it is built, as the owner of the database `shop` on the cluster unless the environment says otherwise. */
export function runProgram(
  cluster: Cluster,
  words: readonly string[],
  { env = {}, input = '' }: { readonly env?: Readonly<Record<string, string>>; readonly input?: string } = {},
): { readonly status: number | null; readonly text: string } {
  const own = {
    PGHOST: '127.0.0.1',
    PGPORT: String(cluster.port),
    PGDATABASE: 'shop',
    PGUSER: 'owner',
    PGSERVICE: '',
  };
  const { status, stdout, stderr } = spawnSync(process.execPath, [PROGRAM, ...words], {
    env: { ...process.env, ...own, ...env },
    input,
    encoding: 'utf8',
  });
  return { status, text: `${stdout}${stderr}` };
}

export async function makeTestShop(settings: Settings): Promise<void> {
  const made = await onServer(settings, (client) => makeShop(client, 'Test shop', 'test'));
  if (!made.ok) throw new Error(made.problems[0]!.text);
}

export class Bench {
  readonly root: string;
  card!: Card;
  agent: Agent | undefined;
  clock: () => number = Date.now;

  constructor(
    readonly name: string,
    readonly settings: Settings,
  ) {
    this.root = mkdtempSync(join(tmpdir(), `pinchrod-${name}-`));
    mkdirSync(join(this.root, 'logs'));
  }

  async join(): Promise<this> {
    const joined = await joinShop(this.#place, { bench: this.name, by: 'jb' });
    if (!joined.ok) throw new Error(`${joined.problems[0]!.id}: ${joined.problems[0]!.text}`);
    this.card = joined.value;
    return this;
  }

  get #place() {
    return { disk: realDisk, root: this.root, settings: this.settings, clock: () => this.clock() };
  }

  connect({ settings = this.settings, ahead = [] as readonly string[], heard = {} as Heard } = {}): Agent {
    const { root, card } = this;
    this.agent = new Agent(
      {
        disk: realDisk,
        root,
        card,
        settings: () => ok(settings),
        clock: () => this.clock(),
        isInUse: (job, unit) => {
          const place = journalPlace(root, job, unit);
          return place.ok && lockSeen(realDisk, place.value, thisProcess()) !== undefined;
        },
        ahead: () => ({ units: ahead, most: ahead.length }),
      },
      heard,
    );
    this.agent.start();
    return this.agent;
  }

  async disconnect(): Promise<void> {
    await this.agent?.stop();
    this.agent = undefined;
  }

  /** Takes the lease of a unit; a bench that has it may need more than one asking where the machine is busy. */
  async takes(job: string, unit: string): Promise<void> {
    const end = performance.now() + 30_000;
    for (;;) {
      const { ok: took, ...rest } = await this.agent!.lease(job, unit);
      if (took) return;
      if (performance.now() > end) throw new Error(JSON.stringify(rest));
    }
  }

  /** Answers as the bench acknowledges them: on this disk. Returns them. */
  write(job: string, unit: string, bodies: readonly EventBody[], by = 'jb'): readonly JournalEvent[] {
    const claim = lockUnit(realDisk, this.root, job, unit, { bench: this.name, who: by });
    if (!claim.ok) throw new Error(claim.problems[0]!.text);
    try {
      const at = new Date(this.clock()).toISOString();
      const first = claim.value.journal.events.length === 0 ? [opening(job, unit)] : [];
      const events = claim.value.journal.append([...first, ...bodies], { by, at, bench: this.name });
      this.agent?.wrote(`logs/${job}/${unit}.jsonl`, events.length);
      return events;
    } finally {
      claim.value.release();
    }
  }

  events(job: string, unit: string): readonly JournalEvent[] {
    const read = readEvents(realDisk, this.root, job, unit);
    if (!read.ok) throw new Error(read.problems[0]!.text);
    return read.value;
  }

  /** What the notes of a journal, or of a branch, say; none where it is not there. */
  notes(job: string, name: string): readonly string[] {
    const file = join(this.root, 'logs', job, `${name}.jsonl`);
    if (!existsSync(file)) return [];
    return readFileSync(file, 'utf8')
      .trim()
      .split('\n')
      .flatMap((line) => (JSON.parse(line) as { text?: string }).text ?? []);
  }

  async remove(): Promise<void> {
    await this.disconnect();
    rmSync(this.root, { recursive: true, force: true });
  }
}

const opening = (job: string, unit: string): EventBody => ({
  kind: 'opened',
  job,
  unit,
  sources: {},
  procedure: { name: 'test', version: '1' },
  profileSet: 'test',
  program: 'test',
});

export const note = (text: string): EventBody => ({ kind: 'noted', text });

/** Waits until it holds; the last error, or "did not come", after so long. */
export async function until(what: string, holds: () => boolean, ms = 15_000): Promise<void> {
  const end = performance.now() + ms;
  while (!holds()) {
    if (performance.now() > end) throw new Error(`${what} did not come within ${ms} ms`);
    await pause(5);
  }
}
