/** A unit's state written by hand, with one of everything a record can hold. All data is invented. */
import type * as z from 'zod';
import { quoted } from '../../src/base/words.js';
import type { Instrument, Verdict } from '../../src/measure/types.js';
import type { Route, RouteCheck, RouteStep } from '../../src/procedure/types.js';
import type { Maker } from '../../src/record/basis.js';
import { NO_PARTICULARS } from '../../src/record/particulars.js';
import type { RecordContext } from '../../src/record/view.js';
import type { EventBody, JournalEvent, verdictSchema } from '../../src/unit/events.js';
import { fold } from '../../src/unit/fold.js';
import type { CheckState, Person, StepState } from '../../src/unit/types.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import type { SetOut } from '../../src/window/types.js';

export const PEOPLE: readonly Person[] = [
  { id: 'orla', initials: 'OT', name: 'Orla Tench', levels: { all: 4 } },
  { id: 'sam', initials: 'SW', name: 'Sam Wick', levels: { all: 3 } },
];

const TAPE: Instrument = {
  id: 'T2',
  kind: 'tape',
  measures: ['length'],
  title: '5 m tape',
  resolution: 1,
  class: 'II',
  offset: 0,
  hook: true,
  calibrated: '2025-11-03',
  due: '2026-02-01',
  certificate: 'C-118',
};

const MAKER: Maker = {
  name: 'Quay Lane Windows',
  triangle: 'apex-at-hinge',
  particulars: {
    ...NO_PARTICULARS,
    maker: 'Quay Lane Windows',
  },
};

export const CONTEXT: RecordContext = {
  maker: MAKER,
  customer: 'Mr & Mrs Żółty <quay>',
  people: PEOPLE,
  instruments: [TAPE],
  at: '2026-03-09T16:00:00.000Z',
  program: 'pinchrod 0.1.0',
  initials: false,
};

const check = (
  id: string,
  kind: RouteCheck['kind'],
  ask: string,
  more: Partial<RouteCheck> = {},
): RouteCheck => ({
  id,
  kind,
  ask,
  limits: [],
  against: 'deviation',
  instruments: [],
  rests: [],
  evidence: false,
  safety: false,
  ...more,
});

const step = (
  id: string,
  stage: string,
  title: string,
  checks: RouteCheck[],
  more: Partial<RouteStep> = {},
): RouteStep => ({
  id,
  base: id.split('@')[0]!,
  stage,
  title,
  do: ['Do it.'],
  figures: [],
  why: 'Because.',
  watch: 'Mind.',
  tools: [],
  spot: 'frame',
  makes: [],
  rests: [],
  checks,
  ...more,
});

const STEPS: readonly RouteStep[] = [
  step(
    'frame.square',
    'frame',
    'Square the frame',
    [
      check('frame.square/set', 'square', 'Read four sides and two diagonals', {
        nominal: { w: 1000, h: 700 },
        unit: 'mm',
        limits: ['square-house'],
        instruments: ['tape'],
      }),
      check('frame.square/gap', 'number', 'Widest mitre gap', {
        unit: 'mm',
        limits: ['mitre-gap'],
        against: 'value',
        evidence: true,
      }),
    ],
    { hold: { id: 'H2', title: 'Frame square before cure', notSamePerson: true, evidence: false } },
  ),
  step('frame.drain', 'frame', 'Drain slots', [
    check('frame.drain/down', 'go-no-go', 'Drain slots face down and are open', { safety: false }),
    check('frame.drain/count', 'count', 'Count the drain slots', { expect: 2 }),
  ]),
  step(
    'glass.set@L1',
    'glaze',
    'Set the glass',
    [
      check('glass.set@L1/lot', 'text', 'Lot on the glass', { lot: 'glass' }),
      check('glass.set@L1/mark', 'choice', 'Safety mark on the glass', {
        choices: [
          { id: 'seen', text: 'seen, legible', pass: true },
          { id: 'none', text: 'no mark', pass: false },
        ],
        safety: true,
      }),
    ],
    { item: 'L1' },
  ),
];

