/** Set-outs for scripts: the contract of `setout --json`. Keys are only ever added. */
import type { SetOut } from './types.js';

export interface SetOutJson {
  readonly units: readonly Record<string, unknown>[];
}

export function setOutJson(setOuts: readonly SetOut[]): SetOutJson {
  return { units: setOuts.map(unitJson) };
}

/**
 * The set-out that a unit's journal keeps, as text. Units that were opened long ago are compared with it byte by byte, so it
 * stays as it was: what moves a packer is not in it, where it lies is.
 */
export function frozenSetOut(setOut: SetOut): string {
  const lights = setOut.lights.map((light) => ({
    ...light,
    packers: light.packers.map(({ moved_from: _from, reason: _why, ...packer }) => packer),
  }));
  return `${JSON.stringify(setOutJson([{ ...setOut, lights }]))}\n`;
}

function unitJson(setOut: SetOut): Record<string, unknown> {
  const { unit, frame, lights, dividers, parts } = setOut;
  const said = ({ id, text }: { readonly id: string; readonly text: string }) => ({ id, text });
  return {
    unit: unit.id,
    mark: unit.mark,
    job: unit.job,
    profile_set: setOut.profileSet,
    ...(setOut.product !== undefined && { product: setOut.product }),
    refused: setOut.refused,
    problems: setOut.problems.map(said),
    warnings: setOut.warnings.map(said),
    width: unit.width,
    height: unit.height,
    frame: { w: neat(frame.w), h: neat(frame.h), diagonal: neat(frame.diagonal) },
    mass_kg: neat(setOut.mass_kg),
    lift: setOut.lift,
    lights: lights.map((light) => ({
      id: light.id,
      kind: light.kind,
      hinge: light.hinge ?? null,
      sentence: light.sentence,
      sight: { w: neat(light.sight.w), h: neat(light.sight.h) },
      rebate: light.rebate && { w: neat(light.rebate.w), h: neat(light.rebate.h) },
      addon: light.addon && {
        w: neat(light.addon.w),
        h: neat(light.addon.h),
        diagonal: neat(light.addon.diagonal),
      },
      sash: light.sash && {
        w: neat(light.sash.w),
        h: neat(light.sash.h),
        diagonal: neat(light.sash.diagonal),
        mass_kg: neat(light.sash.mass_kg),
      },
      glass: light.glass && {
        w: neat(light.glass.w),
        h: neat(light.glass.h),
        mass_kg: neat(light.glass.mass_kg),
        area_m2: neat(light.glass.area_m2),
        thickness: neat(light.glass.thickness),
        name: light.glass_name,
        title: light.glass.title,
        safety: light.safety,
        cover: neat(light.cover),
        clearance: neat(light.clearance),
      },
      beads: light.beads.map(({ length, quantity }) => ({ length: neat(length), quantity })),
      handle: light.handle && {
        on_addon: light.handle.on_addon === null ? null : neat(light.handle.on_addon),
        on_sash: neat(light.handle.on_sash),
        side: light.handle_side,
      },
      keeps: light.keeps.map(neat),
      gear: light.gear,
      stay: light.stay,
      // Only where it has them: what was frozen before is compared with this byte by byte.
      ...(light.hinges && { hinges: light.hinges }),
      near_limit: light.near_limit,
      stay_uses: light.stay_uses,
      packers: light.packers.map(({ moved_from, ...packer }) => ({
        ...packer,
        centre: neat(packer.centre),
        ...(moved_from !== undefined && { moved_from: neat(moved_from) }),
      })),
      packing: light.packing,
    })),
    dividers: dividers.map(({ id, direction, joint, length, centre }) => ({
      id,
      direction,
      joint,
      length: neat(length),
      centre: neat(centre),
    })),
    parts: parts.map((part) => ({
      id: part.id,
      role: part.role,
      light: part.light,
      profile: part.profile,
      kind: part.kind,
      length: neat(part.length),
      quantity: part.quantity,
      ends: part.ends,
      datum: part.datum,
      label: part.label,
      marks: part.marks.map(({ kind, at, moved_from, reason, side, item }) => ({
        kind,
        at: neat(at),
        moved_from: moved_from === null ? null : neat(moved_from),
        reason,
        side,
        item,
      })),
    })),
    extras: setOut.extras,
    sums: setOut.sums.map(({ direction, at, terms, whole, error }) => ({
      direction,
      at: neat(at),
      terms: terms.map(({ what, length }) => ({ what, length: neat(length) })),
      whole: neat(whole),
      error: neat(error),
    })),
  };
}

/** Rounded to a millionth to hide binary floating-point tails. */
const neat = (value: number): number => {
  const rounded = Math.round(value * 1e6) / 1e6;
  return Object.is(rounded, -0) ? 0 : rounded;
};
