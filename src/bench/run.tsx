/** The bench in a terminal, from the first frame until it is left. Loaded only when there is a terminal to draw on. */
import type { Problem } from '../ground/problem.js';
import { LOOK_MS } from '../store/glance.js';
import { App, cursorPlace, EntryLine, entryRow } from './app.js';
import { makeCore } from './core.js';
import type { Ports } from './ports.js';
import { stayAtTerminal } from './session.js';
import { START } from './state.js';
import type { Theme } from './theme.js';

const TICK_MS = 5000;
/** So long after a key, if no other comes, it is worked out what the next one may answer. */
const AFTER_MS = 10;

export interface Ended {
  readonly code: number;
  /** To be said once the terminal is as it was. */
  readonly text?: string;
}

export interface RunOptions {
  readonly theme: Theme;
  readonly unit?: string;
  /** What was found amiss when the workshop was opened; said on the first screen. */
  readonly trouble?: Problem;
}

export async function runBench(ports: Ports, { theme, unit, trouble }: RunOptions): Promise<Ended> {
  const core = makeCore(
    ports,
    trouble ? { ...START, note: { tone: 'bad', text: trouble.text, todo: trouble.todo } } : START,
  );
  if (unit !== undefined) core.open(unit);
  // Once the first frame stands, what opening a unit needs is read while nothing else is to be done.
  let reading: NodeJS.Timeout | undefined;
  const ahead = (): void => {
    if (ports.readAhead?.()) reading = setTimeout(ahead, 20);
  };
  let thinking: NodeJS.Timeout | undefined;
  const soon = (): void => {
    clearTimeout(thinking);
    thinking = setTimeout(() => core.foresee(), AFTER_MS);
  };
  const staying = stayAtTerminal({
    page: (size) => <App core={core} size={size} theme={theme} />,
    entry: (size) => <EntryLine core={core} size={size} theme={theme} />,
    entryRow,
    cursor: (size) => cursorPlace(core, size),
    feed: (chunk) => {
      core.feed(chunk);
      soon();
    },
    quiet: () => core.quiet(),
    waits: () => core.waits(),
    left: () => core.state().left,
  });
  reading = setTimeout(ahead, 100);
  const ticking = setInterval(() => {
    core.tick();
    core.foresee();
  }, TICK_MS);
  // Twice as often, so that what was seen is never older.
  const looking = setInterval(() => ports.lookAround?.(), LOOK_MS / 2);
  const ending = await staying;
  clearInterval(ticking);
  clearInterval(looking);
  clearTimeout(reading);
  clearTimeout(thinking);
  ports.close();
  if (ending.how === 'left') return { code: 0 };
  if (ending.how === 'signal') return { code: ending.code };
  return {
    code: 3,
    text: `The bench met something it did not expect: ${String((ending.error as Error)?.message ?? ending.error)} [bench.unexpected]\n  Nothing that was acknowledged is lost; start it again and it stands at the same check.`,
  };
}
