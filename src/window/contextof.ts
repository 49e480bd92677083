/** The numbers of a set-out by the names that procedures use (see context.ts). */

import type { ContextValues } from './context.js';
import { liftOf } from './lift.js';
import type { DividerSetOut, LightSetOut, Mark, Packer, Part, SetOut } from './types.js';

/** Names known in every step: unit, frame, set, figure. */
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
      safety_glass: unit.needs.safetyGlass,
      outside_colour: unit.outsideColour,
      inside_colour: unit.insideColour,
      room: unit.room,
      note: unit.note,
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
    set: { ...profileSet },
    // CEL reads a map with text keys from a Map as from an object; a Map holds no inherited names.
    figure: new Map(Object.entries(setOut.figures)),
  };
}

/** `light` besides, for a step that is done for each light. Empty values where the set-out has no such light. */
export function lightContext(
  setOut: SetOut,
  lightId: string,
  unit: ContextValues = contextOf(setOut),
): ContextValues {
  const light = setOut.lights.find(({ id }) => id === lightId);
  return { ...unit, ...(light && { light: lightValues(setOut, light) }) };
}

/** `divider` besides, for a step that is done for each divider. */
export function dividerContext(
  setOut: SetOut,
  dividerId: string,
  unit: ContextValues = contextOf(setOut),
): ContextValues {
  const divider = setOut.dividers.find(({ id }) => id === dividerId);
  return { ...unit, ...(divider && { divider: dividerValues(setOut, divider) }) };
}

/** All three at once, as a route is made from them. */
export function contextsOf(setOut: SetOut) {
  const unit = contextOf(setOut);
  return {
    unit,
    lights: setOut.lights.map(({ id }) => lightContext(setOut, id, unit)),
    dividers: setOut.dividers.map(({ id }) => dividerContext(setOut, id, unit)),
  };
}

function lightValues(setOut: SetOut, light: LightSetOut): Record<string, unknown> {
  const own = (role: string): Part | undefined =>
    setOut.parts.find((part) => part.light === light.id && part.role === role);
  const opening = light.kind !== 'fixed';
  // A fixed light drains through the frame or divider beneath it, a sash through its add-on frame.
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
    handle_side: light.handle_side ?? '',
    sentence: light.sentence,
    sight: light.sight,
    rebate: light.rebate,
    addon: {
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
    sash: { w: sash?.w ?? 0, h: sash?.h ?? 0, diagonal: sash?.diagonal ?? 0, mass: sash?.mass_kg ?? 0 },
    glass: {
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
    },
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
    handle: { on_sash: light.handle?.on_sash ?? 0, on_addon: light.handle?.on_addon ?? 0 },
    keeps: light.keeps,
    stay: { name: light.stay ?? '', length: light.stay_length },
    packers: light.packers.map((packer) => packerSentence(packer)),
    packer_count: BigInt(light.packers.length),
  };
}

function dividerValues(setOut: SetOut, divider: DividerSetOut): Record<string, unknown> {
  const holes = setOut.parts
    .filter(({ light }) => light === null)
    .map((part) =>
      part.marks.filter((mark) => mark.item === divider.id && /hole$/.test(mark.kind)).map((mark) => mark.at),
    )
    .find((found) => found.length > 0);
  return {
    id: divider.id,
    number: BigInt(divider.id.slice(1)),
    direction: divider.direction,
    joint: divider.joint,
    length: divider.length,
    centre: divider.centre,
    holes: holes ?? [],
  };
}

/** "setting, bottom edge, centre 150 mm from the left corner of the glass, 100 x 5 mm" */
export function packerSentence({ use, edge, centre, length, thickness }: Packer): string {
  const from = edge === 'bottom' || edge === 'top' ? 'left' : 'bottom';
  const round = (value: number): string => String(Math.round(value * 10) / 10);
  return `${use}, ${edge} edge, centre ${round(centre)} mm from the ${from} corner of the glass, ${round(length)} x ${round(thickness)} mm`;
}

const at = (part: Part | undefined, kind: string, item?: string): number[] =>
  (part?.marks ?? [])
    .filter((mark: Mark) => mark.kind === kind && (item === undefined || mark.item === item))
    .map((mark) => mark.at);
