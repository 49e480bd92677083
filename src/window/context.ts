/**
 * One unit's numbers under the names procedure files use. The type checker shares this table, so a lint-clean procedure
 * asks only for what a set-out has.
 */
import type { Names } from '../base/formula.js';
import { reliefsOf, visibleBeside } from './beside.js';
import { claimedMarks, dividerName, markLines, partName } from './claims.js';
import { liftOf } from './masses.js';
import type { DividerSetOut, LightSetOut, Mark, Packer, Part, SetOut } from './types.js';
import { windowSays } from './words.js';

const LIGHT: Names = {
  id: 'string',
  number: 'int',
  /** fixed, top-hung, side-hung */
  kind: 'string',
  opening: 'bool',
  /** left, right, top; "" for a fixed light */
  hinge: 'string',
  opens_in: 'bool',
  /** Side of the handle: right, left, bottom; "" for a fixed light */
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
    /** One list per piece: left and right differ where a screw made way for a keep. */
    fixings_top: 'list<double>',
    fixings_bottom: 'list<double>',
    fixings_left: 'list<double>',
    fixings_right: 'list<double>',
  },
  sash: {
    w: 'double',
    h: 'double',
    diagonal: 'double',
    mass: 'double',
    rebate_w: 'double',
    rebate_h: 'double',
  },
  /** Frame or divider left visible beside the closed sash, at two points of each side; 0 for a fixed light. */
  visible: {
    top_left: 'double',
    top_right: 'double',
    bottom_left: 'double',
    bottom_right: 'double',
    left_top: 'double',
    left_bottom: 'double',
    right_top: 'double',
    right_bottom: 'double',
  },
  /** Cut length of each kind of part of the light, by role: `light.cut["gasket-flipper"]`. */
  cut: 'map<string, double>',
  /** Sizes of the set for this light, by name: `light.size["leaf.w"]`. */
  size: 'map<string, double>',
  /** Articles by role, as the table of beads and the set give them: `light.article["bead-level"]`. */
  article: 'map<string, string>',
  /** The gear taken for its sash; "" without one. */
  gear: 'string',
  /** A sentence for each add-on piece along a divider: where its leg is ground off. */
  reliefs: 'list<string>',
  glass: {
    w: 'double',
    h: 'double',
    diagonal: 'double',
    thickness: 'double',
    mass: 'double',
    area: 'double',
    title: 'string',
    safety: 'bool',
    /** Edge cover and edge clearance required by the set, mm. */
    cover: 'double',
    clearance: 'double',
  },
  beads: { w: 'double', h: 'double' },
  /** Centres: from the left end of frame sill or divider (fixed) or left long point of add-on sill (opening). */
  drains: { inner: 'list<double>', outer: 'list<double>', equalisers: 'list<double>' },
  /** Sash bottom rail, from the sash's left outer edge; empty for a fixed light. */
  sash_drains: 'list<double>',
  /** Centre: on the sash from its left or bottom edge, on the add-on from its long point. 0 for a fixed light. */
  handle: { on_sash: 'double', on_addon: 'double' },
  keeps: 'list<double>',
  stay: { name: 'string', length: 'double' },
  /** The row of the set's table of hinges, and how many; "" and 0 of a sash on stays. */
  hinges: { name: 'string', count: 'int' },
  /** One sentence per packer: "setting, bottom edge, centre 150 mm from the left corner of the glass, 100 x 5 mm". */
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
    /** What the order asks for besides: `"sub-sill" in unit.fittings`. */
    fittings: 'list<string>',
    safety_glass: 'bool',
    outside_colour: 'string',
    inside_colour: 'string',
    room: 'string',
    note: 'string',
    /** Cut length of each part of the frame, by role: `unit.cut["sub-sill"]`. */
    cut: 'map<string, double>',
    /** Sizes of the set for the unit, by name: `unit.size["lugs.w"]`. */
    size: 'map<string, double>',
    /** Articles of the parts of the frame, by role. */
    article: 'map<string, string>',
    /** All lights: "L1 fixed light; L2 hinged left, seen from outside, opens out". */
    sentence: 'string',
    parts: 'int',
  },
  frame: {
    w: 'double',
    h: 'double',
    diagonal: 'double',
    /** Drain slot centres from the frame sill's left long point, for all lights above the sill. */
    drains_inner: 'list<double>',
    drains_outer: 'list<double>',
    equalisers: 'list<double>',
    drain_count: 'int',
  },
  /** The marks that the step makes: a line for each part, and how many there are. Empty where a step makes none. */
  marks: { lines: 'list<string>', count: 'int' },
  set: { name: 'string', title: 'string', invented: 'bool' },
  /** The profile set's own figures for procedures (hole sizes, screw lengths): `figure["port.screw.d"]`. */
  figure: 'map<string, double>',
} as const satisfies Names;

