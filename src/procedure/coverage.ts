/** A table of which steps and checks each unit gets. */
import type { ContextValues } from '../window/context.js';
import { FITTINGS } from '../window/types.js';
import { type Procedure, stepsOf } from './model.js';
import type { RouteContexts } from './route.js';
import type { Route } from './types.js';

interface CoverageRow {
  readonly stage: string;
  readonly step: string;
  /** Undefined in the step's own row. */
  readonly check?: string;
  /** How often each unit gets it (once per light or divider), in route order. */
  readonly times: readonly number[];
}

export interface Coverage {
  readonly units: readonly string[];
  readonly rows: readonly CoverageRow[];
  readonly steps: readonly number[];
  readonly checks: readonly number[];
}

/** In procedure order; a row of zeros is a step that none of these units needs. */
export function coverageOf(procedure: Procedure, routes: readonly Route[]): Coverage {
  const counts = routes.map((route) => {
    const count = new Map<string, number>();
    const add = (key: string) => count.set(key, (count.get(key) ?? 0) + 1);
    for (const step of route.steps) {
      add(step.base);
      for (const check of step.checks) add(`${step.base}/${check.id.slice(step.id.length + 1)}`);
    }
    return count;
  });
  const times = (key: string) => counts.map((count) => count.get(key) ?? 0);
  return {
    units: routes.map((route) => route.unit),
    rows: stepsOf(procedure).flatMap((step): CoverageRow[] => [
      { stage: step.stage, step: step.id, times: times(step.id) },
      ...step.checks.map((check) => ({
        stage: step.stage,
        step: step.id,
        check: check.id,
        times: times(`${step.id}/${check.id}`),
      })),
    ]),
    steps: routes.map((route) => route.steps.length),
    checks: routes.map((route) => route.steps.reduce((sum, step) => sum + step.checks.length, 0)),
  };
}

/** A plain text table; "." where a unit does not get it. */
export function coverageText(coverage: Coverage): string[] {
  const label = (row: CoverageRow) => (row.check === undefined ? row.step : `    ${row.check}`);
  const wide = Math.max(6, ...coverage.rows.map((row) => label(row).length));
  const columns = coverage.units.map((unit) => Math.max(3, unit.length));
  const line = (name: string, cells: readonly (string | number)[]) =>
    `${name.padEnd(wide)}  ${cells.map((cell, i) => String(cell).padStart(columns[i] ?? 3)).join('  ')}`.trimEnd();
  return [
    line('', coverage.units),
    ...coverage.rows.map((row) =>
      line(
        label(row),
        row.times.map((n) => (n === 0 ? '.' : n)),
      ),
    ),
    line('steps', coverage.steps),
    line('checks', coverage.checks),
  ];
}

// One sample unit of each kind a job file can order, for lint: enough to see which steps each condition lets through.
// Sizes are invented and mean nothing; only kinds, counts and needs matter.

interface Kind {
  readonly name: string;
  readonly lights: readonly { readonly kind: string; readonly hinge: string; readonly handle: string }[];
  readonly dividers: readonly { readonly direction: string; readonly joint: string }[];
  readonly escape?: boolean;
  readonly restrictor?: boolean;
  readonly safety?: boolean;
  readonly fittings?: readonly string[];
}

const FIXED = { kind: 'fixed', hinge: '', handle: '' };
const TOP = { kind: 'top-hung', hinge: 'top', handle: 'bottom' };
const LEFT = { kind: 'side-hung', hinge: 'left', handle: 'right' };
const RIGHT = { kind: 'side-hung', hinge: 'right', handle: 'left' };
const UPRIGHT = { direction: 'upright', joint: 'ported' };
const LEVEL = { direction: 'level', joint: 'cleated' };

/** Fixed, top-hung, side-hung each way, both dividers, all together; with and without each need. */
export const KINDS: readonly Kind[] = [
  { name: 'fixed', lights: [FIXED], dividers: [] },
  { name: 'fixed-safety', lights: [FIXED], dividers: [], safety: true },
  { name: 'top-hung', lights: [TOP], dividers: [] },
  { name: 'fitted', lights: [TOP], dividers: [], fittings: FITTINGS },
  { name: 'side-left', lights: [LEFT], dividers: [], escape: true },
  { name: 'side-right', lights: [RIGHT], dividers: [], restrictor: true },
  { name: 'upright', lights: [FIXED, LEFT], dividers: [UPRIGHT] },
  { name: 'level', lights: [TOP, FIXED], dividers: [LEVEL] },
  { name: 'mixed', lights: [FIXED, RIGHT, TOP], dividers: [UPRIGHT, LEVEL], escape: true, safety: true },
  { name: 'level-ported', lights: [TOP, FIXED], dividers: [{ direction: 'level', joint: 'ported' }] },
  { name: 'upright-cleated', lights: [FIXED, FIXED], dividers: [{ direction: 'upright', joint: 'cleated' }] },
];

/** Has every name: what a set calls its parts and sizes is not known here. */
const every = <T>(each: T): ReadonlyMap<string, T> =>
  Object.assign(new Map<string, T>(), { get: () => each, has: () => true });

/** Context values for each kind; every named figure is 10. */
export function sampleUnits(figures: Iterable<string>): RouteContexts[] {
  const figure = Object.fromEntries([...figures].map((name) => [name, 10]));
  return KINDS.map((kind) => sampleUnit(kind, figure));
}