type JournalVerdict = z.infer<typeof verdictSchema>;
const rule = (outcome: Verdict['outcome'], limit: string, says: string): JournalVerdict['rules'][number] => ({
  limit,
  title: `limit ${limit}`,
  says,
  high: 2,
  sourceKind: limit === 'square-bs' ? 'published' : 'house-rule',
  source: limit === 'square-bs' ? 'BS 4873:2009, 6.2' : 'this workshop',
  outcome,
});
const verdict = (outcome: Verdict['outcome'], more: Partial<JournalVerdict> = {}): JournalVerdict => ({
  outcome,
  rules: [],
  notes: [],
  ...more,
});

const squareReadings = (bl: string) =>
  Object.fromEntries(
    Object.entries({
      top: '1000',
      bottom: '1000,5',
      left: '700',
      right: '700.5',
      bl_tr: bl,
      br_tl: '1221',
    }).map(([key, raw]) => [key, [{ raw, value: Number(raw.replace(',', '.')), instrument: 'T2' }]]),
  );

const HASH = (n: number) => n.toString(16).padStart(2, '0').repeat(32);

type Draft = EventBody & { by?: string };
/** Numbers and dates drafts a minute apart; the hashes are made up, for the record only prints them. */
function journal(drafts: readonly Draft[]): JournalEvent[] {
  return drafts.map(({ by = 'sam', ...body }, i) => ({
    v: 1 as const,
    n: i + 1,
    at: `2026-03-04T09:${String(i).padStart(2, '0')}:07.000Z`,
    bench: 'bench 1',
    prev: HASH(i),
    hash: HASH(i + 1),
    by,
    ...body,
  })) as JournalEvent[];
}

export const DRAFTS: readonly Draft[] = [
  {
    kind: 'opened',
    unit: 'P02-1',
    job: 'pier-house',
    sources: { procedure: 'ab'.repeat(32), 'profile-set': 'cd'.repeat(32), limits: 'ef'.repeat(32) },
    procedure: { name: 'casement', version: '3' },
    profileSet: 'w52',
    program: 'pinchrod 0.1.0',
  },
  {
    kind: 'overridden',
    problem: 'window.near-limit',
    text: 'The sash is near the limit of its stay',
    reason: 'customer knows',
    by: 'orla',
  },
  {
    kind: 'answered',
    step: 'frame.square',
    check: 'frame.square/set',
    answer: { kind: 'square', readings: squareReadings('1227') },
    verdict: verdict('fail', {
      value: 6,
      unit: 'mm',
      uncertainty: 0.82,
      rules: [rule('fail', 'square-house', 'difference of diagonals at most 2 mm')],
    }),
  },
  { kind: 'corrected', of: 3, reason: 'read the wrong corner' },
  {
    kind: 'answered',
    step: 'frame.square',
    check: 'frame.square/set',
    answer: { kind: 'square', readings: squareReadings('1221.5') },
    verdict: verdict('pass', {
      value: 0.5,
      unit: 'mm',
      uncertainty: 0.82,
      rules: [
        rule('pass', 'square-house', 'difference of diagonals at most 2 mm'),
        rule('pass', 'square-bs', 'difference of diagonals at most 4 mm'),
      ],
      notes: ['Sheared 0.4 mm to the right at the top.'],
    }),
    overdueAllowedBy: 'orla',
    second: 'orla',
  },
  {
    kind: 'answered',
    step: 'frame.square',
    check: 'frame.square/gap',
    answer: { kind: 'number', readings: [{ raw: '0.35', value: 0.35, confirmed: true }] },
    verdict: verdict('fail', {
      value: 0.35,
      unit: 'mm',
      rules: [rule('fail', 'mitre-gap', 'mitre gap at most 0.3 mm')],
    }),
    burst: true,
  },
  {
    kind: 'snag-raised',
    step: 'frame.square',
    check: 'frame.square/gap',
    severity: 'minor',
    cause: 'saw',
    text: 'gap open at the top left corner, Sam Wick saw it',
    touches: { unit: true, setup: 'saw-1' },
    containment: 'saw checked',
  },
  {
    kind: 'snag-decided',
    snag: 7,
    disposition: 'concession',
    reason: 'sealed, not seen',
    limit: 'mitre-gap',
    pin: true,
    by: 'orla',
  },
  { kind: 'snag-closed', snag: 7, note: 'customer told', by: 'orla' },
  {
    kind: 'released',
    step: 'frame.square',
    hold: 'H2',
    pin: true,
    by: 'orla',
    evidence: [{ sha256: '12'.repeat(32), name: 'corner.jpg', bytes: 20480 }],
  },
  { kind: 'reworked', step: 'frame.drain', reason: 'burr left', reopens: ['glass.set@L1'] },
  {
    kind: 'answered',
    step: 'frame.drain',
    check: 'frame.drain/down',
    answer: { kind: 'go-no-go', go: true },
    verdict: verdict('pass'),
  },
  {
    kind: 'answered',
    step: 'frame.drain',
    check: 'frame.drain/count',
    answer: { kind: 'count', count: 2 },
    verdict: verdict('pass', { value: 2 }),
  },
  { kind: 'noted', text: 'rain at the door', step: 'frame.drain' },
  { kind: 'clock-jumped', from: '2026-03-04T09:13:07.000Z', to: '2026-03-04T08:13:07.000Z', by: 'nobody' },
];

