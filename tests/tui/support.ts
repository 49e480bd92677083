/**
 * A bench without disk or terminal: the real reducer, core and build room over events kept in memory, on a small invented
 * route that has every kind of check. Time goes on by a second a key.
 */
import { readFileSync } from 'node:fs';
import type { Problem } from '../../src/base/problem.js';
import { parseInstruments } from '../../src/measure/instruments.js';
import { parseLimits } from '../../src/measure/limits.js';
import type { Instrument } from '../../src/measure/types.js';
import type { Route, RouteCheck, RouteStep } from '../../src/procedure/types.js';
import type { Acted, BoardEntry, Ports, World } from '../../src/session/ports.js';
import type { Key, KeyName } from '../../src/tui/keys/split.js';
import { type Core, makeCore } from '../../src/tui/loop.js';
import { isWorkshopAction } from '../../src/unit/actions.js';
import { asIfWritten } from '../../src/unit/aswritten.js';
import { decide } from '../../src/unit/decide.js';
import type { JournalEvent } from '../../src/unit/events.js';
import { apply, asOf, fold } from '../../src/unit/fold.js';
import type { Person, WorkshopRules } from '../../src/unit/types.js';
import type { UnitState } from '../../src/unit/unitstate.js';
import { parseJob } from '../../src/window/job.js';
import { parseProfileSet } from '../../src/window/profileset.js';
import { setOut } from '../../src/window/setout.js';
import type { SetOut } from '../../src/window/types.js';
import { someProblem } from '../problems.js';

const read = (file: string) => ({
  file,
  text: readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8'),
});
const sure = <T>(result: { ok: true; value: T } | { ok: false; problems: readonly Problem[] }): T => {
  if (!result.ok) throw new Error(result.problems.map(({ text }) => text).join('\n'));
  return result.value;
};
const LIMITS = sure(parseLimits(read('shared/limits.yaml')));
export const INSTRUMENTS = sure(parseInstruments(read('shared/instruments.yaml')));

const PEOPLE: readonly Person[] = [
  { id: 'ilse', initials: 'IV', name: 'Ilse Varga', levels: { all: 3 } },
  { id: 'tom', initials: 'T.O.', name: 'Tom Okafor', levels: { all: 4 }, pin: '4711' },
  { id: 'nia', initials: 'NP', name: 'Nia Pryce', levels: { all: 1 } },
];

const check = (id: string, kind: RouteCheck['kind'], more: Partial<RouteCheck> = {}): RouteCheck => ({
  id,
  kind,
  ask: `ask ${id}`,
  limits: [],
  against: 'deviation',
  instruments: [],
  rests: [],
  evidence: false,
  safety: false,
  ...more,
});

const step = (id: string, checks: readonly RouteCheck[], more: Partial<RouteStep> = {}): RouteStep => ({
  id,
  base: id,
  stage: 'frame',
  title: `Step ${id}`,
  do: [`Do ${id}.`],
  figures: [],
  why: `Because of ${id}.`,
  watch: '',
  tools: [],
  spot: 'frame',
  makes: [`made.${id}`],
  rests: [],
  checks,
  ...more,
});

const STEPS: readonly RouteStep[] = [
  step('papers', [check('papers/read', 'tick'), check('papers/hand', 'go-no-go', { alone: true })]),
  step(
    'cut',
    [
      check('cut/length', 'number', {
        expect: 1000,
        plausible: 10,
        limits: ['cut.length'],
        quantity: 'length',
        instruments: ['tape'],
      }),
      check('cut/pieces', 'count', { expect: 4 }),
    ],
    { rests: ['made.papers'], stage: 'saw' },
  ),
  step(
    'seal',
    [
      check('seal/lot', 'text', { lot: 'sealant' }),
      check('seal/colour', 'choice', {
        choices: [
          { id: 'grey', text: 'grey, as ordered', pass: true },
          { id: 'black', text: 'black', pass: false },
        ],
      }),
    ],
    { rests: ['made.cut'] },
  ),
  step(
    'square',
    [
      check('square/set', 'square', {
        nominal: { w: 1000, h: 700 },
        limits: ['frame.diagonals.house', 'frame.diagonals.product'],
        quantity: 'length',
        instruments: ['tape'],
        plausible: 10,
      }),
    ],
    {
      rests: ['made.seal'],
      hold: { id: 'H1', title: 'frame square before glazing', notSamePerson: true, evidence: false },
    },
  ),
  step('last', [check('last/look', 'tick')], { rests: ['made.square'] }),
];

export const ROUTE: Route = {
  procedure: { name: 'small', version: '1', title: 'Small' },
  unit: 'P01-1',
  stages: [
    { id: 'frame', title: 'Frame', branch: 'frame', after: [], steps: ['papers', 'seal', 'square', 'last'] },
    { id: 'saw', title: 'Saw', branch: 'frame', after: [], steps: ['cut'] },
  ],
  steps: STEPS,
};

