/**
 * The terminal itself: raw keys in, painted frames out, and everything put back as it was on every way out. The frames come
 * from the terminal library, which is given a stream of ours: it writes each frame whole, and only what changed is sent on.
 */
import { EventEmitter } from 'node:events';
import { CLEAR, type CursorPlace, NOTHING_PAINTED, type Painted, paint } from './paint.js';
import type { Size } from './screens/layout.js';

/** Alternate screen, pastes marked as such, a cursor that does not blink. */
const ENTER = `\u001b[?1049h\u001b[?2004h\u001b[2 q${CLEAR}`;
const LEAVE = '\u001b[0m\u001b[?2004l\u001b[0 q\u001b[?25h\u001b[?1049l';

export interface Screen {
  readonly size: () => Size;
  /** The streams for the terminal library: the whole screen, and the entry line that stands in one row of it. */
  readonly page: FrameStream;
  readonly entry: FrameStream;
  /** Empties the screen; the next frame is drawn whole. */
  readonly clear: () => void;
  readonly leave: () => void;
}

/**
 * Takes over the terminal. `cursor` gives the place of the cursor for the frame being painted, `entryRow` the row of the
 * page that the entry line has.
 */
export function takeScreen(
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
  // A key may change the page and the entry line: both are drawn before either is sent.
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
      // The terminal may be gone already (hang-up): then there is nothing to put back.
      try {
        stdin.setRawMode(false);
      } catch {}
    },
  };
}

/** The page with the entry line in its row. */
function composed(page: string, entry: string, row: number | undefined): string {
  if (row === undefined) return page;
  const rows = page.split('\n');
  rows[row] = entry.split('\n')[0] ?? '';
  return rows.join('\n');
}

/** What the terminal library takes for its output. It is no terminal to it, so it writes frames and nothing else. */
export class FrameStream extends EventEmitter {
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

/** For the terminal library's input: no key ever comes from it, since every key is the reducer's. */
export class SilentInput extends EventEmitter {
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
