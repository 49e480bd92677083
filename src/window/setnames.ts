/** The names that formulas of a profile set may use, for each place they are written in. */
import type { Names } from '../ground/formula.js';
import type { ProfileSetFile } from './setschema.js';

export type Scope = 'unit' | 'divider' | 'fixed' | 'opening';
export const SCOPES: readonly Scope[] = ['unit', 'divider', 'fixed', 'opening'];

type Nest = Record<string, string | Record<string, string>>;

/** What the program itself gives, before any formula of the set has run. */
export const GIVEN: Record<Scope, Names> = {
  unit: { unit: { width: 'double', height: 'double' } },
  divider: {
    divider: { span: 'double', centre: 'double' },
    ported: 'bool',
    cleated: 'bool',
    upright: 'bool',
    level: 'bool',
  },
  fixed: light(),
  opening: light(),
};

/** What is known only when the sizes are: hardware and masses. */
export const GIVEN_LATE: Record<Scope, Names> = {
  unit: { unit: { mass: 'double' } },
  divider: {},
  fixed: {},
  opening: {
    handle: { on_sash: 'double' },
    lock: 'double',
    stay: { length: 'double', clear_loss: 'double' },
    sash: { mass: 'double' },
  },
};

function light(): Names {
  return {
    sight: { w: 'double', h: 'double' },
    /** Glass of all panes together, and the whole thickness with its gaps. */
    panes: { thickness: 'double', count: 'double' },
    glazing: { thickness: 'double' },
    top_hung: 'bool',
    side_hung: 'bool',
    hinge_left: 'bool',
    /** Whether the light stands on a divider, or hangs under one. */
    on_divider: 'bool',
    under_divider: 'bool',
  };
}

/** Of the glass of any light. */
const GLASS = [
  'glass.w',
  'glass.h',
  'glass.check_w',
  'glass.check_h',
  'glass.area',
  'glass.mass',
  'glass.cover',
  'glass.clearance',
];

/** Sizes the program needs by name, with the scope that must give them. */
export const NEEDED: Record<Scope, readonly string[]> = {
  unit: ['frame.w', 'frame.h', 'frame.diagonal'],
  divider: ['divider.length'],
  fixed: ['rebate.w', 'rebate.h', ...GLASS],
  opening: [
    'rebate.w',
    'rebate.h',
    'addon.w',
    'addon.h',
    'addon.diagonal',
    'sash.w',
    'sash.h',
    'sash.diagonal',
    ...GLASS,
  ],
};
export const NEEDED_BOXES: Record<'fixed' | 'opening', readonly string[]> = {
  fixed: ['glass'],
  opening: ['addon', 'sash', 'glass'],
};

/** Every name known in a scope; `late` adds hardware and masses. */
export function namesOf(file: ProfileSetFile, scope: Scope, late: boolean): Names {
  const nest: Nest = {};
  for (const constant of Object.keys(file.constants)) nest[constant] = 'double';
  const scopes: Scope[] = scope === 'unit' ? ['unit'] : ['unit', scope];
  for (const each of scopes) {
    merge(nest, GIVEN[each]);
    for (const size of Object.keys(file.sizes[each])) {
      const [group, field] = size.split('.') as [string, string];
      merge(nest, { [group]: { [field]: 'double' } });
    }
    if (late) merge(nest, GIVEN_LATE[each]);
    if (each === 'fixed' || each === 'opening')
      for (const [box, _] of Object.entries(file.boxes[each]))
        merge(nest, { [box]: { x: 'double', y: 'double' } });
  }
  return nest;
}

function merge(nest: Nest, names: Names): void {
  for (const [name, type] of Object.entries(names))
    if (typeof type === 'string') nest[name] = type;
    else {
      const known = nest[name];
      nest[name] = {
        ...(typeof known === 'object' ? known : {}),
        ...(type as Record<string, string>),
      };
    }
}
