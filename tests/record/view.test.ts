import { describe, expect, it } from 'vitest';
import { recordSchema } from '../../src/record/schema.js';
import { recordView } from '../../src/record/view.js';
import { CONTEXT, DRAFTS, FINISHED, SETOUT, stateOf, UNFINISHED } from './states.js';

const finished = recordView(FINISHED, SETOUT, CONTEXT);
const unfinished = recordView(UNFINISHED, SETOUT, CONTEXT);
const checks = (view: typeof finished) =>
  view.stages.flatMap(({ steps }) => steps.flatMap((step) => step.checks));

describe('what is said first', () => {
  it('says that a finished unit is finished, and what was conceded', () => {
    expect(finished.verdict).toMatchObject({
      line: 'Finished and released, with 1 concession',
      finished: true,
      tone: 'good',
    });
    expect(finished.seal.closed).toBe(true);
  });

  it('says how far an unfinished unit is and everything that is missing', () => {
    expect(unfinished.verdict.line).toBe('NOT FINISHED: 2 of 3 steps done');
    expect(unfinished.missing).toContain('Glazing: not begun (1 step).');
    expect(unfinished.missing.at(-1)).toMatch(/not closed/);
    expect(unfinished.seal.closed).toBe(false);
  });

  it('names evidence that was asked for and is not there, even on a finished unit', () => {
    expect(finished.missing).toEqual(['No picture or file was kept for: Widest mitre gap.']);
  });

  it('names failed checks, open snags and unreleased holds', () => {
    const bare = stateOf(DRAFTS.slice(0, 7));
    const view = recordView(
      {
        ...bare,
        steps: new Map(
          [...bare.steps].map(([id, step]) => [id, { ...step, checks: step.checks.map(withoutConcession) }]),
        ),
      },
      SETOUT,
      CONTEXT,
    );
    expect(view.missing).toContain(
      'Failed and not settled: Widest mitre gap (0.35 mm (asked again, confirmed)).',
    );
    expect(view.missing).toContain('Hold not released: Frame square before cure.');
    expect(view.missing.join()).toMatch(/Snag 7 is open, not decided: gap open/);
    expect(view.verdict).toMatchObject({ tone: 'bad' });
  });

  it('tells apart scrapped, refused and not begun', () => {
    const line = (over: object) => recordView({ ...UNFINISHED, ...over }, SETOUT, CONTEXT).verdict.line;
    expect(line({ scrapped: true })).toMatch(/^SCRAPPED: not to be delivered/);
    expect(line({ standing: 'refused' })).toMatch(/refused at the order check/);
    expect(line({ standing: 'not-started' })).toMatch(/not begun/);
  });

  it('says what a reader must know: invented set, overrides, overdue instruments, answers given too fast, clock jumps', () => {
    const all = finished.remarks.join('\n');
    for (const words of [
      /invented/,
      /order check let pass/,
      /past its calibration/,
      /faster/,
      /clock jumped/,
    ])
      expect(all).toMatch(words);
  });
});

