/**
 * The numbers of one unit by the names that procedure files use. One table gives the type checker its names, so a
 * procedure that lints clean can only ask for what a set-out has.
 */
import type { Names } from '../ground/formula.js';

const LIGHT: Names = {
  id: 'string',
  number: 'int',
  /** fixed, top-hung, side-hung */
  kind: 'string',
  opening: 'bool',
  /** left, right, top; "" for a fixed light */
  hinge: 'string',
  /** The side the handle is on: right, left, bottom; "" for a fixed light */
  handle_side: 'string',
  sentence: 'string',
  sight: { w: 'double', h: 'double' },
  rebate: { w: 'double', h: 'double' },
  addon: {
    w: 'double',
    h: 'double',
    diagonal: 'double',
    fixings_w: 'list<double>',
    fixings_h: 'list<double>',
    /** The same for each piece: left and right differ where a screw gave way to a keep. */
    fixings_top: 'list<double>',
    fixings_bottom: 'list<double>',
    fixings_left: 'list<double>',
    fixings_right: 'list<double>',
  },
  sash: { w: 'double', h: 'double', diagonal: 'double', mass: 'double' },
  glass: {
    w: 'double',
    h: 'double',
    diagonal: 'double',
    thickness: 'double',
    mass: 'double',
    area: 'double',
    title: 'string',
    safety: 'bool',
    /** Edge cover and edge clearance the set asks for, mm. */
    cover: 'double',
    clearance: 'double',
  },
  beads: { w: 'double', h: 'double' },
  /** Centres on the frame sill or divider (fixed) from its left end, and on the add-on sill (opening) from its left long point. */
  drains: { inner: 'list<double>', outer: 'list<double>', equalisers: 'list<double>' },
  /** Sash bottom rail, from the sash's left outer edge; empty for a fixed light. */
  sash_drains: 'list<double>',
  /** Handle centre: along the sash member from its left or bottom edge; on the add-on member from its long point. 0 for a fixed light. */
  handle: { on_sash: 'double', on_addon: 'double' },
  keeps: 'list<double>',
  stay: { name: 'string', length: 'double' },
  /** One sentence a packer: "setting, bottom edge, centre 150 mm from the left corner of the glass, 100 x 5 mm". */
  packers: 'list<string>',
  packer_count: 'int',
};

export const CONTEXT_NAMES = {
  unit: {
    id: 'string',
    mark: 'string',
    job: 'string',
    width: 'double',
    height: 'double',
    mass: 'double',
    /** "one person", "two people", "lifting aid" */
    lift: 'string',
    lights: 'int',
    fixed: 'int',
    opening: 'int',
    top_hung: 'int',
    side_hung: 'int',
    dividers: 'int',
    uprights: 'int',
    levels: 'int',
    ported: 'int',
    cleated: 'int',
    escape: 'bool',
    restrictor: 'bool',
    safety_glass: 'bool',
    outside_colour: 'string',
    inside_colour: 'string',
    room: 'string',
    note: 'string',
    /** Every light's sentence: "L1 fixed light; L2 hinged left, seen from outside, opens out". */
    sentence: 'string',
    parts: 'int',
  },
  frame: {
    w: 'double',
    h: 'double',
    diagonal: 'double',
    /** Drain slot centres on the frame sill from its left long point, all lights above the sill together. */
    drains_inner: 'list<double>',
    drains_outer: 'list<double>',
    equalisers: 'list<double>',
    drain_count: 'int',
  },
  set: { name: 'string', title: 'string', invented: 'bool' },
  /** A profile set's own named figures for procedures (hole sizes, screw lengths): `figure["screw.port.d"]`. */
  figure: 'map<string, double>',
} as const satisfies Names;

/** Known besides, in a step that is done for each light (`each: light`, `each: sash`, `each: fixed`). */
export const LIGHT_NAMES = { light: LIGHT } as const satisfies Names;

/** Known besides, in a step that is done for each divider (`each: divider`). */
export const DIVIDER_NAMES = {
  divider: {
    id: 'string',
    number: 'int',
    /** upright, level */
    direction: 'string',
    /** ported, cleated */
    joint: 'string',
    length: 'double',
    centre: 'double',
    holes: 'list<double>',
  },
} as const satisfies Names;

/** Values for those names. Numbers are doubles; `int` names take BigInt, as CEL does. */
export type ContextValues = Record<string, unknown>;
