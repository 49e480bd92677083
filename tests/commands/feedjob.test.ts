/**
 * Every unit of the demonstration job built through `feed`, one line at a time, to a record that is released; and in that
 * record every step and check that a build of its kind has to have. The readings are invented: they pass.
 */
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { HELP } from '../../src/commands/help.js';
import { run as record } from '../../src/commands/record.js';
import { builtFromNow, planOf } from '../../src/session/plan.js';
import { realDisk } from '../../src/store/disk.js';
import { readEvents } from '../../src/store/journal.js';
import { contextOf } from '../../src/window/context.js';
import { idsIn, isFor, LINES } from '../procedure/lines.js';
import { must } from '../procedure/samples.js';
import { Feeder } from './feeder.js';

// The machine's own count of time goes with the clock: else a night's cure would be a clock that was put forward.
vi.mock('node:os', async (real) => ({
  ...(await real<typeof import('node:os')>()),
  uptime: () => Date.now() / 1000,
}));

const JOB = 'pier-house';
const UNITS = ['P01-1', 'P02-1', 'P02-2', 'P03-1', 'P04-1', 'P05-1', 'P06-1', 'P07-1', 'P08-1'];

let feeder: Feeder;
beforeAll(() => {
  feeder = new Feeder();
});
afterAll(() => {
  feeder.close();
});

it('the job has nine units', () => {
  expect(must(feeder.workshop.jobs.get(JOB)).value.units.map(({ id }) => id)).toEqual(UNITS);
});

it('the example in the help of feed names a check that its unit has', () => {
  const { route } = must(planOf(must(builtFromNow(feeder.workshop, JOB)), 'P02-1'));
  const named = /"check":"([^"]+)"/.exec(HELP.feed)?.[1];
  expect(route.steps.flatMap(({ checks }) => checks.map(({ id }) => id))).toContain(named);
});

describe.each(UNITS)('%s', (unit) => {
  it('is built through feed to a released record with no step missing', async () => {
    // Each on a day of its own: the machines are proven anew, and stay so until it is built.
    feeder.anotherDay();
    const { state, answers, code } = await feeder.build(JOB, unit);
    expect(answers.find((answer) => !(JSON.parse(answer) as { ok: boolean }).ok)).toBeUndefined();
    expect(code).toBe(0);
    expect(state.finished).toBe(true);
    for (const step of state.steps.values()) expect(step.status, step.step.id).toBe('done');

    const out: string[] = [];
    const io = { workshop: feeder.root, out: (text: string) => void out.push(text), err: () => {} };
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
    const counts = contextOf(must(planOf(must(builtFromNow(feeder.workshop, JOB)), unit)).setOut)
      .unit as Parameters<typeof isFor>[1];
    // What was ordered besides stands on the first page.
    for (const fitting of counts.fittings) expect(page.unit.needs).toContain(fitting.replaceAll('-', ' '));
    for (const { line, covered } of LINES)
      for (const [ids, units] of covered)
        for (const id of idsIn(ids)) expect(inRecord.has(id), `${line}: ${id}`).toBe(isFor(units, counts));
    // What is done for each sash is done for every sash, and so for dividers.
    expect(inRecord.get('square.sash')?.size ?? 0).toBe(Number(counts.opening));
    expect(inRecord.get('dividers.position')?.size ?? 0).toBe(Number(counts.dividers));
    const released = must(readEvents(realDisk, feeder.root, JOB, unit)).filter(
      ({ kind }) => kind === 'released',
    );
    const holds = [...state.steps.values()]
      .filter(({ step }) => step.hold && step.hold.release === undefined)
      .map(({ step }) => step.id);
    expect(released.map((event) => (event as { step?: string }).step).sort()).toEqual(holds.sort());
  }, 300_000);
});
