/**
 * Window types used by other rooms: the unit, its set-out and its numbers. Lengths in mm, masses in kg. Positions are
 * seen from outside: x from the left outer edge, y from the bottom outer edge.
 */
import type { Problem } from '../base/problem.js';
import type { Source } from '../base/schemas.js';
import type { Message } from '../base/words.js';

export type LightKind = 'fixed' | 'top-hung' | 'side-hung';
export type HingeSide = 'left' | 'right' | 'top';
export type Direction = 'upright' | 'level';
/** How a divider is fixed: screwed through the frame into its ports, or seated on cleats. */
export type DividerJoint = 'ported' | 'cleated';

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** What a unit may have besides frame and lights; each brings its own steps and parts. */
export const FITTINGS = [
  'run-up-block',
  'hinge-protector',
  'ventilator',
  'sub-sill',
  'coupler',
  'lugs',
  'fixing-holes',
  'injected-corners',
  'coating-report',
] as const;
type Fitting = (typeof FITTINGS)[number];

export interface Unit {
  /** mark + "-" + number: `B07-1`; unique in the job. */
  readonly id: string;
  readonly mark: string;
  readonly number: number;
  readonly job: string;
  readonly width: number;
  readonly height: number;
  readonly layout: Layout;
  readonly room: string;
  readonly note: string;
  readonly outsideColour: string;
  readonly insideColour: string;
  readonly needs: { readonly escape: boolean; readonly restrictor: boolean; readonly safetyGlass: boolean };
  readonly fittings?: readonly Fitting[];
  readonly glasses?: Readonly<Record<string, Makeup>>;
}

/** Panes and gaps from outside to inside, mm. */
export interface Makeup {
  readonly panes: readonly number[];
  readonly gaps: readonly number[];
  readonly title: string;
  readonly safety: boolean;
}

/** A frame splits into lights to any depth; a leaf is a light. The first part is left or top, seen from outside. */
export type Layout =
  | {
      readonly type: 'light';
      readonly kind: LightKind;
      /** Always seen from outside, whatever the job file said; undefined for a fixed light. */
      readonly hinge?: HingeSide;
      readonly glass: string;
      /** Handle height or off-centre position, from the sash's left or bottom edge; centred if absent. */
      readonly handleAt?: number;
      readonly opensIn?: boolean;
    }
  | {
      readonly type: 'split';
      readonly direction: Direction;
      readonly joint: DividerJoint;
      /** The job named no joint: use the profile set's first kind. */
      readonly jointFromSet?: boolean;
      readonly positions: DividerPositions;
      readonly parts: readonly Layout[];
    };

export type DividerPositions =
  | { readonly by: 'centre-line'; readonly at: readonly number[] }
  | { readonly by: 'sight-size'; readonly sizes: readonly (number | 'rest')[] }
  | { readonly by: 'ratio'; readonly ratio: readonly number[] }
  | { readonly by: 'equal-sight' }
  | { readonly by: 'equal-glass' };

/** Explains a number. A leaf is a number from the job or a constant of the profile set. */
export interface Trace {
  /** `glass.L2.width` */
  readonly name: string;
  readonly value: number;
  readonly unit: 'mm' | 'kg' | 'm2' | 'deg' | 'count' | 'kg/m' | 'none';
  /** As written in the profile set. */
  readonly formula?: string;
  /** With numbers in place of names. */
  readonly filled?: string;
  /** For a constant. */
  readonly source?: Source;
  /** Why it is not where its rule puts it. */
  readonly reason?: string;
  readonly of: readonly Trace[];
}

interface Piece {
  readonly length: number;
  readonly quantity: number;
}

export interface LightSetOut {
  /** L1, L2 … numbered from the top down, then left to right, seen from outside. */
  readonly id: string;
  readonly kind: LightKind;
  readonly hinge?: HingeSide;
  /** "hinged left, seen from outside, opens out" or "fixed light". */
  /** Towards the inside of the building. */
  readonly opens_in: boolean;
  /** All sizes that the set gives a light, by name. */
  readonly sizes: ReadonlyMap<string, number>;
  readonly sentence: string;
  /** The sight opening in unit coordinates. */
  readonly box: Rect;
  readonly sight: { readonly w: number; readonly h: number };
  /** Of the glass; null where the set has none. */
  readonly rebate: { readonly w: number; readonly h: number } | null;
  readonly addon: { readonly w: number; readonly h: number; readonly diagonal: number } | null;
  readonly sash: {
    readonly w: number;
    readonly h: number;
    readonly diagonal: number;
    readonly mass_kg: number;
    /** Between the rebate floors that hold its glass. */
    readonly rebate: { readonly w: number; readonly h: number } | null;
    /** Outer edge of the sash in unit coordinates. */
    readonly box: Rect;
  } | null;
  readonly glass: {
    readonly w: number;
    readonly h: number;
    readonly thickness: number;
    readonly area_m2: number;
    readonly mass_kg: number;
    readonly title: string;
    readonly box: Rect;
  } | null;
  readonly beads: readonly Piece[];
  readonly handle: { readonly on_sash: number; readonly on_addon: number | null } | null;
  /** On the add-on frame, from its datum end. */
  readonly keeps: readonly number[];
  readonly stay: string | null;
  /** Where it hangs on hinges: the row of the set's table, and how many there are. */
  readonly hinges: { readonly name: string; readonly count: number } | null;
  readonly near_limit: boolean;
  readonly packers: readonly Packer[];
  /** What the packers do, in a sentence: which diagonal they brace. */
  readonly packing: string;
  readonly handle_side: 'left' | 'right' | 'bottom' | null;
  /** Gear with its cams, as named in the set. */
  readonly gear: string | null;
  readonly stay_length: number;
  readonly stay_uses: readonly Message[];
  /** Depth of glass hidden, and the clearance around it, mm. */
  readonly cover: number;
  readonly clearance: number;
  /** Glass name from the job, and whether it is marked as safety glass. */
  readonly glass_name: string;
  readonly safety: boolean;
  /** Inner edges of the add-on frame and sash, if any, for drawing. */
  readonly rings: Readonly<Record<string, Rect>>;
}

