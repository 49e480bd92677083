/**
 * Measurement uncertainty according to JCGM 100:2008 (GUM): u = a / √3 for a component of half-width a (4.3.7), u = δ /
 * √12 for a resolution of δ (F.2.2.1), repeats by their scatter, all added in quadrature; effective degrees of freedom
 * by Welch-Satterthwaite (G.4.1); coverage factor 2, or Student's t for the same coverage.
 */
import { coverageFactor, scatterBound, sd, spread } from './stats.js';
import type { Instrument } from './types.js';

export interface Component {
  readonly from: 'scale' | 'reading' | 'temperature';
  /** Standard uncertainty in the reading's unit. */
  readonly u: number;
  readonly dof: number;
}

export interface Uncertainty {
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  /** Expanded uncertainty: k x u. */
  readonly U: number;
  readonly components: readonly Component[];
}

/** Temperature of the work when measured; `within` is the half-width of its error, K. */
export interface Temperature {
  readonly celsius: number;
  readonly within: number;
}

/** Reference temperature for lengths and tapes (MI-008, annex X of Directive 2014/32/EU). */
const REFERENCE_CELSIUS = 20;
/** Thermal expansion per kelvin of aluminium and steel: from memory. */
const ALUMINIUM = 23.1e-6;
const STEEL = 11.5e-6;

const CLASSES = {
  I: { a: 0.1, b: 0.1, c: 0.1 },
  II: { a: 0.3, b: 0.2, c: 0.2 },
  III: { a: 0.6, b: 0.4, c: 0.3 },
} as const;

/**
 * Maximum permissible error of a tape, mm: a + b·L with L in metres rounded up to the next whole metre, plus c if an
 * end is a hook or butt end. Directive 2014/32/EU, annex X (MI-008).
 */
export function tapeError(tapeClass: keyof typeof CLASSES, lengthMm: number, hook = false): number {
  const { a, b, c } = CLASSES[tapeClass];
  const metres = Math.max(1, Math.ceil(Math.abs(lengthMm) / 1000 - 1e-9));
  return a + b * metres + (hook ? c : 0);
}

/** Half-width of the instrument's own error at a length (or value), in its unit. */
export function instrumentError(instrument: Instrument, length: number): number {
  if (instrument.class) return tapeError(instrument.class, length, instrument.hook);
  return instrument.maxError ?? 0;
}

/**
 * Standard uncertainty of placing and reading: the part independent for each reading. A single reading has its
 * resolution and the known repeatability. Repeats that all fall on one mark do not average out the rounding. Repeats
 * that scatter as resolution and repeatability predict are averaged by the square root of their number. Only if they
 * scatter more (over one step, and significantly at 95 %) is their own scatter used, with its few degrees of freedom.
 */
export function readingPart(instrument: Instrument, repeats: readonly number[] = []): Component {
  const known = Number.POSITIVE_INFINITY;
  const step = instrument.resolution / Math.sqrt(12);
  const placing = instrument.repeatability ?? 0;
  const one = Math.hypot(step, placing);
  const n = repeats.length;
  if (n < 2) return { from: 'reading', u: one, dof: known };
  const apart = spread(repeats);
  if (apart < instrument.resolution / 2)
    return { from: 'reading', u: Math.hypot(step, placing / Math.sqrt(n)), dof: known };
  const scatter = sd(repeats);
  if (apart <= instrument.resolution + 1e-9 || scatter <= one * scatterBound(n - 1))
    return { from: 'reading', u: one / Math.sqrt(n), dof: known };
  return { from: 'reading', u: scatter / Math.sqrt(n), dof: n - 1 };
}

export function readingUncertainty(
  instrument: Instrument,
  length: number,
  repeats: readonly number[] = [],
  temperature?: Temperature,
): Uncertainty {
  const parts: Component[] = [
    readingPart(instrument, repeats),
    {
      from: 'scale',
      u: instrumentError(instrument, length) / Math.sqrt(3),
      dof: Number.POSITIVE_INFINITY,
    },
  ];
  if (temperature)
    parts.push({
      from: 'temperature',
      u: (Math.abs(length) * (ALUMINIUM - STEEL) * temperature.within) / Math.sqrt(3),
      dof: Number.POSITIVE_INFINITY,
    });
  return combine(parts);
}

/** For nearly equal lengths. With one instrument its own error and the temperature cancel, leaving two readings. */
export function differenceUncertainty(
  first: { readonly instrument: Instrument; readonly value: number; readonly repeats?: readonly number[] },
  second: { readonly instrument: Instrument; readonly value: number; readonly repeats?: readonly number[] },
): Uncertainty {
  const parts = [
    readingPart(first.instrument, first.repeats),
    readingPart(second.instrument, second.repeats),
  ];
  if (first.instrument.id !== second.instrument.id)
    for (const { instrument, value } of [first, second])
      parts.push({
        from: 'scale',
        u: instrumentError(instrument, value) / Math.sqrt(3),
        dof: Number.POSITIVE_INFINITY,
      });
  return combine(parts);
}

export function combine(components: readonly Component[], probability?: number): Uncertainty {
  const u = Math.hypot(...components.map((part) => part.u));
  const dof = effectiveDof(u, components);
  const k = coverageFactor(dof, probability);
  return { u, dof, k, U: k * u, components };
}

/** Welch-Satterthwaite (JCGM 100, G.4.1). */
export function effectiveDof(
  u: number,
  components: readonly { readonly u: number; readonly dof: number }[],
): number {
  const below = components.reduce((total, part) => total + part.u ** 4 / part.dof, 0);
  return below === 0 ? Number.POSITIVE_INFINITY : u ** 4 / below;
}

/** The amount to add, mm, to convert an aluminium length read with a steel tape at `celsius` to 20 degrees. */
export function temperatureCorrection(length: number, celsius: number): number {
  const away = celsius - REFERENCE_CELSIUS;
  return length * ((1 + STEEL * away) / (1 + ALUMINIUM * away) - 1);
}

/** Predicted U of the mean of n fresh readings: the reading part falls with the square root of n. */
export function expectedU(
  instrument: Instrument,
  length: number,
  n: number,
  temperature?: Temperature,
): number {
  const now = readingUncertainty(instrument, length, [], temperature);
  return (
    2 *
    Math.hypot(...now.components.map((part) => (part.from === 'reading' ? part.u / Math.sqrt(n) : part.u)))
  );
}
