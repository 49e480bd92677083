/** Every refusal of the build room: raised by a real sequence of actions, and naming what would lift it. */
import { describe, expect, it } from 'vitest';
import type { Problem } from '../../src/base/problem.js';
import { tabled } from '../../src/base/problem.js';
import type { Action } from '../../src/unit/actions.js';
import { fold } from '../../src/unit/fold.js';
import { BUILD_MESSAGES } from '../../src/unit/messages.js';
import { someProblem } from '../problems.js';
import { at, Bench, INSTRUMENTS, PEOPLE, RULES, route, SMALL, SQUARE, step } from './routes.js';

const LENGTH: Action = { do: 'answer', check: 'cut.frame/length', value: '1000' };
const PROBLEM = someProblem('window.stay', 'No stay carries this sash.', 'Choose another.');

/** Up to and with the sealed frame held. */
function sealed(bench = new Bench()): Bench {
  bench.do(LENGTH);
  bench.yes('cut.sash/a');
  bench.say('cut.sash/count', '4');
  bench.say('frame.seal/lot', 'S-1');
  bench.yes('frame.seal/a');
  return bench;
}
function released(bench = sealed()): Bench {
  bench.do({ do: 'release', step: 'frame.seal', pin: '1111' }, 'rl');
  return bench;
}
function failedGap(more = {}): Bench {
  const bench = new Bench(
    route({ s: [] }, [
      step('g', 's', {
        checks: [{ id: 'gap', kind: 'number', against: 'value', limits: ['t.gap'], ...more }],
      }),
    ]),
  );
  bench.say('g/gap', '9');
  bench.do({ do: 'snag', check: 'g/gap', cause: 'squaring', text: 'gap too wide' });
  return bench;
}
const snagOf = (bench: Bench): number => bench.state.snags.at(-1)!.n;
const alone = (id: string, solo?: { minutes: number; evidence: boolean }) => ({
  workshop: { ...RULES, people: PEOPLE.filter((p) => p.id === id), ...(solo ? { soloRelease: solo } : {}) },
});

type Row = [id: keyof typeof BUILD_MESSAGES, act: () => Problem, lifts: RegExp];
const refused = (bench: Bench, action: Action, person?: string) => () =>
  bench.refusal(action, person) as Problem;
const refusing = (make: () => Bench, action: Action | ((bench: Bench) => Action), person?: string) => () => {
  const bench = make();
  return bench.refusal(typeof action === 'function' ? action(bench) : action, person) as Problem;
};
const having = (more: Bench['more'], over = new Bench()): Bench => Object.assign(over, { more });
const one = (more: Parameters<typeof step>[2]) => new Bench(route({ s: [] }, [step('g', 's', more)]));

const measuring = () => {
  const thermometer = { ...INSTRUMENTS[0]!, id: 'H1', measures: ['temperature'], unit: 'C' } as const;
  const made = one({ checks: [{ id: 'n', kind: 'number', unit: 'C', quantity: 'temperature' }] });
  return having({ instruments: [...INSTRUMENTS, thermometer] }, made);
};
/** A lot is accepted at "in", and used at "use". */
const lotted = () =>
  new Bench(
    route({ s: [] }, [
      step('in', 's', { checks: [{ id: 'lot', kind: 'text', lot: 'sealant', accepts: true, dated: true }] }),
      step('use', 's', { checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }] }),
    ]),
  );
const accepted = () => {
  const bench = lotted();
  bench.say('in/lot', 'S-1 2026-12-31');
  return bench;
};

