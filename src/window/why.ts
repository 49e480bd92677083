/** Why a number is what it is, down to the job's sizes and the set's constants. */
import { mmText } from '../base/formula.js';
import { type Problem, raiser } from '../base/problem.js';
import { WINDOW_MESSAGES } from './messages.js';
import type { SetOut, Trace } from './types.js';

const raise = raiser(WINDOW_MESSAGES);
const ALIASES: Readonly<Record<string, string>> = { width: 'w', height: 'h' };

/** The trace of a number by its name: `glass.L2.w`; `glass.L2.width`, `sash.L2.mass_kg` are understood too. */
export function why(setOut: SetOut, name: string): Trace | Problem {
  const found = variants(name)
    .map((each) => setOut.numbers.get(each))
    .find((trace) => trace !== undefined);
  if (found) return found;
  const near = nearest(setOut, name);
  return raise(
    'why.unknown',
    `No number of ${setOut.unit.id} is called "${name}".`,
    undefined,
    near.length > 0
      ? `Did you mean ${near.join(', ')}? "setout JOB ${setOut.unit.id} --why ?" lists all names.`
      : undefined,
  );
}

function variants(name: string): string[] {
  const parts = name.split('.');
  const swapped = parts.map((part) => ALIASES[part] ?? part).join('.');
  const noUnit = name.replace(/_kg$/, '');
  // light.glass.w of L2 is read as well as glass.L2.w.
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
  /** Lines shown at most; the rest is counted. */
  readonly most?: number;
}

/** The trace as a small tree, one line each for what it is and how it came. */
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
    lines.push(`${lead}${each.name} = ${valueText(each)}${again ? ' (as above)' : sum}${source}`);
    if (again) return;
    each.of.forEach((child, i) => {
      const end = i === each.of.length - 1;
      visit(child, lead2 + (end ? last : branch), lead2 + (end ? '   ' : down));
    });
  };
  visit(trace, '', '');
  return lines.length <= most ? lines : [...lines.slice(0, most), `(${lines.length - most} lines more)`];
}

/** A manual or the job speaks for itself; of anything else it is said how it is known. */
const sourceWords = ({ kind, text }: NonNullable<Trace['source']>): string =>
  kind === 'manual' ? text : `${kind.replace('-', ' ')}: ${text}`;

export function valueText({ value, unit }: Trace): string {
  if (unit === 'mm') return `${mmText(value)} mm`;
  const rounded = String(Math.round(value * 10_000) / 10_000);
  return unit === 'none' || unit === 'count' ? rounded : `${rounded} ${unit}`;
}