/** Additional names in a step done per light (`each: light`, `each: sash`, `each: fixed`). */
export const LIGHT_NAMES = { light: LIGHT } as const satisfies Names;

/** As LIGHT_NAMES, per divider (`each: divider`). */
export const DIVIDER_NAMES = {
  divider: {
    id: 'string',
    number: 'int',
    /** "mullion D1", "transom D2" */
    name: 'string',
    /** upright, level */
    direction: 'string',
    /** ported, cleated */
    joint: 'string',
    length: 'double',
    centre: 'double',
    /** On the first member; see `first` and `second`. */
    holes: 'list<double>',
    /** The members it ends on: upper and lower of a mullion, left and right of a transom. Places from each one's own end. */
    first: { member: 'string', at: 'double' },
    second: { member: 'string', at: 'double' },
  },
} as const satisfies Names;

/** Values for those names. Numbers are doubles; `int` names take BigInt, as in CEL. */
export type ContextValues = Record<string, unknown>;

/** What the set does not have: asked for, it says so. */
const absent = (why: 'context-no-glass' | 'context-no-addon'): ReadonlyMap<string, never> =>
  Object.assign(new Map<string, never>(), {
    has: () => true,
    get: () => {
      throw new Error(windowSays(why));
    },
  });

/** Names available in every step: unit, frame, set, figure. */
export function contextOf(setOut: SetOut): ContextValues {
  const { unit, lights, dividers, parts, frame, profileSet } = setOut;
  const count = <T>(list: readonly T[], test: (item: T) => boolean): bigint =>
    BigInt(list.filter(test).length);
  const sill = parts.find(({ role }) => role === 'frame-sill');
  const head = parts.find(({ role }) => role === 'frame-head');
  const inner = at(sill, 'drain-inner');
  return {
    unit: {
      id: unit.id,
      mark: unit.mark,
      job: unit.job,
      width: unit.width,
      height: unit.height,
      mass: setOut.mass_kg,
      lift: liftOf(setOut.mass_kg),
      lights: BigInt(lights.length),
      fixed: count(lights, ({ kind }) => kind === 'fixed'),
      opening: count(lights, ({ kind }) => kind !== 'fixed'),
      top_hung: count(lights, ({ kind }) => kind === 'top-hung'),
      side_hung: count(lights, ({ kind }) => kind === 'side-hung'),
      dividers: BigInt(dividers.length),
      uprights: count(dividers, ({ direction }) => direction === 'upright'),
      levels: count(dividers, ({ direction }) => direction === 'level'),
      ported: count(dividers, ({ joint }) => joint === 'ported'),
      cleated: count(dividers, ({ joint }) => joint === 'cleated'),
      escape: unit.needs.escape,
      restrictor: unit.needs.restrictor,
      fittings: unit.fittings ?? [],
      safety_glass: unit.needs.safetyGlass,
      outside_colour: unit.outsideColour,
      inside_colour: unit.insideColour,
      room: unit.room,
      note: unit.note,
      cut: cutsOf(setOut, null),
      size: setOut.sizes,
      article: articlesOf(setOut, null),
      sentence: lights.map(({ id, sentence }) => `${id} ${sentence}`).join('; '),
      parts: BigInt(parts.reduce((sum, { quantity }) => sum + quantity, 0)),
    },
    frame: {
      w: frame.w,
      h: frame.h,
      diagonal: frame.diagonal,
      drains_inner: inner,
      drains_outer: at(sill, 'drain-outer'),
      equalisers: at(head, 'equaliser'),
      drain_count: BigInt(inner.length),
    },
    marks: { lines: [], count: 0n },
    set: { ...profileSet },
    // CEL reads a Map like an object, but a Map has no inherited names.
    figure: new Map(Object.entries(setOut.figures)),
  };
}

