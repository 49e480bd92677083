/**
 * Whether any unit that a job file can order gets a step or check. Kinds and numbers of lights and dividers, sizes, needs
 * and fittings are those of the job format; what the profile set or the set-out makes of them may be anything.
 */
import {
  type Possible,
  type PossibleFacts,
  type PossibleWorld,
  possible,
  type Range,
} from '../base/possible.js';
import { CONTEXT_NAMES, DIVIDER_NAMES, LIGHT_NAMES } from '../window/context.js';
import { FITTINGS } from '../window/types.js';
import type { Check, Step } from './model.js';

/** Longest side of a job file, mm. */
const LONGEST = 20_000;
/** Up to here every number of lights is tried; beyond it those around the figures of the condition. */
const EVERY = 5;

type Each = Step['each'];

/** @param check of the step; undefined for the step itself */
export function reachable(step: Step, check?: Check): Possible {
  const conditions = [step.when, check?.when].flatMap((formula) => (formula ? [formula.tree] : []));
  return conditions.length === 0 && step.each === 'unit' ? 'can' : possible(conditions, askedBy(step.each));
}

const askedBy = (each: Each): PossibleFacts => ({
  rangeOf,
  worldsOf: (names, figures) => worldsOf(each, names, figures),
});

const COUNTED = [
  'unit.lights',
  'unit.fixed',
  'unit.opening',
  'unit.top_hung',
  'unit.side_hung',
  'unit.dividers',
  'unit.uprights',
  'unit.levels',
  'unit.ported',
  'unit.cleated',
  'light.kind',
  'light.opening',
  'light.hinge',
  'light.handle_side',
  'light.opens_in',
  'divider.direction',
  'divider.joint',
] as const;

const LIGHTS = [
  { kind: 'fixed', hinge: '', handle_side: '' },
  { kind: 'top-hung', hinge: 'top', handle_side: 'bottom' },
  { kind: 'side-hung', hinge: 'left', handle_side: 'right' },
  { kind: 'side-hung', hinge: 'right', handle_side: 'left' },
];

/** Lights and dividers of every unit, as far as the names ask: a unit of n lights has n - 1 dividers. */
function worldsOf(
  each: Each,
  names: ReadonlySet<string>,
  figures: readonly number[],
): ReturnType<PossibleFacts['worldsOf']> {
  const asked = COUNTED.filter((name) => names.has(name));
  if (asked.length === 0 && each === 'unit') return { worlds: [{}], whole: true };
  // Beyond every figure that is asked about nothing changes.
  const most = Math.max(2, ...figures.map((figure) => Math.ceil(Math.abs(figure)) + 1));
  const near = figures.flatMap((figure) => [
    Math.floor(figure) - 1,
    Math.floor(figure),
    Math.floor(figure) + 1,
  ]);
  const tried =
    most <= EVERY
      ? Array.from({ length: most + 1 }, (_, n) => n)
      : [...new Set([0, 1, 2, ...near.filter((n) => n >= 0)])];
  const counts = asked.filter((name) => name.startsWith('unit.'));
  return { worlds: within(each, counts, tried), whole: most <= EVERY || counts.length < 2 };
}

const OF_LIGHTS = ['unit.lights', 'unit.fixed', 'unit.opening', 'unit.top_hung', 'unit.side_hung'];

function* within(each: Each, asked: readonly string[], tried: readonly number[]): Iterable<PossibleWorld> {
  const ofDividers = asked.some((name) => !OF_LIGHTS.includes(name));
  const ofLights = asked.some((name) => OF_LIGHTS.includes(name));
  const few = [0, 1];
  for (const fixed of ofLights || ofDividers ? tried : few)
    for (const top of ofLights ? tried : few)
      for (const side of ofLights ? tried : few) {
        const dividers = fixed + top + side - 1;
        if (dividers < 0) continue;
        const share = ofDividers ? [...tried.filter((n) => n <= dividers), dividers] : [dividers, 0];
        for (const uprights of new Set(share))
          for (const ported of new Set(share))
            yield* items(each, {
              fixed,
              top,
              side,
              uprights,
              levels: dividers - uprights,
              ported,
              cleated: dividers - ported,
            });
      }
}

interface Counts {
  readonly fixed: number;
  readonly top: number;
  readonly side: number;
  readonly uprights: number;
  readonly levels: number;
  readonly ported: number;
  readonly cleated: number;
}

/** A unit of these counts, once for each light or divider that the step may be done for. */
function* items(each: Each, counts: Counts): Iterable<PossibleWorld> {
  const { fixed, top, side, uprights, levels, ported, cleated } = counts;
  const unit: PossibleWorld = {
    'unit.lights': fixed + top + side,
    'unit.fixed': fixed,
    'unit.opening': top + side,
    'unit.top_hung': top,
    'unit.side_hung': side,
    'unit.dividers': uprights + levels,
    'unit.uprights': uprights,
    'unit.levels': levels,
    'unit.ported': ported,
    'unit.cleated': cleated,
  };
  if (each === 'unit') {
    yield unit;
    return;
  }
  if (each === 'divider') {
    for (const [direction, n] of Object.entries({ upright: uprights, level: levels }))
      for (const [joint, m] of Object.entries({ ported, cleated }))
        if (n > 0 && m > 0) yield { ...unit, 'divider.direction': direction, 'divider.joint': joint };
    return;
  }
  const there: Readonly<Record<string, number>> = { fixed, 'top-hung': top, 'side-hung': side };
  for (const { kind, hinge, handle_side } of LIGHTS) {
    const opening = kind !== 'fixed';
    if (there[kind] === 0 || (each === 'sash' && !opening) || (each === 'fixed' && opening)) continue;
    for (const opens_in of opening ? [false, true] : [false])
      yield {
        ...unit,
        'light.kind': kind,
        'light.opening': opening,
        'light.hinge': hinge,
        'light.handle_side': handle_side,
        'light.opens_in': opens_in,
      };
  }
}

/** What a name may be that the counts do not give. */
function rangeOf(name: string): Range | undefined {
  const member = /^"(.*)" in (.*)$/.exec(name);
  if (member) {
    const known = member[2] !== 'unit.fittings' || (FITTINGS as readonly string[]).includes(member[1]!);
    return known ? { is: 'bool' } : { is: 'bool', known: [false] };
  }
  if (name.startsWith('size(')) return { is: 'number', from: 0, to: 1000, whole: true };
  if (name === 'unit.width' || name === 'unit.height') return { is: 'number', from: 1e-3, to: LONGEST };
  switch (typeOf(name)) {
    case 'bool':
      return { is: 'bool' };
    case 'string':
      return { is: 'text' };
    case 'int':
      return { is: 'number', from: 0, to: 100_000, whole: true };
    case 'double':
      return { is: 'number', from: -1_000_000, to: 1_000_000 };
    default:
      return undefined;
  }
}

const NAMES: unknown = { ...CONTEXT_NAMES, ...LIGHT_NAMES, ...DIVIDER_NAMES };

/** The type of a dotted name or of an entry of a map. */
function typeOf(name: string): string | undefined {
  const [path, entry] = name.split('["') as [string, string | undefined];
  const found = path
    .split('.')
    .reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], NAMES);
  if (typeof found !== 'string') return undefined;
  return entry === undefined ? found : /^map<string, (.*)>$/.exec(found)?.[1];
}
