/**
 * Raw keys in, painted frames out; every exit restores the terminal. The terminal library writes whole frames to
 * streams of ours; only the changes are sent on.
 */
import { EventEmitter } from 'node:events';
import { render } from 'ink';
import type { ReactElement } from 'react';
import { CLEAR, type CursorPlace, NOTHING_PAINTED, type Painted, paint } from './paint.js';

/** Alternate screen, bracketed paste, non-blinking cursor. */
const ENTER = `\u001b[?1049h\u001b[?2004h\u001b[2 q${CLEAR}`;
const LEAVE = '\u001b[0m\u001b[?2004l\u001b[0 q\u001b[?25h\u001b[?1049l';

interface Screen {
  readonly size: () => Size;
  readonly page: FrameStream;
  readonly entry: FrameStream;
  /** Clears the screen; the next frame is drawn in full. */
  readonly clear: () => void;
  readonly leave: () => void;
}

/** Takes over the terminal. `cursor` locates the cursor for the frame being painted, `entryRow` the entry line. */
function takeScreen(
  stdin: NodeJS.ReadStream,
  stdout: NodeJS.WriteStream,
  cursor: (size: Size) => CursorPlace | undefined,
  entryRow: (size: Size) => number | undefined,
): Screen {
  let painted: Painted = NOTHING_PAINTED;
  let taken = true;
  const size = (): Size => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 });
  let page = '';
  let entry = '';
  let due = false;
  const draw = (): void => {
    due = false;
    if (!taken) return;
    const result = paint(painted, composed(page, entry, entryRow(size())), cursor(size()));
    painted = result.painted;
    if (result.bytes !== '') stdout.write(result.bytes);
  };
  // A key may change both the page and the entry line: let both render before painting.
  const soon = (): void => {
    if (!due) queueMicrotask(draw);
    due = true;
  };
  const pageStream = new FrameStream(size, (frame) => {
    page = frame;
    soon();
  });
  const entryStream = new FrameStream(size, (frame) => {
    entry = frame;
    soon();
  });
  stdin.setRawMode(true);
  stdout.write(ENTER);
  return {
    size,
    page: pageStream,
    entry: entryStream,
    clear() {
      painted = NOTHING_PAINTED;
      if (taken) stdout.write(CLEAR);
    },
    leave() {
      if (!taken) return;
      taken = false;
      stdout.write(LEAVE);
      // After a hang-up there is no terminal left to restore.
      try {
        stdin.setRawMode(false);
      } catch {}
    },
  };
}

/** The page with the entry line inserted at its row. */
function composed(page: string, entry: string, row: number | undefined): string {
  if (row === undefined) return page;
  const rows = page.split('\n');
  rows[row] = entry.split('\n')[0] ?? '';
  return rows.join('\n');
}

/** Output stream for the terminal library. Not a TTY, so the library writes frames and nothing else. */
class FrameStream extends EventEmitter {
  readonly isTTY = false;
  readonly #size: () => Size;
  readonly #take: (frame: string) => void;
  constructor(size: () => Size, take: (frame: string) => void) {
    super();
    this.#size = size;
    this.#take = take;
  }
  get columns(): number {
    return this.#size().columns;
  }
  get rows(): number {
    return this.#size().rows;
  }
  write(frame: string): boolean {
    this.#take(frame);
    return true;
  }
}

/** Input stream for the terminal library. Never emits a key, since all keys go to the reducer. */
class SilentInput extends EventEmitter {
  readonly isTTY = true;
  setRawMode(): this {
    return this;
  }
  setEncoding(): this {
    return this;
  }
  ref(): this {
    return this;
  }
  unref(): this {
    return this;
  }
  resume(): this {
    return this;
  }
  pause(): this {
    return this;
  }
  read(): null {
    return null;
  }
}

/** Exit codes for signals: 128 + the signal number, as in a shell. */
const SIGNALS = { SIGTERM: 143, SIGHUP: 129, SIGINT: 130 } as const;

/** Milliseconds without input after which an unfinished escape sequence is flushed. */
const QUIET_MS = 50;

/** Most input bytes handled between two redraws. */
const AT_ONCE = 256;

export interface TerminalApp {
  readonly page: (size: Size) => ReactElement;
  /** A row rendered separately while typing; absent if the page includes it. */
  readonly entry?: (size: Size) => ReactElement;
  readonly entryRow?: (size: Size) => number | undefined;
  readonly cursor: (size: Size) => CursorPlace | undefined;
  feed(chunk: Uint8Array): void;
  /** No more input followed an unfinished sequence; called only if `waits` is true. */
  quiet(): void;
  waits(): boolean;
  left(): boolean;
  /** The trees do not update themselves: re-render after every input. */
  readonly drawn?: boolean;
}