function sampleUnit(kind: Kind, figure: Readonly<Record<string, number>>): RouteContexts {
  const { lights, dividers } = kind;
  const int = (test: (l: Kind['lights'][number]) => boolean) => BigInt(lights.filter(test).length);
  const count = (test: (d: Kind['dividers'][number]) => boolean) => BigInt(dividers.filter(test).length);
  const unit: ContextValues = {
    unit: {
      id: `${kind.name}-1`,
      mark: kind.name,
      job: 'sample',
      width: 1200,
      height: 1100,
      mass: 30,
      lift: 'two people',
      lights: BigInt(lights.length),
      fixed: int((l) => l.kind === 'fixed'),
      opening: int((l) => l.kind !== 'fixed'),
      top_hung: int((l) => l.kind === 'top-hung'),
      side_hung: int((l) => l.kind === 'side-hung'),
      dividers: BigInt(dividers.length),
      uprights: count((d) => d.direction === 'upright'),
      levels: count((d) => d.direction === 'level'),
      ported: count((d) => d.joint === 'ported'),
      cleated: count((d) => d.joint === 'cleated'),
      escape: kind.escape === true,
      restrictor: kind.restrictor === true,
      fittings: kind.fittings ?? [],
      cut: every(10),
      size: every(10),
      article: every('article'),
      safety_glass: kind.safety === true,
      outside_colour: 'grey',
      inside_colour: 'white',
      room: 'kitchen',
      note: '',
      sentence: lights.map((light, i) => `L${i + 1} ${sentence(light)}`).join('; '),
      parts: BigInt(4 + dividers.length),
    },
    frame: {
      w: 1200,
      h: 1100,
      diagonal: Math.hypot(1200, 1100),
      drains_inner: [112, 600, 1088],
      drains_outer: [172, 660, 1028],
      equalisers: [112, 1088],
      drain_count: 3n,
    },
    marks: { lines: [], count: 0n },
    set: { name: 'sample', title: 'Sample set', invented: true },
    figure,
  };
  return {
    unit,
    // Some of every kind of mark, but none on a mullion: only a transom has slots, only a cleated divider cleat holes.
    marks: (claims, item) => {
      const divider = item?.startsWith('D') ? dividers[Number(item.slice(1)) - 1] : undefined;
      const made = claims.filter(
        (claim) =>
          !claim.startsWith('divider/') ||
          divider?.direction === 'level' ||
          (divider?.joint === 'cleated' && claim.endsWith('cleat-divider-hole')),
      );
      return { lines: made, count: BigInt(2 * made.length) };
    },
    lights: lights.map((light, i) => ({
      light: sampleLight(light, i + 1, kind.safety === true, dividers.length > 0),
    })),
    dividers: dividers.map((divider, i) => ({
      divider: {
        id: `D${i + 1}`,
        name: `${divider.direction === 'upright' ? 'mullion' : 'transom'} D${i + 1}`,
        number: BigInt(i + 1),
        ...divider,
        length: 1039,
        centre: 600,
        holes: [20, 1019],
        first: { member: 'frame left jamb', at: 500 },
        second: { member: 'frame right jamb', at: 500 },
      },
    })),
  };
}

const sentence = ({ kind, hinge }: { kind: string; hinge: string }): string =>
  kind === 'fixed' ? 'fixed light' : `hinged ${hinge}, seen from outside, opens out`;

function sampleLight(
  light: Kind['lights'][number],
  number: number,
  safety: boolean,
  divided: boolean,
): unknown {
  const opening = light.kind !== 'fixed';
  const some = (values: readonly number[]) => (opening ? values : []);
  const size = (w: number, h: number) =>
    opening ? { w, h, diagonal: Math.hypot(w, h) } : { w: 0, h: 0, diagonal: 0 };
  return {
    id: `L${number}`,
    number: BigInt(number),
    kind: light.kind,
    opening,
    hinge: light.hinge,
    handle_side: light.handle,
    sentence: sentence(light),
    sight: { w: 500, h: 900 },
    rebate: { w: 544, h: 944 },
    addon: {
      ...size(543, 943),
      fixings_w: some([75, 468]),
      fixings_h: some([75, 471.5, 868]),
      fixings_top: some([75, 468]),
      fixings_bottom: some([75, 468]),
      fixings_left: some([75, 471.5, 868]),
      fixings_right: some([75, 471.5, 868]),
    },
    sash: {
      ...size(516, 916),
      mass: opening ? 17 : 0,
      rebate_w: opening ? 432 : 0,
      rebate_h: opening ? 832 : 0,
    },
    visible: Object.fromEntries(
      ['top', 'bottom']
        .flatMap((side) => [
          [`${side}_left`, 44],
          [`${side}_right`, 44],
        ])
        .concat(
          ['left', 'right'].flatMap((side) => [
            [`${side}_top`, 44],
            [`${side}_bottom`, 44],
          ]),
        ),
    ),
    opens_in: false,
    cut: every(10),
    size: every(10),
    article: every('article'),
    gear: 'gear',
    hinges: { name: opening ? 'pair' : '', count: opening ? 2n : 0n },
    reliefs: opening && divided ? ['add-on left jamb, mullion D1: 21.5 - 921.5 mm from the bottom end'] : [],
    glass: {
      w: 422,
      h: 822,
      diagonal: Math.hypot(422, 822),
      thickness: 24,
      mass: 7,
      area: 0.35,
      title: '4-16-4',
      safety,
      cover: 17,
      clearance: 5,
    },
    beads: { w: 431.5, h: 787.5 },
    drains: { inner: [60, 440], outer: [120, 380], equalisers: [60, 440] },
    sash_drains: some([124, 392]),
    handle: { on_sash: opening ? 458 : 0, on_addon: opening ? 471.5 : 0 },
    keeps: some([262.5, 680.5]),
    stay: { name: opening ? '400' : '', length: opening ? 400 : 0 },
    packers: ['setting, bottom edge, centre 150 mm from the left corner of the glass, 100 x 5 mm'],
    packer_count: 4n,
  };
}
