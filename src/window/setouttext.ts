/** The set-out as text and JSON, and the sum behind each number. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory, problemText } from '../base/problem.js';
import { sanitize } from '../base/text.js';
import { packerSentence } from './context.js';
import { drawText } from './draw.js';
import { elevation } from './elevation.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { LightSetOut, SetOut, Trace } from './types.js';

export interface SetOutTextOptions {
  readonly ascii: boolean;
  readonly columns?: number;
}

export function setOutText(setOut: SetOut, { ascii, columns = 100 }: SetOutTextOptions): string[] {
  const { unit, frame, profileSet, dividers, lights, sums } = setOut;
  const invented = profileSet.invented ? ' - invented set, not for real windows' : '';
  const lines = [
    `${unit.id}   ${mmText(unit.width)} x ${mmText(unit.height)}   ${sanitize(unit.room)}   ${sanitize(profileSet.title)}${invented}`.trimEnd(),
  ];
  if (setOut.refused)
    lines.push('REFUSED until each problem is mended, or overridden by a named person with a reason:');
  for (const problem of [...setOut.problems, ...setOut.warnings])
    lines.push(
      ...problemText(problem)
        .split('\n')
        .map((line) => `  ${line}`),
    );
  lines.push(
    '',
    ...drawText(elevation(setOut), {
      columns: Math.min(columns, 50),
      rows: 16,
      ascii,
      triangles: 'apex-at-hinge',
    }),
    'seen from outside',
    '',
  );
  lines.push(`frame     ${mmText(frame.w)} x ${mmText(frame.h)}, diagonal ${mmText(frame.diagonal)}`);
  lines.push(`mass      ${sanitize(setOut.lift)}`);
  for (const { id, direction, joint, length, centre } of dividers)
    lines.push(
      `${id}        ${direction} divider, ${joint}, centre ${mmText(centre)} from the ${direction === 'upright' ? 'left' : 'bottom'}, ${mmText(length)} long`,
    );
  for (const light of lights) lines.push('', ...lightText(light));
  const worst = Math.max(0, ...sums.map(({ error }) => Math.abs(error)));
  lines.push(
    '',
    `sums      ${sums.length} cuts across the window close to ${worst < 1e-6 ? '0' : String(worst)}`,
  );
  for (const { terms, whole, direction } of sums)
    lines.push(
      `          ${direction}: ${terms.map(({ what, length }) => `${what} ${mmText(length)}`).join(' + ')} = ${mmText(whole)}`,
    );
  return lines;
}

function lightText(light: LightSetOut): string[] {
  const wh = (size: { readonly w: number; readonly h: number }): string =>
    `${mmText(size.w)} x ${mmText(size.h)}`;
  const { sash, addon, glass, handle } = light;
  return [
    `${light.id}        ${light.sentence}`,
    `  sight   ${wh(light.sight)}   rebate ${wh(light.rebate)}`,
    ...(addon ? [`  add-on  ${wh(addon)}, diagonal ${mmText(addon.diagonal)}`] : []),
    ...(sash
      ? [`  sash    ${wh(sash)}, diagonal ${mmText(sash.diagonal)}, ${sash.mass_kg.toFixed(1)} kg`]
      : []),
    `  glass   ${wh(glass)}, ${sanitize(glass.title)}, ${glass.area_m2.toFixed(4)} m2, ${glass.mass_kg.toFixed(1)} kg, cover ${mmText(light.cover)}, clearance ${mmText(light.clearance)}`,
    `  beads   ${light.beads.map(({ length, quantity }) => `${quantity} x ${mmText(length)}`).join(', ')}`,
    ...(handle
      ? [
          `  handle  ${mmText(handle.on_sash)} on the sash, ${mmText(handle.on_addon)} on the add-on frame, ${light.handle_side} side`,
          `  keeps   ${light.keeps.map(mmText).join(', ') || 'none'} on the add-on frame${light.gear ? ` (${sanitize(light.gear)})` : ''}`,
          `  stay    ${light.stay ? `${sanitize(light.stay)}: ${light.stay_uses.join(', ')}${light.near_limit ? ' - near limit' : ''}` : 'none'}`,
        ]
      : []),
    `  packing ${sanitize(light.packing)}`,
    ...light.packers.map((packer) => `          ${packerSentence(packer)}`),
  ];
}

const raise = problemFactory(WINDOW_MESSAGES);
const ALIASES: Readonly<Record<string, string>> = { width: 'w', height: 'h' };

/** Trace of a number by name: `glass.L2.w`; `glass.L2.width` and `sash.L2.mass_kg` are also accepted. */
export function why(setOut: SetOut, name: string): Trace | Problem {
  const found = variants(name)
    .map((each) => setOut.numbers.get(each))
    .find((trace) => trace !== undefined);
  if (found) return found;
  const near = nearest(setOut, name);
  const asked = { unit: setOut.unit.id, name };
  return near.length > 0 ? raise('why.unknown/near', { ...asked, near }) : raise('why.unknown', asked);
}

