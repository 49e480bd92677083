/** What the measuring room promises, as shares over seeded simulated frames. */
import { simulateMeasuring } from '../measure/simulation.js';
import { atMost, type Row } from './rows.js';

export const title = 'Measuring, by simulation (seed 4711)';

export async function measure(): Promise<Row[]> {
  const result = simulateMeasuring({ seed: 4711, sets: 4000, slips: 3000, u: 0.289 });
  const percent = (share: number) => `${(100 * share).toFixed(2)} %`;
  return [
    {
      what: `misclosure alarm on ${result.honestSets} honest sets`,
      figure: percent(result.falseAlarms),
      bar: '5 ± 1 %',
      holds: Math.abs(result.falseAlarms - 0.05) <= 0.01,
    },
    {
      what: `single slips of 10 mm or more found, of ${result.slips}`,
      figure: percent(result.foundByBench),
      bar: 'at least 99 %',
      holds: result.foundByBench >= 0.99,
    },
    ...result.badPassed.map(({ rule, stated, share }) =>
      atMost(`frames on the limit that pass, ${rule}`, 100 * share, 100 * stated, '%'),
    ),
  ];
}
