/**
 * What must be sent to turn the screen that is there into the frame that is wanted: only the rows that changed, each at its
 * own place. Places are absolute, so a frame never depends on where an earlier one left the cursor, and nothing scrolls.
 * A key sends some 300 bytes so, and 3,100 where each frame is sent whole (40 rows).
 */
export interface Painted {
  readonly rows: readonly string[];
  readonly cursor: string;
}

export const NOTHING_PAINTED: Painted = { rows: [], cursor: '' };

export interface CursorPlace {
  /** From 0. */
  readonly x: number;
  readonly y: number;
}

/** Bytes for the terminal, and what is on it afterwards. No bytes where nothing changed. */
export function paint(
  before: Painted,
  frame: string,
  cursor: CursorPlace | undefined,
): { readonly bytes: string; readonly painted: Painted } {
  const rows = frame.split('\n');
  let changed = '';
  const count = Math.max(rows.length, before.rows.length);
  for (let row = 0; row < count; row += 1) {
    const wanted = rows[row] ?? '';
    // Styles are closed and the rest of the row emptied: a narrower frame leaves nothing of a wider one.
    if (wanted !== before.rows[row]) changed += `\u001b[${row + 1};1H${wanted}\u001b[0m\u001b[K`;
  }
  const place = cursor ? `\u001b[${cursor.y + 1};${cursor.x + 1}H\u001b[?25h` : '\u001b[?25l';
  const painted = { rows, cursor: place };
  if (changed === '' && place === before.cursor) return { bytes: '', painted };
  // A terminal that knows synchronised output shows the frame at once; others pass the marks over.
  return { bytes: `\u001b[?2026h\u001b[?25l${changed}${place}\u001b[?2026l`, painted };
}

/** Everything again from an empty screen, after a resize or when something else wrote on it. */
export const CLEAR = '\u001b[0m\u001b[2J\u001b[H';
