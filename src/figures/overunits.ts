/** Readings of many units put together, each thing measured as a series in the order in which it was read. */
import type { Limits } from './capability.js';
import type { Kind, UnitReading } from './readings.js';
import type { UnitFigures } from './unitfigures.js';

export interface SeriesReading extends Omit<UnitReading, 'kind'> {
  readonly job: string;
  readonly unit: string;
}

export interface Series extends Kind {
  readonly readings: readonly SeriesReading[];
}

/** @param counts whether a reading of that unit is asked for */
export function seriesOf(
  units: readonly UnitFigures[],
  counts: (measured: UnitReading, unit: UnitFigures) => boolean = () => true,
): Map<string, Series> {
  const found = new Map<string, Kind & { readings: SeriesReading[] }>();
  for (const unit of units)
    for (const measured of unit.measured) {
      if (!counts(measured, unit)) continue;
      const { kind, ...rest } = measured;
      const series = found.get(kind.key) ?? { ...kind, readings: [] };
      found.set(kind.key, series);
      series.readings.push({ job: unit.job, unit: unit.unit, ...rest });
    }
  for (const { readings } of found.values())
    readings.sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  return found;
}

/** Lots that the unit had named by then. */
export const lotsBy = ({ lots }: UnitFigures, at: string): readonly string[] =>
  lots.filter((lot) => lot.at <= at).map(({ code }) => code);

/** The limits that every reading of it was held to; none where they were not the same. */
export function commonLimits({ readings }: Pick<Series, 'readings'>): Limits {
  const last = readings.at(-1);
  const alike = readings.every(({ low, high }) => low === last?.low && high === last?.high);
  return last && alike ? { low: last.low, high: last.high } : {};
}
