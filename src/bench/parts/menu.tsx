/**
 * A list to choose from. ink-select-input draws it; where the mark stands is the reducer's to say, so a burst of keys from
 * a scanner never reaches a component and the line that is marked is the line that is chosen.
 */
import { Box, Text } from 'ink';
import SelectInput from 'ink-select-input';
import { memo } from 'react';
import { plain } from '../../ground/plain.js';
import type { Item } from '../lists.js';
import { shape, type Theme, toneProps } from '../theme.js';
import { crop, type Line } from './line.js';

export interface MenuProps {
  readonly items: readonly Item[];
  readonly at: number;
  readonly width: number;
  readonly height: number;
  readonly theme: Theme;
}

export const Menu = memo(function Menu({ items, at, width, height, theme }: MenuProps) {
  const first = windowStart(items.length, at, height);
  const shown = items.slice(first, first + height);
  const marked = Math.min(items.length - 1, at) - first;
  const rows = shown.map((item, index) => ({
    key: item.id,
    value: item.id,
    label: rowText(item, width - 2, theme),
    isMarked: index === marked,
  }));
  return (
    <Box flexDirection="column" width={width} height={height} flexShrink={0}>
      <SelectInput
        key={`${marked}/${rows.map(({ key }) => key).join('/')}`}
        items={rows}
        initialIndex={Math.max(0, marked)}
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

/** The first row shown, so that the marked one is in the window with some rows about it. */
export function windowStart(count: number, at: number, height: number): number {
  if (count <= height) return 0;
  return Math.max(0, Math.min(count - height, at - Math.floor(height / 2)));
}

/**
 * Long lists (units, steps) as plain rows: what is marked moves without anything being made anew, so that a list as high
 * as the terminal costs no more than any text.
 */
export function listLines({ items, at, width, height, theme }: MenuProps): readonly Line[] {
  const first = windowStart(items.length, at, height);
  const marked = Math.min(items.length - 1, at) - first;
  return items.slice(first, first + height).map((item, index) => {
    const text = rowText(item, width - 2, theme);
    return index === marked
      ? [{ text: theme.ascii ? '> ' : '▸ ' }, { text, tone: 'mark' }]
      : [{ text: `  ${text}` }];
  });
}

function rowText({ sign, text }: Item, width: number, theme: Theme): string {
  const lead = sign === undefined ? '' : `${shape(sign, theme)} `;
  return crop([{ text: plain(lead + text) }], width, theme.ascii ? '~' : '…')
    .map((span) => span.text)
    .join('');
}
