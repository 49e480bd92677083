/** Lines as rows of text. Each row is drawn again only when its own text changed. */
import { Box, Text } from 'ink';
import { memo } from 'react';
import { type Theme, toneProps } from '../theme.js';
import { inAscii, type Line } from './line.js';

export interface RowsProps {
  readonly lines: readonly Line[];
  readonly theme: Theme;
  readonly width: number;
  /** Exactly so many rows: what is missing is blank, what is over is left off. */
  readonly height: number;
}

export function Rows({ lines, theme, width, height }: RowsProps) {
  const rows = Array.from({ length: height }, (_, index) => {
    const row = lines[index] ?? [];
    return theme.ascii ? inAscii(row, width) : row;
  });
  return (
    <Box flexDirection="column" width={width} height={height} flexShrink={0}>
      {rows.map((row, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place on the screen
        <Row key={index} row={row} theme={theme} />
      ))}
    </Box>
  );
}

const Row = memo(
  function Row({ row, theme }: { readonly row: Line; readonly theme: Theme }) {
    // An empty row is a height and no text: text is what drawing costs.
    if (row.length === 0) return <Box height={1} />;
    return (
      <Text wrap="truncate">
        {row.map(({ text, tone }, index) =>
          tone === undefined || tone === 'plain' || tone === 'quiet' ? (
            text
          ) : (
            // biome-ignore lint/suspicious/noArrayIndexKey: spans have no name but their place
            <Text key={index} {...toneProps(tone, theme)}>
              {text}
            </Text>
          ),
        )}
      </Text>
    );
  },
  (before, after) => before.theme === after.theme && sameLine(before.row, after.row),
);

function sameLine(a: Line, b: Line): boolean {
  return (
    a === b ||
    (a.length === b.length &&
      a.every((span, index) => span.text === b[index]!.text && span.tone === b[index]!.tone))
  );
}