export const LAST_DRAFTS: readonly Draft[] = [
  {
    kind: 'answered',
    step: 'glass.set@L1',
    check: 'glass.set@L1/lot',
    answer: { kind: 'text', text: 'GL-77/4' },
    verdict: verdict('pass'),
    lot: { material: 'glass', code: 'GL-77/4', expires: '2027-01-01' },
  },
  {
    kind: 'answered',
    step: 'glass.set@L1',
    check: 'glass.set@L1/mark',
    answer: { kind: 'choice', choice: 'seen' },
    verdict: verdict('pass'),
  },
  { kind: 'finished', steps: 3, checks: 6, by: 'orla' },
];

/** The state that those events make, as the build room would give it. */
export function stateOf(drafts: readonly Draft[]): UnitState {
  const events = journal(drafts);
  const finished = drafts.at(-1)?.kind === 'finished';
  const checks = (of: RouteStep): CheckState[] =>
    of.checks.map(({ id }) => {
      const mine = events.filter((event) => event.kind === 'answered' && event.check === id);
      const last = mine.at(-1);
      if (last?.kind !== 'answered') return { id, holds: false, earlier: [] };
      const concession = last.verdict.outcome === 'fail' ? 7 : undefined;
      return {
        id,
        holds: true,
        earlier: mine.slice(0, -1).map(({ n }) => ({ n, why: 'corrected' as const })),
        answered: {
          n: last.n,
          at: last.at,
          by: last.by,
          answer: last.answer,
          verdict: last.verdict as Verdict,
          evidence: last.evidence ?? [],
          burst: last.burst ?? false,
          ...(concession === undefined ? {} : { concession }),
        },
      };
    });
  const steps = new Map<string, StepState>(
    STEPS.map((of) => {
      const now = checks(of);
      const done = now.every(({ holds }) => holds);
      const release = events.find((event) => event.kind === 'released' && event.step === of.id);
      return [
        of.id,
        {
          step: of,
          status: done ? 'done' : 'waiting',
          because: done ? [] : ['the drain slots come first'],
          open: !done,
          checks: now,
          ...(release ? { released: { n: release.n, by: release.by, at: release.at } } : {}),
        },
      ];
    }),
  );
  const find = <K extends JournalEvent['kind']>(kind: K) =>
    events.find((event) => event.kind === kind) as (JournalEvent & { kind: K }) | undefined;
  const raised = find('snag-raised');
  const decided = find('snag-decided');
  const closed = find('snag-closed');
  const route: Route = {
    procedure: { name: 'casement', version: '3', title: 'Casement window' },
    unit: 'P02-1',
    stages: [
      { id: 'frame', title: 'Frame', branch: 'frame', after: [], steps: ['frame.square', 'frame.drain'] },
      { id: 'glaze', title: 'Glazing', branch: 'all', after: ['frame'], steps: ['glass.set@L1'] },
    ],
    steps: STEPS,
  };
  return {
    unit: 'P02-1',
    job: 'pier-house',
    route,
    events,
    steps,
    snags: raised
      ? [
          {
            n: raised.n,
            raised,
            ...(decided ? { decided } : {}),
            ...(closed ? { closed } : {}),
            open: closed === undefined,
          },
        ]
      : [],
    standing: finished ? 'finished' : 'under-way',
    parked: false,
    finished,
    scrapped: false,
    overrides: ['window.near-limit'],
    derived: fold(route, events).derived,
    done: [...steps.values()].filter(({ status }) => status === 'done').length,
    timers: [],
    orderProblems: [],
    now: '2026-03-09T16:00:00.000Z',
  };
}

