/** A unit's set-out as a person reads it in a terminal. */
import { mmText } from '../base/formula.js';
import { problemText } from '../base/problem.js';
import { plain } from '../base/text.js';
import { packerSentence } from './context.js';
import { drawText } from './drawtext.js';
import { elevation } from './elevation.js';
import type { LightSetOut, SetOut } from './types.js';

export interface SetOutTextOptions {
  readonly ascii: boolean;
  readonly columns?: number;
}

export function setOutText(setOut: SetOut, { ascii, columns = 100 }: SetOutTextOptions): string[] {
  const { unit, frame, profileSet, dividers, lights, sums } = setOut;
  const invented = profileSet.invented ? ' - invented set, not for real windows' : '';
  const lines = [
    `${unit.id}   ${mmText(unit.width)} x ${mmText(unit.height)}   ${plain(unit.room)}   ${plain(profileSet.title)}${invented}`.trimEnd(),
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
  lines.push(`mass      ${plain(setOut.lift)}`);
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
    `  glass   ${wh(glass)}, ${plain(glass.title)}, ${glass.area_m2.toFixed(4)} m2, ${glass.mass_kg.toFixed(1)} kg, cover ${mmText(light.cover)}, clearance ${mmText(light.clearance)}`,
    `  beads   ${light.beads.map(({ length, quantity }) => `${quantity} x ${mmText(length)}`).join(', ')}`,
    ...(handle
      ? [
          `  handle  ${mmText(handle.on_sash)} on the sash, ${mmText(handle.on_addon)} on the add-on frame, ${light.handle_side} side`,
          `  keeps   ${light.keeps.map(mmText).join(', ') || 'none'} on the add-on frame${light.gear ? ` (${plain(light.gear)})` : ''}`,
          `  stay    ${light.stay ? `${plain(light.stay)}: ${light.stay_uses.join(', ')}${light.near_limit ? ' - near limit' : ''}` : 'none'}`,
        ]
      : []),
    `  packing ${plain(light.packing)}`,
    ...light.packers.map((packer) => `          ${packerSentence(packer)}`),
  ];
}
