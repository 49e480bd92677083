/** Small hand-made routes, people and limits (all invented) for the build room's tests. */
import { type LimitsFile, parseLimits } from '../../src/measure/limits.js';
import type { Instrument } from '../../src/measure/types.js';
import type { Route, RouteCheck, RouteStage, RouteStep } from '../../src/procedure/types.js';
import type { Action } from '../../src/unit/actions.js';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { decide } from '../../src/unit/decide.js';
import type { EventBody, JournalEvent } from '../../src/unit/events.js';
import { apply, fold } from '../../src/unit/fold.js';
import type { Judged } from '../../src/unit/revision.js';
import type { Decision, DecisionContext, Level, Person, WorkshopRules } from '../../src/unit/types.js';
import type { UnitState } from '../../src/unit/unitstate.js';

const START = Date.parse('2026-03-02T07:00:00.000Z');
export const at = (minutes: number): string => new Date(START + minutes * 60_000).toISOString();

export const check = (id: string, more: Partial<RouteCheck> = {}): RouteCheck => ({
  id,
  kind: 'tick',
  ask: `${id}?`,
  limits: [],
  against: 'deviation',
  instruments: [],
  rests: [],
  evidence: false,
  safety: false,
  ...more,
});

export const step = (
  id: string,
  stage: string,
  more: Omit<Partial<RouteStep>, 'checks'> & {
    readonly checks?: readonly (string | Partial<RouteCheck>)[];
  } = {},
): RouteStep => {
  const { checks = ['a'], ...rest } = more;
  return {
    id,
    base: id.split('@')[0]!,
    ...(id.includes('@') ? { item: id.split('@')[1]! } : {}),
    stage,
    title: `Do ${id}`,
    do: [],
    figures: [],
    why: '',
    watch: '',
    tools: [],
    spot: 'whole',
    makes: [id],
    rests: [],
    ...rest,
    checks: checks.map((given) =>
      typeof given === 'string'
        ? check(`${id}/${given}`)
        : check(`${id}/${given.id ?? 'a'}`, { ...given, id: `${id}/${given.id ?? 'a'}` }),
    ),
  };
};

export const route = (stages: Record<string, readonly string[]>, steps: readonly RouteStep[]): Route => ({
  procedure: { name: 'small', version: '1', title: 'Small' },
  unit: 'T01-1',
  stages: Object.entries(stages).map(
    ([id, after]): RouteStage => ({
      id,
      title: id,
      branch: 'all',
      after,
      steps: steps.filter((each) => each.stage === id).map((each) => each.id),
    }),
  ),
  steps,
});

const hold = (id: string, more = {}) => ({ id, title: id, notSamePerson: true, evidence: false, ...more });

/** Frame and sash in parallel, hung together, glazed and inspected: small, but with all that a route may hold. */
export const SMALL = route(
  { cut: [], frame: ['cut'], sash: ['cut'], hang: ['frame', 'sash'], last: ['hang'] },
  [
    step('cut.frame', 'cut', {
      makes: ['frame.members'],
      checks: [
        {
          id: 'length',
          kind: 'number',
          expect: 1000,
          limits: ['t.length'],
          quantity: 'length',
          instruments: ['tape'],
        },
      ],
    }),
    step('cut.sash', 'cut', {
      makes: ['sash.members'],
      checks: ['a', { id: 'count', kind: 'count', expect: 4 }],
    }),
    step('frame.seal', 'frame', {
      makes: ['frame.sealed'],
      rests: ['frame.members'],
      checks: [{ id: 'lot', kind: 'text', lot: 'sealant' }, 'a'],
      hold: hold('H4'),
    }),
    step('frame.square', 'frame', {
      makes: ['frame.geometry'],
      rests: ['frame.sealed'],
      notAfter: { feature: 'frame.sealed', minutes: 600 },
      checks: [
        {
          id: 'set',
          kind: 'square',
          nominal: { w: 1000, h: 700 },
          limits: ['t.diagonals'],
          quantity: 'length',
          instruments: ['tape'],
        },
      ],
      hold: hold('H5'),
    }),
    step('frame.cured', 'frame', {
      makes: ['frame.cured'],
      rests: ['frame.geometry'],
      notBefore: { feature: 'frame.geometry', minutes: 30 },
    }),
    step('sash.square@L1', 'sash', {
      makes: ['sash.geometry@L1'],
      rests: ['sash.members'],
      checks: [{ id: 'flat', kind: 'go-no-go' }],
    }),
    step('sash.square@L2', 'sash', {
      makes: ['sash.geometry@L2'],
      rests: ['sash.members'],
      checks: [{ id: 'flat', kind: 'go-no-go' }],
    }),
    step('hang', 'hang', {
      makes: ['hung'],
      rests: ['frame.cured', 'sash.geometry@L1', 'sash.geometry@L2'],
      checks: [{ id: 'gap', kind: 'number', against: 'value', limits: ['t.gap'], expect: 4 }, 'a'],
    }),
    step('glass', 'hang', {
      makes: ['glazed'],
      checks: [
        { id: 'safety', kind: 'go-no-go', safety: true },
        { id: 'over', rests: ['hung'] },
      ],
    }),
    step('inspect', 'last', {
      makes: ['inspected'],
      rests: [
        'frame.members',
        'sash.members',
        'frame.sealed',
        'frame.geometry',
        'frame.cured',
        'sash.geometry@L1',
        'sash.geometry@L2',
        'hung',
        'glazed',
      ],
      checks: [
        'a',
        {
          id: 'look',
          kind: 'choice',
          choices: [
            { id: 'good', text: 'good', pass: true },
            { id: 'bad', text: 'bad', pass: false },
          ],
        },
      ],
      hold: hold('H11'),
    }),
  ],
);

