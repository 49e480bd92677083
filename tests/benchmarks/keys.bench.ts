/** From a key to its effect on the screen, in a real pseudo-terminal. */
import { floodSilence, keyLatency } from './keylatency.js';
import { atMost, ms, type Row, type Setting } from './rows.js';

export const title = 'Key to screen';
const SIZES = [
  [80, 24],
  [200, 60],
] as const;

export async function measure({ root }: Setting): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [columns, lines] of SIZES) {
    const { p50, p99 } = await keyLatency({ root, columns, rows: lines, keys: 300 });
    const at = `at ${columns} x ${lines}`;
    rows.push(
      { what: `key to screen ${at}, median`, figure: ms(p50), bar: 'under 8 ms', holds: p50 < 8 },
      { what: `key to screen ${at}, 99th percentile`, figure: ms(p99), bar: 'under 30 ms', holds: p99 < 30 },
    );
  }
  for (const [columns, lines] of SIZES) {
    const { silent, took, keys } = await floodSilence({ root, columns, rows: lines });
    const what = `${keys} keys at once at ${columns} x ${lines}: longest silence of the screen`;
    rows.push(atMost(what, silent, 200, 'ms', `, all taken in ${ms(took)}`));
  }
  return rows;
}