export const SETOUT: SetOut = {
  unit: {
    id: 'P02-1',
    mark: 'P02',
    number: 1,
    job: 'pier-house',
    width: 1000,
    height: 700,
    layout: { type: 'light', kind: 'top-hung', hinge: 'top', glass: 'dg24' },
    room: 'Kitchen',
    note: '',
    outsideColour: 'grey',
    insideColour: 'white',
    needs: { escape: false, restrictor: true, safetyGlass: false },
  },
  refused: false,
  problems: [],
  warnings: [],
  profileSet: { name: 'w52', title: 'W52 casement', invented: true },
  sizes: new Map(),
  frame: { w: 1000, h: 700, diagonal: 1220.655 },
  inner: { x: 52, y: 52, w: 896, h: 596 },
  mass_kg: 24.35,
  lift: 'one person',
  lights: [
    {
      id: 'L1',
      kind: 'top-hung',
      hinge: 'top',
      opens_in: false,
      sizes: new Map(),
      sentence: 'hinged at the top, seen from outside, opens out',
      box: { x: 52, y: 52, w: 896, h: 596 },
      sight: { w: 896, h: 596 },
      rebate: { w: 900, h: 600 },
      hinges: null,
      addon: { w: 900, h: 600, diagonal: 1081.665 },
      sash: {
        w: 890,
        h: 590,
        diagonal: 1067.8,
        mass_kg: 15.1,
        rebate: { w: 810, h: 510 },
        box: { x: 55, y: 55, w: 890, h: 590 },
      },
      glass: {
        w: 800,
        h: 500,
        thickness: 24,
        area_m2: 0.4,
        mass_kg: 8,
        title: '4-16-4 double glazed',
        box: { x: 100, y: 100, w: 800, h: 500 },
      },
      beads: [],
      handle: { on_sash: 445, on_addon: 450 },
      keeps: [],
      stay: 'S12',
      near_limit: false,
      packers: [],
      packing: '',
      handle_side: 'bottom',
      gear: 'espag',
      stay_length: 300,
      stay_uses: [quoted('uses', 'top-hung')],
      cover: 12,
      clearance: 5,
      glass_name: 'dg24',
      safety: false,
      rings: {},
    },
  ],
  dividers: [],
  parts: [],
  extras: [],
  sums: [],
  figures: {},
  titles: {},
  numbers: new Map(),
};

export const UNFINISHED = stateOf(DRAFTS);
export const FINISHED = stateOf([...DRAFTS, ...LAST_DRAFTS]);