export type TerminalExit =
  | { readonly how: 'left' }
  /** The shell's exit code for the signal; SIGHUP's if the terminal is gone. */
  | { readonly how: 'signal'; readonly code: number }
  | { readonly how: 'fault'; readonly error: unknown };

export function runTerminal(stay: TerminalApp): Promise<TerminalExit> {
  const { stdin, stdout } = process;
  // Runtime and library warnings would be written across the screen.
  const aloud = process.rawListeners('warning');
  process.removeAllListeners('warning');
  const screen = takeScreen(stdin, stdout, stay.cursor, stay.entryRow ?? (() => undefined));
  const parts = [
    [screen.page, stay.page] as const,
    ...(stay.entry ? [[screen.entry, stay.entry] as const] : []),
  ];
  const instances = parts.map(([stream, part]) => {
    const instance = render(part(screen.size()), {
      stdout: stream as unknown as NodeJS.WriteStream,
      stdin: new SilentInput() as unknown as NodeJS.ReadStream,
      stderr: new FrameStream(screen.size, () => {}) as unknown as NodeJS.WriteStream,
      // Each frame whole and at once; paint.ts works out the changes. (The library's own incremental drawing puts rows
      // one too low when the frame does not fill the terminal.)
      debug: true,
      exitOnCtrlC: false,
      patchConsole: false,
    });
    return { draw: () => instance.rerender(part(screen.size())), unmount: () => instance.unmount() };
  });
  const draw = (): void => {
    for (const each of instances) each.draw();
  };

  return new Promise<TerminalExit>((resolve) => {
    let quiet: NodeJS.Timeout | undefined;
    let ended = false;
    const taken = (take: () => void): void => {
      try {
        take();
      } catch (error) {
        end({ how: 'fault', error });
        return;
      }
      if (stay.left()) end({ how: 'left' });
      else if (stay.drawn) draw();
    };
    // Process large bursts in pieces, redrawing in between.
    const waiting: Buffer[] = [];
    const onData = (chunk: Buffer): void => {
      clearTimeout(quiet);
      const idle = waiting.length === 0;
      for (let from = 0; from < chunk.length; from += AT_ONCE)
        waiting.push(chunk.subarray(from, from + AT_ONCE));
      if (idle) takeNext();
    };
    const takeNext = (): void => {
      const piece = waiting[0];
      if (ended || !piece) return;
      taken(() => stay.feed(piece));
      waiting.shift();
      if (ended) return;
      if (waiting.length > 0) setImmediate(takeNext);
      else if (stay.waits()) quiet = setTimeout(() => taken(() => stay.quiet()), QUIET_MS);
    };
    const redraw = (): void => {
      screen.clear();
      draw();
    };
    const onContinue = (): void => {
      stdin.setRawMode(true);
      redraw();
    };
    const onGone = (): void => end({ how: 'signal', code: SIGNALS.SIGHUP });
    const onFault = (error: unknown): void => end({ how: 'fault', error });
    // Restores the terminal even if the process exits some other way.
    const onExit = (): void => screen.leave();
    /** Registered until the end, then all removed. */
    const listeners: readonly (readonly [EventEmitter, string, (...args: never[]) => void])[] = [
      ...Object.entries(SIGNALS).map(
        ([signal, code]) => [process, signal, () => end({ how: 'signal', code })] as const,
      ),
      [process, 'SIGCONT', onContinue],
      [process, 'uncaughtException', onFault],
      [process, 'exit', onExit],
      [stdout, 'resize', redraw],
      // Either stream may report that the terminal is gone.
      [stdout, 'error', onGone],
      [stdin, 'data', onData],
      [stdin, 'end', onGone],
      [stdin, 'error', onGone],
    ];

    function end(ending: TerminalExit): void {
      if (ended) return;
      ended = true;
      clearTimeout(quiet);
      for (const [from, event, listener] of listeners) from.off(event, listener as () => void);
      // If the terminal is gone, further writes fail and there is nobody to tell.
      stdout.on('error', () => {});
      stdin.pause();
      screen.leave();
      for (const each of aloud) process.on('warning', each as NodeJS.WarningListener);
      for (const each of instances) each.unmount();
      resolve(ending);
    }

    for (const [from, event, listener] of listeners) from.on(event, listener as () => void);
    stdin.resume();
  });
}

/** Sizes of the screen regions. One terminal row stays unused so that nothing ever scrolls. */
export interface Size {
  readonly columns: number;
  readonly rows: number;
}
