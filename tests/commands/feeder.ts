/** Builds units of a demonstration workshop through `feed`, one line at a time; the readings are invented and pass. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { expect, vi } from 'vitest';
import { run as feed } from '../../src/commands/feed.js';
import { builtFromNow, planOf } from '../../src/session/plan.js';
import { proveSetups } from '../../src/session/setups.js';
import { realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { openWorkshop, type Workshop } from '../../src/store/workshop.js';
import { nextMove } from '../../src/unit/autopilot.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { apply, fold } from '../../src/unit/fold.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { newPicture } from '../picture.js';
import { must } from '../procedure/samples.js';

/** PINs of the demonstration's invented people, as shared/people.yaml says. */
const PINS = { ot: '2705', mv: '4168' };
const NIGHT_MS = 3_600_000;

/** A demonstration workshop whose clock the builder moves; node:os must count its time by Date. */
export class Feeder {
  readonly root: string;
  readonly workshop: Workshop;

  constructor() {
    vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2026-11-24T08:00:00Z') });
    this.root = join(mkdtempSync(join(tmpdir(), 'pinchrod-feed-')), 'shop');
    must(makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), this.root));
    newPicture(join(this.root, 'photo.jpg'));
    this.workshop = must(openWorkshop(this.root, realDisk));
  }

  close(): void {
    vi.useRealTimers();
    rmSync(resolve(this.root, '..'), { recursive: true, force: true });
  }

  /** The machines are proven anew for a day of its own. */
  anotherDay(): void {
    this.#later(16 * NIGHT_MS);
  }

  #later(ms: number): void {
    vi.setSystemTime(Date.now() + ms);
    if (ms > NIGHT_MS) this.#prove();
  }

  /** After a night's cure it is another shift, and the machines are proven anew. */
  #prove(): void {
    const ports = must(realPorts({ workshop: this.root, bench: 'bench-1' }));
    for (const { ok, text } of proveSetups(ports)) expect(ok, text).toBe(true);
    ports.close();
  }

  /** Talks to `feed` as a script would: the next line is sent when the one before is answered. */
  async build(job: string, unit: string): Promise<{ state: UnitState; answers: string[]; code: number }> {
    const journal = join(this.root, 'logs', job, `${unit}.jsonl`);
    const { route, setOut } = must(planOf(must(builtFromNow(this.workshop, job)), unit));
    const { workshop } = this;
    const later = (ms: number) => this.#later(ms);
    const photo = join(this.root, 'photo.jpg');
    const answers: string[] = [];
    let answered: () => void = () => {};
    let state = fold(route, [], { problems: setOut.problems });
    let person: string | undefined;
    let inHand: string | undefined;
    async function* lines(): AsyncGenerator<string> {
      for (let sent = 0; sent < 3000; sent++) {
        const now = new Date().toISOString();
        const context = {
          now,
          bench: 'bench-1',
          person,
          inHand,
          workshop: workshop.rules,
          instruments: workshop.instruments,
        };
        const move = nextMove(state, context, { pins: PINS, evidence: 'photo.jpg' });
        if (move.kind === 'finished') return;
        if (move.kind === 'stuck') throw new Error(`${unit}: ${move.why}`);
        if (move.kind === 'wait') {
          later(Date.parse(move.until) - Date.parse(now) + 1000);
          continue;
        }
        const { action } = move;
        if (action.do === 'person') person = action.person;
        if (action.do === 'instrument') inHand = action.instrument;
        if ('evidence' in action && action.evidence) newPicture(photo);
        later(30_000);
        const said = new Promise<void>((done) => {
          answered = done;
        });
        yield `${JSON.stringify(action)}\n`;
        await said;
        // What is refused would be refused for ever.
        if (answers.at(-1)?.startsWith('{"ok":false')) return;
        if (existsSync(journal)) state = apply(state, ...written(journal, state.events.length));
      }
    }
    const io = {
      workshop: this.root,
      input: Readable.from(lines()),
      out: (text: string) => {
        answers.push(text);
        answered();
      },
      err: (text: string) => void answers.push(text),
    };
    const code = await feed([unit], io);
    return { state, answers, code };
  }
}

/** Lines of a journal after the first so many. */
const written = (journal: string, after: number): JournalEvent[] =>
  readFileSync(journal, 'utf8')
    .split('\n')
    .slice(after, -1)
    .map((line) => JSON.parse(line) as JournalEvent);