function variants(name: string): string[] {
  const parts = name.split('.');
  const swapped = parts.map((part) => ALIASES[part] ?? part).join('.');
  const noUnit = name.replace(/_kg$/, '');
  // Accepts light.glass.w of L2 as well as glass.L2.w.
  const light = /^(L\d+|D\d+)\.(\w+)\.(\w+)$/.exec(swapped);
  return [name, swapped, noUnit, ...(light ? [`${light[2]}.${light[1]}.${light[3]}`] : [])];
}

function nearest(setOut: SetOut, name: string): string[] {
  const words = name.toLowerCase().split(/[.\s]/);
  return [...setOut.numbers.keys()]
    .map((each) => ({
      each,
      hits: words.filter((word) => word !== '' && each.toLowerCase().split('.').includes(word)).length,
    }))
    .filter(({ hits }) => hits > 0)
    .sort((a, b) => b.hits - a.hits || a.each.length - b.each.length)
    .slice(0, 5)
    .map(({ each }) => each);
}

export interface WhyOptions {
  readonly ascii?: boolean;
  /** Maximum lines shown; the rest are counted. */
  readonly most?: number;
}

/** The trace as a small tree: one line for each number, one for its derivation. */
export function whyLines(trace: Trace, { ascii = false, most = 60 }: WhyOptions = {}): string[] {
  const [branch, last, down] = ascii ? ['+- ', '`- ', '|  '] : ['├─ ', '└─ ', '│  '];
  const lines: string[] = [];
  const shown = new Set<string>();
  const visit = (each: Trace, lead: string, lead2: string): void => {
    const again = shown.has(each.name) && each.of.length > 0;
    shown.add(each.name);
    const sum =
      each.formula === undefined
        ? ''
        : each.filled === undefined || each.filled === each.formula
          ? ` = ${each.formula}`
          : ` = ${each.formula} = ${each.filled}`;
    const source = each.source ? `  (${sourceWords(each.source)})` : '';
    const reason = each.reason === undefined ? '' : `  (${each.reason})`;
    lines.push(`${lead}${each.name} = ${valueText(each)}${again ? ' (as above)' : sum}${source}${reason}`);
    if (again) return;
    each.of.forEach((child, i) => {
      const end = i === each.of.length - 1;
      visit(child, lead2 + (end ? last : branch), lead2 + (end ? '   ' : down));
    });
  };
  visit(trace, '', '');
  return lines.length <= most ? lines : [...lines.slice(0, most), `(${lines.length - most} lines more)`];
}

/** A manual or the job needs no label; any other source is labelled with how it is known. */
const sourceWords = ({ kind, text }: NonNullable<Trace['source']>): string =>
  kind === 'manual' ? text : `${kind.replace('-', ' ')}: ${text}`;

export function valueText({ value, unit }: Trace): string {
  if (unit === 'mm') return `${mmText(value)} mm`;
  const rounded = String(Math.round(value * 10_000) / 10_000);
  return unit === 'none' || unit === 'count' ? rounded : `${rounded} ${unit}`;
}

// Set-outs for scripts: the contract of `setout --json`. Keys are only ever added.

export interface SetOutJson {
  readonly units: readonly Record<string, unknown>[];
}

export function setOutJson(setOuts: readonly SetOut[]): SetOutJson {
  return { units: setOuts.map(unitJson) };
}

function unitJson(setOut: SetOut): Record<string, unknown> {
  const { unit, frame, lights, dividers, parts } = setOut;
  const said = ({ id, text }: { readonly id: string; readonly text: string }) => ({ id, text });
  return {
    unit: unit.id,
    mark: unit.mark,
    job: unit.job,
    profile_set: setOut.profileSet,
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
      rebate: { w: neat(light.rebate.w), h: neat(light.rebate.h) },
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
      glass: {
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
        on_addon: neat(light.handle.on_addon),
        on_sash: neat(light.handle.on_sash),
        side: light.handle_side,
      },
      keeps: light.keeps.map(neat),
      gear: light.gear,
      stay: light.stay,
      near_limit: light.near_limit,
      stay_uses: light.stay_uses,
      packers: light.packers.map((packer) => ({ ...packer, centre: neat(packer.centre) })),
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