/** Adds `light`, for a step done per light. Empty values if the set-out has no such light. */
export function lightContext(
  setOut: SetOut,
  lightId: string,
  unit: ContextValues = contextOf(setOut),
): ContextValues {
  const light = setOut.lights.find(({ id }) => id === lightId);
  return { ...unit, ...(light && { light: lightValues(setOut, light) }) };
}

/** As lightContext, with `divider`. */
export function dividerContext(
  setOut: SetOut,
  dividerId: string,
  unit: ContextValues = contextOf(setOut),
): ContextValues {
  const divider = setOut.dividers.find(({ id }) => id === dividerId);
  return { ...unit, ...(divider && { divider: dividerValues(setOut, divider) }) };
}

export function contextsOf(setOut: SetOut) {
  const unit = contextOf(setOut);
  return {
    unit,
    marks: (claims: readonly string[], item: string | undefined) => {
      const claimed = claimedMarks(setOut, claims, item);
      return { lines: markLines(setOut, claimed), count: BigInt(claimed.length) };
    },
    lights: setOut.lights.map(({ id }) => lightContext(setOut, id, unit)),
    dividers: setOut.dividers.map(({ id }) => dividerContext(setOut, id, unit)),
  };
}

function lightValues(setOut: SetOut, light: LightSetOut): Record<string, unknown> {
  const own = (role: string): Part | undefined =>
    setOut.parts.find((part) => part.light === light.id && part.role === role);
  const opening = light.kind !== 'fixed';
  // A fixed light drains through the frame or divider below it, a sash through its add-on frame.
  const beneath = opening ? [own('addon-bottom')] : setOut.parts.filter(({ light: of }) => of === null);
  const drains = (kind: string): number[] =>
    beneath.flatMap((part) => at(part, kind, opening ? undefined : light.id)).sort((a, b) => a - b);
  const frameDrains = (kind: string): number[] =>
    setOut.parts
      .filter(({ light: of }) => of === null)
      .flatMap((part) => at(part, kind, light.id))
      .sort((a, b) => a - b);
  const beads = setOut.parts.filter((part) => part.light === light.id && part.kind === 'bead');
  const { glass, addon, sash } = light;
  return {
    id: light.id,
    number: BigInt(light.id.slice(1)),
    kind: light.kind,
    opening,
    hinge: light.hinge ?? '',
    opens_in: light.opens_in,
    handle_side: light.handle_side ?? '',
    sentence: light.sentence,
    sight: light.sight,
    // Without glass nothing of it is known: a nought would be cut.
    rebate: light.rebate ?? absent('context-no-glass'),
    // Where the sash hangs straight in the frame there is no add-on frame, and nothing of it is known: a nought would be cut.
    addon:
      opening && addon === null
        ? absent('context-no-addon')
        : {
            w: addon?.w ?? 0,
            h: addon?.h ?? 0,
            diagonal: addon?.diagonal ?? 0,
            fixings_w: at(own('addon-bottom'), 'fixing'),
            fixings_h: at(own(light.handle_side === 'left' ? 'addon-left' : 'addon-right'), 'fixing'),
            fixings_top: at(own('addon-top'), 'fixing'),
            fixings_bottom: at(own('addon-bottom'), 'fixing'),
            fixings_left: at(own('addon-left'), 'fixing'),
            fixings_right: at(own('addon-right'), 'fixing'),
          },
    sash: {
      w: sash?.w ?? 0,
      h: sash?.h ?? 0,
      diagonal: sash?.diagonal ?? 0,
      mass: sash?.mass_kg ?? 0,
      ...(sash && !sash.rebate ? {} : { rebate_w: sash?.rebate?.w ?? 0, rebate_h: sash?.rebate?.h ?? 0 }),
    },
    visible: visibleBeside(setOut, light),
    cut: cutsOf(setOut, light.id),
    size: light.sizes,
    article: articlesOf(setOut, light.id),
    gear: light.gear ?? '',
    reliefs: reliefsOf(setOut, light),
    glass: glass
      ? {
          w: glass.w,
          h: glass.h,
          diagonal: Math.hypot(glass.w, glass.h),
          thickness: glass.thickness,
          mass: glass.mass_kg,
          area: glass.area_m2,
          title: glass.title,
          safety: light.safety,
          cover: light.cover,
          clearance: light.clearance,
        }
      : absent('context-no-glass'),
    beads: {
      w: beads.find(({ role }) => role.includes('level'))?.length ?? beads[0]?.length ?? 0,
      h: beads.find(({ role }) => role.includes('upright'))?.length ?? beads[1]?.length ?? 0,
    },
    drains: {
      inner: drains('drain-inner'),
      outer: frameDrains('drain-outer'),
      equalisers: frameDrains('equaliser'),
    },
    sash_drains: at(own('sash-bottom'), 'drain-inner'),
    handle: {
      on_sash: light.handle?.on_sash ?? 0,
      ...(light.handle?.on_addon === null ? {} : { on_addon: light.handle?.on_addon ?? 0 }),
    },
    keeps: light.keeps,
    stay: { name: light.stay ?? '', length: light.stay_length },
    hinges: { name: light.hinges?.name ?? '', count: BigInt(light.hinges?.count ?? 0) },
    packers: light.packers.map((packer) => packerSentence(packer)),
    packer_count: BigInt(light.packers.length),
  };
}

