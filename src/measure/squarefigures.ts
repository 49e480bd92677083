/** The figures of a frame that a limit is held against, each with its own uncertainty and words. */
import { figure, signed } from './decision.js';
import type { Limit } from './limits.js';
import { LENGTH_NAMES } from './misread.js';
import { coverageFactor } from './quantiles.js';
import { ASSUMED, type Nominal, nominalOf, type SquareSolution } from './square.js';
import { type Instrument, type Reading, SQUARE_KEYS, type SquareKey } from './types.js';
import {
  differenceUncertainty,
  expectedU,
  readingUncertainty,
  type Temperature,
  temperatureCorrection,
} from './uncertainty.js';
import { tidy } from './units.js';

export interface FigureOptions {
  readonly readings: Readonly<Partial<Record<SquareKey, readonly Pick<Reading, 'value'>[]>>>;
  readonly nominal?: Nominal | undefined;
  readonly temperature?: Temperature | undefined;
  readonly toolOf: (key: SquareKey) => Instrument | undefined;
}

/** A figure a limit is held against: its value, uncertainty, and words for it. */
export interface Figure {
  readonly value: number;
  readonly u: number;
  readonly U: number;
  readonly size: number | undefined;
  readonly says: string;
  readonly expected: (instrument: Instrument, n: number) => number;
}

export function figuresFor(limit: Limit, options: FigureOptions, solution: SquareSolution): Figure[] {
  const { measured, u, difference, differenceU, differenceDof, angles, anglesU } = solution;
  const { nominal } = options;
  const diagonal = nominal ? Math.hypot(nominal.w, nominal.h) : (measured.bl_tr ?? measured.br_tl);
  // Of two lengths read with one instrument its own error drops out, whatever the lengths are.
  const twice = (instrument: Instrument, n: number) =>
    differenceUncertainty({ instrument, value: 0 }, { instrument, value: 0 }).U / Math.sqrt(n);
  switch (limit.of) {
    case 'diagonals':
      if (difference === undefined) return [];
      return [
        {
          value: Math.abs(difference),
          u: differenceU!,
          U: coverageFactor(differenceDof!) * differenceU!,
          size: diagonal,
          says: `difference of diagonals ${figure(Math.abs(difference))} mm`,
          expected: twice,
        },
      ];
    case 'opposite-sides':
      return (
        [
          ['top', 'bottom'],
          ['left', 'right'],
        ] as const
      ).flatMap(([a, b]): Figure[] => {
        if (measured[a] === undefined || measured[b] === undefined) return [];
        const both = Math.hypot(u[a]!, u[b]!);
        return [
          {
            value: Math.abs(measured[a] - measured[b]),
            u: both,
            U: 2 * both,
            size: nominal ? nominalOf(a, nominal) : measured[a],
            says: `${a} and ${b} differ by ${figure(Math.abs(measured[a] - measured[b]))} mm`,
            expected: twice,
          },
        ];
      });
    case 'corner-angle': {
      if (!angles || !anglesU) return [];
      return (['tl', 'tr', 'br', 'bl'] as const).map((corner) => ({
        value: angles[corner] - 90,
        u: anglesU[corner],
        U: 2 * anglesU[corner],
        size: diagonal,
        says: `corner ${corner} ${signed(angles[corner] - 90)} degrees from square`,
        expected: (instrument: Instrument, n: number) =>
          (2 * anglesU[corner] * twice(instrument, n)) / Math.max(1e-9, 2 * differenceU!),
      }));
    }
    case 'deviation':
      if (!nominal) return [];
      return SQUARE_KEYS.filter((key) => key !== 'bl_tr' && key !== 'br_tl').flatMap((key): Figure[] => {
        const value = measured[key];
        if (value === undefined) return [];
        const tool = options.toolOf(key) ?? ASSUMED;
        const { temperature } = options;
        const repeats = options.readings[key]!.map((r) => r.value);
        const full = readingUncertainty(tool, value, repeats, temperature);
        const correction = temperature ? temperatureCorrection(value, temperature.celsius) : 0;
        const off = tidy(value + correction - nominalOf(key, nominal));
        return [
          {
            value: off,
            u: full.u,
            U: full.U,
            size: nominalOf(key, nominal),
            says: `${LENGTH_NAMES[key]} ${signed(off)} mm from ${figure(nominalOf(key, nominal))}`,
            expected: (instrument, n) => expectedU(instrument, value, n, temperature),
          },
        ];
      });
    case 'value':
      return [];
  }
}

const WANTING: Readonly<Record<Limit['of'], string>> = {
  diagonals: 'both diagonals are needed',
  'opposite-sides': 'two opposite sides are needed',
  'corner-angle': 'four sides and two diagonals are needed',
  deviation: 'a nominal size and at least one side are needed',
  value: 'it is for single numbers',
};
/** What the readings lack for a limit. */
export const wanting = (limit: Limit): string => WANTING[limit.of];
