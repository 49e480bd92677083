/** From a key to its effect on the screen, in a real pseudo-terminal, beside a bare program of the same library. */
import { join } from 'node:path';
import { bundleBareInk } from './bareink.js';
import { floodSilence, keyLatency } from './keylatency.js';
import { atMost, ms, type Row, type Setting } from './rows.js';

export const title = 'Key to screen';

export async function measure({ root, scratch }: Setting): Promise<Row[]> {
  const rows: Row[] = [];
  const bench = await keyLatency({ root, columns: 100, rows: 30, keys: 300 });
  rows.push(
    { what: 'bench at 100 x 30, median', figure: ms(bench.p50), bar: 'under 20 ms', holds: bench.p50 < 20 },
    {
      what: 'bench at 100 x 30, 99th percentile',
      figure: ms(bench.p99),
      bar: 'under 45 ms',
      holds: bench.p99 < 45,
    },
  );
  const bare = await bareProgram(root, scratch);
  for (const [columns, lines] of [
    [80, 24],
    [200, 60],
  ] as const) {
    const other = await keyLatency({
      root,
      command: [process.execPath, bare],
      columns,
      rows: lines,
      keys: 300,
      prepare: [],
    });
    const own = await keyLatency({ root, columns, rows: lines, keys: 300 });
    const at = `at ${columns} x ${lines}`;
    rows.push(
      atMost(
        `bench ${at}, median`,
        own.p50 / other.p50,
        1.5,
        'x bare',
        ` (${ms(own.p50)} to ${ms(other.p50)})`,
      ),
      atMost(
        `bench ${at}, 99th percentile`,
        own.p99 / other.p99,
        1.5,
        'x bare',
        ` (${ms(own.p99)} to ${ms(other.p99)})`,
      ),
    );
  }
  for (const [columns, lines] of [
    [80, 24],
    [200, 60],
  ] as const) {
    const { silent, took, keys } = await floodSilence({ root, columns, rows: lines });
    const what = `${keys} keys at once at ${columns} x ${lines}: longest silence of the screen`;
    rows.push(atMost(what, silent, 200, 'ms', `, all taken in ${ms(took)}`));
  }
  return rows;
}

/** Shows as many lines as the terminal has, the last of them what was typed. */
function bareProgram(root: string, scratch: string): Promise<string> {
  return bundleBareInk(
    root,
    `import { Box, render, Text, useInput } from 'ink';
import React, { useState } from 'react';
function App() {
  const [typed, setTyped] = useState('');
  useInput((text, key) => setTyped((was) => (key.backspace || key.delete ? was.slice(0, -1) : was + text)));
  const lines = Array.from({ length: process.stdout.rows - 2 }, (_, i) => <Text key={i}>{'line ' + i + ' of a bare program'}</Text>);
  return <Box flexDirection="column">{lines}<Text>{'> ' + typed}</Text></Box>;
}
render(<App />, { incrementalRendering: true, patchConsole: false });
`,
    join(scratch, 'bare-screen.mjs'),
  );
}
