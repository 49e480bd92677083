/** Lines as rows of text. Each row re-renders only when its own text changes. */

import { Box, Text } from 'ink';
import SelectInput from 'ink-select-input';
import { memo } from 'react';
import widthOf from 'string-width';
import { withComma } from '../../base/figures.js';
import { sanitize } from '../../base/text.js';
import { localTimes } from '../../base/wallclock.js';
import { data, laid, type Spoken } from '../../base/words.js';
import type { Item } from '../screens/screen.js';
import { shape, type Theme, toneProps } from '../theme.js';
import type { BenchSay } from '../words/told.js';
import { crop, inAscii, type Line } from './line.js';

export interface RowsProps {
  readonly lines: readonly Line[];
  readonly theme: Theme;
  readonly width: number;
  /** Exact number of rows: short content is padded with blank rows, long content is cut. */
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
    // An empty row gets a height but no text: text is what makes rendering slow.
    if (row.length === 0) return <Box height={1} />;
    return (
      <Text wrap="truncate">
        {row.map(({ text, tone }, index) =>
          tone === undefined || tone === 'plain' || tone === 'quiet' ? (
            asRead(text, theme)
          ) : (
            // biome-ignore lint/suspicious/noArrayIndexKey: spans have no name but their place
            <Text key={index} {...toneProps(tone, theme)}>
              {asRead(text, theme)}
            </Text>
          ),
        )}
      </Text>
    );
  },
  (before, after) => before.theme === after.theme && sameLine(before.row, after.row),
);

/** Times of the wall and decimals of the language. */
function asRead(text: string, { zone, comma }: Theme): string {
  const timed = localTimes(text, zone, Date.now());
  return comma === true ? withComma(timed) : timed;
}

function sameLine(a: Line, b: Line): boolean {
  return (
    a === b ||
    (a.length === b.length &&
      a.every((span, index) => span.text === b[index]!.text && span.tone === b[index]!.tone))
  );
}

// ink-select-input only draws the list; the reducer owns the mark, so a burst of scanner keys never reaches a
// component, and the marked line is always the one chosen.

export interface MenuProps {
  readonly items: readonly Item[];
  readonly at: number;
  /** False while the arrows have marked nothing, and Enter would take nothing. */
  readonly marked: boolean;
  readonly width: number;
  readonly height: number;
  readonly theme: Theme;
  readonly say: BenchSay;
}

export const Menu = memo(function Menu(props: MenuProps) {
  const { width, height, theme } = props;
  const { rows, marked } = rowsOf(props);
  return (
    <Box flexDirection="column" width={width} height={height} flexShrink={0}>
      <SelectInput
        key={`${marked}/${rows.map(({ key }) => key).join('/')}`}
        items={rows}
        initialIndex={marked}
        isFocused={false}
        indicatorComponent={({ isSelected = false }) => (
          <Text>{isSelected ? (theme.ascii ? '> ' : '▸ ') : '  '}</Text>
        )}
        itemComponent={({ isSelected = false, label }) => (
          <Text {...(isSelected ? toneProps('mark', theme) : {})} wrap="truncate">
            {label}
          </Text>
        )}
      />
    </Box>
  );
});

/** The first row shown, chosen to keep the marked row in view with some rows around it. */
export function windowStart(count: number, at: number, height: number): number {
  if (count <= height) return 0;
  return Math.max(0, Math.min(count - height, at - Math.floor(height / 2)));
}

/** Long lists as plain rows: moving the mark recreates no component, so a full-height list costs no more than text. */
export function listLines(props: MenuProps): readonly Line[] {
  const { rows, marked } = rowsOf(props);
  return rows.map(({ label }, index) =>
    index === marked && props.marked
      ? [{ text: data(props.theme.ascii ? '> ' : '▸ ') }, { text: label, tone: 'mark' }]
      : [{ text: laid`  ${label}` }],
  );
}

interface ListRow {
  readonly key: string;
  readonly value: string;
  readonly label: Spoken;
}

/** The visible rows. If there are more above or below, the first or last one says how many. */
function rowsOf({ items, at, width, height, theme, say }: MenuProps): {
  readonly rows: ListRow[];
  readonly marked: number;
} {
  const first = windowStart(items.length, at, height);
  const shown = items.slice(first, first + height);
  const below = items.length - first - shown.length;
  const rows = shown.map((item, index): ListRow => {
    const more = [
      ...(index === 0 && first > 0 ? [`${theme.ascii ? '^' : '↑'} ${say('rows-more', { n: first })}`] : []),
      ...(index === shown.length - 1 && below > 0
        ? [`${theme.ascii ? 'v' : '↓'} ${say('rows-more', { n: below })}`]
        : []),
    ].join(' ');
    return { key: item.id, value: item.id, label: rowText(item, width - 2, theme, more) };
  });
  return { rows, marked: Math.max(0, Math.min(items.length - 1, at) - first) };
}

function rowText({ sign, text }: Item, width: number, theme: Theme, more: string): Spoken {
  const lead = sign === undefined ? '' : `${shape(sign, theme)} `;
  const room = Math.max(0, width - (more === '' ? 0 : widthOf(more) + 2));
  const own = cropped(sanitize(asRead(lead + text, theme)), room, theme);
  return more === ''
    ? own
    : cropped(`${own}${' '.repeat(Math.max(0, room - widthOf(own)))}  ${more}`, width, theme);
}

const cropped = (text: string, width: number, theme: Theme): Spoken =>
  data(
    crop([{ text: data(text) }], width, theme.ascii ? '~' : '…')
      .map((span) => span.text)
      .join(''),
  );
