/** The bench on the screen: draws what the store holds. It decides nothing and keeps nothing. */
import { Box, Text } from 'ink';
import { memo, useMemo, useSyncExternalStore } from 'react';
import type { World } from '../session/ports.js';
import type { Core } from './core.js';
import { listOf } from './lists.js';
import { drawingLines } from './parts/drawing.js';
import { entryLine, footerLine, noteLines } from './parts/footer.js';
import { headerLines } from './parts/header.js';
import { type Line, line, scrolled } from './parts/line.js';
import { listLines, Menu } from './parts/menu.js';
import { Rows } from './parts/rows.js';
import { handoverLines } from './screens/handover.js';
import { type Layout, LEAST, layoutOf, type Size } from './screens/layout.js';
import { measuredLines, pictureColumns, pictureLines } from './screens/measured.js';
import { formLines, helpLines, leaveLines, questionLines, releaseLines, whyLines } from './screens/pages.js';
import { spotOf, stepView } from './screens/step.js';
import { overviewLines } from './screens/unit.js';
import type { BenchState } from './state.js';
import type { Theme } from './theme.js';

export interface AppProps {
  readonly core: Core;
  readonly size: Size;
  readonly theme: Theme;
}

export function App({ core, size, theme }: AppProps) {
  useSyncExternalStore(core.subscribe, core.pageVersion);
  const { columns, rows } = size;
  const layout = useMemo(() => layoutOf({ columns, rows }), [columns, rows]);
  if (columns < LEAST.columns || rows < LEAST.rows) return <TooSmall size={size} />;
  const state = core.state();
  const world = core.world();
  const { width } = layout;
  return (
    <Box flexDirection="column" width={width} height={layout.height}>
      <Rows
        lines={headerLines(state, world, width, theme)}
        theme={theme}
        width={width}
        height={layout.header}
      />
      <Body state={state} world={world} layout={layout} theme={theme} />
      <Rows
        lines={bottomLines(state, world, layout, theme)}
        theme={theme}
        width={width}
        height={layout.notes + 3}
      />
    </Box>
  );
}

/** The entry line, drawn by itself: a key typed into it draws one row, not the screen (95 of 100 keys in 4.5 ms, not 66, at 200 x 60). */
export function EntryLine({ core, size, theme }: AppProps) {
  useSyncExternalStore(core.subscribe, core.version);
  const row = entryRow(size);
  if (row === undefined) return null;
  const { width } = layoutOf(size);
  return (
    <Rows
      lines={[entryLine(core.state(), core.world(), width).line]}
      theme={theme}
      width={width}
      height={1}
    />
  );
}

/** The screen's row that the entry line has, from 0; none where the terminal is too small. */
export function entryRow(size: Size): number | undefined {
  return size.columns < LEAST.columns || size.rows < LEAST.rows ? undefined : layoutOf(size).height - 2;
}

/** Where the entry line's cursor stands, from the top left of the screen; nowhere, where the line cannot be drawn either. */
export function cursorPlace(core: Core, size: Size): { readonly x: number; readonly y: number } | undefined {
  const row = entryRow(size);
  if (row === undefined) return undefined;
  try {
    return { x: entryLine(core.state(), core.world(), layoutOf(size).width).cursor, y: row };
  } catch {
    return undefined;
  }
}

interface RegionProps {
  readonly state: BenchState;
  readonly world: World;
  readonly layout: Layout;
  readonly theme: Theme;
}

function bottomLines(state: BenchState, world: World, { width }: Layout, theme: Theme): readonly Line[] {
  return [
    line((theme.ascii ? '-' : '─').repeat(width)),
    ...noteLines(state, width, theme),
    // The entry line's row: EntryLine draws it.
    [],
    footerLine(state, world, width, theme),
  ];
}

function Body({ state, world, layout, theme }: RegionProps) {
  const { width, body, drawing } = layout;
  const { screen } = state;
  if (screen.name === 'step' || screen.name === 'unit') {
    const left = width - drawing - (drawing > 0 ? 1 : 0);
    const view =
      screen.name === 'step'
        ? stepView(state, world, left, body, theme)
        : {
            lines: overviewLines(world, left, theme),
            menu: Math.max(3, body - overviewLines(world, left, theme).length),
          };
    const { spot, item } =
      screen.name === 'step' ? spotOf(state, world) : { spot: undefined, item: undefined };
    return (
      <Box width={width} height={body} flexShrink={0}>
        <Pane
          lines={view.lines}
          menu={view.menu}
          state={state}
          world={world}
          width={left}
          height={body}
          theme={theme}
        />
        {drawing > 0 && world.open ? (
          <Drawing world={world} spot={spot} item={item} width={drawing} height={body} theme={theme} />
        ) : null}
      </Box>
    );
  }
  if (screen.name === 'measured')
    return <Picture world={world} from={screen.cursor.at} width={width} height={body} theme={theme} />;
  const lines = pageLines(state, world, width);
  const list = ['help', 'why', 'handover', 'release', 'question', 'leave'].includes(screen.name)
    ? 0
    : body - lines.length;
  const from =
    screen.name === 'help' || screen.name === 'why' || screen.name === 'handover'
      ? Math.min(screen.cursor.at, Math.max(0, lines.length - body))
      : 0;
  return (
    <Pane
      lines={lines.slice(from)}
      menu={Math.max(0, list)}
      state={state}
      world={world}
      width={width}
      height={body}
      theme={theme}
    />
  );
}

