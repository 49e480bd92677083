/** The bench in a terminal, from the first frame until it is left. Loaded only when there is a terminal to draw on. */
import { render } from 'ink';
import type { Problem } from '../ground/problem.js';
import { App, cursorPlace, EntryLine, entryRow } from './app.js';
import { makeCore } from './core.js';
import type { Ports } from './ports.js';
import { START } from './state.js';
import { FrameStream, SilentInput, takeScreen } from './terminal.js';
import type { Theme } from './theme.js';

/** Ended by a signal: the shell's 128 + its number. */
const SIGNALS = { SIGTERM: 143, SIGHUP: 129, SIGINT: 130 } as const;
/** After an unfinished escape sequence the line counts as quiet so long after, ms. */
const QUIET_MS = 50;
const TICK_MS = 5000;

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

export function runBench(ports: Ports, { theme, unit, trouble }: RunOptions): Promise<Ended> {
  const { stdin, stdout } = process;
  const core = makeCore(
    ports,
    trouble ? { ...START, note: { tone: 'bad', text: trouble.text, todo: trouble.todo } } : START,
  );
  const screen = takeScreen(stdin, stdout, (size) => cursorPlace(core, size), entryRow);
  if (unit !== undefined) core.open(unit);

  const instances = ([screen.page, screen.entry] as const).map((stream) => {
    const Part = stream === screen.page ? App : EntryLine;
    const tree = () => <Part core={core} size={screen.size()} theme={theme} />;
    const instance = render(tree(), {
      stdout: stream as unknown as NodeJS.WriteStream,
      stdin: new SilentInput() as unknown as NodeJS.ReadStream,
      stderr: new FrameStream(screen.size, () => {}) as unknown as NodeJS.WriteStream,
      // Each frame whole and at once: what changed in it is worked out in paint.ts. (The library's own incremental
      // drawing puts rows one too low when the frame does not fill the terminal.)
      debug: true,
      exitOnCtrlC: false,
      patchConsole: false,
    });
    return { redraw: () => instance.rerender(tree()), unmount: () => instance.unmount() };
  });

  return new Promise<Ended>((resolve) => {
    let quiet: NodeJS.Timeout | undefined;
    // Once the first frame stands, what opening a unit needs is read while nothing else is to be done.
    let reading: NodeJS.Timeout | undefined;
    const ahead = (): void => {
      if (ports.readAhead?.()) reading = setTimeout(ahead, 20);
    };
    reading = setTimeout(ahead, 100);
    const onData = (chunk: Buffer): void => {
      clearTimeout(quiet);
      core.feed(chunk);
      if (core.state().left) end({ code: 0 });
      else if (core.waits()) quiet = setTimeout(() => core.quiet(), QUIET_MS);
    };
    const redraw = (): void => {
      screen.clear();
      for (const each of instances) each.redraw();
    };
    const onContinue = (): void => {
      stdin.setRawMode(true);
      redraw();
    };
    const ticking = setInterval(() => core.tick(), TICK_MS);
    const onGone = (): void => end({ code: SIGNALS.SIGHUP });
    const onFault = (error: unknown): void =>
      end({
        code: 3,
        text: `The bench met something it did not expect: ${String((error as Error)?.message ?? error)} [bench.unexpected]\n  Nothing that was acknowledged is lost; start it again and it stands at the same check.`,
      });
    const signals = Object.entries(SIGNALS).map(([signal, code]) => [signal, () => end({ code })] as const);
    // Whatever ends the process without asking still gives the terminal back.
    const onExit = (): void => screen.leave();

    function end(ended: Ended): void {
      clearInterval(ticking);
      clearTimeout(quiet);
      clearTimeout(reading);
      for (const [signal, handler] of signals) process.off(signal, handler);
      process.off('SIGCONT', onContinue);
      process.off('uncaughtException', onFault);
      process.off('exit', onExit);
      stdout.off('resize', redraw);
      stdin.off('data', onData);
      stdin.off('end', onGone);
      stdin.off('error', onGone);
      stdin.pause();
      screen.leave();
      for (const each of instances) each.unmount();
      ports.close();
      resolve(ended);
    }

    for (const [signal, handler] of signals) process.on(signal, handler);
    process.on('SIGCONT', onContinue);
    process.on('uncaughtException', onFault);
    process.on('exit', onExit);
    stdout.on('resize', redraw);
    stdin.on('data', onData);
    stdin.on('end', onGone);
    stdin.on('error', onGone);
    stdin.resume();
  });
}