describe('checks', () => {
  it('carry reading, limit, rule, source, verdict, persons, time and instrument', () => {
    const square = checks(finished)[0]!;
    expect(square.answer).toMatchObject({
      by: 'Sam Wick (SW)',
      second: 'Orla Tench (OT)',
      at: '2026-03-04T09:04:07.000Z',
      line: 5,
      outcome: 'pass',
      judged: { value: 0.5, unit: 'mm', uncertainty: 0.82 },
      overdueAllowedBy: 'Orla Tench (OT)',
    });
    expect(square.answer!.readings).toHaveLength(6);
    expect(square.answer!.readings.every(({ instrument }) => instrument === 'T2')).toBe(true);
    expect(square.answer!.rules.map(({ says, source }) => [says, source])).toEqual([
      ['difference of diagonals at most 2 mm', 'this workshop'],
      ['difference of diagonals at most 4 mm', 'BS 4873:2009, 6.2'],
    ]);
  });

  it('keep what was typed where it is not what it means', () => {
    const raws = checks(finished)[0]!.answer!.readings.map(({ raw, value }) => [raw, value]);
    expect(raws).toContainEqual(['1000,5', 1000.5]);
  });

  it('show the old value of what was put right, and why', () => {
    const [old] = checks(finished)[0]!.earlier;
    expect(old!.says).toMatch(/1227 mm/);
    expect(old!.why).toBe('put right: read the wrong corner');
    expect(finished.corrections).toHaveLength(1);
    expect(finished.corrections[0]!.was).toMatch(/1227 mm.*FAIL/);
    expect(finished.corrections[0]!.now).toMatch(/1221.5 mm.*pass/);
  });

  it('mark a conceded failure as such and name the snag', () => {
    const gap = checks(finished)[1]!;
    expect(gap).toMatchObject({ verdict: 'conceded', concession: 7 });
    expect(gap.remark).toMatch(/snag 7/);
  });

  it('show what is not done as open', () => {
    expect(checks(unfinished).at(-1)).toMatchObject({ verdict: 'open' });
    expect(checks(unfinished).at(-1)!.answer).toBeUndefined();
  });

  it('show the words of a choice, not its id', () => {
    expect(checks(finished).at(-1)!.answer!.says).toBe('seen, legible');
  });
});

describe('history', () => {
  it('lists holds with who released them, snags with what became of them, overrides, reworks and notes', () => {
    expect(finished.holds[0]).toMatchObject({ released: true, by: 'Orla Tench (OT)', pin: true, line: 10 });
    expect(finished.snags[0]).toMatchObject({
      number: 7,
      open: false,
      decided: { disposition: 'concession', by: 'Orla Tench (OT)', limit: 'mitre-gap' },
      closed: { note: 'customer told' },
      touches: ['this unit', 'set-up saw-1'],
    });
    expect(finished.overrides[0]).toMatchObject({ by: 'Orla Tench (OT)', reason: 'customer knows' });
    expect(finished.reworks[0]).toMatchObject({ step: 'Drain slots', reopened: ['Set the glass (L1)'] });
    expect(finished.notes.map(({ text }) => text).join()).toMatch(/rain at the door.*clock jumped/);
  });

  it('lists what it was built from by hash, lots, instruments with calibration, people and evidence', () => {
    expect(finished.builtFrom.map(({ sha256 }) => sha256.slice(0, 2))).toEqual(['ab', 'cd', 'ef']);
    expect(finished.lots[0]).toMatchObject({ material: 'glass', code: 'GL-77/4', expires: '2027-01-01' });
    expect(finished.instruments[0]).toMatchObject({ id: 'T2', due: '2026-02-01', certificate: 'C-118' });
    expect(finished.instruments[0]!.overdue[0]).toMatch(/allowed by Orla Tench/);
    expect(finished.people.map(({ name }) => name).sort()).toEqual(['Orla Tench (OT)', 'Sam Wick (SW)']);
    expect(finished.evidence[0]).toMatchObject({ name: 'corner.jpg', of: 'Hold: Frame square before cure' });
  });
});

describe('the view as data', () => {
  it('answers to the published schema, finished or not', () => {
    expect(recordSchema.safeParse(finished).error).toBeUndefined();
    expect(recordSchema.safeParse(unfinished).error).toBeUndefined();
  });

  it('shows what the journal holds even where the set-out cannot be read', () => {
    const view = recordView(FINISHED, undefined, CONTEXT);
    expect(view.missing.at(-1)).toMatch(/cannot be read/);
    expect(checks(view)).toHaveLength(6);
  });
});

function withoutConcession<T extends { readonly answered?: { readonly concession?: number } }>(check: T): T {
  if (!check.answered) return check;
  const { concession: _, ...answered } = check.answered;
  return { ...check, answered };
}