const ROWS: Row[] = [
  ['build.bad-action', refused(new Bench(), { do: 'dance' } as never), /JSON Schema/],
  ['build.nobody', () => having({ person: undefined }).refusal(LENGTH) as Problem, /person/],
  ['build.unknown-person', refused(new Bench(), LENGTH, 'zz'), /people/],
  ['build.person-expired', refused(new Bench(), LENGTH, 'old'), /renew/],
  ['build.needs-second', refused(new Bench(), LENGTH, 'tr'), /second person/],
  ['build.second-not-able', refused(new Bench(), { ...LENGTH, second: 'tr' } as Action, 'tr'), /level 3/],
  ['build.no-right', refusing(sealed, { do: 'release', step: 'frame.seal' }, 'mk'), /RL, QL/],
  [
    'build.same-person',
    () => {
      const bench = having({ person: 'rl' });
      sealed(bench);
      return bench.refusal({ do: 'release', step: 'frame.seal', pin: '1111' }) as Problem;
    },
    /QL/,
  ],
  [
    'build.solo-too-soon',
    () => {
      const bench = having({ person: 'ql', ...alone('ql', { minutes: 30, evidence: false }) });
      sealed(bench);
      return bench.refusal({ do: 'release', step: 'frame.seal' }) as Problem;
    },
    /Come back in 29 minutes/,
  ],
  ['build.pin-needed', refusing(sealed, { do: 'release', step: 'frame.seal' }, 'rl'), /PIN/],
  ['build.pin-wrong', refusing(sealed, { do: 'release', step: 'frame.seal', pin: '9' }, 'rl'), /again/],
  [
    'build.pin-locked',
    () =>
      having({ pinLocked: ['rl'] }, sealed()).refusal(
        { do: 'release', step: 'frame.seal', pin: '1111' },
        'rl',
      ) as Problem,
    /somebody else/,
  ],
  ['build.unknown-step', refused(new Bench(), { do: 'rework', step: 'nix', reason: 'x' }), /Name a step/],
  ['build.unknown-check', refused(new Bench(), { do: 'answer', check: 'nix', value: 'yes' }), /Name a check/],
  [
    'build.waits-for-step',
    refused(new Bench(), { do: 'answer', check: 'frame.seal/lot', value: 'S' }),
    /Do cut.frame first/,
  ],
  [
    'build.waits-for-hold',
    refusing(sealed, { do: 'answer', check: 'frame.square/set', value: SQUARE }),
    /release frame.seal/,
  ],
  [
    'build.waits-for-cure',
    () => {
      const bench = released();
      bench.say('frame.square/set', SQUARE);
      bench.do({ do: 'release', step: 'frame.square', pin: '1111' }, 'rl');
      return bench.refusal({ do: 'answer', check: 'frame.cured/a', value: 'yes' }) as Problem;
    },
    /Wait until 07:37 UTC/,
  ],
  [
    'build.open-time-over',
    () => {
      const bench = released();
      bench.minutes = 700;
      return bench.refusal({ do: 'answer', check: 'frame.square/set', value: SQUARE }) as Problem;
    },
    /Rework frame.seal/,
  ],
  [
    'build.waits-for-snag',
    () => {
      const bench = released();
      bench.do({ do: 'snag', step: 'frame.seal', cause: 'sealant', text: 'gap in the bead' });
      return bench.refusal({ do: 'answer', check: 'frame.square/set', value: SQUARE }) as Problem;
    },
    /close snag/,
  ],
  [
    'build.check-order',
    refusing(
      () => {
        const b = new Bench();
        b.do(LENGTH);
        return b;
      },
      { do: 'answer', check: 'cut.sash/count', value: '4' },
    ),
    /cut.sash\/a first/,
  ],
  [
    'build.already-answered',
    refusing(() => {
      const b = new Bench();
      b.do(LENGTH);
      return b;
    }, LENGTH),
    /Undo/,
  ],
  [
    'build.parked',
    refusing(() => {
      const b = new Bench();
      b.do({ do: 'park', reason: 'x' });
      return b;
    }, LENGTH),
    /Resume/,
  ],
  ['build.not-parked', refused(new Bench(), { do: 'resume' }), /Go on/],
  [
    'build.no-look',
    refused(new Bench(), { do: 'look', step: 'cut.frame' }),
    /Answer the check that is asked/,
  ],
  [
    'build.scrapped',
    () => {
      const bench = failedGap();
      bench.do({ do: 'decide', snag: snagOf(bench), disposition: 'scrap', reason: 'bent' }, 'ql');
      return bench.refusal({ do: 'answer', check: 'g/gap', value: '4' }) as Problem;
    },
    /T01-1R1/,
  ],
  [
    'build.unsigned',
    () => {
      const bench = having({ keyProblem: someProblem('key.gone', 'x', 'y') }, failedGap());
      const scrap = { do: 'decide', snag: snagOf(bench), disposition: 'scrap', reason: 'bent' } as const;
      return bench.refusal(scrap, 'ql') as Problem;
    },
    /mend the key/i,
  ],
  [
    'build.unseen',
    () =>
      having({ unseen: { lines: 2, allowed: false } }, one({})).refusal({
        do: 'answer',
        check: 'g/a',
        value: 'yes',
      }) as Problem,
    /line is up/,
  ],
  [
    'build.finished',
    refusing(
      () => {
        const b = one({});
        b.yes('g/a');
        return b;
      },
      { do: 'answer', check: 'g/a', value: 'yes' },
    ),
    /snag or rework/,
  ],
  [
    'build.not-opened',
    () => {
      const bench = new Bench();
      bench.state = fold(SMALL, []);
      return bench.refusal(LENGTH) as Problem;
    },
    /Open the unit/,
  ],
  [
    'build.refused-order',
    refused(new Bench(SMALL, { problems: [PROBLEM] }), LENGTH),
    /override "window.stay"/,
  ],
  [
    'build.no-such-problem',
    refused(new Bench(SMALL, { problems: [PROBLEM] }), { do: 'override', problem: 'x', reason: 'y' }, 'ql'),
    /window.stay/,
  ],
  [
    'build.no-setup',
    () =>
      having({ setups: {} }, one({ setup: 'saw' })).refusal({
        do: 'answer',
        check: 'g/a',
        value: 'yes',
      }) as Problem,
    /first-off for the set-up "saw"/,
  ],
  [
    'build.setup-blocked',
    () =>
      having(
        { setups: { saw: { id: 'saw-3' } }, snagged: { lots: [], setups: ['saw-3'] } },
        one({ setup: 'saw' }),
      ).refusal({ do: 'answer', check: 'g/a', value: 'yes' }) as Problem,
    /new first-off/,
  ],
  ['build.nothing-to-cite', refused(one({}), { do: 'cite' }), /Answer the checks/],
  ['build.answer-kind', refused(one({}), { do: 'answer', check: 'g/a', value: 'no' }), /snag/],
  [
    'build.no-instrument',
    () => having({ inHand: undefined }).refusal(LENGTH) as Problem,
    /Scan one of these: T1/,
  ],
  ['build.unknown-instrument', refused(new Bench(), { do: 'instrument', instrument: 'zz' }), /instruments/],
  [
    'build.instrument-overdue',
    () => having({ inHand: INSTRUMENTS[1]!.id }).refusal(LENGTH) as Problem,
    /another instrument/,
  ],
  [
    'build.instrument-quantity',
    () => measuring().refusal({ do: 'answer', check: 'g/n', value: '20' }) as Problem,
    /Scan one of these: H1/,
  ],
  ['build.second-unconfirmed', refused(new Bench(), { ...LENGTH, second: 'rl' } as Action, 'tr'), /PIN/],
  ['build.nothing-to-begin', refused(new Bench(), { do: 'begin-set', check: 'cut.frame/length' }), /asked/],
  ['build.lot-code', refused(lotted(), { do: 'answer', check: 'in/lot', value: '(21)7' }), /holds it/],
  [
    'build.lot-needs-date',
    refused(lotted(), { do: 'answer', check: 'in/lot', value: 'S-1' }),
    /S-1 2027-03-31/,
  ],
  [
    'build.lot-not-accepted',
    refusing(accepted, { do: 'answer', check: 'use/lot', value: 'S-2 2026-12-31' }),
    /accept it here/,
  ],
  [
    'build.lot-which',
    () => {
      const lot = { material: 'sealant', code: 'S-1', accepted: true, at: at(0) } as const;
      const lots = [
        { ...lot, expires: '2026-06-30' },
        { ...lot, expires: '2026-07-31' },
      ];
      return having({ lots }, lotted()).refusal({ do: 'answer', check: 'in/lot', value: 's-1' }) as Problem;
    },
    /S-1|s-1/,
  ],
  [
    'build.piece-elsewhere',
    () => {
      const lot = { material: 'glass', code: 'G7', serial: true, accepted: true, at: at(0) } as const;
      const lots = [{ ...lot, job: 'test', unit: 'T02-1', item: 'L1' }];
      const checks = [{ id: 'lot', kind: 'text', lot: 'glass', serial: true }] as const;
      return having({ lots }, one({ checks: [...checks] })).refusal({
        do: 'answer',
        check: 'g/lot',
        value: 'g7',
      }) as Problem;
    },
    /label of the piece/,
  ],
  [
    'build.lot-expired',
    refused(one({ checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }] }), {
      do: 'answer',
      check: 'g/lot',
      value: 'S',
      expires: '2026-01-31',
    }),
    /in date/,
  ],
  [
    'build.lot-expiry-bad',
    refused(one({ checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }] }), {
      do: 'answer',
      check: 'g/lot',
      value: 'S',
      expires: 'soon',
    }),
    /year-month-day|2027-03-31/,
  ],
  [
    'build.lot-snagged',
    () =>
      having(
        { snagged: { lots: ['S'], setups: [] } },
        one({ checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }] }),
      ).refusal({ do: 'answer', check: 'g/lot', value: 'S' }) as Problem,
    /another lot/,
  ],
  [
    'build.evidence-needed',
    refused(one({ checks: [{ id: 'p', evidence: true }] }), { do: 'answer', check: 'g/p', value: 'yes' }),
    /inbox/,
  ],
  [
    'build.evidence-missing',
    refused(one({ checks: [{ id: 'p', evidence: true }] }), {
      do: 'answer',
      check: 'g/p',
      value: 'yes',
      evidence: ['a.jpg'],
    }),
    /file that is there/,
  ],
  [
    'build.square-incomplete',
    refusing(released, { do: 'answer', check: 'frame.square/set', value: { top: '1000' } }),
    /four sides/,
  ],
  [
    'build.square-key',
    refusing(released, { do: 'read', check: 'frame.square/set', key: 'middle', value: '1' }),
    /top, bottom/,
  ],
  ['build.nothing-to-undo', refused(new Bench(), { do: 'undo', reason: 'x' }), /[Rr]ework/],
  [
    'build.nothing-to-rework',
    refused(new Bench(), { do: 'rework', step: 'hang', reason: 'x' }),
    /do the step/,
  ],
  ['build.no-hold', refused(new Bench(), { do: 'release', step: 'hang' }, 'ql'), /has one/],
  [
    'build.not-held',
    refused(new Bench(), { do: 'release', step: 'frame.seal' }, 'ql'),
    /Answer frame.seal\/lot, frame.seal\/a/,
  ],
  [
    'build.hold-skipped',
    () => {
      const bench = sealed();
      // As another program, or a mended journal, might have written it.
      bench.write([
        { kind: 'began', step: 'frame.square' },
        {
          kind: 'answered',
          step: 'frame.square',
          check: 'frame.square/set',
          answer: { kind: 'square', readings: {} },
          verdict: { outcome: 'pass', rules: [], notes: [] },
        },
      ]);
      return bench.refusal({ do: 'release', step: 'frame.seal', pin: '1111' }, 'rl') as Problem;
    },
    /Raise a snag on frame.seal/,
  ],
  ['build.unknown-snag', refused(new Bench(), { do: 'close', snag: 7 }), /No snag of this unit/],
  [
    'build.concession-no-limit',
    refusing(
      failedGap,
      (b) => ({ do: 'decide', snag: snagOf(b), disposition: 'concession', reason: 'r', pin: '1111' }),
      'rl',
    ),
    /limit "t.gap"/,
  ],
  [
    'build.concession-no-failure',
    () => {
      const bench = new Bench();
      bench.do(LENGTH);
      bench.do({ do: 'snag', check: 'cut.frame/length', cause: 'other', text: 'x' });
      return bench.refusal(
        { do: 'decide', snag: snagOf(bench), disposition: 'concession', reason: 'r' },
        'ql',
      ) as Problem;
    },
    /failed check/,
  ],
  [
    'build.concession-safety',
    refusing(
      () => failedGap({ safety: true }),
      (b) => ({ do: 'decide', snag: snagOf(b), disposition: 'concession', reason: 'r', limit: 't.gap' }),
      'ql',
    ),
    /Rework or scrap/,
  ],
  [
    'build.concession-product-limit',
    refusing(
      () => failedGap({ limits: ['t.product'] }),
      (b) => ({ do: 'decide', snag: snagOf(b), disposition: 'concession', reason: 'r', limit: 't.product' }),
      'ql',
    ),
    /Rework or scrap/,
  ],
  [
    'build.snag-not-decided',
    refusing(failedGap, (b) => ({ do: 'close', snag: snagOf(b) })),
    /Decide it first/,
  ],
  [
    'build.snag-needs-rework',
    () => {
      const bench = failedGap();
      bench.do({ do: 'decide', snag: snagOf(bench), disposition: 'rework', reason: 'r' });
      return bench.refusal({ do: 'close', snag: snagOf(bench) }) as Problem;
    },
    /Rework g/,
  ],
  [
    'build.snag-needs-readings',
    () => {
      const bench = failedGap();
      bench.do({ do: 'decide', snag: snagOf(bench), disposition: 'repair', reason: 'r' }, 'ql');
      return bench.refusal({ do: 'close', snag: snagOf(bench) }) as Problem;
    },
    /Answer g\/gap/,
  ],
];

it('a unit that is released though a server lacks some of it says how much', () => {
  const bench = having({ unseen: { lines: 2, allowed: true } }, one({}));
  bench.yes('g/a');
  expect(bench.state.events.at(-1)).toMatchObject({ kind: 'finished', unseen: 2 });
});

describe('refusals', () => {
  it.each(ROWS.map(([id, act, lifts]) => ({ id, act, lifts })))(
    '$id names what would lift it',
    ({ id, act, lifts }) => {
      const problem = act();
      expect(problem.id).toBe(id);
      expect(problem.todo).toMatch(lifts);
      expect(problem.text.length).toBeGreaterThan(10);
    },
  );

  it('every id of the catalogue is caused above', () => {
    expect(ROWS.map(([id]) => id).sort()).toEqual(
      tabled(BUILD_MESSAGES)
        .map(([id]) => id)
        .sort(),
    );
  });

  it('the times used here are what the rows say', () => {
    expect(at(37).slice(11, 16)).toBe('07:37');
  });
});
