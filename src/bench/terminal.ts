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
  /** The stream for the terminal library. */
  readonly frames: FrameStream;
  /** Empties the screen; the next frame is drawn whole. */
  readonly clear: () => void;
  readonly leave: () => void;
}

/** Takes over the terminal. `cursor` gives the place of the cursor for the frame being painted. */
export function takeScreen(
  stdin: NodeJS.ReadStream,
  stdout: NodeJS.WriteStream,
  cursor: () => CursorPlace | undefined,
): Screen {
  let painted: Painted = NOTHING_PAINTED;
  let taken = true;
  const size = (): Size => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 });
  const frames = new FrameStream(size, (frame) => {
    if (!taken) return;
    const result = paint(painted, frame, cursor());
    painted = result.painted;
    if (result.bytes !== '') stdout.write(result.bytes);
  });
  stdin.setRawMode(true);
  stdout.write(ENTER);
  return {
    size,
    frames,
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
