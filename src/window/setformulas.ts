/** Every formula in a profile set file, with its place and the names in scope there. */
import type { FormulaType, Names } from '../base/formula.js';
import type { LightScope, ProfileSetFile } from './setschema.js';
import { FITTINGS } from './types.js';

export interface WrittenFormula {
  readonly path: readonly PropertyKey[];
  readonly scope: Scope;
  /** Evaluated once hardware and masses are known. */
  readonly late: boolean;
  readonly text: string;
  readonly want: 'number' | 'bool';
}

const NUMBER: readonly FormulaType[] = ['double', 'int'];
export const wanted = (want: 'number' | 'bool'): readonly FormulaType[] =>
  want === 'bool' ? ['bool'] : NUMBER;

/** Scopes of a `per` word: a rule for every light is evaluated in both kinds of light. */
export function scopesOf(per: 'unit' | 'divider' | 'light' | LightScope): readonly Scope[] {
  if (per === 'light') return ['fixed', 'opening'];
  if (per === 'top-hung' || per === 'side-hung') return ['opening'];
  return [per];
}

export function formulasOf(file: ProfileSetFile): WrittenFormula[] {
  const found: WrittenFormula[] = [];
  const add = (
    path: readonly PropertyKey[],
    scope: Scope,
    text: string | undefined,
    late = false,
    want: 'number' | 'bool' = 'number',
  ) => {
    if (text !== undefined) found.push({ path, scope, late, text, want });
  };

  for (const [side, text] of Object.entries(file.layout)) add(['layout', side], 'unit', text);
  for (const scope of SCOPES) {
    for (const [name, size] of Object.entries(file.sizes[scope]))
      add(['sizes', scope, name], scope, size.formula);
    file.parts[scope].forEach((part, i) => {
      const path = ['parts', scope, i];
      for (const key of ['start', 'length', 'quantity', 'allowance', 'kg_per_m'] as const)
        add([...path, key], scope, part[key]);
      // Parts are computed before masses and stays, so those names are not known here.
      add([...path, 'when'], scope, part.when, false, 'bool');
    });
    file.pieces[scope].forEach((piece, i) => {
      add(['pieces', scope, i, 'quantity'], scope, piece.quantity, true);
      add(['pieces', scope, i, 'when'], scope, piece.when, true, 'bool');
    });
  }
  for (const scope of ['fixed', 'opening'] as const)
    for (const [name, box] of Object.entries(file.boxes[scope]))
      for (const key of ['x', 'y', 'w', 'h'] as const) add(['boxes', scope, name, key], scope, box[key]);
  file.masses.forEach((mass, i) => {
    add(['masses', i, 'kg'], mass.per, mass.kg);
  });

  const { handle, gears, hinges } = file.hardware;
  add(['hardware', 'handle', 'on_sash'], 'opening', handle?.on_sash);
  for (const key of ['least', 'most'] as const)
    add(['hardware', 'handle', key], 'opening', handle?.[key], true);
  add(['hardware', 'gears', 'end'], 'opening', gears?.end);
  hinges?.list.forEach(({ at }, i) => {
    at.forEach((place, k) => {
      add(['hardware', 'hinges', 'list', i, 'at', k], 'opening', place);
    });
  });
  gears?.list.forEach((gear, i) => {
    gear.locks.forEach((lock, k) => {
      add(['hardware', 'gears', 'list', i, 'locks', k], 'opening', lock);
    });
  });

  for (const [name, feature] of Object.entries(file.features))
    add(['features', name, 'length'], 'unit', feature.length);
  file.clearances.forEach((clearance, i) => {
    add(['clearances', i, 'least'], 'unit', clearance.least);
  });

  file.marks.forEach((mark, i) => {
    for (const scope of scopesOf(mark.per)) {
      const path = ['marks', i];
      add([...path, 'when'], scope, mark.when, true, 'bool');
      const { rule } = mark;
      const each = (key: string, at: readonly (string | undefined)[]) => {
        at.forEach((text, k) => {
          add([...path, 'rule', key, k], scope, text, true);
        });
      };
      if ('spaced' in rule)
        each('spaced', [rule.spaced.end, rule.spaced.pitch, ...(rule.spaced.end_range ?? [])]);
      else if ('both_ends' in rule) each('both_ends', [rule.both_ends.end, ...(rule.both_ends.range ?? [])]);
      else if ('each' in rule) each('at', [rule.at]);
      else if ('at' in rule) each('at', [...rule.at, rule.range]);
      else if ('beside' in rule) each('beside', [rule.beside.by, ...(rule.beside.range ?? [])]);
    }
  });

  for (const kind of ['fixed', 'top-hung', 'side-hung'] as const)
    file.packers[kind].packers.forEach((packer, i) => {
      const scope = kind === 'fixed' ? 'fixed' : 'opening';
      for (const [key, text] of [
        ['at', packer.at],
        ['length', packer.length],
        ['thickness', packer.thickness],
        ...(packer.range ?? []).map((text) => ['range', text] as const),
      ] as const)
        add(['packers', kind, 'packers', i, key], scope, text);
    });

  for (const key of ['width', 'height'] as const) add(['escape', key], 'opening', file.escape?.[key], true);
  file.checks.forEach((check, i) => {
    for (const scope of scopesOf(check.per))
      for (const key of ['value', 'least', 'most'] as const) add(['checks', i, key], scope, check[key], true);
  });
  return found;
}

