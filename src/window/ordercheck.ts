/** Order check: what the profile set, glass and job's needs refuse, each with number, limit and source. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { type DividerItem, isDivider, type LightItem } from './geometry.js';
import { beadFor, wholeThickness } from './glass.js';
import { profileSource } from './lightresult.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { ProfileSet } from './profileset.js';
import type { Sheet } from './sheet.js';
import type { Trace, Unit } from './types.js';

const raise = problemFactory(WINDOW_MESSAGES);

export function checkOrder(
  set: ProfileSet,
  unit: Unit,
  unitSheet: Sheet,
  lights: readonly LightItem[],
  dividers: readonly DividerItem[],
  clearLoss: ReadonlyMap<string, number | undefined>,
): Problem[] {
  const problems: Problem[] = [];
  for (const check of set.file.checks) {
    const subjects: { readonly id: string; readonly sheet: Sheet }[] =
      check.per === 'unit'
        ? [{ id: unit.id, sheet: unitSheet }]
        : check.per === 'divider'
          ? [...dividers]
          : lights.filter(
              ({ kind, scope }) => check.per === 'light' || check.per === scope || check.per === kind,
            );
    for (const { id, sheet } of subjects) {
      const name = `check.${id}.${check.name}`;
      const value = sheet.named(name, check.value, check.unit);
      const least = check.least === undefined ? undefined : sheet.value(check.least);
      const most = check.most === undefined ? undefined : sheet.value(check.most);
      const under = least !== undefined && value < least - 1e-9;
      const over = most !== undefined && value > most + 1e-9;
      if (under || over)
        problems.push(
          raise(under ? 'order.limit/least' : 'order.limit/most', {
            id,
            check: check.says,
            value: show(value, check.unit),
            limit: show(under ? least : most!, check.unit),
            name: check.name,
            source: profileSource(set, check.source),
          }),
        );
    }
  }
  const beads = set.file.glass?.beads ?? [];
  for (const light of lights) {
    const thickness = light.makeup && wholeThickness(light.makeup);
    if (thickness !== undefined && !beadFor(set, thickness))
      problems.push(
        raise('order.glass-thickness', {
          light: light.id,
          glass: light.glass,
          thickness: mmText(thickness),
          set: set.title,
          beads: beads.map(({ from, to }) => `${from}–${to}`),
          source: profileSource(set, set.file.glass!.bead_source),
        }),
      );
    if (unit.needs.safetyGlass && !light.makeup?.safety)
      problems.push(raise('order.safety-glass', { light: light.id, glass: light.glass }));
    if (!set.file.opens.includes(light.opensIn ? 'in' : 'out') && light.kind !== 'fixed')
      problems.push(
        raise(light.opensIn ? 'order.opens-in' : 'order.opens-in/out', {
          light: light.id,
          set: set.title,
        }),
      );
  }
  for (const { id, placed } of dividers)
    if (placed.joint === 'cleated' && placed.ends.some(isDivider))
      problems.push(raise('order.joint', { id, dividers: placed.ends.filter(isDivider) }));
  problems.push(...fittingProblems(unit, lights));
  if (unit.needs.escape) problems.push(...escapeProblems(set, lights, clearLoss));
  return problems;
}

function fittingProblems({ fittings = [] }: Unit, lights: readonly LightItem[]): Problem[] {
  const has = (fitting: (typeof fittings)[number]) => fittings.includes(fitting);
  return [
    ...(has('run-up-block') && !lights.some(({ kind }) => kind === 'side-hung')
      ? [raise('order.fitting')]
      : []),
    ...(has('hinge-protector') && lights.every(({ kind }) => kind === 'fixed')
      ? [raise('order.fitting/protector')]
      : []),
    ...(has('lugs') && has('fixing-holes') ? [raise('order.fitting/fixing')] : []),
  ];
}

function escapeProblems(
  set: ProfileSet,
  lights: readonly LightItem[],
  clearLoss: ReadonlyMap<string, number | undefined>,
): Problem[] {
  const asked = set.file.escape;
  const opening = lights.filter(({ kind }) => kind !== 'fixed');
  if (opening.length === 0) return [raise('order.escape')];
  if (!asked || opening.every(({ id, kind }) => kind !== 'side-hung' || clearLoss.get(id) === undefined))
    return [raise('order.escape-unknown', { set: set.title })];
  const found: string[] = [];
  for (const { id, kind, sheet } of opening) {
    const loss = clearLoss.get(id);
    if (kind !== 'side-hung' || loss === undefined) {
      found.push(`${id} unknown`);
      continue;
    }
    const w = sheet.named(`escape.${id}.w`, asked.width, 'mm');
    const h = sheet.named(`escape.${id}.h`, asked.height, 'mm');
    const area = (w * h) / 1e6;
    if (w >= asked.least_side && h >= asked.least_side && area >= asked.least_area_m2) return [];
    found.push(`${id} ${mmText(w)} x ${mmText(h)}, ${area.toFixed(3)} m2`);
  }
  return [
    raise('order.escape/clear', {
      found: found.join('; '),
      leastSide: asked.least_side,
      leastAreaM2: asked.least_area_m2,
      source: profileSource(set, asked.source),
    }),
  ];
}

const show = (value: number, unit: Trace['unit']): string =>
  unit === 'mm'
    ? `${mmText(value)} mm`
    : unit === 'none' || unit === 'count'
      ? String(Math.round(value * 1000) / 1000)
      : `${Math.round(value * 100) / 100} ${unit}`;
