/**
 * Random genuine histories of a workshop: two benches, kills at any moment, restores that a named person accepts, archives,
 * keys made, replaced and introduced, and workshops of earlier versions. Nothing dishonest is done, and verify finds
 * nothing. PINCHROD_HISTORIES asks for another number, PINCHROD_SEED for another run.
 */
import { cpSync, existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { keepPractice } from '../../../src/session/practicejournals.js';
import { proveSetups } from '../../../src/session/setups.js';
import type { RealPorts } from '../../../src/session/workshopports.js';
import { realDisk } from '../../../src/store/disk.js';
import { newBenchKey, publicKeys } from '../../../src/store/key.js';
import { acceptable, acceptRestore } from '../../../src/store/register/accept.js';
import { verifyTree } from '../../../src/store/verify.js';
import { fingerprintOf } from '../../../src/unit/sealing.js';
import { command } from '../../errors/museum.js';
import { withoutRegister } from '../../registerless.js';
import { type Clock, pass, portsOf, remove, smallWorkshop, startClock, work } from '../../tui/realbench.js';
import { A, asBench, B, type Files, filesIn, killed } from './registeredshop.js';

const HISTORIES = Number(process.env.PINCHROD_HISTORIES ?? 25);
const SEED = Number(process.env.PINCHROD_SEED ?? 20260309);
const UNITS = ['row/A1-1', 'row/A2-1', 'row/A3-1'];
const BENCHES = [A, B];

const JOB = `format: pinchrod-job 1
name: row
profile_set: w52
procedure: small
glass: 4-16-4
units:
  - {mark: A1, width: 900, height: 1200, layout: {light: fixed}}
  - {mark: A2, width: 900, height: 1200, layout: {light: fixed}}
  - {mark: A3, width: 900, height: 1200, layout: {light: fixed}}
`;

class History {
  readonly root = smallWorkshop();
  readonly clock: Clock = startClock();
  readonly done: string[] = [];
  #copy: Files | undefined;
  readonly #open = new Map<string, { readonly ports: RealPorts; readonly unit: string }>();

  constructor(private readonly chance: (most: number) => number) {
    writeFileSync(join(this.root, 'shared/jobs/row.yaml'), JOB);
  }

  one<T>(from: readonly T[]): T {
    return from[this.chance(from.length - 1)]!;
  }

  async step(): Promise<void> {
    const bench = this.one(BENCHES);
    const what = this.one([
      'work',
      'work',
      'work',
      'leave',
      'kill',
      'practice',
      'note',
      'copy',
      'restore',
      'new key',
      'replace key',
      'archive',
      'seal',
      'earlier',
    ]);
    this.done.push(`${what} ${bench}`);
    if (what === 'work') this.work(bench);
    if (what === 'note') this.note(bench);
    if (what === 'leave') this.leave(bench);
    if (what === 'kill') this.kill(bench);
    if (what === 'practice')
      keepPractice(
        { disk: realDisk, root: this.root, bench },
        'ek',
        [{ kind: 'reviewed', card: 'c', print: 'p', right: true, seconds: 3 }],
        new Date(this.clock.wall).toISOString(),
      );
    if (what === 'copy') {
      // A copy is made when nobody works.
      for (const each of BENCHES) this.leave(each);
      this.#copy = filesIn(this.root);
    }
    if (what === 'restore' && this.#copy) await this.restore(this.#copy, bench);
    if (what === 'new key') await this.run(bench, ['key', 'new']);
    if (what === 'replace key') await this.run(bench, ['key', 'replace']);
    if (what === 'seal') await this.run(bench, ['seal', 'row']);
    if (what === 'archive') await this.archive(bench);
    if (what === 'earlier') this.earlier();
  }

  async run(bench: string, args: readonly string[]): Promise<number> {
    for (const each of BENCHES) this.leave(each);
    return (await asBench(bench, () => command(this.root, args))).code;
  }

  opened(bench: string): { readonly ports: RealPorts; readonly unit: string } | undefined {
    const held = this.#open.get(bench);
    if (held) return held;
    const taken = [...this.#open.values()].map(({ unit }) => unit);
    const free = UNITS.filter((unit) => !taken.includes(unit));
    const ports = portsOf(this.root, this.clock, bench);
    if (this.chance(2) === 0) proveSetups(ports);
    const unit = this.one(free);
    if (ports.open(unit).kind !== 'open') return undefined;
    this.#open.set(bench, { ports, unit });
    return { ports, unit };
  }

  work(bench: string): void {
    const held = this.opened(bench);
    if (!held) return;
    let left = 1 + this.chance(5);
    try {
      work(held.ports, this.clock, () => left-- <= 0, `${bench}.jpg`);
    } catch (error) {
      // A unit that cannot go on is left as it is.
      if (!/ran out|first-off|set-up/.test((error as Error).message)) throw error;
    }
  }

  /** Quick ones: several within a minute. */
  note(bench: string): void {
    const held = this.opened(bench);
    for (let i = this.chance(4); held && i >= 0; i--) {
      pass(this.clock, 5000);
      held.ports.act({ do: 'note', text: `note ${i}` }, { person: 'jb' });
    }
  }

  leave(bench: string): void {
    this.#open.get(bench)?.ports.close();
    this.#open.delete(bench);
    pass(this.clock, 60_000 * (1 + this.chance(20)));
  }

  kill(bench: string): void {
    const held = this.#open.get(bench);
    if (!held) return;
    if (existsSync(join(this.root, `logs/${held.unit}.lock`))) killed(this.root, held.unit);
    this.#open.delete(bench);
  }

  /** Everything is put back as it was, and somebody who may release accepts that, sooner or later. */
  async restore(files: Files, bench: string): Promise<void> {
    for (const each of BENCHES) this.leave(each);
    for (const name of filesIn(this.root).keys()) if (!files.has(name)) rmSync(join(this.root, name));
    for (const [name, bytes] of files) {
      mkdirSync(dirname(join(this.root, name)), { recursive: true });
      writeFileSync(join(this.root, name), bytes);
    }
    if (this.chance(2) === 0) this.work(this.one(BENCHES));
    for (const each of BENCHES) this.leave(each);
    await this.accept(bench);
  }

  async accept(bench: string): Promise<void> {
    const report = verifyTree(realDisk, this.root);
    const faults = acceptable(report, bench);
    const ids = faults.ok ? [] : faults.problems.map(({ id }) => id);
    // The copy is of a time before the register of keys: it is begun anew, and other keys are introduced again.
    if (ids.includes('key.register-gone')) {
      expect(await this.run(bench, ['key', 'new', '--anew'])).toBe(0);
      return this.accept(bench);
    }
    if (ids.includes('verify.key-not-introduced')) {
      for (const pem of publicKeys(realDisk, this.root).keys.values())
        await this.run(bench, ['key', 'accept', fingerprintOf(pem)!, '--bench', B]);
      return this.accept(bench);
    }
    if (!faults.ok) {
      expect(faults.problems.map(({ id, text }) => `${id} ${text}`)).toEqual([
        expect.stringContaining('register.nothing'),
      ]);
      return;
    }
    const stamp = { by: 'ot', at: new Date(this.clock.wall).toISOString(), bench };
    for (const each of [bench, ...BENCHES.filter((other) => other !== bench)]) {
      const accepted = acceptRestore(
        realDisk,
        this.root,
        report,
        faults.value,
        { reason: 'a disk failed', pin: true },
        { ...stamp, bench: each },
      );
      if (accepted.ok) return;
      expect(accepted.problems[0]!.id).toBe('key.nobody-signs');
    }
  }

  async archive(bench: string): Promise<void> {
    const out = join(this.root, '..', `row-${this.done.length}.zip`);
    if ((await this.run(bench, ['archive', 'row', '--remove', '--out', out])) === 0)
      this.done.push('(archived)');
  }

  /** As a version left it that kept no register: it is begun later. Only before anything was entered that names it. */
  earlier(): void {
    if (existsSync(join(this.root, 'logs/row'))) return;
    for (const each of BENCHES) this.leave(each);
    withoutRegister(this.root);
    if (this.chance(1) === 0) newBenchKey(realDisk, this.root, this.one(BENCHES));
  }

  end(): void {
    for (const each of BENCHES) this.leave(each);
    remove(this.root);
  }
}

it(`of ${HISTORIES} genuine histories none has a fault`, async () => {
  let state = SEED;
  // Numerical Recipes' linear congruential generator; the high bits are used.
  const chance = (most: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * (most + 1));
  };
  const kinds = new Map<string, number>();
  let entries = 0;
  for (let i = 0; i < HISTORIES; i++) {
    const before = state;
    const history = new History(chance);
    try {
      for (let n = 8 + chance(16); n > 0; n--) {
        await history.step();
        const report = verifyTree(realDisk, history.root);
        const said = report.faults.map(({ id, text, place }) => `${id} ${place?.file}: ${text}`);
        expect(said, `history ${i}, state ${before}: ${history.done.join(', ')}`).toEqual([]);
        entries = Math.max(entries, report.entries);
      }
      for (const each of history.done) {
        const kind = each.split(' bench')[0]!;
        kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
      }
    } finally {
      history.end();
    }
  }
  console.info(
    `${HISTORIES} histories (seed ${SEED}), at most ${entries} entries: ${[...kinds].map(([kind, n]) => `${kind} ${n}`).join(', ')}`,
  );
  expect(kinds.get('restore')).toBeGreaterThan(0);
}, 3_600_000);

it('and a workshop that version 0.1.0 left goes on with a register, with no fault', async () => {
  const { unzipSync } = await import('fflate');
  const { readFileSync } = await import('node:fs');
  const root = smallWorkshop();
  rmSync(root, { recursive: true });
  for (const [name, bytes] of Object.entries(
    unzipSync(readFileSync(join(import.meta.dirname, '../../data/workshop-0.1.0.zip'))),
  )) {
    if (name.endsWith('/')) continue;
    mkdirSync(dirname(join(root, name)), { recursive: true });
    writeFileSync(join(root, name), bytes);
  }
  const shop = readdirSync(root).length === 1 ? join(root, readdirSync(root)[0]!) : root;
  const moved = join(root, '..', 'moved');
  cpSync(shop, moved, { recursive: true });
  expect(verifyTree(realDisk, moved).faults).toEqual([]);
  const place = { disk: realDisk, root: moved, bench: A };
  const kept = keepPractice(
    place,
    'ek',
    [{ kind: 'reviewed', card: 'c', print: 'p', right: true, seconds: 3 }],
    '2026-03-02T08:00:00.000Z',
  );
  expect(kept).toMatchObject({ ok: true, warnings: [] });
  const { faults, entries, notes } = verifyTree(realDisk, moved);
  expect(faults).toEqual([]);
  expect(notes.filter(({ id }) => id === 'verify.no-register')).toEqual([]);
  expect(entries).toBeGreaterThan(1);
  remove(root);
});