export interface Packer {
  readonly use: 'setting' | 'location' | 'bracing';
  readonly edge: 'bottom' | 'top' | 'left' | 'right';
  /** Centre from the glass's left (bottom and top edges) or bottom (side edges), seen from outside. */
  readonly centre: number;
  readonly length: number;
  readonly thickness: number;
  /** Centre by its rule, and why it lies elsewhere; only where it does. */
  readonly moved_from?: number;
  readonly reason?: string;
}

export interface DividerSetOut {
  /** D1, D2 … */
  readonly id: string;
  readonly direction: Direction;
  readonly joint: DividerJoint;
  readonly length: number;
  /** Centre line from the left (upright) or bottom (level) outer edge of the frame. */
  readonly centre: number;
  readonly box: Rect;
}

export interface Mark {
  /** `divider-line`, `drain-inner`, `drain-outer`, `equaliser`, `fixing`, `handle`, `keep`, `stay` … */
  readonly kind: string;
  /** From the part's datum end. */
  readonly at: number;
  readonly moved_from: number | null;
  readonly reason: string | null;
  /** The side or face of the part, in words. */
  readonly side: string;
  readonly item: string;
  /** Its name among the unit's numbers: `mark.L2.addon-left.fixing.3`. */
  readonly name?: string;
}

export interface Part {
  readonly id: string;
  /** `frame-head`, `frame-sill`, `frame-left`, `frame-right`, `divider`, `addon-…`, `sash-…`, `bead-…`, `gasket-…` */
  readonly role: string;
  readonly light: string | null;
  readonly profile: string;
  readonly length: number;
  readonly quantity: number;
  /** Angle of each end, degrees: 45 or 90. */
  readonly ends: readonly [number, number];
  /** The end that marks are measured from, in words: "left end, seen from outside". */
  readonly datum: string;
  readonly label: string;
  readonly says: string;
  readonly kind: 'bar' | 'bead' | 'gasket';
  readonly mass_kg: number;
  /** Position in the window: along x or y from `from`, with its middle at `across`. Null for loose pieces. */
  readonly seat: { readonly axis: 'x' | 'y'; readonly from: number; readonly across: number } | null;
  readonly marks: readonly Mark[];
}

/** A cut through the window: what it crosses, and by how much the sum misses the whole. */
export interface CutSum {
  readonly direction: Direction;
  /** Height of a level cut, distance from the left of an upright one. */
  readonly at: number;
  readonly terms: readonly { readonly what: string; readonly length: number }[];
  readonly whole: number;
  readonly error: number;
}

/** Cleats, chevrons, screws and the like, by place. */
export interface Extra {
  readonly name: string;
  readonly place: string;
  readonly item: string | null;
  readonly quantity: number;
}

export interface SetOut {
  readonly unit: Unit;
  /** True while any problem here is not overridden by a named person. */
  readonly refused: boolean;
  readonly problems: readonly Problem[];
  /** Worth noting but not refused: near a limit, escape opening unknown. */
  readonly warnings: readonly Problem[];
  readonly profileSet: { readonly name: string; readonly title: string; readonly invented: boolean };
  /** What the set calls a unit that is no window. */
  readonly product?: string;
  /** All sizes that the set gives a unit, by name. */
  readonly sizes: ReadonlyMap<string, number>;
  readonly frame: { readonly w: number; readonly h: number; readonly diagonal: number };
  readonly mass_kg: number;
  readonly lift: string;
  readonly lights: readonly LightSetOut[];
  readonly dividers: readonly DividerSetOut[];
  readonly parts: readonly Part[];
  readonly extras: readonly Extra[];
  readonly sums: readonly CutSum[];
  /** Inside the frame, between its sight lines. */
  readonly inner: Rect;
  readonly figures: Readonly<Record<string, number>>;
  /** Names of the kinds of marks, as the set calls them. */
  readonly titles: Readonly<Record<string, string>>;
  /** Every number by name, with its trace. Computed on first access. */
  readonly numbers: ReadonlyMap<string, Trace>;
}

/** A place on the unit's drawing that a step or check refers to, resolved with the step's light or divider. */
export const SPOTS = [
  'whole',
  'frame',
  'frame-corners',
  'head',
  'sill',
  'left-jamb',
  'right-jamb',
  'diagonals',
  'drains',
  'divider',
  'divider-ends',
  'addon',
  'addon-corners',
  'addon-fixings',
  'sash',
  'sash-corners',
  'sash-diagonals',
  'sash-top',
  'sash-bottom',
  'sash-hinge-side',
  'sash-handle-side',
  'sash-drains',
  'stays',
  'handle',
  'keeps',
  'glass',
  'packers',
  'beads',
  'gap',
  'label',
] as const;
export type Spot = (typeof SPOTS)[number];
