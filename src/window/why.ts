/** How a number of a unit was come by, found by its name. */
import { mmText } from '../base/formula.js';
import { type Problem, problemFactory } from '../base/problem.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { SetOut, Trace } from './types.js';

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

export function valueText({ value, unit }: Trace): string {
  if (unit === 'mm') return `${mmText(value)} mm`;
  const rounded = String(Math.round(value * 10_000) / 10_000);
  return unit === 'none' || unit === 'count' ? rounded : `${rounded} ${unit}`;
}