const JOB = sure(parseJob(read('shared/jobs/pier-house.yaml')));
/** The demonstration's fixed light, worked out by its profile set. */
const SET_OUT: SetOut = setOut(
  JOB.units.find(({ id }) => id === 'P01-1')!,
  sure(parseProfileSet(read('shared/profile-sets/w52.yaml'))),
);

const UNITS = ['P01-1', 'P02-1', 'P02-2'];

export interface Rig {
  readonly core: Core;
  readonly ports: Ports;
  readonly events: (unit: string) => readonly JournalEvent[];
  readonly press: (...keys: (KeyName | string)[]) => void;
  /** Text, then Enter. */
  readonly scan: (text: string) => void;
  readonly state: () => UnitState;
  /** The disk fails while this is set. */
  failing: boolean;
  /** Milliseconds that each reading of the clock takes on. */
  pace: number;
}

/** Sends keys by name, or text by `"text`. */
export function rig(
  start: Partial<Record<string, readonly JournalEvent[]>> = {},
  shop: {
    readonly units?: 'mm' | 'inch';
    readonly decisionRule?: WorkshopRules['decisionRule'];
    readonly instruments?: readonly Instrument[];
  } = {},
): Rig {
  const { instruments = INSTRUMENTS } = shop;
  let now = Date.parse('2026-11-02T07:00:00.000Z');
  const states = new Map(UNITS.map((unit) => [unit, openedState(unit, start[unit])]));
  let open: string | undefined;
  const box = { failing: false, pace: 1000 };

  const board: readonly BoardEntry[] = UNITS.map((unit) => ({
    unit,
    job: 'pier',
    standing: 'not-started',
    done: 0,
    total: 5,
    size: '1000 x 700',
    sentence: 'fixed light',
    where: '',
  }));
  const rules = {
    name: 'Workshop',
    people: PEOPLE,
    pinMatches: (person: Person, pin: string) => person.pin === pin,
    limits: LIMITS,
    decisionRule: shop.decisionRule ?? { kind: 'simple' as const },
    units: shop.units ?? ('mm' as const),
    idleMinutes: 10,
    shiftMinutes: 600,
    dates: 'YYYY-MM-DD' as const,
    leastPicture: [640, 480] as const,
    openingTriangle: 'apex-at-hinge' as const,
  };
  const world = (): World => {
    now += box.pace;
    const iso = new Date(now).toISOString();
    const state = open === undefined ? undefined : states.get(open);
    return {
      now: iso,
      rules,
      bench: 'bench-1',
      instruments,
      board,
      ...(state && open !== undefined
        ? { open: { id: open, job: 'pier', state: asOf(state, iso), setOut: SET_OUT } }
        : {}),
    };
  };
  const ports: Ports = {
    world,
    open(key) {
      const unit = key.replace(/^pier\//, '');
      if (!states.has(unit)) return { kind: 'failed', problem: someProblem('x', `no ${unit}`, '') };
      open = unit;
      return { kind: 'open' };
    },
    act(action, hand): Acted {
      const state = states.get(open ?? '');
      if (!state || open === undefined) throw new Error('no unit is open');
      if (isWorkshopAction(action)) throw new Error('no workshop here');
      const { now: at } = world();
      const decision = decide(asOf(state, at), action, {
        now: at,
        bench: 'bench-1',
        person: hand.person,
        inHand: hand.inHand,
        workshop: rules,
        instruments,
      });
      if (decision.kind === 'refused') return decision;
      if (decision.kind === 'ask') return decision;
      if (box.failing)
        return {
          kind: 'failed',
          problem: someProblem('disk.full', 'The disk is full.', 'Make room.'),
        };
      const written = asIfWritten(state, decision.events, decision.by, { now: at, bench: 'bench-1' });
      states.set(open, apply(state, ...written));
      return { kind: 'done', events: written };
    },
    refresh() {},
    reread() {},
    close() {
      open = undefined;
    },
  };
  const core = makeCore(ports);
  return {
    core,
    ports,
    events: (unit) => states.get(unit)!.events.slice(1),
    press: (...keys) => core.keys(keys.flatMap(keysFor)),
    scan: (text) => core.keys([...keysFor(`"${text}`), { name: 'enter' }]),
    state: () => states.get(open!)!,
    set failing(value: boolean) {
      box.failing = value;
    },
    set pace(value: number) {
      box.pace = value;
    },
  };
}

const keysFor = (key: string): Key[] =>
  key.startsWith('"')
    ? [...key.slice(1)].map((text) => ({ name: 'char', text }))
    : [{ name: key as KeyName }];

function openedState(unit: string, more: readonly JournalEvent[] = []): UnitState {
  const route = { ...ROUTE, unit };
  const opened = asIfWritten(
    { events: [] },
    [
      {
        kind: 'opened',
        unit,
        job: 'pier',
        sources: {},
        procedure: { name: 'small', version: '1' },
        profileSet: 'w52',
        program: 'test',
      },
    ],
    'ilse',
    { now: '2026-11-02T06:00:00.000Z', bench: 'bench-1' },
  );
  return fold(route, [...opened, ...more]);
}
