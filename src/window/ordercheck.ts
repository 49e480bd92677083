/** Order check: what the profile set, glass and job's needs refuse, each with number, limit and source. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { type DividerItem, isDivider, type LightItem } from './geometry.js';
import { wholeThickness } from './glass.js';
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
          raise(
            'order.limit',
            `${id}: ${check.says} is ${show(value, check.unit)}; ${under ? `at least ${show(least, check.unit)}` : `at most ${show(most!, check.unit)}`} (${check.name}; ${profileSource(set, check.source)}).`,
          ),
        );
    }
  }
  const { beads, bead_source } = set.file.glass;
  for (const light of lights) {
    const thickness = wholeThickness(light.makeup);
    if (!beads.some(({ from, to }) => thickness >= from - 1e-9 && thickness <= to + 1e-9))
      problems.push(
        raise(
          'order.glass-thickness',
          `${light.id}: glass ${light.glass} is ${mmText(thickness)} thick; beads of ${set.title} hold ${beads.map(({ from, to }) => `${from} to ${to}`).join(', ')} (${profileSource(set, bead_source)}).`,
        ),
      );
    if (unit.needs.safetyGlass && !light.makeup.safety)
      problems.push(
        raise(
          'order.safety-glass',
          `${light.id}: safety glass is asked for; ${light.glass} is not marked as safety glass.`,
        ),
      );
    if (!set.file.opens.includes(light.opensIn ? 'in' : 'out') && light.kind !== 'fixed')
      problems.push(
        raise(
          'order.opens-in',
          `${light.id} opens ${light.opensIn ? 'in' : 'out'}; ${set.title} opens ${set.file.opens.join(' or ')}.`,
        ),
      );
  }
  for (const { id, placed } of dividers)
    if (placed.joint === 'cleated' && placed.ends.some(isDivider))
      problems.push(
        raise(
          'order.joint',
          `${id} is cleated to ${placed.ends.filter(isDivider).join(' and ')}: cleats slide into the frame before its corners are closed, and that divider is not there yet.`,
        ),
      );
  problems.push(...fittingProblems(unit, lights));
  if (unit.needs.escape) problems.push(...escapeProblems(set, lights, clearLoss));
  return problems;
}

function fittingProblems({ fittings = [] }: Unit, lights: readonly LightItem[]): Problem[] {
  const has = (fitting: (typeof fittings)[number]) => fittings.includes(fitting);
  const no = (text: string) => [raise('order.fitting', text)];
  return [
    ...(has('run-up-block') && !lights.some(({ kind }) => kind === 'side-hung')
      ? no('A run-up block is ordered and no light is side-hung.')
      : []),
    ...(has('hinge-protector') && lights.every(({ kind }) => kind === 'fixed')
      ? no('A hinge protector is ordered and no light opens.')
      : []),
    ...(has('lugs') && has('fixing-holes')
      ? no('Wall lugs and fixing holes are both ordered; a frame is fixed by one or the other.')
      : []),
  ];
}

function escapeProblems(
  set: ProfileSet,
  lights: readonly LightItem[],
  clearLoss: ReadonlyMap<string, number | undefined>,
): Problem[] {
  const asked = set.file.escape;
  const opening = lights.filter(({ kind }) => kind !== 'fixed');
  if (opening.length === 0)
    return [raise('order.escape', 'An escape opening is asked for and no light of the unit opens.')];
  if (!asked || opening.every(({ id, kind }) => kind !== 'side-hung' || clearLoss.get(id) === undefined))
    return [
      raise(
        'order.escape-unknown',
        `An escape opening is asked for; ${set.title} does not say how far its stays open, so the clear opening is unknown.`,
      ),
    ];
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
    raise(
      'order.escape',
      `Clear opening: ${found.join('; ')}; at least ${asked.least_side} each way and ${asked.least_area_m2} m2 are asked for (${profileSource(set, asked.source)}).`,
    ),
  ];
}

const show = (value: number, unit: Trace['unit']): string =>
  unit === 'mm'
    ? `${mmText(value)} mm`
    : unit === 'none' || unit === 'count'
      ? String(Math.round(value * 1000) / 1000)
      : `${Math.round(value * 100) / 100} ${unit}`;
