/** Runs the bench in a terminal until the user leaves. Loaded only when there is a terminal to draw on. */
import { Text } from 'ink';
import { Component, type ReactNode, useSyncExternalStore } from 'react';
import { type Problem, placeText } from '../base/problem.js';
import { data } from '../base/words.js';
import type { Ports } from '../session/ports.js';
import { App, cursorPlace, EntryLine, entryRow } from './app.js';
import { type Core, makeCore } from './loop.js';
import type { Note } from './state.js';
import { START } from './state.js';
import { runTerminal } from './terminal.js';
import type { Theme } from './theme.js';
import { problemSaid, told } from './words/told.js';

const TICK_MS = 5000;

export interface Ended {
  readonly code: number;
  /** Printed once the terminal is restored. */
  readonly text?: string;
}

export interface RunOptions {
  readonly theme: Theme;
  readonly unit?: string;
  /** Of the terminal: of whoever has chosen none. */
  readonly language: string;
  /** A problem found when opening the workshop, shown on the first screen. */
  readonly trouble?: Problem;
}

export async function runBench(ports: Ports, { theme, unit, language, trouble }: RunOptions): Promise<Ended> {
  const core = makeCore(ports, {
    ...START,
    terminal: language,
    ...(trouble ? { note: noteOn(trouble, language) } : {}),
  });
  ports.told?.((wanted) => (wanted === undefined ? core.news() : core.open(wanted)));
  if (unit !== undefined) core.open(unit);
  const staying = runTerminal({
    page: (size) => (
      <Guard core={core}>
        <App core={core} size={size} theme={theme} />
      </Guard>
    ),
    entry: (size) => (
      <Guard core={core}>
        <EntryLine core={core} size={size} theme={theme} />
      </Guard>
    ),
    entryRow,
    cursor: (size) => cursorPlace(core, size),
    feed: (chunk) => core.feed(chunk),
    quiet: () => core.quiet(),
    waits: () => core.waits(),
    left: () => core.state().left,
  });
  const ticking = setInterval(() => core.tick(), TICK_MS);
  const ending = await staying;
  clearInterval(ticking);
  ports.close();
  if (ending.how === 'left') return { code: 0 };
  if (ending.how === 'signal') return { code: ending.code };
  return {
    code: 3,
    text: told(core.world())('unexpected-end', {
      fault: String((ending.error as Error)?.message ?? ending.error),
    }),
  };
}

interface GuardProps {
  readonly core: Core;
  readonly children: ReactNode;
}

/** Renders again from the core's new state after each fault. */
function Guard({ core, children }: GuardProps) {
  const faults = useSyncExternalStore(core.subscribe, core.faults);
  return (
    <Boundary key={faults} core={core}>
      {children}
    </Boundary>
  );
}

class Boundary extends Component<GuardProps, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError() {
    return { failed: true };
  }

  override componentDidCatch(error: unknown): void {
    this.props.core.undrawable(error);
  }

  override render(): ReactNode {
    return this.state.failed ? (
      <Text>{told(this.props.core.world())('undrawable')}</Text>
    ) : (
      this.props.children
    );
  }
}

function noteOn(trouble: Problem, language: string): Note {
  const [said, todo] = problemSaid(trouble, { language });
  const text = trouble.place ? data(`${placeText(trouble.place)}: ${said}`) : said;
  return { tone: 'bad', text, todo };
}
