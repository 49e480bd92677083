/**
 * Every unit of the demonstration job built through `feed`, one line at a time, to a record that is released; and in that
 * record every step and check that a build of its kind has to have. The readings are invented: they pass.
 */

import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { run as feed } from '../../src/commands/feed.js';
import { HELP } from '../../src/commands/help.js';
import { run as record } from '../../src/commands/record.js';
import { builtFromNow, planOf } from '../../src/session/plan.js';
import { proveSetups } from '../../src/session/setups.js';
import { realPorts } from '../../src/session/workshopports.js';
import { realDisk } from '../../src/store/disk.js';
import { readEvents } from '../../src/store/journal.js';
import { makeWorkshop } from '../../src/store/makeworkshop.js';
import { openWorkshop, type Workshop } from '../../src/store/workshop.js';
import { nextMove } from '../../src/unit/autopilot.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { apply, fold } from '../../src/unit/fold.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { contextOf } from '../../src/window/context.js';
import { newPicture } from '../picture.js';
import { idsIn, isFor, LINES } from '../procedure/lines.js';
import { must } from '../procedure/samples.js';

// The machine's own count of time goes with the clock: else a night's cure would be a clock that was put forward.
vi.mock('node:os', async (real) => ({
  ...(await real<typeof import('node:os')>()),
  uptime: () => Date.now() / 1000,
}));

const JOB = 'pier-house';
const UNITS = ['P01-1', 'P02-1', 'P02-2', 'P03-1', 'P04-1', 'P05-1', 'P06-1', 'P07-1', 'P08-1'];
/** PINs of the demonstration's invented people, as shared/people.yaml says. */
const PINS = { ot: '2705', mv: '4168' };
const NIGHT_MS = 3_600_000;

let root: string;
let workshop: Workshop;
beforeAll(() => {
  vi.useFakeTimers({ toFake: ['Date'], now: Date.parse('2026-11-24T08:00:00Z') });
  root = join(mkdtempSync(join(tmpdir(), 'pinchrod-feed-')), 'shop');
  must(makeWorkshop(realDisk, resolve(import.meta.dirname, '../..'), root));
  newPicture(join(root, 'photo.jpg'));
  workshop = must(openWorkshop(root, realDisk));
});
afterAll(() => {
  vi.useRealTimers();
  rmSync(resolve(root, '..'), { recursive: true, force: true });
});

it('the job has nine units', () => {
  expect(must(workshop.jobs.get(JOB)).value.units.map(({ id }) => id)).toEqual(UNITS);
});

it('the example in the help of feed names a check that its unit has', () => {
  const { route } = must(planOf(must(builtFromNow(workshop, JOB)), 'P02-1'));
  const named = /"check":"([^"]+)"/.exec(HELP.feed)?.[1];
  expect(route.steps.flatMap(({ checks }) => checks.map(({ id }) => id))).toContain(named);
});

function later(ms: number): void {
  vi.setSystemTime(Date.now() + ms);
  if (ms > NIGHT_MS) prove();
}

/** After a night's cure it is another shift, and the machines are proven anew. */
function prove(): void {
  const ports = must(realPorts({ workshop: root, bench: 'bench-1' }));
  for (const { ok, text } of proveSetups(ports)) expect(ok, text).toBe(true);
  ports.close();
}

/** Lines of the unit's journal after the first so many. */
const written = (unit: string, after: number): JournalEvent[] =>
  readFileSync(join(root, 'logs', JOB, `${unit}.jsonl`), 'utf8')
    .split('\n')
    .slice(after, -1)
    .map((line) => JSON.parse(line) as JournalEvent);

/** Talks to `feed` as a script would: the next line is sent when the one before is answered. */
async function build(unit: string): Promise<{ state: UnitState; answers: string[]; code: number }> {
  const { route, setOut } = must(planOf(must(builtFromNow(workshop, JOB)), unit));
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
      if ('evidence' in action && action.evidence) newPicture(join(root, 'photo.jpg'));
      later(30_000);
      const said = new Promise<void>((done) => {
        answered = done;
      });
      yield `${JSON.stringify(action)}\n`;
      await said;
      // What is refused would be refused for ever.
      if (answers.at(-1)?.startsWith('{"ok":false')) return;
      if (existsSync(join(root, 'logs', JOB, `${unit}.jsonl`)))
        state = apply(state, ...written(unit, state.events.length));
    }
  }
  const io = {
    workshop: root,
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

describe.each(UNITS)('%s', (unit) => {
  it('is built through feed to a released record with no step missing', async () => {
    // Each on a day of its own: the machines are proven anew, and stay so until it is built.
    later(16 * NIGHT_MS);
    const { state, answers, code } = await build(unit);
    expect(answers.find((answer) => !(JSON.parse(answer) as { ok: boolean }).ok)).toBeUndefined();
    expect(code).toBe(0);
    expect(state.finished).toBe(true);
    for (const step of state.steps.values()) expect(step.status, step.step.id).toBe('done');

    const out: string[] = [];
    const io = { workshop: root, out: (text: string) => void out.push(text), err: () => {} };
    expect(await record([unit, '--format', 'json'], io)).toBe(0);
    const page = JSON.parse(out.join('\n')) as {
      missing: unknown[];
      unit: { needs: string[] };
      stages: { steps: { id: string; status: string; checks: { id: string; verdict: string }[] }[] }[];
    };
    expect(page.missing).toEqual([]);
    const inRecord = new Map<string, Set<string>>();
    for (const step of page.stages.flatMap(({ steps }) => steps)) {
      expect(step.status, step.id).toBe('done');
      for (const { id, verdict } of step.checks) expect(verdict, id).toBe('pass');
      for (const id of [step.id, ...step.checks.map((check) => check.id)]) {
        const base = id.replace(/@[A-Z]\d+/, '');
        inRecord.set(base, new Set([...(inRecord.get(base) ?? []), id]));
      }
    }
    const counts = contextOf(must(planOf(must(builtFromNow(workshop, JOB)), unit)).setOut).unit as Parameters<
      typeof isFor
    >[1];
    // What was ordered besides stands on the first page.
    for (const fitting of counts.fittings) expect(page.unit.needs).toContain(fitting.replaceAll('-', ' '));
    for (const { line, covered } of LINES)
      for (const [ids, units] of covered)
        for (const id of idsIn(ids)) expect(inRecord.has(id), `${line}: ${id}`).toBe(isFor(units, counts));
    // What is done for each sash is done for every sash, and so for dividers.
    expect(inRecord.get('square.sash')?.size ?? 0).toBe(Number(counts.opening));
    expect(inRecord.get('dividers.position')?.size ?? 0).toBe(Number(counts.dividers));
    const released = must(readEvents(realDisk, root, JOB, unit)).filter(({ kind }) => kind === 'released');
    const holds = [...state.steps.values()]
      .filter(({ step }) => step.hold && step.hold.release === undefined)
      .map(({ step }) => step.id);
    expect(released.map((event) => (event as { step?: string }).step).sort()).toEqual(holds.sort());
  }, 300_000);
});
