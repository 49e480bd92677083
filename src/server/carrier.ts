/** Carries files that are kept by content between this folder and the server, on a connection of its own. */
import { setTimeout as pause } from 'node:timers/promises';
import type { Problem, Result } from '../base/problem.js';
import type { Disk } from '../store/disk.js';
import { ServerClient, ServerError } from './client.js';
import { isErasedHere, jobOf, type KeptFile, keepFile, keptFiles, layFile, localFiles } from './contents.js';
import { faultOf } from './link.js';
import { newsNow, Teller } from './news.js';
import { removedJobs } from './removal.js';
import type { Settings } from './settings.js';

/** Before it connects again, ms. */
const WAIT_MS = 1_000;

export interface CarrierPlace {
  readonly disk: Disk;
  readonly root: string;
  readonly settings: () => Result<Settings>;
  readonly folder: string;
}

export class Carrier {
  /** Files here that are on their way to the server. */
  waiting = 0;
  troubles: readonly Problem[] = [];
  #client: ServerClient | undefined;
  #over = false;
  #more = true;
  #wake: () => void = () => undefined;
  readonly #wanted = new Set<string>();
  /** Those of which the server may have a newer version than was known. */
  readonly #renewed = new Set<string>();
  readonly #running: Promise<void>;
  #announced: () => void;

  /** @param laid called when files came. @param brought when files of this folder are there */
  constructor(
    private readonly at: CarrierPlace,
    private readonly laid: () => void,
    brought: () => void,
  ) {
    this.#announced = brought;
    this.#running = this.#run();
  }

  /** Whether everything that was here when this was last asked is there, and the other way round. */
  get isSettled(): boolean {
    return !this.#more && this.waiting === 0 && this.#wanted.size === 0;
  }

  /** There may be more files here, and there are these on the server. */
  more(...paths: readonly string[]): void {
    for (const path of paths) {
      this.#wanted.add(path);
      this.#renewed.add(path);
    }
    this.#more = true;
    this.#wake();
  }

  async stop(): Promise<void> {
    this.#over = true;
    this.#client?.close();
    this.#wake();
    await this.#running;
  }

  async #run(): Promise<void> {
    while (!this.#over) {
      const settings = this.at.settings();
      const opened = settings.ok ? await ServerClient.open(settings.value) : settings;
      if (opened.ok) {
        this.#client = opened.value;
        try {
          await this.#carry(opened.value);
        } catch (error) {
          // The journals go on; what is missing is carried with the next connection.
          this.troubles = [error instanceof ServerError ? error.problem : faultOf(error)];
        }
        opened.value.close();
      }
      this.#more = true;
      if (!this.#over) await pause(WAIT_MS);
    }
  }

  async #carry(client: ServerClient): Promise<void> {
    const { folder } = this.at;
    const teller = new Teller(client, folder, (await newsNow(client)).get(folder) ?? 0);
    const there = await keptFiles(client);
    for (const path of there.keys()) this.#wanted.add(path);
    while (!this.#over && !client.over) {
      await this.#bring(client, teller, there);
      await this.#fetch(client, there);
      // More may have come while these were carried.
      if (this.#wanted.size > 0 || this.#more) continue;
      await new Promise<void>((resolve) => {
        this.#wake = resolve;
        if (this.#more || this.#over) resolve();
      });
    }
  }

  async #bring(client: ServerClient, teller: Teller, there: Map<string, KeptFile>): Promise<void> {
    const { disk, root } = this.at;
    const removed = await removedJobs(client);
    // Taken back and counted in one: in between it would seem that nothing waits.
    this.#more = false;
    const missing = localFiles(disk, root).filter(
      (path) =>
        !removed.has(jobOf(path) ?? '') &&
        (!there.has(path) || (there.get(path)!.version === 1 && isErasedHere(disk, root, path))),
    );
    this.waiting = missing.length;
    for (const path of missing) {
      await keepFile(client, teller, disk, root, path, there.get(path));
      const kept = (await keptFiles(client, path)).get(path);
      if (kept) there.set(path, kept);
      this.waiting -= 1;
    }
    if (missing.length > 0) this.#announced();
  }

  async #fetch(client: ServerClient, there: Map<string, KeptFile>): Promise<void> {
    const { disk, root } = this.at;
    const here = new Set(localFiles(disk, root));
    const troubles: Problem[] = [];
    let laid = false;
    for (const path of [...this.#wanted]) {
      let kept = there.get(path);
      if (this.#renewed.delete(path) || !kept || !here.has(path))
        kept = (await keptFiles(client, path)).get(path);
      // The newest version of a name is the one that was erased.
      if (kept && (!here.has(path) || (kept.version > 1 && !isErasedHere(disk, root, path)))) {
        const done = await layFile(client, disk, root, kept);
        if (done.ok) laid = true;
        else troubles.push(...done.problems);
        there.set(path, kept);
      }
      this.#wanted.delete(path);
    }
    this.troubles = troubles;
    if (laid) this.laid();
  }
}
