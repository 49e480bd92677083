/** Slips that people make with a tape: the figures that a wrong reading is often wrong by, in words. */
import { figure } from './decision.js';
import type { Instrument, ReadingUnit } from './types.js';
import { lengthText, MM_PER_INCH } from './units.js';

/** Slips that happen: a mark, a half-decimetre, the start of the tape, mm; marks and whole inches of an inch tape. */
const SLIPS = [1, 5, 10, 50, 100] as const;
const INCH_SLIPS = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 10].map((inches) => inches * MM_PER_INCH);
/** Usual slips that make up a wanted change of a reading to within `tolerance`, in words. */
export function usualSlips(
  value: number,
  change: number,
  tolerance: number,
  instrument?: Instrument,
  unit?: ReadingUnit,
): string[] {
  const found: string[] = [];
  const read = value - (instrument?.offset ?? 0);
  const near = (slip: number) => Math.abs(Math.abs(change) - slip) <= Math.min(tolerance, slip / 3);
  const startForgotten = near(100) && (instrument?.offset === -100 ? change > 0 : change < 0);
  if (startForgotten)
    found.push(
      instrument?.offset === -100
        ? 'the tape was held at its end, not at the 100 mm mark'
        : 'the 100 mm start was not taken off',
    );
  if (unit === 'inch') {
    const slip = INCH_SLIPS.find(near);
    return slip === undefined || startForgotten ? found : [...found, `a slip of ${lengthText(slip, 'inch')}`];
  }
  const text = figure(read);
  const within = (candidate: string) =>
    candidate !== text &&
    Math.abs(Number(candidate) - (read + change)) <= Math.min(tolerance, Math.abs(change) / 3);
  const swapped = swaps(text).find(within);
  if (swapped) found.push(`two digits swapped: ${swapped}`);
  const turned = turns(text).find(within);
  if (turned) found.push(`6 and 9 mixed up: ${turned}`);
  const slip = SLIPS.find(near);
  if (slip !== undefined && !startForgotten) found.push(`a slip of ${slip} mm`);
  return found;
}

/** The number with two neighbouring digits changed over, each way there is. */
function swaps(text: string): string[] {
  const places = [...text].flatMap((c, i) => (/[0-9]/.test(c) ? [i] : []));
  return places.slice(1).map((second, n) => {
    const first = places[n]!;
    const chars = [...text];
    [chars[first], chars[second]] = [chars[second]!, chars[first]!];
    return chars.join('');
  });
}

function turns(text: string): string[] {
  return [...text].flatMap((c, i) =>
    c === '6' || c === '9' ? [`${text.slice(0, i)}${c === '6' ? '9' : '6'}${text.slice(i + 1)}`] : [],
  );
}