function dividerValues(setOut: SetOut, divider: DividerSetOut): Record<string, unknown> {
  const own = (part: Part): Mark[] => part.marks.filter((mark) => mark.item === divider.id);
  // Upper before lower, left before right.
  const members = setOut.parts
    .filter((part) => part.light === null && part.id !== divider.id && own(part).length > 0)
    .sort((a, b) => (a.seat?.across ?? 0) - (b.seat?.across ?? 0));
  if (divider.direction === 'upright') members.reverse();
  const end = (part: Part | undefined) => ({
    member: part ? partName(part) : '',
    at: part ? (own(part).find(({ kind }) => kind === 'divider-line')?.at ?? 0) : 0,
  });
  const holes = members
    .map((part) =>
      own(part)
        .filter(({ kind }) => /hole$/.test(kind))
        .map((mark) => mark.at),
    )
    .find((found) => found.length > 0);
  return {
    id: divider.id,
    number: BigInt(divider.id.slice(1)),
    name: dividerName(divider.id, divider.direction),
    direction: divider.direction,
    joint: divider.joint,
    length: divider.length,
    centre: divider.centre,
    holes: holes ?? [],
    first: end(members[0]),
    second: end(members[1]),
  };
}

/** "setting, bottom edge, centre 150 mm from the left corner of the glass, 100 x 5 mm" */
export function packerSentence({ use, edge, centre, length, thickness, reason }: Packer): string {
  const level = edge === 'bottom' || edge === 'top';
  const round = (value: number): string => String(Math.round(value * 10) / 10);
  const from = windowSays(level ? 'packer-centre-left' : 'packer-centre-bottom', { at: round(centre) });
  const moved = reason === undefined ? '' : ` (${reason})`;
  return `${use}, ${edge} edge, ${from}, ${round(length)} x ${round(thickness)} mm${moved}`;
}

/** Cut lengths by role: of a light, or of the frame. */
const cutsOf = ({ parts }: SetOut, light: string | null): ReadonlyMap<string, number> =>
  new Map(ofLight(parts, light).map(({ role, length }) => [role, length]));
const articlesOf = ({ parts }: SetOut, light: string | null): ReadonlyMap<string, string> =>
  new Map(ofLight(parts, light).map(({ role, profile }) => [role, profile]));
const ofLight = (parts: readonly Part[], light: string | null): readonly Part[] =>
  parts.filter((part) => part.light === light && (light !== null || part.role !== 'divider'));

const at = (part: Part | undefined, kind: string, item?: string): number[] =>
  (part?.marks ?? [])
    .filter((mark: Mark) => mark.kind === kind && (item === undefined || mark.item === item))
    .map((mark) => mark.at);