export type Scope = 'unit' | 'divider' | 'fixed' | 'opening';
export const SCOPES: readonly Scope[] = ['unit', 'divider', 'fixed', 'opening'];

type Nest = Record<string, string | Record<string, string>>;

/** `fitted.sub_sill`, `fitted.restrictor`: whether the order asks for it. */
export const fittedName = (fitting: string): string => fitting.replaceAll('-', '_');
const FITTED: Names = Object.fromEntries(
  ['restrictor', ...FITTINGS].map((fitting) => [fittedName(fitting), 'bool']),
);

/** Provided by the program before any formula of the set runs. */
export const GIVEN: Record<Scope, Names> = {
  unit: { unit: { width: 'double', height: 'double' }, fitted: FITTED },
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

/** Known only after the sizes: hardware, where the set has it, and masses. */
export const GIVEN_LATE: Record<Scope, Names> = {
  unit: { unit: { mass: 'double' } },
  divider: {},
  fixed: {},
  opening: {
    handle: { on_sash: 'double' },
    lock: 'double',
    stay: { length: 'double', clear_loss: 'double' },
    hinges: { count: 'double' },
    place: 'double',
    sash: { mass: 'double' },
  },
};
const HARDWARE_OF: Readonly<Record<string, keyof ProfileSetFile['hardware']>> = {
  handle: 'handle',
  lock: 'gears',
  stay: 'stays',
  hinges: 'hinges',
  place: 'hinges',
};

function givenLate({ hardware }: ProfileSetFile, scope: Scope): Names {
  return Object.fromEntries(
    Object.entries(GIVEN_LATE[scope]).filter(([name]) => {
      const of = HARDWARE_OF[name];
      return of === undefined || hardware[of] !== undefined;
    }),
  );
}

function light(): Names {
  return {
    sight: { w: 'double', h: 'double' },
    /** Total glass thickness of all panes; `glazing` is the overall thickness including gaps. */
    panes: { thickness: 'double', count: 'double' },
    glazing: { thickness: 'double' },
    top_hung: 'bool',
    side_hung: 'bool',
    hinge_left: 'bool',
    opens_in: 'bool',
    /** Whether the light stands on a divider, or hangs under one. */
    on_divider: 'bool',
    under_divider: 'bool',
  };
}

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

const ADDON = ['addon.w', 'addon.h', 'addon.diagonal'];
const SASH = ['sash.w', 'sash.h', 'sash.diagonal', 'sash_rebate.w', 'sash_rebate.h'];

/** Sizes the program asks for by name, by scope; which of them a set must have, `needed` says. */
export const NEEDED: Record<Scope, readonly string[]> = {
  unit: ['frame.w', 'frame.h', 'frame.diagonal'],
  divider: ['divider.length'],
  fixed: ['rebate.w', 'rebate.h', ...GLASS],
  opening: ['rebate.w', 'rebate.h', ...ADDON, ...SASH, ...GLASS],
};
export const NEEDED_BOXES: Record<'fixed' | 'opening', readonly string[]> = {
  fixed: ['glass'],
  opening: ['addon', 'sash', 'glass'],
};

/** Whether the set makes lights of a scope. */
export const makes = ({ lights }: ProfileSetFile, scope: 'fixed' | 'opening'): boolean =>
  lights.some((kind) => (kind === 'fixed') === (scope === 'fixed'));

/** What this set must have of them: nothing of what it does not make. */
export function needed(
  file: ProfileSetFile,
  scope: Scope,
): { sizes: readonly string[]; boxes: readonly string[] } {
  if (scope === 'unit') return { sizes: NEEDED.unit, boxes: [] };
  if (scope === 'divider') return { sizes: file.joints.length === 0 ? [] : NEEDED.divider, boxes: [] };
  if (!makes(file, scope)) return { sizes: [], boxes: [] };
  const without = [
    ...(file.glass ? [] : [...GLASS, 'rebate.w', 'rebate.h', 'sash_rebate.w', 'sash_rebate.h']),
    ...(Object.hasOwn(file.boxes.opening, 'addon') ? [] : ADDON),
  ];
  return {
    sizes: NEEDED[scope].filter((name) => !without.includes(name)),
    boxes: NEEDED_BOXES[scope].filter(
      (name) => name !== 'addon' && (name !== 'glass' || file.glass !== undefined),
    ),
  };
}

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
    if (late) merge(nest, givenLate(file, each));
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