const limits = parseLimits({
  file: 'limits.yaml',
  text: `format: pinchrod-limits 1
limits:
  t.length: {title: length, of: deviation, within: 1, source: {kind: house-rule, text: invented for tests}}
  t.diagonals: {title: diagonals, of: diagonals, most: 2, source: {kind: house-rule, text: invented for tests}}
  t.gap: {title: gap, of: value, between: [2, 6], source: {kind: house-rule, text: invented for tests}}
  t.product: {title: product limit, of: deviation, within: 2, source: {kind: published, text: invented for tests}}
`,
});
if (!limits.ok) throw new Error(JSON.stringify(limits.problems));
export const LIMITS: LimitsFile = limits.value;

const person = (id: string, level: Level, more: Partial<Person> = {}): Person => ({
  id,
  initials: id.toUpperCase(),
  name: `Person ${id}`,
  levels: { all: level },
  ...more,
});
export const PEOPLE = [
  person('mk', 3),
  person('rl', 4, { pin: '1111' }),
  person('ql', 5),
  person('tr', 2),
  person('old', 4, { validUntil: '2025-12-31' }),
];

/** A route with the limits and the rule of judging of these tests, or others. */
export const judged = (of: Route, more: Partial<Judged> = {}): Judged => ({
  route: of,
  limits: LIMITS,
  decisionRule: { kind: 'simple' },
  order: {},
  ...more,
});

export const RULES: WorkshopRules = {
  name: 'test',
  people: PEOPLE,
  pinMatches: (who, pin) => who.pin === pin,
  limits: LIMITS,
  decisionRule: { kind: 'simple' },
  units: 'mm',
  idleMinutes: 10,
  shiftMinutes: 600,
  openingTriangle: 'apex-at-hinge',
  dates: 'YYYY-MM-DD',
  leastPicture: [640, 480],
};

export const INSTRUMENTS: Instrument[] = [
  {
    id: 'T1',
    kind: 'tape',
    measures: ['length'],
    title: 'tape',
    resolution: 0.5,
    class: 'I',
    offset: 0,
    hook: false,
    due: '2027-01-01',
  },
  {
    id: 'T9',
    kind: 'tape',
    measures: ['length'],
    title: 'old tape',
    resolution: 0.5,
    class: 'II',
    offset: 0,
    hook: true,
    due: '2026-01-01',
  },
];

export const context = (minutes: number, more: Partial<DecisionContext> = {}): DecisionContext => ({
  now: at(minutes),
  bench: 'B1',
  person: 'mk',
  inHand: 'T1',
  workshop: RULES,
  instruments: INSTRUMENTS,
  ...more,
});

export const OPENED: EventBody = {
  kind: 'opened',
  unit: 'T01-1',
  job: 'test',
  sources: {},
  procedure: { name: 'small', version: '1' },
  profileSet: 'none',
  program: 'test',
};

export const opened = (over: Route = SMALL, options = {}): UnitState => {
  const empty = fold(over, [], options);
  return apply(empty, ...asIfWritten(empty, [OPENED], 'mk', context(0)));
};

/** A bench for tests: a unit, a clock in minutes, a person; every action must be taken, or is expected to be refused. */
export class Bench {
  state: UnitState;
  minutes = 1;
  more: Partial<DecisionContext> = {};
  constructor(over: Route = SMALL, options = {}) {
    this.state = opened(over, options);
  }

  context(): DecisionContext {
    return context(this.minutes, this.more);
  }

  decide(action: Action, person?: string): Decision {
    return decide(this.state, action, { ...this.context(), ...(person === undefined ? {} : { person }) });
  }

  /** Does it, and advances a minute. Gives the events written. */
  do(action: Action, person?: string): JournalEvent[] {
    const decision = this.decide(action, person);
    if (decision.kind !== 'events') throw new Error(`${JSON.stringify(action)}: ${JSON.stringify(decision)}`);
    return this.write(decision.events, decision.by);
  }

  write(bodies: readonly EventBody[], by = 'mk'): JournalEvent[] {
    const events = asIfWritten(this.state, bodies, by, this.context());
    this.state = apply(this.state, ...events);
    this.minutes += 1;
    return events;
  }

  yes(...checks: string[]): void {
    for (const id of checks) this.do({ do: 'answer', check: id, value: 'yes' });
  }

  say(id: string, value: string | Record<string, string>, person?: string): void {
    this.do({ do: 'answer', check: id, value }, person);
  }

  refusal(action: Action, person?: string): { id: string; text: string; todo: string } {
    const decision = this.decide(action, person);
    if (decision.kind !== 'refused')
      throw new Error(`${JSON.stringify(action)} was not refused: ${JSON.stringify(decision)}`);
    return decision.problem;
  }

  status(id: string): string {
    return this.state.steps.get(id)!.status;
  }
}

export const SQUARE = {
  top: '1000',
  bottom: '1000',
  left: '700',
  right: '700',
  bl_tr: '1220.5',
  br_tl: '1220.5',
};
