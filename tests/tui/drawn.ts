import { layoutOf } from '../../src/tui/app.js';
import type { Core } from '../../src/tui/loop.js';
import { entryLine, footerLine, headerLines, noteLines } from '../../src/tui/parts/bars.js';
import { drawingLines } from '../../src/tui/parts/drawing.js';
import type { Line } from '../../src/tui/parts/line.js';
import { listLines } from '../../src/tui/parts/rows.js';
import { formLines } from '../../src/tui/screens/form.js';
import { helpLines } from '../../src/tui/screens/help.js';
import { listsScreen } from '../../src/tui/screens/lists.js';
import { measuredLines, pictureColumns, pictureLines } from '../../src/tui/screens/measured.js';
import { leaveLines, questionLines } from '../../src/tui/screens/question.js';
import { releaseLines } from '../../src/tui/screens/release.js';
import { listOf } from '../../src/tui/screens/screens.js';
import { handoverLines } from '../../src/tui/screens/stages.js';
import { spotOf, stepView } from '../../src/tui/screens/step.js';
import { overviewLines } from '../../src/tui/screens/unit.js';
import { whyScreenLines } from '../../src/tui/screens/why.js';
import type { Size } from '../../src/tui/terminal.js';
import type { Theme } from '../../src/tui/theme.js';
import { told } from '../../src/tui/words/told.js';

const THEME: Theme = { colours: 'none', ascii: false };

export function drawnText(core: Core, size: Size): string {
  const state = core.state();
  const world = core.world();
  const { width, body, drawing } = layoutOf(size);
  const items = listOf(state, world);
  const lines: readonly Line[] = [
    ...headerLines(state, world, width, THEME),
    ...page(core, width, body),
    ...listLines({
      items,
      marked: true,
      at: state.screen.cursor.at,
      width,
      height: body,
      theme: THEME,
      say: told(world),
    }),
    ...(world.open && state.screen.name === 'step' && drawing > 0
      ? drawingLines(world.open.setOut, {
          columns: drawing,
          rows: body,
          theme: THEME,
          ...spotOf(state, world),
          triangles: world.rules.openingTriangle,
          caption: told(world)('seen-outside'),
        })
      : []),
    ...noteLines(state, world, width, THEME),
    entryLine(state, world, width).line,
    footerLine(state, world, width, THEME),
  ];
  return lines.map((line) => line.map(({ text }) => text).join('')).join('\n');
}

function page(core: Core, width: number, body: number): readonly Line[] {
  const state = core.state();
  const world = core.world();
  const { screen } = state;
  switch (screen.name) {
    case 'step':
      return stepView(state, world, width, body, THEME).lines;
    case 'unit':
      return overviewLines(world, width, THEME);
    case 'measured':
      return [
        ...measuredLines(world, width, THEME),
        ...pictureLines(world, Math.max(20, pictureColumns(width)), body, THEME),
      ];
    case 'help':
      return helpLines(width, THEME, told(world));
    case 'handover':
      return handoverLines(world, width);
    case 'why':
      return whyScreenLines(state, world, width);
    case 'release':
      return releaseLines(state, screen, world, width);
    case 'question':
      return questionLines(screen, width, told(world));
    case 'leave':
      return leaveLines(world, width);
    case 'form':
      return formLines(state, screen, world, width, body);
    case 'lists':
      return listsScreen.lines!(state, screen, world, width, THEME, body);
    default:
      return [];
  }
}