interface PaneProps {
  readonly lines: readonly Line[];
  /** Rows for the list under the lines. */
  readonly menu: number;
  readonly state: BenchState;
  readonly world: World;
  readonly width: number;
  readonly height: number;
  readonly theme: Theme;
}

/** Lists that grow with the workshop; the others are menus. */
const LONG: ReadonlySet<string> = new Set([
  'units',
  'stages',
  'unit',
  'steps',
  'people',
  'instruments',
  'snags',
  'setups',
]);

function Pane({ lines, menu, state, world, width, height, theme }: PaneProps) {
  const rows = Math.min(menu, height);
  const items = rows > 0 ? listOf(state, world) : [];
  const shown = items.length === 0 ? 0 : rows;
  const isLong = LONG.has(state.screen.name);
  return (
    <Box flexDirection="column" width={width} height={height} flexShrink={0}>
      <Rows lines={lines} theme={theme} width={width} height={Math.min(lines.length, height - shown)} />
      {shown > 0 && isLong ? (
        <Rows
          lines={listLines({ items, at: state.screen.cursor.at, width, height: shown, theme })}
          theme={theme}
          width={width}
          height={shown}
        />
      ) : null}
      {shown > 0 && !isLong ? (
        <Menu items={items} at={state.screen.cursor.at} width={width} height={shown} theme={theme} />
      ) : null}
    </Box>
  );
}

function pageLines(state: BenchState, world: World, width: number): readonly Line[] {
  const { screen } = state;
  switch (screen.name) {
    case 'help':
      return helpLines(width);
    case 'handover':
      return handoverLines(world, width);
    case 'why':
      return whyLines(state, world, width);
    case 'release':
      return releaseLines(state, screen, world, width);
    case 'question':
      return questionLines(screen, width);
    case 'leave':
      return leaveLines(world, width);
    case 'form':
      return formLines(state, screen, world, width);
    default:
      return [line(` ${TITLES[screen.name]}`, 'strong')];
  }
}

interface PictureProps {
  readonly world: World;
  /** First line of the text that is shown. */
  readonly from: number;
  readonly width: number;
  readonly height: number;
  readonly theme: Theme;
}

function Picture({ world, from, width, height, theme }: PictureProps) {
  const columns = pictureColumns(width);
  const left = width - columns - (columns > 0 ? 1 : 0);
  return (
    <Box width={width} height={height} flexShrink={0}>
      <Rows
        lines={scrolled(measuredLines(world, left, theme), from, height)}
        theme={theme}
        width={left}
        height={height}
      />
      {columns > 0 ? (
        <Box marginLeft={1}>
          <Rows
            lines={pictureLines(world, columns, height, theme)}
            theme={theme}
            width={columns}
            height={height}
          />
        </Box>
      ) : null}
    </Box>
  );
}

const TITLES = {
  units: 'Units: scan one, type a part of its name, or choose',
  stages: 'Steps open across units: choosing one takes it over its units in turn',
  steps: 'Steps of this unit',
  people: 'Who is at the bench?',
  instruments: 'Which instrument is in hand?',
  menu: 'What the keys do: choose one, or press its key',
  snags: 'Snags of this unit',
  setups: 'Set-ups: proven on first-off pieces before work rests on them. Choose one',
  step: '',
  unit: '',
  measured: '',
} as const;

interface DrawingProps {
  readonly world: World;
  readonly spot: ReturnType<typeof spotOf>['spot'] | undefined;
  readonly item: string | undefined;
  readonly width: number;
  readonly height: number;
  readonly theme: Theme;
}

const Drawing = memo(
  function Drawing({ world, spot, item, width, height, theme }: DrawingProps) {
    const { setOut } = world.open!;
    const lines = drawingLines(setOut, {
      columns: width,
      rows: height,
      theme,
      spot,
      item,
      triangles: world.rules.openingTriangle,
    });
    return (
      <Box marginLeft={1}>
        <Rows lines={lines} theme={theme} width={width} height={height} />
      </Box>
    );
  },
  (a, b) =>
    a.world.open?.setOut === b.world.open?.setOut &&
    a.spot === b.spot &&
    a.item === b.item &&
    a.width === b.width &&
    a.height === b.height &&
    a.theme === b.theme,
);

function TooSmall({ size }: { readonly size: Size }) {
  return (
    <Text>
      {`The bench needs ${LEAST.columns} x ${LEAST.rows}; this is ${size.columns} x ${size.rows}. Make the window larger.`}
    </Text>
  );
}
